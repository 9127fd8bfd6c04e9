package view

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

// BudgetRow is a row of the budget: a line, or the head of a group with its subtotal.
type BudgetRow struct {
	ID     string // of the line; a head has none
	Text   string
	How    string // the amount comes about
	Amount string
	Mark   string
	Quiet  bool // it costs us nothing
}

// explain says how an amount comes about.
func (p Priced) explain(parts []price.Part) string { return tongue.Of(p.Sheet.Explain(parts)) }

// BudgetRows are all lines of the budget under the heads of their groups.
func BudgetRows(p Priced) []BudgetRow {
	rows := make([]BudgetRow, 0, len(p.Sheet.Lines)+len(plan.Groups))
	for i, l := range p.Sheet.Lines {
		if i == 0 || p.Sheet.Lines[i-1].Group != l.Group {
			rows = append(rows, groupHead(p, l.Group))
		}
		rows = append(rows, BudgetRow{ID: l.ID, Text: cmp.Or(l.Text, tongue.Say("no text yet")), How: p.explain(l.Parts), Amount: p.Amount(l.Amount),
			Mark: lineMark(l), Quiet: !l.Counts()})
	}
	return rows
}

func groupHead(p Priced, g plan.Group) BudgetRow {
	head := BudgetRow{Text: groupName(g), Amount: p.Amount(decimal.Zero)}
	for _, sum := range p.Sheet.Groups {
		if sum.Group == g {
			head.Amount = p.Amount(sum.Amount)
		}
	}
	mine, n := decimal.Zero, 0
	for _, l := range p.Sheet.Lines {
		if l.Group != g {
			continue
		}
		n++
		if l.Owner && l.Counts() {
			mine = mine.Add(l.Amount)
		}
	}
	head.How = tongue.Count(n, "%d line", "%d lines")
	if mine.IsPositive() {
		head.How = tongue.Count(n, "%d line, and %s of your own time", "%d lines, and %s of your own time", p.Amount(mine))
	}
	return head
}

// lineMark says in words what is special about a line.
func lineMark(l price.Line) string {
	var marks []string
	mark := func(is bool, words string) {
		if is {
			marks = append(marks, words)
		}
	}
	mark(l.Source == price.FromTyped, tongue.Say("typed"))
	mark(l.Computed != nil, tongue.Say("changed by hand"))
	mark(l.Out, tongue.Say("taken out"))
	mark(l.Pays != plan.WePay, tongue.Say("the %s pays", l.Pays))
	mark(l.Owner, tongue.Say("your time"))
	return strings.Join(marks, ", ")
}

// BudgetLine finds a line of the budget.
func BudgetLine(p Priced, id string) (price.Line, bool) {
	i := slices.IndexFunc(p.Sheet.Lines, func(l price.Line) bool { return l.ID == id })
	if i < 0 {
		return price.Line{}, false
	}
	return p.Sheet.Lines[i], true
}

// GoneLines are the lines that the user has changed and that are not in the budget any more.
func GoneLines(p Priced) []string {
	var out []string
	for _, problem := range p.Sheet.Problems {
		if problem.Code == plan.OverrideGone {
			out = append(out, fmt.Sprint(problem.Facts[0]))
		}
	}
	return out
}

// DropWords name the button that forgets the changes of lines that are gone.
func DropWords(gone []string) string {
	return tongue.Count(len(gone), "Forget %d change of a line that is gone", "Forget %d changes of lines that are gone")
}

// LineSource says where a line comes from.
func LineSource(p Priced, id string) string {
	l, _ := BudgetLine(p, id)
	switch {
	case l.Source == price.FromTyped:
		return tongue.Say("Typed by you.")
	case l.Source == price.FromCard:
		r := rateOf(p, l.Rate)
		if r.For != "" {
			return tongue.Say("The rate card, for each %s, %s only.", r.Per.Or(), r.For)
		}
		return tongue.Say("The rate card, for each %s.", r.Per.Or())
	case l.Group == plan.KitGroup && owned(p, l.Text):
		return tongue.Say("The placed days: those that use it; owned, straight-line depreciation.")
	case l.Group == plan.KitGroup:
		return tongue.Say("The placed days: those that use it; hired.")
	}
	return tongue.Say("The placed days: the hours from call to release, paid by the rate card.")
}

func owned(p Priced, name string) bool {
	return slices.ContainsFunc(p.Plan.Pricing.Card.Kit, func(k plan.KitRate) bool { return k.Name == name && k.Owned })
}

func rateOf(p Priced, id plan.ID) plan.Rate {
	rates := p.Plan.Pricing.Card.Rates
	if i := slices.IndexFunc(rates, func(r plan.Rate) bool { return r.ID == id }); i >= 0 {
		return rates[i]
	}
	return plan.Rate{}
}

