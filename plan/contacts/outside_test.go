package contacts

import (
	"bytes"
	"encoding/json"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
)

// pythonWithVobject finds a Python that has vobject, a general-purpose reader of vCards (Debian: python3-vobject). The system's own is
// looked at too: another that comes first in the path may lack it.
func pythonWithVobject(t *testing.T) string {
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import vobject").Run() == nil {
			return python
		}
	}
	t.Skip("no python3 with vobject here (Debian: apt install python3-vobject); the cards are held against our own reader only")
	return ""
}

// run has Python do something with what it reads, and returns what it says.
func run(t *testing.T, python, script, in string) []byte {
	t.Helper()
	cmd := exec.Command(python, "-X", "utf8", "-c", script)
	cmd.Stdin = strings.NewReader(in)
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, complaint.String())
	}
	return out
}

// invented are people with everything that a card has to carry; none of them is real.
var invented = []plan.Person{
	{ID: "ida", Name: "Ida Möller", Phone: "+49 30 1234567", Email: "ida@example.org", Job: "the aunt; also cook", Role: plan.Talent,
		Notes: "Eats fish, no nuts.\nBackslash \\ and semicolon; comma, colon:"},
	{ID: "noa", Name: "נועה לוי", Notes: strings.Repeat("ארוך מאוד ", 40)},
	{ID: "long", Name: strings.TrimSpace(strings.Repeat("名 ", 100)), Email: "long@example.org"},
	{ID: "film", Name: "👩🏽\u200d🎤 Noor 🎬", Phone: "+1 555 0100 ext. 5"},
}

// TestAnotherReaderReadsOurCards holds both to it: the cards that are given away, and those of the address book.
func TestAnotherReaderReadsOurCards(t *testing.T) {
	python := pythonWithVobject(t)
	for name, more := range map[string]func(Contact, func(name, value string)){"given away": nil, "of the book": writeOwn} {
		t.Run(name, func(t *testing.T) { anotherReads(t, python, more) })
	}
}

func anotherReads(t *testing.T, python string, more func(Contact, func(name, value string))) {
	var cards []Contact
	for _, p := range invented {
		cards = append(cards, FromPerson(p))
	}
	cards[0].Person.Born = plan.Date{Year: 1990, Month: 2, Day: 13}
	cards[0].Person.Diet, cards[0].Person.Weight, cards[0].Guardian = "no nuts, please; "+strings.Repeat("fish ", 30), 2, cards[1].UID
	var file bytes.Buffer
	if err := writeCards(&file, cards, more); err != nil {
		t.Fatal(err)
	}
	var got []map[string]string
	out := run(t, python, `
import sys, json, vobject
text = sys.stdin.buffer.read().decode("utf-8")
def value(card, name):
    return getattr(card, name).value if hasattr(card, name) else ""
print(json.dumps([{n: value(c, n) for n in ["version", "uid", "fn", "tel", "email", "role", "bday", "note"]} for c in vobject.readComponents(text)]))
`, file.String())
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	if len(got) != len(cards) {
		t.Fatalf("%d cards, want %d", len(got), len(cards))
	}
	for i, c := range cards {
		p := c.Person
		want := map[string]string{"version": "4.0", "uid": UID(p), "fn": p.Name, "tel": p.Phone, "email": p.Email, "role": p.Job,
			"bday": strings.ReplaceAll(p.Born.String(), "-", ""), "note": strings.TrimSpace(p.Notes)}
		for name, w := range want {
			wantText(t, name, got[i][name], w)
		}
	}
}

func TestWeReadAnotherWritersCards(t *testing.T) {
	python := pythonWithVobject(t)
	in, err := json.Marshal(invented)
	if err != nil {
		t.Fatal(err)
	}
	out := run(t, python, `
import sys, json, vobject
for p in json.loads(sys.stdin.buffer.read().decode("utf-8")):
    c = vobject.vCard()
    c.add("fn").value = p["Name"]
    c.add("n").value = vobject.vcard.Name(given=p["Name"])
    for name, key in [("tel", "Phone"), ("email", "Email"), ("role", "Job"), ("note", "Notes")]:
        if p[key]:
            c.add(name).value = p[key]
    sys.stdout.buffer.write(c.serialize().encode("utf-8"))
`, string(in))
	got, found, err := ReadCards(bytes.NewReader(out), today)
	if err != nil || len(found) > 0 || len(got) != len(invented) {
		t.Fatalf("%d people, %v, %v from\n%s", len(got), err, found, out)
	}
	for i, want := range invented {
		p := got[i].Person
		was := []string{want.Name, want.Phone, want.Email, want.Job, strings.TrimSpace(want.Notes)}
		if now := []string{p.Name, p.Phone, p.Email, p.Job, p.Notes}; !slices.Equal(now, was) {
			t.Errorf("got  %q\nwant %q", now, was)
		}
	}
}
