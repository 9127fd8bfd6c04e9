package page

import (
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2/container"
)

// items is a list of the plan's things with a form for the selected one: what the pages of scenes, people and spaces share.
type items[T any] struct {
	*listPane
	form   *form
	detail *container.Scroll
	all    func(*plan.Plan) []T
	id     func(*T) plan.ID
	shown  *plan.Plan
}

// newItems builds the list and an empty form. all gives the plan's own slice, so that what at returns can be edited.
func newItems[T any](item, empty string, edit Editor, all func(*plan.Plan) []T, id func(*T) plan.ID, ops listOps) *items[T] {
	s := &items[T]{all: all, id: id, shown: &plan.Plan{}}
	ops.id = func(p *plan.Plan, i int) plan.ID { return id(&all(p)[i]) }
	ops.shift = func(p *plan.Plan, i, by int) { plan.Shift(all(p), i, by) }
	s.listPane = newListPane(item, empty, edit, ops, func() {
		s.detail.ScrollToTop()
		s.showDetail()
	})
	s.form = newForm(edit, func() string { return string(s.selected) })
	s.detail = container.NewVScroll(measure(s.form.box))
	return s
}

// showItems brings the list and the form up to a plan.
func (s *items[T]) showItems(p *plan.Plan, rows []view.Row) {
	s.shown = p
	s.listPane.show(rows)
	s.showDetail()
}

// Revert is Reverter's.
func (s *items[T]) Revert() bool { return s.form.Revert() }

func (s *items[T]) showDetail() {
	setVisible(s.detail, s.selected != "")
	s.form.show(s.shown)
}

// at is the selected thing in a plan, nil where there is none.
func (s *items[T]) at(p *plan.Plan) *T {
	list := s.all(p)
	for i := range list {
		if s.id(&list[i]) == s.selected {
			return &list[i]
		}
	}
	return nil
}

// read reads something of the selected thing in a plan; where nothing is selected, it is the zero value.
func read[T, V any](s *items[T], get func(*T) V) func(*plan.Plan) V {
	return func(p *plan.Plan) (v V) {
		if t := s.at(p); t != nil {
			v = get(t)
		}
		return v
	}
}

// edited turns a change of the selected thing into one of the plan.
func (s *items[T]) edited(change func(*T)) func(*plan.Plan) {
	return func(p *plan.Plan) {
		if t := s.at(p); t != nil {
			change(t)
		}
	}
}

func (s *items[T]) text(label, hint string, at func(*T) *string) {
	s.form.text(label, hint, read(s, at))
}

func (s *items[T]) long(label, hint string, lines int, at func(*T) *string) {
	s.form.long(label, hint, lines, read(s, at))
}

// lines adds an entry of some lines for what is about the rest of the plan too.
func (s *items[T]) lines(label, hint string, lines int, get func(*plan.Plan, *T) string, parse func(string) (func(*T), error)) {
	e := newArea(lines)
	s.form.add(label, e, &e.Entry, hint, func(p *plan.Plan) string {
		if t := s.at(p); t != nil {
			return get(p, t)
		}
		return ""
	}, func(text string) (func(*plan.Plan), error) {
		change, err := parse(text)
		return s.edited(change), err
	})
}

func (s *items[T]) check(label, text string, at func(*T) *bool) {
	s.form.check(label, text, read(s, at))
}

func (s *items[T]) choice(label string, options func(*plan.Plan) []option, get func(*T) string, set func(*T, string)) {
	s.form.choice(label, options, read(s, get), func(p *plan.Plan, v string) { s.edited(func(t *T) { set(t, v) })(p) })
}

// parsed adds a field whose text parse turns into a change of the selected thing.
func (s *items[T]) parsed(label, hint string, get func(*T) string, parse func(string) (func(*T), error)) {
	s.form.parsed(label, hint, read(s, get), func(text string) (func(*plan.Plan), error) {
		change, err := parse(text)
		return s.edited(change), err
	})
}

func (s *items[T]) whole(label, hint string, at func(*T) *int) {
	s.parsed(label, hint, func(t *T) string { return printWhole(*at(t)) }, func(text string) (func(*T), error) {
		v, err := parseWhole(text)
		return func(t *T) { *at(t) = v }, err
	})
}

// figure adds a field for a number that is 0 when it was not said.
func (s *items[T]) figure(label, hint string, at func(*T) *float64) {
	s.parsed(label, hint, func(t *T) string { return printOrNone(*at(t)) }, func(text string) (func(*T), error) {
		v, err := numberOrNone(text)
		return func(t *T) { *at(t) = v }, err
	})
}

func (s *items[T]) minutes(label, hint string, at func(*T) *plan.Minutes) {
	s.whole(label, hint, func(t *T) *int { return (*int)(at(t)) })
}

func (s *items[T]) clock(label, hint string, at func(*T) *plan.Clock) {
	s.parsed(label, hint, func(t *T) string { return printClock(*at(t)) }, func(text string) (func(*T), error) {
		c, err := parseClock(text)
		return func(t *T) { *at(t) = c }, err
	})
}
