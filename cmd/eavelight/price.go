package main

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

type priceCommand struct {
	dated
}

// priceReport is what price --json prints. Amounts are decimal numbers in quotes, in the currency; lengths of time are minutes,
// instants UTC. The parts of floor, net and total add up to them.
type priceReport struct {
	Currency    string          `json:"currency"`
	Lines       []lineReport    `json:"lines"`
	Groups      []groupReport   `json:"groups"` // of the lines that count, without the owner's time
	Hours       []hoursReport   `json:"hours"`
	Direct      string          `json:"direct"`
	Overtime    string          `json:"overtime"` // in direct
	Contingency string          `json:"contingency"`
	Owner       string          `json:"owner"`
	OwnerTime   int             `json:"ownerTime"`
	JobDays     string          `json:"jobDays"`
	Overhead    string          `json:"overhead"`
	Floor       string          `json:"floor"`
	Price       string          `json:"price"`    // that is asked, or else computed
	Computed    string          `json:"computed"` // that the card makes of the floor
	Margin      string          `json:"margin"`   // percent of the net price
	Markup      string          `json:"markup"`   // percent of the floor
	Discount    string          `json:"discount"`
	Net         string          `json:"net"`
	Taxes       []taxReport     `json:"taxes"`
	Tax         string          `json:"tax"`
	Total       string          `json:"total"`
	Payments    []paymentReport `json:"payments"`
	Loses       *float64        `json:"loses"`   // the share of 10,000 draws of the costs that the net price does not cover; null: nothing is unsure
	Holds       *string         `json:"holds"`   // the price that covers 8 draws of 10; null where nothing is unsure, or none does
	LeftOut     []plan.ID       `json:"leftOut"` // scenes that are on no day, so that their hours are in no line
	Problems    []string        `json:"problems"`
}

type lineReport struct {
	ID      string `json:"id"`
	Group   string `json:"group"`
	Text    string `json:"text"`
	How     string `json:"how"` // 6.5 h x 55.00 + 1 h x 82.50
	Amount  string `json:"amount"`
	Source  string `json:"source"`
	Changed bool   `json:"changed"` // by the user
	Counts  bool   `json:"counts"`  // it is a cost of ours
	Pays    string `json:"pays"`
	Owner   bool   `json:"owner"` // the owner's own time
	Taxed   bool   `json:"taxed"`
	Note    string `json:"note,omitempty"`
}

type groupReport struct {
	Group  string `json:"group"`
	Amount string `json:"amount"`
}

type hoursReport struct {
	Person  plan.ID      `json:"person"`
	Rate    plan.ID      `json:"rate"`
	Date    string       `json:"date"`
	Call    time.Time    `json:"call"`
	Release time.Time    `json:"release"`
	Meals   plan.Minutes `json:"meals"`  // taken out
	Travel  plan.Minutes `json:"travel"` // taken in
	Worked  plan.Minutes `json:"worked"`
	Units   int          `json:"units"` // days or half days that are paid; 0 by the hour
	Paid    []paidReport `json:"paid"`  // all of worked, in the hours of a day's rate once
}

type paidReport struct {
	Minutes plan.Minutes `json:"minutes"`
	Times   string       `json:"times"`
}

type taxReport struct {
	Name    string `json:"name"`
	Percent string `json:"percent"`
	Base    string `json:"base"`
	Amount  string `json:"amount"`
}

type paymentReport struct {
	Name   string `json:"name"`
	Amount string `json:"amount"`
	Date   string `json:"date"` // empty where it is not known yet
}

// priced is a plan with its price.
type priced struct {
	plan  *plan.Plan
	shoot day.Shoot
	sheet price.Sheet
	quote price.Quote
	sure  price.Sure
	dim   error // why it can't be told how sure the price is
}

// Run is kong's.
func (c priceCommand) Run(w world) error {
	p, shoot, err := c.shoot(w.ctx, w)
	if err != nil {
		return err
	}
	r := priced{plan: &p, shoot: shoot, sheet: price.Of(&p, shoot.Days)}
	r.quote = r.sheet.Quote(&p, r.sheet.Price())
	r.sure, r.dim = price.HowSure(w.ctx, &p, shoot.Days, &r.sheet)
	if err := w.ctx.Err(); err != nil {
		return err
	}
	if c.JSON {
		err = printJSON(w, r.report())
	} else {
		r.print(w)
	}
	if err == nil && len(r.sheet.Problems.Lacks()) > 0 {
		return errProblems
	}
	return err
}

// leftOut are the scenes that found no place on any day. Where nothing is placed at all, that is told instead.
func (r priced) leftOut() []plan.ID {
	ids := []plan.ID{}
	if len(r.shoot.Days) == 0 {
		return ids
	}
	for _, l := range r.shoot.LeftOut() {
		ids = append(ids, l.Scene)
	}
	return ids
}

