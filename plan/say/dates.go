package say

import "time"

var months = [...]string{Mark("January"), Mark("February"), Mark("March"), Mark("April"), Mark("May"), Mark("June"), Mark("July"),
	Mark("August"), Mark("September"), Mark("October"), Mark("November"), Mark("December")}

var shortMonths = [...]string{Mark("Jan"), Mark("Feb"), Mark("Mar"), Mark("Apr"), Mark("short|May"), Mark("Jun"), Mark("Jul"), Mark("Aug"),
	Mark("Sep"), Mark("Oct"), Mark("Nov"), Mark("Dec")}

var weekdays = [...]string{Mark("Sunday"), Mark("Monday"), Mark("Tuesday"), Mark("Wednesday"), Mark("Thursday"), Mark("Friday"), Mark("Saturday")}

var shortWeekdays = [...]string{Mark("Sun"), Mark("Mon"), Mark("Tue"), Mark("Wed"), Mark("Thu"), Mark("Fri"), Mark("Sat")}

// Month is a month's name.
func Month(m time.Month) Text { return Text{kind: filled, form: months[m-1]} }

// ShortMonth is a month's name for a narrow place: "Mar".
func ShortMonth(m time.Month) Text { return Text{kind: filled, form: shortMonths[m-1]} }

// Weekday is a weekday's name.
func Weekday(d time.Weekday) Text { return Text{kind: filled, form: weekdays[d]} }

// ShortWeekday is a weekday's name for a narrow place: "Sat".
func ShortWeekday(d time.Weekday) Text { return Text{kind: filled, form: shortWeekdays[d]} }

// LongDate is a date with its weekday: "Saturday 6 March 2027".
func LongDate(t time.Time) Text {
	return That("long date|%s %d %s %d", Weekday(t.Weekday()), t.Day(), Month(t.Month()), t.Year())
}

// ShortDate is a date for a narrow place: "Sat 6 Mar 2027".
func ShortDate(t time.Time) Text {
	return That("short date|%s %d %s %d", ShortWeekday(t.Weekday()), t.Day(), ShortMonth(t.Month()), t.Year())
}

// DayMonth is a date without its year: "6 Mar".
func DayMonth(t time.Time) Text {
	return That("date without year|%d %s", t.Day(), ShortMonth(t.Month()))
}
