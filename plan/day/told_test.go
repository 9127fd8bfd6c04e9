package day

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/place"
	"eavelight/plan/say"

	"pgregory.net/rapid"
)

// TestAnyPlanTold: whatever is told of any plan's day is so. Every claim is turned into a plan that is placed again by Place, or
// counted from the day; the search's own numbers are not believed.
func TestAnyPlanTold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t, 5)
		p.Shooting.Dates = []plan.Date{{Year: 2027, Month: 10, Day: 16}, {Year: 2026, Month: 6, Day: 21}}
		if rapid.IntRange(0, 3).Draw(t, "tight") > 0 { // most of the generator's days have room for little
			p.Shooting.Longest, p.Shooting.MealWithin, p.Shooting.LatestWrap = 14*60, 6*60, plan.ClockAt(23*60)
			for i := range p.People[:2] {
				p.People[i].Availability = nil
			}
			for i := range p.Scenes {
				p.Scenes[i].Shoot += 10
			}
		}
		on, err := plan.ParseDate(rapid.SampledFrom([]string{"2027-10-16", "2026-06-21", "2026-12-21", "2028-02-29"}).Draw(t, "date"))
		if err != nil {
			t.Fatal(err)
		}
		d, err := Place(context.Background(), &p, on)
		if err != nil {
			t.Fatal(err)
		}
		if d.Status != place.Proven {
			t.Skip("the best day is not known")
		}
		v := verifier{t, &p, d}
		v.here()
		v.waiting()
		v.freeing()
		v.gains()
		v.others()
	})
}

// verifier holds what is told of a day against days placed anew.
type verifier struct {
	*rapid.T
	plan *plan.Plan
	day  Day
}

// changed places the plan with a change on a date.
func (v verifier) changed(on plan.Date, change func(*plan.Plan)) Day {
	p := v.plan.Clone()
	change(&p)
	if wrong := plan.Validate(p).At(plan.Wrong); len(wrong) > 0 {
		v.Fatalf("a change makes a wrong plan: %v", wrong)
	}
	d, err := Place(context.Background(), &p, on)
	if err != nil {
		v.Fatal(err)
	}
	return d
}

func (v verifier) words(texts ...say.Text) {
	for _, line := range english(texts) {
		if line == "" || strings.Contains(line, "%!") || strings.Contains(line, "  ") || strings.HasSuffix(line, ": ") {
			v.Errorf("badly worded: %q", line)
		}
	}
}

// near tells whether two numbers of points are the same but for the solver's rounding of each slot's price.
func near(a, b float64) bool { return math.Abs(a-b) < 0.5 }

func out(d Day) []plan.ID { return d.Figures().LeftOut }

// here: a limit in the plan does to the scene what the explanation did to it.
func (v verifier) here() {
	found, err := v.day.WhyHere(context.Background())
	if err != nil || len(found) != len(v.day.Scenes) {
		v.Fatalf("%d of %d scenes, %v", len(found), len(v.day.Scenes), err)
	}
	for i, h := range found {
		if h.Scene != v.day.Scenes[i].Scene {
			v.Fatalf("scene %d of the day is %s, told as %s", i, v.day.Scenes[i].Scene, h.Scene)
		}
		v.words(h.Words(v.day)...)
		v.shift(v.day.Scenes[i], h.Earlier, false)
		v.shift(v.day.Scenes[i], h.Later, true)
	}
}

func (v verifier) shift(at Placed, shift *Shift, later bool) {
	if shift == nil {
		v.Errorf("scene %s: the search could not tell", at.Scene)
		return
	}
	if at.Pinned {
		if !strings.Contains(shift.Cannot.String(), "pinned") {
			v.Errorf("the pinned scene %s goes to %+v", at.Scene, shift)
		}
		return
	}
	sky := v.day.Sky
	start, end := sky.MinuteOf(at.Start), sky.MinuteOf(at.End)
	d := v.changed(v.day.Date, func(p *plan.Plan) {
		s := &p.Scenes[slices.IndexFunc(p.Scenes, func(s plan.Scene) bool { return s.ID == at.Scene })]
		if later {
			s.From = sky.Clock(max(start+60, sky.MinuteAt(s.From.Or(plan.ClockAt(0)))))
		} else if to := min(end-60, sky.MinuteAt(s.To.Or(plan.ClockAt(plan.LastClock)))); to > sky.MinuteAt(s.From.Or(plan.ClockAt(0))) {
			s.To = sky.Clock(to)
		} else { // there is no time left between the limits
			s.From, s.To = plan.NoClock, plan.ClockAt(1)
		}
		if s.From.IsSet() && s.To.IsSet() && s.To.Minutes() <= s.From.Minutes() {
			s.From, s.To = plan.NoClock, plan.ClockAt(1)
		}
	})
	_, can := d.Placed(at.Scene)
	cost := d.Loss.Total() - v.day.Loss.Total()
	switch {
	case !shift.Cannot.IsZero():
		if can {
			v.Errorf("scene %s cannot be moved (%s), and is", at.Scene, shift.Cannot)
		}
	case can && !near(cost, shift.Cost.Points.Total()):
		v.Errorf("scene %s moved costs %v, told %v", at.Scene, cost, shift.Cost.Points.Total())
	case !can && cost > shift.Cost.Points.Total()+0.5: // it was cheaper to leave it out
		v.Errorf("scene %s left out costs %v, moved %v", at.Scene, cost, shift.Cost.Points.Total())
	}
	if shift.Cannot.IsZero() {
		if by := shift.Start.Sub(at.Start).Minutes(); later && by < 60 || !later && by > -60 {
			v.Errorf("scene %s is moved by %v minutes", at.Scene, by)
		}
	}
}

