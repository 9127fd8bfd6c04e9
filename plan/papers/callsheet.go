package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

// CallSheet says who is to be where at what time on a shooting day, for everybody who comes. It holds no one's fee, no
// one's private notes and no minor's phone or mail. What the plan does not say yet is said in words. It is numbered, and marks what
// has changed since the one that was sent last. Where the days of the shoot are given, it tells of the next one.
func CallSheet(p *plan.Plan, d day.Day, shoot ...day.Day) Sheet {
	c := newCaller(p, d)
	s := c.callSheet()
	sent := revision(p, d)
	c.mark(&s, sent)
	s.number("", sent)
	s.Sections = append([]Section{c.changes(sent, func(plan.SentItem) bool { return true })}, s.Sections...)
	s.Sections = append(s.Sections, c.next(shoot, func(d day.Day) []string { return newCaller(p, d).outline() }))
	return s
}

// callSheet is the call sheet for all, of no revision yet, and of this day alone.
func (c caller) callSheet() Sheet {
	s := c.sheet("Call sheet", Fact{"General call", c.clock(c.day.Call)}, c.hours(),
		c.place(), c.people(), c.light(), c.schedule(), c.covers(), c.safety(false), c.absent())
	s.key = callKey
	return s
}

// number puts onto a sheet which revision it is; lead stands before that in its foot.
func (s *Sheet) number(lead string, sent plan.SentSheet) {
	last := len(s.Lines) - 1 // which day it is
	s.Lines[last] += fmt.Sprint(", revision ", sent.Revision)
	s.Foot = lead + s.Lines[last] + " · " + s.Foot
}

// caller collects what the sections of the papers of one day have in common.
type caller struct {
	*plan.Plan
	wall
	day   day.Day
	named bool // whether the zone is the property's
}

func newCaller(p *plan.Plan, d day.Day) caller {
	c := caller{Plan: p, day: d, named: true}
	c.style, c.date, c.zone = styleOf(p), d.Date, d.Zone
	if c.zone == nil {
		zone, err := time.LoadLocation(p.Property.Zone)
		c.zone, c.named = zone, err == nil && p.Property.Zone != ""
		if !c.named {
			c.zone = time.UTC
		}
	}
	return c
}

// sheet is one for the day, with what stands at its head and foot.
func (c caller) sheet(kind string, key Fact, note string, sections ...Section) Sheet {
	return Sheet{
		Kind:     kind,
		Title:    cmp.Or(strings.TrimSpace(c.Title), "Untitled plan"),
		Lines:    c.lines(),
		Key:      key,
		KeyNote:  note,
		Sections: sections,
		Foot:     c.foot(),
		Zone:     c.zone,
	}
}

// lines are the head of the sheet.
func (c caller) lines() []string {
	return []string{orEmpty(c.Property.Name, "Property not named"), cmp.Or(c.long(c.date), "Date not set"),
		fmt.Sprintf("day %d of %d", max(1, c.day.Number), max(1, c.day.Of))}
}

// hours are the day's other fixed times.
func (c caller) hours() string {
	if c.day.Call.IsZero() {
		return "the day is not placed yet"
	}
	var out []string
	for _, m := range c.day.Meals {
		out = append(out, "meal\u00a0"+c.span(m))
	}
	return strings.Join(append(out, "wrap\u00a0"+c.clock(c.day.Wrap)), ", ")
}

func (c caller) foot() string {
	if !c.named {
		return "times are in UTC: the time zone is not set"
	}
	from, to := c.offset(c.day.Call), c.offset(c.day.Wrap)
	switch {
	case c.day.Call.IsZero():
		return "times are local: " + c.zone.String()
	case from == to:
		return fmt.Sprintf("times are local: %s (%s)", c.zone, from)
	}
	return fmt.Sprintf("times are local: %s (%s at call, %s at wrap)", c.zone, from, to)
}

const notFilledIn = "not filled in"

func orEmpty(s, empty string) string { return cmp.Or(strings.TrimSpace(s), empty) }

