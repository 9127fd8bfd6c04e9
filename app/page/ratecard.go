package page

import (
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"
)

// Cards reads and writes rate cards off the UI goroutine. What goes wrong it tells by itself.
type Cards struct {
	Starter func(take func(plan.RateCard))
	Open    func(take func(plan.RateCard)) // asks for the file
	Save    func(plan.RateCard)            // asks for the file
}

// buttons are the ways to another rate card.
func (c Cards) buttons(edit Editor) (starter, open *widget.Button) {
	take := func(name string) func(plan.RateCard) {
		return func(card plan.RateCard) {
			edit(name, "", func(p *plan.Plan) { p.TakeCard(card) })
		}
	}
	starter = widget.NewButton(tongue.Say("Take the starter card"), func() { c.Starter(take(tongue.Say("take the starter card"))) })
	open = widget.NewButtonWithIcon(tongue.Say("Open a card…"), theme.FolderOpenIcon(), func() { c.Open(take(tongue.Say("take a rate card"))) })
	return starter, open
}

// rateCard is the part of the page of the price with the plan's copy of the rate card, itself in parts.
type rateCard struct {
	card, crew, kit, year *form
	rules                 *items[plan.OvertimeRule]
	rates                 *items[plan.Rate]
	shown                 view.Priced
	halves                *halves
}

func cardOf(p *plan.Plan) *plan.RateCard { return &p.Pricing.Card }

func newRateCard(edit Editor, cards Cards) *rateCard {
	s := &rateCard{card: newForm(edit, nil), crew: newForm(edit, nil), kit: newForm(edit, nil), year: newForm(edit, nil)}
	s.cardFields(cards)
	s.crewFields()
	s.kitFields()
	s.yearFields()
	s.rules = newRules(edit)
	s.rates = newRates(edit)
	scroll := func(f *form) fyne.CanvasObject { return container.NewVScroll(measure(f.box)) }
	full := func(f *form) fyne.CanvasObject { return container.NewVScroll(container.NewPadded(f.box)) }
	s.halves = newHalves([]string{tongue.Say("The card"), tongue.Say("Crew"), tongue.Say("Overtime"), tongue.Say("Kit"), tongue.Say("Rates"), tongue.Say("The year")},
		scroll(s.card), full(s.crew), side(s.rules), full(s.kit), side(s.rates), scroll(s.year))
	s.halves.onTurn = func() { s.show(s.shown) }
	return s
}

// side is a list with the selected thing beside it.
func side[T any](s *items[T]) fyne.CanvasObject {
	return newTurning(s.listPane.object, s.detail, 0.42, 0.4, 30)
}

// Object is pricePart's.
func (s *rateCard) Object() fyne.CanvasObject { return s.halves.object }

// Revert is Reverter's.
func (s *rateCard) Revert() bool {
	any := false
	for _, f := range []Reverter{s.card, s.crew, s.rules, s.kit, s.rates, s.year} {
		any = f.Revert() || any
	}
	return any
}

func (s *rateCard) show(p view.Priced) {
	s.shown = p
	switch s.halves.front {
	case 0:
		s.card.show(&p.Plan)
	case 1:
		s.crew.show(&p.Plan)
	case 2:
		s.rules.showItems(&p.Plan, view.RuleRows(p.Plan))
	case 3:
		s.kit.show(&p.Plan)
	case 4:
		s.rates.showItems(&p.Plan, view.RateRows(p.Plan))
	case 5:
		s.year.show(&p.Plan)
	}
}

