package page

import (
	"slices"
	"time"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"
)

// The fields of the panel beside the day: when it may be, and the rules it is placed by.

func (d *Day) dateFields() {
	f := d.rules
	f.table(tongue.Say("Dates"), table{
		item:  tongue.Say("date"),
		count: func(p *plan.Plan) int { return len(p.Shooting.Dates) },
		add:   d.addDate,
		raise: raised(func(p *plan.Plan) []plan.Date { return p.Shooting.Dates }),
		remove: func(p *plan.Plan, i int) {
			if p.Shooting.Date == p.Shooting.Dates[i] {
				p.Shooting.Date = plan.Date{}
			}
			p.Shooting.Dates = removed(p.Shooting.Dates, i)
		},
		columns: []column{candidateColumn()},
	})
	f.choice(tongue.Say("The date"), dateOptions, func(p *plan.Plan) string { return p.Shooting.Date.String() }, func(p *plan.Plan, v string) {
		p.Shooting.Date, _ = plan.ParseDate(v) // one of the options, or none
	})
	weather := newArea(3)
	f.add(tongue.Say("Weather"), weather, &weather.Entry, tongue.Say("type or paste, a line each:\n%s-%s cloud 70 rain 20", clockHint(6, 0), clockHint(11, 0)), func(p *plan.Plan) string { return printWeather(p.Shooting.Weather) },
		func(text string) (func(*plan.Plan), error) {
			list, err := parseWeather(text, d.state.Results.Chosen.Date)
			return func(p *plan.Plan) { p.Shooting.Weather = list }, err
		})
	f.says("", func(*plan.Plan) string { return view.WeatherAdvice() })
	kit := newArea(3)
	f.add(tongue.Say("Hired kit"), kit, &kit.Entry, tongue.Say("a line each:\nCrane: 2027-10-16 %s-%s", clockHint(9, 0), clockHint(17, 0)), func(p *plan.Plan) string { return printKit(p.Shooting.Kit) },
		func(text string) (func(*plan.Plan), error) {
			list, err := parseKit(text)
			return func(p *plan.Plan) { p.Shooting.Kit = list }, err
		})
	f.says("", func(*plan.Plan) string {
		return tongue.Say("Scenes that name it are shot at these times only. A line without a date holds on every date.")
	})
}

// candidateColumn changes a candidate date; where it is the chosen one, the choice goes with it.
func candidateColumn() column {
	c := dateColumn(tongue.Say("Candidate"), 1, func(p *plan.Plan, i int) *plan.Date { return &p.Shooting.Dates[i] })
	parse := c.parse
	c.parse = func(text string) (func(*plan.Plan, int), error) {
		change, err := parse(text)
		return func(p *plan.Plan, i int) {
			chosen := p.Shooting.Date == p.Shooting.Dates[i]
			change(p, i)
			if chosen {
				p.Shooting.Date = p.Shooting.Dates[i]
			}
		}, err
	}
	return c
}

func dateOptions(p *plan.Plan) []option {
	out := []option{{"", tongue.Say("the best of them")}}
	for _, date := range p.Shooting.Dates {
		out = append(out, option{date.String(), tongue.Of(date.SaidShort())})
	}
	if c := p.Shooting.Date; !c.IsZero() && !slices.Contains(p.Shooting.Dates, c) {
		out = append(out, option{c.String(), tongue.Of(c.SaidShort())})
	}
	return out
}

