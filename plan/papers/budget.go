package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

// BudgetFile is what the budget is called in a folder.
const BudgetFile = "budget.pdf"

// Budget is the paper of what the job costs and what that makes the price, line by line: for the owner alone. Every amount is in one
// column and is the sum of those that lead to it.
func Budget(p *plan.Plan, days []day.Day) Sheet {
	b := budgeter{newQuoter(p, days)}
	at := b.sheet.At(b.quote.Net)
	return Sheet{
		Kind:  "Budget",
		Title: cmp.Or(strings.TrimSpace(p.Title), "Untitled plan"),
		Lines: []string{orEmpty(p.Property.Name, "Property not named"), b.dates(),
			"For the owner only: it holds what everybody is paid, and the margin. Not for the client, nor for the crew."},
		Key:      Fact{"Price" + b.currency(), b.sheet.Amount(b.quote.Price)},
		KeyNote:  "margin " + at.Margin.StringFixed(2) + "\u00a0%, markup " + at.Markup.StringFixed(2) + "\u00a0%",
		Sections: []Section{b.problems(), b.costs(), b.own(), b.floor(), b.toTotal(), b.standing(), b.uncounted()},
		Foot:     "for the owner only · " + b.foot(),
		Zone:     zoneOf(p),
	}
}

// budgeter prints what a quoter may not.
type budgeter struct{ quoter }

func (b budgeter) dates() string {
	var list []string
	for _, d := range b.days {
		list = append(list, b.long(d.Date))
	}
	return cmp.Or(strings.Join(list, "; "), "no day is placed yet")
}

// problems are what keeps the figures from being right.
func (b budgeter) problems() Section {
	s := Section{Heading: "Look at this first"}
	if len(b.days) > 0 {
		var out []string
		for _, l := range b.days[0].LeftOut { // each day says what is left out of all
			scene, _ := b.Scene(l.Scene)
			out = append(out, scene.Name())
		}
		switch len(out) {
		case 0:
		case 1:
			s.List = append(s.List, "On no day, so without hours in the price: scene "+out[0]+".")
		default:
			s.List = append(s.List, "On no day, so without hours in the price: scenes "+strings.Join(out, ", ")+".")
		}
	}
	for _, p := range b.sheet.Problems {
		s.List = append(s.List, capital(p.String())+".")
	}
	return s
}

func (b budgeter) lines(figure string) Table {
	return Table{Right: 1, Columns: []Column{{"Line", 72}, {"How it comes about", 70}, {strings.TrimSpace(figure + b.currency()), 36}}}
}

// costs are the lines that we pay, by group, each group under its subtotal, but for the owner's own time.
func (b budgeter) costs() Section {
	s := Section{Heading: "What it costs", Table: b.lines("Amount")}
	for _, g := range b.sheet.Groups {
		s.Table.Rows = append(s.Table.Rows, Row{Aside: true, Keep: true, Cells: []Cell{{Strong: capital(string(g.Group.Or()))}, {}, {Strong: b.sheet.Amount(g.Amount)}}})
		for _, l := range b.sheet.Lines {
			if l.Group == g.Group && l.Counts() && !l.Owner {
				s.Table.Rows = append(s.Table.Rows, b.line(l))
			}
		}
	}
	if len(s.Table.Rows) == 0 {
		s.Text = []string{"No line of the budget costs anything yet."}
		return s
	}
	s.Table.sum(b.sum("Direct lines", "the sum of the groups", b.sheet.Direct))
	return s
}

// line is one line and how it comes about; what it was before the user changed it stands under it, and the notes.
func (b budgeter) line(l price.Line) Row {
	var notes []string
	if l.Source == price.FromTyped {
		notes = append(notes, "typed by hand")
	}
	if l.Computed != nil {
		notes = append(notes, "changed by hand; computed: "+b.sheet.Explain(l.Computed).String())
	}
	if !l.Taxed {
		notes = append(notes, "not taxed")
	}
	if l.Note != "" {
		notes = append(notes, strings.TrimSpace(l.Note))
	}
	return Row{Cells: []Cell{{Text: lines(cmp.Or(strings.TrimSpace(l.Text), "no text yet"))}, {Text: lines(b.sheet.Explain(l.Parts).String(), strings.Join(notes, "; "))}, {Text: b.sheet.Amount(l.Amount)}}}
}

func (b budgeter) sum(name, how string, amount decimal.Decimal) Row {
	return Row{Cells: []Cell{{Strong: name}, {Text: how}, {Strong: b.sheet.Amount(amount)}}}
}