func (s *rateCard) cardFields(cards Cards) {
	f := s.card
	f.says("", func(p *plan.Plan) string { return view.CardLine(*p) })
	save := widget.NewButtonWithIcon(tongue.Say("Save this card as…"), theme.DocumentSaveIcon(), func() { cards.Save(s.shown.Plan.Pricing.Card) })
	starter, open := cards.buttons(f.edit)
	f.row("", flowing(starter, open, save))
	f.text(tongue.Say("Name"), tongue.Say("My rates"), func(p *plan.Plan) *string { return &cardOf(p).Name })
	f.check(tongue.Say("Invented"), tongue.Say("the figures are invented, not yours yet"), func(p *plan.Plan) *bool { return &cardOf(p).Starter })
	f.parsed(tongue.Say("Currency"), "USD, EUR, JPY (ISO 4217)", func(p *plan.Plan) string { return cardOf(p).Currency }, parseCurrency)
	f.parsed(tongue.Say("Paid time steps"), tongue.Say("minutes that paid time is rounded up to; empty: none"), func(p *plan.Plan) string { return printWhole(int(cardOf(p).TimeStep)) },
		func(text string) (func(*plan.Plan), error) {
			v, err := parseWhole(text)
			return func(p *plan.Plan) { cardOf(p).TimeStep = plan.Minutes(v) }, err
		})
	f.decimal(tongue.Say("Contingency, %"), tongue.Say("of the direct lines, for what nobody thought of"), func(p *plan.Plan) *decimal.Decimal { return &terms(p).Contingency })
	f.parsed(tongue.Say("Distance, km"), tongue.Say("from your door to this property, one way"), func(p *plan.Plan) string { return printWhole(p.Pricing.Distance) },
		func(text string) (func(*plan.Plan), error) {
			v, err := parseWhole(text)
			return func(p *plan.Plan) { p.Pricing.Distance = v }, err
		})
}

func (s *rateCard) crewFields() {
	crew := func(p *plan.Plan, i int) *plan.CrewRate { return &cardOf(p).Crew[i] }
	same := func(id plan.ID) plan.ID { return id }
	basis := choiceColumn(tongue.Say("Paid by the"), 3, words(plan.Bases), plan.Basis.Or, func(p *plan.Plan, i int) *plan.Basis { return &crew(p, i).Basis })
	basis.parse = func(text string) (func(*plan.Plan, int), error) {
		return func(p *plan.Plan, i int) { crew(p, i).SetBasis(plan.Basis(text)) }, nil
	}
	s.crew.table("", table{
		item:   tongue.Say("position"),
		count:  func(p *plan.Plan) int { return len(cardOf(p).Crew) },
		add:    func(p *plan.Plan) { cardOf(p).AddCrewRate() },
		raise:  raised(func(p *plan.Plan) []plan.CrewRate { return cardOf(p).Crew }),
		remove: (*plan.Plan).RemoveCrewRate,
		columns: []column{
			textColumn(tongue.Say("Position"), tongue.Say("Camera"), 5, func(p *plan.Plan, i int) *string { return &crew(p, i).Name }),
			basis,
			decimalColumn(tongue.Say("Rate"), "", 2.5, func(p *plan.Plan, i int) *decimal.Decimal { return &crew(p, i).Rate }),
			timeColumn(tongue.Say("Of hours"), "", 2, func(p *plan.Plan, i int) *plan.Minutes { return &crew(p, i).Hours }),
			choiceColumn(tongue.Say("Overtime"), 5, ruleOptions, same, func(p *plan.Plan, i int) *plan.ID { return &crew(p, i).Overtime }),
			tickColumn(tongue.Say("Travel"), 1.5, func(p *plan.Plan, i int) *bool { return &crew(p, i).Travel }),
		},
	})
	s.crew.says("", func(*plan.Plan) string {
		return tongue.Say("The owner's rate is your own hour: your pay of the year over its billable hours. Travel ticked: the way there and back is paid time. "+
			"Who is paid which rate is said on the People page.") + " " + view.OvertimeCaution()
	})
}

func ruleOptions(p *plan.Plan) []option {
	out := []option{{"", tongue.Say("no rule")}}
	for _, r := range cardOf(p).Overtime {
		out = append(out, option{string(r.ID), view.RuleName(r)})
	}
	return out
}

// rateOptions are the rates of the crew.
func rateOptions(none string) func(*plan.Plan) []option {
	return func(p *plan.Plan) []option {
		out := []option{{"", none}}
		for _, r := range cardOf(p).Crew {
			out = append(out, option{string(r.ID), view.CrewName(r)})
		}
		return out
	}
}

