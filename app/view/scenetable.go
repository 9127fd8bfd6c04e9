package view

import (
	"cmp"
	"errors"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/say"
)

// SceneColumn is one thing that is said of a scene, as a cell of a table says it: of the one on the page, or of one that is
// pasted from a spreadsheet.
type SceneColumn struct {
	Head   string                               // a form that is marked, as the two that follow
	Field  string                               // as undo and complaints call it
	Called string                               // what else may stand over it in a spreadsheet, with commas between
	Text   func(*plan.Plan, *plan.Scene) string // as it is typed
	Shown  func(*plan.Plan, *plan.Scene) string // as it is read at a glance; nil: as it is typed
	Read   func(p *plan.Plan, text string) (func(*plan.Scene), error)
	Offer  func(*plan.Plan) []string // what can be said; nil: anything
	Share  float32                   // of the width
	Figure bool
	Hidden bool // only in what is pasted: the form has it
}

// SceneColumns are the columns, in the order they are shown and in that in which they are pasted without headings.
var SceneColumns = []SceneColumn{
	{Head: say.Mark("column|No."), Field: say.Mark("number"), Called: say.Mark("headings|number, no, nr, #, scene, scene no, scene number"), Share: 3,
		Text: func(_ *plan.Plan, s *plan.Scene) string { return s.Number }, Read: readLine(func(s *plan.Scene) *string { return &s.Number })},
	{Head: say.Mark("column|Title"), Field: say.Mark("title"), Called: say.Mark("headings|name, scene title, scene name, description"), Share: 11.9,
		Text:  func(_ *plan.Plan, s *plan.Scene) string { return s.Title },
		Shown: func(_ *plan.Plan, s *plan.Scene) string { return cmp.Or(s.Title, tongue.Say("untitled scene")) },
		Read:  readLine(func(s *plan.Scene) *string { return &s.Title })},
	{Head: say.Mark("column|Space"), Field: say.Mark("space"), Called: say.Mark("headings|room, place, location, where, set"), Share: 7.3,
		Text: spaceText, Shown: spaceShown, Read: readSpace, Offer: spaceNames},
	{Head: say.Mark("column|People"), Field: say.Mark("people"), Called: say.Mark("headings|who, cast, talent, person"), Share: 11.1,
		Text: peopleText, Shown: peopleShown, Read: readPeople},
	{Head: say.Mark("column|Light"), Field: say.Mark("light wish"), Called: say.Mark("headings|light wish, wish, time of day, sun"), Share: 8.2,
		Text: func(_ *plan.Plan, s *plan.Scene) string { return lightName(*s) }, Read: readWish, Offer: names(plan.WishKinds)},
	{Head: say.Mark("column|Set-up"), Field: say.Mark("set-up minutes"), Called: say.Mark("headings|setup, set-up minutes, setup min, set-up min, prep"), Share: 4.4, Figure: true,
		Text: minutesText(func(s *plan.Scene) *plan.Minutes { return &s.Setup }), Read: readMinutes(func(s *plan.Scene) *plan.Minutes { return &s.Setup })},
	{Head: say.Mark("column|Shooting"), Field: say.Mark("shooting minutes"), Called: say.Mark("headings|shoot, shooting minutes, shoot min, shooting min, minutes, duration"), Share: 5.4, Figure: true,
		Text: minutesText(func(s *plan.Scene) *plan.Minutes { return &s.Shoot }), Read: readMinutes(func(s *plan.Scene) *plan.Minutes { return &s.Shoot })},
	{Head: say.Mark("column|Seconds"), Field: say.Mark("seconds on screen"), Called: say.Mark("headings|sec, secs, s, seconds on screen, screen time, length"), Share: 5, Figure: true,
		Text: func(_ *plan.Plan, s *plan.Scene) string { return figure(s.Seconds) }, Read: readSeconds},
	{Head: say.Mark("column|Importance"), Field: say.Mark("importance"), Called: say.Mark("headings|priority, must"), Share: 7,
		Text: func(_ *plan.Plan, s *plan.Scene) string { return tongue.Of(s.Importance.Or()) }, Read: readImportance, Offer: names(plan.Importances)},
	{Head: say.Mark("column|Action"), Field: say.Mark("action"), Called: say.Mark("headings|what happens, story"), Hidden: true,
		Text: func(_ *plan.Plan, s *plan.Scene) string { return s.Action }, Read: readText(func(s *plan.Scene) *string { return &s.Action })},
	{Head: say.Mark("column|Kit"), Field: say.Mark("kit"), Called: say.Mark("headings|equipment, gear, props"), Hidden: true,
		Text: func(_ *plan.Plan, s *plan.Scene) string { return strings.Join(s.Kit, ", ") },
		Read: func(_ *plan.Plan, text string) (func(*plan.Scene), error) {
			return func(s *plan.Scene) { s.Kit = list(text) }, nil
		}},
	{Head: say.Mark("column|Notes"), Field: say.Mark("notes"), Called: say.Mark("headings|note, remarks, comment, comments"), Hidden: true,
		Text: func(_ *plan.Plan, s *plan.Scene) string { return s.Notes }, Read: readText(func(s *plan.Scene) *string { return &s.Notes })},
}