// own is the owner's time, which is in the floor beside the direct lines.
func (b budgeter) own() Section {
	s := Section{Heading: "Your own time", Table: b.lines("Amount")}
	for _, l := range b.sheet.Lines {
		if l.Owner && l.Counts() {
			s.Table.Rows = append(s.Table.Rows, b.line(l))
		}
	}
	if len(s.Table.Rows) == 0 {
		return Section{}
	}
	s.Table.sum(b.sum("Your time", b.sheet.OwnerTime.String(), b.sheet.Owner))
	return s
}

// floor adds up to the price below which the job loses money.
func (b budgeter) floor() Section {
	s := Section{Heading: "Up to the floor", Table: b.lines("Amount")}
	add := func(name, how string, amount decimal.Decimal) {
		s.Table.Rows = append(s.Table.Rows, Row{Cells: []Cell{{Text: name}, {Text: how}, {Text: b.sheet.Amount(amount)}}})
	}
	card := b.Pricing.Card
	add("Direct lines", b.overtime(), b.sheet.Direct)
	add("Contingency", card.Terms.Contingency.String()+"\u00a0% of them", b.sheet.Contingency)
	add("Your time", b.sheet.OwnerTime.String(), b.sheet.Owner)
	yearly := decimal.Zero
	for _, o := range card.Business.Overheads {
		yearly = yearly.Add(o.Yearly)
	}
	add("Share of the year's overhead", fmt.Sprintf("%s of %d days, of %s a year", b.sheet.JobDays, card.Business.Days, b.sheet.Amount(yearly)), b.sheet.Overhead)
	s.Table.sum(b.sum("Floor", "below this the job loses money", b.sheet.Floor))
	return s
}

func (b budgeter) overtime() string {
	if !b.sheet.Overtime.IsPositive() {
		return ""
	}
	return "of them " + b.sheet.Amount(b.sheet.Overtime) + " for hours paid more than once"
}

// toTotal leads from the price to what the client pays.
func (b budgeter) toTotal() Section {
	s := b.price()
	s.Heading = "From the price to the total"
	s.Table.Columns = b.lines("Amount").Columns
	for i := range s.Table.Rows {
		s.Table.Rows[i].Cells = slices.Insert(s.Table.Rows[i].Cells, 1, Cell{})
	}
	s.Table.Columns[0].Head, s.Table.Columns[1].Head = "", ""
	s.Table.Rows[0].Cells[1].Text = b.whence()
	return s
}

// whence says how the price comes about.
func (b budgeter) whence() string {
	terms := b.Pricing.Card.Terms
	made := "the floor with a margin of " + terms.Margin.String() + "\u00a0%"
	if terms.Step.IsPositive() {
		made += ", rounded up to a step of " + b.sheet.Amount(terms.Step)
	}
	if b.Pricing.Asked.IsPositive() {
		return "as you ask; " + made + ", would be " + b.sheet.Amount(b.sheet.Computed())
	}
	return made
}

// standing is what the job leaves at that price.
func (b budgeter) standing() Section {
	at := b.sheet.At(b.quote.Net)
	s := Section{Heading: "What it leaves", Table: b.lines("Amount")}
	s.Table.Columns[0].Head, s.Table.Columns[1].Head = "", ""
	row := func(name, how string, amount decimal.Decimal) {
		s.Table.Rows = append(s.Table.Rows, Row{Cells: []Cell{{Text: name}, {Text: how}, {Text: b.sheet.Amount(amount)}}})
	}
	row("Net price", "without tax", b.quote.Net)
	row("Floor", "", b.sheet.Floor.Neg())
	s.Table.sum(b.sum("Profit", fmt.Sprintf("a margin of %s\u00a0%% of the net price, a markup of %s\u00a0%% on the floor",
		at.Margin.StringFixed(2), at.Markup.StringFixed(2)), at.Profit))
	if b.sheet.OwnerTime > 0 {
		s.List = append(s.List, "You earn "+b.sheet.Amount(at.OwnerPerHour)+" an hour when everybody else is paid; the contingency counts as spent.")
	}
	s.List = append(s.List, "At "+b.sheet.Amount(b.sheet.Unpaid())+" without tax everybody is paid but you.")
	return s
}

// uncounted are the lines that cost us nothing: taken out, or paid by others.
func (b budgeter) uncounted() Section {
	s := Section{Heading: "Not counted", Table: b.lines("Amount")}
	for _, l := range b.sheet.Lines {
		if l.Counts() {
			continue
		}
		row := b.line(l)
		why := "the " + string(l.Pays) + " pays it beside the price"
		if l.Out {
			why = "taken out by hand"
		}
		row.Cells[1].Text = lines(row.Cells[1].Text, why)
		s.Table.Rows = append(s.Table.Rows, row)
	}
	return s
}