func (c caller) place() Section {
	position := notFilledIn
	if at := c.Property.Position; at != nil {
		position = at.String() + " (" + at.GeoURI() + ")"
	}
	s := Section{Heading: "Where", Beside: c.geoCode(), Facts: []Fact{
		{"Address", orEmpty(c.Property.Address, notFilledIn)},
		{"Position", position},
		{"Getting there", orEmpty(c.Papers.Access, notFilledIn)},
		{"Parking", orEmpty(c.Papers.Parking, notFilledIn)},
		{"Nearest hospital", orEmpty(c.Papers.Hospital, notFilledIn)},
		{"Questions", c.questions()},
	}}
	client := strings.TrimSpace(c.Brief.Client)
	if agent := strings.TrimSpace(c.Brief.Agent); agent != "" && agent != client {
		client = strings.TrimPrefix(client+"; agent: "+agent, "; ")
	}
	for _, f := range []Fact{{"Client", client}, {"Note", strings.TrimSpace(c.Papers.Notes)}} {
		if f.Text != "" {
			s.Facts = append(s.Facts, f)
		}
	}
	return s
}

// questions says who to ask: the maker's is the one phone that everybody gets.
func (c caller) questions() string {
	maker, ok := people.Maker(c.Plan)
	if !ok {
		return orEmpty(c.Papers.Producer, notFilledIn)
	}
	return maker.Name + ", " + orEmpty(maker.Phone, "phone "+notFilledIn)
}

// The keys of the parts of a call sheet that are marked when they change.
const (
	callKey   = "call"
	mealKey   = "meal "
	wrapKey   = "wrap"
	sceneKey  = "scene "
	personKey = "person "
)

// times is the width of a column of times.
func (c caller) times(usual float64) float64 {
	if c.style.clock == plan.Clock12 {
		return usual + 12
	}
	return usual
}

const noSceneYet = "No scene is placed on this day yet."

// schedule lists the day in the order of its clock, what happens between the scenes set back.
func (c caller) schedule() Section {
	s := Section{Heading: "Schedule"}
	if len(c.day.Scenes) == 0 {
		s.Text = []string{noSceneYet}
		return s
	}
	s.Table.Columns = []Column{{"Time", c.times(36)}, {"Scene, where and who", 95}, {"Light, wardrobe and kit", 53}}
	s.Table.Rows = c.byClock(func(placed day.Placed) []Row { return []Row{{Cells: c.scene(placed), sheetPart: c.scenePart(placed)}} })
	return s
}

func (c caller) scenePart(placed day.Placed) sheetPart {
	sc := c.sceneOf(placed.Scene)
	return sheetPart{sceneKey + string(sc.ID), "Scene " + titled(sc), plan.Span{From: placed.Start, To: placed.End}}
}

// event is what a day's list says at a time.
type event struct {
	at    time.Time
	order int // among those at the same time
	rows  []Row
}

// inOrder is what events say, in the order of the clock.
func inOrder(events []event) []Row {
	slices.SortStableFunc(events, func(a, b event) int { return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.order, b.order)) })
	var out []Row
	for _, e := range events {
		out = append(out, e.rows...)
	}
	return out
}

// byClock lists a day in the order of its clock: call, meals, what scene makes of each scene, whatever else there is, and wrap.
func (c caller) byClock(scene func(day.Placed) []Row, more ...event) []Row {
	events := append(c.meals(plan.Span{From: c.day.Call, To: c.day.Wrap}), more...)
	for _, placed := range c.day.Scenes {
		events = append(events, event{placed.Setup, 3, scene(placed)})
	}
	return inOrder(append(events,
		c.aside(0, callKey, plan.Span{From: c.day.Call}, "General call"),
		c.aside(4, wrapKey, plan.Span{From: c.day.Wrap}, "Wrap")))
}

// meals are those within a span.
func (c caller) meals(within plan.Span) []event {
	var out []event
	for i, m := range c.day.Meals {
		if m.From.Before(within.To) && within.From.Before(m.To) {
			out = append(out, c.aside(1, fmt.Sprint(mealKey, i+1), m, "Meal, "+m.Minutes().String()))
		}
	}
	return out
}

