package view

import (
	"fmt"
	"time"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
)

// HoursCaution stands by the rules of the day.
const HoursCaution = "Meals, breaks, overtime and night work: local law decides. Ask a licensed adviser of the place."

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

// Waits says how long a person waits; nothing where they don't.
func Waits(p day.Presence) string {
	if p.Waits == 0 {
		return ""
	}
	return "waits " + p.Waits.String()
}

// DateNote is the short line under a candidate date.
func DateNote(st session.State, d day.Day) string {
	switch {
	case d.Sky == nil:
		return "not computed"
	case len(d.LeftOut) > 0:
		return count(len(d.LeftOut), "scene left out", "scenes left out")
	case st.Plan.Shooting.Date == d.Date:
		return "chosen"
	case !st.Results.Busy && st.Results.Chosen.Date == d.Date:
		return "the best of them"
	}
	return fmt.Sprintf("loses %.0f points", d.Loss.Total())
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

// LossLine is the loss by part, how sure it is, and the moon and the caution that a day with a camera needs.
func LossLine(d day.Day) string {
	if d.Sky == nil {
		return ""
	}
	text := ""
	if len(d.Scenes) > 0 {
		text = LossParts(d.Loss) + " (" + Proof(d) + "). "
	}
	return text + "Never look at the sun through a lens."
}