// waiting: the stretches add up to the waiting, and a plan in which the person's waiting weighs most has them wait no less.
func (v verifier) waiting() {
	found, err := v.day.WhyWaiting(context.Background())
	if err != nil {
		v.Fatal(err)
	}
	told := map[plan.ID]bool{}
	for _, w := range found {
		told[w.Person] = true
		v.words(w.Words(v.day)...)
		sum := plan.Minutes(0)
		for _, b := range w.Between {
			filled := plan.Minutes(0)
			for i, f := range b.Filled {
				filled += f.Minutes()
				if i > 0 && f.From.Before(b.Filled[i-1].To) || f.Kind == Eating {
					v.Errorf("%s: %+v in %+v", w.Person, f, b)
				}
			}
			if filled != b.Waits {
				v.Errorf("%s waits %v between %s and %s, filled %v", w.Person, b.Waits, b.After, b.Before, filled)
			}
			sum += b.Waits
		}
		if pr, _ := v.day.Presence(w.Person); sum != w.Waits || w.Waits != pr.Waits {
			v.Errorf("%s waits %v, told %v, in stretches %v", w.Person, pr.Waits, w.Waits, sum)
		}
		if oneStretchEach(*v.plan, v.day.Date) {
			v.spared(w)
		}
	}
	for _, pr := range v.day.People {
		if pr.Waits > 0 != told[pr.Person] {
			v.Errorf("%s waits %v and is told of: %v", pr.Person, pr.Waits, told[pr.Person])
		}
	}
}

func (v verifier) spared(w Waiting) {
	if w.Without == nil || w.Without.Waits > w.Waits {
		v.Errorf("%s waits %v, spared %+v", w.Person, w.Waits, w.Without)
		return
	}
	d := v.changed(v.day.Date, func(p *plan.Plan) {
		who := slices.IndexFunc(p.People, func(q plan.Person) bool { return q.ID == w.Person })
		p.People[who].Weight = 1000
		p.Shooting.Weights.Waiting = 100
		p.Shooting.Weights.LeftOut = 1e6
		for i := range p.People {
			if i != who {
				p.People[i].Weight /= 500
			}
		}
	})
	if pr, _ := d.Presence(w.Person); w.Without.Proven && len(lacking(out(d), out(v.day))) == 0 && len(out(d)) == len(out(v.day)) && pr.Waits < w.Without.Waits {
		v.Errorf("%s could wait %v, told %v at least", w.Person, pr.Waits, w.Without.Waits)
	}
}

// freeing: each change frees, by a step less it does not, and no kind of change is left untold.
func (v verifier) freeing() {
	found, err := v.day.Freeing(context.Background())
	if err != nil {
		v.Fatal(err)
	}
	frees := func(scene plan.ID, c Change) bool {
		d := v.changed(c.Date, c.Apply)
		return !slices.Contains(out(d), scene) && len(lacking(out(d), out(v.day))) == 0
	}
	for _, f := range found {
		for _, c := range f.Changes {
			v.words(c.Words(v.day))
			if !frees(f.Scene, c.Change) {
				v.Errorf("scene %s is not freed: %s", f.Scene, c.Words(v.day))
			}
			if d := v.changed(c.Date, c.Apply); !near(d.Loss.Total(), c.Figures.Loss.Total()) {
				v.Errorf("%s: loses %v, told %v", c.Words(v.day), d.Loss.Total(), c.Figures.Loss.Total())
			}
			if c.By > 5 {
				less := c.Change
				if less.By -= 5; frees(f.Scene, less) {
					v.Errorf("scene %s is freed by less: %s", f.Scene, c.Words(v.day))
				}
			}
		}
		s, _ := v.plan.Scene(f.Scene)
		untold := Change{Kind: Weigh, Scene: f.Scene, As: plan.Should, Date: v.day.Date}
		if s.Importance == plan.Must && frees(f.Scene, untold) && !s.PinnedOn(v.day.Date) &&
			!slices.ContainsFunc(f.Changes, func(c Freed) bool { return c.Change == untold }) {
			v.Errorf("scene %s would be freed as a should", f.Scene)
		}
	}
}