func (s *rateCard) kitFields() {
	kit := func(p *plan.Plan, i int) *plan.KitRate { return &cardOf(p).Kit[i] }
	money := func(head string, at func(*plan.KitRate) *decimal.Decimal) column {
		return decimalColumn(head, "", 2.2, func(p *plan.Plan, i int) *decimal.Decimal { return at(kit(p, i)) })
	}
	owned := tickColumn(tongue.Say("Owned"), 1.4, func(p *plan.Plan, i int) *bool { return &kit(p, i).Owned })
	owned.parse = func(text string) (func(*plan.Plan, int), error) {
		return func(p *plan.Plan, i int) { kit(p, i).SetOwned(text == yes) }, nil
	}
	s.kit.table("", table{
		item:   tongue.Say("kit"),
		count:  func(p *plan.Plan) int { return len(cardOf(p).Kit) },
		add:    func(p *plan.Plan) { cardOf(p).AddKit(tongue.Current()) },
		raise:  raised(func(p *plan.Plan) []plan.KitRate { return cardOf(p).Kit }),
		remove: func(p *plan.Plan, i int) { cardOf(p).Kit = removed(cardOf(p).Kit, i) },
		columns: []column{
			textColumn(tongue.Say("Name"), tongue.Say("gimbal"), 4.4, func(p *plan.Plan, i int) *string { return &kit(p, i).Name }),
			tickColumn(tongue.Say("Always"), 1.4, func(p *plan.Plan, i int) *bool { return &kit(p, i).Always }),
			owned,
			money(tongue.Say("Bought for"), func(k *plan.KitRate) *decimal.Decimal { return &k.Cost }),
			money(tongue.Say("Sold for"), func(k *plan.KitRate) *decimal.Decimal { return &k.Salvage }),
			wholeColumn(tongue.Say("Years"), "", 1.2, func(p *plan.Plan, i int) *int { return &kit(p, i).Years }),
			wholeColumn(tongue.Say("Days/y"), "", 1.4, func(p *plan.Plan, i int) *int { return &kit(p, i).Days }),
			money(tongue.Say("Hire/day"), func(k *plan.KitRate) *decimal.Decimal { return &k.Day }),
			money(tongue.Say("Hire/week"), func(k *plan.KitRate) *decimal.Decimal { return &k.Week }),
		},
	})
	s.kit.says("", func(*plan.Plan) string {
		return tongue.Say("Named as the scenes name it; ticked Always, it comes on every shooting day. What is owned costs what it loses in value, in equal parts, " +
			"for each day of use: bought less sold, over the years and the days of use in each. What is hired costs the day, or the week where that is less.")
	})
}

func (s *rateCard) yearFields() {
	f := s.year
	business := func(p *plan.Plan) *plan.Business { return &cardOf(p).Business }
	f.table(tongue.Say("Overheads"), table{
		item:   tongue.Say("overhead"),
		count:  func(p *plan.Plan) int { return len(business(p).Overheads) },
		add:    func(p *plan.Plan) { business(p).Overheads = append(business(p).Overheads, plan.Overhead{}) },
		raise:  raised(func(p *plan.Plan) []plan.Overhead { return business(p).Overheads }),
		remove: func(p *plan.Plan, i int) { business(p).Overheads = removed(business(p).Overheads, i) },
		columns: []column{
			textColumn(tongue.Say("Cost of the year"), tongue.Say("Insurance"), 5, func(p *plan.Plan, i int) *string { return &business(p).Overheads[i].Name }),
			decimalColumn(tongue.Say("A year"), "2400", 2, func(p *plan.Plan, i int) *decimal.Decimal { return &business(p).Overheads[i].Yearly }),
		},
	})
	f.parsed(tongue.Say("Billable days"), tongue.Say("that you can sell in a year"), func(p *plan.Plan) string { return printWhole(business(p).Days) },
		func(text string) (func(*plan.Plan), error) {
			v, err := parseWhole(text)
			return func(p *plan.Plan) { business(p).Days = v }, err
		})
	f.time(tongue.Say("Hours of a day"), "8 h", func(p *plan.Plan) *plan.Minutes { return &business(p).Hours })
	f.decimal(tongue.Say("Your pay"), tongue.Say("of a year, that the business is to pay you"), func(p *plan.Plan) *decimal.Decimal { return &business(p).Pay })
	f.says("", func(p *plan.Plan) string { return view.YearLine(*p) })
}

// time adds a field for a length of time.
func (f *form) time(label, hint string, at func(*plan.Plan) *plan.Minutes) {
	f.parsed(label, hint, func(p *plan.Plan) string { return printTime(*at(p)) }, func(text string) (func(*plan.Plan), error) {
		v, err := parseTime(text)
		return func(p *plan.Plan) { *at(p) = v }, err
	})
}
