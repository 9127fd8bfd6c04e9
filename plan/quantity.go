package plan

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	_ "time/tzdata" // a property's zone must load on a machine without zone files

	"eavelight/plan/say"
)

// Bearing is a direction in degrees clockwise from true north. Values compare; 0 is north.
type Bearing float64

// Angle is an altitude above the horizontal, or an angle between two directions, in degrees.
type Angle float64

// Metres is a length in metres.
type Metres float64

// Minutes is a length of time in whole minutes.
type Minutes int

// Norm returns the bearing within 0 <= b < 360.
func (b Bearing) Norm() Bearing {
	b = Bearing(math.Mod(float64(b), 360))
	if b < 0 {
		b += 360
	}
	if b == 360 { // a tiny negative rounds up to a full turn
		b = 0
	}
	return b
}

// Apart returns the angle between two bearings, 0..180 degrees.
func (b Bearing) Apart(c Bearing) Angle {
	d := math.Abs(float64(b.Norm() - c.Norm()))
	return Angle(math.Min(d, 360-d))
}

var compass = [...]string{say.Mark("compass|N"), say.Mark("compass|NNE"), say.Mark("compass|NE"), say.Mark("compass|ENE"), say.Mark("compass|E"), say.Mark("compass|ESE"), say.Mark("compass|SE"), say.Mark("compass|SSE"),
	say.Mark("compass|S"), say.Mark("compass|SSW"), say.Mark("compass|SW"), say.Mark("compass|WSW"), say.Mark("compass|W"), say.Mark("compass|WNW"), say.Mark("compass|NW"), say.Mark("compass|NNW")}

// Compass names the nearest of the sixteen points of the compass: "WSW".
func (b Bearing) Compass() string { return b.compassIn(nil) }

func (b Bearing) compassIn(tongue say.Tongue) string {
	return tongue.Form(compass[int(math.Floor(float64(b.Norm())/22.5+0.5))%16])
}

// String prints whole degrees and the compass point: "248° WSW".
func (b Bearing) String() string { return b.In(nil) }

// In is String in a tongue: west has another letter in some.
func (b Bearing) In(tongue say.Tongue) string {
	return fmt.Sprintf("%.0f° %s", math.Mod(math.Round(float64(b.Norm())), 360), b.compassIn(tongue))
}

// String prints hours and minutes: "45 min", "2 h", "1 h 05".
func (m Minutes) String() string {
	sign := ""
	if m < 0 {
		sign, m = "-", -m
	}
	switch {
	case m < 60:
		return fmt.Sprintf("%s%d min", sign, int(m))
	case m%60 == 0:
		return fmt.Sprintf("%s%d h", sign, int(m/60))
	}
	return fmt.Sprintf("%s%d h %02d", sign, int(m/60), int(m%60))
}

// Position is a place on the Earth in degrees (WGS 84), north and east positive.
type Position struct {
	Lat, Lon float64
}

// Valid reports whether both coordinates lie on the Earth.
func (p Position) Valid() bool {
	return p.Lat >= -90 && p.Lat <= 90 && p.Lon >= -180 && p.Lon <= 180 // false for NaN too
}

// String prints what Parse of package locate reads back: "46.12345, -121.51234".
func (p Position) String() string {
	return strconv.FormatFloat(p.Lat, 'f', 5, 64) + ", " + strconv.FormatFloat(p.Lon, 'f', 5, 64)
}

// GeoURI is the position as RFC 5870 writes it.
func (p Position) GeoURI() string {
	trim := func(v float64) string {
		s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 6, 64), "0"), ".")
		if s == "-0" {
			s = "0"
		}
		return s
	}
	return "geo:" + trim(p.Lat) + "," + trim(p.Lon)
}

// Date is a day of the calendar at the property. The zero Date means "not said". Dates compare with ==.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// DateOf returns the calendar day of t in t's own location.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return Date{y, m, d}
}

// ParseDate reads "2027-03-06". It refuses a day that the calendar does not have.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse("2006-01-02", s)
	if err == nil {
		return DateOf(t), nil
	}
	var y, m, d int
	if n, _ := fmt.Sscanf(s, "%4d-%2d-%2d", &y, &m, &d); n == 3 && len(s) == len("2006-01-02") {
		return Date{}, say.Error("%q is not a day of the calendar", s)
	}
	return Date{}, say.Error("%q is not a date; write year-month-day, as in 2027-03-06", s)
}

// IsZero reports "not said".
func (d Date) IsZero() bool { return d == Date{} }

// String prints ISO 8601, "2027-03-06", or nothing for the zero Date.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, int(d.Month), d.Day)
}

// Long prints the date for people, with its weekday: "Saturday 6 March 2027".
func (d Date) Long() string { return d.SaidLong().String() }

// SaidLong is Long in every tongue.
func (d Date) SaidLong() say.Text { return say.LongDate(d.utc()) }

// Short prints the date for a narrow place: "Sat 6 Mar 2027".
func (d Date) Short() string { return d.SaidShort().String() }

// SaidShort is Short in every tongue.
func (d Date) SaidShort() say.Text { return say.ShortDate(d.utc()) }

// DayMonth prints the date without its year: "6 Mar".
func (d Date) DayMonth() string { return d.SaidDayMonth().String() }

