package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

// ScenePlan tells the client the film, scene by scene in its own order and not in that of the days: what is seen, who is in it, its
// light and when that is there. People are called by their first names; it holds no way to reach them, no cost and no note.
func ScenePlan(p *plan.Plan, days []day.Day) Sheet {
	days = slices.DeleteFunc(slices.Clone(days), func(d day.Day) bool { return len(d.Scenes) == 0 })
	t := teller{caller: newCaller(p, day.Day{})}
	for _, d := range days {
		t.days = append(t.days, newCaller(p, d))
	}
	if len(days) > 0 {
		t.caller = t.days[0]
	}
	t.scenes = slices.Clone(p.Scenes)
	slices.SortStableFunc(t.scenes, func(a, b plan.Scene) int { return plan.ByNumber(a.Number, b.Number) })
	for _, s := range t.scenes {
		t.seconds += s.Seconds
	}
	sections := append([]Section{t.film(), t.delivered(), t.cast()}, t.pictures()...)
	out := t.sheet("Scene plan", Fact{"On screen", runs(t.seconds)}, counted(len(t.scenes), "scene", "scenes"), append(sections, t.told())...)
	out.Lines = []string{out.Lines[0], cmp.Or(t.dates(), "Date not set")} // of all the days, and none of their numbers
	return out
}

// teller tells a film. It is the caller of its first day.
type teller struct {
	caller
	days    []caller // those with scenes
	scenes  []plan.Scene
	seconds int // of all scenes
}

// pictures shows each day as it is placed.
func (t teller) pictures() []Section {
	var out []Section
	for _, c := range t.days {
		if f, ok := c.dayPicture(); ok {
			s := Section{Heading: "The day", Figure: f}
			if len(t.days) > 1 {
				s.Heading = c.long(c.date)
			}
			out = append(out, s)
		}
	}
	return out
}

// runs is a running time: "45 s", "2 min", "2 min 10 s".
func runs(seconds int) string {
	switch {
	case seconds < 60:
		return fmt.Sprintf("%d\u00a0s", seconds)
	case seconds%60 == 0:
		return fmt.Sprintf("%d\u00a0min", seconds/60)
	}
	return fmt.Sprintf("%d\u00a0min %d\u00a0s", seconds/60, seconds%60)
}

// dates are the days of the shoot in words, or nothing.
func (t teller) dates() string {
	var on []string
	for _, c := range t.days {
		on = append(on, c.long(c.date))
	}
	return joined(on, "and")
}

// film is the whole of it in one paragraph.
func (t teller) film() Section {
	text := []string{fmt.Sprintf("%s, %s on screen.", counted(len(t.scenes), "scene", "scenes"), runs(t.seconds))}
	if purpose := strings.TrimSpace(t.Brief.Purpose); purpose != "" {
		text = append([]string{stopped(purpose)}, text...)
	}
	var parts []string
	for _, d := range t.Brief.Deliverables {
		part := called(d)
		if long := extent(d); long != "" {
			part += " (" + long + ")"
		}
		parts = append(parts, part)
	}
	if len(parts) > 0 {
		text = append(text, stopped("It becomes: "+strings.Join(parts, ", ")))
	}
	if on := t.dates(); on != "" {
		text = append(text, fmt.Sprintf("It is filmed on %s. Times follow the sun at the address; the weather has the last word.", on))
	} else {
		text = append(text, "The day is not placed yet, so the times are still open.")
	}
	return Section{Heading: "The film", Text: []string{strings.Join(text, " ")}}
}

// stopped is a sentence with its full stop.
func stopped(s string) string {
	if strings.ContainsAny(s[len(s)-1:], ".!?") || strings.HasSuffix(s, "…") || strings.HasSuffix(s, "。") {
		return s
	}
	return s + "."
}

