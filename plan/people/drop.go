package people

import (
	"cmp"
	"slices"
	"strings"

	"eavelight/plan"
)

// Slot is when a scene is shot, by the wall clock at the property.
type Slot struct {
	Date plan.Date
	Stretch
}

// Dropped is what it does to the film when somebody can't come.
type Dropped struct {
	Scenes []DroppedScene // they are in, in the plan's order
	Wards  []plan.ID      // minors whose guardian they are, and who need another
	Flown  []plan.ID      // scenes shot from a drone, whose only pilot they are
}

// DroppedScene is a scene that somebody drops out of.
type DroppedScene struct {
	Scene    plan.ID
	Others   []plan.ID // who are in it all the same
	StandIns []StandIn // the likeliest first
}

// StandIn is somebody who could take a part over.
type StandIn struct {
	Person   plan.ID
	SameJob  bool // by the words of it
	SameRole bool
	Comes    bool // for another scene of that date anyway
}

// Drop tells which scenes suffer when a person drops out, and who could stand in: anybody not of the crew who is not in the
// scene and is free then. A minor stands in for minors only, and nobody else does for them. Of a scene that placed does not
// have, somebody is free who is there long enough on the chosen date, or on any of the candidates.
func Drop(p *plan.Plan, person plan.ID, placed map[plan.ID]Slot) Dropped {
	var out Dropped
	who, _ := p.Person(person)
	for _, s := range p.Scenes {
		if !slices.Contains(s.People, person) {
			continue
		}
		scene := DroppedScene{Scene: s.ID}
		for _, id := range s.People {
			if id != person {
				scene.Others = append(scene.Others, id)
			}
		}
		scene.StandIns = standIns(p, who, s, placed)
		out.Scenes = append(out.Scenes, scene)
	}
	for _, q := range p.People {
		if q.Guardian == person && Minor(p, q, plan.Date{}) {
			out.Wards = append(out.Wards, q.ID)
		}
	}
	if onlyPilot(p, who) {
		for _, s := range flown(p) {
			out.Flown = append(out.Flown, s.ID)
		}
	}
	return out
}

// onlyPilot reports whether nobody but a person has a certificate that holds.
func onlyPilot(p *plan.Plan, who plan.Person) bool {
	if pilot, _, ok := Pilot(p, p.Shooting.LastDate()); !ok || pilot.ID != who.ID {
		return false
	}
	rest := *p
	rest.People = slices.DeleteFunc(slices.Clone(p.People), func(q plan.Person) bool { return q.ID == who.ID })
	_, why, ok := Pilot(&rest, p.Shooting.LastDate())
	return !ok || why != nil
}

func standIns(p *plan.Plan, who plan.Person, s plan.Scene, placed map[plan.ID]Slot) []StandIn {
	date := placed[s.ID].Date
	var out []StandIn
	for _, q := range p.People {
		if q.Role == plan.Crew || q.ID == who.ID || slices.Contains(s.People, q.ID) ||
			Minor(p, q, date) != Minor(p, who, date) || !freeFor(p, q, s, placed) {
			continue
		}
		out = append(out, StandIn{
			Person:   q.ID,
			SameJob:  sameWords(q.Job, who.Job),
			SameRole: q.Role.Or() == who.Role.Or(),
			Comes:    comes(p, q, s, placed),
		})
	}
	slices.SortStableFunc(out, func(a, b StandIn) int { return cmp.Compare(b.rank(), a.rank()) })
	return out
}

// rank is higher for the likelier: first by the job, then by the role, then by who comes anyway.
func (s StandIn) rank() (n int) {
	for _, has := range []bool{s.SameJob, s.SameRole, s.Comes} {
		n *= 2
		if has {
			n++
		}
	}
	return n
}

func sameWords(a, b string) bool {
	a, b = strings.TrimSpace(a), strings.TrimSpace(b)
	return a != "" && strings.EqualFold(a, b)
}

func freeFor(p *plan.Plan, q plan.Person, s plan.Scene, placed map[plan.ID]Slot) bool {
	if slot, ok := placed[s.ID]; ok {
		free, whole := Free(q, slot.Date)
		return whole || slices.ContainsFunc(free, func(f Stretch) bool {
			return f.From.Minutes() <= slot.From.Minutes() && slot.To.Minutes() <= f.To.Minutes()
		})
	}
	dates := p.Shooting.Dates
	if chosen := p.Shooting.Date; !chosen.IsZero() {
		dates = []plan.Date{chosen}
	}
	longEnough := func(d plan.Date) bool {
		free, whole := Free(q, d)
		return whole || slices.ContainsFunc(free, func(f Stretch) bool {
			return f.To.Minutes()-f.From.Minutes() >= int(s.Shoot)
		})
	}
	return len(dates) == 0 || slices.ContainsFunc(dates, longEnough)
}

// comes reports whether somebody is in another scene that is shot on the date of this one; where the times are not known, in
// any other scene.
func comes(p *plan.Plan, q plan.Person, s plan.Scene, placed map[plan.ID]Slot) bool {
	slot, known := placed[s.ID]
	return slices.ContainsFunc(p.Scenes, func(o plan.Scene) bool {
		other, there := placed[o.ID]
		sameDay := !known || there && other.Date == slot.Date
		return sameDay && slices.Contains(o.People, q.ID)
	})
}
