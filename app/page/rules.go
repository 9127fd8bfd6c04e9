package page

import (
	"slices"
	"time"

	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"
)

// The fields of the panel beside the day: when it may be, and the rules it is placed by.

func (d *Day) dateFields() {
	f := d.rules
	f.table("Dates", table{
		item:  "date",
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
	f.choice("The date", dateOptions, func(p *plan.Plan) string { return p.Shooting.Date.String() }, func(p *plan.Plan, v string) {
		p.Shooting.Date, _ = plan.ParseDate(v) // one of the options, or none
	})
	weather := newArea(3)
	f.add("Weather", weather, &weather.Entry, "type or paste, a line each:\n06:00-11:00 cloud 70 rain 20", func(p *plan.Plan) string { return printWeather(p.Shooting.Weather) },
		func(text string) (func(*plan.Plan), error) {
			list, err := parseWeather(text, d.state.Results.Chosen.Date)
			return func(p *plan.Plan) { p.Shooting.Weather = list }, err
		})
	f.says("", func(*plan.Plan) string { return view.WeatherAdvice() })
	kit := newArea(3)
	f.add("Hired kit", kit, &kit.Entry, "a line each:\nCrane: 2027-10-16 09:00-17:00", func(p *plan.Plan) string { return printKit(p.Shooting.Kit) },
		func(text string) (func(*plan.Plan), error) {
			list, err := parseKit(text)
			return func(p *plan.Plan) { p.Shooting.Kit = list }, err
		})
	f.says("", func(*plan.Plan) string {
		return "Scenes that name it are shot at these times only. A line without a date holds on every date."
	})
}

// candidateColumn changes a candidate date; where it is the chosen one, the choice goes with it.
func candidateColumn() column {
	c := dateColumn("Candidate", 1, func(p *plan.Plan, i int) *plan.Date { return &p.Shooting.Dates[i] })
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
	out := []option{{"", "the best of them"}}
	for _, date := range p.Shooting.Dates {
		out = append(out, option{date.String(), date.Short()})
	}
	if c := p.Shooting.Date; !c.IsZero() && !slices.Contains(p.Shooting.Dates, c) {
		out = append(out, option{c.String(), c.Short()})
	}
	return out
}

func (d *Day) ruleFields() {
	f := d.rules
	clock := func(label string, at func(*plan.Shooting) *plan.Clock) {
		f.parsed(label, "", func(p *plan.Plan) string { return at(&p.Shooting).String() }, func(text string) (func(*plan.Plan), error) {
			c, err := plan.ParseClock(text)
			return func(p *plan.Plan) { *at(&p.Shooting) = c }, err
		})
	}
	minutes := func(label string, at func(*plan.Shooting) *plan.Minutes) {
		f.parsed(label, "minutes", func(p *plan.Plan) string { return printNumber(float64(*at(&p.Shooting))) }, func(text string) (func(*plan.Plan), error) {
			v, err := parseWhole(text)
			return func(p *plan.Plan) { *at(&p.Shooting) = plan.Minutes(v) }, err
		})
	}
	f.heading("Rules of the day")
	f.parsed("Shooting days", "1 to 3", func(p *plan.Plan) string { return printWhole(p.Shooting.DayCount()) }, func(text string) (func(*plan.Plan), error) {
		v, err := parseWhole(text)
		return func(p *plan.Plan) { p.Shooting.Days = v }, err
	})
	clock("Earliest call", func(s *plan.Shooting) *plan.Clock { return &s.EarliestCall })
	clock("Latest wrap", func(s *plan.Shooting) *plan.Clock { return &s.LatestWrap })
	minutes("Longest day", func(s *plan.Shooting) *plan.Minutes { return &s.Longest })
	minutes("Call to set-up", func(s *plan.Shooting) *plan.Minutes { return &s.Prepare })
	minutes("Talent early by", func(s *plan.Shooting) *plan.Minutes { return &s.Ready })
	minutes("Pack-up", func(s *plan.Shooting) *plan.Minutes { return &s.PackUp })
	minutes("Meal within", func(s *plan.Shooting) *plan.Minutes { return &s.MealWithin })
	minutes("Meal length", func(s *plan.Shooting) *plan.Minutes { return &s.MealLength })
	minutes("Meals apart", func(s *plan.Shooting) *plan.Minutes { return &s.MealApart })
	minutes("Wrap to next call", func(s *plan.Shooting) *plan.Minutes { return &s.Rest })
	d.hourFields()
	f.check("School day", "a session of the minors' school", func(p *plan.Plan) *bool { return &p.Shooting.School })
	minutes("Starts every", func(s *plan.Shooting) *plan.Minutes { return &s.Grid })
	f.says("", func(*plan.Plan) string { return view.HoursCaution() })
}

// flyingFields are what drone flights go by, where the film has any.
func (d *Day) flyingFields() {
	f := d.rules
	f.only(func(p *plan.Plan) bool {
		flies := func(s plan.Scene) bool { return people.Flies(p, s) }
		return p.Shooting.Flying != plan.Flying{} || slices.ContainsFunc(p.Scenes, flies)
	}, func() {
		f.heading("Drone flights")
		f.choice("Rules", flightRules, func(p *plan.Plan) string { return string(p.Shooting.Flying.Rules) },
			func(p *plan.Plan, v string) { p.Shooting.Flying.Rules = plan.FlightRules(v) })
		f.says("What they ask", view.FlightRules)
		f.choice("Rules read by", readers, func(p *plan.Plan) string { return string(p.Shooting.Flying.ReadBy) }, d.setReader)
		f.parsed("Read on", "2027-09-18", func(p *plan.Plan) string { return p.Shooting.Flying.Read.String() }, func(text string) (func(*plan.Plan), error) {
			date, err := parseDate(text)
			return func(p *plan.Plan) { p.Shooting.Flying.Read = date }, err
		})
		f.check("Drone's light", "flashes, and is seen for 3 statute miles (4.8 km)", func(p *plan.Plan) *bool { return &p.Shooting.Flying.Light })
		f.says("", func(*plan.Plan) string { return people.DroneCaution })
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
	f.heading("What costs how many points")
	number("Light, a minute", func(s *plan.Shooting) *float64 { return &s.Weights.Light })
	number("Waiting, a minute", func(s *plan.Shooting) *float64 { return &s.Weights.Waiting })
	number("A minor, times", func(s *plan.Shooting) *float64 { return &s.Weights.Minor })
	number("Moving, a minute", func(s *plan.Shooting) *float64 { return &s.Weights.Moving })
	number("The day, an hour", func(s *plan.Shooting) *float64 { return &s.Weights.Length })
	f.table("Overtime", table{
		item:   "step",
		count:  func(p *plan.Plan) int { return len(p.Shooting.Overtime) },
		add:    addOvertime,
		remove: func(p *plan.Plan, i int) { p.Shooting.Overtime = removed(p.Shooting.Overtime, i) },
		columns: []column{
			wholeColumn("After min", "600", 1, func(p *plan.Plan, i int) *plan.Minutes { return &p.Shooting.Overtime[i].After }),
			numberColumn("An hour", "5", 1, func(p *plan.Plan, i int) *float64 { return &p.Shooting.Overtime[i].Points }),
		},
	})
	number("A scene left out", func(s *plan.Shooting) *float64 { return &s.Weights.LeftOut })
	number("A further day", func(s *plan.Shooting) *float64 { return &s.Weights.Day })
	number("Coming again", func(s *plan.Shooting) *float64 { return &s.Weights.Again })
	f.heading("Sun's altitude, degrees")
	angle := func(label string, at func(*plan.LightLimits) *plan.Angle) {
		number(label, func(s *plan.Shooting) *float64 { return (*float64)(at(&s.Light)) })
	}
	angle("Golden from", func(l *plan.LightLimits) *plan.Angle { return &l.GoldenLow })
	angle("Golden to", func(l *plan.LightLimits) *plan.Angle { return &l.GoldenHigh })
	angle("Blue from", func(l *plan.LightLimits) *plan.Angle { return &l.BlueLow })
	angle("Blue to", func(l *plan.LightLimits) *plan.Angle { return &l.BlueHigh })
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
