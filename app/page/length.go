package page

import (
	"regexp"
	"strconv"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/say"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Lengths lie in the plan in metres, and are shown and read in the unit that the window has. Feet are shown rounded; so what an
// entry shows is not written back: see bound.

// unitForm is a length with its unit: metres, feet with or without inches, or inches.
var unitForm = regexp.MustCompile(`^([-+]?)(?:([0-9.,]+) ?(?:m|met(?:er|re)s?|metros?)\.?|` +
	`(?:([0-9.,]+) ?(?:ft\.?|feet|foot|pies?|['′’]))? ?(?:([0-9.,]+) ?(?:in\.?|inch|inches|pulgadas?|["″”]))?)$`)

// parseLength reads a length: a plain number in the window's unit, or one with its own: "3.5 m", "12 ft", "12'", `7' 6"`.
func parseLength(text string) (plan.Metres, error) {
	t := strings.Join(strings.Fields(lower(text)), " ")
	m := unitForm.FindStringSubmatch(t)
	if m == nil || m[2]+m[3]+m[4] == "" {
		return plainLength(text)
	}
	sum := 0.0
	for i, unit := range []float64{1, say.Foot, say.Foot / 12} {
		if m[2+i] == "" {
			continue
		}
		v, err := parseNumber(m[2+i])
		if err != nil {
			return 0, err
		}
		sum += v * unit
	}
	if m[1] == "-" {
		sum = -sum
	}
	if m[2] != "" {
		return plan.Metres(sum), nil
	}
	return wholeMetres(sum), nil
}

// plainLength reads a number of the window's unit.
func plainLength(text string) (plan.Metres, error) {
	v, err := parseNumber(text)
	if err != nil && !thousands.MatchString(pointed(strings.TrimSpace(text))) {
		return 0, say.Error("%q is not a length; type it as in %s m or 12 ft", text, printNumber(3.5))
	}
	if !tongue.Feet() {
		return plan.Metres(v), err
	}
	return wholeMetres(tongue.Metres(v)), err
}

// wholeMetres takes the dust off that feet leave: 12 ft are 3.6576 m, and not 3.6576000000000004.
func wholeMetres(v float64) plan.Metres {
	clean, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	return plan.Metres(clean)
}

// lengthOrNone reads a length; an empty field is 0, which stands for none.
func lengthOrNone(text string) (plan.Metres, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	return parseLength(text)
}

func printLength(m plan.Metres) string {
	if tongue.Feet() {
		return pointed(say.FeetFigure(tongue.InUnit(float64(m))))
	}
	return printNumber(float64(m))
}

func printLengthOrNone(m plan.Metres) string {
	if m == 0 {
		return ""
	}
	return printLength(m)
}

// exactLength tells lengths apart that may be shown alike.
func exactLength(m plan.Metres) string { return strconv.FormatFloat(float64(m), 'g', -1, 64) }

// inUnit is what a length is called where its figure stands alone: "Height, m", or "Height, ft".
func inUnit(name string) string { return tongue.Say("length|%s, %s", name, tongue.LengthUnit()) }

// length adds a field for a length; print and parse are what it shows and reads.
func (f *form) length(label, hint string, at func(*plan.Plan) *plan.Metres, print func(plan.Metres) string, parse func(string) (plan.Metres, error)) {
	get := func(print func(plan.Metres) string) func(*plan.Plan) string {
		return func(p *plan.Plan) string {
			if m := at(p); m != nil {
				return print(*m)
			}
			return ""
		}
	}
	e := widget.NewEntry()
	b := f.bind(label, e, hint, get(print), func(text string) (func(*plan.Plan), error) {
		v, err := parse(text)
		return func(p *plan.Plan) {
			if m := at(p); m != nil {
				*m = v
			}
		}, err
	})
	b.exact = get(exactLength)
	f.row(inUnit(label), container.NewVBox(e, b.wrong))
}

// length adds a field for a length that is 0 when it was not said.
func (s *items[T]) length(label, hint string, at func(*T) *plan.Metres) {
	s.form.length(label, hint, read(s, at), printLengthOrNone, lengthOrNone)
}

func lengthColumn(head string, hint plan.Metres, share float32, at func(*plan.Plan, int) *plan.Metres) column {
	return column{head: inUnit(head), called: head, hint: printLength(hint), share: share,
		get:   func(p *plan.Plan, i int) string { return printLength(*at(p, i)) },
		exact: func(p *plan.Plan, i int) string { return exactLength(*at(p, i)) },
		parse: func(text string) (func(*plan.Plan, int), error) {
			v, err := parseLength(text)
			return func(p *plan.Plan, i int) { *at(p, i) = v }, err
		},
	}
}
