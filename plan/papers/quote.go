package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/price"
)

// QuoteFile is what the quote is called in a folder.
const QuoteFile = "quote.pdf"

// Quote is the paper on which the job is offered to the client: what they get, what it costs them and when, and where they sign. It
// holds nothing of what the job costs us: no line of the budget, no floor, no margin, nobody's fee, no hours. packages are the
// answers of the plan's packages, in their order (price.Packages); one that is not answered is offered on request.
func Quote(p *plan.Plan, days []day.Day, packages ...price.Answer) Sheet {
	q := newQuoter(p, days)
	sheet := Sheet{
		Kind:     "Quote",
		Title:    cmp.Or(strings.TrimSpace(p.Title), "Untitled plan"),
		Lines:    []string{lines(orEmpty(p.Property.Name, "Property not named"), p.Property.Address)},
		Key:      Fact{"Total" + q.currency(), q.sheet.Amount(q.quote.Total)},
		KeyNote:  "with tax",
		Sections: []Section{q.offer(), q.included(), q.shoot(), q.packages(packages), q.price(), q.payments(), q.terms(), q.accept()},
		Foot:     q.foot(),
		Zone:     zoneOf(p),
	}
	if len(q.quote.Taxes) == 0 {
		sheet.KeyNote = "no tax is added"
	}
	if q.draft() {
		sheet.Kind = "Quote, draft"
		sheet.Lines = append(sheet.Lines, "A draft: its figures are not settled, and it offers nothing yet.")
	}
	return sheet
}

// quoter collects what the sections of a quote have in common.
type quoter struct {
	*plan.Plan
	style
	days  []day.Day // with a scene on them
	sheet price.Sheet
	quote price.Quote
}

func newQuoter(p *plan.Plan, days []day.Day) quoter {
	q := quoter{Plan: p, style: styleOf(p), sheet: price.Of(p, days)}
	q.days = slices.DeleteFunc(slices.Clone(days), func(d day.Day) bool { return len(d.Scenes) == 0 })
	q.quote = q.sheet.Quote(p, q.sheet.Price())
	return q
}

// draft reports whether the price can't be stood by: it is none, or it comes from a card that lacks something or is invented. A
// price that is asked outright needs no card behind it.
func (q quoter) draft() bool {
	if q.sheet.Currency == "" || !q.quote.Price.IsPositive() {
		return true
	}
	return !q.Pricing.Asked.IsPositive() && slices.ContainsFunc(q.sheet.Problems, func(p plan.Problem) bool {
		return p.Level == plan.Lack || p.Code == plan.StarterCard
	})
}

// currency names what the amounts are in, where that is known: " in USD".
func (q quoter) currency() string {
	if q.sheet.Currency == "" {
		return ""
	}
	return " in\u00a0" + q.sheet.Currency
}

func (q quoter) foot() string {
	if q.sheet.Currency == "" {
		return "the currency is not set"
	}
	return "amounts" + q.currency()
}

func (q quoter) offer() Section {
	s := Section{Heading: "Offer", Facts: []Fact{
		{"From", orEmpty(q.Papers.Producer, notFilledIn)},
		{"To", orEmpty(q.Brief.Client, notFilledIn)},
	}}
	if agent := strings.TrimSpace(q.Brief.Agent); agent != "" && agent != strings.TrimSpace(q.Brief.Client) {
		s.Facts = append(s.Facts, Fact{"Agent", agent})
	}
	quoted, valid := q.Pricing.Quoted, q.Pricing.Card.Terms.Valid
	if !quoted.IsZero() {
		s.Facts = append(s.Facts, Fact{"Date", q.long(quoted)})
	}
	switch {
	case valid > 0 && quoted.IsZero():
		s.Facts = append(s.Facts, Fact{"Valid", "for " + counted(valid, "day", "days") + " from the day it was made, which stands at the foot of this page"})
	case valid > 0:
		s.Facts = append(s.Facts, Fact{"Valid until", q.long(quoted.AddDays(valid))})
	}
	return s
}

// included lists what is handed over.
func (q quoter) included() Section {
	s := Section{Heading: "What you get", Table: Table{Columns: []Column{{"Delivered", 60}, {"Length or number", 40}, {"Format", 78}}}}
	for _, d := range q.Brief.Deliverables {
		s.Table.Rows = append(s.Table.Rows, Row{Cells: []Cell{{Strong: called(d)}, {Text: extent(d)}, {Text: strings.TrimSpace(d.Format)}}})
	}
	if len(s.Table.Rows) == 0 {
		s.Text = []string{"What is to be delivered is still to be agreed."}
	}
	return s
}

