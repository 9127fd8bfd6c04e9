package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
	"eavelight/plan/people"
)

// wish says a light wish in the words of the plan, with the figures that were typed.
func (c caller) wish(w plan.Wish) string {
	out := string(w.Kind.Or())
	switch w.Kind.Or() {
	case plan.Any:
		return "any light"
	case plan.GoldenMorning, plan.GoldenEvening:
		if w.Direct {
			out += ", direct"
		}
	case plan.FaceLit, plan.FaceShade:
		if f, ok := c.Face(w.Face); ok {
			out += ": " + cmp.Or(f.Name, string(f.ID))
		}
	case plan.Backlit, plan.SideLit, plan.FrontLit:
		if w.Camera != nil {
			out += ", camera to\u00a0" + strings.ReplaceAll(w.Camera.String(), " ", "\u00a0")
		}
	}
	return out
}

// window is when a placed scene's wish holds, the stretch that it is shot in or nearest to. Daylight would say nothing new.
func (c caller) window(placed day.Placed) (plan.Span, bool) {
	sc, _ := c.Scene(placed.Scene)
	if k := sc.Wish.Kind.Or(); k == plan.Any || k == plan.Daylight {
		return plan.Span{}, false
	}
	return light.Window(c.day.Windows[placed.Scene], placed.Start)
}

// light lists the moments of the day's light.
func (c caller) light() Section {
	s := Section{Heading: "Light", Facts: []Fact{{"Weather", c.weather()}}}
	if c.day.Sky == nil || c.Property.Position == nil {
		s.Text = []string{"The light is not computed: the property's position is not filled in."}
		return s
	}
	e := c.day.Sky.Events
	s.Figure = c.skyRibbon()
	s.Strip = []Fact{
		{"Civil dawn", c.crossing(e, e.Civil.Up, -6)},
		{"Sunrise", c.crossing(e, e.Rise.Up, e.RiseAltitude)},
		{"Golden morning", c.band(e, e.MorningBand(e.GoldenLow, e.GoldenHigh).Whole())},
		{"Solar noon", fmt.Sprintf("%s, %.0f° high", c.clock(e.Noon), float64(e.NoonAltitude))},
		{"Golden evening", c.band(e, e.EveningBand(e.GoldenLow, e.GoldenHigh).Whole())},
		{"Sunset", c.crossing(e, e.Rise.Down, e.RiseAltitude)},
		{"Civil dusk", c.crossing(e, e.Civil.Down, -6)},
		{"Moon at nightfall", c.moon(e)},
	}
	if e.NoonAltitude < 0 {
		s.Strip[3].Text = fmt.Sprintf("%s, %.0f° down", c.clock(e.Noon), -float64(e.NoonAltitude))
	}
	if len(c.Property.Skyline)+len(c.Property.Obstacles) > 0 {
		s.Strip = slices.Insert(s.Strip, 4, Fact{"Sun over the skyline", c.skyline()})
	}
	return s
}

