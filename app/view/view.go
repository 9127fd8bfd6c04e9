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
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
	"eavelight/plan/locate"
	"eavelight/plan/people"
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

// Title is the page's name on screen.
func (p Page) Title() string { return strings.ToUpper(string(p[:1])) + string(p[1:]) }

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
		return lacks[0].String()
	case n > 1:
		return fmt.Sprintf("%s, and %d more", lacks[0], n-1)
	}
	return holds(page, st)
}

func holds(page Page, st session.State) string {
	p := st.Plan
	switch page {
	case Brief:
		return p.Brief.Client
	case Property:
		return count(len(p.Property.Spaces), "space", "spaces")
	case Scenes:
		return count(len(p.Scenes), "scene", "scenes")
	case People:
		if n := len(Unsigned(st)); n > 0 {
			return count(n, "release to be signed", "releases to be signed")
		}
		return count(len(p.People), "person", "people") + ", all signed"
	case Day:
		d := st.Results.Chosen
		if len(d.LeftOut) > 0 {
			return count(len(d.LeftOut), "scene left out", "scenes left out")
		}
		return d.Date.Short()
	case Price:
		return priceLine(st)
	}
	if !hasDay(st) {
		return "no day to write about yet"
	}
	if n := len(Unsigned(st)); n > 0 {
		return "call sheet; " + count(n, "release to be signed", "releases to be signed")
	}
	return "call sheet"
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Title is the window's title: the plan's, marked when it holds what no file holds.
func Title(st session.State) string {
	name := cmp.Or(st.Plan.Title, "Untitled plan")
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
		return "The day could not be computed: " + r.Err.Error()
	case st.Unkept != nil:
		return "Unsaved changes can't be kept aside, so save often: " + st.Unkept.Error()
	case r.Busy && r.Of > 1:
		return fmt.Sprintf("Placing the scenes: date %d of %d…", min(len(r.Days)+1, r.Of), r.Of)
	case r.Busy:
		return "Placing the scenes…"
	case r.Stopped:
		return fmt.Sprintf("Stopped: %s placed of %d. The next change places them again.", count(len(r.Days), "date", "dates"), r.Of)
	case len(r.Wrong) > 0:
		return r.Wrong[0].Path + ": " + r.Wrong[0].String()
	}
	return Figures(st.Plan, r.Chosen)
}

// Figures sum a day up in one line.
func Figures(p plan.Plan, d day.Day) string {
	if len(d.Scenes) == 0 {
		if len(d.Problems) > 0 {
			return sentence(d.Problems[0].String())
		}
		return "No scene is placed yet."
	}
	var waits plan.Minutes
	for _, pr := range d.People {
		waits += pr.Waits
	}
	parts := []string{
		d.Date.Short(),
		fmt.Sprintf("%s to %s (%s)", clock(d, d.Call), clock(d, d.Wrap), d.Length()),
		fmt.Sprintf("%d %% of the light", day.Percent(d.LightKept(&p))),
		fmt.Sprintf("waiting %s", waits),
		count(len(d.Moves), "move", "moves"),
		Proof(d),
	}
	return strings.Join(parts, "  ·  ")
}

// clock is the wall clock at the property, with a mark for the next date.
func clock(d day.Day, t time.Time) string {
	c := plan.ClockOn(d.Date, t, d.Zone)
	if m := c.Minutes(); m >= 24*60 {
		return plan.ClockAt(m-24*60).String() + " +1"
	}
	return c.String()
}

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
		space := "no space"
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
		return "shot " + st.Plan.Log[i].Date.String()
	}
	for _, at := range d.Scenes {
		if at.Scene == s.ID {
			return clock(d, at.Start)
		}
	}
	if d.Sky == nil {
		return ""
	}
	return "left out"
}

// SceneName is a scene's number and title.
func SceneName(s plan.Scene) string {
	return strings.TrimSpace(s.Number + "  " + cmp.Or(s.Title, "untitled scene"))
}

// SpaceName is a space's name, or its id where it has none.
func SpaceName(s plan.Space) string { return cmp.Or(s.Name, string(s.ID)) }

// FaceName is a face's name and where it looks.
func FaceName(f plan.Face) string { return fmt.Sprintf("%s (%s)", FaceShort(f), f.Bearing) }

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
		sub := []string{cmp.Or(q.Job, string(q.Role.Or()))}
		if people.Minor(&st.Plan, q, st.Results.Chosen.Date) {
			sub = append(sub, "minor")
		}
		if q.Paid {
			sub = append(sub, "paid")
		}
		if n > 0 {
			sub = append(sub, count(n, "scene", "scenes"))
		}
		row := Row{ID: q.ID, Title: cmp.Or(q.Name, "unnamed person"), Sub: strings.Join(sub, " · ")}
		if pr, ok := st.Results.Chosen.Presence(q.ID); ok {
			row.Mark = clock(st.Results.Chosen, pr.Call) + "–" + clock(st.Results.Chosen, pr.Release)
		}
		if slices.ContainsFunc(missing, func(u people.Unsigned) bool { return u.Person == q.ID }) {
			row.Sub += " · not signed"
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
			return ""
		}
		return "Not called on " + d.Date.Short() + "."
	}
	text := fmt.Sprintf("%s: called %s, free to go %s.", d.Date.Short(), clock(d, pr.Call), clock(d, pr.Release))
	if who, ok := st.Plan.Person(id); ok && who.Travel > 0 {
		text += fmt.Sprintf(" Leaves home by %s.", clock(d, pr.Call.Add(-time.Duration(who.Travel)*time.Minute)))
	}
	if len(pr.OnCamera) > 0 {
		var names []string
		for _, on := range pr.OnCamera {
			s, _ := st.Plan.Scene(on.Scene)
			names = append(names, s.Name()+" ("+clock(d, on.From)+")")
		}
		text += fmt.Sprintf(" On camera %s, in %s. Waiting %s.", pr.Filmed, strings.Join(names, ", "), pr.Waits)
	}
	return text
}