// aside is what happens between the scenes, at a moment or for a while.
func (c caller) aside(order int, key string, at plan.Span, what string) event {
	when := c.clock(at.From)
	if !at.To.IsZero() {
		when = c.span(at)
	}
	name, _, _ := strings.Cut(what, ",")
	return event{at.From, order, []Row{{Aside: true, Cells: []Cell{{Strong: when}, {Text: what}}, sheetPart: sheetPart{key, name, at}}}}
}

// scene is one placed scene's row.
func (c caller) scene(placed day.Placed) []Cell {
	sc := c.sceneOf(placed.Scene)
	when := c.when(placed)
	if m, ok := c.moveBefore(placed); ok {
		when.Text = lines("move "+c.span(m.Span), when.Text)
	}
	light := c.wish(sc.Wish)
	if sc.Wish.Kind.Or() != plan.Any {
		light += fmt.Sprintf("\u00a0–\u00a0%d\u00a0%%", day.Percent(placed.Kept))
	}
	return []Cell{
		when,
		{Strong: titled(sc), Text: lines(c.space(sc.Space)+": "+c.names(sc.People), sc.Action, sc.Notes)},
		{Text: lines(light, c.flight(sc.ID), c.wear(sc), c.kit(sc), c.cover(sc))},
	}
}

// wear is what people wear in a scene, one a line.
func (c caller) wear(sc plan.Scene) string {
	var out []string
	for _, l := range sc.Looks {
		if look := strings.TrimSpace(l.Look); look != "" && slices.Contains(sc.People, l.Person) {
			out = append(out, "wear: "+look+" ("+together(c.name(l.Person))+")")
		}
	}
	return lines(out...)
}

// sceneOf is a scene of the plan; of one that an edit has since taken out, only the id is left.
func (c caller) sceneOf(id plan.ID) plan.Scene {
	sc, ok := c.Scene(id)
	if !ok {
		sc.ID = id
	}
	return sc
}

// when tells the times of a placed scene: its shooting, the set-up before it, and its light.
func (c caller) when(placed day.Placed) Cell {
	out := Cell{Strong: c.span(plan.Span{From: placed.Start, To: placed.End})}
	if placed.Setup.Before(placed.Start) {
		out.Text = "set up " + c.clock(placed.Setup)
	}
	if w, ok := c.window(placed); ok {
		out.Text = lines(out.Text, "light "+c.span(w))
	}
	return out
}

// flight, kit and cover are lines about a scene, empty where there is nothing to say.
func (c caller) flight(scene plan.ID) string {
	f, ok := c.day.Flight(scene)
	if !ok || f.Light == "" {
		return ""
	}
	return "flight " + c.clocks(f.Words(c.zone).String())
}

func (c caller) kit(sc plan.Scene) string {
	if len(sc.Kit) == 0 {
		return ""
	}
	return "kit: " + strings.Join(sc.Kit, ", ")
}

func (c caller) cover(sc plan.Scene) string {
	if sc.Cover == "" {
		return ""
	}
	return "weather cover: scene\u00a0" + c.sceneName(sc.Cover)
}

// moveBefore is the move that brings the kit to a scene, where it does not stay in its space: the last one that begins
// before the scene is set up and no earlier than the scene before it ends.
func (c caller) moveBefore(placed day.Placed) (move day.Move, ok bool) {
	var free time.Time
	for _, s := range c.day.Scenes {
		if s.End.After(free) && !s.End.After(placed.Setup) {
			free = s.End
		}
	}
	for _, m := range c.day.Moves {
		if !m.Span.From.Before(free) && !m.Span.To.After(placed.Setup) {
			move, ok = m, true
		}
	}
	return move, ok
}

// standIn is a scene that takes the place of others in bad weather and has none on the day itself.
type standIn struct {
	plan.Scene
	instead []string // of which scenes
}

