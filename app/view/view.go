// Package view turns the session's state into what the pages say: rows, texts and marks ready to show. It is pure and knows
// no Fyne, so the screens are tested here.
package view

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
	"eavelight/plan/locate"
	"eavelight/plan/people"
	"eavelight/plan/say"
)

// Page names one page of the window.
type Page string

// The pages, in the order of the work. Shoot and Wrap come with their own issues; a page is shown when it works.
const (
	Brief    Page = "brief"
	Property Page = "property"
	Scenes   Page = "scenes"
	People   Page = "people"
	Day      Page = "day"
	Price    Page = "price"
	Papers   Page = "papers"
)

// Pages lists them in the order of the work.
var Pages = []Page{Brief, Property, Scenes, People, Day, Price, Papers}

var titles = map[Page]string{
	Brief:    say.Mark("page|Brief"),
	Property: say.Mark("page|Property"),
	Scenes:   say.Mark("page|Scenes"),
	People:   say.Mark("page|People"),
	Day:      say.Mark("page|Day"),
	Price:    say.Mark("page|Price"),
	Papers:   say.Mark("page|Papers"),
}

// Title is the page's name on screen.
func (p Page) Title() string { return tongue.Marked(titles[p]) }

// parts are the parts of the document that a page answers for.
var parts = map[Page][]string{
	Brief:    {"title", "brief"},
	Property: {"property"},
	Scenes:   {"scenes"},
	People:   {"people", "releases"},
	Day:      {"shooting"},
	Price:    {"pricing"},
	Papers:   {"papers"},
}

// Lacking is the line under a page's name: what it still lacks, or what it holds when nothing is missing.
func Lacking(page Page, st session.State) string {
	var lacks plan.Problems
	for _, part := range parts[page] {
		lacks = append(lacks, st.Results.Lacks.Under(part)...)
	}
	switch n := len(lacks); {
	case n == 1:
		return tongue.Of(lacks[0])
	case n > 1:
		return tongue.Say("%s, and %d more", tongue.Of(lacks[0]), n-1)
	}
	return holds(page, st)
}

func holds(page Page, st session.State) string {
	p := st.Plan
	switch page {
	case Brief:
		return p.Brief.Client
	case Property:
		return tongue.Count(len(p.Property.Spaces), "%d space", "%d spaces")
	case Scenes:
		return tongue.Count(len(p.Scenes), "%d scene", "%d scenes")
	case People:
		if n := len(Unsigned(st)); n > 0 {
			return tongue.Count(n, "%d release to be signed", "%d releases to be signed")
		}
		return tongue.Count(len(p.People), "%d person, all signed", "%d people, all signed")
	case Day:
		d := st.Results.Chosen
		if len(d.LeftOut) > 0 {
			return tongue.Count(len(d.LeftOut), "%d scene left out", "%d scenes left out")
		}
		if d.Date.IsZero() { // the first placing is under way, or was stopped
			return tongue.Say("no day is placed yet")
		}
		return shortDate(d.Date)
	case Price:
		return priceLine(st)
	}
	if !hasDay(st) {
		return tongue.Say("no day to write about yet")
	}
	if n := len(Unsigned(st)); n > 0 {
		return tongue.Count(n, "call sheet; %d release to be signed", "call sheet; %d releases to be signed")
	}
	return tongue.Say("call sheet")
}

// shortDate is a date for a narrow place, "Sat 6 Mar 2027".
func shortDate(d plan.Date) string { return tongue.Of(d.SaidShort()) }

// Title is the window's title: the plan's, marked when it holds what no file holds.
func Title(st session.State) string {
	name := cmp.Or(st.Plan.Title, tongue.Say("Untitled plan"))
	if st.Dirty {
		name = "• " + name
	}
	return name + " – Eavelight"
}

// Status is the line at the foot of the window.
func Status(st session.State) string {
	r := st.Results
	switch {
	case r.Err != nil:
		return tongue.Say("The day could not be computed: %s", tongue.Error(r.Err))
	case st.Unkept != nil:
		return tongue.Say("Unsaved changes can't be kept aside, so save often: %s", tongue.Error(st.Unkept))
	case r.Busy && r.Of > 1:
		return tongue.Say("Placing the scenes: date %d of %d…", min(len(r.Days)+1, r.Of), r.Of)
	case r.Busy:
		return tongue.Say("Placing the scenes…")
	case r.Stopped:
		return tongue.Count(len(r.Days), "Stopped: %d date placed of %d. The next change places them again.",
			"Stopped: %d dates placed of %d. The next change places them again.", r.Of)
	case len(r.Wrong) > 0:
		return r.Wrong[0].Path + ": " + tongue.Of(r.Wrong[0])
	}
	return Figures(st.Plan, r.Chosen)
}

