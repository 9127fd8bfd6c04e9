package page

import (
	"cmp"
	"slices"
	"sort"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"github.com/shopspring/decimal"
)

// The columns of tables: one of these for each kind of value.

func textColumn(head, hint string, share float32, at func(*plan.Plan, int) *string) column {
	return column{head: head, hint: hint, share: share,
		get: func(p *plan.Plan, i int) string { return *at(p, i) },
		parse: func(text string) (func(*plan.Plan, int), error) {
			return func(p *plan.Plan, i int) { *at(p, i) = text }, nil
		},
	}
}

// suggestColumn is a column of texts with words to pick from.
func suggestColumn(head, hint string, share float32, words []string, at func(*plan.Plan, int) *string) column {
	c := textColumn(head, hint, share, at)
	c.suggest = words
	return c
}

func wholeColumn[T ~int](head, hint string, share float32, at func(*plan.Plan, int) *T) column {
	return column{head: head, hint: hint, share: share,
		get: func(p *plan.Plan, i int) string { return printWhole(int(*at(p, i))) },
		parse: func(text string) (func(*plan.Plan, int), error) {
			v, err := parseWhole(text)
			return func(p *plan.Plan, i int) { *at(p, i) = T(v) }, err
		},
	}
}

func numberColumn[T ~float64](head, hint string, share float32, at func(*plan.Plan, int) *T) column {
	return column{head: head, hint: hint, share: share,
		get: func(p *plan.Plan, i int) string { return printNumber(float64(*at(p, i))) },
		parse: func(text string) (func(*plan.Plan, int), error) {
			v, err := parseNumber(text)
			return func(p *plan.Plan, i int) { *at(p, i) = T(v) }, err
		},
	}
}

func bearingColumn(head string, share float32, at func(*plan.Plan, int) *plan.Bearing) column {
	return column{head: head, hint: tongue.Say("248, WSW, 235m"), share: share,
		get: func(p *plan.Plan, i int) string { return printBearing(*at(p, i)) },
		parse: func(text string) (func(*plan.Plan, int), error) {
			v, err := parseBearing(text)
			return func(p *plan.Plan, i int) { *at(p, i) = v.at(p) }, err
		},
	}
}

func clockColumn(head, hint string, share float32, at func(*plan.Plan, int) *plan.Clock) column {
	return column{head: head, hint: hint, share: share,
		get: func(p *plan.Plan, i int) string { return printClock(*at(p, i)) },
		parse: func(text string) (func(*plan.Plan, int), error) {
			v, err := parseClock(text)
			return func(p *plan.Plan, i int) { *at(p, i) = v }, err
		},
	}
}

func dateColumn(head string, share float32, at func(*plan.Plan, int) *plan.Date) column {
	return column{head: head, hint: "2027-10-16", share: share,
		get: func(p *plan.Plan, i int) string { return at(p, i).String() },
		parse: func(text string) (func(*plan.Plan, int), error) {
			v, err := parseDate(text)
			return func(p *plan.Plan, i int) { *at(p, i) = v }, err
		},
	}
}

func decimalColumn(head, hint string, share float32, at func(*plan.Plan, int) *decimal.Decimal) column {
	return column{head: head, hint: hint, share: share,
		get: func(p *plan.Plan, i int) string { return printDecimal(*at(p, i)) },
		parse: func(text string) (func(*plan.Plan, int), error) {
			v, err := parseDecimal(text)
			return func(p *plan.Plan, i int) { *at(p, i) = v }, err
		},
	}
}

func timeColumn(head, hint string, share float32, at func(*plan.Plan, int) *plan.Minutes) column {
	return column{head: head, hint: hint, share: share,
		get: func(p *plan.Plan, i int) string { return printTime(*at(p, i)) },
		parse: func(text string) (func(*plan.Plan, int), error) {
			v, err := parseTime(text)
			return func(p *plan.Plan, i int) { *at(p, i) = v }, err
		},
	}
}

// choiceColumn is a column of drop-downs. or gives what holds where nothing was said.
func choiceColumn[T ~string](head string, share float32, options func(*plan.Plan) []option, or func(T) T, at func(*plan.Plan, int) *T) column {
	return column{head: head, share: share, options: options,
		get: func(p *plan.Plan, i int) string { return string(or(*at(p, i))) },
		parse: func(text string) (func(*plan.Plan, int), error) {
			return func(p *plan.Plan, i int) { *at(p, i) = T(text) }, nil
		},
	}
}

// yes is a truth of the plan as the text of a cell; its opposite is nothing.
const yes = "yes"

func yesIf(on bool) string {
	if on {
		return yes
	}
	return ""
}

func tickColumn(head string, share float32, at func(*plan.Plan, int) *bool) column {
	return column{head: head, share: share, ticks: true,
		get: func(p *plan.Plan, i int) string { return yesIf(*at(p, i)) },
		parse: func(text string) (func(*plan.Plan, int), error) {
			return func(p *plan.Plan, i int) { *at(p, i) = text == yes }, nil
		},
	}
}

// cutOff cuts a text off as late as makes it fit.
func cutOff(s string, fits func(string) bool) string {
	if fits(s) {
		return s
	}
	letters := []rune(s)
	cut := func(n int) string { return strings.TrimSpace(string(letters[:n])) + "…" }
	tooLong := sort.Search(len(letters), func(n int) bool { return !fits(cut(n)) })
	return cut(max(0, tooLong-1))
}

func removed[T any](list []T, i int) []T { return slices.Delete(list, i, i+1) }

// comfortable is the width of a comfortable line, and broad that of two columns of fields beside each other.
const (
	comfortable atMost = 760
	broad       atMost = 1800
)

// measure keeps a form readable on a wide window: never wider than a comfortable line.
func measure(o fyne.CanvasObject) fyne.CanvasObject { return container.New(comfortable, o) }

// atMost gives its object the room there is, up to a width for text of 14, at the left.
type atMost float32

func (w atMost) width() float32 { return float32(w) * theme.TextSize() / 14 }

func (atMost) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return objects[0].MinSize().Add(fyne.NewSize(2*theme.Padding(), 2*theme.Padding()))
}

func (w atMost) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	pad := theme.Padding()
	wide := min(size.Width-2*pad, w.width())
	objects[0].Move(fyne.NewPos(pad, pad))
	objects[0].Resize(fyne.NewSize(wide, max(size.Height-2*pad, objects[0].MinSize().Height)))
}

// stack lays objects under each other as wide as it is. Unlike Fyne's own it knows how high a wrapped label is whose text, or
// whose being seen, has just changed: it gives it its width before it asks.
func stack(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&stacked{}, objects...)
}

type stacked struct {
	wide  float32
	close bool // without air between
}

func (s *stacked) gap() float32 {
	if s.close {
		return 0
	}
	return theme.Padding()
}

func (s *stacked) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		if o.Visible() {
			o.Resize(fyne.NewSize(cmp.Or(s.wide, o.Size().Width), o.MinSize().Height))
			size.Width = max(size.Width, o.MinSize().Width)
			size.Height += o.MinSize().Height + s.gap()
		}
	}
	size.Height = max(0, size.Height-s.gap())
	return size
}

func (s *stacked) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	s.wide = size.Width
	y := float32(0)
	for _, o := range objects {
		if o.Visible() {
			o.Resize(fyne.NewSize(size.Width, o.MinSize().Height))
			o.Resize(fyne.NewSize(size.Width, o.MinSize().Height))
			o.Move(fyne.NewPos(0, y))
			y += o.MinSize().Height + s.gap()
		}
	}
}
