package people

import (
	"reflect"
	"slices"
	"testing"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// Who can stand in is the project's own rule (issue 5: the same role, or free then); common practice, no published source.

// cast is a small film on the 16th: lunch at 12:00, the swim at 15:00, the toast at 18:00.
func cast(t testing.TB) (plan.Plan, map[plan.ID]Slot) {
	p := plan.New()
	from := func(at string) []plan.Availability {
		return []plan.Availability{{Date: day(16), From: clock(t, at)}, {Date: day(9), From: clock(t, "23:50"), To: clock(t, "24:00")}}
	}
	p.People = []plan.Person{
		{ID: "odile", Role: plan.Client},
		{ID: "pell", Role: plan.Crew, Job: "the mother"},
		{ID: "theo", Role: plan.Talent, Job: "the father"},
		{ID: "nina", Role: plan.Talent, Job: "the mother"},
		{ID: "ruth", Role: plan.Talent, Job: "the aunt"},
		{ID: "late", Role: plan.Talent, Job: "The mother ", Availability: from("17:00")},
		{ID: "ivy", Role: plan.Talent, Minor: true, Guardian: "nina"},
		{ID: "jon", Role: plan.Talent, Born: plan.Date{Year: 2015, Month: 3, Day: 4}, Guardian: "nina"},
		{ID: "kit", Role: plan.Talent, Born: plan.Date{Year: 2009, Month: 10, Day: 16}, Guardian: "nina"}, // 18 that day
	}
	p.Scenes = []plan.Scene{
		{ID: "lunch", People: []plan.ID{"nina", "theo", "ivy"}, Shoot: 30},
		{ID: "swim", People: []plan.ID{"ruth", "ivy"}, Shoot: 30},
		{ID: "toast", People: []plan.ID{"nina"}, Shoot: 20},
	}
	p.Shooting.Dates = []plan.Date{day(9), day(16)}
	slot := func(from, to string) Slot { return Slot{day(16), Stretch{clock(t, from), clock(t, to)}} }
	return p, map[plan.ID]Slot{"lunch": slot("12:00", "12:30"), "swim": slot("15:00", "15:30"), "toast": slot("18:00", "18:20")}
}

func TestDrop(t *testing.T) {
	p, placed := cast(t)
	for _, c := range []struct {
		name   string
		who    plan.ID
		placed map[plan.ID]Slot
		want   Dropped
	}{
		{"the mother, on a placed day", "nina", placed, Dropped{Scenes: []DroppedScene{
			{"lunch", []plan.ID{"theo", "ivy"}, []StandIn{{"ruth", false, true, true}, {"kit", false, true, false}, {"odile", false, false, false}}},
			{"toast", nil, []StandIn{{"late", true, true, false}, {"theo", false, true, true}, {"ruth", false, true, true}, {"kit", false, true, false}, {"odile", false, false, false}}},
		}, Wards: []plan.ID{"ivy", "jon"}}},
		{"before the day is placed, late is there long enough for both", "nina", nil, Dropped{Scenes: []DroppedScene{
			{"lunch", []plan.ID{"theo", "ivy"}, []StandIn{{"late", true, true, false}, {"ruth", false, true, true}, {"kit", false, true, false}, {"odile", false, false, false}}},
			{"toast", nil, []StandIn{{"late", true, true, false}, {"theo", false, true, true}, {"ruth", false, true, true}, {"kit", false, true, false}, {"odile", false, false, false}}},
		}, Wards: []plan.ID{"ivy", "jon"}}},
		{"a minor, by minors", "ivy", placed, Dropped{Scenes: []DroppedScene{
			{"lunch", []plan.ID{"nina", "theo"}, []StandIn{{"jon", false, true, false}}},
			{"swim", []plan.ID{"ruth"}, []StandIn{{"jon", false, true, false}}},
		}}},
		{"somebody in no scene", "odile", placed, Dropped{}},
		{"nobody", "nemo", placed, Dropped{}},
	} {
		if got := Drop(&p, c.who, c.placed); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s:\ngot  %+v\nwant %+v", c.name, got, c.want)
		}
	}
}

