package page

import (
	"context"
	"image/color"
	"reflect"
	"slices"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan/price"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// latest runs one computing at a time off the UI goroutine. Another one ends the one before; what still comes from it is dropped.
type latest struct {
	async  Async
	cancel context.CancelFunc
	asked  int
}

func newLatest(async Async) *latest { return &latest{async: async, cancel: func() {}} }

// run starts work; what it returns is done on the UI goroutine.
func (l *latest) run(work func(context.Context) func()) {
	l.stop()
	ctx, cancel := context.WithCancel(context.Background())
	l.cancel = cancel
	mine := l.asked
	l.async(func() func() {
		done := work(ctx)
		return func() {
			if mine == l.asked {
				done()
			}
		}
	})
}

func (l *latest) stop() {
	l.cancel()
	l.asked++
}

// worked are cases that are worked out in full in the background, one after another, and shown side by side. What they came to is
// kept, and marked when the plan has become another one.
type worked struct {
	*latest
	words   func(view.Priced, []view.CaseShown) view.SideBySide
	alone   bool   // what is missing or old is worked out without being asked for
	onFill  func() // nil, or lays out anew what the columns lie in
	priced  view.Priced
	slots   []slot
	running int // the slot under way; -1 for none
	stopped bool

	shown  view.SideBySide
	bar    barState
	body   *fyne.Container
	note   *widget.Label
	least  *canvas.Rectangle // keeps the columns wide enough to be read
	status *widget.Label
	work   *widget.Button
	halt   *widget.Button
	object *fyne.Container
}

// barState is what stands over the columns.
type barState struct {
	status, work string // the words of the button; none: there is nothing to work out
	under        bool
}

// slot is one case as it is wanted now, and what it came to when it was from.
type slot struct {
	key    string
	want   price.Case
	from   price.Case
	answer *price.Answer
	err    error
}

func (s slot) there() bool { return s.answer != nil || s.err != nil }
func (s slot) old() bool   { return s.there() && !view.SameCase(s.from, s.want) }
func (s slot) open() bool  { return s.want.Lack.IsZero() && (!s.there() || s.old()) }

func newWorked(async Async, alone bool, words func(view.Priced, []view.CaseShown) view.SideBySide) *worked {
	w := &worked{latest: newLatest(async), words: words, alone: alone, running: -1, body: container.New(tight{}), status: wrapped(), note: wrapped(),
		least: canvas.NewRectangle(color.Transparent)}
	w.status.Importance = widget.LowImportance
	w.work = widget.NewButtonWithIcon(tongue.Say("Work it out"), theme.MediaPlayIcon(), func() {
		w.stopped = false
		w.next()
	})
	w.halt = widget.NewButtonWithIcon(tongue.Say("Stop"), theme.MediaStopIcon(), func() {
		w.give()
		w.stopped = true
		w.render()
	})
	w.status.Hide()
	w.work.Hide()
	w.halt.Hide()
	w.note.Hide()
	w.object = stack(container.NewBorder(nil, nil, container.NewHBox(w.work, w.halt), nil, w.status), w.body, w.note, w.least)
	return w
}

// want says which cases are to be shown now, by keys that stay theirs. What one of them came to is found by what it is, and else by
// its key, as old.
func (w *worked) want(p view.Priced, keys []string, cases []price.Case) {
	var under *price.Case
	if w.running >= 0 {
		under = &w.slots[w.running].want
	}
	before := w.slots
	w.priced, w.slots, w.running = p, make([]slot, len(cases)), -1
	for i, c := range cases {
		s := slot{key: keys[i], want: c}
		at := slices.IndexFunc(before, func(b slot) bool { return b.there() && view.SameCase(b.from, c) })
		if at < 0 {
			at = slices.IndexFunc(before, func(b slot) bool { return b.there() && b.key == s.key })
		}
		if at >= 0 {
			s.from, s.answer, s.err = before[at].from, before[at].answer, before[at].err
		}
		if under != nil && w.running < 0 && view.SameCase(*under, c) && s.open() {
			w.running = i
		}
		w.slots[i] = s
	}
	if under != nil && w.running < 0 {
		w.give()
	}
	if w.alone && w.running < 0 && !w.stopped && !p.Results.Busy {
		w.next()
	}
	w.render()
}

// give gives up what is under way.
func (w *worked) give() {
	w.stop()
	w.running = -1
}

// next works out the first case that has no answer of the plan as it is, and then the others.
func (w *worked) next() {
	w.running = slices.IndexFunc(w.slots, slot.open)
	w.render()
	if w.running < 0 {
		return
	}
	c := w.slots[w.running].want
	w.run(func(ctx context.Context) func() {
		a, err := c.Answer(ctx)
		return func() {
			if w.running >= 0 {
				s := &w.slots[w.running]
				s.from, s.answer, s.err = c, nil, err
				if err == nil {
					s.answer = &a
				}
			}
			w.next()
		}
	})
}

// cases are the slots, ready for words.
func (w *worked) cases() []view.CaseShown {
	var out []view.CaseShown
	for i, s := range w.slots {
		out = append(out, view.CaseShown{Case: s.want, Answer: s.answer, Old: s.old(), Under: i == w.running, Err: s.err})
	}
	return out
}

// render shows the cases. Laying columns out anew takes longer than a frame, so it is done only when something is different.
func (w *worked) render() {
	cases := w.cases()
	bar := barState{status: view.CasesStatus(cases, w.stopped), under: w.running >= 0}
	if !bar.under && slices.ContainsFunc(w.slots, slot.open) {
		bar.work = tongue.Say("Work it out")
		if slices.ContainsFunc(w.slots, slot.old) {
			bar.work = tongue.Say("Work it out again")
		}
	}
	now := w.words(w.priced, cases)
	same := reflect.DeepEqual(now, w.shown)
	if same && bar == w.bar {
		return
	}
	w.bar = bar
	w.status.SetText(bar.status)
	w.work.SetText(bar.work)
	setVisible(w.status, bar.status != "")
	setVisible(w.halt, bar.under)
	setVisible(w.work, bar.work != "")
	if !same {
		w.shown = now
		w.note.SetText(now.Note)
		setVisible(w.note, now.Note != "")
		w.least.SetMinSize(fyne.NewSize(float32(len(now.Heads))*leastColumn*theme.TextSize()/13, 0))
		w.fill()
	}
	w.object.Refresh()
	if w.onFill != nil {
		w.onFill()
	}
}

// leastColumn is how wide a column is at least, the names of the rows included.
const leastColumn = 100

// fill makes the columns anew.
func (w *worked) fill() {
	w.body.RemoveAll()
	if len(w.shown.Heads) == 0 {
		return
	}
	shares := byShare{1}
	for range w.shown.Heads {
		shares = append(shares, 1)
	}
	line := func(name string, cells []fyne.CanvasObject) {
		l := widget.NewLabel(name)
		l.Importance = widget.LowImportance
		l.Wrapping = fyne.TextWrapWord
		w.body.Add(container.New(shares, append([]fyne.CanvasObject{container.NewVBox(l)}, cells...)...))
	}
	var heads []fyne.CanvasObject
	for _, h := range w.shown.Heads {
		name := wrapped()
		name.TextStyle.Bold = true
		name.SetText(h.Name)
		heads = append(heads, pair(name, h.Note))
	}
	line("", heads)
	for _, r := range w.shown.Rows {
		var cells []fyne.CanvasObject
		for _, c := range r.Cells {
			text := wrapped()
			text.SetText(c.Text)
			cells = append(cells, pair(text, c.Than))
		}
		line(r.Name, cells)
	}
}

// pair is a text with smaller words under it, if there are any.
func pair(text *widget.Label, under string) fyne.CanvasObject {
	if under == "" {
		return container.NewVBox(text)
	}
	small := wrapped()
	small.SizeName = theme.SizeNameCaptionText
	small.Importance = widget.LowImportance
	small.SetText(under)
	return container.New(tight{}, text, small)
}
