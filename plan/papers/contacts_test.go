package papers

import (
	"bytes"
	"encoding/json"
	"os/exec"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/contacts"
)

// cardRead is a card as a reader of vCards has it.
type cardRead struct{ UID, Name, Tel, Role, Note, Rest string }

// byVCard reads cards with vobject; Rest are the properties that are none of ours.
const byVCard = `
import json, sys, vobject
out = []
for c in vobject.readComponents(sys.stdin.buffer.read().decode("utf-8")):
    s = lambda n: getattr(c, n).value if hasattr(c, n) else ""
    rest = sorted(set(c.contents) - {"version", "uid", "fn", "tel", "role", "categories", "note"})
    out.append({"UID": s("uid"), "Name": s("fn"), "Tel": s("tel"), "Role": s("role"), "Note": s("note"), "Rest": " ".join(rest)})
json.dump(out, sys.stdout)
`

func readCardsBy(t testing.TB, python string, file []byte) []cardRead {
	t.Helper()
	cmd := exec.Command(python, "-X", "utf8", "-c", byVCard)
	cmd.Stdin = bytes.NewReader(file)
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	told, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, complaint.String())
	}
	var out []cardRead
	if err := json.Unmarshal(told, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// TestContacts: the adults who are called and the guardians have a card, minors none; nothing but what the call sheet has of them is in it.
func TestContacts(t *testing.T) {
	p, days := toWrite(t)
	for i := range p.People {
		q := &p.People[i]
		q.Notes, q.Diet, q.Sizes, q.Pronouns, q.Email, q.Born = "LEAK", "LEAK", "LEAK", "LEAK", "leak@example.org", plan.Date{Year: 1984, Month: 2, Day: 5}
		if q.Minor {
			q.Born.Year, q.Guardian = 2017, "otto" // who is not called
		}
	}
	file := Contacts(&p, days)
	for _, word := range []string{"LEAK", "leak@", "1984", "2017", "555 019", "FN:Mia", "FN:Jon"} {
		if bytes.Contains(file, []byte(word)) {
			t.Errorf("%s is in\n%s", word, file)
		}
	}
	ours, found, err := contacts.ReadCards(bytes.NewReader(file), plan.Date{Year: 2027, Month: 3, Day: 1})
	if err != nil || len(found) > 0 || len(ours) != 8 {
		t.Fatalf("%d cards, %v, %v in\n%s", len(ours), found, err, file)
	}
	got := readCardsBy(t, pythonWith(t, "vobject", "python3-vobject"), file)
	want := map[string]string{"Noor Halvardsen": "01", "Teo Brackwater": "02", "Ines Calloway-Ruiz": "03", "Dora Wexhall": "04", "Grete Sandoval": "05", "Paul Sandoval": "06",
		"Amara Sandoval": "07", "Otto Lindqvarn": "08"}
	for _, c := range got {
		note := "For A day at Quillfern House, Saturday 6 March 2027. Please delete this when the film is done."
		if c.Name == "Otto Lindqvarn" {
			note = "Guardian of Mia Sandoval and Jon Sandoval.\n" + note
		}
		if c.Tel != "+1 760 555 01"+want[c.Name] || c.Note != note || c.Rest != "" || !strings.HasPrefix(c.UID, "urn:uuid:") {
			t.Errorf("%+v", c)
		}
		delete(want, c.Name)
	}
	if len(want) > 0 {
		t.Errorf("no card for %v", want)
	}
	if again := Contacts(&p, days); !bytes.Equal(again, file) {
		t.Error("the same people are written in two ways")
	}
	p.People[0].Phone = " \n"
	if bytes.Contains(Contacts(&p, days), []byte("Noor")) {
		t.Error("a card of somebody who can't be reached")
	}
	if file := Contacts(&p, nil); len(file) > 0 {
		t.Errorf("cards of no day: %s", file)
	}
}

// TestContactsOfHostileNames: no name writes a line of its own (RFC 6350, section 3.4), and each is one card.
func TestContactsOfHostileNames(t *testing.T) {
	for _, s := range append(injections, "x\r\nEND:VCARD\r\nBEGIN:VCARD", "a;b,c\\n") {
		p, days := toWrite(t)
		p.Title = s
		for i := range p.People {
			p.People[i].Name, p.People[i].Job = s, s
			p.People[i].Phone = strings.TrimSuffix(p.People[i].Phone+" "+s, " ")
		}
		file := Contacts(&p, days)
		if n := strings.Count("\r\n"+string(file), "\r\nBEGIN:VCARD\r\n"); n != 7 || strings.Contains(string(file), "\r\nBcc") {
			t.Errorf("%q: %d cards in\n%s", s, n, file)
		}
		for line := range strings.SplitSeq(string(file), "\r\n") {
			if len(line) > 75 || strings.ContainsAny(line, "\r\n") { // section 3.2
				t.Errorf("%q: the line %q", s, line)
			}
		}
	}
}