func (r priced) report() priceReport {
	s, q := &r.sheet, r.quote
	at := s.At(q.Net)
	out := priceReport{Currency: s.Currency, Lines: []lineReport{}, Groups: []groupReport{}, Hours: []hoursReport{},
		Direct: r.plain(s.Direct), Overtime: r.plain(s.Overtime), Contingency: r.plain(s.Contingency), Owner: r.plain(s.Owner),
		OwnerTime: int(s.OwnerTime), JobDays: s.JobDays.String(), Overhead: r.plain(s.Overhead), Floor: r.plain(s.Floor),
		Price: r.plain(q.Price), Computed: r.plain(s.Computed()), Margin: at.Margin.String(), Markup: at.Markup.String(),
		Discount: r.plain(q.Discount), Net: r.plain(q.Net), Taxes: []taxReport{}, Tax: r.plain(q.Tax), Total: r.plain(q.Total),
		Payments: []paymentReport{}, LeftOut: r.leftOut(), Problems: []string{}}
	if len(r.sure.Inputs) > 0 {
		out.Loses = &r.sure.Loses
		if r.sure.Holds.IsPositive() {
			holds := r.plain(r.sure.Holds)
			out.Holds = &holds
		}
	}
	out.lists(s, q, r.plain)
	if r.dim != nil {
		out.Problems = append(out.Problems, r.dimWords())
	}
	return out
}

// plain is an amount as a machine reads it.
func (r priced) plain(a decimal.Decimal) string { return a.StringFixed(r.sheet.Places) }

func (r priced) dimWords() string { return "how sure the price is can't be told: " + r.dim.Error() }

func (r *priceReport) lists(s *price.Sheet, q price.Quote, plain func(decimal.Decimal) string) {
	for _, l := range s.Lines {
		r.Lines = append(r.Lines, lineReport{ID: l.ID, Group: string(l.Group), Text: l.Text, How: s.Explain(l.Parts).String(), Amount: plain(l.Amount),
			Source: string(l.Source), Changed: l.Overridden, Counts: l.Counts(), Pays: string(l.Pays), Owner: l.Owner, Taxed: l.Taxed, Note: l.Note})
	}
	for _, g := range s.Groups {
		r.Groups = append(r.Groups, groupReport{string(g.Group), plain(g.Amount)})
	}
	for _, h := range s.Hours {
		one := hoursReport{h.Person, h.Rate, h.Date.String(), h.Call.UTC(), h.Release.UTC(), h.Meals, h.Travel, h.Worked, h.Units, []paidReport{}}
		for _, paid := range h.Paid {
			one.Paid = append(one.Paid, paidReport{paid.Minutes, paid.Times.String()})
		}
		r.Hours = append(r.Hours, one)
	}
	for _, t := range q.Taxes {
		r.Taxes = append(r.Taxes, taxReport{t.Name, t.Percent.String(), plain(t.Base), plain(t.Amount)})
	}
	for _, d := range q.Payments {
		r.Payments = append(r.Payments, paymentReport{d.Name, plain(d.Amount), d.Date.String()})
	}
	for _, problem := range s.Problems {
		r.Problems = append(r.Problems, problem.String())
	}
}

func (r priced) print(w world) {
	s := &r.sheet
	head := strings.TrimRight(s.Amount(r.quote.Total)+" "+s.Currency, " ")
	if len(r.quote.Taxes) > 0 {
		head += " with tax"
	}
	paragraph(w.out, "", cmp.Or(r.plan.Title, "Untitled plan")+": "+head+".")
	var group plan.Group
	for _, l := range s.Lines {
		if l.Group != group {
			group = l.Group
			r.printGroup(w, group)
		}
		printLine(w, s, l)
	}
	r.printTotals(w)
	r.printHours(w)
	if len(r.sure.Inputs) > 0 {
		fmt.Fprintln(w.out)
		paragraph(w.out, "  ", r.sureWords())
	}
	if out := r.leftOut(); len(out) > 0 {
		paragraph(w.out, "  ! ", "on no day, so that their hours are not in the price: "+r.numbers(out))
	}
	for _, problem := range s.Problems {
		paragraph(w.out, "  ! ", problem.String())
	}
	if r.dim != nil {
		paragraph(w.out, "  ! ", r.dimWords())
	}
}

// The columns of the text: names, and the amounts beside them.
const names, amountWidth = 38, 14

func printRow(w world, name, amount, note string) {
	text := fmt.Sprintf("  %s%*s  %s", cell(name, names), amountWidth, amount, note)
	fmt.Fprintln(w.out, strings.TrimRight(text, " "))
}