// delivered holds each deliverable's running time against the seconds of the scenes that it is cut from.
func (t teller) delivered() Section {
	s := Section{Heading: "What it becomes"}
	for _, d := range t.Brief.Deliverables {
		var parts, from []string
		gives := 0
		for _, sc := range t.scenes {
			if people.CutFrom(d, sc.ID) {
				gives += sc.Seconds
				from = append(from, sc.Name())
			}
		}
		if d.Format != "" {
			parts = append(parts, d.Format)
		} else if d.Stills > 0 {
			parts = append(parts, counted(d.Stills, "still", "stills"))
		}
		if d.Seconds > 0 {
			parts = append(parts, fmt.Sprintf("runs %s; %s %s%s", runs(d.Seconds), give(from, len(d.Scenes) == 0), runs(gives), spare(gives-d.Seconds)))
		}
		s.Facts = append(s.Facts, Fact{called(d), strings.Join(parts, "\n")})
	}
	return s
}

func give(scenes []string, all bool) string {
	switch {
	case all:
		return "all scenes give"
	case len(scenes) == 1:
		return "scene " + scenes[0] + " gives"
	}
	return "scenes " + joined(scenes, "and") + " give"
}

func spare(seconds int) string {
	switch {
	case seconds > 0:
		return ", " + runs(seconds) + " to choose from"
	case seconds < 0:
		return ", " + runs(-seconds) + " are still to be found"
	}
	return ""
}

// cast are the people on camera, each with their part, as they come into the film.
func (t teller) cast() Section {
	var seen []plan.ID
	var all []string
	for _, sc := range t.scenes {
		for _, id := range sc.People {
			if who, ok := t.Person(id); ok && !slices.Contains(seen, id) {
				seen = append(seen, id)
				all = append(all, together(t.first(id))+" ("+orEmpty(who.Job, "on camera")+")")
			}
		}
	}
	if len(all) == 0 {
		return Section{}
	}
	return Section{Heading: "Who you see", Text: []string{strings.Join(all, ", ")}}
}

// first is somebody's first name: the first word of it, or all of it where another's begins with the same.
func (t teller) first(id plan.ID) string {
	name := func(q plan.Person) string {
		word, _, _ := strings.Cut(strings.TrimSpace(q.Called()), " ")
		return word
	}
	who, ok := t.Person(id)
	same := func(q plan.Person) bool { return q.ID != id && strings.EqualFold(name(q), name(who)) }
	if !ok || slices.ContainsFunc(t.People, same) {
		return t.name(id)
	}
	return name(who)
}

// told are the scenes.
func (t teller) told() Section {
	s := Section{Heading: "The scenes, in the order of the film"}
	if len(t.scenes) == 0 {
		s.Text = []string{"No scene is written yet."}
		return s
	}
	s.Table.Right = 1
	s.Table.Columns = []Column{{"No.", 10}, {"Scene", 46}, {"What happens", 56}, {"Light, and when", 54}, {"Seconds", 20}}
	for _, sc := range t.scenes {
		s.Table.Rows = append(s.Table.Rows, t.row(sc))
	}
	all := Row{Aside: true, Cells: []Cell{{}, {Strong: "All scenes"}, {}, {}, {Strong: runs(t.seconds)}}}
	s.Table.Rows = append(s.Table.Rows, all)
	if len(t.days) > 0 {
		s.Small = []string{allOfIt}
	}
	return s
}

const allOfIt = "A scene keeps all of its light where nothing else is said."

func (t teller) row(sc plan.Scene) Row {
	var who []string
	for _, id := range sc.People {
		who = append(who, together(t.first(id)))
	}
	lit, note := t.lit(sc)
	if cover, ok := t.Scene(sc.Cover); ok {
		note = append(note, "If the weather takes the light: scene\u00a0"+titled(cover)+".")
	}
	return Row{Note: lines(note...), Cells: []Cell{
		{Strong: sc.Number},
		{Strong: orEmpty(sc.Title, "No title yet"), Text: lines(t.space(sc.Space), joined(who, "and"))},
		{Text: sc.Action},
		lit,
		{Text: runs(sc.Seconds)},
	}}
}

