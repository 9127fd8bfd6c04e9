package papers

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/day"
)

// asBefore holds a text against its golden file.
func asBefore(t testing.TB, file, got string) {
	t.Helper()
	path := filepath.Join("testdata", file)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s has changed; look at it, then run with -update. Now:\n%s", file, got)
	}
}

// messagesOf are a day's messages, by whom they are for.
func messagesOf(p *plan.Plan, d day.Day) map[plan.ID]string {
	out := map[plan.ID]string{"": Message(p, d, "")}
	for _, who := range p.People {
		out[who.ID] = Message(p, d, who.ID)
	}
	return out
}

// TestMessages holds the messages of the demo, and that they are short enough to be read in a chat: 1200 letters, a limit of our own.
func TestMessages(t *testing.T) {
	p, days := toWrite(t)
	all := messagesOf(&p, days[0])
	for who, text := range all {
		if n := utf8.RuneCountInString(text); n > 1200 {
			t.Errorf("to %q: %d letters", who, n)
		}
	}
	asBefore(t, "message-all.txt", all[""])
	asBefore(t, "message-crew.txt", all["teo"])
	asBefore(t, "message-guardian.txt", all["amara"])
	for who, words := range map[plan.ID]string{"otto": "Otto Lindqvarn is not called on this day.", "nobody": "nobody is not called on this day.", "mia": "The call of Mia Sandoval: 07:20"} {
		if text := Message(&p, days[0], who); !strings.Contains(text, words) {
			t.Errorf("%q is not in\n%s", words, text)
		}
	}
}

// TestMessagesLeakNothing: what is private changes no message; none has anybody's phone but the maker's and the hospital's, and the one for
// all and those of other people name no minor.
func TestMessagesLeakNothing(t *testing.T) {
	p, days := toWrite(t)
	before := messagesOf(&p, days[0])
	secret := p.Clone()
	secret.Brief.Notes = "LEAK brief"
	for i := range secret.People {
		q := &secret.People[i]
		q.Notes, q.Diet, q.Pronouns, q.Sizes, q.Email, q.Born = "LEAK", "LEAK", "LEAK", "LEAK", "leak@example.org", plan.Date{Year: 1984, Month: 2, Day: 5}
		if q.Minor {
			q.Born.Year = 2017
		}
		if q.Paid = !q.Paid; q.ID != "noor" {
			q.Phone = "LEAK phone"
		}
	}
	for who, text := range messagesOf(&secret, days[0]) {
		if text != before[who] {
			t.Errorf("what is private changes the message to %q:\n%s", who, text)
		}
		if n := strings.Count(text, "555"); n != 2 || !strings.Contains(text, "Noor Halvardsen, +1 760 555 0101") || !strings.Contains(text, "General, 2200 Basin Road, +1 760 555 0150") {
			t.Errorf("%d phones in the message to %q:\n%s", n, who, text)
		}
		for _, minor := range []string{"mia", "jon"} {
			if q, _ := p.Person(plan.ID(minor)); strings.Contains(text, q.Name) && who != q.ID && who != "amara" {
				t.Errorf("%s is in the message to %q:\n%s", q.Name, who, text)
			}
		}
	}
}

// TestMessageOfAnything: no day, no zone, a date that may move, names of any letters: each message is lines of what can be seen.
func TestMessageOfAnything(t *testing.T) {
	p, days := toWrite(t)
	empty := plan.New()
	if text := Message(&empty, day.Day{}, ""); text != "Our film\nDate not set\n\nThe day is not placed yet.\n\nTimes are in UTC: the time zone is not set. The call sheet has the rest, and safety.\n" {
		t.Errorf("of nothing: %q", text)
	}
	p.Shooting.Dates = []plan.Date{days[0].Date, days[0].Date.AddDays(1)}
	if text := Message(&p, days[0], ""); !strings.Contains(text, "Saturday 6 March 2027\nThe date is not final yet.\n") {
		t.Errorf("of two dates: %s", text)
	}
	unplaced := days[0]
	unplaced.Call = time.Time{}
	if text := Message(&p, unplaced, "grete"); !strings.Contains(text, "not placed yet") || strings.Contains(text, "07:") {
		t.Errorf("not placed: %s", text)
	}
	p.Papers.Clock, p.Papers.Dates = plan.Clock12, "de"
	if text := Message(&p, days[0], "grete"); !strings.Contains(text, "Samstag, 6. März 2027") || !strings.Contains(text, "Your call: 7:20 am, until about 5:35 pm") {
		t.Errorf("in another style: %s", text)
	}
	for _, s := range append(injections, htmlInjections...) {
		p.Title, p.Property.Name, p.Property.Address, p.Papers.Parking, p.Papers.Hospital, p.People[0].Phone = s, s, s, s, s, s
		for i := range p.People {
			p.People[i].Name = s
		}
		for i := range p.Scenes {
			p.Scenes[i].Title, p.Scenes[i].Looks = s, []plan.Look{{Person: "grete", Look: s}}
		}
		for i := range p.Property.Spaces {
			p.Property.Spaces[i].Name = s
		}
		for who, text := range messagesOf(&p, days[0]) {
			if !utf8.ValidString(text) || strings.ContainsFunc(text, func(r rune) bool { return r != '\n' && unicode.IsControl(r) }) || strings.Contains(text, "\n\n\n") {
				t.Errorf("%q to %q: %q", s, who, text)
			}
		}
	}
}
