package session

import (
	"context"
	"testing"

	"eavelight/plan"
)

// asked is a session with the demo placed.
func asked(t *testing.T) *bench {
	t.Helper()
	b := newBench(t)
	if err := b.open(t, demo(t)); err != nil {
		t.Fatal(err)
	}
	b.settle()
	return b
}

func TestAskTellsOfTheDayShown(t *testing.T) {
	b := asked(t)
	for _, c := range []struct {
		q   Question
		got func(Answer) int
	}{
		{WhyHere, func(a Answer) int { return len(a.Here) }},
		{WhyWaiting, func(a Answer) int { return len(a.Waiting) }},
		{Freeing, func(a Answer) int { return len(a.Freeing) }},
		{Gains, func(a Answer) int { return len(a.Gains) }},
		{Others, func(a Answer) int { return len(a.Others) }},
	} {
		var heard *Answer
		b.Ask(c.q, func(a Answer) { heard = &a })
		for heard == nil {
			(<-b.queue)()
		}
		if c.got(*heard) == 0 || heard.Stopped || heard.Err != nil {
			t.Errorf("%s: %d things, stopped %v, %v", c.q, c.got(*heard), heard.Stopped, heard.Err)
		}
	}
}

// TestAnswersOfAnotherDayAreDropped: after an edit that places anew, after another day is shown, and after another plan is opened.
func TestAnswersOfAnotherDayAreDropped(t *testing.T) {
	for name, change := range map[string]func(b *bench){
		"an edit": func(b *bench) {
			b.Edit("move", "", func(p *plan.Plan) { p.Shooting.Prepare += 5 })
		},
		"another plan": func(b *bench) { b.Fresh(plan.New()) },
		"another day":  func(b *bench) { b.results.Shoot.Days = b.results.Days; b.ShowDay(0) },
	} {
		b := asked(t)
		heard := false
		b.Ask(Others, func(Answer) { heard = true })
		change(b)
		b.settle()
		b.work.Wait()
		for len(b.queue) > 0 {
			(<-b.queue)()
		}
		if heard {
			t.Errorf("%s: an answer of the day before is heard", name)
		}
	}
}

// TestAnEditOfWordsKeepsTheAnswer: what places nothing anew drops no answer.
func TestAnEditOfWordsKeepsTheAnswer(t *testing.T) {
	b := asked(t)
	heard := false
	b.Ask(WhyHere, func(Answer) { heard = true })
	b.Edit("change title", "", setTitle("Another"))
	b.wait(&heard)
}

func TestStoppedAnswerSaysSo(t *testing.T) {
	b := asked(t)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	for _, q := range []Question{WhyHere, WhyWaiting, Freeing, Gains, Others} {
		if a := answer(ctx, b.State().Results.Chosen, q); !a.Stopped || a.Err != nil {
			t.Errorf("%s: stopped %v, %v", q, a.Stopped, a.Err)
		}
	}
	heard := false
	b.Ask(Gains, func(Answer) { heard = true })() // stopped at once: it is heard all the same
	b.wait(&heard)
}
