package page

import (
	"context"
	"reflect"
	"strings"

	"eavelight/app/draw"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/price"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// sure is the part of the page of the price that shows how sure it is. The draws are made off the UI goroutine, while the part is in
// sight; until they are there, what was drawn last stands.
type sure struct {
	*latest
	form   *form
	plan   *plan.Plan // that the draws are of
	days   []day.Day
	words  *widget.Label
	lacks  *widget.Label
	cases  *draw.Histogram
	swings *draw.Swings
	method *widget.Label
	ranked *widget.Label
	object fyne.CanvasObject
}

func newSure(edit Editor, async Async) *sure {
	s := &sure{latest: newLatest(async), form: newForm(edit, nil), words: wrapped(), lacks: wrapped(),
		cases: draw.NewHistogram(), swings: draw.NewSwings(), method: wrapped(), ranked: wrapped()}
	s.lacks.Importance = widget.WarningImportance
	s.method.Importance = widget.LowImportance
	s.ranked.TextStyle.Bold = true
	s.ranked.SetText(tongue.Say("What moves it most"))
	s.fields()
	told := stack(s.words, s.cases, s.ranked, s.swings, s.method)
	fields := stack(s.form.box, s.lacks)
	s.object = container.New(aside(245), container.NewVScroll(measure(fields)), container.NewVScroll(told))
	s.showFound(view.Sure{})
	return s
}

func (s *sure) fields() {
	unsure := func(p *plan.Plan) *plan.Unsure { return &p.Pricing.Unsure }
	wholeField(s.form, tongue.Say("Wraps early by"), tongue.Say("minutes"), func(p *plan.Plan) *int { return (*int)(&unsure(p).Early) })
	wholeField(s.form, tongue.Say("Wraps late by"), tongue.Say("minutes"), func(p *plan.Plan) *int { return (*int)(&unsure(p).Late) })
	wholeField(s.form, tongue.Say("Rounds, likely"), tongue.Say("of changes"), func(p *plan.Plan) *int { return &unsure(p).Rounds })
	wholeField(s.form, tongue.Say("Rounds, at most"), tongue.Say("of changes"), func(p *plan.Plan) *int { return &unsure(p).MostRounds })
	wholeField(s.form, tongue.Say("Weather day, %"), tongue.Say("of 100 times"), func(p *plan.Plan) *int { return &unsure(p).Weather })
}

// wholeField adds a field for a whole number that is 0 when it was not said.
func wholeField(f *form, label, hint string, at func(*plan.Plan) *int) {
	f.parsed(label, hint, func(p *plan.Plan) string { return printWhole(*at(p)) }, func(text string) (func(*plan.Plan), error) {
		v, err := parseWhole(text)
		return func(p *plan.Plan) { *at(p) = v }, err
	})
}

// Object is pricePart's.
func (s *sure) Object() fyne.CanvasObject { return s.object }

// Revert is Reverter's.
func (s *sure) Revert() bool { return s.form.Revert() }

func (s *sure) show(p view.Priced) {
	s.form.show(&p.Plan)
	lacks := view.SureLacks(p)
	s.lacks.SetText(strings.Join(lacks, "\n"))
	setVisible(s.lacks, len(lacks) > 0)
	days := p.Results.Shoot.Days
	if s.plan != nil && sameDays(days, s.days) && reflect.DeepEqual(*s.plan, p.Plan) {
		return
	}
	s.plan, s.days = &p.Plan, days
	s.run(func(ctx context.Context) func() {
		found, err := price.HowSure(ctx, &p.Plan, days, &p.Sheet)
		if err != nil {
			return func() { s.showFound(view.SureFailed(err)) }
		}
		told := view.SureOf(p, found)
		return func() { s.showFound(told) }
	})
}

// sameDays reports whether two lists of days come from the same placing.
func sameDays(a, b []day.Day) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

func (s *sure) showFound(told view.Sure) {
	lines := strings.Join(told.Lines, "\n")
	if told.Empty != "" {
		lines = told.Empty
	}
	s.words.SetText(lines)
	s.method.SetText(told.Method)
	bars := draw.HistogramData{Over: told.Over, Marks: valueMarks(told.Marks), Scale: valueMarks(told.Scale)}
	for _, b := range told.Bars {
		bars.Bars = append(bars.Bars, draw.HistogramBar{From: b.From, To: b.To, Count: b.Draws})
	}
	if len(bars.Marks) > 1 {
		bars.Marks[1].Dashed = true
	}
	swings := draw.SwingsData{Base: told.Base, Less: tongue.Say("costs less"), More: tongue.Say("costs more")}
	for _, w := range told.Swings {
		swings.Rows = append(swings.Rows, draw.SwingRow{Name: w.Name, Note: w.Note, Low: w.Low, High: w.High, Less: w.Less, More: w.More})
	}
	s.cases.Set(bars)
	s.swings.Set(swings)
	for _, o := range []fyne.CanvasObject{s.cases, s.swings, s.ranked, s.method} {
		setVisible(o, len(told.Bars) > 0)
	}
	s.object.Refresh()
}
