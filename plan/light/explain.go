package light

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Explain says in sentences why a scene's light is as it is on this day: when its wish holds and what begins and ends it,
// what an obstacle takes of it, what the scene's own clock limits and the weather expected leave. Times are the wall clock's
// at the property.
func (s *Sky) Explain(sc plan.Scene) []say.Text {
	at := s.spot(sc.Space)
	asks, known := at.conditions(sc.Wish)
	if !known {
		return []say.Text{say.That("It is not known when it holds: %s.", missing(sc.Wish))}
	}
	if len(asks) == 0 {
		return []say.Text{say.That("It holds at any time.")}
	}
	windows := s.spans(func(i int) bool { return holds(asks, i) })
	out := at.tolls(sc.Wish)
	if len(windows) == 0 {
		return append([]say.Text{at.never(asks)}, out...)
	}
	var when []say.Text
	for _, w := range windows {
		when = append(when, say.That("from %s to %s", at.edge(asks, w.From, s.MinuteOf(w.From)-1, true), at.edge(asks, w.To, s.MinuteOf(w.To), false)))
	}
	out = append([]say.Text{say.That("It holds %s.", say.List(when...))}, out...)
	if sc.From.IsSet() || sc.To.IsSet() {
		windows = s.limited(windows, sc)
		out = append(out, s.left(windows))
	}
	return append(out, s.weatherIn(windows, NeedsSun(sc.Wish))...)
}

func (s *Sky) shown(t time.Time) string { return s.Clock(s.MinuteOf(t)).String() }

// missing is the figure that a wish lacks.
func missing(w plan.Wish) say.Text {
	switch {
	case w.Kind.NeedsCamera():
		return say.That("the camera's bearing is not said")
	case w.Kind == plan.SunPatch || w.Kind == plan.SoftWindow:
		return say.That("the space's windows look toward no face")
	}
	return say.That("the face is not said")
}

// edge is the time at which a window begins or ends, and in brackets what the sun does then, by the minute just outside it: that
// of the conditions that fails there by the most.
func (at *spot) edge(asks []condition, t time.Time, outside int, begins bool) say.Text {
	if !at.within(outside) {
		return say.Plain(at.shown(t))
	}
	worst := slices.MinFunc(asks, func(a, b condition) int {
		return cmp.Compare(a.margin(outside)/a.shoulder, b.margin(outside)/b.shoulder)
	})
	return say.Join("", say.Plain(at.shown(t)+" ("), worst.tells(outside, begins), say.Plain(")"))
}

// never names what does not come on this day: the conditions that never hold, or else all that never hold together.
func (at *spot) never(asks []condition) say.Text {
	var alone, all []say.Text
	for _, c := range asks {
		if len(at.spans(func(i int) bool { return c.margin(i) >= 0 })) == 0 {
			alone = append(alone, c.asks())
		}
		all = append(all, c.asks())
	}
	on := at.Events.Date.SaidLong()
	if len(alone) == 0 {
		return say.That("It does not hold on %s: there are never at once %s.", on, say.List(all...))
	}
	none := alone[0]
	for _, a := range alone[1:] {
		none = say.That("%s, nor %s", none, a)
	}
	return say.That("It does not hold on %s: there is never %s.", on, none)
}

// hider tells what hides the sun at a minute: a wing, an obstacle or the drawn skyline; nothing where it is the horizon.
func (at *spot) hider(minute int) hiding {
	m := at.Minutes[minute]
	by, top := at.line.hider(m.Azimuth)
	for _, w := range at.wings {
		if w.altitude > top && w.hides(m.Azimuth) {
			by, top = hiding{form: say.Mark("a wing of the house")}, w.altitude
		}
	}
	return by
}

// tolls tells what each thing in the sun's way takes of a wish's light: the minutes in which all else that the wish asks
// for holds and the sun stands over the free horizon, but behind that thing.
func (at *spot) tolls(w plan.Wish) (out []say.Text) {
	switch w.Kind {
	case plan.GoldenMorning, plan.GoldenEvening, plan.FaceLit, plan.Backlit, plan.SideLit, plan.FrontLit, plan.SunPatch, plan.HighSun:
	default:
		return nil // the light of these is not the sun's own, or goes by the skyline itself
	}
	rest := at.allBut(w)
	behind := func(i int) hiding {
		if at.direct(i) {
			return hiding{}
		}
		return at.hider(i)
	}
	for _, light := range at.spans(func(i int) bool { return at.Minutes[i].Apparent >= at.line.free && holds(rest, i) }) {
		from, to := at.MinuteOf(light.From), at.MinuteOf(light.To)
		for i := from; i < to; {
			by, end := behind(i), i+1
			for end < to && behind(end) == by {
				end++
			}
			if by != (hiding{}) {
				out = append(out, at.toll(w, by.said(), plan.Span{From: at.Time(i), To: at.Time(end)}, light))
			}
			i = end
		}
	}
	return out
}

