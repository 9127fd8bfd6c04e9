package people

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// How many days before the shoot something is due is common practice, no published source; these tests are those rules by hand.

// due prints reminders, a line each: the day of October, "!" where it is late, who is written to, and what.
func due(p *plan.Plan, list []Reminder) string {
	var out []string
	for _, r := range list {
		when, mark := "-", ""
		if !r.Due.IsZero() {
			when = fmt.Sprint(r.Due.Day)
		}
		if r.Late {
			mark = "!"
		}
		line := fmt.Sprintf("%s%s %s: %s", when, mark, r.To, r.What(p))
		if !r.Stop.IsZero() {
			line += " / " + r.Stop.String()
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

// unsigned is the film with everything still to be signed, the house by the grandmother, the dog by the child, the rest by somebody.
func unsigned() plan.Plan {
	p := film()
	p.People = append(p.People, plan.Person{ID: "noor", Name: "noor halvardsen ", Role: plan.Crew}, plan.Person{ID: "otto", Name: "Otto Lindqvarn", Role: plan.Owner})
	for i := range p.Releases {
		r := &p.Releases[i]
		r.Status = plan.Needed
		if r.Party == "" {
			r.Party = "otto"
		}
		if r.Kind == plan.PetRelease {
			r.Party = "mia"
		}
	}
	p.Releases[7].Status = plan.Sent
	return p
}

func TestReminders(t *testing.T) {
	placed := Calls{Dates: []plan.Date{day(20)}, People: map[plan.ID][]plan.Date{"grete": {day(20)}, "mia": {day(20)}, "ines": {day(20)}, "noor": {day(20)}}}
	for _, c := range []struct {
		name   string
		change func(*plan.Plan)
		calls  Calls
		today  plan.Date
		want   string
	}{
		{"everything, long before", func(*plan.Plan) {}, placed, day(1), `
6 otto: send the property release: Marl House and its garden
6 otto: send the music release: “Slow tide”, piano
6 otto: send the artwork release: the mural beside the pool
6 otto: send the neighbour's release: the terrace at 6 Sandgrouse Lane
13 grete: send the model release of Grete Sandoval
13 amara: send the model release of Amara Sandoval / fill in what its text asks for: media, territory, term
13 amara: send the minor's release of Mia Sandoval
13 amara: send the pet release: Biscuit, a terrier
13 ines: ask again for the drone authorisation: over the house and garden, below 60 m
13 grete: ask whether the day suits, and about sizes and food
13 amara: ask whether the day suits, and about sizes and food for Mia Sandoval
13 ines: ask whether the day suits, and about food
19 grete: send the call sheet
19 amara: send the call sheet for Mia Sandoval
19 ines: send the call sheet`},
		{"all signed, the evening before: what the plan can't know is not late", func(p *plan.Plan) {
			for i := range p.Releases {
				p.Releases[i].Status = plan.Signed
			}
			p.SetOwnRelease("amara", plan.ModelRelease, plan.Signed, day(1))
		}, placed, day(19), `
13 grete: ask whether the day suits, and about sizes and food
13 amara: ask whether the day suits, and about sizes and food for Mia Sandoval
13 ines: ask whether the day suits, and about food
19 grete: send the call sheet
19 amara: send the call sheet for Mia Sandoval
19 ines: send the call sheet`},
		{"the states of one release, two days before", func(p *plan.Plan) {
			p.Scenes, p.People[2].Guardian = p.Scenes[1:], ""
			p.Scenes[1].People = nil
			p.Releases = p.Releases[:3]
			p.Releases[0].Status, p.Releases[1].Status, p.Releases[2].Status = plan.Declined, plan.Lapsed, plan.Declined
		}, Calls{Dates: []plan.Date{day(20)}, People: map[plan.ID][]plan.Date{}}, day(18), `
6! : property release: Marl House and its garden was declined: choose something else, or cut the scenes
13! : model release of Grete Sandoval was declined: choose somebody else, or cut the scenes
13! : send the minor's release of Mia Sandoval anew: the one signed has lapsed / name the guardian of Mia Sandoval`},
		{"the shoot is over: signatures alone", func(p *plan.Plan) { p.Releases = p.Releases[:1]; p.Scenes = p.Scenes[1:2] }, placed, day(25), `
13! grete: send the model release of Grete Sandoval
13! amara: send the minor's release of Mia Sandoval / fill in what its text asks for: media, territory, term`},
		{"no date", func(p *plan.Plan) { p.Releases = p.Releases[:1]; p.Scenes = p.Scenes[:1] }, Calls{}, day(1), `
- : send the drone authorisation: flights, for which no release is written down / write down a release for the flights`},
		{"dates, and no day placed", func(p *plan.Plan) { p.Releases = nil; p.Scenes = nil }, Calls{Dates: []plan.Date{day(20), day(21)}}, day(1), `
13 ines: ask whether the day suits, and about food`},
		{"a guardian who is a minor", func(p *plan.Plan) {
			p.People[1].Minor, p.Scenes, p.Releases = true, p.Scenes[1:2], p.Releases[:2]
			p.Releases[0].Status = plan.Signed
		}, Calls{Dates: []plan.Date{day(20)}, People: map[plan.ID][]plan.Date{"mia": {day(20)}}}, day(1), `
13 : send the minor's release of Mia Sandoval / name a guardian of Mia Sandoval who is of age
13 : ask whether the day suits, and about sizes and food for Mia Sandoval / name a guardian of Mia Sandoval who is of age
19 : send the call sheet for Mia Sandoval / name a guardian of Mia Sandoval who is of age`},
		{"by the day that each comes on", func(p *plan.Plan) {
			p.Releases, p.Scenes = p.Releases[:2], p.Scenes[1:2]
			p.Releases[1].Status = plan.Signed
		}, Calls{Dates: []plan.Date{day(20), day(21)}, People: map[plan.ID][]plan.Date{"grete": {day(21)}, "ines": {day(20), day(21)}}}, day(1), `
13 ines: ask whether the day suits, and about food
14 grete: send the model release of Grete Sandoval
14 grete: ask whether the day suits, and about sizes and food
19 ines: send the call sheet
20 grete: send the call sheet
20 ines: send the call sheet`},
	} {
		p := unsigned()
		c.change(&p)
		if got := due(&p, Reminders(&p, c.calls, c.today)); got != strings.TrimPrefix(c.want, "\n") {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

// TestReminderOfAChangedText: a signature under another text is to be asked for anew.
func TestReminderOfAChangedText(t *testing.T) {
	p := film()
	p.Scenes = p.Scenes[1:2]
	p.Releases[0].Signature = &plan.Signature{Digest: Digest("another text")}
	got := Reminders(&p, Calls{}, day(1))
	if len(got) != 1 || !got[0].Changed || got[0].What(&p).String() != "have the model release of Grete Sandoval signed anew: its text has changed" {
		t.Errorf("%+v", got)
	}
}

// TestMarkSent: what was sent is asked for again, by another day; what can't be sent stays as it is.
func TestMarkSent(t *testing.T) {
	calls := Calls{Dates: []plan.Date{day(20)}}
	for _, c := range []struct {
		name   string
		change func(*plan.Plan)
		want   string
	}{
		{"needed", func(*plan.Plan) {}, "17 grete: ask again for the model release of Grete Sandoval"},
		{"none written down, and its text asks for nothing", func(p *plan.Plan) {
			p.Releases = p.Releases[1:]
			p.Wordings = []plan.Wording{{Kind: plan.ModelRelease, Text: "I, {party}, agree."}}
		}, "17 grete: ask again for the model release of Grete Sandoval"},
		{"not filled in", func(p *plan.Plan) { p.Releases[0].Media = "" }, "13 grete: send the model release of Grete Sandoval / fill in what its text asks for: media"},
	} {
		p := film()
		p.Scenes = p.Scenes[1:2]
		p.Releases[0].Status = plan.Needed
		c.change(&p)
		Reminders(&p, calls, day(1))[0].MarkSent(&p, day(2))
		papers := slices.DeleteFunc(Reminders(&p, calls, day(2)), func(r Reminder) bool { return r.Kind == "" })
		if got, _, _ := strings.Cut(due(&p, papers), "\n"); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// TestRemindersHold: whatever the plan, nobody under age is written to, nothing signed is asked for, the days are in order, and late
// is what is due before today and nothing else.
func TestRemindersHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := unsigned()
		for i := range p.People {
			p.People[i].Minor = rapid.Bool().Draw(t, "minor")
			p.People[i].Guardian = plan.ID(rapid.SampledFrom([]string{"", "grete", "amara", "noor", "gone"}).Draw(t, "guardian"))
		}
		for i := range p.Releases {
			p.Releases[i].Status = rapid.SampledFrom(plan.ReleaseStatuses).Draw(t, "status")
		}
		calls := Calls{Dates: []plan.Date{day(rapid.IntRange(10, 28).Draw(t, "day"))}}
		today := day(rapid.IntRange(1, 30).Draw(t, "today"))
		list := Reminders(&p, calls, today)
		for i, r := range list {
			to, there := p.Person(r.To)
			if r.To != "" && (!there || Minor(&p, to, calls.Dates[0])) {
				t.Fatalf("to a minor: %+v", r)
			}
			if r.To == "" && r.Stop.IsZero() && r.Task != Replace {
				t.Fatalf("to nobody, and nothing said: %+v", r)
			}
			if r.Status == plan.Signed && !r.Changed {
				t.Fatalf("signed: %+v", r)
			}
			if i > 0 && r.Due.Before(list[i-1].Due) {
				t.Fatalf("out of order: %+v", list)
			}
			if tracked := r.Kind != ""; r.Late != (tracked && r.Due.Before(today)) {
				t.Fatalf("late: %+v", r)
			}
		}
		if again := Reminders(&p, calls, today); !reflect.DeepEqual(list, again) {
			t.Fatal("another time, another list")
		}
		if slices.ContainsFunc(list, func(r Reminder) bool { return r.On.Before(today) && r.Kind == "" }) {
			t.Fatal("a day that is over")
		}
	})
}
