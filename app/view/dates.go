package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/say"
)

// DatePlaced is a candidate date as it is placed: as one of the days of a longer shoot where it is one, else with all scenes on it.
func DatePlaced(st session.State, date plan.Date) (d day.Day, ok bool) {
	on := func(d day.Day) bool { return d.Date == date }
	if i := slices.IndexFunc(st.Results.Shoot.Days, on); i >= 0 && st.Results.Shoot.Days[i].Of > 1 {
		return st.Results.Shoot.Days[i], true
	}
	if i := slices.IndexFunc(st.Results.Days, on); i >= 0 {
		return st.Results.Days[i], true
	}
	return d, false
}

// DateNote is the short line under a candidate date: its rank among them, once they are all placed.
func DateNote(st session.State, d day.Day) string {
	ranked, note := rankedDates(st), ""
	switch i := slices.IndexFunc(ranked, func(o day.Day) bool { return o.Date == d.Date }); {
	case d.Of > 1:
		return tongue.Say("day %d of %d", d.Number, d.Of)
	case d.Sky == nil:
		return tongue.Say("not computed")
	case st.Results.Busy || i < 0:
		return tongue.Say("loses %.0f points", d.Loss.Total())
	case len(ranked) == 1:
		return tongue.Say("the only one")
	case i == 0:
		note = tongue.Say("the best of %d", len(ranked))
	default:
		note = tongue.Say("no. %d of %d", i+1, len(ranked))
	}
	if st.Plan.Shooting.Date == d.Date {
		return tongue.Say("%s, chosen", note)
	}
	return note
}

// rankedDates are the candidate dates that were placed, the one that loses least first.
func rankedDates(st session.State) []day.Day {
	ranked := slices.DeleteFunc(slices.Clone(st.Results.Days), func(d day.Day) bool { return d.Sky == nil })
	slices.SortStableFunc(ranked, func(a, b day.Day) int { return cmp.Compare(a.Loss.Total(), b.Loss.Total()) })
	return ranked
}

// DateReason says in a few words why a date stands where it does: what tells it most from the best one, or the best one from the next.
// A day of a longer shoot says how much of the film it takes.
func DateReason(st session.State, d day.Day) string {
	if d.Of > 1 {
		return tongue.Count(len(d.Scenes), "%d scene", "%d scenes")
	}
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
		out = tongue.Say("leaves nothing out")
		if names := outNames(st.Plan, d); names != "" {
			out = tongue.Say("only without %s", names)
		}
	}
	reason, most := "", 0.05
	for _, part := range []struct {
		costs float64
		words string
	}{
		{x.Light - y.Light, byMinutes(a.KeptMinutes()-b.KeptMinutes(), best, moreLight, lessLight)},
		{x.Waiting - y.Waiting, byMinutes(float64(a.Waiting()-b.Waiting()), !best, moreWaiting, lessWaiting)},
		{x.Moves - y.Moves, map[bool]string{true: tongue.Say("fewer moves"), false: tongue.Say("more moves")}[best]},
		{x.Length - y.Length, byMinutes(float64(a.Length()-b.Length()), !best, longer, shorter)},
		{x.Overtime - y.Overtime, map[bool]string{true: tongue.Say("less overtime"), false: tongue.Say("more overtime")}[best]},
		{x.LeftOut - y.LeftOut, out},
	} {
		if part.costs > most {
			reason, most = part.words, part.costs
		}
	}
	return cmp.Or(reason, outWords(st.Plan, d), tongue.Say("as good as %s", other.Date.SaidDayMonth()))
}

// way is how a date differs from another: alone, and by so many minutes.
type way struct{ alone, by string }

var (
	moreLight   = way{say.Mark("more light"), say.Mark("%s more light")}
	lessLight   = way{say.Mark("less light"), say.Mark("%s less light")}
	moreWaiting = way{say.Mark("more waiting"), say.Mark("%s more waiting")}
	lessWaiting = way{say.Mark("less waiting"), say.Mark("%s less waiting")}
	longer      = way{say.Mark("longer"), say.Mark("%s longer")}
	shorter     = way{say.Mark("shorter"), say.Mark("%s shorter")}
)

// byMinutes says by how much and which way: "38 min less light". Losses are weighed, so the minutes may not tell what the loss does;
// then only the way is said.
func byMinutes(by float64, up bool, more, less way) string {
	is, n := less, plan.Minutes(math.Round(math.Abs(by)))
	if up {
		is = more
	}
	if n == 0 || up != (by > 0) {
		return tongue.Marked(is.alone)
	}
	return tongue.Of(say.Marked(is.by, n))
}

// outWords names the scenes that a date leaves out: "without 7, 9".
func outWords(p plan.Plan, d day.Day) string {
	names := outNames(p, d)
	if names == "" {
		return ""
	}
	return tongue.Say("without %s", names)
}

func outNames(p plan.Plan, d day.Day) string {
	var names []string
	for _, l := range d.LeftOut {
		sc, _ := p.Scene(l.Scene)
		names = append(names, sc.Name())
	}
	return strings.Join(names, ", ")
}

// Compared is a date beside another.
type Compared struct {
	Date   plan.Date
	Name   string
	Values []string // in the order of CompareHeads
	Better []bool   // than the other one's
}

// CompareHeads are what two dates are compared by, each a form that is marked.
var CompareHeads = []string{say.Mark("Light kept"), say.Mark("Golden light"), say.Mark("Waiting"), say.Mark("Length"), say.Mark("Left out"),
	say.Mark("Overtime"), say.Mark("Price"), say.Mark("Loses")}

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
	over, overtime := p.Sheet.OvertimeOn(&st.Plan.Pricing.Card, d.Date), tongue.Say("overtime|none")
	if over.IsPositive() {
		overtime = p.Money(over)
	}
	c := Compared{Date: d.Date, Name: shortDate(d.Date), Values: []string{
		fmt.Sprintf("%d %%, %s", day.Percent(f.KeptShare()), plan.Minutes(math.Round(f.KeptMinutes()))),
		plan.Minutes(math.Round(golden)).String(),
		f.Waiting().String(),
		f.Length().String(),
		cmp.Or(outNames(st.Plan, d), tongue.Say("left out|nothing")),
		overtime,
		p.Money(p.Quote.Price),
		tongue.Of(day.PointWords(d.Loss.Total())),
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