// Figures sum a day up in one line.
func Figures(p plan.Plan, d day.Day) string {
	if len(d.Scenes) == 0 {
		if len(d.Problems) > 0 {
			return sentence(tongue.Of(d.Problems[0]))
		}
		return tongue.Say("No scene is placed yet.")
	}
	var waits plan.Minutes
	for _, pr := range d.People {
		waits += pr.Waits
	}
	parts := []string{
		shortDate(d.Date),
		tongue.Say("times|%s to %s (%s)", clock(d, d.Call), clock(d, d.Wrap), d.Length()),
		tongue.Say("%d %% of the light", day.Percent(d.LightKept(&p))),
		tongue.Say("waiting %s", waits),
		tongue.Count(len(d.Moves), "%d move", "%d moves"),
		Proof(d),
	}
	return strings.Join(parts, "  ·  ")
}

// clock is the wall clock at the property, with a mark for the next date.
func clock(d day.Day, t time.Time) string {
	c := plan.ClockOn(d.Date, t, d.Zone)
	if m := c.Minutes(); m >= 24*60 {
		return hour(plan.ClockAt(m-24*60)) + " +1"
	}
	return hour(c)
}

// hour is a time of day as the clock of the window shows it.
func hour(c plan.Clock) string { return tongue.Of(say.Plain(c.String())) }

func sentence(s string) string {
	if s == "" {
		return ""
	}
	return upper(s) + "."
}

// upper begins a text with a capital letter.
func upper(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return ""
	}
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}

// Row is one line of a list: a title, a line under it, and a mark that says in a word what to look at.
type Row struct {
	ID    plan.ID
	Title string
	Sub   string
	Mark  string
}

// SceneRows are the lines of the Scenes page.
func SceneRows(st session.State) []Row {
	rows := make([]Row, 0, len(st.Plan.Scenes))
	for _, s := range st.Plan.Scenes {
		space := tongue.Say("no space")
		if sp, ok := st.Plan.Space(s.Space); ok {
			space = SpaceName(sp)
		}
		row := Row{ID: s.ID, Title: SceneName(s), Sub: strings.Join([]string{space, lightName(s), s.Shoot.String()}, " · ")}
		row.Mark = sceneMark(st, s)
		rows = append(rows, row)
	}
	return rows
}

// sceneMark says when the scene is shot, or that it is not.
func sceneMark(st session.State, s plan.Scene) string {
	d := st.Results.Chosen
	if i := slices.IndexFunc(st.Plan.Log, func(e plan.LogEntry) bool { return e.Scene == s.ID }); i >= 0 {
		return tongue.Say("shot %s", st.Plan.Log[i].Date)
	}
	for _, at := range d.Scenes {
		if at.Scene == s.ID {
			return clock(d, at.Start)
		}
	}
	if d.Sky == nil {
		return ""
	}
	return tongue.Say("left out")
}

// SceneName is a scene's number and title.
func SceneName(s plan.Scene) string {
	return strings.TrimSpace(s.Number + "  " + cmp.Or(s.Title, tongue.Say("untitled scene")))
}

// SpaceName is a space's name, or its id where it has none.
func SpaceName(s plan.Space) string { return cmp.Or(s.Name, string(s.ID)) }

// FaceName is a face's name and where it looks.
func FaceName(f plan.Face) string { return fmt.Sprintf("%s (%s)", FaceShort(f), tongue.Of(f.Bearing)) }

// FaceShort is a face's name alone.
func FaceShort(f plan.Face) string { return cmp.Or(f.Name, string(f.ID)) }

