package view

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

// CaseShown is a case as far as it is worked out.
type CaseShown struct {
	Case   price.Case
	Answer *price.Answer // nil where there is none yet
	Old    bool          // the answer is of the plan as it was
	Under  bool          // it is being worked out
	Err    error         // it could not be
}

// SideBySide holds cases against each other, one a column.
type SideBySide struct {
	Heads []ColumnHead
	Rows  []ColumnRow
	Note  string // under them, or none
}

// ColumnHead is the name of a column and what there is to say of it.
type ColumnHead struct{ Name, Note string }

// ColumnRow is one figure of every case.
type ColumnRow struct {
	Name  string
	Cells []ColumnCell
}

// ColumnCell is a figure, and how it differs from the first column's.
type ColumnCell struct{ Text, Than string }

// caseFigure is one figure of an answer. than words how one differs from another; nil where that says nothing.
type caseFigure struct {
	name string
	text func(*price.Answer) string
	than func(a, first *price.Answer) string
}

// WhatIf holds the cases of what would change against the first of them.
func WhatIf(p Priced, cases []CaseShown) SideBySide {
	money := func(name string, of func(*price.Answer) decimal.Decimal) caseFigure {
		return caseFigure{name, func(a *price.Answer) string { return moneyOf(p, a, of(a)) },
			func(a, first *price.Answer) string {
				return more(of(a).Cmp(of(first)), moneyOf(p, a, of(a).Sub(of(first)).Abs()))
			}}
	}
	times := func(name string, of func(*price.Answer) plan.Minutes) caseFigure {
		return caseFigure{name, func(a *price.Answer) string { return of(a).String() },
			func(a, first *price.Answer) string {
				d := of(a) - of(first)
				return more(int(d), max(d, -d).String())
			}}
	}
	return columns(p, cases, []caseFigure{
		{tongue.Say("Scenes left out"), func(a *price.Answer) string { return noneOr(a.LeftOut) },
			func(a, first *price.Answer) string {
				d := a.LeftOut - first.LeftOut
				return more(d, fmt.Sprint(max(d, -d)))
			}},
		{tongue.Say("Light kept"), func(a *price.Answer) string { return fmt.Sprintf("%d %%", day.Percent(a.Light)) },
			func(a, first *price.Answer) string {
				d := day.Percent(a.Light) - day.Percent(first.Light)
				return more(d, tongue.Count(max(d, -d), "%d point", "%d points"))
			}},
		times(tongue.Say("Waiting"), func(a *price.Answer) plan.Minutes { return a.Waiting }),
		{tongue.Say("Days"), caseDays, nil},
		times(tongue.Say("Crew hours"), func(a *price.Answer) plan.Minutes { return a.Crew }),
		money(tongue.Say("Overtime"), func(a *price.Answer) decimal.Decimal { return a.Sheet.Overtime }),
		money(tongue.Say("Floor"), func(a *price.Answer) decimal.Decimal { return a.Sheet.Floor }),
		money(tongue.Say("Price"), func(a *price.Answer) decimal.Decimal { return a.Quote.Price }),
		{tongue.Say("Margin"), func(a *price.Answer) string { return tongue.Number(margin(a).StringFixed(1)) + " %" },
			func(a, first *price.Answer) string {
				d := margin(a).Sub(margin(first))
				return more(d.Sign(), tongue.Say("%s points", tongue.Number(d.Abs().StringFixed(1))))
			}},
	})
}

func margin(a *price.Answer) decimal.Decimal { return a.Sheet.At(a.Quote.Net).Margin.Round(1) }

// Packages holds packages against each other.
func Packages(p Priced, cases []CaseShown) SideBySide {
	return columns(p, cases, []caseFigure{
		{tongue.Say("Price"), func(a *price.Answer) string { return moneyOf(p, a, a.Quote.Price) }, nil},
		{tongue.Say("Total with tax"), func(a *price.Answer) string { return moneyOf(p, a, a.Quote.Total) }, nil},
		{tongue.Say("Scenes"), packageScenes, nil},
		{tongue.Say("Delivered"), packageDelivers, nil},
		{tongue.Say("Light kept"), func(a *price.Answer) string { return fmt.Sprintf("%d %%", day.Percent(a.Light)) }, nil},
		{tongue.Say("Days"), caseDays, nil},
	})
}