// called is what a deliverable is called.
func called(d plan.Deliverable) string {
	return cmp.Or(strings.TrimSpace(d.Name), capital(string(d.KindOr())))
}

// extent is how long a deliverable runs, or how many stills it is.
func extent(d plan.Deliverable) string {
	var out []string
	if d.Seconds > 0 {
		out = append(out, runs(d.Seconds))
	}
	if d.Stills > 0 {
		out = append(out, counted(d.Stills, "still", "stills"))
	}
	return strings.Join(out, ", ")
}

// shoot says what is done for it, and what the client pays beside it.
func (q quoter) shoot() Section {
	s := Section{Heading: "What we do for it"}
	say := func(name, text string) {
		if text != "" {
			s.Facts = append(s.Facts, Fact{name, text})
		}
	}
	var dates []string
	for _, d := range q.days {
		dates = append(dates, q.long(d.Date))
	}
	say("Shooting", cmp.Or(lines(dates...), "to be agreed"))
	if n := scenes(q.Plan, q.days); n > 0 {
		say("Scenes", fmt.Sprint(n))
	}
	if n := q.Pricing.Unsure.Rounds; n > 0 {
		say("Changes", counted(n, "round", "rounds")+" of changes included")
	}
	say("Delivery", q.long(q.Brief.Due))
	say("Not included", lines(q.beside(plan.ClientPays, "Paid by the client directly"), q.beside(plan.AgentPays, "Paid by the agent directly")))
	return s
}

// scenes is how many scenes are shot: those that are placed, once any is.
func scenes(p *plan.Plan, days []day.Day) int {
	n := 0
	for _, d := range days {
		n += len(d.Scenes)
	}
	return cmp.Or(n, len(p.Scenes))
}