// PersonRows are the lines of the People page.
func PersonRows(st session.State) []Row {
	missing := people.Missing(&st.Plan, st.Results.Chosen.Date, Doubts(st))
	rows := make([]Row, 0, len(st.Plan.People))
	for _, q := range st.Plan.People {
		n := 0
		for _, s := range st.Plan.Scenes {
			if slices.Contains(s.People, q.ID) {
				n++
			}
		}
		sub := []string{cmp.Or(q.Job, tongue.Of(q.Role.Or()))}
		if people.Minor(&st.Plan, q, st.Results.Chosen.Date) {
			sub = append(sub, tongue.Say("person|minor"))
		}
		if q.Paid {
			sub = append(sub, tongue.Say("person|paid"))
		}
		if n > 0 {
			sub = append(sub, tongue.Count(n, "%d scene", "%d scenes"))
		}
		if slices.ContainsFunc(missing, func(u people.Unsigned) bool { return u.Person == q.ID }) {
			sub = append(sub, tongue.Say("not signed"))
		}
		row := Row{ID: q.ID, Title: cmp.Or(q.Name, tongue.Say("unnamed person")), Sub: strings.Join(sub, " · ")}
		if pr, ok := st.Results.Chosen.Presence(q.ID); ok {
			row.Mark = clock(st.Results.Chosen, pr.Call) + "–" + clock(st.Results.Chosen, pr.Release)
		}
		rows = append(rows, row)
	}
	return rows
}

// PersonDay says what a day asks of one person.
func PersonDay(st session.State, id plan.ID) string {
	d := st.Results.Chosen
	pr, ok := d.Presence(id)
	if !ok {
		if d.Sky == nil {
			return NoDay(st)
		}
		return tongue.Say("Not called on %s.", d.Date.SaidShort())
	}
	text := tongue.Say("%s: called %s, free to go %s.", d.Date.SaidShort(), clock(d, pr.Call), clock(d, pr.Release))
	if who, ok := st.Plan.Person(id); ok && who.Travel > 0 {
		text += " " + tongue.Say("Leaves home by %s.", clock(d, pr.Call.Add(-time.Duration(who.Travel)*time.Minute)))
	}
	if len(pr.OnCamera) > 0 {
		var names []string
		for _, on := range pr.OnCamera {
			s, _ := st.Plan.Scene(on.Scene)
			names = append(names, s.Name()+" ("+clock(d, on.From)+")")
		}
		text += " " + tongue.Say("On camera %s, in %s. Waiting %s.", pr.Filmed, strings.Join(names, ", "), pr.Waits)
	}
	return text
}

// SceneDay says what became of a scene on the day: when it is shot and how much of its light it keeps, or why it is not;
// and what its light does that day.
func SceneDay(st session.State, id plan.ID) string {
	d := st.Results.Chosen
	sc, ok := st.Plan.Scene(id)
	if !ok {
		return ""
	}
	if d.Sky == nil {
		return NoDay(st)
	}
	text := shot(st.Plan, id)
	for _, at := range d.Scenes {
		if at.Scene == id {
			text += tongue.Say("%s: set-up %s, shooting %s–%s. It keeps %d %% of its light.", d.Date.SaidShort(),
				clock(d, at.Setup), clock(d, at.Start), clock(d, at.End), day.Percent(at.Kept)) + " "
		}
	}
	if f, ok := d.Flight(id); ok && f.Light != "" {
		text += tongue.Say("Its flight is %s.", tongue.Of(f.Words(d.Zone))) + " "
	}
	for _, out := range d.LeftOut {
		if out.Scene == id {
			text += sentence(tongue.Of(out.Why)) + " "
		}
	}
	if len(sc.Values) > 0 {
		return text
	}
	return text + tongue.Say("Its light (%s): %s", lightName(sc), tongue.Of(say.Join(" ", d.Sky.Explain(sc)...)))
}

// lightName is the light that a scene wants, in a word or three.
func lightName(sc plan.Scene) string {
	if len(sc.Values) > 0 {
		return tongue.Say("light by the clock")
	}
	return tongue.Of(sc.Wish.Kind.Or())
}

// ValuesLine says a scene's light where it is said by the clock.
func ValuesLine(sc plan.Scene) string {
	var shares []string
	for _, v := range sc.Values {
		shares = append(shares, fmt.Sprintf("%s–%s %.0f %%", hour(v.From), hour(v.To), 100*v.Share))
	}
	return tongue.Say("%s; none at other times. It stands in the plan file; another wish takes its place.", strings.Join(shares, ", "))
}

