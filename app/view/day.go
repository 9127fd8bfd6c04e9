package view

import (
	"fmt"
	"strings"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
	"eavelight/plan/say"
)

// HoursCaution stands by the rules of the day.
func HoursCaution() string {
	return tongue.Say("Meals, breaks, overtime and night work: local law decides. Ask a licensed adviser of the place.")
}

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
	text := tongue.Of(sc.Wish.Kind.Or())
	if f, ok := p.Face(sc.Wish.Face); ok {
		text += ", " + FaceShort(f)
	}
	if s, ok := p.Space(sc.Space); ok {
		text += " – " + SpaceName(s)
	}
	return text
}

// WeatherAdvice stands by the weather that somebody expects.
func WeatherAdvice() string {
	return tongue.Say("What you expect, in hundredths; hours not named are clear. Cloud takes from wishes that need the sun itself.")
}

// Named is a stretch of time, or a moment (its From), with its name.
type Named struct {
	plan.Span
	Name string
}

// Clock is the wall clock at the property, with a mark for the next date.
func Clock(d day.Day, t time.Time) string { return clock(d, t) }

// NoDay says why there is no day to show.
func NoDay(st session.State) string {
	switch d := st.Results.Chosen; {
	case len(d.Problems) > 0:
		return sentence(tongue.Of(d.Problems[0]))
	case d.Date.IsZero() && len(st.Plan.Shooting.Dates) > 0: // the first placing is under way, or was stopped
		return tongue.Say("No day is placed yet.")
	}
	return tongue.Say("No date is proposed yet.")
}

// NoSky says why there is no sun to tell of: what would have to be set, or why there is no day where that is there.
func NoSky(st session.State, set string) string {
	if st.Plan.Property.Position == nil || len(st.Plan.Shooting.Dates) == 0 {
		return set
	}
	return NoDay(st)
}

// LightBands are the golden and blue hours of a day.
func LightBands(d day.Day) []Named {
	e := d.Sky.Events
	blue, golden := tongue.Say("light|blue"), tongue.Say("light|golden")
	var out []Named
	for _, b := range []Named{
		{e.MorningBand(e.BlueLow, e.BlueHigh), blue},
		{e.MorningBand(e.GoldenLow, e.GoldenHigh), golden},
		{e.EveningBand(e.GoldenLow, e.GoldenHigh), golden},
		{e.EveningBand(e.BlueLow, e.BlueHigh), blue},
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
	}{{tongue.Say("sun|sunrise"), e.Rise.Up}, {tongue.Say("sun|noon"), e.Noon}, {tongue.Say("sun|sunset"), e.Rise.Down}} {
		if !m.at.IsZero() {
			out = append(out, Named{plan.Span{From: m.at}, m.name + " " + clock(d, m.at)})
		}
	}
	return out
}

// SunLine says where the sun is at a minute of a sky.
func SunLine(sky *light.Sky, minute int) string {
	m := sky.Minutes[minute]
	at := hour(sky.Clock(minute))
	switch {
	case m.Altitude < sky.Events.RiseAltitude:
		return tongue.Say("%s: the sun is %.0f° under the horizon", at, -m.Altitude)
	case !m.Direct():
		return tongue.Say("%s: sun %.0f° high at %s, behind the skyline", at, m.Apparent, m.Azimuth)
	}
	return tongue.Say("%s: sun %.0f° high at %s", at, m.Apparent, m.Azimuth)
}

// CloudLabel says how much cloud is expected.
func CloudLabel(c Share) string { return tongue.Say("%d %% cloud", day.Percent(c.Share)) }

// SpaceSun says when the sun reaches a space, and what it does there at a minute.
func SpaceSun(st session.State, sky *light.Sky, id plan.ID, minute int) string {
	if sky == nil {
		return NoSky(st, tongue.Say("Set the position and a date, and the sun in this space is told."))
	}
	var when []string
	for _, s := range sky.Sunlit(id) {
		when = append(when, hour(sky.Clock(sky.MinuteOf(s.From)))+"–"+hour(sky.Clock(sky.MinuteOf(s.To))))
	}
	text := tongue.Say("No sun reaches it that day.")
	if len(when) > 0 {
		text = tongue.Say("Sunlit %s.", strings.Join(when, ", "))
	}
	now := hour(sky.Clock(minute))
	for _, patch := range sky.Patches(id, minute) {
		f, _ := st.Plan.Face(patch.Face)
		text += " " + tongue.Say("At %s the sun falls on the floor from %.1f to %.1f %s behind the windows of the %s.",
			now, tongue.InUnit(float64(patch.From)), tongue.InUnit(float64(patch.To)), tongue.LengthUnit(), FaceShort(f))
	}
	if sky.OpenShade(id, minute) {
		text += " " + tongue.Say("At %s it lies in open shade.", now)
	}
	return text
}

// MoonLabel says how much of the moon is lit in the evening.
func MoonLabel(d day.Day) string {
	return tongue.Say("moon %d %%", day.Percent(d.Sky.Moon(min(21*60, len(d.Sky.Minutes)-1)).Lit))
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
	return tongue.Say("waits %s", p.Waits)
}

// SelectedScene is what the Day page says of the scene that is selected on the board.
func SelectedScene(st session.State, id plan.ID) string {
	s, ok := st.Plan.Scene(id)
	if !ok {
		return ""
	}
	return SceneName(s) + ". " + selectedDay(st, s)
}

// selectedDay is what becomes of the scene that is selected, and what stands in for it.
func selectedDay(st session.State, s plan.Scene) string {
	text := SceneDay(st, s.ID)
	if c, ok := st.Plan.Scene(s.Cover); ok {
		text += " " + tongue.Say("If the weather takes its light: scene %s.", c.Name())
	}
	return text
}

// Proof says how sure it is that no other order is better.
func Proof(d day.Day) string {
	switch within := day.PointWords(max(0.1, d.Gap)); {
	case d.Gap == 0:
		return tongue.Say("proven best")
	case d.Stopped():
		return tongue.Say("stopped early: within %s of the best possible", within)
	default:
		return tongue.Say("within %s of the best possible", within)
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
		{tongue.Say("loss|Light"), l.Light}, {tongue.Say("Waiting"), l.Waiting}, {tongue.Say("Moves"), l.Moves},
		{tongue.Say("Length"), l.Length}, {tongue.Say("Overtime"), l.Overtime}, {tongue.Say("Left out"), l.LeftOut},
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
func LensCaution() string { return tongue.Say("Never look at the sun through a lens.") }

// DayLabel is a day of a shoot on several.
func DayLabel(d day.Day) string {
	return tongue.Say("Day %d · %s %s", d.Number, say.ShortWeekday(d.Date.Weekday()), d.Date.SaidDayMonth())
}