// lit is when a scene is filmed and in what light; what keeps it from being filmed is noted.
func (t teller) lit(sc plan.Scene) (lit Cell, note []string) {
	lit.Text = t.lightOf(sc)
	for _, c := range t.days {
		placed, ok := c.day.Placed(sc.ID)
		if !ok {
			continue
		}
		if len(t.days) > 1 {
			lit.Strong = c.long(c.date) + "\n"
		}
		lit.Strong += c.span(plan.Span{From: placed.Start, To: placed.End})
		if w, ok := c.window(placed); ok {
			lit.Text += "\nthere " + c.span(w)
		}
		if sc.Wish.Kind.Or() != plan.Any || len(sc.Values) > 0 {
			lit.Text = lines(lit.Text, keeps(placed.Kept))
		}
		return lit, nil
	}
	for _, c := range t.days {
		for _, l := range c.day.LeftOut {
			if l.Scene == sc.ID {
				lit.Strong = "not on the day yet"
				return lit, []string{waits(l.Why)}
			}
		}
	}
	return lit, nil
}

// keeps says in words how much of its light a scene has where it stands; of all of it, which allOfIt tells, nothing.
func keeps(share float64) string {
	switch percent := day.Percent(share); {
	case percent == 100:
		return ""
	case percent >= 90:
		return "keeps nearly all of it"
	case percent >= 60:
		return "keeps most of it"
	case percent >= 40:
		return "keeps about half of it"
	case percent > 0:
		return "keeps little of it"
	}
	return "keeps none of it"
}

// waits says to a client, without a figure or a name, why a scene has no place yet; the owner reads the whole of it on the page of
// the day.
func waits(why plan.Problem) string {
	out := "It waits for a place: "
	switch why.Code {
	case plan.NeverLight:
		return out + "its light does not come on this date. Another date, or another light, may do."
	case plan.NeverBoth:
		return out + "its light comes on this date, but not when everything else that it needs is there."
	case plan.NeverFree:
		return out + "not everybody who is in it can be there at one time on this date."
	case plan.LeftOutHours:
		return out + "beside the other scenes it would be more than the hours of somebody in it."
	case plan.PinForbidden:
		return out + "it is fixed to a time at which it can't be filmed."
	case plan.LeftOutCheap:
		return out + "the day is kinder to the other scenes without it."
	case plan.LeftOutClash, plan.WindowFull, plan.LeftOutAlone:
		return out + "the day is too short for it and the scenes that want the same time. A shorter scene, another date or another day may do."
	}
	return out + stopped(why.String())
}

// plainLight says a wish as one would to somebody who does not hold the camera.
var plainLight = map[plan.WishKind]string{
	plan.Any:           "in any light",
	plan.Daylight:      "by daylight",
	plan.GoldenMorning: "in the golden light of the morning",
	plan.GoldenEvening: "in the golden light of the evening",
	plan.BlueMorning:   "in the blue light before sunrise",
	plan.BlueEvening:   "in the blue light after sunset",
	plan.Sunrise:       "as the sun comes up",
	plan.Sunset:        "as the sun goes down",
	plan.FaceLit:       "with the sun on the house",
	plan.FaceShade:     "in the shade of the house",
	plan.Backlit:       "against the sun",
	plan.SideLit:       "with the sun from the side",
	plan.FrontLit:      "with the sun behind the camera",
	plan.SunPatch:      "with sun in through the windows",
	plan.SoftWindow:    "in soft light from the windows, without sun",
	plan.HighSun:       "under a high sun",
	plan.Dark:          "in the dark",
}

func (t teller) lightOf(sc plan.Scene) string {
	kind := sc.Wish.Kind.Or()
	out := plainLight[kind]
	face, named := t.Face(sc.Wish.Face)
	switch {
	case len(sc.Values) > 0:
		return "in the light of its own hours"
	case sc.Wish.Direct:
		return out + ", with the sun itself"
	case kind == plan.FaceLit && named && face.Name != "":
		return "with the sun on the " + strings.TrimPrefix(face.Name, "the ")
	case kind == plan.FaceShade && named && face.Name != "":
		return "in the shade of the " + strings.TrimPrefix(face.Name, "the ")
	}
	return out
}