// Heading is what stands over the column.
func (c SceneColumn) Heading() string { return tongue.Marked(c.Head) }

// Name is how undo and complaints call it.
func (c SceneColumn) Name() string { return tongue.Marked(c.Field) }

// TableColumns are those that the table on the page shows.
func TableColumns() []SceneColumn {
	return slices.DeleteFunc(slices.Clone(SceneColumns), func(c SceneColumn) bool { return c.Hidden })
}

// SceneLine is a scene in the table.
type SceneLine struct {
	ID    plan.ID
	Cells []string
	Bare  bool   // it has no title
	Mark  string // when it is shot that day, or that it is not
}

// SceneLines are the scenes with all words of a filter in number, title, space or people, and the one to be kept in sight.
func SceneLines(st session.State, filter string, keep plan.ID) []SceneLine {
	columns := TableColumns()
	rows := make([]SceneLine, 0, len(st.Plan.Scenes))
	for i := range st.Plan.Scenes {
		s := &st.Plan.Scenes[i]
		if s.ID != keep && !fits(&st.Plan, s, filter) {
			continue
		}
		row := SceneLine{ID: s.ID, Bare: s.Title == "", Mark: sceneMark(st, *s)}
		for _, c := range columns {
			text := c.Text
			if c.Shown != nil {
				text = c.Shown
			}
			row.Cells = append(row.Cells, oneLine(text(&st.Plan, s)))
		}
		rows = append(rows, row)
	}
	return rows
}

// Faint reports whether a cell says what nobody said.
func (l SceneLine) Faint(column int) bool { return l.Bare && column == 1 }

