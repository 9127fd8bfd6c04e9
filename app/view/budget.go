package view

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

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

// BudgetRows are all lines of the budget under the heads of their groups.
func BudgetRows(p Priced) []BudgetRow {
	rows := make([]BudgetRow, 0, len(p.Sheet.Lines)+len(plan.Groups))
	for i, l := range p.Sheet.Lines {
		if i == 0 || p.Sheet.Lines[i-1].Group != l.Group {
			rows = append(rows, groupHead(p, l.Group))
		}
		rows = append(rows, BudgetRow{ID: l.ID, Text: cmp.Or(l.Text, "no text yet"), How: p.Sheet.Explain(l.Parts), Amount: p.Sheet.Amount(l.Amount),
			Mark: lineMark(l), Quiet: !l.Counts()})
	}
	return rows
}

func groupHead(p Priced, g plan.Group) BudgetRow {
	head := BudgetRow{Text: groupName(g), Amount: p.Sheet.Amount(decimal.Zero)}
	for _, sum := range p.Sheet.Groups {
		if sum.Group == g {
			head.Amount = p.Sheet.Amount(sum.Amount)
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
	head.How = count(n, "line", "lines")
	if mine.IsPositive() {
		head.How += ", and " + p.Sheet.Amount(mine) + " of your own time"
	}
	return head
}

// lineMark says in words what is special about a line.
func lineMark(l price.Line) string {
	var marks []string
	say := func(is bool, words string) {
		if is {
			marks = append(marks, words)
		}
	}
	say(l.Source == price.FromTyped, "typed")
	say(l.Computed != nil, "changed by hand")
	say(l.Out, "taken out")
	say(l.Pays != plan.WePay, "the "+string(l.Pays)+" pays")
	say(l.Owner, "your time")
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
	return "Forget " + count(len(gone), "change of a line that is gone", "changes of lines that are gone")
}

// LineSource says where a line comes from.
func LineSource(p Priced, id string) string {
	l, _ := BudgetLine(p, id)
	switch {
	case l.Source == price.FromTyped:
		return "Typed by you."
	case l.Source == price.FromCard:
		r := rateOf(p, l.Rate)
		return fmt.Sprintf("The rate card, for each %s%s.", r.Per.Or(), forWords(r))
	case l.Group == plan.KitGroup:
		return "The placed days: those that use it; " + kitWords(p, l.Text) + "."
	}
	return "The placed days: the hours from call to release, paid by the rate card."
}

func kitWords(p Priced, name string) string {
	kit := p.Plan.Pricing.Card.Kit
	if i := slices.IndexFunc(kit, func(k plan.KitRate) bool { return k.Name == name }); i >= 0 && kit[i].Owned {
		return "owned, straight-line depreciation"
	}
	return "hired"
}

func rateOf(p Priced, id plan.ID) plan.Rate {
	rates := p.Plan.Pricing.Card.Rates
	if i := slices.IndexFunc(rates, func(r plan.Rate) bool { return r.ID == id }); i >= 0 {
		return rates[i]
	}
	return plan.Rate{}
}

func forWords(r plan.Rate) string {
	if r.For == "" {
		return ""
	}
	return ", " + string(r.For) + " only"
}

// LineAmount says what a line comes to and whether that counts.
func LineAmount(p Priced, id string) string {
	l, _ := BudgetLine(p, id)
	text := cmp.Or(p.Sheet.Explain(l.Parts), "nothing") + " = " + p.Sheet.Amount(l.Amount) + "."
	switch {
	case l.Out:
		text += " You took it out, so it does not count."
	case l.Pays != plan.WePay:
		text += " The " + string(l.Pays) + " pays it beside the price, so it does not count."
	case l.Owner:
		text += " It is your own time, which stands in the floor by itself."
	}
	if !l.Taxed {
		text += " It is not taxed."
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
	return p.Sheet.Explain(l.Computed) + " = " + p.Sheet.Amount(sum)
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
		row("", func(h price.Hours) string { return h.Date.Short() }),
		row("Call", func(h price.Hours) string { return clockOf(h, h.Call) }),
		row("Free to go", func(h price.Hours) string { return clockOf(h, h.Release) }),
		row("Meals, out", func(h price.Hours) string { return signed("-", h.Meals) }),
		row("Travel, in", func(h price.Hours) string { return signed("+", h.Travel) }),
		row("Paid time", func(h price.Hours) string { return h.Worked.String() }),
	}
	for _, times := range allTimes(mine) {
		grid = append(grid, row("of it x"+times.String(), func(h price.Hours) string { return timeAt(h, times).String() }))
	}
	return grid
}

func signed(sign string, m plan.Minutes) string {
	if m == 0 {
		return "none"
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
const OvertimeCaution = "Local law decides about overtime; ask a licensed adviser of the place."

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
		return "No overtime rule is chosen on the rate card. " + OvertimeCaution
	}
	text := cmp.Or(rule.Name, string(rule.ID)) + "."
	if rule.Source != "" {
		text = strings.TrimSuffix(text, ".") + " (" + rule.Source + ")."
	}
	return text + " " + OvertimeCaution
}
