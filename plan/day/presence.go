package day

import (
	"slices"
	"time"

	"eavelight/plan"
	"eavelight/plan/people"
)

// addPeople works out everybody's day: those in scenes by their scenes, the crew by call and wrap.
func (m *model) addPeople(d *Day) {
	ready := time.Duration(m.plan.Shooting.Ready) * time.Minute
	for _, who := range m.plan.People {
		pr := Presence{Person: who.ID}
		for _, s := range d.Scenes {
			if sc, _ := m.plan.Scene(s.Scene); slices.Contains(sc.People, who.ID) {
				pr.OnCamera = append(pr.OnCamera, OnCamera{s.Scene, plan.Span{From: s.Start, To: s.End}})
			}
		}
		if n := len(pr.OnCamera); n > 0 {
			pr.Call, pr.Release = pr.OnCamera[0].From.Add(-ready), pr.OnCamera[n-1].To
			if pr.Call.Before(d.Call) { // nobody is there to open the door
				pr.Call = d.Call
			}
			pr.wait(m.absences(d, who))
		}
		if who.Role == plan.Crew && len(d.Scenes) > 0 {
			pr.Call, pr.Release = d.Call, d.Wrap
			pr.Waiting, pr.Waits = nil, 0 // the crew works between the scenes
		}
		if !pr.Call.IsZero() {
			d.People = append(d.People, pr)
		}
	}
}

// absences are when nobody expects a person on the set: the meals, and the times between those at which they are free. In
// order of their starts. (The solver knows no leaving in between: it charges such a gap as waiting.)
func (m *model) absences(d *Day, who plan.Person) []plan.Span {
	out := slices.Clone(d.Meals)
	free, _ := people.Free(who, m.date)
	for i := 1; i < len(free); i++ {
		from, to := m.sky.MinuteAt(free[i-1].To), m.sky.MinuteAt(free[i].From)
		out = append(out, plan.Span{From: m.sky.Time(from), To: m.sky.Time(to)})
	}
	slices.SortFunc(out, func(a, b plan.Span) int { return a.From.Compare(b.From) })
	return out
}

// wait fills in the gaps between a person's scenes, absences cut out.
func (p *Presence) wait(absences []plan.Span) {
	for i, on := range p.OnCamera {
		p.Filmed += on.Minutes()
		if i == 0 {
			continue
		}
		from := p.OnCamera[i-1].To
		for _, away := range absences {
			if away.From.Before(on.From) && away.To.After(from) {
				p.addWait(plan.Span{From: from, To: away.From})
				from = away.To
			}
		}
		p.addWait(plan.Span{From: from, To: on.From})
	}
}

func (p *Presence) addWait(s plan.Span) {
	if s.To.After(s.From) {
		p.Waiting = append(p.Waiting, s)
		p.Waits += s.Minutes()
	}
}
