package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
)

// DateNote is the short line under a candidate date: its rank among them, once they are all placed.
func DateNote(st session.State, d day.Day) string {
	for _, one := range st.Results.Shoot.Days {
		if one.Of > 1 && one.Date == d.Date {
			return fmt.Sprintf("day %d of %d", one.Number, one.Of)
		}
	}
	ranked, chosen := rankedDates(st), ""
	if st.Plan.Shooting.Date == d.Date {
		chosen = ", chosen"
	}
	switch i := slices.IndexFunc(ranked, func(o day.Day) bool { return o.Date == d.Date }); {
	case d.Sky == nil:
		return "not computed"
	case st.Results.Busy || i < 0:
		return fmt.Sprintf("loses %.0f points", d.Loss.Total())
	case len(ranked) == 1:
		return "the only one"
	case i == 0:
		return fmt.Sprintf("the best of %d", len(ranked)) + chosen
	default:
		return fmt.Sprintf("no. %d of %d", i+1, len(ranked)) + chosen
	}
}

// rankedDates are the candidate dates that were placed, the one that loses least first.
func rankedDates(st session.State) []day.Day {
	ranked := slices.DeleteFunc(slices.Clone(st.Results.Days), func(d day.Day) bool { return d.Sky == nil })
	slices.SortStableFunc(ranked, func(a, b day.Day) int { return cmp.Compare(a.Loss.Total(), b.Loss.Total()) })
	return ranked
}

// DateReason says in a few words why a date stands where it does: what tells it most from the best one, or the best one from the next.
func DateReason(st session.State, d day.Day) string {
	ranked := rankedDates(st)
	if d.Sky == nil || len(ranked) < 2 || st.Plan.Shooting.DayCount() > 1 {
		return outWords(st.Plan, d)
	}
	other := ranked[0]
	if other.Date == d.Date {
		other = ranked[1]
	}
	a, b, best := d.Figures(), other.Figures(), ranked[0].Date == d.Date
	x, y, out := d.Loss, other.Loss, outWords(st.Plan, d)
	if best { // what it spares, rather than what it costs
		x, y = y, x
		out = cmp.Or(strings.Replace(out, "without", "only without", 1), "leaves nothing out")
	}
	reason, most := "", 0.05
	for _, part := range []struct {
		costs float64
		words string
	}{
		{x.Light - y.Light, byMinutes(a.KeptMinutes()-b.KeptMinutes(), best, "more light", "less light")},
		{x.Waiting - y.Waiting, byMinutes(float64(a.Waiting()-b.Waiting()), !best, "more waiting", "less waiting")},
		{x.Moves - y.Moves, map[bool]string{true: "fewer moves", false: "more moves"}[best]},
		{x.Length - y.Length, byMinutes(float64(a.Length()-b.Length()), !best, "longer", "shorter")},
		{x.Overtime - y.Overtime, map[bool]string{true: "less overtime", false: "more overtime"}[best]},
		{x.LeftOut - y.LeftOut, out},
	} {
		if part.costs > most {
			reason, most = part.words, part.costs
		}
	}
	return cmp.Or(reason, outWords(st.Plan, d), "as good as "+other.Date.DayMonth())
}

// byMinutes says by how much and which way: "38 min less light". Losses are weighed, so the minutes may not tell what the loss does;
// then only the way is said.
func byMinutes(by float64, up bool, more, less string) string {
	words, n := less, plan.Minutes(math.Round(math.Abs(by)))
	if up {
		words = more
	}
	if n == 0 || up != (by > 0) {
		return words
	}
	return n.String() + " " + words
}

// outWords names the scenes that a date leaves out: "without 7, 9".
func outWords(p plan.Plan, d day.Day) string {
	var names []string
	for _, l := range d.LeftOut {
		sc, _ := p.Scene(l.Scene)
		names = append(names, sc.Name())
	}
	if len(names) == 0 {
		return ""
	}
	return "without " + strings.Join(names, ", ")
}

// Compared is a date beside another.
type Compared struct {
	Date   plan.Date
	Name   string
	Values []string // in the order of CompareHeads
	Better []bool   // than the other one's
}

// CompareHeads are what two dates are compared by.
var CompareHeads = []string{"Light kept", "Golden light", "Waiting", "Length", "Left out", "Overtime", "Price", "Loses"}

// Compare sets two candidate dates beside each other; nothing where one of them was not placed.
func Compare(st session.State, one, other plan.Date) []Compared {
	var out []Compared
	var figures [][]float64 // more is worse
	for _, date := range []plan.Date{one, other} {
		i := slices.IndexFunc(st.Results.Days, func(d day.Day) bool { return d.Date == date && d.Sky != nil })
		if i < 0 || one == other {
			return nil
		}
		c, f := dateFigures(st, st.Results.Days[i])
		out, figures = append(out, c), append(figures, f)
	}
	for i := range out {
		for j := range CompareHeads {
			out[i].Better = append(out[i].Better, figures[i][j] < figures[1-i][j] && out[i].Values[j] != out[1-i].Values[j])
		}
	}
	return out
}

// dateFigures are a date's values, and the figures behind them, of which more is worse.
func dateFigures(st session.State, d day.Day) (Compared, []float64) {
	f := d.Figures()
	golden := 0.0
	for _, s := range f.Light {
		if sc, _ := st.Plan.Scene(s.Scene); sc.Wish.Kind == plan.GoldenMorning || sc.Wish.Kind == plan.GoldenEvening {
			golden += s.Kept
		}
	}
	alone := st
	alone.Results.Shoot.Days = []day.Day{d}
	p := PriceOf(alone)
	over, overtime := p.Sheet.OvertimeOn(&st.Plan.Pricing.Card, d.Date), "none"
	if over.IsPositive() {
		overtime = p.Money(over)
	}
	c := Compared{Date: d.Date, Name: d.Date.Short(), Values: []string{
		fmt.Sprintf("%d %%, %s", day.Percent(f.KeptShare()), plan.Minutes(math.Round(f.KeptMinutes()))),
		plan.Minutes(math.Round(golden)).String(),
		f.Waiting().String(),
		f.Length().String(),
		cmp.Or(strings.TrimPrefix(outWords(st.Plan, d), "without "), "nothing"),
		overtime,
		p.Money(p.Quote.Price),
		day.PointWords(d.Loss.Total()),
	}}
	return c, []float64{-f.KeptMinutes(), -golden, float64(f.Waiting()), float64(f.Length()), float64(len(f.LeftOut)),
		over.InexactFloat64(), p.Quote.Price.InexactFloat64(), d.Loss.Total()}
}

// CompareWith is the date to set beside one, where nobody has said which: the best of the others.
func CompareWith(st session.State, one plan.Date) plan.Date {
	for _, d := range rankedDates(st) {
		if d.Date != one {
			return d.Date
		}
	}
	return plan.Date{}
}