func (d *Day) ruleFields() {
	f := d.rules
	clock := func(label string, at func(*plan.Shooting) *plan.Clock) {
		f.parsed(label, "", func(p *plan.Plan) string { return printClock(*at(&p.Shooting)) }, func(text string) (func(*plan.Plan), error) {
			c, err := readClock(text)
			return func(p *plan.Plan) { *at(&p.Shooting) = c }, err
		})
	}
	minutes := func(label string, at func(*plan.Shooting) *plan.Minutes) {
		f.parsed(label, tongue.Say("minutes"), func(p *plan.Plan) string { return printNumber(float64(*at(&p.Shooting))) }, func(text string) (func(*plan.Plan), error) {
			v, err := parseWhole(text)
			return func(p *plan.Plan) { *at(&p.Shooting) = plan.Minutes(v) }, err
		})
	}
	f.heading(tongue.Say("Rules of the day"))
	f.parsed(tongue.Say("Shooting days"), tongue.Say("1 to 3"), func(p *plan.Plan) string { return printWhole(p.Shooting.DayCount()) }, func(text string) (func(*plan.Plan), error) {
		v, err := parseWhole(text)
		return func(p *plan.Plan) { p.Shooting.Days = v }, err
	})
	clock(tongue.Say("Earliest call"), func(s *plan.Shooting) *plan.Clock { return &s.EarliestCall })
	clock(tongue.Say("Latest wrap"), func(s *plan.Shooting) *plan.Clock { return &s.LatestWrap })
	minutes(tongue.Say("Longest day"), func(s *plan.Shooting) *plan.Minutes { return &s.Longest })
	minutes(tongue.Say("Call to set-up"), func(s *plan.Shooting) *plan.Minutes { return &s.Prepare })
	minutes(tongue.Say("Talent early by"), func(s *plan.Shooting) *plan.Minutes { return &s.Ready })
	minutes(tongue.Say("Pack-up"), func(s *plan.Shooting) *plan.Minutes { return &s.PackUp })
	minutes(tongue.Say("Meal within"), func(s *plan.Shooting) *plan.Minutes { return &s.MealWithin })
	minutes(tongue.Say("Meal length"), func(s *plan.Shooting) *plan.Minutes { return &s.MealLength })
	minutes(tongue.Say("Meals apart"), func(s *plan.Shooting) *plan.Minutes { return &s.MealApart })
	minutes(tongue.Say("Wrap to next call"), func(s *plan.Shooting) *plan.Minutes { return &s.Rest })
	d.hourFields()
	f.check(tongue.Say("School day"), tongue.Say("a session of the minors' school"), func(p *plan.Plan) *bool { return &p.Shooting.School })
	minutes(tongue.Say("Starts every"), func(s *plan.Shooting) *plan.Minutes { return &s.Grid })
	f.says("", func(*plan.Plan) string { return view.HoursCaution() })
}

// flyingFields are what drone flights go by, where the film has any.
func (d *Day) flyingFields() {
	f := d.rules
	f.only(func(p *plan.Plan) bool {
		flies := func(s plan.Scene) bool { return people.Flies(p, s) }
		return p.Shooting.Flying != plan.Flying{} || slices.ContainsFunc(p.Scenes, flies)
	}, func() {
		f.heading(tongue.Say("Drone flights"))
		f.choice(tongue.Say("Rules"), flightRules, func(p *plan.Plan) string { return string(p.Shooting.Flying.Rules) },
			func(p *plan.Plan, v string) { p.Shooting.Flying.Rules = plan.FlightRules(v) })
		f.says(tongue.Say("What they ask"), view.FlightRules)
		f.choice(tongue.Say("Rules read by"), readers, func(p *plan.Plan) string { return string(p.Shooting.Flying.ReadBy) }, d.setReader)
		f.parsed(tongue.Say("Read on"), "2027-09-18", func(p *plan.Plan) string { return p.Shooting.Flying.Read.String() }, func(text string) (func(*plan.Plan), error) {
			date, err := parseDate(text)
			return func(p *plan.Plan) { p.Shooting.Flying.Read = date }, err
		})
		d.ruleAt["flying"] = f.newest()
		f.check(tongue.Say("Drone's light"), tongue.Say("flashes, and is seen for 3 statute miles (4.8 km)"), func(p *plan.Plan) *bool { return &p.Shooting.Flying.Light })
		f.says("", func(*plan.Plan) string { return tongue.Marked(people.DroneCaution) })
	})
}

// setReader says who read the rules: today, unless a day stands there already.
func (d *Day) setReader(p *plan.Plan, who string) {
	f := &p.Shooting.Flying
	f.ReadBy = plan.ID(who)
	switch {
	case who == "":
		f.Read = plan.Date{}
	case f.Read.IsZero():
		f.Read = d.today()
	}
}

