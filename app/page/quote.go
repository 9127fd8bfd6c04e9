package page

import (
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"github.com/shopspring/decimal"
)

// quote is the part of the page of the price with what is asked, and how and when it is paid.
type quote struct {
	*form
	shown  view.Priced
	object fyne.CanvasObject
}

func newQuote(edit Editor) *quote {
	s := &quote{form: newForm(edit, nil)}
	s.priceFields()
	s.friendFields()
	s.taxFields()
	s.paymentFields()
	s.object = container.NewVScroll(measure(s.form.box))
	return s
}

// Object is pricePart's.
func (s *quote) Object() fyne.CanvasObject { return s.object }

func (s *quote) show(p view.Priced) {
	s.shown = p
	s.form.show(&p.Plan)
}

// says adds a line that follows the price.
func (s *quote) saysOf(label string, words func(view.Priced) string) {
	s.form.says(label, func(*plan.Plan) string { return words(s.shown) })
}

func terms(p *plan.Plan) *plan.Terms { return &p.Pricing.Card.Terms }

func (s *quote) priceFields() {
	f := s.form
	f.decimal(tongue.Say("Price asked"), tongue.Say("empty: what the card makes of the floor"), func(p *plan.Plan) *decimal.Decimal { return &p.Pricing.Asked })
	s.saysOf("", view.ComputedLine)
	s.saysOf("", view.StandingLine)
	f.decimal(tongue.Say("Margin, %"), "20", func(p *plan.Plan) *decimal.Decimal { return &terms(p).Margin })
	f.parsed(tongue.Say("or markup, %"), "25", func(p *plan.Plan) string { return printDecimal(view.MarkupOf(terms(p).Margin)) },
		func(text string) (func(*plan.Plan), error) {
			v, err := parseDecimal(text)
			return func(p *plan.Plan) { terms(p).Margin = view.MarginOf(v) }, err
		})
	f.says("", func(*plan.Plan) string {
		return tongue.Say("A margin is a share of the price, a markup a share of the floor: %s of the one is %s of the other.", "20 %", "25 %")
	})
	f.decimal(tongue.Say("Round up to"), tongue.Say("50; empty: not rounded"), func(p *plan.Plan) *decimal.Decimal { return &terms(p).Step })
	f.decimal(tongue.Say("Discount, %"), tongue.Say("of the price"), func(p *plan.Plan) *decimal.Decimal { return &terms(p).Discount })
}

func (s *quote) friendFields() {
	s.form.heading(tongue.Say("A friend's price"))
	s.form.decimal(tongue.Say("Look at"), tongue.Say("a price that you think of asking"), func(p *plan.Plan) *decimal.Decimal { return &p.Pricing.Try })
	s.saysOf("", func(p view.Priced) string {
		if words := view.FriendLine(p); words != "" {
			return words
		}
		return tongue.Say("Type a price here to see what it would mean. It changes nothing in the quote.")
	})
}

func (s *quote) taxFields() {
	f := s.form
	f.heading(tongue.Say("Tax"))
	f.table(tongue.Say("Taxes"), table{
		item:   tongue.Say("tax"),
		count:  func(p *plan.Plan) int { return len(terms(p).Taxes) },
		add:    func(p *plan.Plan) { terms(p).Taxes = append(terms(p).Taxes, plan.Tax{}) },
		raise:  raised(func(p *plan.Plan) []plan.Tax { return terms(p).Taxes }),
		remove: func(p *plan.Plan, i int) { terms(p).Taxes = removed(terms(p).Taxes, i) },
		columns: []column{
			textColumn(tongue.Say("Name"), tongue.Say("Sales tax"), 5, func(p *plan.Plan, i int) *string { return &terms(p).Taxes[i].Name }),
			decimalColumn(tongue.Say("Percent"), pointed("8.25"), 2, func(p *plan.Plan, i int) *decimal.Decimal { return &terms(p).Taxes[i].Percent }),
		},
	})
	f.check(tongue.Say("Rounding"), tongue.Say("round each line by itself, not the whole quote once"), func(p *plan.Plan) *bool { return &terms(p).TaxByLine })
	f.only(func(p *plan.Plan) bool { return len(terms(p).Taxes) > 0 }, func() { s.saysOf(tongue.Say("Makes"), view.TaxLines) })
}

func (s *quote) paymentFields() {
	f := s.form
	f.heading(tongue.Say("When it is paid"))
	f.table(tongue.Say("Payments"), table{
		item:   tongue.Say("payment"),
		count:  func(p *plan.Plan) int { return len(terms(p).Payments) },
		add:    func(p *plan.Plan) { terms(p).AddPayment() },
		raise:  raised(func(p *plan.Plan) []plan.Payment { return terms(p).Payments }),
		remove: func(p *plan.Plan, i int) { terms(p).RemovePayment(i) },
		columns: []column{
			textColumn(tongue.Say("Name"), tongue.Say("On booking"), 5, func(p *plan.Plan, i int) *string { return &terms(p).Payments[i].Name }),
			shareColumn(),
			choiceColumn(tongue.Say("From"), 3, words(plan.Moments), plan.Moment.Or, func(p *plan.Plan, i int) *plan.Moment { return &terms(p).Payments[i].When }),
			wholeColumn(tongue.Say("Days after"), tongue.Say("-7: before"), 2, func(p *plan.Plan, i int) *int { return &terms(p).Payments[i].Days }),
		},
	})
	f.says("", func(*plan.Plan) string { return tongue.Say("They make 100 %: what one takes, the last gives.") })
	f.only(func(p *plan.Plan) bool { return len(terms(p).Payments) > 0 }, func() { s.saysOf(tongue.Say("Due"), view.PaymentLines) })
	f.parsed(tongue.Say("Quoted"), tongue.Say("the day on the quote, as in 2027-09-01"), func(p *plan.Plan) string { return p.Pricing.Quoted.String() },
		func(text string) (func(*plan.Plan), error) {
			d, err := parseDate(text)
			return func(p *plan.Plan) { p.Pricing.Quoted = d }, err
		})
	f.parsed(tongue.Say("Booked"), tongue.Say("the day the client says yes, as in 2027-09-10"), func(p *plan.Plan) string { return p.Pricing.Booked.String() },
		func(text string) (func(*plan.Plan), error) {
			d, err := parseDate(text)
			return func(p *plan.Plan) { p.Pricing.Booked = d }, err
		})
	f.parsed(tongue.Say("Valid, days"), tongue.Say("how long the quote stands"), func(p *plan.Plan) string { return printWhole(terms(p).Valid) },
		func(text string) (func(*plan.Plan), error) {
			v, err := parseWhole(text)
			return func(p *plan.Plan) { terms(p).Valid = v }, err
		})
	f.long(tongue.Say("Terms"), tongue.Say("what the quote says in small print; empty: our template, which a lawyer should check"), 4,
		func(p *plan.Plan) *string { return &terms(p).Wording })
}

// shareColumn changes a payment's share so that all go on making 100.
func shareColumn() column {
	c := decimalColumn(tongue.Say("Percent"), "40", 2, func(p *plan.Plan, i int) *decimal.Decimal { return &terms(p).Payments[i].Percent })
	c.parse = func(text string) (func(*plan.Plan, int), error) {
		v, err := parseDecimal(text)
		return func(p *plan.Plan, i int) { terms(p).SetShare(i, v) }, err
	}
	return c
}