// shot says what really happened to a scene, from the shoot log.
func shot(p plan.Plan, id plan.ID) string {
	text := ""
	for _, e := range p.Log {
		if e.Scene != id {
			continue
		}
		text += tongue.Say("Shot %s", e.Date.SaidShort())
		if e.Start.IsSet() && e.End.IsSet() {
			text += fmt.Sprintf(", %s–%s", hour(e.Start), hour(e.End))
		}
		if e.Note != "" {
			text += " (" + e.Note + ")"
		}
		text += ". "
	}
	return text
}

// LampLine says whether a scene's lamp holds against the light of its space when it is shot, and what that light asks of
// the camera.
func LampLine(st session.State, id plan.ID) string {
	d := st.Results.Chosen
	sc, ok := st.Plan.Scene(id)
	if !ok || d.Sky == nil {
		return NoSky(st, tongue.Say("Set the position and a date, and the lamp is held against the light there."))
	}
	for _, at := range d.Scenes {
		if at.Scene != id {
			continue
		}
		minute := d.Sky.MinuteOf(at.Start)
		against, ok := d.Sky.Lamp(sc, minute)
		if !ok {
			return ""
		}
		verdict := tongue.Say("It does not lead there: small lamps seldom overpower daylight; go closer, take the modifier off, or wait for less light.")
		if against.Holds() {
			verdict = tongue.Say("It can lead.")
		}
		ambient := max(against.Ambient, 0.01)
		return tongue.Say("At %s %s. %s The light there is exposure value %.0f at ISO 100, give or take a stop or two.",
			clock(d, at.Start), against, verdict, light.ExposureValue(ambient))
	}
	return tongue.Say("The scene is not placed on %s.", d.Date.SaidShort())
}

// SpaceRows are the lines of the list of spaces.
func SpaceRows(st session.State) []Row {
	rows := make([]Row, 0, len(st.Plan.Property.Spaces))
	for _, s := range st.Plan.Property.Spaces {
		n := 0
		for _, sc := range st.Plan.Scenes {
			if sc.Space == s.ID {
				n++
			}
		}
		sub := []string{tongue.Of(s.Kind.Or()), tongue.Count(n, "%d scene", "%d scenes")}
		for _, id := range s.Faces {
			if f, ok := st.Plan.Face(id); ok {
				sub = append(sub, cmp.Or(f.Name, string(f.ID)))
			}
		}
		rows = append(rows, Row{ID: s.ID, Title: SpaceName(s), Sub: strings.Join(sub, " · ")})
	}
	return rows
}

// PositionLine says where the property is.
func PositionLine(p plan.Plan) string {
	if p.Property.Position == nil {
		return tongue.Say("Not set yet. Without it the light can't be computed.")
	}
	return p.Property.Position.String()
}

// FoundName is how a place that was looked up is called.
func FoundName(f locate.Found) string {
	if f.Name.IsZero() {
		return f.Position.String()
	}
	return tongue.Of(f.Name)
}

// MinorCaution stands wherever a minor is planned for.
func MinorCaution() string {
	return tongue.Say("Minors: local law decides about hours, permits and consent, and who must be there. Ask a licensed adviser of the place. " +
		"A guardian signs for them and stays within reach.")
}

// BearingAdvice says which bearings are asked for, and how a compass reading becomes one.
func BearingAdvice(p plan.Plan) string {
	if p.Property.Declination == 0 {
		return tongue.Say("Bearings are degrees clockwise from true north. A compass shows magnetic north: type its reading with an m, as in 235m, " +
			"once the declination is filled in.")
	}
	return tongue.Say("Bearings are degrees clockwise from true north. A compass shows magnetic north: type its reading with an m, as in 235m, "+
		"and %.1f° are added.", float64(p.Property.Declination))
}

// ObstacleAngles says how high each obstacle stands, as a clinometer at the property would read it.
func ObstacleAngles(p plan.Plan) string {
	var out []string
	for i, o := range p.Property.Obstacles {
		name := cmp.Or(o.Name, tongue.Say("obstacle %d", i+1))
		out = append(out, tongue.Say("%s stands %.1f° high", name, float64(light.ObstacleAltitude(o.Height, o.Distance))))
	}
	text := tongue.Say("A clinometer aimed at the top of what hides the sky reads the skyline's degrees directly.")
	if len(out) > 0 {
		text = strings.Join(out, ", ") + ". " + text
	}
	return text
}