// gains: the changed plan loses that much less, and it is worth telling.
func (v verifier) gains() {
	found, err := v.day.Gains(context.Background())
	if err != nil {
		v.Fatal(err)
	}
	for i, g := range found {
		v.words(g.Words(v.day))
		if !noticeable(g.Points, v.day.Loss.Total()) || i > 0 && g.Points > found[i-1].Points {
			v.Errorf("not worth telling there: %s", g.Words(v.day))
		}
		switch g.Kind {
		case SecondDate:
			v.second(g)
		case NoWaiting:
			if d := v.changed(g.Date, g.Apply); !near(d.Loss.Total(), g.Figures.Loss.Total()) {
				v.Errorf("%s: loses %v, told %v", g.Words(v.day), d.Loss.Total(), g.Figures.Loss.Total())
			}
			pr, _ := v.day.Presence(g.Person)
			who, _ := v.plan.Person(g.Person)
			weight := v.plan.Shooting.Weights.Waiting * who.Weight
			if who.MinorOn(g.Date) {
				weight *= v.plan.Shooting.Weights.Minor
			}
			if gain := v.day.Loss.Total() - weight*float64(pr.Waits) - g.Figures.Loss.Total(); oneStretchEach(*v.plan, g.Date) && !near(gain, g.Points) {
				v.Errorf("%s: gains %v", g.Words(v.day), gain)
			}
		default:
			if d := v.changed(g.Date, g.Apply); !near(v.day.Loss.Total()-d.Loss.Total(), g.Points) {
				v.Errorf("%s: gains %v", g.Words(v.day), v.day.Loss.Total()-d.Loss.Total())
			}
		}
	}
}

// second cuts the plan in two and places both.
func (v verifier) second(g Gain) {
	moved := func(s plan.Scene) bool { return slices.Contains(g.Second.Scenes, s.ID) }
	a := v.changed(v.day.Date, func(p *plan.Plan) { removeScenes(p, moved) })
	b := v.changed(g.Date, func(p *plan.Plan) { removeScenes(p, func(s plan.Scene) bool { return !moved(s) }) })
	w := v.plan.Shooting.Weights
	total := a.Loss.Total() + b.Loss.Total() + w.Day
	for _, q := range a.People {
		if who, _ := v.plan.Person(q.Person); who.Role != plan.Crew {
			if _, again := b.Presence(q.Person); again {
				total += w.Again
			}
		}
	}
	lost := lacking(slices.Concat(out(a), out(b)), out(v.day))
	if gain := v.day.Loss.Total() - total; !near(gain, g.Points) || len(lost) > 0 {
		v.Errorf("%s: gains %v, leaves out %v", g.Words(v.day), gain, lost)
	}
}

// others: each is a sound day with all the scenes, better in its kind, and where it says so the best there is.
func (v verifier) others() {
	found, err := v.day.Others(context.Background())
	if err != nil {
		v.Fatal(err)
	}
	for i, o := range found {
		v.words(o.Words(v.day))
		faults := check(v.plan, o.Day)
		if oneStretchEach(*v.plan, v.day.Date) {
			checkLoss(v.plan, o.Day, func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) })
		}
		for _, f := range faults {
			v.Errorf("%s: %s", o.Kind, f)
		}
		if len(lacking(out(o.Day), out(v.day))) > 0 || o.Loss.Total() < v.day.Loss.Total()-1e-6 || o.Kind == LeastWaiting && o.Loss.Waiting >= v.day.Loss.Waiting ||
			o.Kind == EarliestWrap && !o.Wrap.Before(v.day.Wrap) || o.Kind == MostLight && o.Loss.Light >= v.day.Loss.Light {
			v.Errorf("%s loses %+v, the best day %+v", o.Kind, o.Loss, v.day.Loss)
		}
		for _, other := range found[:i] {
			if sameStarts(o.Day, other.Day) {
				v.Errorf("%s and %s are the same day", o.Kind, other.Kind)
			}
		}
		v.most(o)
	}
}

// most asks the same of the plan's own weights, or of its latest wrap.
func (v verifier) most(o Other) {
	d := v.changed(v.day.Date, func(p *plan.Plan) {
		w := &p.Shooting.Weights
		switch o.Kind {
		case LeastWaiting:
			*w = plan.Weights{Waiting: w.Waiting, Minor: w.Minor, LeftOut: 1e6}
		case MostLight:
			*w = plan.Weights{Light: w.Light, LeftOut: 1e6}
		case EarliestWrap:
			w.LeftOut = 1e6
			p.Shooting.LatestWrap = o.Sky.Clock(o.Sky.MinuteOf(o.Wrap) - 5)
		}
	})
	if !o.Most || len(lacking(out(d), out(v.day))) > 0 {
		return
	}
	switch {
	case o.Kind == EarliestWrap,
		o.Kind == LeastWaiting && d.Loss.Waiting < o.Loss.Waiting-0.5,
		o.Kind == MostLight && d.Loss.Light < o.Loss.Light-0.5:
		v.Errorf("%s: %v at %v, and there is %v at %v", o.Kind, o.Loss, o.Wrap, d.Loss, d.Wrap)
	}
}
