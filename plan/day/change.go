package day

import (
	"slices"

	"eavelight/plan"
)

// ChangeKind is what a Change does.
type ChangeKind string

// The kinds of change. The figures that each uses stand behind it.
const (
	Shorten     ChangeKind = "shorten"           // Scene, By
	Weigh       ChangeKind = "weigh"             // Scene, As
	Unpin       ChangeKind = "unpin"             // Scene
	LiftLimits  ChangeKind = "lift clock limits" // Scene
	AnyOrder    ChangeKind = "any order"         // Scene, Other: it need not come after the other
	LongerDay   ChangeKind = "longer day"        // By
	LaterWrap   ChangeKind = "later wrap"        // By
	EarlierCall ChangeKind = "earlier call"      // By
	MoreEvening ChangeKind = "more evening"      // By: a later wrap and a longer day
	MoreMorning ChangeKind = "more morning"      // By: an earlier call and a longer day
	FreeFrom    ChangeKind = "free from"         // Person, At, By: free that much before a time at which they are
	FreeUntil   ChangeKind = "free until"        // Person, At, By: free that much after
	FreeAllDay  ChangeKind = "free all day"      // Person
	NoWaiting   ChangeKind = "waiting ignored"   // Person
	NoMove      ChangeKind = "no move"           // From, To: kit of its own in both spaces
	NoMoves     ChangeKind = "no moves"          // kit of its own in every space
	OtherDate   ChangeKind = "other date"        // Date
)

// Change is one thing done to a plan that could make a better day. Only the figures of its kind are set.
type Change struct {
	Kind     ChangeKind
	Scene    plan.ID
	Other    plan.ID
	Person   plan.ID
	From, To plan.ID
	By       plan.Minutes
	At       plan.Clock
	As       plan.Importance
	Date     plan.Date // the day that it is for
}

// Apply does the change to a plan, as an edit does: call it on a Clone.
func (c Change) Apply(p *plan.Plan) {
	r := &p.Shooting
	switch c.Kind {
	case Shorten, Weigh, Unpin, LiftLimits, AnyOrder:
		if i := slices.IndexFunc(p.Scenes, func(s plan.Scene) bool { return s.ID == c.Scene }); i >= 0 {
			c.applyScene(&p.Scenes[i])
		}
	case FreeFrom, FreeUntil, FreeAllDay, NoWaiting:
		if i := slices.IndexFunc(p.People, func(q plan.Person) bool { return q.ID == c.Person }); i >= 0 {
			c.applyPerson(&p.People[i])
		}
	case LongerDay:
		r.Longest = longer(r.Longest, c.By)
	case LaterWrap:
		r.LatestWrap = plus(latestWrap(p), c.By)
	case EarlierCall:
		r.EarliestCall = plus(r.EarliestCall, -c.By)
	case MoreEvening:
		r.Longest, r.LatestWrap = longer(r.Longest, c.By), plus(latestWrap(p), c.By)
	case MoreMorning:
		r.Longest, r.EarliestCall = longer(r.Longest, c.By), plus(r.EarliestCall, -c.By)
	case NoMove:
		p.SetMove(c.From, c.To, 0)
	case NoMoves:
		for i, a := range p.Property.Spaces {
			for _, b := range p.Property.Spaces[:i] {
				p.SetMove(a.ID, b.ID, 0)
			}
		}
	case OtherDate:
		r.Date = c.Date
	}
}

func (c Change) applyScene(s *plan.Scene) {
	switch c.Kind {
	case Shorten:
		s.Shoot -= c.By
	case Weigh:
		s.Importance = c.As
	case Unpin:
		s.Pin = plan.Pin{}
	case LiftLimits:
		s.From, s.To = plan.NoClock, plan.NoClock
	case AnyOrder:
		s.After = slices.DeleteFunc(s.After, func(id plan.ID) bool { return id == c.Other })
	}
}

// applyPerson adds to a person's times; those that touch are one.
func (c Change) applyPerson(q *plan.Person) {
	free := func(from, to plan.Clock) {
		q.Availability = append(q.Availability, plan.Availability{Date: c.Date, From: from, To: to})
	}
	switch c.Kind {
	case FreeFrom:
		free(plus(c.At, -c.By), c.At)
	case FreeUntil:
		free(c.At, plus(c.At, c.By))
	case FreeAllDay:
		free(plan.ClockAt(0), plan.ClockAt(plan.LastClock))
	case NoWaiting:
		q.Weight = 0
	}
}

func plus(c plan.Clock, by plan.Minutes) plan.Clock { return plan.ClockAt(c.Minutes() + int(by)) }

// longer is a longest day that much longer, held within what a plan may say.
func longer(m, by plan.Minutes) plan.Minutes { return min(m+by, plan.LastClock) }
