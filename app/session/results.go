package session

import (
	"context"
	"errors"
	"reflect"
	"slices"

	"eavelight/plan"
	"eavelight/plan/day"
)

// Results are what was derived from a snapshot.
type Results struct {
	Wrong  plan.Problems
	Lacks  plan.Problems
	Days   []day.Day // one a candidate date, in the plan's order; while Busy those computed so far
	Of     int       // how many there will be
	Chosen day.Day   // the day to show; while Busy the one before the edit
	Placed bool      // Chosen was computed
	Busy   bool
	// Stopped says that the user stopped the computing; Days and Chosen are as far as it came.
	Stopped bool
	Err     error // the computing itself failed
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
	s.changed()
}

// samePlacing reports whether two plans give the same days.
func samePlacing(a, b plan.Plan) bool {
	a, b = wordless(a), wordless(b)
	return reflect.DeepEqual(a.Property, b.Property) && reflect.DeepEqual(a.Scenes, b.Scenes) &&
		reflect.DeepEqual(a.People, b.People) && reflect.DeepEqual(a.Shooting, b.Shooting)
}

// wordless is a plan without what is only read: prose, contacts, the seconds on screen.
func wordless(p plan.Plan) plan.Plan {
	p.Property.Name, p.Property.Address = "", ""
	p.Property.Spaces, p.People = slices.Clone(p.Property.Spaces), slices.Clone(p.People)
	scenes := slices.Clone(p.Scenes)
	for i := range p.Property.Spaces {
		p.Property.Spaces[i].Safety = ""
	}
	for i := range scenes {
		s := &scenes[i]
		s.Action, s.Notes, s.Seconds = "", "", 0
		limited := p.Limited(*s)
		s.Kit = nil
		for _, k := range limited { // other kit is there whenever it is wanted
			s.Kit = append(s.Kit, k.Name)
		}
	}
	p.Scenes = scenes
	for i := range p.People {
		q := &p.People[i]
		q.Job, q.Phone, q.Email, q.Notes, q.Paid, q.Travel = "", "", "", "", false, 0
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
	mine := s.placing
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
		err := day.Dates(ctx, &p, func(d day.Day) {
			days = append(days, d)
			deliver(func() { s.results.Days = append(s.results.Days, d) })
		})
		chosen, ok := day.Best(&p, days)
		if err == nil && !ok {
			chosen, err = day.Place(ctx, &p, plan.Date{}) // no date yet: it says what else is missing
		}
		stopped := errors.Is(err, context.Canceled)
		if stopped {
			err = nil
		}
		deliver(func() {
			s.results.Busy, s.results.Stopped, s.results.Err = false, stopped, err
			s.results.Chosen, s.results.Placed = chosen, err == nil && (ok || !stopped)
		})
	})
}
