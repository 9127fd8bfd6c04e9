package contacts

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/say"
)

// DateOrder tells which way round the dates of a table are, where that can't be seen: 03/04/2015.
type DateOrder string

// The orders. NotSaid, the zero value, reads only dates that can be read one way.
const (
	NotSaid    DateOrder = ""
	DayFirst   DateOrder = "day first"
	MonthFirst DateOrder = "month first"
)

var orderForms = map[DateOrder]string{DayFirst: say.Mark("dates have the|day first"), MonthFirst: say.Mark("dates have the|month first")}

// In is what the order is called in a tongue.
func (o DateOrder) In(tongue say.Tongue) string { return tongue.Form(orderForms[o]) }

var (
	yearFirst = regexp.MustCompile(`^(\d{4})([-/.]?)(\d{1,2})([-/.]?)(\d{1,2})$`)
	yearLast  = regexp.MustCompile(`^(\d{1,2})([-/.])\s?(\d{1,2})([-/.])\s?(\d{4})$`)
)

// wholeDate reads a date that begins with its year: 2015-04-03, 20150403, 2015/4/3.
func wholeDate(s string) (plan.Date, bool) {
	m := yearFirst.FindStringSubmatch(s)
	if m == nil || m[2] != m[4] || m[2] == "" && len(s) != 8 {
		return plan.Date{}, false
	}
	return calendarDay(m[1], m[3], m[5])
}

// readDate reads a date in any order of its parts. clash is true where it could be two days and the order was not said.
func readDate(s string, order DateOrder) (d plan.Date, clash, ok bool) {
	s = strings.TrimSpace(s)
	if d, ok := wholeDate(s); ok {
		return d, false, true
	}
	m := yearLast.FindStringSubmatch(s)
	if m == nil || m[2] != m[4] {
		return plan.Date{}, false, false
	}
	dayFirst, one := calendarDay(m[5], m[3], m[1])
	monthFirst, two := calendarDay(m[5], m[1], m[3])
	switch {
	case order == DayFirst, order == NotSaid && m[2] == ".": // dots are written by those who write the day first
		return dayFirst, false, one
	case order == MonthFirst:
		return monthFirst, false, two
	case one && two && dayFirst != monthFirst:
		return plan.Date{}, true, false
	case one:
		return dayFirst, false, true
	}
	return monthFirst, false, two
}

// calendarDay is a day that the calendar has, in the years that a plan takes.
func calendarDay(year, month, day string) (plan.Date, bool) {
	y, _ := strconv.Atoi(year)
	m, _ := strconv.Atoi(month)
	d, _ := strconv.Atoi(day)
	t := time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC)
	date := plan.DateOf(t)
	return date, date == plan.Date{Year: y, Month: time.Month(m), Day: d} && y >= 1900 && y <= 2100
}

// orderOf finds out which way round a column of dates is, from those that can be read one way only.
func orderOf(dates []string) DateOrder {
	day, month := false, false
	for _, s := range dates {
		m := yearLast.FindStringSubmatch(strings.TrimSpace(s))
		if m == nil || m[2] != m[4] {
			continue
		}
		_, one := calendarDay(m[5], m[3], m[1])
		_, two := calendarDay(m[5], m[1], m[3])
		day = day || one && !two
		month = month || two && !one
	}
	switch {
	case day && !month:
		return DayFirst
	case month && !day:
		return MonthFirst
	}
	return NotSaid
}
