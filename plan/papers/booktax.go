package papers

import (
	"fmt"

	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

const taxName = "Tax by line"

func (k *budget) taxedByLine() bool { return k.card.Terms.TaxByLine && len(k.quote.Taxes) > 0 }

// sharing is a leaf for tax that is rounded line by line: the net price shared out among the costs in whole minor units by the method
// of the largest remainder, as price.Split does it, and the tax on each share. It reckons with minor units in whole numbers, which
// spreadsheet programs keep exactly up to 2^53: the net price times the dearest line, as of 900,000.00 times 900,000.00.
type sharing struct {
	leaf
	of      *budget
	unit    decimal.Decimal // minor units in a whole one
	weights []decimal.Decimal
	shares  []decimal.Decimal
	whole   []decimal.Decimal // shares rounded down
	rests   []decimal.Decimal // what that left of each, times the floor
}

func (k *budget) taxSheet() leaf {
	s := sharing{of: k, unit: decimal.New(1, k.Places), weights: []decimal.Decimal{k.Contingency.Add(k.Overhead)}}
	s.leaf = leaf{name: taxName, columns: []leafColumn{{"Line", 44, false}, {"Our cost", 16, true}, {"Taxed", 7, false}, {"Share, rounded down", 16, true},
		{"Remainder", 20, true}, {"Order of remainders", 12, true}, {"Share of the price", 16, true}}}
	for _, tax := range k.quote.Taxes {
		s.columns = append(s.columns, leafColumn{oneLine(tax.Name), 16, true})
	}
	for _, l := range k.Sheet.Lines {
		weight := decimal.Zero
		if l.Counts() {
			weight = l.Amount
		}
		s.weights = append(s.weights, weight)
	}
	s.share()
	s.line(0, words("Contingency and overhead"), words("yes"), fmt.Sprintf("%s!G%d+%s!G%d", budgetLeaf, k.contingency, budgetLeaf, k.overhead))
	for i, l := range k.Sheet.Lines {
		first, last := k.parts[i][0], k.parts[i][1]
		taxed := words(yesNo(l.Taxed))
		taxed.formula = fmt.Sprintf("%s!I%d", budgetLeaf, first)
		s.line(i+1, words(l.Text), taxed, fmt.Sprintf("IF(OR(%s!H%d=\"us\",%s!H%d=%q),SUM(%s!G%d:G%d),0)", budgetLeaf, first, budgetLeaf, first,
			ownerPays, budgetLeaf, first, last))
	}
	s.totals()
	return s.leaf
}

// share is the sharing out itself, for the figures that the formulas come to.
func (s *sharing) share() {
	k := s.of
	s.shares = price.Split(k.quote.Net, k.Places, s.weights)
	for _, w := range s.weights {
		whole, rest := decimal.Zero, decimal.Zero
		if !k.Floor.IsZero() {
			whole, rest = k.quote.Net.Mul(w).QuoRem(k.Floor, k.Places)
		}
		s.whole, s.rests = append(s.whole, whole), append(s.rests, rest.Mul(s.unit).Mul(s.unit))
	}
}

// order is the place of a line's remainder, from the largest; the first of equal ones comes first.
func (s *sharing) order(i int) int {
	n := 1
	for j, rest := range s.rests {
		if c := rest.Cmp(s.rests[i]); c > 0 || c == 0 && j < i {
			n++
		}
	}
	return n
}

func (s *sharing) line(i int, name, taxed bookCell, cost string) {
	k, n, end := s.of, s.next(), len(s.weights)+1
	units := func(cell string) string { return fmt.Sprintf("ROUND(%s*%s,0)", cell, s.unit) }
	net, floor, our := units(fmt.Sprintf("%s!$G$%d", budgetLeaf, k.net)), units(fmt.Sprintf("%s!$G$%d", budgetLeaf, k.floor)), units(fmt.Sprintf("B%d", n))
	unshared := "0"
	if i == 0 { // where there is no cost at all, the first takes everything
		unshared = fmt.Sprintf("%s!G%d", budgetLeaf, k.net)
	}
	cells := []bookCell{name, money(s.weights[i], k.Places, k.round(cost)), taxed,
		money(s.whole[i], k.Places, fmt.Sprintf("IF(%s=0,0,(%s*%s-E%d)/%s/%s)", floor, net, our, n, floor, s.unit)),
		number(s.rests[i], fmt.Sprintf("IF(%s=0,0,MOD(%s*%s,%s))", floor, net, our, floor)),
		whole(s.order(i), fmt.Sprintf("COUNTIF(E$2:E$%d,\">\"&E%d)+COUNTIF(E$2:E%d,E%d)", end, n, n, n)),
		money(s.shares[i], k.Places, fmt.Sprintf("IF(%s=0,%s,%s)", floor, unshared, k.round(fmt.Sprintf("D%d+IF(F%d<=F$%d,1,0)/%s", n, n, end+1, s.unit))))}
	for j, tax := range k.quote.Taxes {
		amount := decimal.Zero
		if taxed.plain == "yes" {
			amount = s.shares[i].Mul(tax.Percent).DivRound(decimal.NewFromInt(100), k.Places)
		}
		cells = append(cells, money(amount, k.Places, fmt.Sprintf("IF(C%d=\"yes\",%s,0)", n, k.round(fmt.Sprintf("G%d*%s!$C$%d/100", n, budgetLeaf, k.taxes[j])))))
	}
	s.add(false, cells...)
}

// totals are the sums, and how many minor units the rounding down left over.
func (s *sharing) totals() {
	k, end := s.of, len(s.weights)+1
	sum := func(col string, of []decimal.Decimal) bookCell {
		total := decimal.Zero
		for _, d := range of {
			total = total.Add(d)
		}
		return money(total, k.Places, k.round(fmt.Sprintf("SUM(%s2:%s%d)", col, col, end)))
	}
	whole := sum("D", s.whole)
	left := k.quote.Net.Mul(s.unit)
	for _, w := range s.whole {
		left = left.Sub(w.Mul(s.unit))
	}
	cells := []bookCell{words("In all"), sum("B", s.weights), {}, whole, {},
		number(left, fmt.Sprintf("ROUND((%s!G%d-D%d)*%s,0)", budgetLeaf, k.net, end+1, s.unit)), sum("G", s.shares)}
	for j, tax := range k.quote.Taxes {
		c := column(7 + j)
		cells = append(cells, money(tax.Amount, k.Places, k.round(fmt.Sprintf("SUM(%s2:%s%d)", c, c, end))))
	}
	s.add(true, cells...)
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}