func fits(p *plan.Plan, s *plan.Scene, filter string) bool {
	words := strings.Fields(strings.ToLower(filter))
	if len(words) == 0 {
		return true
	}
	text := strings.ToLower(strings.Join([]string{s.Number, s.Title, spaceText(p, s), peopleText(p, s)}, "\n"))
	for _, word := range words {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

// FilterLine says how many scenes a filter leaves, nothing without one.
func FilterLine(rows []SceneLine, st session.State, filter string) string {
	if strings.TrimSpace(filter) == "" {
		return ""
	}
	return tongue.Say("%d of %d", len(rows), len(st.Plan.Scenes))
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// value is one that a plan file has a word for.
type value interface {
	~string
	In(say.Tongue) string
}

func names[T value](all []T) func(*plan.Plan) []string {
	return func(*plan.Plan) []string {
		out := make([]string, len(all))
		for i, v := range all {
			out[i] = tongue.Of(v)
		}
		return out
	}
}

func figure(v int) string {
	if v == 0 {
		return ""
	}
	return strconv.Itoa(v)
}

func list(text string) []string {
	var out []string
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		if word = strings.TrimSpace(word); word != "" {
			out = append(out, word)
		}
	}
	return out
}

func readText(at func(*plan.Scene) *string) func(*plan.Plan, string) (func(*plan.Scene), error) {
	return func(_ *plan.Plan, text string) (func(*plan.Scene), error) {
		return func(s *plan.Scene) { *at(s) = strings.TrimSpace(text) }, nil
	}
}

func readLine(at func(*plan.Scene) *string) func(*plan.Plan, string) (func(*plan.Scene), error) {
	return func(_ *plan.Plan, text string) (func(*plan.Scene), error) {
		return func(s *plan.Scene) { *at(s) = oneLine(text) }, nil
	}
}

func minutesText(at func(*plan.Scene) *plan.Minutes) func(*plan.Plan, *plan.Scene) string {
	return func(_ *plan.Plan, s *plan.Scene) string { return figure(int(*at(s))) }
}

// timeForms are a number by itself or with its unit, and minutes past an hour, in every language of the window.
var (
	plainTime = regexp.MustCompile(`^(\d{1,6})(?:[.,]0+)?\s*(?:m|mins?|minutes?|minutos?|s|secs?|segs?|seconds?|segundos?|'|")?$`)
	hoursTime = regexp.MustCompile(`^(\d{1,3})\s*(?:h|hrs?|hours?|horas?|:)\s*(?:(\d{1,2})\s*(?:m|min)?)?$`)
)

func readMinutes(at func(*plan.Scene) *plan.Minutes) func(*plan.Plan, string) (func(*plan.Scene), error) {
	return func(_ *plan.Plan, text string) (func(*plan.Scene), error) {
		v, err := readFigure(text, true)
		return func(s *plan.Scene) { *at(s) = plan.Minutes(v) }, err
	}
}

func readSeconds(_ *plan.Plan, text string) (func(*plan.Scene), error) {
	v, err := readFigure(text, false)
	return func(s *plan.Scene) { s.Seconds = v }, err
}

// readFigure reads a whole number of minutes, or of seconds; nothing is 0. What stands before a colon, or before an h, counts
// sixty times.
func readFigure(text string, minutes bool) (int, error) {
	t := strings.ToLower(strings.TrimSpace(text))
	if t == "" {
		return 0, nil
	}
	if m := plainTime.FindStringSubmatch(t); m != nil {
		return strconv.Atoi(m[1])
	}
	if m := hoursTime.FindStringSubmatch(t); m != nil && (minutes || strings.Contains(t, ":")) {
		large, _ := strconv.Atoi(m[1])
		small, _ := strconv.Atoi(m[2]) // none is 0
		return large*60 + small, nil
	}
	if minutes {
		return 0, say.Error("%q is not a whole number of minutes", quoted(text))
	}
	return 0, say.Error("%q is not a whole number of seconds", quoted(text))
}

// quoted is as much of what was typed as an answer repeats.
func quoted(text string) string { return clipped(oneLine(text), 40) }

// called is something that a cell can name.
type called struct{ id, name string }

// naming is what is said where nothing is called as a cell has it: of those that there are, and where there are none.
type naming struct{ other, none string }

var (
	aSpace  = naming{say.Mark("no space is called %q; there is %s"), say.Mark("no space is called %q; there is none in this plan yet")}
	aPerson = naming{say.Mark("no person is called %q; there is %s"), say.Mark("no person is called %q; there is none in this plan yet")}
	aLight  = naming{other: say.Mark("no light is called %q; there is %s")}
	aRank   = naming{other: say.Mark("no importance is called %q; there is %s")}
)

// find is the id of the one thing that is called so: by name, by id, by the beginning of its name or of a word in it.
func find(what naming, text string, all []called) (string, error) {
	said := text
	text = strings.ToLower(oneLine(text))
	for _, is := range []func(called) bool{
		func(c called) bool { return strings.ToLower(oneLine(c.name)) == text },
		func(c called) bool { return strings.ToLower(c.id) == text },
		func(c called) bool { return strings.HasPrefix(strings.ToLower(oneLine(c.name)), text) },
		func(c called) bool { return strings.Contains(" "+strings.ToLower(oneLine(c.name)), " "+text) },
	} {
		var found []called
		for _, c := range all {
			if is(c) {
				found = append(found, c)
			}
		}
		switch {
		case len(found) == 1:
			return found[0].id, nil
		case len(found) > 1:
			return "", say.Error("%q may be %s: write more of it", quoted(said), either(found))
		}
	}
	if len(all) == 0 {
		return "", errors.New(tongue.Of(say.Marked(what.none, quoted(said))))
	}
	return "", errors.New(tongue.Of(say.Marked(what.other, quoted(said), either(all))))
}

// either lists what something may be, at most six.
func either(all []called) string {
	var out []string
	for _, c := range all[:min(len(all), 6)] {
		name := quoted(c.name)
		if slices.ContainsFunc(all, func(o called) bool { return o.id != c.id && o.name == c.name }) {
			name += " (" + c.id + ")"
		}
		out = append(out, name)
	}
	if len(all) > 6 {
		out = append(out, tongue.Say("either|others"))
	}
	if len(out) == 1 {
		return out[0]
	}
	return tongue.Say("either|%s or %s", strings.Join(out[:len(out)-1], ", "), out[len(out)-1])
}

// callable lists things with the text that a cell names each by: its id where the name is another's too, or would be read as two.
func callable[T any](all []T, of func(T) called) []called {
	out := make([]called, len(all))
	for i, v := range all {
		out[i] = of(v)
	}
	return out
}

// cellName is what a cell calls one of some things, so that find finds it again.
func cellName(id plan.ID, all []called) string {
	i := slices.IndexFunc(all, func(c called) bool { return c.id == string(id) })
	if i < 0 {
		return string(id)
	}
	if got, err := find(naming{}, all[i].name, all); err != nil || got != string(id) || len(list(all[i].name)) != 1 || list(all[i].name)[0] != all[i].name {
		return string(id)
	}
	return all[i].name
}

func spaces(p *plan.Plan) []called {
	return callable(p.Property.Spaces, func(s plan.Space) called { return called{string(s.ID), SpaceName(s)} })
}

func persons(p *plan.Plan) []called {
	return callable(p.People, func(q plan.Person) called { return called{string(q.ID), q.Called()} })
}

func spaceText(p *plan.Plan, s *plan.Scene) string {
	if s.Space == "" {
		return ""
	}
	return cellName(s.Space, spaces(p))
}

func spaceShown(p *plan.Plan, s *plan.Scene) string {
	if sp, ok := p.Space(s.Space); ok {
		return SpaceName(sp)
	}
	return ""
}

func spaceNames(p *plan.Plan) []string {
	all := spaces(p)
	var out []string
	for _, c := range all {
		out = append(out, cellName(plan.ID(c.id), all))
	}
	return out
}

func readSpace(p *plan.Plan, text string) (func(*plan.Scene), error) {
	if strings.TrimSpace(text) == "" {
		return func(s *plan.Scene) { s.Space = "" }, nil
	}
	id, err := find(aSpace, text, spaces(p))
	return func(s *plan.Scene) { s.Space = plan.ID(id) }, err
}

func peopleText(p *plan.Plan, s *plan.Scene) string {
	all := persons(p)
	var out []string
	for _, id := range s.People {
		out = append(out, cellName(id, all))
	}
	return strings.Join(out, ", ")
}

// peopleShown are the first names, where these tell the people apart.
func peopleShown(p *plan.Plan, s *plan.Scene) string {
	first := func(name string) string { return append(strings.Fields(name), name)[0] }
	times := map[string]int{}
	for _, q := range p.People {
		times[first(q.Called())]++
	}
	var out []string
	for _, id := range s.People {
		q, _ := p.Person(id)
		name := q.Called()
		if times[first(name)] == 1 {
			name = first(name)
		}
		out = append(out, name)
	}
	return strings.Join(out, ", ")
}

func readPeople(p *plan.Plan, text string) (func(*plan.Scene), error) {
	all := persons(p)
	var ids []plan.ID
	for _, name := range list(text) {
		id, err := find(aPerson, name, all)
		if err != nil {
			return nil, err
		}
		if !slices.Contains(ids, plan.ID(id)) {
			ids = append(ids, plan.ID(id))
		}
	}
	return func(s *plan.Scene) {
		for _, id := range slices.Clone(s.People) {
			if !slices.Contains(ids, id) {
				s.SetIn(id, false) // and their look
			}
		}
		s.People = slices.Clone(ids)
	}, nil
}

func readWish(_ *plan.Plan, text string) (func(*plan.Scene), error) {
	kind, err := oneOf(aLight, text, plan.WishKinds)
	return func(s *plan.Scene) { s.SetWishKind(kind) }, err
}

func readImportance(_ *plan.Plan, text string) (func(*plan.Scene), error) {
	importance, err := oneOf(aRank, text, plan.Importances)
	return func(s *plan.Scene) { s.Importance = importance }, err
}

// oneOf reads one of some words, or the beginning of one, in the window's language or as a plan file has them; nothing is the
// usual one.
func oneOf[T value](what naming, text string, all []T) (T, error) {
	if strings.TrimSpace(text) == "" {
		return "", nil
	}
	id, err := find(what, text, callable(all, func(v T) called { return called{string(v), tongue.Of(v)} }))
	if err != nil {
		if inFile, none := find(what, text, callable(all, func(v T) called { return called{string(v), string(v)} })); none == nil {
			return T(inFile), nil
		}
	}
	return T(id), err
}
