package papers

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"eavelight/plan"
	"eavelight/plan/light"
)

// skyRibbon is the day's sky along its hours: a band in the sky's colour with the sun's height as a curve in it and what bites into that;
// over it the golden and blue light, under it sunrise and sunset, the hours, and the shooting day from call to wrap.
type skyRibbon struct {
	timeline
	high    float64        // of the band of sky, in millimetres
	minutes []light.Minute // from the timeline's beginning on
	bands   []skyBand
	sun     []skyMark
	call    time.Time // zero: not placed
	wrap    time.Time
	meals   []plan.Span
}

// skyBand is a stretch of light that has a name.
type skyBand struct {
	plan.Span
	name string
}

// skyMark is a moment of the sun; texts are what to call it, the best first.
type skyMark struct {
	at    time.Time
	texts []string
}

const bracketTall = 1.5

// skyRibbon draws the sky of the day. There is none without a position.
func (c caller) skyRibbon() Figure {
	if r, ok := c.ribbon(9.6); ok {
		return r
	}
	return nil
}

func (c caller) ribbon(high float64) (r skyRibbon, ok bool) {
	if c.day.Sky == nil || c.Property.Position == nil {
		return r, false
	}
	r = skyRibbon{timeline: c.timeline(), high: high, bands: c.bands(), sun: c.sun(), call: c.day.Call, wrap: c.day.Wrap, meals: c.day.Meals}
	line := light.NewSkyline(c.Property)
	count := int(r.To.Sub(r.From)/time.Minute) + 1
	r.minutes = make([]light.Minute, count)
	for i, sun := range light.NewTrack(c.Property, r.From, r.To).Minutes(r.From, count) {
		r.minutes[i] = light.Minute{Sun: sun, Skyline: line.At(sun.Azimuth)}
	}
	return r, true
}

// bands are the stretches of golden and blue light. Where the sun is so low that golden morning runs into golden evening, they are one.
func (c caller) bands() []skyBand {
	var out []skyBand
	e := c.day.Sky.Events
	for _, b := range []skyBand{
		{e.MorningBand(e.BlueLow, e.BlueHigh), "blue"}, {e.EveningBand(e.BlueLow, e.BlueHigh), "blue"},
		{e.MorningBand(e.GoldenLow, e.GoldenHigh), "golden"}, {e.EveningBand(e.GoldenLow, e.GoldenHigh), "golden"},
	} {
		if !b.To.After(b.From) {
			continue
		}
		if n := len(out); n > 0 && out[n-1].name == b.name && !out[n-1].To.Before(b.From) {
			out[n-1].To = b.To
			continue
		}
		out = append(out, b)
	}
	return out
}

// sun are sunrise, sunset and noon, in the order of what must be read.
func (c caller) sun() []skyMark {
	e := c.day.Sky.Events
	var out []skyMark
	for _, m := range []skyMark{{e.Rise.Up, []string{"sunrise"}}, {e.Rise.Down, []string{"sunset"}}} {
		if !m.at.IsZero() {
			m.texts[0] += " " + c.clock(m.at)
			out = append(out, m)
		}
	}
	stays := ""
	if len(out) == 0 && e.NoonAltitude > e.RiseAltitude {
		stays = ", the sun does not set"
	} else if len(out) == 0 {
		stays = ", the sun does not rise"
	}
	noon := "noon " + c.clock(e.Noon)
	high := fmt.Sprintf("%s, sun %.0f°", noon, math.Abs(float64(e.NoonAltitude)))
	if e.NoonAltitude < 0 {
		high += " under the horizon"
	} else {
		high += " high"
	}
	return append(out, skyMark{e.Noon, []string{high + stays, high, noon}})
}

// Words is a Figure's.
func (r skyRibbon) Words() string {
	out := fmt.Sprintf("(drawn: the sky from %s to %s, how high the sun stands in it", r.clock(r.From), r.clock(r.To))
	for _, m := range r.sun {
		out += ", " + m.texts[0]
	}
	if r.placed() {
		out += fmt.Sprintf("; call %s, wrap %s", r.clock(r.call), r.clock(r.wrap))
	}
	return out + ")"
}

func (r skyRibbon) placed() bool { return !r.call.IsZero() && r.wrap.After(r.call) }

func (r skyRibbon) tall(float64) float64 {
	tall := r.skyTall() + hoursTall
	if r.placed() {
		tall += callsTall
	}
	return tall
}

// skyTall is the height of the sky with the words over and under it.
func (r skyRibbon) skyTall() float64 {
	return faceFoot.lead + bracketTall + r.high + faceFoot.lead + 0.8
}