func (c caller) standIns() []standIn {
	var out []standIn
	for _, placed := range c.day.Scenes {
		sc, _ := c.Scene(placed.Scene)
		if sc.Cover == "" || c.placed(sc.Cover) {
			continue
		}
		i := slices.IndexFunc(out, func(s standIn) bool { return s.ID == sc.Cover })
		if i < 0 {
			i, out = len(out), append(out, standIn{Scene: c.sceneOf(sc.Cover)})
		}
		out[i].instead = append(out[i].instead, sc.Name())
	}
	return out
}

const coversHeading = "If the weather takes the light"

// next outlines the next day of the shoot, where it has one. It has a call sheet of its own, so that it is no part of the revisions
// of this one.
func (c caller) next(shoot []day.Day, outline func(day.Day) []string) Section {
	number := max(1, c.day.Number) + 1
	i := slices.IndexFunc(shoot, func(d day.Day) bool { return d.Number == number && !d.Call.IsZero() })
	if i < 0 {
		return Section{}
	}
	return Section{
		Heading: "The next day",
		Text:    []string{fmt.Sprintf("%s, day %d of %d. In advance; its own call sheet has the times that hold.", c.long(shoot[i].Date), number, shoot[i].Of)},
		List:    outline(shoot[i]),
	}
}

// outline is a day as it is told in advance.
func (c caller) outline() []string {
	out := []string{"General call " + c.clock(c.day.Call) + ", " + c.hours()}
	for _, placed := range c.day.Scenes {
		sc, _ := c.Scene(placed.Scene)
		out = append(out, c.span(plan.Span{From: placed.Start, To: placed.End})+" "+c.scenePart(placed).name+", "+c.space(sc.Space))
	}
	var called []string
	for _, q := range c.day.People {
		called = append(called, together(c.name(q.Person))+"\u00a0"+c.clock(q.Call))
	}
	return append(out, "Called: "+cmp.Or(strings.Join(called, ", "), "nobody yet"))
}

// covers describes the stand-ins, so that they can be shot from the sheet alone.
func (c caller) covers() Section {
	s := Section{Heading: coversHeading}
	for _, cover := range c.standIns() {
		text := fmt.Sprintf("Scene %s instead of scene %s: %s, %s.", titled(cover.Scene), strings.Join(cover.instead, " or "),
			c.space(cover.Space), c.names(cover.People))
		if len(cover.Kit) > 0 {
			text += " Kit: " + strings.Join(cover.Kit, ", ") + "."
		}
		s.List = append(s.List, text)
	}
	return s
}

func (c caller) placed(id plan.ID) bool {
	return slices.ContainsFunc(c.day.Scenes, func(s day.Placed) bool { return s.Scene == id })
}

// titled is a scene's number and title, whichever it has.
func titled(s plan.Scene) string {
	if s.Number != "" && s.Title != "" {
		return s.Number + "\u2002" + s.Title
	}
	return s.Name()
}

func (c caller) sceneName(id plan.ID) string {
	if s, ok := c.Scene(id); ok {
		return s.Name()
	}
	return string(id)
}

func (c caller) space(id plan.ID) string {
	if id == "" {
		return "space not said"
	}
	s, _ := c.Space(id)
	return cmp.Or(s.Name, string(id))
}

func (c caller) name(id plan.ID) string {
	p, _ := c.Person(id)
	return cmp.Or(p.Name, string(id))
}

func (c caller) names(ids []plan.ID) string {
	if len(ids) == 0 {
		return "nobody on camera"
	}
	var out []string
	for _, id := range ids {
		out = append(out, together(c.name(id)))
	}
	return strings.Join(out, ", ")
}

// together keeps a name of ordinary length on one line.
func together(name string) string {
	if utf8.RuneCountInString(name) > 24 {
		return name
	}
	return strings.ReplaceAll(name, " ", "\u00a0")
}

// lines puts texts on lines of their own and leaves the empty ones out.
func lines(texts ...string) string {
	texts = slices.DeleteFunc(texts, func(s string) bool { return strings.TrimSpace(s) == "" })
	return strings.Join(texts, "\n")
}