// TestDropByTheChosenDate: ten minutes on the 9th are not enough for a scene of twenty.
func TestDropByTheChosenDate(t *testing.T) {
	p, _ := cast(t)
	p.Shooting.Date = day(9)
	for _, s := range Drop(&p, "nina", nil).Scenes {
		if slices.ContainsFunc(s.StandIns, func(in StandIn) bool { return in.Person == "late" }) {
			t.Errorf("late is free for %s on the 9th", s.Scene)
		}
	}
}

// TestStandInsCan: whoever is proposed is not of the crew, not in the scene, free then, and a minor only for a minor; who is not
// proposed fails one of these; and the order is by the job, then the role, then who comes anyway.
func TestStandInsCan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "pick") }
		ids := []plan.ID{"a", "b", "c", "d", "e"}
		p, placed := plan.New(), map[plan.ID]Slot{}
		for _, id := range ids {
			q := plan.Person{ID: id, Role: []plan.Role{plan.Talent, plan.Crew, plan.Owner, ""}[pick(4)], Job: []string{"", "x", "X", "y"}[pick(4)], Minor: pick(3) == 0}
			for range pick(3) {
				from := pick(1200)
				q.Availability = append(q.Availability, plan.Availability{Date: day(15 + pick(2)), From: plan.ClockAt(from), To: plan.ClockAt(from + 1 + pick(900))})
			}
			p.People = append(p.People, q)
		}
		for _, id := range []plan.ID{"1", "2", "3"} {
			p.Scenes = append(p.Scenes, plan.Scene{ID: id, People: rapid.SliceOfNDistinct(rapid.SampledFrom(ids), 1, 3, rapid.ID[plan.ID]).Draw(t, "people")})
			from := pick(1400)
			placed[id] = Slot{day(15 + pick(2)), Stretch{plan.ClockAt(from), plan.ClockAt(from + 1 + pick(60))}}
		}
		who := p.People[pick(5)]
		dropped := Drop(&p, who.ID, placed)
		for _, s := range p.Scenes {
			i := slices.IndexFunc(dropped.Scenes, func(d DroppedScene) bool { return d.Scene == s.ID })
			if (i >= 0) != slices.Contains(s.People, who.ID) {
				t.Fatalf("%s in %v: %+v", who.ID, s, dropped)
			}
			if i < 0 {
				continue
			}
			proposed := dropped.Scenes[i].StandIns
			for _, q := range p.People {
				slot := placed[s.ID]
				free := len(q.Availability) == 0
				minutes := 0 // of the scene's, that they are there for
				for m := slot.From.Minutes(); m < slot.To.Minutes(); m++ {
					if slices.ContainsFunc(q.Availability, func(a plan.Availability) bool {
						return a.Date == slot.Date && a.From.Minutes() <= m && m < a.To.Minutes()
					}) {
						minutes++
					}
				}
				free = free || minutes == slot.To.Minutes()-slot.From.Minutes()
				can := q.Role != plan.Crew && !slices.Contains(s.People, q.ID) && q.Minor == who.Minor && free
				if slices.ContainsFunc(proposed, func(in StandIn) bool { return in.Person == q.ID }) != can {
					t.Fatalf("scene %s, %+v for %+v: can %v, proposed %v", s.ID, q, who, can, proposed)
				}
			}
			for j := 1; j < len(proposed); j++ {
				a, b := proposed[j-1], proposed[j]
				after := b.SameJob && !a.SameJob || b.SameJob == a.SameJob && b.SameRole && !a.SameRole ||
					b.SameJob == a.SameJob && b.SameRole == a.SameRole && b.Comes && !a.Comes
				if after {
					t.Fatalf("%+v comes before %+v", a, b)
				}
			}
		}
	})
}
