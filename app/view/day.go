package view

import (
	"fmt"
	"strings"
	"time"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
)

// HoursCaution stands by the rules of the day.
const HoursCaution = "Meals, breaks, overtime and night work: local law decides. Ask a licensed adviser of the place."

// YearShown is the year to look at: that of the day shown, or of the first candidate, or this one.
func YearShown(st session.State, today plan.Date) int {
	if y := st.Results.Chosen.Date.Year; y != 0 {
		return y
	}
	for _, d := range day.Candidates(&st.Plan) {
		return d.Year
	}
	return today.Year
}

// YearTitle says what a year map shows.
func YearTitle(p plan.Plan, sc plan.Scene) string {
	text := string(sc.Wish.Kind.Or())
	if f, ok := p.Face(sc.Wish.Face); ok {
		text += ", " + FaceShort(f)
	}
	if s, ok := p.Space(sc.Space); ok {
		text += " – " + SpaceName(s)
	}
	return text
}

// WeatherAdvice stands by the weather that somebody expects.
const WeatherAdvice = "What you expect, in hundredths; hours not named are clear. Cloud takes from wishes that need the sun itself."

// Named is a stretch of time, or a moment (its From), with its name.
type Named struct {
	plan.Span
	Name string
}

// Clock is the wall clock at the property, with a mark for the next date.
func Clock(d day.Day, t time.Time) string { return clock(d, t) }

// NoDay says why there is no day to show.
func NoDay(d day.Day) string {
	if len(d.Problems) > 0 {
		return sentence(d.Problems[0].String())
	}
	return "No date is proposed yet."
}

// LightBands are the golden and blue hours of a day.
func LightBands(d day.Day) []Named {
	e := d.Sky.Events
	var out []Named
	for _, b := range []Named{
		{e.MorningBand(e.BlueLow, e.BlueHigh), "blue"},
		{e.MorningBand(e.GoldenLow, e.GoldenHigh), "golden"},
		{e.EveningBand(e.GoldenLow, e.GoldenHigh), "golden"},
		{e.EveningBand(e.BlueLow, e.BlueHigh), "blue"},
	} {
		if b.To.After(b.From) {
			b.Span = b.Whole()
			b.Name = fmt.Sprintf("%s %s–%s", b.Name, clock(d, b.From), clock(d, b.To))
			out = append(out, b)
		}
	}
	return out
}

// SunMarks are sunrise, noon and sunset where they happen.
func SunMarks(d day.Day) []Named {
	e := d.Sky.Events
	var out []Named
	for _, m := range []struct {
		name string
		at   time.Time
	}{{"sunrise", e.Rise.Up}, {"noon", e.Noon}, {"sunset", e.Rise.Down}} {
		if !m.at.IsZero() {
			out = append(out, Named{plan.Span{From: m.at}, m.name + " " + clock(d, m.at)})
		}
	}
	return out
}

// SunLine says where the sun is at a minute of a sky.
func SunLine(sky *light.Sky, minute int) string {
	m := sky.Minutes[minute]
	text := fmt.Sprintf("%s: sun %.0f° high at %s", sky.Clock(minute), m.Apparent, m.Azimuth)
	switch {
	case m.Altitude < sky.Events.RiseAltitude:
		return fmt.Sprintf("%s: the sun is %.0f° under the horizon", sky.Clock(minute), -m.Altitude)
	case !m.Direct():
		return text + ", behind the skyline"
	}
	return text
}

// CloudLabel says how much cloud is expected.
func CloudLabel(c Share) string { return fmt.Sprintf("%d %% cloud", day.Percent(c.Share)) }

// SpaceSun says when the sun reaches a space, and what it does there at a minute.
func SpaceSun(p plan.Plan, sky *light.Sky, id plan.ID, minute int) string {
	if sky == nil {
		return "Set the position and a date, and the sun in this space is told."
	}
	var when []string
	for _, s := range sky.Sunlit(id) {
		when = append(when, sky.Clock(sky.MinuteOf(s.From)).String()+"–"+sky.Clock(sky.MinuteOf(s.To)).String())
	}
	text := "No sun reaches it that day."
	if len(when) > 0 {
		text = "Sunlit " + strings.Join(when, ", ") + "."
	}
	now := sky.Clock(minute).String()
	for _, patch := range sky.Patches(id, minute) {
		f, _ := p.Face(patch.Face)
		text += fmt.Sprintf(" At %s the sun falls on the floor from %.1f to %.1f m behind the windows of the %s.", now, patch.From, patch.To, FaceShort(f))
	}
	if sky.OpenShade(id, minute) {
		text += " At " + now + " it lies in open shade."
	}
	return text
}

// MoonLabel says how much of the moon is lit in the evening.
func MoonLabel(d day.Day) string {
	return fmt.Sprintf("moon %d %%", day.Percent(d.Sky.Moon(min(21*60, len(d.Sky.Minutes)-1)).Lit))
}

// Share is a stretch of time with a share of 0..1.
type Share struct {
	plan.Span
	Share float64
}

// CloudSpans are the stretches of expected cloud.
func CloudSpans(d day.Day) []Share {
	var out []Share
	for i := range d.Sky.Minutes {
		cloud := d.Sky.Cloud(i)
		switch n := len(out); {
		case cloud == 0:
		case n > 0 && out[n-1].Share == cloud && out[n-1].To.Equal(d.Sky.Time(i)):
			out[n-1].To = d.Sky.Time(i + 1)
		default:
			out = append(out, Share{plan.Span{From: d.Sky.Time(i), To: d.Sky.Time(i + 1)}, cloud})
		}
	}
	return out
}

// Waits says how long a person waits; nothing where they don't.
func Waits(p day.Presence) string {
	if p.Waits == 0 {
		return ""
	}
	return "waits " + p.Waits.String()
}

// SelectedScene is what the Day page says of the scene that is selected on the board.
func SelectedScene(st session.State, id plan.ID) string {
	s, ok := st.Plan.Scene(id)
	if !ok {
		return ""
	}
	text := SceneName(s) + ". " + SceneDay(st, id)
	if c, ok := st.Plan.Scene(s.Cover); ok {
		text += " If the weather takes its light: scene " + c.Name() + "."
	}
	return text
}

// Proof says how sure it is that no other order is better.
func Proof(d day.Day) string {
	switch within := fmt.Sprintf("within %s of the best possible", day.PointWords(max(0.1, d.Gap))); {
	case d.Gap == 0:
		return "proven best"
	case d.Stopped():
		return "stopped early: " + within
	default:
		return within
	}
}

// Loss is a part of what a day loses.
type Loss struct {
	Name   string
	Points string
	Share  float64 // of all that is lost, 0..1; 0 where nothing is
}

// Losses are the parts of what a day loses, and all of it.
func Losses(l day.Loss) (parts []Loss, total string) {
	for _, p := range []struct {
		name   string
		points float64
	}{
		{"Light", l.Light}, {"Waiting", l.Waiting}, {"Moves", l.Moves},
		{"Length", l.Length}, {"Overtime", l.Overtime}, {"Left out", l.LeftOut},
	} {
		one := Loss{Name: p.name, Points: points(p.points)}
		if one.Points != "0" {
			one.Share = p.points / l.Total()
		}
		parts = append(parts, one)
	}
	return parts, points(l.Total())
}

// LensCaution is what a day with a camera needs.
const LensCaution = "Never look at the sun through a lens."

// DayLabel is a day of a shoot on several.
func DayLabel(d day.Day) string {
	return fmt.Sprintf("Day %d · %s %s", d.Number, d.Date.Weekday().String()[:3], d.Date.DayMonth())
}
