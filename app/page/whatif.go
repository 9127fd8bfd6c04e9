package page

import (
	"slices"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/price"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// whatIf is the part of the page of the price with what would change if something were different, side by side.
type whatIf struct {
	form   *form
	ticks  []*ticked // one a kind
	chosen []price.CaseKind
	cases  *worked
	priced view.Priced
	most   *widget.Label
	scroll *container.Scroll
}

func newWhatIf(edit Editor, async Async) *whatIf {
	s := &whatIf{form: newForm(edit, nil), cases: newWorked(async, false, view.WhatIf), chosen: slices.Clone(price.CaseKinds[:price.MostCases])}
	grid := container.New(&ranks{most: 3})
	for _, kind := range price.CaseKinds {
		c := newTicked("", func(bool) {})
		c.tick.Checked = slices.Contains(s.chosen, kind)
		c.tick.OnChanged = func(on bool) { s.choose(kind, on) }
		s.ticks = append(s.ticks, c)
		grid.Add(c.object)
	}
	s.most = wrapped()
	s.most.Importance = widget.LowImportance
	s.fields()
	box := stack(grid, s.most, s.cases.object, widget.NewSeparator(), measure(s.form.box))
	s.scroll = container.NewVScroll(box)
	s.cases.onFill = func() {
		box.Refresh() // the columns have become higher
		s.scroll.Refresh()
	}
	return s
}

// choose takes a kind among the columns or out of them; they stand in the order of the kinds.
func (s *whatIf) choose(kind price.CaseKind, on bool) {
	var chosen []price.CaseKind
	for _, k := range price.CaseKinds {
		if k == kind && on || k != kind && slices.Contains(s.chosen, k) {
			chosen = append(chosen, k)
		}
	}
	s.chosen = chosen
	s.show(s.priced)
}

// fields are what the questions are asked with.
func (s *whatIf) fields() {
	f := s.form
	f.heading(tongue.Say("What is assumed"))
	rate := func(label string, at func(*plan.WhatIf) *plan.ID) {
		f.choice(label, rateOptions(tongue.Say("not chosen yet")), func(p *plan.Plan) string { return string(*at(&p.Pricing.WhatIf)) },
			func(p *plan.Plan, v string) { *at(&p.Pricing.WhatIf) = plan.ID(v) })
	}
	rate(tongue.Say("Paid talent gets"), func(w *plan.WhatIf) *plan.ID { return &w.Talent })
	rate(tongue.Say("A second camera gets"), func(w *plan.WhatIf) *plan.ID { return &w.Camera })
	wholeField(f, tongue.Say("A second camera saves"), tongue.Say("percent of the shooting minutes"), func(p *plan.Plan) *int { return &p.Pricing.WhatIf.Saves })
	more := func(p *plan.Plan) *plan.Deliverable { return &p.Pricing.WhatIf.More }
	f.text(tongue.Say("One deliverable more"), tongue.Say("a teaser, as the client calls it"), func(p *plan.Plan) *string { return &more(p).Name })
	f.choice(tongue.Say("Its kind"), words(plan.DeliverableKinds), func(p *plan.Plan) string { return string(more(p).KindOr()) },
		func(p *plan.Plan, v string) { more(p).Kind = plan.DeliverableKind(v) })
	wholeField(f, tongue.Say("Its seconds"), tongue.Say("on screen, of a film"), func(p *plan.Plan) *int { return &more(p).Seconds })
	wholeField(f, tongue.Say("Its stills"), tongue.Say("pictures"), func(p *plan.Plan) *int { return &more(p).Stills })
}

// Object is pricePart's.
func (s *whatIf) Object() fyne.CanvasObject { return s.scroll }

// Revert is Reverter's.
func (s *whatIf) Revert() bool { return s.form.Revert() }

func (s *whatIf) show(p view.Priced) {
	s.priced = p
	s.form.show(&p.Plan)
	var keys []string
	var cases []price.Case
	for i, kind := range price.CaseKinds {
		c := price.CaseOf(kind, &p.Plan)
		on := slices.Contains(s.chosen, kind)
		s.ticks[i].say(view.CaseLabel(c))
		s.ticks[i].able(on || len(s.chosen) < price.MostCases)
		if on {
			keys, cases = append(keys, string(kind)), append(cases, c)
		}
	}
	s.most.SetText(view.CasesChosen(len(s.chosen)))
	s.cases.want(p, keys, cases)
}
