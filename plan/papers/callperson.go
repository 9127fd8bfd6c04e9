package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

// PersonSheet is the call sheet of one person: their own call and scenes, what they wear, when they wait and eat, what they still have
// to sign and how they get there. A minor's is addressed to the guardian, and a guardian's has the parts of their minors too. Crew see
// the whole schedule. It holds no phone but the maker's. Its revision is that of the day's call sheet for all.
func PersonSheet(p *plan.Plan, d day.Day, who plan.ID, shoot ...day.Day) Sheet {
	r := newReader(p, d, who)
	s := Sheet{Kind: "Call sheet", Title: r.who.Called(), Lines: r.lines(), Foot: r.foot(), Zone: r.zone}
	r.key(&s)
	s.Sections = r.own()
	if r.crew() {
		s.Sections = append(s.Sections, r.schedule(), r.place(), r.light(), r.covers(), r.safety(false))
	} else {
		s.Sections = append(s.Sections, r.place(), r.daylight(), r.cautions())
	}
	sent := revision(p, d)
	r.mark(&s, sent)
	film := filmTitle(p) + ", "
	if utf8.RuneCountInString(film) > 50 { // it stands in full on the first page
		film = ""
	}
	s.number(film, sent)
	s.Sections = append([]Section{r.changes(sent, r.concern(s))}, s.Sections...)
	s.Sections = append(s.Sections, r.next(shoot, func(d day.Day) []string { return newReader(p, d, who).outline() }))
	return s
}

// reader collects what the sections of one person's call sheet have in common.
type reader struct {
	caller
	who   plan.Person
	parts []personPart // theirs, if they are called, then those of the minors who come
}

type personPart struct {
	plan.Person
	called day.Presence
}

func newReader(p *plan.Plan, d day.Day, id plan.ID) reader {
	r := reader{caller: newCaller(p, d)}
	var ok bool
	if r.who, ok = p.Person(id); !ok {
		r.who.ID = id
	}
	if called, ok := d.Presence(id); ok {
		r.parts = append(r.parts, personPart{r.who, called})
	}
	for _, q := range p.People {
		if called, ok := d.Presence(q.ID); ok && q.ID != id && q.Guardian == id && r.minor(q) && !r.minor(r.who) {
			r.parts = append(r.parts, personPart{q, called})
		}
	}
	return r
}

// crew reports whether the reader works behind the camera on that day.
func (r reader) crew() bool {
	return len(r.parts) > 0 && r.parts[0].ID == r.who.ID && r.who.Role == plan.Crew
}

// adult reports whether a part is the reader's own, who is of age: "your call" and not "the call of".
func (r reader) adult(q plan.Person) bool { return q.ID == r.who.ID && !r.minor(q) }

func (r reader) lines() []string {
	out := r.caller.lines()
	out[0] = lines(filmTitle(r.Plan), out[0])
	switch {
	case !r.minor(r.who):
		return out
	case r.who.Guardian == "":
		return append([]string{"for the guardian, who is " + notFilledIn}, out...)
	}
	return append([]string{"for " + r.name(r.who.Guardian) + ", the guardian"}, out...)
}

// key is the call that the reader looks for: their own, or else that of the first minor who comes.
func (r reader) key(s *Sheet) {
	if len(r.parts) == 0 {
		s.Key = Fact{r.whose(r.who, "call"), "not called"}
		return
	}
	first := r.parts[0]
	s.Key, s.key = Fact{r.whose(first.Person, "call"), r.clock(first.called.Call)}, personKey+string(first.ID)
	s.KeyNote = "until about " + r.clock(first.called.Release)
	for _, o := range r.parts[1:] {
		s.KeyNote = lines(s.KeyNote, o.Called()+"\u00a0"+r.clock(o.called.Call))
	}
}

func (r reader) whose(q plan.Person, what string) string {
	if r.adult(q) {
		return "Your " + what
	}
	return "The " + what + " of " + q.Called()
}

// own are the days of the reader and their minors.
func (r reader) own() []Section {
	if len(r.parts) == 0 {
		text := "You are not called on this day."
		if r.minor(r.who) {
			text = r.who.Called() + " is not called on this day."
		}
		return []Section{{Heading: r.whose(r.who, "day"), Text: []string{text}}}
	}
	unsigned := people.Missing(r.Plan, r.date, people.Stale(r.Plan, r.date))
	var out []Section
	for _, o := range r.parts {
		s := Section{Heading: r.whose(o.Person, "day"), Facts: []Fact{{"Part", r.part(o.Person)}}}
		if r.minor(o.Person) {
			s.Facts = append(s.Facts, Fact{"Guardian", r.guarded(o.Person)})
		}
		open := r.release(o.Person, o.called, unsigned)
		if len(o.called.OnCamera) > 0 {
			s.Facts = append(s.Facts, Fact{"Release", cmp.Or(open, "signed")})
			if !r.dressed(o) {
				s.Facts = append(s.Facts, Fact{"Wear", "what you like and can move in, plain, without brand names or large letters"})
			}
		}
		if o.ID != r.who.ID || !r.crew() {
			s.Table = r.table(o)
		}
		out = append(out, s)
	}
	return out
}