// weather tells what somebody expects of the day's weather, as they said it.
func (c caller) weather() string {
	var rows []string
	for _, w := range c.Shooting.Weather {
		if w.Date != c.date && !w.Date.IsZero() {
			continue
		}
		row := fmt.Sprintf("%d\u00a0%% cloud", w.Cloud)
		if w.Rain > 0 {
			row += fmt.Sprintf(", %d\u00a0%% chance of rain", w.Rain)
		}
		if w.From.IsSet() || w.To.IsSet() {
			at := func(k plan.Clock) time.Time { return plan.Instant(c.date, k, c.zone) }
			row = c.span(plan.Span{From: at(w.From.Or(plan.ClockAt(0))), To: at(w.To.Or(plan.ClockAt(24 * 60)))}) + ": " + row
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		return notFilledIn + "; look at a forecast the evening before"
	}
	return "expected when this was written: " + strings.Join(rows, "; ")
}

// crossing tells when the sun passes an altitude, or in words why it does not.
func (c caller) crossing(e light.Events, at time.Time, h plan.Angle) string {
	switch {
	case !at.IsZero():
		return c.clock(at)
	case e.NoonAltitude <= h && h == e.RiseAltitude:
		return "the sun does not rise"
	case e.NoonAltitude <= h:
		return "none, it stays dark"
	case h == e.RiseAltitude:
		return "the sun does not set"
	}
	return "none, it stays light"
}

func (c caller) band(e light.Events, b light.Band) string {
	switch {
	case b.To.After(b.From):
		return c.span(b)
	case e.NoonAltitude <= c.Shooting.Light.GoldenLow:
		return "none, the sun stays too low"
	}
	return "none, the sun stays high"
}

// moon tells the moon as it stands when the light goes: at civil dusk, at sunset where the night stays light, at nine by
// the clock where the sun does not set.
func (c caller) moon(e light.Events) string {
	at := e.Civil.Down
	if at.IsZero() {
		at = e.Rise.Down
	}
	if at.IsZero() {
		at = plan.Instant(c.date, plan.ClockAt(21*60), c.zone)
	}
	m := light.MoonAt(*c.Property.Position, at)
	where := "not up"
	if m.Altitude > 0 {
		where = "up"
	}
	return fmt.Sprintf("%.0f\u00a0%% lit, %s", 100*m.Lit, where)
}

// skyline tells when the sun itself reaches the place; the other times are for an open horizon.
func (c caller) skyline() string {
	var spans []string
	for _, s := range c.day.Sky.SunOver() {
		spans = append(spans, c.span(s))
	}
	if len(spans) == 0 {
		return "never, the skyline hides it"
	}
	return strings.Join(spans, ", ")
}

// safety lists what was typed for the plan and for the spaces in use, then the usual cautions that apply: one calm line
// each, with whom to ask. lens: whoever looks through one all day is told of the sun in any case.
func (c caller) safety(lens bool) Section {
	s := Section{Heading: "Safety"}
	for _, line := range c.Papers.Safety {
		if line = strings.TrimSpace(line); line != "" {
			s.List = append(s.List, line)
		}
	}
	open, flying := false, false
	used := c.used()
	for _, sc := range used {
		w := sc.Wish
		flying = flying || people.Flies(c.Plan, sc) || slices.ContainsFunc(sc.Shots, byDrone)
		lens = lens || w.Direct || slices.Contains([]plan.WishKind{plan.Backlit, plan.Sunrise, plan.Sunset}, w.Kind)
	}
	for _, space := range c.Property.Spaces {
		if !slices.ContainsFunc(used, func(sc plan.Scene) bool { return sc.Space == space.ID }) {
			continue
		}
		if line := strings.TrimSpace(space.Safety); line != "" {
			s.List = append(s.List, c.space(space.ID)+": "+line)
		}
		open = open || space.Kind.Or() != plan.Indoor
	}
	add := func(applies bool, line string) {
		if applies {
			s.List = append(s.List, line)
		}
	}
	add(lens, "Sun: never look at it through a lens or a viewfinder.")
	add(c.minors(), "Minors: local law decides their hours and consent; their guardian stays with them, or in reach as agreed.")
	add(flying, "Drone: the local aviation authority and the pilot's certificate decide whether and where it flies; keep clear of it.")
	add(open, "Weather: in lightning everybody goes indoors; in heat or cold take breaks, and say so when you need one.")
	add(len(s.List) == 0, "Nothing is filled in. Ask the crew before you move anything or touch a cable.")
	return s
}

// byDrone tells a shot whose words name a drone, for scenes that no release and no space of the air calls a flight.
func byDrone(s plan.Shot) bool {
	return strings.Contains(strings.ToLower(s.Lens+" "+s.Movement+" "+s.Frame), "drone")
}

// used lists the placed scenes and their covers.
func (c caller) used() []plan.Scene {
	var out []plan.Scene
	for _, placed := range c.day.Scenes {
		sc, ok := c.Scene(placed.Scene)
		if !ok {
			continue
		}
		out = append(out, sc)
		if cover, ok := c.Scene(sc.Cover); ok {
			out = append(out, cover)
		}
	}
	return out
}

func (c caller) minors() bool {
	return slices.ContainsFunc(c.day.People, func(called day.Presence) bool {
		who, _ := c.Person(called.Person)
		return c.minor(who)
	})
}
