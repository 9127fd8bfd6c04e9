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
)

// soundLevels is common practice, no published source.
const soundLevels = "Sound: peaks between -12 and -6 dBFS, heard on headphones; record a minute of room tone in each space."

// ShotList is a day for whoever holds the camera, in the order in which it is shot: where the sun stands, every shot with a box to
// tick, and what happens in between. It holds nobody's phone, mail or fee.
func ShotList(p *plan.Plan, d day.Day) Sheet {
	c := newCaller(p, d)
	care := c.safety(true)
	care.Heading, care.List = "Sound and safety", slices.Insert(care.List, 0, soundLevels)
	first, note := time.Time{}, "the day is not placed yet"
	if len(d.Scenes) > 0 {
		shots := 0
		for _, placed := range d.Scenes {
			shots += len(c.sceneOf(placed.Scene).Shots)
		}
		first, note = d.Scenes[0].Start, counted(len(d.Scenes), "scene", "scenes")+", "+counted(shots, "shot", "shots")
	}
	return c.sheet("Shot list", Fact{"First shot", c.clock(first)}, note, care, c.light(), c.shots(), c.standInShots())
}

func shotListFile(d day.Day) string {
	return "shot-list-" + cmp.Or(d.Date.String(), "no-date") + ".pdf"
}

var shotColumns = []Column{{"Time, done", 33}, {"Frame", 31}, {"Lens", 22}, {"Movement", 36}, {"What to get", 62}}

// shots lists the day's scenes with their shots by the clock, with the moves of the kit between them.
func (c caller) shots() Section {
	s := Section{Heading: "Shots"}
	if len(c.day.Scenes) == 0 {
		s.Text = []string{noSceneYet}
		return s
	}
	var moves []event
	for _, m := range c.day.Moves {
		move := c.aside(2, "", m.Span, fmt.Sprintf("Move to %s, %s", c.space(m.To), m.Minutes()))
		move.rows[0].Keep = true
		moves = append(moves, move)
	}
	s.Table = Table{Columns: shotColumns, Rows: c.byClock(func(placed day.Placed) []Row {
		sc := c.sceneOf(placed.Scene)
		return c.shotRows(sc, c.when(placed), c.lightAt(sc, placed), c.flight(sc.ID))
	}, moves...)}
	return s
}

// standInShots are those of the scenes that only bad weather brings.
func (c caller) standInShots() Section {
	s := Section{Heading: coversHeading, Table: Table{Columns: shotColumns}}
	for _, cover := range c.standIns() {
		when := Cell{Text: "instead of scene\u00a0" + strings.Join(cover.instead, " or\u00a0")}
		s.Table.Rows = append(s.Table.Rows, c.shotRows(cover.Scene, when, "light: "+c.wish(cover.Wish))...)
	}
	return s
}

// shotRows are a scene, with lines about it of its own, and its shots under it.
func (c caller) shotRows(sc plan.Scene, when Cell, about ...string) []Row {
	about = append([]string{c.space(sc.Space) + ": " + c.names(sc.People), sc.Action}, about...)
	about = append(about, c.kit(sc))
	if sc.Audio != "" {
		about = append(about, "sound: "+sc.Audio)
	}
	rows := []Row{{Opens: true, Cells: []Cell{when, {Strong: titled(sc), Text: lines(append(about, c.cover(sc))...)}}}}
	for i, shot := range sc.Shots {
		rows = append(rows, Row{Tick: true, Cells: []Cell{{Strong: fmt.Sprintf("%s.%d", sc.Name(), i+1)},
			{Text: shot.Frame}, {Text: shot.Lens}, {Text: shot.Movement}, {Text: shot.Note}}})
	}
	if len(sc.Shots) == 0 {
		rows = append(rows, Row{Tick: true, Cells: []Cell{{Strong: sc.Name()}, {Text: "no shots are written down: as the action says"}}})
	}
	return rows
}

// lightAt tells the light that a placed scene wants, the sun as its shooting begins, and what there is to be careful of with it.
func (c caller) lightAt(sc plan.Scene, placed day.Placed) string {
	out := []string{"light: " + c.wish(sc.Wish)}
	sky := c.day.Sky
	if sky == nil || c.Property.Position == nil {
		return out[0]
	}
	if i := sky.MinuteOf(placed.Start); i >= 0 && i < len(sky.Minutes) {
		out[0] += "; " + c.sunAt(sc, sky.Minutes[i], placed.Start)
	}
	for _, f := range sky.FrameWarnings(sc, placed.Start, placed.End) {
		out = append(out, fmt.Sprintf("careful: %s %s", f.Kind, c.span(f.Span)))
	}
	if lamp, ok := sky.Lamp(sc, sky.MinuteOf(placed.Start)); ok {
		out = append(out, lamp.String())
	}
	return lines(out...)
}

// sunAt tells where the sun stands, whether it reaches the scene's space, and from where it lights what the lens sees.
func (c caller) sunAt(sc plan.Scene, m light.Minute, at time.Time) string {
	out := fmt.Sprintf("sun at %s: %s", c.clock(at), m.Azimuth)
	if m.Apparent < -light.SunRadius {
		return out + fmt.Sprintf(", %.0f° under the horizon", -float64(m.Altitude))
	}
	out += fmt.Sprintf(", %.0f° high", max(0, float64(m.Apparent)))
	space, known := c.Space(sc.Space)
	reaches := slices.ContainsFunc(c.day.Sky.Sunlit(sc.Space), func(s plan.Span) bool { return s.Contains(at) })
	switch {
	case !m.Direct():
		return out + ", behind the skyline"
	case known && !reaches:
		out += ", not on this side of the house"
	case known && space.Kind.Or() == plan.Indoor:
		out += ", in through the windows"
	}
	switch camera := sc.Wish.Camera; {
	case camera == nil:
		return out
	case sc.Wish.Kind.NeedsCamera(): // the wish has told where it looks
		return out + ", " + lensSide(m.Sun, *camera)
	default:
		return out + "; camera to " + camera.String() + ": " + lensSide(m.Sun, *camera)
	}
}

// lensSide tells from where a sun lights what a lens sees that looks toward a bearing, as one stands behind the camera.
func lensSide(s light.Sun, camera plan.Bearing) string {
	side := "right"
	if (s.Azimuth - camera).Norm() > 180 {
		side = "left"
	}
	switch kind := light.LitFrom(s, camera); kind {
	case plan.Backlit:
		return fmt.Sprintf("%s, the sun %.0f° to the %s", kind, float64(s.Azimuth.Apart(camera)), side)
	case plan.SideLit:
		return fmt.Sprintf("%s from the %s", kind, side)
	default:
		return string(kind)
	}
}
