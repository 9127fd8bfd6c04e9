package price

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/say"
)

// Case is a variant of a plan: what would be if something were different. It is placed and priced in full.
type Case struct {
	Name say.Text
	How  say.Text // what was changed, and what was assumed
	Plan plan.Plan
	Lack say.Text // why there is no such case yet, in the user's words; then there is no Plan
	Rain bool     // the last day is paid for once more
}

// CaseKind names a question of what would change.
type CaseKind string

// The questions.
const (
	AsItIs       CaseKind = "as it is"
	PaidTalent   CaseKind = "paid talent"
	OtherDays    CaseKind = "other days" // one long day in place of two, or two half days in place of one
	SecondCamera CaseKind = "second camera"
	RainDay      CaseKind = "rain day"
	OneMore      CaseKind = "one deliverable more"
)

// CaseKinds lists them in the order they are offered.
var CaseKinds = []CaseKind{AsItIs, PaidTalent, OtherDays, SecondCamera, RainDay, OneMore}

var caseForms = map[CaseKind]string{
	AsItIs: say.Mark("as it is"), PaidTalent: say.Mark("paid talent"), OtherDays: say.Mark("other days"),
	SecondCamera: say.Mark("second camera"), RainDay: say.Mark("rain day"), OneMore: say.Mark("one deliverable more"),
}

// MostCases are shown side by side.
const MostCases = 4

// CaseOf makes the case of a kind from a plan.
func CaseOf(kind CaseKind, p *plan.Plan) Case {
	c := Case{Name: say.Marked(caseForms[kind]), Plan: p.Clone()}
	switch kind {
	case PaidTalent:
		c.payTalent()
	case OtherDays:
		c.otherDays()
	case SecondCamera:
		c.secondCamera()
	case RainDay:
		c.Rain, c.How = true, say.That("the last day is paid for twice, as if the weather had taken it")
	case OneMore:
		c.oneMore()
	}
	return c
}

func (c *Case) payTalent() {
	rate, ok := c.Plan.Pricing.Card.CrewRate(c.Plan.Pricing.WhatIf.Talent)
	if !ok {
		c.Lack = say.That("choose the rate that paid talent would get")
		return
	}
	n := 0
	for i := range c.Plan.People {
		q := &c.Plan.People[i]
		if q.Role.Or() == plan.Talent && q.Rate == "" && onCamera(&c.Plan, q.ID) {
			q.Rate, q.Paid = rate.ID, true
			n++
		}
	}
	if n == 0 {
		c.Lack = say.That("everybody on camera is paid already")
	}
	c.How = say.That("%d more on the rate %s; when they are free stays the same", n, cmp.Or(rate.Name, string(rate.ID)))
}

// otherDays is two half days for one long one: each no longer than half the longest day and an hour, so that it has one of the
// golden windows. Two or more become one.
func (c *Case) otherDays() {
	s := &c.Plan.Shooting
	if s.DayCount() > 1 {
		c.Name, c.How = say.That("one long day"), say.That("everything on one day, up to %s", s.Longest)
		s.Days = 1
		return
	}
	c.Name = say.That("two half days")
	if dates := day.Candidates(&c.Plan); len(dates) < 2 {
		c.Lack = say.That("propose a second date on the Day page")
		return
	}
	s.Days, s.Longest = 2, s.Longest/2+60
	c.How = say.That("two of the candidate dates, each day up to %s", s.Longest)
}

func (c *Case) secondCamera() {
	rate, ok := c.Plan.Pricing.Card.CrewRate(c.Plan.Pricing.WhatIf.Camera)
	if !ok {
		c.Lack = say.That("choose the rate that a second camera would get")
		return
	}
	saves := c.Plan.Pricing.WhatIf.Saves
	i := c.Plan.AddPerson(len(c.Plan.People))
	q := &c.Plan.People[i]
	q.Name, q.Role, q.Rate, q.Paid = "Second camera", plan.Crew, rate.ID, true
	for i := range c.Plan.Scenes {
		shoot := &c.Plan.Scenes[i].Shoot
		*shoot = max(1, *shoot*plan.Minutes(100-saves)/100)
	}
	c.How = say.That("one more on the rate %s; every scene shoots %d %% shorter, as you assume", cmp.Or(rate.Name, string(rate.ID)), saves)
}

func (c *Case) oneMore() {
	more := c.Plan.Pricing.WhatIf.More
	if more.Seconds == 0 && more.Stills == 0 {
		c.Lack = say.That("say what the further deliverable is")
		return
	}
	c.Plan.Brief.Deliverables = append(c.Plan.Brief.Deliverables, more)
	var what any = more.KindOr()
	if more.Name != "" {
		what = more.Name
	}
	c.How = say.That("%s, besides what is delivered now", what)
}