func (r reader) guarded(minor plan.Person) string {
	where := ", at the property the whole time"
	if minor.GuardianThere == plan.Reachable {
		where = ", in reach by phone the whole time"
	}
	if minor.Guardian == "" {
		return notFilledIn
	}
	return r.name(minor.Guardian) + where
}

// dressed reports whether the plan says what somebody wears.
func (r reader) dressed(o personPart) bool { return len(looks(r.Scenes, o.ID)) > 0 }

// table is somebody's day by the clock.
func (r reader) table(o personPart) Table {
	here := plan.Span{From: o.called.Call, To: o.called.Release}
	events := append(r.meals(here),
		r.aside(0, personKey+string(o.ID), plan.Span{From: here.From}, "Call"),
		r.aside(3, "", plan.Span{From: here.To}, "Free to go, at about this time"))
	for _, w := range o.called.Waiting {
		events = append(events, r.aside(2, "", w, "Free until the next scene, "+w.Minutes().String()))
	}
	for _, on := range o.called.OnCamera {
		if placed, ok := r.day.Placed(on.Scene); ok {
			events = append(events, event{placed.Start, 2, []Row{{Cells: r.role(o, placed), sheetPart: r.scenePart(placed)}}})
		}
	}
	return Table{Columns: []Column{{"Time", r.times(30)}, {"Scene, where and with whom", 88}, {"Clothes and light", 62}}, Rows: inOrder(events)}
}

// role is one scene as one person needs it.
func (r reader) role(o personPart, placed day.Placed) []Cell {
	sc := r.sceneOf(placed.Scene)
	with := r.space(sc.Space)
	others := slices.DeleteFunc(slices.Clone(sc.People), func(id plan.ID) bool { return id == o.ID })
	if len(others) > 0 {
		with += ", with " + r.names(others)
	}
	var wear string
	for _, l := range sc.Looks {
		if look := strings.TrimSpace(l.Look); l.Person == o.ID && look != "" {
			wear = "wear: " + look
		}
	}
	light := r.wish(sc.Wish)
	if w, ok := r.window(placed); ok {
		light += ", " + r.span(w)
	}
	return []Cell{
		{Strong: r.span(plan.Span{From: placed.Start, To: placed.End})},
		{Strong: titled(sc), Text: lines(with, sc.Action)},
		{Text: lines(wear, light)},
	}
}

// daylight is the light of the day for those who only have to know when it is dark, and what to put on.
func (r reader) daylight() Section {
	s := Section{Heading: "Light", Facts: []Fact{{"Weather", r.weather()}}}
	if r.day.Sky != nil && r.Property.Position != nil {
		e := r.day.Sky.Events
		s.Facts = append([]Fact{{"Sunrise", r.crossing(e, e.Rise.Up, e.RiseAltitude)}, {"Sunset", r.crossing(e, e.Rise.Down, e.RiseAltitude)}}, s.Facts...)
	}
	return s
}

// cautions are those of the scenes of the reader and their minors.
func (r reader) cautions() Section {
	c := r.caller
	c.day.Scenes, c.day.People = nil, nil
	for _, placed := range r.day.Scenes {
		if r.in(placed.Scene) {
			c.day.Scenes = append(c.day.Scenes, placed)
		}
	}
	for _, o := range r.parts {
		c.day.People = append(c.day.People, o.called)
	}
	return c.safety(false)
}

// in reports whether anybody of the sheet is in a scene on that day.
func (r reader) in(scene plan.ID) bool {
	return slices.ContainsFunc(r.parts, func(o personPart) bool {
		return slices.ContainsFunc(o.called.OnCamera, func(on day.OnCamera) bool { return on.Scene == scene })
	})
}

// concern tells which changes the reader is told of: of what stands on their sheet, and of scenes that they were in, as far as the
// plan still knows who was. Crew are told of all.
func (r reader) concern(s Sheet) func(plan.SentItem) bool {
	here := map[string]bool{"title": true, "property": true, dateKey: true, "days": true, "zone": true}
	for i := range s.Sections {
		s.Sections[i].parts(func(it sheetPart, _ string, _ func(string)) { here[it.key] = true })
	}
	return func(item plan.SentItem) bool {
		id, isScene := strings.CutPrefix(item.Key, sceneKey)
		if isScene && item.Change == plan.ItemGone && !r.crew() {
			sc, known := r.Scene(plan.ID(id))
			return !known || slices.ContainsFunc(r.parts, func(o personPart) bool { return slices.Contains(sc.People, o.ID) })
		}
		return r.crew() || here[item.Key] || item.Key == personKey+string(r.who.ID)
	}
}

// outline are the calls of another day.
func (r reader) outline() []string {
	if len(r.parts) == 0 {
		return []string{"Not called."}
	}
	var out []string
	for _, o := range r.parts {
		text := fmt.Sprintf("%s: %s, until about %s", r.whose(o.Person, "call"), r.clock(o.called.Call), r.clock(o.called.Release))
		if len(o.called.OnCamera) > 0 {
			text += "; scenes " + r.scenesOf(o.Person, o.called)
		}
		out = append(out, text)
	}
	return out
}