// SaidDayMonth is DayMonth in every tongue.
func (d Date) SaidDayMonth() say.Text { return say.DayMonth(d.utc()) }

// AddDays returns the date n days later.
func (d Date) AddDays(n int) Date { return DateOf(d.utc().AddDate(0, 0, n)) }

// Weekday is the day of the week.
func (d Date) Weekday() time.Weekday { return d.utc().Weekday() }

// Before reports whether d comes before e.
func (d Date) Before(e Date) bool { return d.utc().Before(e.utc()) }

func (d Date) utc() time.Time { return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC) }

// Clock is a time on the wall clock at the property, in minutes after midnight of the shooting day's date.
// It runs on past 24:00 for a night that follows the day, to 36:00 at most. NoClock, the zero value, means "not said";
// so midnight is held as one minute's step away from zero, and only Minutes and ClockAt know it.
type Clock struct{ plusOne int }

// NoClock means "not said".
var NoClock = Clock{}

// LastClock is the latest Clock, in minutes: noon of the next date.
const LastClock = 36 * 60

// ClockAt returns the Clock that many minutes after midnight, held within 0:00 and 36:00.
func ClockAt(minutes int) Clock {
	return Clock{min(max(minutes, 0), LastClock) + 1}
}

// IsSet reports whether a time was said.
func (c Clock) IsSet() bool { return c.plusOne != 0 }

// Minutes returns minutes after midnight; 0 for NoClock.
func (c Clock) Minutes() int { return max(c.plusOne-1, 0) }

// Or returns c, or d where c was not said.
func (c Clock) Or(d Clock) Clock {
	if c.IsSet() {
		return c
	}
	return d
}

// String prints "07:05", "25:30" for half past one the next morning, or nothing for NoClock.
func (c Clock) String() string {
	if !c.IsSet() {
		return ""
	}
	return fmt.Sprintf("%02d:%02d", c.Minutes()/60, c.Minutes()%60)
}

// ParseClock reads a wall-clock time: "7:05", "07:05", "18.30", "7pm", "7:05 pm", "25:30".
func ParseClock(s string) (Clock, error) {
	bad := say.Error("%q is not a time; write it as in 18:30 or 6:30 pm (25:30 is half past one the next morning)", s)
	t := strings.ToLower(strings.TrimSpace(s))
	half := ""
	for _, suffix := range []string{"am", "pm"} {
		if rest, ok := strings.CutSuffix(t, suffix); ok {
			half, t = suffix, strings.TrimSpace(rest)
		}
	}
	hour, minute, cut := strings.Cut(strings.Replace(t, ".", ":", 1), ":")
	if !cut {
		if half == "" {
			return NoClock, bad // a bare "7" could be anything
		}
		minute = "00"
	}
	h, errH := strconv.ParseUint(hour, 10, 8)
	m, errM := strconv.ParseUint(minute, 10, 8)
	if errH != nil || errM != nil || len(minute) != 2 || m > 59 {
		return NoClock, bad
	}
	if half != "" {
		if h < 1 || h > 12 {
			return NoClock, bad
		}
		h = h % 12
		if half == "pm" {
			h += 12
		}
	}
	total := int(h)*60 + int(m)
	if total > LastClock {
		return NoClock, say.Error("%q is too late; a shooting day ends by 36:00, noon of the next date", s)
	}
	return ClockAt(total), nil
}

// Instant is the moment when a wall clock in zone shows c on d. For a time that a clock change leaves out, or makes come
// twice, it is the moment as if the change had not happened yet.
func Instant(d Date, c Clock, zone *time.Location) time.Time {
	t := time.Date(d.Year, d.Month, d.Day, 0, c.Minutes(), 0, 0, zone)
	// Of a time that is left out, time.Date may give either reading; this is the later one.
	if shows := wall(d, t); shows < c.Minutes() {
		t = t.Add(time.Duration(c.Minutes()-shows) * time.Minute)
	}
	return t
}

// wall is what the wall clock in t's own zone shows, in minutes after midnight of d; below 0 on a date before.
func wall(d Date, t time.Time) int {
	days := int(math.Round(DateOf(t).utc().Sub(d.utc()).Hours() / 24))
	return days*24*60 + t.Hour()*60 + t.Minute()
}

// ClockOn is the other way round: what the wall clock shows at t, counted from midnight of d.
// Seconds go to the nearest minute.
func ClockOn(d Date, t time.Time, zone *time.Location) Clock {
	return ClockAt(wall(d, t.Round(time.Minute).In(zone)))
}

// Span is a stretch of time from From to To. It is empty unless To is after From.
type Span struct{ From, To time.Time }

// Minutes is the length of the span in whole minutes, rounded.
func (s Span) Minutes() Minutes { return Minutes(math.Round(s.To.Sub(s.From).Minutes())) }

// Whole is the span in whole minutes: those whose first moment lies in it, as light windows are counted.
func (s Span) Whole() Span {
	up := func(t time.Time) time.Time { return t.Add(time.Minute - time.Nanosecond).Truncate(time.Minute) }
	if s.From.IsZero() && s.To.IsZero() {
		return s
	}
	return Span{up(s.From), up(s.To)}
}

// Contains reports whether t lies within the span, its end left out.
func (s Span) Contains(t time.Time) bool { return !t.Before(s.From) && t.Before(s.To) }