func (r skyRibbon) draw(on surface, x, y, width float64) {
	r.paintSky(on, x, y, width)
	y += r.skyTall()
	r.paintHours(on, x, y, width)
	if r.placed() {
		r.paintCalls(on, x, y+hoursTall, width)
	}
}

// paintSky draws the band with all that stands over, in and under it.
func (r skyRibbon) paintSky(on surface, x, y, width float64) {
	r.paintBands(on, x, y, width)
	y += faceFoot.lead + bracketTall
	r.paintColours(on, x, y, width)
	r.paintSun(on, x, y, width)
	r.paintMarks(on, x, y+r.high, width)
}

// paintBands draws a bracket over each stretch of light, solid for golden and hollow for blue, and names it.
func (r skyRibbon) paintBands(on surface, x, y, width float64) {
	var tags []tag
	for _, b := range r.bands {
		x0, x1 := r.over(b.Span, width)
		texts := []string{b.name}
		if b.name == "golden" {
			texts = []string{"golden " + r.span(b.Whole()), "golden"}
		}
		if x1 <= x0 {
			texts = nil // it lies outside
		}
		tags = append(tags, tag{(x0 + x1) / 2, texts})
	}
	for i, t := range stand(tags, faceFoot, width) {
		put(on, x+t.x, y, t.text, faceFigure)
		x0, x1 := r.over(r.bands[i].Span, width)
		if x1 <= x0 {
			continue
		}
		top := y + faceFoot.lead
		block(on, x+x0, top, x1-x0, bracketTall-0.3, ink)
		if in := 0.25; r.bands[i].name == "blue" && x1-x0 > 2*in {
			block(on, x+x0+in, top+in, x1-x0-2*in, bracketTall-0.3-in, white)
		}
	}
}

// paintColours paints the band in the colours of its moments, warmer toward the horizon. Each patch runs under those to its right and
// below it, so that no seam shows between two.
func (r skyRibbon) paintColours(on surface, x, y, width float64) {
	const across, down = 0.8, 8 // millimetres, steps
	type patch struct {
		from, to float64
		sky      skyStop
	}
	var patches []patch
	for at := 0.0; at < width; at += across {
		now := skyAt(float64(r.minute((at + across/2) / width).Altitude))
		if n := len(patches); n == 0 || patches[n-1].sky != now {
			patches = append(patches, patch{from: at, sky: now})
		}
		patches[len(patches)-1].to = min(at+2*across, width)
	}
	for j := range down {
		top := r.high * float64(j) / down
		for _, p := range patches {
			block(on, x+p.from, y+top, p.to-p.from, r.high-top, p.sky.high.toward(p.sky.low, (float64(j)+0.5)/down))
		}
	}
}

// minute is the one at a share of the way along.
func (r skyRibbon) minute(share float64) light.Minute {
	last := len(r.minutes) - 1
	return r.minutes[max(0, min(int(share*float64(last)+0.5), last))]
}

// paintSun draws what stands before the sky, and the sun's way over it: dotted where something hides the sun.
func (r skyRibbon) paintSun(on surface, x, y, width float64) {
	const pace = 0.5
	foot, top := y+r.high, 25.0 // degrees at the top of the band, at least
	for _, m := range r.minutes {
		top = max(top, 1.15*float64(m.Apparent))
	}
	up := func(a plan.Angle) float64 { return foot - r.high*min(max(float64(a)/top, 0), 1) }
	steps := int(width / pace)
	ridge, bites := []point{{x, foot}}, false
	var ways [][]point // where the sun is seen
	var hidden []point
	seen := false
	for i := range steps + 1 {
		share := float64(i) / float64(steps)
		m := r.minute(share)
		ridge = append(ridge, point{x + share*width, up(m.Skyline)})
		bites = bites || m.Skyline > 0
		was := seen
		seen = m.Apparent > 0 && m.Direct()
		switch sun := (point{x + share*width, up(m.Apparent)}); {
		case seen && was:
			ways[len(ways)-1] = append(ways[len(ways)-1], sun)
		case seen:
			ways = append(ways, []point{sun})
		case m.Apparent > 0:
			hidden = append(hidden, sun)
		}
	}
	if bites {
		on.fill(append(ridge, point{x + width, foot}), soft)
		on.stroke(straight(ridge[1:]...), 0.25, white)
	}
	for i := 0; i < len(hidden); i += 3 {
		block(on, hidden[i].x-0.25, hidden[i].y-0.25, 0.5, 0.5, white)
	}
	for _, way := range ways {
		on.stroke(straight(way...), 1.1, white)
		on.stroke(straight(way...), 0.5, ink)
	}
	rule(on, x, x+width, foot, 0.35, soft)
}

