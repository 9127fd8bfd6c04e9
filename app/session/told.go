package session

import (
	"context"
	"errors"

	"eavelight/plan/day"
)

// Question is something that the day shown can be asked.
type Question string

// The questions.
const (
	WhyHere    Question = "why here"
	WhyWaiting Question = "why waiting"
	Freeing    Question = "freeing"
	Gains      Question = "gains"
	Others     Question = "others"
)

// Answer is what a day told. Only what was asked is set.
type Answer struct {
	Here    []day.Here
	Waiting []day.Waiting
	Freeing []day.Freeing
	Gains   []day.Gain
	Others  []day.Other
	Stopped bool  // it was told to stop: there may be more to tell
	Err     error // it could not be told
}

// Ask asks the day shown something, in the background; done hears the answer on the session's goroutine. stop ends the search
// for it, and done hears what was found by then. When the plan is placed anew, or another one opened, the search ends too. Of a
// day that is no longer shown nobody hears.
func (s *Session) Ask(q Question, done func(Answer)) (stop func()) {
	ctx, end := context.WithCancel(context.Background())
	placed, mine, d := s.cancel, s.placing, s.results.Chosen
	s.cancel = func() {
		placed()
		end()
	}
	s.background(func() func() {
		a := answer(ctx, d, q)
		end()
		return func() {
			if s.placing == mine && s.results.Chosen.Sky == d.Sky {
				done(a)
			}
		}
	})
	return end
}

func answer(ctx context.Context, d day.Day, q Question) (a Answer) {
	switch q {
	case WhyHere:
		a.Here, a.Err = d.WhyHere(ctx)
	case WhyWaiting:
		a.Waiting, a.Err = d.WhyWaiting(ctx)
	case Freeing:
		a.Freeing, a.Err = d.Freeing(ctx)
	case Gains:
		a.Gains, a.Err = d.Gains(ctx)
	case Others:
		a.Others, a.Err = d.Others(ctx)
	}
	if errors.Is(a.Err, context.Canceled) {
		a.Stopped, a.Err = true, nil
	}
	return a
}
