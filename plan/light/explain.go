package light

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"eavelight/plan"
)

// Explain says in sentences why a scene's light is as it is on this day: when its wish holds and what begins and ends it,
// what an obstacle takes of it, what the scene's own clock limits and the weather expected leave. Times are the wall clock's
// at the property.
func (s *Sky) Explain(sc plan.Scene) []string {
	at := s.spot(sc.Space)
	asks, known := at.conditions(sc.Wish)
	if !known {
		return []string{fmt.Sprintf("It is not known when it holds: %s.", missing(sc.Wish))}
	}
	if len(asks) == 0 {
		return []string{"It holds at any time."}
	}
	windows := s.spans(func(i int) bool { return holds(asks, i) })
	out := at.tolls(sc.Wish)
	if len(windows) == 0 {
		return append([]string{at.never(asks)}, out...)
	}
	var when []string
	for _, w := range windows {
		when = append(when, fmt.Sprintf("from %s%s to %s%s", s.shown(w.From), at.edge(asks, s.MinuteOf(w.From)-1, true),
			s.shown(w.To), at.edge(asks, s.MinuteOf(w.To), false)))
	}
	out = append([]string{fmt.Sprintf("It holds %s.", listed(when))}, out...)
	if sc.From.IsSet() || sc.To.IsSet() {
		windows = s.limited(windows, sc)
		out = append(out, s.left(windows))
	}
	return append(out, s.weatherIn(windows, NeedsSun(sc.Wish))...)
}

func (s *Sky) shown(t time.Time) string { return s.Clock(s.MinuteOf(t)).String() }

// missing is the figure that a wish lacks.
func missing(w plan.Wish) string {
	switch {
	case w.Kind.NeedsCamera():
		return "the camera's bearing is not said"
	case w.Kind == plan.SunPatch || w.Kind == plan.SoftWindow:
		return "the space's windows look toward no face"
	}
	return "the face is not said"
}

// edge tells in brackets what the sun does as a window begins or ends, by the minute just outside it: that of the
// conditions that fails there by the most.
func (at *spot) edge(asks []condition, outside int, begins bool) string {
	if !at.within(outside) {
		return ""
	}
	worst := slices.MinFunc(asks, func(a, b condition) int {
		return cmp.Compare(a.margin(outside)/a.shoulder, b.margin(outside)/b.shoulder)
	})
	return fmt.Sprintf(" (%s)", worst.tells(outside, begins))
}

// never names what does not come on this day: the conditions that never hold, or else all that never hold together.
func (at *spot) never(asks []condition) string {
	var alone, all []string
	for _, c := range asks {
		if len(at.spans(func(i int) bool { return c.margin(i) >= 0 })) == 0 {
			alone = append(alone, c.asks())
		}
		all = append(all, c.asks())
	}
	on := at.Events.Date.Long()
	if len(alone) > 0 {
		return fmt.Sprintf("It does not hold on %s: there is never %s.", on, strings.Join(alone, ", nor "))
	}
	return fmt.Sprintf("It does not hold on %s: there are never at once %s.", on, listed(all))
}

// hider names what hides the sun at a minute: a wing, an obstacle or the drawn skyline; nothing where it is the horizon.
func (at *spot) hider(minute int) string {
	m := at.Minutes[minute]
	name, top := at.line.hider(m.Azimuth)
	for _, w := range at.wings {
		if w.altitude > top && w.hides(m.Azimuth) {
			name, top = "a wing of the house", w.altitude
		}
	}
	return name
}

// tolls tells what each thing in the sun's way takes of a wish's light: the minutes in which all else that the wish asks
// for holds and the sun stands over the free horizon, but behind that thing.
func (at *spot) tolls(w plan.Wish) (out []string) {
	switch w.Kind {
	case plan.GoldenMorning, plan.GoldenEvening, plan.FaceLit, plan.Backlit, plan.SideLit, plan.FrontLit, plan.SunPatch, plan.HighSun:
	default:
		return nil // the light of these is not the sun's own, or goes by the skyline itself
	}
	rest := at.allBut(w)
	behind := func(i int) string {
		if at.direct(i) {
			return ""
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
			if by != "" {
				out = append(out, at.toll(w, by, plan.Span{From: at.Time(i), To: at.Time(end)}, light))
			}
			i = end
		}
	}
	return out
}

// toll tells what one thing takes of a light. Where only the glow was wished for, it tells also when the sun itself comes
// or leaves.
func (at *spot) toll(w plan.Wish, by string, part, light plan.Span) string {
	whose, turn, glow := "it", "", ""
	first, last := part.From.Equal(light.From), part.To.Equal(light.To)
	if w.Kind == plan.GoldenMorning || w.Kind == plan.GoldenEvening {
		whose = "gold"
		if !w.Direct {
			glow = "; the glow stays"
		}
	}
	if f, ok := faceOf(at.house, w.Face); ok {
		whose = "the sun on " + faceName(f)
	}
	share := count(int(part.Minutes()), "minute")
	switch {
	case first && last:
		share = "all " + share
	case last:
		share, turn = "the last "+share, "The sun leaves at "+at.shown(part.From)
	case first:
		share, turn = "the first "+share, "The sun comes at "+at.shown(part.To)
	}
	if glow == "" || turn == "" {
		return fmt.Sprintf("%s takes %s of %s%s.", capital(by), share, whose, glow)
	}
	return fmt.Sprintf("%s: %s takes %s of %s%s.", turn, by, share, whose, glow)
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

func (s *Sky) left(windows []plan.Span) string {
	if len(windows) == 0 {
		return "The scene's clock limits leave nothing of it."
	}
	var parts []string
	for _, w := range windows {
		parts = append(parts, s.shown(w.From)+" to "+s.shown(w.To))
	}
	return fmt.Sprintf("The scene's clock limits leave %s.", listed(parts))
}

// weatherIn tells what is expected of the weather in the windows.
func (s *Sky) weatherIn(windows []plan.Span, needsSun bool) (out []string) {
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
		out = append(out, fmt.Sprintf("Cloud over %.0f\u00a0%% of the sky is expected then, which leaves %.0f\u00a0%% of its value.", cloud, 100-cloud))
	} else if cloud >= 0.5 {
		out = append(out, fmt.Sprintf("Cloud over %.0f\u00a0%% of the sky is expected then; this light does not need the sun itself.", cloud))
	}
	if rain >= 0.5 {
		out = append(out, fmt.Sprintf("The chance of rain then is %.0f\u00a0%%.", rain))
	}
	return out
}

// degrees prints an angle for people: "-4°", "80.5°".
func degrees(a plan.Angle) string {
	return strconv.FormatFloat(math.Round(float64(a)*10)/10, 'f', -1, 64) + "°"
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// listed joins parts: "a, b and c".
func listed(parts []string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

// called puts an article before a name that has none.
func called(name, nameless string) string {
	switch {
	case strings.TrimSpace(name) == "":
		return nameless
	case strings.HasPrefix(strings.ToLower(name), "the "):
		return name
	}
	return "the " + name
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func faceName(f plan.Face) string { return called(cmp.Or(f.Name, string(f.ID)), "the face") }

func faceNames(faces []plan.Face) string {
	names := make([]string, len(faces))
	for i, f := range faces {
		names[i] = faceName(f)
	}
	return listed(names)
}