// paintMarks writes the moments of the sun under the horizon.
func (r skyRibbon) paintMarks(on surface, x, y, width float64) {
	var tags []tag
	for _, m := range r.sun {
		t := tag{r.at(m.at, width), m.texts}
		if !r.holds(m.at) {
			t.texts = nil
		}
		tags = append(tags, t)
	}
	for i, t := range stand(tags, faceFoot, width) {
		put(on, x+t.x, y+0.8, t.text, faceFigure)
		if r.holds(r.sun[i].at) && (t.text != "" || i < len(r.sun)-1) { // noon without its words would be a riddle
			at := x + tags[i].mid
			on.fill([]point{{at, y - 1.3}, {at + 0.9, y + 0.7}, {at - 0.9, y + 0.7}}, ink)
		}
	}
}

// callsTall is the height of the shooting day.
var callsTall = faceFoot.lead + 0.4

// paintCalls draws the shooting day as a measured length from call to wrap, with its words in the line and the meals left out of it.
func (r skyRibbon) paintCalls(on surface, x, y, width float64) {
	call, wrap := r.over(plan.Span{From: r.call, To: r.wrap}, width)
	mid := y + callsTall/2
	for _, end := range []float64{call, wrap} {
		on.stroke(straight(point{x + end, mid - 1.2}, point{x + end, mid + 1.2}), 0.5, ink)
	}
	first, last := "call "+r.clock(r.call), "wrap "+r.clock(r.wrap)
	tags := []tag{{call + 1 + widthOf(first, faceFoot)/2, []string{first}}, {wrap - 1 - widthOf(last, faceFoot)/2, []string{last}}}
	for _, m := range r.meals {
		x0, x1 := r.over(m, width)
		tags = append(tags, tag{(x0 + x1) / 2, []string{"meal " + r.span(m), "meal"}})
	}
	taken := stand(tags, faceFoot, width)
	for _, t := range taken {
		put(on, x+t.x, y+0.2, t.text, faceFigure)
	}
	for _, m := range r.meals {
		x0, x1 := r.over(m, width)
		taken = append(taken, stood{x: x0, wide: x1 - x0})
	}
	slices.SortStableFunc(taken, func(a, b stood) int { return cmp.Compare(a.x, b.x) })
	from := call
	for _, t := range append(taken, stood{x: wrap}) {
		if to := min(t.x-tagGap/2, wrap); to > from+tagGap/2 { // less would be a dot
			rule(on, x+from, x+to, mid, 0.5, ink)
		}
		from = max(from, t.x+t.wide+tagGap/2)
	}
}

// skyStop is the colour of a clear sky overhead and low down, for one altitude of the sun in degrees.
type skyStop struct {
	altitude  float64
	high, low tint
}

// skyStops are chosen by eye for paper: the night is not so dark that it drinks ink, and the greys alone still tell night from day.
var skyStops = []skyStop{
	{-18, tint{40, 48, 84}, tint{54, 62, 100}},
	{-12, tint{48, 62, 106}, tint{76, 84, 126}},
	{-6, tint{70, 96, 150}, tint{156, 136, 164}},
	{-4, tint{86, 114, 166}, tint{208, 156, 150}},
	{-1, tint{112, 144, 188}, tint{244, 182, 134}},
	{3, tint{142, 176, 214}, tint{252, 210, 144}},
	{8, tint{168, 202, 234}, tint{252, 230, 182}},
	{15, tint{180, 213, 243}, tint{240, 237, 220}},
	{30, tint{188, 220, 247}, tint{228, 240, 248}},
}

// skyAt is the sky's colour for an altitude of the sun in degrees, in twelve steps from stop to stop: finer ones would be more patches and no finer a sky.
func skyAt(altitude float64) skyStop {
	before := skyStops[0]
	for _, s := range skyStops {
		if altitude < s.altitude {
			share := (altitude - before.altitude) / max(s.altitude-before.altitude, 1)
			share = max(0, math.Round(12*share)/12)
			return skyStop{high: before.high.toward(s.high, share), low: before.low.toward(s.low, share)}
		}
		before = s
	}
	return skyStop{high: before.high, low: before.low}
}

// toward is the colour a share of the way to another.
func (t tint) toward(o tint, share float64) tint {
	mix := func(a, b int) int { return a + int(math.Round(float64(b-a)*share)) }
	return tint{mix(t.r, o.r), mix(t.g, o.g), mix(t.b, o.b)}
}