func packageScenes(a *price.Answer) string {
	if a.LeftOut > 0 {
		return tongue.Say("%d, %d left out", len(a.Plan.Scenes), a.LeftOut)
	}
	return fmt.Sprint(len(a.Plan.Scenes))
}

func packageDelivers(a *price.Answer) string {
	var names []string
	for _, d := range a.Plan.Brief.Deliverables {
		names = append(names, cmp.Or(d.Name, tongue.Of(d.KindOr())))
	}
	return strings.Join(names, "\n")
}

func columns(p Priced, cases []CaseShown, figures []caseFigure) SideBySide {
	var out SideBySide
	if p.Plan.Pricing.Asked.IsPositive() && len(cases) > 0 {
		out.Note = tongue.Say("The prices are what the rate card makes of the floor, not the %s that you ask.", p.Money(p.Plan.Pricing.Asked))
	}
	for _, c := range cases {
		out.Heads = append(out.Heads, caseHead(c))
	}
	for _, f := range figures {
		row := ColumnRow{Name: f.name}
		for i, c := range cases {
			var cell ColumnCell
			if c.Answer != nil {
				cell.Text = f.text(c.Answer)
				if first := cases[0].Answer; f.than != nil && i > 0 && first != nil && c.Old == cases[0].Old {
					cell.Than = f.than(c.Answer, first)
				}
			}
			row.Cells = append(row.Cells, cell)
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// caseHead is a case's name, what was assumed for it or what it lacks, and how far it is.
func caseHead(c CaseShown) ColumnHead {
	h := ColumnHead{Name: capital(tongue.Of(c.Case.Name))}
	how := c.Case.How
	if c.Answer != nil {
		how = c.Answer.How
	}
	switch {
	case !c.Case.Lack.IsZero():
		h.Note = sentence(tongue.Of(c.Case.Lack))
		return h
	case !how.IsZero():
		h.Note = sentence(tongue.Of(how))
	}
	state := ""
	switch {
	case c.Under:
		state = tongue.Say("Being worked out…")
	case c.Err != nil:
		state = tongue.Say("It could not be worked out: %v.", c.Err)
	case c.Answer == nil:
		state = tongue.Say("Not worked out yet.")
	case c.Old:
		state = tongue.Say("Of the plan as it was.")
	case !c.Answer.Placed():
		state = tongue.Say("No day could be placed, so there are no crew hours in it.")
	}
	h.Note = strings.TrimSpace(h.Note + " " + state)
	return h
}

// CasesStatus says how far the working out of cases is. stopped: by the user.
func CasesStatus(cases []CaseShown, stopped bool) string {
	wanted, there, old := 0, 0, 0
	under := ""
	for _, c := range cases {
		if !c.Case.Lack.IsZero() {
			continue
		}
		wanted++
		switch {
		case c.Under:
			under = tongue.Of(c.Case.Name)
		case c.Answer != nil && c.Old:
			old++
		case c.Answer != nil:
			there++
		}
	}
	switch {
	case under != "":
		return tongue.Say("Working out “%s”, %d of %d…", under, min(there+1, wanted), wanted)
	case stopped && there < wanted:
		return tongue.Say("Stopped: %d of %d worked out.", there, wanted)
	case old > 0:
		return tongue.Say("The plan has changed since.")
	}
	return ""
}

func caseDays(a *price.Answer) string {
	var lines []string
	for _, d := range a.Days {
		if len(d.Scenes) == 0 {
			continue
		}
		lines = append(lines, fmt.Sprintf("%s\n%s–%s, %s", shortDate(d.Date), clock(d, d.Call), clock(d, d.Wrap), d.Length()))
	}
	if a.Rain && len(lines) > 0 {
		lines = append(lines, tongue.Say("and the last once more"))
	}
	return cmp.Or(strings.Join(lines, "\n"), tongue.Say("none placed"))
}

// moneyOf is an amount of an answer.
func moneyOf(p Priced, a *price.Answer, amount decimal.Decimal) string {
	p.Sheet = a.Sheet
	return p.Money(amount)
}

// more words a difference.
func more(sign int, size string) string {
	switch {
	case sign > 0:
		return tongue.Say("%s more", size)
	case sign < 0:
		return tongue.Say("%s less", size)
	}
	return tongue.Say("the same")
}

func noneOr(n int) string {
	if n == 0 {
		return tongue.Say("scenes|none")
	}
	return fmt.Sprint(n)
}

// PackageRows are the lines of the list of packages. Their ids are their places.
func PackageRows(p *plan.Plan) []Row {
	rows := make([]Row, 0, len(p.Pricing.Packages))
	for i, k := range p.Pricing.Packages {
		scenes, delivered := tongue.Say("all scenes"), tongue.Say("everything delivered")
		if n := len(k.Scenes); n > 0 {
			scenes = tongue.Count(n, "%d scene", "%d scenes")
		}
		if n := len(k.Deliverables); n > 0 {
			delivered = tongue.Count(n, "%d deliverable", "%d deliverables")
		}
		row := Row{ID: PackageID(i), Title: k.Name, Sub: scenes + " · " + delivered}
		if len(price.Gone(p, k)) > 0 {
			row.Mark = tongue.Say("mark|look")
		}
		rows = append(rows, row)
	}
	return rows
}

// PackageID is how the package at a place is called in the list: it has no id of its own.
func PackageID(i int) plan.ID { return plan.ID(fmt.Sprint(i)) }

// PackageHolds says what is in a package beyond its ticks.
func PackageHolds(p *plan.Plan, k plan.Package) string {
	var out []string
	switch {
	case len(k.Scenes) == 0 && len(k.Deliverables) == 0:
		out = append(out, tongue.Say("Nothing is ticked: every scene and everything delivered is in it."))
	case len(k.Scenes) == 0:
		out = append(out, tongue.Say("No scene is ticked: all are in it."))
	case len(k.Deliverables) == 0:
		out = append(out, tongue.Say("No deliverable is ticked: all are in it."))
	}
	if gone := price.Gone(p, k); len(gone) > 0 {
		out = append(out, tongue.Say("It names what is no longer in the plan: %s.", strings.Join(gone, ", ")))
	}
	return strings.Join(out, " ")
}

// ForgetGone takes out of a package what the plan has no more. ok is false where that would leave a list empty, and so make it a
// package of everything: then the user has to say first what it is to hold.
func ForgetGone(p *plan.Plan, k plan.Package) (out plan.Package, ok bool) {
	gone := price.Gone(p, k)
	is := func(name string) bool { return slices.Contains(gone, name) }
	out = k
	out.Scenes = slices.DeleteFunc(slices.Clone(k.Scenes), func(id plan.ID) bool { return is(string(id)) })
	out.Deliverables = slices.DeleteFunc(slices.Clone(k.Deliverables), is)
	return out, len(gone) > 0 && (len(out.Scenes) > 0) == (len(k.Scenes) > 0) && (len(out.Deliverables) > 0) == (len(k.Deliverables) > 0)
}

// SameCase reports whether two cases come to the same, whatever they are called: only what no answer depends on may differ.
func SameCase(a, b price.Case) bool {
	return a.Lack.String() == b.Lack.String() && a.Rain == b.Rain && samePriced(a.Plan, b.Plan)
}

// samePriced reports whether two plans are placed and priced alike. What the user asks, notes and calls things is left out.
func samePriced(a, b plan.Plan) bool { return reflect.DeepEqual(priced(a), priced(b)) }

func priced(p plan.Plan) plan.Plan {
	p.Title, p.Papers = "", plan.PaperFacts{}
	q := &p.Pricing
	q.WhatIf, q.Packages, q.Market, q.Asked, q.Try = plan.WhatIf{}, nil, nil, decimal.Zero, decimal.Zero
	q.Quoted, q.Card.Terms.Valid, q.Card.Terms.Wording = plan.Date{}, 0, ""
	q.Unsure = plan.Unsure{Rounds: q.Unsure.Rounds}
	return p
}

// CaseLabel is how a case is called where it is chosen.
func CaseLabel(c price.Case) string { return capital(tongue.Of(c.Name)) }

// CasesChosen says how many are chosen, and how many can be.
func CasesChosen(n int) string {
	switch {
	case n == 0:
		return tongue.Say("Choose what to hold side by side.")
	case n >= price.MostCases:
		return tongue.Say("%d side by side at most; take one out to choose another. The differences are from the first.", price.MostCases)
	}
	return tongue.Say("The differences are from the first.")
}