// PackageCase is a package as a case: the plan with its scenes and deliverables alone.
func PackageCase(p *plan.Plan, k plan.Package) Case {
	c := Case{Name: say.Plain(k.Name), Plan: p.Clone()}
	out := &c.Plan
	for i := len(out.Scenes) - 1; i >= 0 && len(k.Scenes) > 0; i-- {
		if !slices.Contains(k.Scenes, out.Scenes[i].ID) {
			out.RemoveScene(i)
		}
	}
	if len(k.Deliverables) > 0 {
		out.Brief.Deliverables = slices.DeleteFunc(out.Brief.Deliverables, func(d plan.Deliverable) bool {
			return !slices.Contains(k.Deliverables, d.Name)
		})
	}
	if len(out.Scenes) == 0 || len(k.Deliverables) > 0 && len(out.Brief.Deliverables) == 0 {
		c.Lack = say.That("nothing that it names is in the plan any more")
	}
	return c
}

// Gone are the names in a package that the plan has no more.
func Gone(p *plan.Plan, k plan.Package) []string {
	var out []string
	for _, id := range k.Scenes {
		if _, ok := p.Scene(id); !ok {
			out = append(out, string(id))
		}
	}
	for _, name := range k.Deliverables {
		if !slices.ContainsFunc(p.Brief.Deliverables, func(d plan.Deliverable) bool { return d.Name == name }) {
			out = append(out, name)
		}
	}
	return out
}

// Whole reports whether a package holds everything that the plan has.
func Whole(p *plan.Plan, k plan.Package) bool {
	scenes := len(k.Scenes) == 0 || !slices.ContainsFunc(p.Scenes, func(s plan.Scene) bool { return !slices.Contains(k.Scenes, s.ID) })
	return scenes && (len(k.Deliverables) == 0 || !slices.ContainsFunc(p.Brief.Deliverables, func(d plan.Deliverable) bool {
		return !slices.Contains(k.Deliverables, d.Name)
	}))
}

// Packages answers the plan's packages, in their order, for a quote of them. It takes as long as placing each, but for those of the
// whole, which are the plan's own days at the plan's own price. An ended context is an error.
func Packages(ctx context.Context, p *plan.Plan, days []day.Day) ([]Answer, error) {
	var out []Answer
	for _, k := range p.Pricing.Packages {
		c := PackageCase(p, k)
		if c.Lack.IsZero() && Whole(p, k) {
			a := Answer{Case: c, Days: days, Sheet: Of(p, days)}
			a.Quote = a.Sheet.Quote(p, a.Sheet.Price())
			out = append(out, a)
			continue
		}
		a, err := c.Answer(ctx)
		if err != nil {
			return nil, err
		}
		out = append(out, a)
	}
	return out, nil
}

// Answer is what a case came to.
type Answer struct {
	Case
	Days    []day.Day
	LeftOut int     // scenes
	Light   float64 // the share of the wished-for light that is kept, 0..1
	Waiting plan.Minutes
	Crew    plan.Minutes // paid, of everybody with a rate
	Sheet   Sheet
	Quote   Quote
}

// Placed reports whether there is a day with a scene on it.
func (a *Answer) Placed() bool {
	return slices.ContainsFunc(a.Days, func(d day.Day) bool { return len(d.Scenes) > 0 })
}

// Answer places and prices the case. An ended context is an error.
func (c Case) Answer(ctx context.Context) (Answer, error) {
	a := Answer{Case: c}
	if !c.Lack.IsZero() {
		return a, nil
	}
	shoot, err := day.ChosenShoot(ctx, &c.Plan, nil)
	if err := errors.Join(err, ctx.Err()); err != nil {
		return a, err
	}
	a.Days = shoot.Days
	if len(shoot.Days) > 0 {
		a.LeftOut = len(shoot.LeftOut())
	}
	a.figures()
	paid := a.Days
	if c.Rain {
		paid = andAgain(paid)
	}
	a.Sheet = Of(&c.Plan, paid)
	a.Quote = a.Sheet.Quote(&c.Plan, a.Sheet.Computed())
	for _, h := range a.Sheet.Hours {
		a.Crew += h.Worked
	}
	return a, nil
}

// figures adds up light and waiting over the days; scenes that are left out keep no light.
func (a *Answer) figures() {
	kept, all := 0.0, 0.0
	for _, s := range a.Plan.Scenes {
		all += float64(s.Shoot)
	}
	for _, d := range a.Days {
		for _, s := range d.Scenes {
			kept += s.Kept * s.End.Sub(s.Start).Minutes()
		}
		for _, q := range d.People {
			a.Waiting += q.Waits
		}
	}
	if all > 0 {
		a.Light = kept / all
	}
}
