package papers

import (
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// What is due by when is common practice, no published source; the words are our own, and these tests hold what has to be in them.

// toWrite is the demo with mail addresses, its maker, and releases that can be sent.
func toWrite(t testing.TB) (plan.Plan, []day.Day) {
	p, d := demo(t)
	for i := range p.People {
		p.People[i].Email = string(p.People[i].ID) + "@example.org"
	}
	p.Papers.Producer = "Noor Halvardsen"
	p.Releases = append(p.Releases, plan.Release{ID: "r-mia", Kind: plan.MinorRelease, Party: "mia"},
		plan.Release{ID: "flight", Kind: plan.DroneRelease, Party: "ines", Subject: "over the garden"},
		plan.Release{ID: "house", Kind: plan.PropertyRelease, Party: "otto", Subject: "Quillfern House", Status: plan.Sent, Changed: plan.Date{Year: 2027, Month: 2, Day: 1}})
	for i := range p.Releases {
		r := &p.Releases[i]
		r.Media, r.Territory, r.Term, r.Compensation = "web and social", "worldwide", "three years", "USD 4711"
	}
	for i := range p.Scenes {
		if s := &p.Scenes[i]; s.ID == "s3" || s.ID == "s9" {
			s.Looks = []plan.Look{{Person: "grete", Look: "apron"}, {Person: "mia", Look: "nobody's"}, {Person: "paul", Look: "grey suit"}}
		}
	}
	return p, []day.Day{d}
}

func draftTo(t testing.TB, list []Draft, who plan.ID) Draft {
	t.Helper()
	for _, d := range list {
		if d.To == who {
			return d
		}
	}
	t.Fatalf("no draft to %s", who)
	return Draft{}
}

func TestDrafts(t *testing.T) {
	p, days := toWrite(t)
	early, eve, after := plan.Date{Year: 2027, Month: 2, Day: 10}, plan.Date{Year: 2027, Month: 3, Day: 5}, plan.Date{Year: 2027, Month: 3, Day: 20}
	for _, c := range []struct {
		name    string
		to      plan.ID
		today   plan.Date
		subject string
		files   string
		has     []string
		lacks   []string
	}{
		{"somebody in the film", "grete", early, "A day at Quillfern House, Saturday 6 March 2027: please sign", "release-r-grete.pdf calendar-grete.ics",
			[]string{"Hello Grete Sandoval,\n", "418 Sandgrouse Lane", "Your call on Saturday 6 March 2027: 07:20, until about 17:35\n", "- Your model release. You have had it before",
				"by Wednesday 3 March 2027", "apron (scenes 3 and 9)", "your sizes: clothes and shoes", "or a call: +1 760 555 0101", "Noor Halvardsen\n"},
			[]string{"grey suit", "nobody's", "attached", "guardian", "minors"}},
		{"a guardian, for two minors", "amara", early, "A day at Quillfern House, Saturday 6 March 2027: please sign", "release-r-mia.pdf calendar-amara.ics",
			[]string{"you, Mia Sandoval and Jon Sandoval are part of it", "The call of Mia Sandoval on Saturday 6 March 2027: 07:20, until about 16:45\n",
				"- The minor's release for Mia Sandoval, which you sign as the guardian.", "Mia Sandoval: nobody's (scene 3)", "Please stay at the house while Mia Sandoval and Jon Sandoval are with us",
				"the law of the place decides"}, []string{"Your model release"}},
		{"the pilot", "ines", early, "A day at Quillfern House, Saturday 6 March 2027: please sign", "release-flight.pdf calendar-ines.ics",
			[]string{"- The drone authorisation: over the garden. It comes with this.", "please bring your certificate", "The local aviation authority"}, []string{"sizes", "What to wear"}},
		{"the owner, who does not come", "otto", early, "A day at Quillfern House, Saturday 6 March 2027: please sign", "release-house.pdf",
			[]string{"only you can allow", "You have had it since Monday 1 February 2027"}, []string{"Your call", "calendar", "eat", "Please tell us", "when you arrive"}},
		{"crew", "teo", early, "A day at Quillfern House, Saturday 6 March 2027: please confirm", "calendar-teo.ics", []string{"A calendar file comes with this", "05:25, until about 19:50", "should not eat"}, []string{"To sign", "sizes"}},
		{"the evening before", "teo", eve, "A day at Quillfern House, Saturday 6 March 2027: call sheet", "call-sheet-2027-03-06-teo.pdf calendar-teo.ics", []string{"The call sheet comes with this; its times hold."}, nil},
		{"the evening before, to a guardian: theirs and the minors'", "amara", eve, "A day at Quillfern House, Saturday 6 March 2027: please sign", "release-r-mia.pdf call-sheet-2027-03-06-amara.pdf call-sheet-2027-03-06-mia.pdf call-sheet-2027-03-06-jon.pdf calendar-amara.ics",
			[]string{"as soon as you can"}, nil},
		{"when it is over", "grete", after, "A day at Quillfern House, Saturday 6 March 2027: please sign", "release-r-grete.pdf",
			[]string{"We filmed “A day at Quillfern House”", "One thing is still missing"}, []string{"Your call", "when you arrive", "not final"}},
	} {
		d := draftTo(t, Drafts(&p, days, c.today), c.to)
		if files := strings.Join(d.Attached(), " "); d.Subject != c.subject || files != c.files || d.Stop != nil {
			t.Errorf("%s: %q with %s (%s)", c.name, d.Subject, files, d.Stop)
		}
		for _, words := range c.has {
			if !strings.Contains(d.Text, words) {
				t.Errorf("%s: %q is not in\n%s", c.name, words, d.Text)
			}
		}
		for _, words := range c.lacks {
			if strings.Contains(d.Text, words) {
				t.Errorf("%s: %q is in\n%s", c.name, words, d.Text)
			}
		}
	}
}

// TestDraftsWho: one letter a grown-up, none to a minor, to the maker, to who has signed and does not come, or for what is not ready.
func TestDraftsWho(t *testing.T) {
	p, days := toWrite(t)
	var got []string
	for _, d := range Drafts(&p, days, plan.Date{Year: 2027, Month: 3, Day: 1}) {
		got = append(got, string(d.To))
	}
	slices.Sort(got)
	if want := "amara dora grete ines otto paul teo"; strings.Join(got, " ") != want { // Dora is called on the day written by hand
		t.Errorf("drafts to %v, want %s", got, want)
	}
	for i := range p.Releases {
		if p.Releases[i].ID == "house" {
			p.Releases[i].Media = ""
		}
	}
	after := plan.Date{Year: 2027, Month: 3, Day: 20}
	for _, d := range Drafts(&p, days, after) {
		if d.To == "otto" {
			t.Errorf("a letter about what is not ready:\n%s", d.Text)
		}
	}
	if got := Drafts(&p, nil, after); len(got) == 0 || strings.Contains(got[0].Subject, "0001") {
		t.Errorf("without a day: %+v", got)
	}
	empty := plan.New()
	if got := Drafts(&empty, []day.Day{{}}, after); len(got) > 0 {
		t.Errorf("of an empty plan: %+v", got)
	}
}

// TestDraftsLeakNothing: a letter holds nobody's address but its reader's, nobody's phone but the maker's, no fee, no date of birth, no
// health note, no private note; and what is private changes no letter.
func TestDraftsLeakNothing(t *testing.T) {
	p, days := toWrite(t)
	for _, today := range []plan.Date{{Year: 2027, Month: 2, Day: 1}, {Year: 2027, Month: 3, Day: 5}, {Year: 2027, Month: 3, Day: 20}} {
		before := Drafts(&p, days, today)
		secret := p.Clone()
		secret.Brief.Notes, secret.Brief.Purpose = "LEAK brief", "LEAK purpose"
		for i := range secret.People {
			q := &secret.People[i]
			q.Notes, q.Diet, q.Pronouns, q.Job = "LEAK notes", "LEAK diet", "LEAK pronouns", "LEAK job"
			if q.Sizes != "" {
				q.Sizes = "LEAK sizes"
			}
			q.Born = plan.Date{Year: 1984, Month: 2, Day: 5}
			if q.Minor {
				q.Born.Year = 2017
			}
			if q.Paid = !q.Paid; q.ID != "noor" {
				q.Phone = "LEAK phone"
			}
		}
		list := Drafts(&secret, days, today)
		if len(list) != len(before) || len(list) == 0 {
			t.Fatalf("%d letters, %d before", len(list), len(before))
		}
		for i, d := range list {
			whole := d.Subject + "\n" + d.Text + d.HTML
			if whole != before[i].Subject+"\n"+before[i].Text+before[i].HTML {
				t.Errorf("what is private changes the letter to %s:\n%s", d.To, whole)
			}
			for _, word := range []string{"LEAK", "1984", "2017", "4711", "@example.org", "555 019"} {
				if strings.Contains(whole, word) {
					t.Errorf("%s is in the letter to %s:\n%s", word, d.To, whole)
				}
			}
			raw, err := d.Mail(&secret, NewCalendars(&secret, days, madeAt), madeAt)
			if err != nil {
				t.Fatal(err)
			}
			got := byGo(t, raw)
			if got.From[0][1] != "noor@example.org" || len(got.To) != 1 || got.To[0][1] != string(d.To)+"@example.org" {
				t.Errorf("from %v to %v", got.From, got.To)
			}
			for _, other := range secret.People {
				if other.ID != d.To && other.ID != "noor" && bytes.Contains(raw, []byte(other.Email)) {
					t.Errorf("the address of %s is in the mail to %s", other.ID, d.To)
				}
			}
		}
	}
}

// TestWriteDrafts: the mails are read back by both readers with the papers in them, are private files, stay as they are, and are the
// same for the same clock; where one can't be written, none is.
func TestWriteDrafts(t *testing.T) {
	p, days := toWrite(t)
	p.People[1].Email = "not an address"
	list := Drafts(&p, days, plan.Date{Year: 2027, Month: 3, Day: 5})
	dir := filepath.Join(t.TempDir(), "papers")
	wrote, err := WriteDrafts(dir, &p, days, list, madeAt, false)
	paths := wrote.Paths
	if err != nil || len(paths) != len(list)-1 || !reflect.DeepEqual(wrote.Calendar, NewCalendars(&p, days, madeAt).Sent) {
		t.Fatalf("%v, %v", wrote, err)
	}
	for _, path := range paths {
		raw, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		wellFormed(t, raw)
		d := draftTo(t, list, plan.ID(strings.TrimSuffix(strings.TrimPrefix(filepath.Base(path), "mail-"), ".eml")))
		for _, got := range []readBack{byGo(t, raw), byPython(t, raw)} {
			if got.Subject != d.Subject || strings.ReplaceAll(got.Text, "\r\n", "\n") != d.Text || strings.ReplaceAll(got.HTML, "\r\n", "\n") != d.HTML || got.Unsent != "1" ||
				got.To[0] != [2]string{d.Name, d.Email} || got.Date != "2027-03-02T14:05:00-08:00" || len(got.Files) != len(d.Attached()) {
				t.Errorf("read back: %+v", got)
			}
			for i, f := range got.Files {
				content, err := base64.StdEncoding.DecodeString(f.Content)
				kind, start := "application/pdf", "%PDF-"
				if strings.HasSuffix(f.Name, ".ics") {
					kind, start = "text/calendar", "BEGIN:VCALENDAR\r\n"
				}
				if err != nil || !bytes.HasPrefix(content, []byte(start)) || f.Name != d.Attached()[i] || f.Type != kind {
					t.Errorf("%s: %v", f.Name, err)
				}
			}
		}
		if again, err := d.Mail(&p, NewCalendars(&p, days, madeAt), madeAt); err != nil || !bytes.Equal(again, raw) {
			t.Errorf("%s is another one the second time (%v)", path, err)
		}
	}
	if _, err := WriteDrafts(dir, &p, days, list, madeAt, false); !errors.Is(err, fs.ErrExist) {
		t.Errorf("written over: %v", err)
	}
	if again, err := WriteDrafts(dir, &p, days, list, madeAt, true); err != nil || !slices.Equal(again.Paths, paths) {
		t.Errorf("%v, %v", again, err)
	}
	other := t.TempDir()
	if err := os.MkdirAll(filepath.Join(other, filepath.Base(paths[len(paths)-1]), "in the way"), 0o700); err != nil {
		t.Fatal(err)
	}
	if _, err := WriteDrafts(other, &p, days, list, madeAt, true); err == nil {
		t.Error("a folder was replaced")
	}
	if found, _ := os.ReadDir(other); len(found) != 1 {
		t.Errorf("a failed writing leaves %v", found)
	}
}

// TestDraftsOfHostileNames: names and titles as bad as they come give one mail each, in a file of a safe name.
func TestDraftsOfHostileNames(t *testing.T) {
	for _, s := range injections {
		p, days := toWrite(t)
		p.Title, p.Property.Name, p.Papers.Producer = s, s, s
		for i := range p.People {
			p.People[i].Name = s
		}
		p.People[4].ID = "../CON: *?" // no id of a plan that is right
		p.Releases = p.Releases[:1]
		p.Releases[0].Subject = s
		list := Drafts(&p, days, plan.Date{Year: 2027, Month: 3, Day: 1})
		dir := t.TempDir()
		wrote, err := WriteDrafts(dir, &p, days, list, madeAt, false)
		if err != nil || len(wrote.Paths) == 0 {
			t.Fatalf("%q: %v %v", s, wrote.Paths, err)
		}
		for _, path := range wrote.Paths {
			if filepath.Dir(path) != dir || strings.ContainsAny(filepath.Base(path), `:*?<>|"/\`) {
				t.Errorf("written as %s", path)
			}
			raw, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			wellFormed(t, raw)
			if got := byGo(t, raw); len(got.To) != 1 || got.To[0][0] != oneLine(s) && oneLine(s) != "" || slices.Contains(got.Headers, "Bcc") {
				t.Errorf("%q: to %q, fields %v", s, got.To, got.Headers)
			}
		}
	}
}

// TestDraftFromNobody: where the plan has no address of the maker, the mail has no From, which the program that sends it fills in: so it
// is no message of RFC 5322 yet (section 3.6 asks for one), and both readers open it all the same.
func TestDraftFromNobody(t *testing.T) {
	p, days := toWrite(t)
	p.Papers.Producer = "Somebody else"
	d := draftTo(t, Drafts(&p, days, plan.Date{Year: 2027, Month: 3, Day: 1}), "grete")
	raw, err := d.Mail(&p, NewCalendars(&p, days, madeAt), madeAt)
	if err != nil {
		t.Fatal(err)
	}
	for _, got := range []readBack{byGo(t, raw), byPython(t, raw)} {
		if slices.Contains(got.Headers, "From") || got.To[0][1] != "grete@example.org" || !strings.HasSuffix(got.Text, "Somebody else\r\n") && !strings.HasSuffix(got.Text, "Somebody else\n") {
			t.Errorf("%+v", got)
		}
	}
}

// BenchmarkDrafts300 is a film of three hundred people, each with a release to be signed.
func BenchmarkDrafts300(b *testing.B) {
	p, days := toWrite(b)
	for i := range 300 {
		who := plan.Person{ID: plan.ID(fmt.Sprint("p", i)), Name: fmt.Sprint("Person ", i), Role: plan.Talent}
		p.People = append(p.People, who)
		p.Releases = append(p.Releases, plan.Release{ID: "r-" + who.ID, Kind: plan.ModelRelease, Party: who.ID, Media: "web", Territory: "all", Term: "long"})
		s := &p.Scenes[i%len(p.Scenes)]
		s.People = append(s.People, who.ID)
		days[0].People = append(days[0].People, day.Presence{Person: who.ID, Call: days[0].Call, Release: days[0].Wrap})
	}
	for b.Loop() {
		if got := Drafts(&p, days, plan.Date{Year: 2027, Month: 3, Day: 1}); len(got) < 300 {
			b.Fatal(len(got))
		}
	}
}

// TestSheetDrafts: everybody who is called gets their call sheet and their calendar, also long before; a minor's goes to the guardian.
func TestSheetDrafts(t *testing.T) {
	p, days := toWrite(t)
	early, eve := plan.Date{Year: 2027, Month: 2, Day: 1}, plan.Date{Year: 2027, Month: 3, Day: 5}
	var got []string
	for _, d := range SheetDrafts(&p, days, early) {
		got = append(got, string(d.To)+": "+strings.Join(d.Attached(), " "))
		if d.Subject != "A day at Quillfern House, Saturday 6 March 2027: call sheet" || d.Stop != nil || strings.Contains(d.Text, "Please tell us") || strings.Contains(d.Text, "To sign") {
			t.Errorf("%q, %s\n%s", d.Subject, d.Stop, d.Text)
		}
	}
	slices.Sort(got)
	want := []string{"amara: call-sheet-2027-03-06-amara.pdf call-sheet-2027-03-06-mia.pdf call-sheet-2027-03-06-jon.pdf calendar-amara.ics"}
	for _, who := range []string{"dora", "grete", "ines", "paul", "teo"} {
		want = append(want, who+": call-sheet-2027-03-06-"+who+".pdf calendar-"+who+".ics")
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q,\nwant %q", got, want)
	}
	for _, c := range []struct {
		to    plan.ID
		today plan.Date
		has   []string
	}{
		{"grete", early, []string{"Your call on Saturday 6 March 2027: 07:20, until about 17:35\n", "as it stands comes with this", "Address: Quillfern House, 418 Sandgrouse Lane, Lower Marl\nPosition: 34.12340, -116.43210\n",
			"Parking: Along the lane", "Nearest hospital: Lower Marl General", "apron (scenes 3 and 9)", "or a call: +1 760 555 0101"}},
		{"grete", eve, []string{"its times hold"}},
		{"amara", early, []string{"The call of Mia Sandoval on Saturday 6 March 2027: 07:20", "Please stay at the house", "the law of the place decides"}},
	} {
		d := draftTo(t, SheetDrafts(&p, days, c.today), c.to)
		for _, words := range c.has {
			if !strings.Contains(d.Text, words) {
				t.Errorf("%q is not in\n%s", words, d.Text)
			}
		}
	}
	raw, err := draftTo(t, SheetDrafts(&p, days, early), "amara").Mail(&p, NewCalendars(&p, days, madeAt), madeAt)
	if err != nil {
		t.Fatal(err)
	}
	for _, got := range []readBack{byGo(t, raw), byPython(t, raw)} {
		kinds := "multipart/mixed multipart/alternative text/plain text/html application/pdf application/pdf application/pdf text/calendar"
		if strings.Join(got.Kinds, " ") != kinds || got.Unsent != "1" || len(got.Files) != 4 {
			t.Errorf("read %v with %d files", got.Kinds, len(got.Files))
		}
	}
	dir := t.TempDir()
	if wrote, err := WriteDrafts(dir, &p, days, SheetDrafts(&p, days, early), madeAt, false); err != nil || len(wrote.Paths) != 6 || !strings.HasPrefix(filepath.Base(wrote.Paths[0]), "mail-call-sheet-") {
		t.Errorf("%v %v", wrote.Paths, err)
	}
	if _, err := WriteDrafts(dir, &p, days, Drafts(&p, days, eve), madeAt, false); err != nil {
		t.Errorf("beside the reminders: %v", err)
	}
	p.People[1].Email = ""
	if d := draftTo(t, SheetDrafts(&p, days, early), "teo"); d.Stop == nil {
		t.Error("a mail to nowhere")
	}
	days[0].Call = time.Time{}
	if got := SheetDrafts(&p, days, early); len(got) > 0 {
		t.Errorf("a call sheet of a day that is not placed: %+v", got)
	}
	if got := SheetDrafts(&p, nil, early); len(got) > 0 {
		t.Errorf("a call sheet of no day: %+v", got)
	}
}

// TestSheetOfALaterDay: on the eve of a second day, nobody is asked to confirm the first any more; who comes is written to as one who does.
func TestSheetOfALaterDay(t *testing.T) {
	p, days := toWrite(t)
	second := movedBy(days[0], 48*time.Hour)
	days[0].Number, days[0].Of, second.Number, second.Of = 1, 2, 2, 2
	d := draftTo(t, Drafts(&p, append(days, second), plan.Date{Year: 2027, Month: 3, Day: 7}), "teo")
	if files := strings.Join(d.Attached(), " "); files != "call-sheet-2027-03-08-teo.pdf calendar-teo.ics" || !strings.Contains(d.Text, "we are glad that you are part of it") ||
		strings.Contains(d.Text, "only you can allow") || !strings.Contains(d.Text, "Your call on Monday 8 March 2027: 05:25") || strings.Contains(d.Text, "Your call on Saturday") {
		t.Errorf("%s with\n%s", files, d.Text)
	}
}
