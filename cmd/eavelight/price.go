package main

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"eavelight/plan"
	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

type priceCommand struct {
	dated
}

// priceReport is what price --json prints. Amounts are decimal numbers in quotes, in the currency; times are minutes.
type priceReport struct {
	Currency    string          `json:"currency"`
	Lines       []lineReport    `json:"lines"`
	Groups      []groupReport   `json:"groups"`
	Hours       []hoursReport   `json:"hours"`
	Direct      string          `json:"direct"`
	Overtime    string          `json:"overtime"` // in direct
	Contingency string          `json:"contingency"`
	Owner       string          `json:"owner"`
	OwnerTime   int             `json:"ownerTime"`
	JobDays     string          `json:"jobDays"`
	Overhead    string          `json:"overhead"`
	Floor       string          `json:"floor"`
	Price       string          `json:"price"`
	Margin      string          `json:"margin"` // percent of the net price
	Markup      string          `json:"markup"` // percent of the floor
	Discount    string          `json:"discount"`
	Net         string          `json:"net"`
	Taxes       []taxReport     `json:"taxes"`
	Tax         string          `json:"tax"`
	Total       string          `json:"total"`
	Payments    []paymentReport `json:"payments"`
	Loses       float64         `json:"loses"` // the share of 10,000 draws of the costs that the net price does not cover
	Holds       string          `json:"holds"` // the price that covers 8 draws of 10
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
	Person plan.ID      `json:"person"`
	Date   string       `json:"date"`
	Meals  plan.Minutes `json:"meals"`
	Travel plan.Minutes `json:"travel"`
	Worked plan.Minutes `json:"worked"`
	Paid   []paidReport `json:"paid"`
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

// Run is kong's.
func (c priceCommand) Run(w world) error {
	p, shoot, err := c.shoot(context.Background())
	if err != nil {
		return err
	}
	sheet := price.Of(&p, shoot.Days)
	quote := sheet.Quote(&p, sheet.Price())
	sure, err := price.HowSure(context.Background(), &p, shoot.Days, &sheet)
	if err != nil {
		return err
	}
	if c.JSON {
		err = printJSON(w, newPriceReport(&sheet, quote, sure))
	} else {
		printPrice(w, &p, &sheet, quote, sure)
	}
	if err == nil && len(sheet.Problems.Lacks()) > 0 {
		return errProblems
	}
	return err
}

func newPriceReport(s *price.Sheet, q price.Quote, sure price.Sure) priceReport {
	at := s.At(q.Net)
	r := priceReport{Currency: s.Currency, Lines: []lineReport{}, Groups: []groupReport{}, Hours: []hoursReport{},
		Direct: s.Amount(s.Direct), Overtime: s.Amount(s.Overtime), Contingency: s.Amount(s.Contingency), Owner: s.Amount(s.Owner),
		OwnerTime: int(s.OwnerTime), JobDays: s.JobDays.String(), Overhead: s.Amount(s.Overhead), Floor: s.Amount(s.Floor),
		Price: s.Amount(q.Price), Margin: at.Margin.String(), Markup: at.Markup.String(), Discount: s.Amount(q.Discount),
		Net: s.Amount(q.Net), Taxes: []taxReport{}, Tax: s.Amount(q.Tax), Total: s.Amount(q.Total), Payments: []paymentReport{},
		Loses: sure.Loses, Holds: s.Amount(sure.Holds), Problems: []string{}}
	for _, l := range s.Lines {
		r.Lines = append(r.Lines, lineReport{ID: l.ID, Group: string(l.Group), Text: l.Text, How: s.Explain(l.Parts), Amount: s.Amount(l.Amount),
			Source: string(l.Source), Changed: l.Overridden, Counts: l.Counts(), Pays: string(l.Pays), Owner: l.Owner, Taxed: l.Taxed, Note: l.Note})
	}
	for _, g := range s.Groups {
		r.Groups = append(r.Groups, groupReport{string(g.Group), s.Amount(g.Amount)})
	}
	for _, h := range s.Hours {
		one := hoursReport{h.Person, h.Date.String(), h.Meals, h.Travel, h.Worked, []paidReport{}}
		for _, paid := range h.Paid {
			one.Paid = append(one.Paid, paidReport{paid.Minutes, paid.Times.String()})
		}
		r.Hours = append(r.Hours, one)
	}
	for _, t := range q.Taxes {
		r.Taxes = append(r.Taxes, taxReport{t.Name, t.Percent.String(), s.Amount(t.Base), s.Amount(t.Amount)})
	}
	for _, d := range q.Payments {
		r.Payments = append(r.Payments, paymentReport{d.Name, s.Amount(d.Amount), d.Date.String()})
	}
	for _, problem := range s.Problems {
		r.Problems = append(r.Problems, problem.String())
	}
	return r
}

func printPrice(w world, p *plan.Plan, s *price.Sheet, q price.Quote, sure price.Sure) {
	paragraph(w.out, "", cmp.Or(p.Title, "Untitled plan")+": "+s.Amount(q.Total)+" "+s.Currency+" with tax.")
	var group plan.Group
	for _, l := range s.Lines {
		if l.Group != group {
			group = l.Group
			fmt.Fprintln(w.out)
			fmt.Fprintln(w.out, "  "+strings.ToUpper(string(group[:1]))+string(group[1:]))
		}
		printLine(w, s, l)
	}
	fmt.Fprintln(w.out)
	total := func(name string, a decimal.Decimal, note string) {
		fmt.Fprintln(w.out, strings.TrimRight(fmt.Sprintf("  %s%14s  %s", cell(name, 34), s.Amount(a), note), " "))
	}
	total("Direct lines", s.Direct, "")
	total("Contingency", s.Contingency, p.Pricing.Card.Terms.Contingency.String()+" % of them")
	total("The owner's time", s.Owner, s.OwnerTime.String())
	total("Share of the year's overhead", s.Overhead, s.JobDays.String()+" days")
	total("Floor", s.Floor, "below this the job loses money")
	at := s.At(q.Net)
	total("Price", q.Price, fmt.Sprintf("margin %s %%, markup %s %%", at.Margin, at.Markup))
	if q.Discount.IsPositive() {
		total("Discount", q.Discount.Neg(), "")
	}
	for _, t := range q.Taxes {
		total(t.Name, t.Amount, t.Percent.String()+" % of "+s.Amount(t.Base))
	}
	total("Total", q.Total, "")
	for _, d := range q.Payments {
		total("  "+d.Name, d.Amount, d.Date.String())
	}
	if len(sure.Inputs) > 0 {
		fmt.Fprintln(w.out)
		paragraph(w.out, "  ", fmt.Sprintf("By your own lows and highs, drawn %d times, this price does not cover the costs in %.0f cases of 100; %s covers them in 8 of 10.",
			price.Draws, 100*sure.Loses, s.Amount(sure.Holds)))
	}
	for _, problem := range s.Problems {
		paragraph(w.out, "  ! ", problem.String())
	}
}

func printLine(w world, s *price.Sheet, l price.Line) {
	amount := s.Amount(l.Amount)
	note := s.Explain(l.Parts)
	switch {
	case l.Out:
		amount, note = "-", "taken out: "+note
	case !l.Counts():
		amount, note = "-", "the "+string(l.Pays)+" pays "+amount+": "+note
	case l.Owner:
		note += ", the owner's time"
	}
	if l.Overridden {
		note += " (changed by hand)"
	}
	fmt.Fprintf(w.out, "    %s%14s  %s\n", cell(l.Text, 32), amount, note)
}
