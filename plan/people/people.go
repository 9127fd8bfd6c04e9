// Package people answers who is free when, who still has to sign what, whether that still holds, and what is not cleared
// without it.
//
// It counts only papers: whether a release is good enough in law is for a licensed lawyer of the place.
package people

import (
	"cmp"
	"slices"

	"eavelight/plan"
)

// Stretch is a piece of a day by the wall clock at the property.
type Stretch struct{ From, To plan.Clock }

// Free returns when a person can be at the property on a date. Somebody who named no times at all is free all day, whole is
// true then; somebody who named times on other dates only is not free.
func Free(p plan.Person, d plan.Date) (stretches []Stretch, whole bool) {
	return Times(p.Availability, d)
}

// Times is Free for whatever has times at which it is there, such as hired kit.
func Times(list []plan.Availability, d plan.Date) (stretches []Stretch, whole bool) {
	if len(list) == 0 {
		return nil, true
	}
	for _, a := range list {
		if a.Date == d || a.Date.IsZero() {
			stretches = append(stretches, Stretch{a.From.Or(plan.ClockAt(0)), a.To.Or(plan.ClockAt(plan.LastClock))})
		}
	}
	slices.SortFunc(stretches, func(a, b Stretch) int { return cmp.Compare(a.From.Minutes(), b.From.Minutes()) })
	return joined(stretches), false
}

// joined merges stretches that touch or overlap.
func joined(in []Stretch) []Stretch {
	var out []Stretch
	for _, s := range in {
		if n := len(out); n > 0 && s.From.Minutes() <= out[n-1].To.Minutes() {
			if s.To.Minutes() > out[n-1].To.Minutes() {
				out[n-1].To = s.To
			}
			continue
		}
		out = append(out, s)
	}
	return out
}

// Unsigned is a release that somebody in the film has not signed, or signed in a way that does not hold.
type Unsigned struct {
	Person plan.ID
	Kind   plan.ReleaseKind
	Status plan.ReleaseStatus // the least far among the scenes; Signed only with a doubt
	Doubt  *plan.Problem      // why one that is signed does not count
	Scenes []plan.ID          // the scenes that are not cleared without it
}

// Missing lists the people on camera whose own release is not signed, has lapsed by the date, or is in doubt; in the plan's
// order. A minor needs a minor's release, signed by the guardian; everybody else a model release. A zero date leaves lapsing out.
func Missing(p *plan.Plan, d plan.Date, doubts Doubts) []Unsigned {
	var out []Unsigned
	for _, person := range p.People {
		need := Permission{Kind: OwnKind(p, person, d), Person: person.ID}
		for _, s := range p.Scenes {
			if !slices.Contains(s.People, person.ID) {
				continue
			}
			st := ownStanding(p, need, s, d, doubts)
			if st.Clear() {
				continue
			}
			n := len(out)
			if n == 0 || out[n-1].Person != person.ID {
				out = append(out, Unsigned{Person: person.ID, Kind: need.Kind, Status: st.Status, Doubt: st.Doubt})
				n++
			}
			if far(st.Status) < far(out[n-1].Status) {
				out[n-1].Status, out[n-1].Doubt = st.Status, st.Doubt
			}
			out[n-1].Scenes = append(out[n-1].Scenes, s.ID)
		}
	}
	return out
}

// Pending lists the releases that are not about a person on camera (the house, a song, the drone's flights) and are not
// signed on a date, or are in doubt; in the plan's order, with their status on the date.
func Pending(p *plan.Plan, d plan.Date, doubts Doubts) []plan.Release {
	var out []plan.Release
	for _, r := range p.Releases {
		r.Status = StatusOn(r, d)
		if _, doubted := doubts[r.ID]; !r.Kind.Own() && (r.Status != plan.Signed || doubted) {
			out = append(out, r)
		}
	}
	return out
}

// Minor reports whether a person counts as a minor on a date; without one, on the day that the plan may be shot on last.
func Minor(p *plan.Plan, who plan.Person, d plan.Date) bool {
	return who.MinorOn(cmp.Or(d, p.Shooting.LastDate()))
}

// OwnKind is the kind of release that a person signs on a date, or has signed for them.
func OwnKind(p *plan.Plan, who plan.Person, d plan.Date) plan.ReleaseKind {
	if Minor(p, who, d) {
		return plan.MinorRelease
	}
	return plan.ModelRelease
}

// OwnRelease tells how far a person's own release is for one scene: the furthest of those that cover it, Needed where
// there is none.
func OwnRelease(p *plan.Plan, person plan.Person, scene plan.ID, d plan.Date) plan.ReleaseStatus {
	best, kind := plan.Needed, OwnKind(p, person, d)
	for _, r := range p.Releases {
		if r.Party != person.ID || r.Kind != kind || len(r.Scenes) > 0 && !slices.Contains(r.Scenes, scene) {
			continue
		}
		if s := StatusOn(r, d); far(s) > far(best) {
			best = s
		}
	}
	return best
}

// far tells how far a release is on its way to being signed. One sent anew is farther than the declined or lapsed one that
// it replaces.
func far(s plan.ReleaseStatus) int {
	return slices.Index([]plan.ReleaseStatus{plan.Needed, plan.Declined, plan.Lapsed, plan.Sent, plan.Signed}, s)
}

// StatusOn is a release's status on a date: signed turns to lapsed after its last day.
func StatusOn(r plan.Release, d plan.Date) plan.ReleaseStatus {
	s := r.Status.Or()
	if s == plan.Signed && !d.IsZero() && !r.Until.IsZero() && r.Until.Before(d) {
		return plan.Lapsed
	}
	return s
}
