package papers

import (
	"fmt"
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

// BudgetBook is for the owner: every line of a price, and what follows from them down to the total, in formulas that keep the rules of
// package price. They are right to the minor unit as long as amounts have no more than the fifteen figures that spreadsheet programs
// reckon with.
func BudgetBook(p *plan.Plan, days []day.Day, s *price.Sheet) Book {
	b := newBook(p, days, "budget", "Budget, for the owner only")
	b.foot = ""
	heading := "Amount"
	if s.Currency != "" {
		heading += " (" + s.Currency + ")"
	}
	k := budget{Sheet: s, card: &p.Pricing.Card, asked: p.Pricing.Asked, quote: s.Quote(p, s.Price())}
	k.leaf = leaf{name: budgetLeaf, columns: []leafColumn{{"Group", 16, false}, {"Line", 44, false}, {"Quantity", 12, true}, {"Unit", 24, false},
		{"Rate", 14, true}, {"Times", 7, true}, {heading, 16, true}, {"Paid by", 10, false}, {"Taxed", 7, false}, {"From", 20, false}, {"Note", 40, false}},
		note: "What is paid by “us” or by the “owner” counts. Change a figure, and what follows from it follows; the plan stays as it is."}
	k.lines()
	k.costs()
	k.prices()
	k.standing()
	b.leaves = []leaf{k.leaf}
	if k.taxedByLine() {
		b.leaves = append(b.leaves, k.taxSheet())
	}
	return b
}

const budgetLeaf = "Budget"

// budget is the leaf as it grows, and the rows that later formulas name. Amounts stand in column G.
type budget struct {
	leaf
	*price.Sheet
	card  *plan.RateCard
	asked decimal.Decimal
	quote price.Quote

	parts       [][2]int // the first and the last row of each line
	groups      []string // the cells of their subtotals
	last        int      // row of the lines
	contingency int
	ownerTime   int
	overhead    int
	floor       int
	net         int
	taxes       []int
}

// sum adds a row below the lines: so much of something, at a rate, makes an amount.
func (k *budget) sum(strong bool, label string, quantity bookCell, unit string, rate bookCell, amount decimal.Decimal, formula string) int {
	return k.add(strong, bookCell{}, words(label), quantity, words(unit), rate, bookCell{}, money(amount, k.Places, formula))
}

// round is a formula's amount in whole minor units.
func (k *budget) round(formula string) string { return fmt.Sprintf("ROUND(%s,%d)", formula, k.Places) }

// paid sums up a column of what somebody pays, over some rows; further conditions may follow.
func paid(column string, from, to int, by, more string) string {
	if to < from {
		return "0"
	}
	return fmt.Sprintf("SUMIFS(%s%d:%s%d,H%d:H%d,%q%s)", column, from, column, to, from, to, by, more)
}

// The words for who pays, where it is nobody else that a plan knows: the owner with time of their own, and nobody.
const (
	ownerPays = "owner"
	nobody    = "taken out"
)

func paidBy(l price.Line) string {
	switch {
	case l.Out:
		return nobody
	case l.Counts() && l.Owner:
		return ownerPays
	}
	return string(l.Pays)
}

// lines are a row for each part, their groups' subtotals under them.
func (k *budget) lines() {
	from := k.next()
	for i, l := range k.Sheet.Lines {
		first := k.next()
		for _, part := range l.Parts {
			k.part(l, part)
		}
		k.parts = append(k.parts, [2]int{first, k.next() - 1})
		if i == len(k.Sheet.Lines)-1 || k.Sheet.Lines[i+1].Group != l.Group {
			k.subtotalOf(l.Group, from)
			from = k.next()
		}
	}
	k.last = k.next() - 1
}

func (k *budget) part(l price.Line, part price.Part) {
	quantity, quantityBy := part.QuantityOver()
	rate, rateBy := part.RateOver()
	source := string(l.Source)
	if l.Overridden {
		source += ", changed"
	}
	n := k.next()
	k.add(false, words(string(l.Group)), words(l.Text), over(quantity, quantityBy, 4), words(price.Units(part.Unit, part.Quantity).String()),
		over(rate, rateBy, k.Places+2).rate(k.Places), number(part.Times, ""),
		money(part.Amount, k.Places, k.round(fmt.Sprintf("C%d*E%d*F%d", n, n, n))), words(paidBy(l)), words(yesNo(l.Taxed)), words(source), words(l.Note))
}

// subtotalOf is what a group costs us, which has the rows from the given one on.
func (k *budget) subtotalOf(group plan.Group, from int) {
	amount, label := decimal.Zero, "Subtotal"
	for _, g := range k.Sheet.Groups {
		if g.Group == group {
			amount = g.Amount
		}
	}
	for _, l := range k.Sheet.Lines {
		if l.Group == group && paidBy(l) == ownerPays {
			label = "Subtotal without the owner's time"
		}
	}
	n := k.sum(true, label, bookCell{}, "", bookCell{}, amount, k.round(paid("G", from, k.next()-1, string(plan.WePay), "")))
	k.rows[n-2].cells[0] = words(string(group))
	k.groups = append(k.groups, fmt.Sprintf("G%d", n))
}

// costs go from the lines to the floor.
func (k *budget) costs() {
	none := bookCell{}
	k.add(false)
	direct := k.sum(true, "Direct costs", none, "", none, k.Direct, k.round(strings.Join(append(k.groups, "0"), "+")))
	k.contingency = k.next()
	k.sum(false, "Contingency", number(k.card.Terms.Contingency, ""), "% of direct costs", none, k.Contingency,
		k.round(fmt.Sprintf("G%d*C%d/100", direct, k.contingency)))
	hours := over(decimal.NewFromInt(int64(k.OwnerTime)), 60, 4)
	hours.formula = fmt.Sprintf("ROUND(%s*60,0)/60", paid("C", 2, k.last, ownerPays, ""))
	k.ownerTime = k.sum(false, "Owner's time", hours, "h", none, k.Owner, k.round(paid("G", 2, k.last, ownerPays, "")))
	k.overheads()
	k.floor = k.sum(true, "Floor: below it the job loses money", none, "", none, k.Floor,
		k.round(fmt.Sprintf("G%d+G%d+G%d+G%d", direct, k.contingency, k.ownerTime, k.overhead)))
}

// overheads are the year's, for as many billable days as the job takes: the owner's time, and what it leaves of the shooting days,
// but these whole at least.
func (k *budget) overheads() {
	b := k.card.Business
	k.overhead = k.next()
	if b.Hours <= 0 || b.Days <= 0 {
		k.sum(false, "Share of the year's overhead", bookCell{}, "", bookCell{}, k.Overhead, "")
		return
	}
	yearly := decimal.Zero
	for _, o := range b.Overheads {
		yearly = yearly.Add(o.Yearly)
	}
	whole := plan.Minutes(k.Days) * b.Hours
	days := over(decimal.NewFromInt(int64(max(k.OwnerTime+k.DaysRest, whole))), int64(b.Hours), 2)
	days.formula = fmt.Sprintf("MAX(ROUND(C%d*60,0)+%d,%d)/%d", k.ownerTime, k.DaysRest, whole, b.Hours)
	k.sum(false, "Share of the year's overhead", days, "billable days", over(yearly, int64(b.Days), k.Places+2).rate(k.Places), k.Overhead,
		k.round(fmt.Sprintf("C%d*E%d", k.overhead, k.overhead)))
}

// prices go from the floor to the total.
func (k *budget) prices() {
	none, t := bookCell{}, k.card.Terms
	k.add(false)
	computed := k.next()
	k.sum(false, "Price by the card", number(t.Margin, ""), "% margin, rounded up to", k.step(), k.Computed(), k.rounded(computed))
	asked := k.add(false, none, words("Price asked"), none, none, none, none, k.askedCell())
	price := k.sum(true, "Price", none, "", none, k.quote.Price, fmt.Sprintf("IF(G%d>0,%s,G%d)", asked, k.round(fmt.Sprintf("G%d", asked)), computed))
	discount := k.next()
	k.sum(false, "Discount", number(t.Discount, ""), "%", none, k.quote.Discount, k.round(fmt.Sprintf("G%d*C%d/100", price, discount)))
	k.net = k.sum(true, "Price less discount", none, "", none, k.quote.Net, k.round(fmt.Sprintf("G%d-G%d", price, discount)))
	total := fmt.Sprintf("G%d", k.net)
	for i, row := range k.quote.Taxes {
		n := k.next()
		base, tax := k.taxed(i, n)
		k.taxes = append(k.taxes, k.sum(false, row.Name, number(row.Percent, ""), "% of", money(row.Base, k.Places, base), row.Amount, tax))
		total += fmt.Sprintf("+G%d", n)
	}
	k.sum(true, "Total with tax", none, "", none, k.quote.Total, k.round(total))
}

func (k *budget) askedCell() bookCell {
	if !k.asked.IsPositive() {
		return bookCell{}
	}
	return number(k.asked, "").rate(k.Places)
}

// step is what prices are multiples of: the card's, or the minor unit.
func (k *budget) step() bookCell { return number(k.stepOf(), "").rate(k.Places) }

func (k *budget) stepOf() decimal.Decimal {
	if s := k.card.Terms.Step; !s.IsZero() {
		return s
	}
	return decimal.New(1, -k.Places)
}

// rounded is floor / (1 - margin), up to a multiple of the step. Before that it is rounded to as many places as still tell every
// exact quotient from the next multiple, so that 1250.0000000000002, for a program reckons in binary, does not become 1260.
func (k *budget) rounded(n int) string {
	units := k.stepOf().Shift(k.Places).Truncate(0)
	steps := fmt.Sprintf("ROUNDUP(ROUND(G%d*100/((100-C%d)*E%d),%d),0)*E%d", k.floor, n, n, 5+len(units.String()), n)
	if -k.stepOf().Exponent() > k.Places {
		return fmt.Sprintf("ROUNDUP(%s,%d)", steps, k.Places)
	}
	return k.round(steps)
}

// taxed is what of the net price a tax is on, and the tax. What is not taxed has the share of the net price that it has of the floor.
func (k *budget) taxed(i, n int) (base, tax string) {
	if k.taxedByLine() {
		end := len(k.parts) + 2
		base = fmt.Sprintf("SUMIFS('%s'!G2:G%d,'%s'!C2:C%d,\"yes\")", taxName, end, taxName, end)
		return k.round(base), k.round(fmt.Sprintf("'%s'!%s%d", taxName, column(7+i), end+1))
	}
	untaxed := paid("G", 2, k.last, string(plan.WePay), fmt.Sprintf(",I2:I%d,\"no\"", k.last)) + "-" +
		paid("G", 2, k.last, ownerPays, fmt.Sprintf(",I2:I%d,\"no\"", k.last))
	base = fmt.Sprintf("IF(G%d=0,G%d,%s)", k.floor, k.net, k.round(fmt.Sprintf("G%d*(G%d-%s)/G%d", k.net, k.floor, untaxed, k.floor)))
	return base, k.round(fmt.Sprintf("E%d*C%d/100", n, n))
}

// standing is how the job stands at that price.
func (k *budget) standing() {
	at := k.At(k.quote.Net)
	k.add(false)
	left := fmt.Sprintf("(G%d-G%d)", k.net, k.floor)
	k.sum(true, "Left after the floor", bookCell{}, "", bookCell{}, at.Profit, k.round(left))
	for _, share := range []struct {
		label, of string
		value     decimal.Decimal
		row       int
	}{{"Margin", "% of the price", at.Margin, k.net}, {"Markup", "% of the floor", at.Markup, k.floor}} {
		formula := fmt.Sprintf("IF(G%d=0,0,ROUND(%s*100/G%d,2))", share.row, left, share.row)
		k.add(false, bookCell{}, words(share.label), number(share.value, formula), words(share.of))
	}
}