// beside names what somebody else pays beside the price, without what it costs.
func (q quoter) beside(payer plan.Payer, words string) string {
	var names []string
	for _, l := range q.sheet.Lines {
		if l.Pays == payer && !l.Out {
			names = append(names, q.bare(l))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return words + ": " + strings.Join(names, ", ")
}

// bare is what a line is for, without the rate that it is paid by: that is named for us.
func (q quoter) bare(l price.Line) string {
	for _, r := range q.Pricing.Card.Rates {
		if l.Rate != "" && r.ID == l.Rate {
			return cmp.Or(strings.TrimSpace(r.Name), string(r.Group.Or()))
		}
	}
	for _, who := range q.People {
		if l.ID == price.CrewLine(who.ID) {
			return who.Called()
		}
	}
	return cmp.Or(strings.TrimSpace(l.Text), string(l.Group.Or()))
}

// packages are offered beside each other.
func (q quoter) packages(answers []price.Answer) Section {
	s := Section{Heading: "Packages", Table: Table{Right: 1, Columns: []Column{{"Package", 50}, {"What it holds", 90}, {"Total" + q.currency(), 38}}}}
	whole := ""
	for i, k := range q.Pricing.Packages {
		c := price.PackageCase(q.Plan, k)
		if !c.Lack.IsZero() {
			continue
		}
		name, total := cmp.Or(strings.TrimSpace(k.Name), fmt.Sprint("Package ", i+1)), "on request"
		var days []day.Day
		if price.Whole(q.Plan, k) {
			whole, total, days = name, q.sheet.Amount(q.quote.Total), q.days
		} else if i < len(answers) && answers[i].Placed() {
			total, days = answers[i].Sheet.Amount(answers[i].Quote.Total), answers[i].Days
		}
		s.Table.Rows = append(s.Table.Rows, Row{Cells: []Cell{{Strong: name}, {Text: contents(&c.Plan, days)}, {Text: total}}})
	}
	if len(s.Table.Rows) == 0 {
		return Section{}
	}
	of := "everything above"
	if whole != "" {
		of = "“" + whole + "”"
	}
	s.Text = []string{"You choose one when you accept. The price and the payments below are those of " + of + "; another package is paid in the same shares."}
	return s
}

// contents is what is in a package.
func contents(p *plan.Plan, days []day.Day) string {
	var names []string
	for _, d := range p.Brief.Deliverables {
		names = append(names, called(d))
	}
	return lines(strings.Join(names, ", "), "from "+counted(scenes(p, days), "scene", "scenes"))
}

// price leads from the price to the total.
func (q quoter) price() Section {
	s := Section{Heading: "Price", Table: q.amounts("")}
	add := func(name string, amount string) {
		s.Table.Rows = append(s.Table.Rows, Row{Cells: []Cell{{Text: name}, {Text: amount}}})
	}
	add("Price", q.sheet.Amount(q.quote.Price))
	if q.quote.Discount.IsPositive() {
		add("Discount, "+q.Pricing.Card.Terms.Discount.String()+"\u00a0%", q.sheet.Amount(q.quote.Discount.Neg()))
		add("Net price", q.sheet.Amount(q.quote.Net))
	}
	for _, t := range q.quote.Taxes {
		add(q.taxName(t), q.sheet.Amount(t.Amount))
	}
	s.Table.sum(Row{Cells: []Cell{{Strong: "Total"}, {Strong: q.sheet.Amount(q.quote.Total)}}})
	return s
}

// taxName says what a tax is on where that is not the whole price: otherwise its amount would look wrong.
func (q quoter) taxName(t price.TaxRow) string {
	name := fmt.Sprintf("%s, %s\u00a0%%", cmp.Or(strings.TrimSpace(t.Name), "Tax"), t.Percent)
	if !t.Base.Equal(q.quote.Net) {
		name += " of " + q.sheet.Amount(t.Base)
	}
	return name
}

// amounts is a table of names and figures, the currency in its head.
func (q quoter) amounts(head string) Table {
	return Table{Right: 1, Columns: []Column{{head, 138}, {strings.TrimSpace("Amount" + q.currency()), 40}}}
}

// sum adds the row of a sum, which never stands alone on a page.
func (t *Table) sum(r Row) {
	if n := len(t.Rows); n > 0 {
		t.Rows[n-1].Keep = true
	}
	t.Rows = append(t.Rows, r)
}

// payments are due in the order of what they count from, so that the deposit comes first.
func (q quoter) payments() Section {
	s := Section{Heading: "Payments", Table: Table{Right: 2, Columns: []Column{{"Payment", 50}, {"Due", 68}, {"Share", 20}, {strings.TrimSpace("Amount" + q.currency()), 40}}}}
	terms := q.Pricing.Card.Terms.Payments
	var order []int
	for i := range q.quote.Payments {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := terms[a], terms[b]
		return cmp.Or(cmp.Compare(slices.Index(plan.Moments, x.When.Or()), slices.Index(plan.Moments, y.When.Or())), cmp.Compare(x.Days, y.Days))
	})
	for n, i := range order {
		due := q.quote.Payments[i]
		name := cmp.Or(strings.TrimSpace(due.Name), fmt.Sprint("Payment ", n+1))
		s.Table.Rows = append(s.Table.Rows, Row{Keep: n < len(order)-1, Cells: []Cell{{Strong: name}, {Text: q.due(due, terms[i])}, {Text: terms[i].Percent.String() + "\u00a0%"}, {Text: q.sheet.Amount(due.Amount)}}})
	}
	return s
}

// due is when a payment is due: the date, or what it counts from while that has none.
func (q quoter) due(d price.Due, terms plan.Payment) string {
	if !d.Date.IsZero() {
		return q.long(d.Date)
	}
	what := map[plan.Moment]string{plan.AtBooking: "the booking", plan.AtShoot: "the first shooting day", plan.AtDelivery: "the delivery"}[terms.When.Or()]
	switch {
	case terms.Days > 0:
		return counted(terms.Days, "day", "days") + " after " + what
	case terms.Days < 0:
		return counted(-terms.Days, "day", "days") + " before " + what
	}
	return "on " + what
}

// terms are the business's own, or the template, which says what it is.
func (q quoter) terms() Section {
	s := Section{Heading: "Terms"}
	text := strings.TrimSpace(q.Pricing.Card.Terms.Wording)
	if text == "" {
		caution, points, _ := strings.Cut(assets.QuoteTerms, "\n\n")
		text, s.Text = points, []string{caution}
	}
	for part := range strings.SplitSeq(strings.ReplaceAll(text, "\r\n", "\n"), "\n\n") {
		if part = strings.TrimSpace(part); part != "" {
			s.List = append(s.List, part)
		}
	}
	return s
}

// accept is where the client signs; a draft is not signed.
func (q quoter) accept() Section {
	if q.draft() {
		return Section{}
	}
	s := Section{Heading: "Accepted", Text: []string{"For " + orEmpty(q.Brief.Client, "the client") + ", who orders what stands in this quote."}}
	if len(q.packages(nil).Table.Rows) > 1 {
		s.Blanks = []string{"Package"}
	}
	s.Blanks = append(s.Blanks, "Name", "Place", "Date", "Signature")
	return s
}

// counted is a number of things: "1 day", "3 days".
func counted(n int, one, more string) string {
	if n == 1 {
		more = one
	}
	return fmt.Sprintf("%d\u00a0%s", n, more)
}

func capital(s string) string {
	letters := []rune(s)
	return strings.ToUpper(string(letters[:min(1, len(letters))])) + string(letters[min(1, len(letters)):])
}
