package people

import (
	"cmp"
	"maps"
	"slices"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Clearance is what a film needs signed, against its scenes: a picture with a row a scene and a column a permission.
type Clearance struct {
	Permissions  []Permission // people on camera in the plan's order, then the other releases in theirs
	Scenes       []SceneClearance
	Deliverables []Delivery
}

// Permission is one that some scene needs: a person's own release, or one about something else.
type Permission struct {
	Kind    plan.ReleaseKind
	Person  plan.ID // whose own release it is
	Release plan.ID // of the others; empty: flights that no release is written down for yet
}

// SceneClearance is one scene's row.
type SceneClearance struct {
	Scene     plan.ID
	Standings []Standing // one a permission
}

// Standing is how a permission stands for a scene. The zero Standing is that of one not needed there.
type Standing struct {
	Needed bool
	By     plan.ID // the release that counts; empty: none is written down
	Status plan.ReleaseStatus
	Doubt  *plan.Problem // why one that is signed does not count
}

// Delivery is one deliverable: cleared when no scene that it is cut from waits.
type Delivery struct {
	Deliverable int       // in the brief
	Waiting     []plan.ID // scenes that are not cleared, in the plan's order
	Signatures  int       // permissions that they wait for
}

// Open is a permission that is missing in some scenes.
type Open struct {
	Permission
	Standing           // the least far among them
	Column   int       // of Clearance.Permissions
	Scenes   []plan.ID // that wait for it
}

// Clear reports whether nothing is missing.
func (s Standing) Clear() bool { return !s.Needed || s.Status == plan.Signed && s.Doubt == nil }

// Clear reports whether everything that the scene needs is signed, and holds.
func (s SceneClearance) Clear() bool { return !slices.ContainsFunc(s.Standings, Standing.missing) }

func (s Standing) missing() bool { return !s.Clear() }

// Clear reports whether the deliverable can be published.
func (d Delivery) Clear() bool { return len(d.Waiting) == 0 }

// Cleared tells for each scene of the plan what it needs signed on a date and how that stands. Without a date nothing lapses.
// A scene needs the own release of each person in it, each other release that covers it, and a drone release when it is shot
// from the air, which does not count while the papers of the flights are missing. doubts, which may be nil, are the evidence that
// does not hold.
func Cleared(p *plan.Plan, d plan.Date, doubts Doubts) Clearance {
	doubts = withFlights(p, d, doubts)
	c := Clearance{Permissions: permissions(p, d)}
	for _, s := range p.Scenes {
		row := SceneClearance{Scene: s.ID}
		for _, need := range c.Permissions {
			row.Standings = append(row.Standings, stands(p, need, s, d, doubts))
		}
		c.Scenes = append(c.Scenes, row)
	}
	for i, d := range p.Brief.Deliverables {
		c.Deliverables = append(c.Deliverables, c.delivery(i, d))
	}
	return c
}

// withFlights doubts the drone releases too, where other papers of the flights are missing.
func withFlights(p *plan.Plan, d plan.Date, doubts Doubts) Doubts {
	missing := FlightPapers(p, d)
	if len(missing) == 0 {
		return doubts
	}
	out := Doubts{}
	for _, r := range p.Releases {
		if r.Kind == plan.DroneRelease {
			out[r.ID] = missing[0]
		}
	}
	maps.Copy(out, doubts)
	return out
}

func permissions(p *plan.Plan, d plan.Date) []Permission {
	var out []Permission
	for _, who := range p.People {
		if slices.ContainsFunc(p.Scenes, func(s plan.Scene) bool { return slices.Contains(s.People, who.ID) }) {
			out = append(out, Permission{Kind: OwnKind(p, who, d), Person: who.ID})
		}
	}
	for _, r := range p.Releases {
		if !r.Kind.Own() && slices.ContainsFunc(p.Scenes, func(s plan.Scene) bool { return Covers(p, r, s) }) {
			out = append(out, Permission{Kind: r.Kind, Release: r.ID})
		}
	}
	if slices.ContainsFunc(p.Scenes, func(s plan.Scene) bool { return flightUnwritten(p, s) }) {
		out = append(out, Permission{Kind: plan.DroneRelease})
	}
	return out
}

// Covers reports whether a release is for a scene: one that it names; where it names none, any that its party is in for a
// person's own release, any shot from the air for a drone's, and the whole film for the others.
func Covers(p *plan.Plan, r plan.Release, s plan.Scene) bool {
	switch {
	case r.Kind.Own() && !slices.Contains(s.People, r.Party):
		return false
	case len(r.Scenes) > 0:
		return slices.Contains(r.Scenes, s.ID)
	case r.Kind == plan.DroneRelease:
		return aerial(p, s)
	}
	return true
}

func aerial(p *plan.Plan, s plan.Scene) bool {
	space, _ := p.Space(s.Space)
	return space.Kind == plan.Aerial
}

// flightUnwritten reports whether a scene is shot from the air and no drone release covers it.
func flightUnwritten(p *plan.Plan, s plan.Scene) bool {
	covers := func(r plan.Release) bool { return r.Kind == plan.DroneRelease && Covers(p, r, s) }
	return aerial(p, s) && !slices.ContainsFunc(p.Releases, covers)
}

// stands tells how a permission stands for a scene.
func stands(p *plan.Plan, need Permission, s plan.Scene, d plan.Date, doubts Doubts) Standing {
	switch {
	case need.Person != "":
		if slices.Contains(s.People, need.Person) {
			return ownStanding(p, need, s, d, doubts)
		}
	case need.Release != "":
		for _, r := range p.Releases {
			if r.ID == need.Release && Covers(p, r, s) {
				return standing(r, d, doubts)
			}
		}
	case flightUnwritten(p, s):
		return Standing{Needed: true, Status: plan.Needed}
	}
	return Standing{}
}

// ownStanding is that of the release that goes furthest for a person in a scene; one that holds goes before one in doubt.
func ownStanding(p *plan.Plan, need Permission, s plan.Scene, d plan.Date, doubts Doubts) Standing {
	best := Standing{Needed: true, Status: plan.Needed}
	for _, r := range p.Releases {
		if r.Party != need.Person || r.Kind != need.Kind || !Covers(p, r, s) {
			continue
		}
		next := standing(r, d, doubts)
		if best.By == "" || far(next.Status) > far(best.Status) || next.Clear() && !best.Clear() {
			best = next
		}
	}
	return best
}

func standing(r plan.Release, d plan.Date, doubts Doubts) Standing {
	out := Standing{Needed: true, By: r.ID, Status: StatusOn(r, d)}
	if doubt, ok := doubts[r.ID]; ok && out.Status == plan.Signed {
		out.Doubt = &doubt
	}
	return out
}

func (c Clearance) delivery(i int, d plan.Deliverable) Delivery {
	out := Delivery{Deliverable: i}
	waits := make([]bool, len(c.Permissions))
	for _, s := range c.Scenes {
		if s.Clear() || !CutFrom(d, s.Scene) {
			continue
		}
		out.Waiting = append(out.Waiting, s.Scene)
		for j, st := range s.Standings {
			if st.missing() && !waits[j] {
				waits[j] = true
				out.Signatures++
			}
		}
	}
	return out
}

// CutFrom reports whether a deliverable is cut from a scene: one that names none is cut from all.
func CutFrom(d plan.Deliverable, scene plan.ID) bool {
	return len(d.Scenes) == 0 || slices.Contains(d.Scenes, scene)
}

// Clear reports whether the whole film is cleared.
func (c Clearance) Clear() bool {
	return !slices.ContainsFunc(c.Scenes, func(s SceneClearance) bool { return !s.Clear() })
}

// Open lists the permissions that are missing somewhere, in their order.
func (c Clearance) Open() []Open {
	var out []Open
	for i, need := range c.Permissions {
		open := Open{Permission: need, Column: i}
		for _, s := range c.Scenes {
			st := s.Standings[i]
			if st.Clear() {
				continue
			}
			if len(open.Scenes) == 0 || far(st.Status) < far(open.Status) {
				open.Standing = st
			}
			open.Scenes = append(open.Scenes, s.Scene)
		}
		if len(open.Scenes) > 0 {
			out = append(out, open)
		}
	}
	return out
}

// Cut is what falls away when a permission is not given.
type Cut struct {
	Scenes []plan.ID // those that wait for it
	Losses []Loss    // one a deliverable that is cut from any of them
}

// Loss is what a deliverable loses, in seconds on screen of the scenes that it is cut from.
type Loss struct {
	Deliverable int // in the brief
	Scenes      []plan.ID
	Lost, Left  int
}

// Cut tells what falls away when a permission, by its column, is not given for the scenes that still wait for it.
func (c Clearance) Cut(p *plan.Plan, column int) Cut {
	var out Cut
	for _, s := range c.Scenes {
		if s.Standings[column].missing() {
			out.Scenes = append(out.Scenes, s.Scene)
		}
	}
	for i, d := range p.Brief.Deliverables {
		loss := Loss{Deliverable: i}
		for _, s := range p.Scenes {
			switch {
			case !CutFrom(d, s.ID):
			case slices.Contains(out.Scenes, s.ID):
				loss.Scenes = append(loss.Scenes, s.ID)
				loss.Lost += s.Seconds
			default:
				loss.Left += s.Seconds
			}
		}
		if len(loss.Scenes) > 0 {
			out.Losses = append(out.Losses, loss)
		}
	}
	return out
}

// About is what a permission is about, in the user's own words: a person, or what a release names.
func (n Permission) About(p *plan.Plan) say.Text {
	if who, ok := p.Person(n.Person); ok {
		return say.Plain(who.Called())
	}
	for _, r := range p.Releases {
		if r.ID == n.Release {
			party, _ := p.Person(r.Party)
			return say.Plain(cmp.Or(r.Subject, party.Called(), string(r.ID)))
		}
	}
	return say.That("flights, for which no release is written down")
}