// printGroup prints the head of a group, with what of it is in the direct lines.
func (r priced) printGroup(w world, g plan.Group) {
	sum, owner := decimal.Zero, decimal.Zero
	for _, l := range r.sheet.Lines {
		switch {
		case l.Group != g || !l.Counts():
		case l.Owner:
			owner = owner.Add(l.Amount)
		default:
			sum = sum.Add(l.Amount)
		}
	}
	note := ""
	if owner.IsPositive() {
		note = "and " + r.sheet.Amount(owner) + " of the owner's time"
	}
	fmt.Fprintln(w.out)
	printRow(w, strings.ToUpper(string(g[:1]))+string(g[1:]), r.sheet.Amount(sum), note)
}

func (r priced) printTotals(w world) {
	s, q := &r.sheet, r.quote
	total := func(name string, a decimal.Decimal, note string) { printRow(w, name, s.Amount(a), note) }
	fmt.Fprintln(w.out)
	total("Direct lines", s.Direct, "the sum of the groups")
	total("Contingency", s.Contingency, r.plan.Pricing.Card.Terms.Contingency.String()+" % of them")
	total("The owner's time", s.Owner, s.OwnerTime.String())
	total("Share of the year's overhead", s.Overhead, s.JobDays.String()+" "+price.Units("day", s.JobDays).String())
	total("Floor", s.Floor, "below this the job loses money")
	at := s.At(q.Net)
	margin := fmt.Sprintf("margin %s %%, markup %s %%", at.Margin, at.Markup)
	if q.Net.IsZero() { // there is nothing that a margin could be a share of
		margin = ""
	}
	if q.Discount.IsPositive() {
		total("Price", q.Price, "")
		total("Discount", q.Discount.Neg(), r.plan.Pricing.Card.Terms.Discount.String()+" % of the price")
		total("Price less discount", q.Net, margin)
	} else {
		total("Price", q.Price, margin)
	}
	for _, t := range q.Taxes {
		total(t.Name, t.Amount, t.Percent.String()+" % of "+s.Amount(t.Base))
	}
	total("Total", q.Total, "")
	for _, d := range q.Payments {
		date := "no date yet"
		if !d.Date.IsZero() {
			date = d.Date.Short()
		}
		total("  "+d.Name, d.Amount, date)
	}
}

// printHours prints a row for each person and day: "06:30 to 19:30, 1 h of meals out, 40 min of travel in: 12 h 45".
func (r priced) printHours(w world) {
	if len(r.sheet.Hours) == 0 {
		return
	}
	fmt.Fprintln(w.out)
	fmt.Fprintln(w.out, "  Hours")
	for _, h := range r.sheet.Hours {
		who, _ := r.plan.Person(h.Person)
		on := slices.IndexFunc(r.shoot.Days, func(d day.Day) bool { return d.Date == h.Date })
		zone := r.shoot.Days[on].Zone
		text := fmt.Sprintf("%s  %s to %s", h.Date.Short(), clockOn(h.Date, h.Call, zone), clockOn(h.Date, h.Release, zone))
		if h.Meals > 0 {
			text += ", " + h.Meals.String() + " of meals out"
		}
		if h.Travel > 0 {
			text += ", " + h.Travel.String() + " of travel in"
		}
		text += ": " + h.Worked.String() + " paid"
		for _, paid := range h.Paid {
			if paid.Times.GreaterThan(decimal.NewFromInt(1)) {
				text += ", " + paid.Minutes.String() + " of it x " + paid.Times.String()
			}
		}
		fmt.Fprintf(w.out, "    %s  %s\n", cell(who.Called(), 22), text)
	}
}

func (r priced) sureWords() string {
	text := fmt.Sprintf("By your own lows and highs, drawn %d times, this price does not cover the costs in %.0f cases of 100; ", price.Draws, 100*r.sure.Loses)
	if r.sure.Holds.IsPositive() {
		return text + r.sheet.Amount(r.sure.Holds) + " covers them in 8 of 10."
	}
	return text + "with this discount no price does in 8 of 10."
}

// numbers names scenes as their numbers say.
func (r priced) numbers(ids []plan.ID) string {
	var out []string
	for _, id := range ids {
		scene, _ := r.plan.Scene(id)
		out = append(out, cmp.Or(scene.Number, string(id)))
	}
	noun := "scene "
	if len(out) > 1 {
		noun = "scenes "
	}
	return noun + strings.Join(out, ", ")
}

func printLine(w world, s *price.Sheet, l price.Line) {
	amount := s.Amount(l.Amount)
	note := s.Explain(l.Parts).String()
	switch {
	case l.Out:
		amount, note = "-", "taken out: "+note
	case !l.Counts():
		amount, note = "-", "the "+string(l.Pays)+" pays "+amount+": "+note
	case l.Owner:
		note += ", the owner's time"
	}
	if l.Computed != nil {
		note += " (changed by hand; it was " + s.Explain(l.Computed).String() + ")"
	}
	if l.Source == price.FromTyped {
		note += " (typed)"
	}
	printRow(w, "  "+cmp.Or(l.Text, l.ID), amount, note)
}