func (d *Day) weightFields() {
	f := d.rules
	number := func(label string, at func(*plan.Shooting) *float64) {
		f.parsed(label, "", func(p *plan.Plan) string { return printNumber(*at(&p.Shooting)) }, func(text string) (func(*plan.Plan), error) {
			v, err := parseNumber(text)
			return func(p *plan.Plan) { *at(&p.Shooting) = v }, err
		})
	}
	f.heading(tongue.Say("What costs how many points"))
	number(tongue.Say("Light, a minute"), func(s *plan.Shooting) *float64 { return &s.Weights.Light })
	number(tongue.Say("Waiting, a minute"), func(s *plan.Shooting) *float64 { return &s.Weights.Waiting })
	number(tongue.Say("A minor, times"), func(s *plan.Shooting) *float64 { return &s.Weights.Minor })
	number(tongue.Say("Moving, a minute"), func(s *plan.Shooting) *float64 { return &s.Weights.Moving })
	number(tongue.Say("The day, an hour"), func(s *plan.Shooting) *float64 { return &s.Weights.Length })
	f.table(tongue.Say("Overtime"), table{
		item:   tongue.Say("step"),
		count:  func(p *plan.Plan) int { return len(p.Shooting.Overtime) },
		add:    addOvertime,
		remove: func(p *plan.Plan, i int) { p.Shooting.Overtime = removed(p.Shooting.Overtime, i) },
		columns: []column{
			wholeColumn(tongue.Say("After min"), "600", 1, func(p *plan.Plan, i int) *plan.Minutes { return &p.Shooting.Overtime[i].After }),
			numberColumn(tongue.Say("An hour"), "5", 1, func(p *plan.Plan, i int) *float64 { return &p.Shooting.Overtime[i].Points }),
		},
	})
	number(tongue.Say("A scene left out"), func(s *plan.Shooting) *float64 { return &s.Weights.LeftOut })
	number(tongue.Say("A further day"), func(s *plan.Shooting) *float64 { return &s.Weights.Day })
	number(tongue.Say("Coming again"), func(s *plan.Shooting) *float64 { return &s.Weights.Again })
	f.heading(tongue.Say("Sun's altitude, degrees"))
	angle := func(label string, at func(*plan.LightLimits) *plan.Angle) {
		number(label, func(s *plan.Shooting) *float64 { return (*float64)(at(&s.Light)) })
	}
	angle(tongue.Say("Golden from"), func(l *plan.LightLimits) *plan.Angle { return &l.GoldenLow })
	angle(tongue.Say("Golden to"), func(l *plan.LightLimits) *plan.Angle { return &l.GoldenHigh })
	angle(tongue.Say("Blue from"), func(l *plan.LightLimits) *plan.Angle { return &l.BlueLow })
	angle(tongue.Say("Blue to"), func(l *plan.LightLimits) *plan.Angle { return &l.BlueHigh })
}

// addOvertime proposes ten hours, or two more than the last step, as hours are often counted (no published source).
func addOvertime(p *plan.Plan) {
	next := plan.Overtime{After: 10 * 60, Points: 5}
	if n := len(p.Shooting.Overtime); n > 0 {
		next.After = p.Shooting.Overtime[n-1].After + 2*60
	}
	p.Shooting.Overtime = append(p.Shooting.Overtime, next)
}

// addDate proposes the same weekday a week after the last date, or the second Saturday from now.
func (d *Day) addDate(p *plan.Plan) {
	next := d.today().AddDays(7)
	for next.Weekday() != time.Saturday {
		next = next.AddDays(1)
	}
	if n := len(p.Shooting.Dates); n > 0 {
		next = p.Shooting.Dates[n-1].AddDays(7)
	}
	for slices.Contains(p.Shooting.Dates, next) {
		next = next.AddDays(7)
	}
	p.Shooting.Dates = append(p.Shooting.Dates, next)
}