// LineAmount says what a line comes to and whether that counts.
func LineAmount(p Priced, id string) string {
	l, _ := BudgetLine(p, id)
	text := cmp.Or(p.explain(l.Parts), tongue.Say("nothing")) + " = " + p.Amount(l.Amount) + "."
	switch {
	case l.Out:
		text += " " + tongue.Say("You took it out, so it does not count.")
	case l.Pays != plan.WePay:
		text += " " + tongue.Say("The %s pays it beside the price, so it does not count.", l.Pays)
	case l.Owner:
		text += " " + tongue.Say("It is your own time, which stands in the floor by itself.")
	}
	if !l.Taxed {
		text += " " + tongue.Say("It is not taxed.")
	}
	return text
}

// LineComputed says what stood there before the user changed it; nothing where it was not changed.
func LineComputed(p Priced, id string) string {
	l, _ := BudgetLine(p, id)
	if l.Computed == nil {
		return ""
	}
	sum := decimal.Zero
	for _, part := range l.Computed {
		sum = sum.Add(part.Amount)
	}
	return p.explain(l.Computed) + " = " + p.Amount(sum)
}

// HoursGrid are the paid hours behind a line: a head and a row for each thing to know, with a column a day. It is empty for what
// is no line of somebody's hours.
func HoursGrid(p Priced, line string) [][]string {
	var mine []price.Hours
	for _, h := range p.Sheet.Hours {
		if price.CrewLine(h.Person) == line {
			mine = append(mine, h)
		}
	}
	if len(mine) == 0 {
		return nil
	}
	row := func(name string, of func(price.Hours) string) []string {
		out := []string{name}
		for _, h := range mine {
			out = append(out, of(h))
		}
		return out
	}
	clockOf := func(h price.Hours, t time.Time) string {
		days := p.Results.Shoot.Days
		i := slices.IndexFunc(days, func(d day.Day) bool { return d.Date == h.Date })
		return clock(days[i], t)
	}
	grid := [][]string{
		row("", func(h price.Hours) string { return shortDate(h.Date) }),
		row(tongue.Say("Call"), func(h price.Hours) string { return clockOf(h, h.Call) }),
		row(tongue.Say("Free to go"), func(h price.Hours) string { return clockOf(h, h.Release) }),
		row(tongue.Say("Meals, out"), func(h price.Hours) string { return signed("-", h.Meals) }),
		row(tongue.Say("Travel, in"), func(h price.Hours) string { return signed("+", h.Travel) }),
		row(tongue.Say("Paid time"), func(h price.Hours) string { return h.Worked.String() }),
	}
	for _, times := range allTimes(mine) {
		grid = append(grid, row(tongue.Say("of it x%s", number(times)), func(h price.Hours) string { return timeAt(h, times).String() }))
	}
	return grid
}

func signed(sign string, m plan.Minutes) string {
	if m == 0 {
		return tongue.Say("time|none")
	}
	return sign + m.String()
}

func allTimes(hours []price.Hours) []decimal.Decimal {
	var out []decimal.Decimal
	for _, h := range hours {
		for _, paid := range h.Paid {
			if !slices.ContainsFunc(out, paid.Times.Equal) {
				out = append(out, paid.Times)
			}
		}
	}
	slices.SortFunc(out, decimal.Decimal.Cmp)
	return out
}

func timeAt(h price.Hours, times decimal.Decimal) plan.Minutes {
	var sum plan.Minutes
	for _, paid := range h.Paid {
		if paid.Times.Equal(times) {
			sum += paid.Minutes
		}
	}
	return sum
}

// OvertimeCaution stands wherever overtime is reckoned.
func OvertimeCaution() string {
	return tongue.Say("Local law decides about overtime; ask a licensed adviser of the place.")
}

// LineRule says by which overtime rule the hours of a line are paid, and whose rule it is.
func LineRule(p Priced, line string) string {
	card := &p.Plan.Pricing.Card
	i := slices.IndexFunc(p.Sheet.Hours, func(h price.Hours) bool { return price.CrewLine(h.Person) == line })
	if i < 0 {
		return ""
	}
	rate, _ := card.CrewRate(p.Sheet.Hours[i].Rate)
	rule, ok := card.Rule(rate.Overtime)
	if !ok {
		return tongue.Say("No overtime rule is chosen on the rate card.") + " " + OvertimeCaution()
	}
	text := cmp.Or(rule.Name, string(rule.ID)) + "."
	if rule.Source != "" {
		text = strings.TrimSuffix(text, ".") + " (" + rule.Source + ")."
	}
	return text + " " + OvertimeCaution()
}
