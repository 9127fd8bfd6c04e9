package session

import (
	"context"
	"errors"
	"reflect"
	"slices"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

// Results are what was derived from a snapshot.
type Results struct {
	Wrong  plan.Problems
	Lacks  plan.Problems
	Days   []day.Day // one a candidate date, in the plan's order; while Busy those computed so far
	Of     int       // how many there will be
	Shoot  day.Shoot // the days that the plan is shot on; while Busy those before the edit
	Chosen day.Day   // the one of them to show (ShowDay)
	Offer  day.Shoot // a better one on the same dates, with the scenes that are only held let go; no days: none
	Placed bool      // Chosen was computed
	Busy   bool
	// Stopped says that the user stopped the computing; Days and Chosen are as far as it came.
	Stopped bool
	Err     error // the computing itself failed
	// Scans are the doubts about scans as they were read last.
	Scans people.Doubts
}

// Stop ends the computing; what was found by then is shown.
func (s *Session) Stop() { s.cancel() }

// recompute brings the results up to the current snapshot. What an edit left alone is kept: a new title places no scene.
func (s *Session) recompute() {
	p := s.snapshots[s.at].plan
	s.results.Wrong, s.results.Lacks = plan.Validate(p), plan.Lacks(p)
	if s.cancel == nil || s.results.Stopped || !samePlacing(s.basis, p) {
		s.place(p)
	}
	if !sameScans(s.read, p.Releases) {
		s.CheckScans()
	}
	s.keep()
	s.changed()
}

// ShowDay shows another day of the shoot, by its place in Results.Shoot.Days.
func (s *Session) ShowDay(n int) {
	if n >= 0 && n < len(s.results.Shoot.Days) {
		s.results.Chosen = s.results.Shoot.Days[n]
		s.changed()
	}
}

// EditDay is an edit of which it is known what days it gives (day.ByHand, an offer): they are shown at once, while they are
// placed as after any other edit.
func (s *Session) EditDay(name, key string, f func(*plan.Plan), days ...day.Day) plan.Problems {
	before := s.snapshots[s.at].number
	if wrong := s.Edit(name, key, f); len(wrong) > 0 || s.snapshots[s.at].number == before {
		return wrong
	}
	shoot := slices.Clone(s.results.Shoot.Days)
	for _, d := range days {
		if i := slices.IndexFunc(shoot, func(o day.Day) bool { return o.Date == d.Date }); i >= 0 {
			shoot[i] = d
		}
		if s.results.Chosen.Date == d.Date {
			s.results.Chosen = d
		}
	}
	s.results.Shoot.Days = shoot
	s.changed()
	return nil
}

// TakeOffer makes the offer the plan's, by an edit of a name: what is only held is let go.
func (s *Session) TakeOffer(name string) {
	if offer := s.results.Offer.Days; len(offer) > 0 {
		s.EditDay(name, "", (*plan.Plan).LetGo, offer...)
	}
}

// LeaveOffer puts the offer away. The plan holds its scenes where they are anyhow; after the next edit there may be an offer
// again.
func (s *Session) LeaveOffer() {
	s.results.Offer = day.Shoot{}
	s.changed()
}

// samePlacing reports whether two plans give the same days.
func samePlacing(a, b plan.Plan) bool {
	a, b = wordless(a), wordless(b)
	return reflect.DeepEqual(a.Property, b.Property) && reflect.DeepEqual(a.Scenes, b.Scenes) &&
		reflect.DeepEqual(a.People, b.People) && reflect.DeepEqual(a.Shooting, b.Shooting) &&
		reflect.DeepEqual(a.Hours, b.Hours) && reflect.DeepEqual(flown(a), flown(b))
}

// flown are the scenes that each drone release names: no placing goes by them, but the day tells the light of their flights.
func flown(p plan.Plan) [][]plan.ID {
	var out [][]plan.ID
	for _, r := range p.Releases {
		if r.Kind == plan.DroneRelease {
			out = append(out, r.Scenes)
		}
	}
	return out
}

// wordless is a plan without what is only read: prose, shots, pictures, contacts, the seconds on screen.
func wordless(p plan.Plan) plan.Plan {
	p.Property.Name, p.Property.Address = "", ""
	p.Property.Spaces, p.People = slices.Clone(p.Property.Spaces), slices.Clone(p.People)
	scenes := slices.Clone(p.Scenes)
	for i := range p.Property.Spaces {
		p.Property.Spaces[i].Safety = ""
	}
	for i := range scenes {
		s := &scenes[i]
		s.Action, s.Notes, s.Audio, s.Shots, s.Pictures, s.Seconds = "", "", "", nil, nil, 0
		limited := p.Limited(*s)
		s.Kit = nil
		for _, k := range limited { // other kit is there whenever it is wanted
			s.Kit = append(s.Kit, k.Name)
		}
	}
	p.Scenes = scenes
	for i := range p.People {
		q := &p.People[i]
		q.Job, q.Phone, q.Email, q.Notes, q.Paid, q.Rate, q.Travel = "", "", "", "", false, "", 0
	}
	return p
}

// place starts to place the plan on all its dates, and gives up whatever was still being placed. A day that comes back after
// another placing began is dropped.
func (s *Session) place(p plan.Plan) {
	if s.cancel != nil {
		s.cancel()
	}
	ctx, cancel := context.WithCancel(context.Background())
	s.cancel, s.basis = cancel, p
	s.placing++
	mine, before := s.placing, s.results.Days
	s.results.Offer = day.Shoot{}
	s.results.Days, s.results.Of, s.results.Busy, s.results.Stopped, s.results.Err = nil, len(day.Candidates(&p)), true, false, nil
	deliver := func(f func()) {
		s.post(func() {
			if s.placing == mine {
				f()
				s.changed()
			}
		})
	}
	s.work.Go(func() {
		var days []day.Day
		err := day.DatesAgain(ctx, &p, before, func(d day.Day) {
			days = append(days, d)
			deliver(func() { s.results.Days = append(s.results.Days, d) })
		})
		shoot, ok := day.Shoot{}, len(days) > 0
		switch {
		case ok:
			shoot, err = shootOf(ctx, &p, days, err)
		case err == nil:
			var d day.Day
			d, err = day.Place(ctx, &p, plan.Date{}) // no date yet: it says what else is missing
			shoot.Days = []day.Day{d}
		}
		stopped := errors.Is(err, context.Canceled)
		if stopped {
			err = nil
		}
		deliver(func() {
			s.results.Stopped, s.results.Err = stopped, err
			s.results.Placed = err == nil && (ok || !stopped)
			s.results.Shoot, s.results.Chosen = shoot, shown(shoot, s.results.Chosen)
		})
		better, found, _ := day.Offer(ctx, &p, shoot) // no offer is no harm
		deliver(func() {
			s.results.Busy = false
			if found {
				s.results.Offer = better
			}
		})
	})
}

// shootOf is the shoot on the best of the days; with an error before or here, on the best day as far as it came.
func shootOf(ctx context.Context, p *plan.Plan, days []day.Day, err error) (day.Shoot, error) {
	if err == nil {
		var shoot day.Shoot
		if shoot, err = day.BestShoot(ctx, p, days); err == nil {
			return shoot, nil
		}
	}
	best, _ := day.Best(p, days)
	return day.Shoot{Days: []day.Day{best}, Gap: best.Gap, Status: best.Status}, err
}

// shown is the day of the shoot on the date that was shown before, or the first.
func shown(shoot day.Shoot, before day.Day) day.Day {
	for _, d := range shoot.Days {
		if d.Date == before.Date && len(shoot.Days) > 1 {
			return d
		}
	}
	if len(shoot.Days) == 0 {
		return day.Day{}
	}
	return shoot.Days[0]
}