// toll tells what one thing takes of a light. Where only the glow was wished for, it tells also when the sun itself comes
// or leaves.
func (at *spot) toll(w plan.Wish, by say.Text, part, light plan.Span) say.Text {
	whose, glow := say.That("takes of|it"), false
	first, last := part.From.Equal(light.From), part.To.Equal(light.To)
	if w.Kind == plan.GoldenMorning || w.Kind == plan.GoldenEvening {
		whose, glow = say.That("takes of|gold"), !w.Direct
	}
	if f, ok := faceOf(at.house, w.Face); ok {
		whose = say.That("the sun on %s", faceName(f))
	}
	share := shareOf(int(part.Minutes()), first, last)
	switch {
	case glow && last && !first:
		return say.That("The sun leaves at %s: %s takes %s of %s; the glow stays.", at.shown(part.From), by, share, whose)
	case glow && first && !last:
		return say.That("The sun comes at %s: %s takes %s of %s; the glow stays.", at.shown(part.To), by, share, whose)
	case glow:
		return say.That("%s takes %s of %s; the glow stays.", opening{by}, share, whose)
	}
	return say.That("%s takes %s of %s.", opening{by}, share, whose)
}

// shareOf tells which minutes of a light some are: its first, its last, all, or some between.
func shareOf(n int, first, last bool) say.Text {
	switch {
	case first && last:
		return say.Count(n, "all %d minute", "all %d minutes")
	case last:
		return say.Count(n, "the last %d minute", "the last %d minutes")
	case first:
		return say.Count(n, "the first %d minute", "the first %d minutes")
	}
	return say.Count(n, "%d minute", "%d minutes")
}

// allBut are the conditions of a wish without that of the sun being seen.
func (at *spot) allBut(w plan.Wish) []condition {
	w.Direct = false
	asks, _ := at.conditions(w)
	if w.Kind == plan.GoldenMorning || w.Kind == plan.GoldenEvening {
		return asks
	}
	return asks[1:] // seen comes first
}

// limited cuts windows to a scene's own clock limits.
func (s *Sky) limited(windows []plan.Span, sc plan.Scene) (out []plan.Span) {
	from, to := s.Start, s.Time(len(s.Minutes))
	if sc.From.IsSet() {
		from = s.Time(s.MinuteAt(sc.From))
	}
	if sc.To.IsSet() {
		to = s.Time(s.MinuteAt(sc.To))
	}
	for _, w := range windows {
		if w.From.Before(from) {
			w.From = from
		}
		if w.To.After(to) {
			w.To = to
		}
		if w.To.After(w.From) {
			out = append(out, w)
		}
	}
	return out
}

func (s *Sky) left(windows []plan.Span) say.Text {
	if len(windows) == 0 {
		return say.That("The scene's clock limits leave nothing of it.")
	}
	var parts []say.Text
	for _, w := range windows {
		parts = append(parts, say.That("%s to %s", s.shown(w.From), s.shown(w.To)))
	}
	return say.That("The scene's clock limits leave %s.", say.List(parts...))
}

// weatherIn tells what is expected of the weather in the windows.
func (s *Sky) weatherIn(windows []plan.Span, needsSun bool) (out []say.Text) {
	var cloud, rain, minutes float64
	for _, w := range windows {
		c, r := s.Expect(w.From, w.To)
		n := w.To.Sub(w.From).Minutes()
		cloud, rain, minutes = cloud+c*n, rain+r*n, minutes+n
	}
	if minutes == 0 {
		return nil
	}
	cloud, rain = 100*cloud/minutes, 100*rain/minutes
	if cloud >= 0.5 && needsSun {
		out = append(out, say.That("Cloud over %.0f\u00a0%% of the sky is expected then, which leaves %.0f\u00a0%% of its value.", cloud, 100-cloud))
	} else if cloud >= 0.5 {
		out = append(out, say.That("Cloud over %.0f\u00a0%% of the sky is expected then; this light does not need the sun itself.", cloud))
	}
	if rain >= 0.5 {
		out = append(out, say.That("The chance of rain then is %.0f\u00a0%%.", rain))
	}
	return out
}

// degrees prints an angle for people: "-4°", "80.5°".
func degrees(a plan.Angle) say.Text {
	return say.Number(strconv.FormatFloat(math.Round(float64(a)*10)/10, 'f', -1, 64) + "°")
}

// called puts an article before a name that has none.
func called(name string, nameless say.Text) say.Text {
	switch {
	case strings.TrimSpace(name) == "":
		return nameless
	case strings.HasPrefix(strings.ToLower(name), "the "):
		return say.Plain(name)
	}
	return say.That("named|the %s", name)
}

// opening is a text at the beginning of a sentence.
type opening struct{ say.Text }

// In is the text with a capital letter.
func (o opening) In(tongue say.Tongue) string {
	words := o.Text.In(tongue)
	_, n := utf8.DecodeRuneInString(words)
	return strings.ToUpper(words[:n]) + words[n:]
}

func faceName(f plan.Face) say.Text {
	return called(cmp.Or(f.Name, string(f.ID)), say.That("lit|the face"))
}

func faceNames(faces []plan.Face) say.Text {
	names := make([]say.Text, len(faces))
	for i, f := range faces {
		names[i] = faceName(f)
	}
	return say.List(names...)
}
