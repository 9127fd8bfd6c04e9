package page

import (
	"strings"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/say"
)

// The lists of the rate card: overtime rules and rates, each with a form for the selected one.

func newRules(edit Editor) *items[plan.OvertimeRule] {
	s := newItems(tongue.Say("rule"), tongue.Say("No overtime rule yet. Without one every hour is paid once."), edit,
		func(p *plan.Plan) []plan.OvertimeRule { return cardOf(p).Overtime },
		func(r *plan.OvertimeRule) plan.ID { return r.ID },
		listOps{
			add:       func(p *plan.Plan, at int) int { return cardOf(p).AddRule(at) },
			duplicate: func(p *plan.Plan, i int, in say.Tongue) int { return cardOf(p).DuplicateRule(i, in) },
			remove:    (*plan.Plan).RemoveOvertimeRule,
		})
	s.text(tongue.Say("Name"), tongue.Say("Beyond eight hours"), func(r *plan.OvertimeRule) *string { return &r.Name })
	s.first = s.form.newest()
	s.text(tongue.Say("Source"), tongue.Say("the statute, or what was agreed"), func(r *plan.OvertimeRule) *string { return &r.Source })
	steps := func(label string, at func(*plan.OvertimeRule) *[]plan.OvertimeStep) {
		s.lines(label, tongue.Say("a line each:\nafter 8 h 1.5 times"), 3, func(_ *plan.Plan, r *plan.OvertimeRule) string { return printSteps(*at(r)) },
			func(text string) (func(*plan.OvertimeRule), error) {
				list, err := parseSteps(text)
				return func(r *plan.OvertimeRule) { *at(r) = list }, err
			})
	}
	steps(tongue.Say("In a day"), func(r *plan.OvertimeRule) *[]plan.OvertimeStep { return &r.Daily })
	s.check(tongue.Say("Begins"), tongue.Say("after the hours that a day's rate is for"), func(r *plan.OvertimeRule) *bool { return &r.Beyond })
	steps(tongue.Say("Seventh day"), func(r *plan.OvertimeRule) *[]plan.OvertimeStep { return &r.Seventh })
	s.form.says("", func(*plan.Plan) string {
		return tongue.Say("These hold instead on the seventh day worked in one week, from Sunday.")
	})
	s.parsed(tongue.Say("In a week"), tongue.Say("40 h; empty: no such rule"), func(r *plan.OvertimeRule) string { return printTime(r.Weekly) },
		func(text string) (func(*plan.OvertimeRule), error) {
			v, err := parseTime(text)
			return func(r *plan.OvertimeRule) { r.SetWeekly(v) }, err
		})
	s.parsed(tongue.Say("then times"), pointed("1.5"), func(r *plan.OvertimeRule) string { return printDecimal(r.WeeklyTimes) },
		func(text string) (func(*plan.OvertimeRule), error) {
			v, err := parseDecimal(text)
			return func(r *plan.OvertimeRule) { r.WeeklyTimes = v }, err
		})
	s.form.says("", func(*plan.Plan) string { return view.OvertimeCaution() })
	return s
}

func newRates(edit Editor) *items[plan.Rate] {
	s := newItems(tongue.Say("rate"), tongue.Say("No rate yet. Add what a meal, a kilometre or a finished minute costs."), edit,
		func(p *plan.Plan) []plan.Rate { return cardOf(p).Rates },
		func(r *plan.Rate) plan.ID { return r.ID },
		listOps{
			add:       func(p *plan.Plan, at int) int { return cardOf(p).AddRate(at) },
			duplicate: func(p *plan.Plan, i int, in say.Tongue) int { return cardOf(p).DuplicateRate(i, in) },
			remove:    func(p *plan.Plan, i int) { cardOf(p).Rates = removed(cardOf(p).Rates, i) },
		})
	s.text(tongue.Say("Name"), tongue.Say("Editing"), func(r *plan.Rate) *string { return &r.Name })
	s.first = s.form.newest()
	s.choice(tongue.Say("Group"), words(plan.Groups), func(r *plan.Rate) string { return string(r.Group.Or()) }, func(r *plan.Rate, v string) { r.Group = plan.Group(v) })
	s.choice(tongue.Say("For each"), words(plan.Measures), func(r *plan.Rate) string { return string(r.Per.Or()) }, func(r *plan.Rate, v string) { r.Per = plan.Measure(v) })
	s.choice(tongue.Say("Of kind"), func(p *plan.Plan) []option {
		return append([]option{{"", tongue.Say("all deliverables")}}, words(plan.DeliverableKinds)(p)...)
	}, func(r *plan.Rate) string { return string(r.For) }, func(r *plan.Rate, v string) { r.For = plan.DeliverableKind(v) })
	s.choice(tongue.Say("Is"), rateOptions(tongue.Say("an amount of money")), func(r *plan.Rate) string { return string(r.Who) }, func(r *plan.Rate, v string) { r.SetWho(plan.ID(v)) })
	timed := func(p *plan.Plan) bool { r := s.at(p); return r != nil && r.Who != "" }
	s.form.only(timed, func() {
		s.parsed(tongue.Say("Time"), tongue.Say("of theirs, for each; as in 2 h or 20 min"), func(r *plan.Rate) string { return printTime(r.Time) },
			func(text string) (func(*plan.Rate), error) {
				v, err := parseTime(text)
				return func(r *plan.Rate) { r.Time = v }, err
			})
	})
	s.form.only(func(p *plan.Plan) bool { return !timed(p) }, func() {
		s.parsed(tongue.Say("Amount"), tongue.Say("for each"), func(r *plan.Rate) string { return printDecimal(r.Amount) }, func(text string) (func(*plan.Rate), error) {
			v, err := parseDecimal(text)
			return func(r *plan.Rate) { r.Amount = v }, err
		})
	})
	s.whole(tongue.Say("At best, %"), tongue.Say("75: a quarter less; empty: it is certain"), func(r *plan.Rate) *int { return &r.Low })
	s.whole(tongue.Say("At worst, %"), tongue.Say("170; empty: it is certain"), func(r *plan.Rate) *int { return &r.High })
	s.check(tongue.Say("Untaxed"), tongue.Say("its share of the price is not taxed"), func(r *plan.Rate) *bool { return &r.Untaxed })
	s.choice(tongue.Say("Who pays"), words(plan.Payers), func(r *plan.Rate) string { return string(r.Pays.Or()) }, func(r *plan.Rate, v string) { r.Pays = plan.Payer(v) })
	s.text(tongue.Say("Note"), tongue.Say("for you"), func(r *plan.Rate) *string { return &r.Note })
	return s
}

// parseCurrency reads the letters of a currency in any case.
func parseCurrency(text string) (func(*plan.Plan), error) {
	code := strings.ToUpper(strings.TrimSpace(text))
	return func(p *plan.Plan) { cardOf(p).Currency = code }, nil
}