// SceneDay says what became of a scene on the day: when it is shot and how much of its light it keeps, or why it is not;
// and what its light does that day.
func SceneDay(st session.State, id plan.ID) string {
	d := st.Results.Chosen
	sc, ok := st.Plan.Scene(id)
	if !ok || d.Sky == nil {
		return ""
	}
	text := shot(st.Plan, id)
	for _, at := range d.Scenes {
		if at.Scene == id {
			text += fmt.Sprintf("%s: set-up %s, shooting %s–%s. It keeps %d %% of its light. ", d.Date.Short(),
				clock(d, at.Setup), clock(d, at.Start), clock(d, at.End), day.Percent(at.Kept))
		}
	}
	if f, ok := d.Flight(id); ok && f.Light != "" {
		text += "Its flight is " + f.Words(d.Zone) + ". "
	}
	for _, out := range d.LeftOut {
		if out.Scene == id {
			text += sentence(out.Why.String()) + " "
		}
	}
	if len(sc.Values) > 0 {
		return text
	}
	return text + "Its light (" + lightName(sc) + "): " + strings.Join(d.Sky.Explain(sc), " ")
}

// lightName is the light that a scene wants, in a word or three.
func lightName(sc plan.Scene) string {
	if len(sc.Values) > 0 {
		return "light by the clock"
	}
	return string(sc.Wish.Kind.Or())
}

// ValuesLine says a scene's light where it is said by the clock.
func ValuesLine(sc plan.Scene) string {
	var shares []string
	for _, v := range sc.Values {
		shares = append(shares, fmt.Sprintf("%s–%s %.0f %%", v.From, v.To, 100*v.Share))
	}
	return strings.Join(shares, ", ") + "; none at other times. It stands in the plan file; another wish takes its place."
}

// shot says what really happened to a scene, from the shoot log.
func shot(p plan.Plan, id plan.ID) string {
	text := ""
	for _, e := range p.Log {
		if e.Scene != id {
			continue
		}
		text += "Shot " + e.Date.Short()
		if e.Start.IsSet() && e.End.IsSet() {
			text += fmt.Sprintf(", %s–%s", e.Start, e.End)
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
		return "Set the position and a date, and the lamp is held against the light there."
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
		verdict := "It does not lead there: small lamps seldom overpower daylight; go closer, take the modifier off, or wait for less light."
		if against.Holds() {
			verdict = "It can lead."
		}
		ambient := max(against.Ambient, 0.01)
		return fmt.Sprintf("At %s %s. %s The light there is exposure value %.0f at ISO 100, give or take a stop or two.",
			clock(d, at.Start), against, verdict, light.ExposureValue(ambient))
	}
	return "The scene is not placed on " + d.Date.Short() + "."
}

// Troubles lists what is wrong with a day, the worst first: scenes left out, then warnings. Who waits long is one line.
func Troubles(d day.Day) []string {
	var out, waits []string
	say := func(p plan.Problem) {
		if s := sentence(p.String()); !slices.Contains(out, s) { // a full window is one trouble, not one a scene
			out = append(out, s)
		}
	}
	for _, l := range d.LeftOut {
		say(l.Why)
	}
	for _, p := range d.Problems {
		if p.Code == plan.WaitsLong {
			waits = append(waits, p.String())
			continue
		}
		say(p)
	}
	if len(waits) > 0 {
		out = append(out, sentence(strings.Join(waits, ", ")))
	}
	return out
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
		sub := []string{string(s.Kind.Or()), count(n, "scene", "scenes")}
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
		return "Not set yet. Without it the light can't be computed."
	}
	return p.Property.Position.String()
}

// FoundName is how a place that was looked up is called.
func FoundName(f locate.Found) string {
	if f.Name == "" {
		return f.Position.String()
	}
	return f.Name
}

// MinorCaution stands wherever a minor is planned for.
const MinorCaution = "Minors: local law decides about hours, permits and consent, and who must be there. Ask a licensed adviser of the place. " +
	"A guardian signs for them and stays within reach."

// BearingAdvice says which bearings are asked for, and how a compass reading becomes one.
func BearingAdvice(p plan.Plan) string {
	text := "Bearings are degrees clockwise from true north. A compass shows magnetic north: type its reading with an m, as in 235m, "
	if p.Property.Declination == 0 {
		return text + "once the declination is filled in."
	}
	return text + fmt.Sprintf("and %.1f° are added.", float64(p.Property.Declination))
}

// ObstacleAngles says how high each obstacle stands, as a clinometer at the property would read it.
func ObstacleAngles(p plan.Plan) string {
	var out []string
	for i, o := range p.Property.Obstacles {
		out = append(out, fmt.Sprintf("%s stands %.1f° high", cmp.Or(o.Name, fmt.Sprintf("obstacle %d", i+1)), float64(light.ObstacleAltitude(o.Height, o.Distance))))
	}
	text := "A clinometer aimed at the top of what hides the sky reads the skyline's degrees directly."
	if len(out) > 0 {
		text = strings.Join(out, ", ") + ". " + text
	}
	return text
}
