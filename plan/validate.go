package plan

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"eavelight/plan/say"

	"github.com/shopspring/decimal"
)

// The limits of what a plan can hold. They keep a typing slip (a bearing of 3000, a scene of a week) out of the
// arithmetic; nothing sensible comes near them.
const (
	maxText     = 20_000
	maxMinutes  = 36 * 60
	maxSeconds  = 24 * 3600
	maxDistance = 100_000
	maxWeight   = 1_000_000
	maxDays     = 3
	maxCount    = 100_000
)

// MaxItems is how many things a list of a plan may have; store refuses a file with more.
const MaxItems = 500

var maxAmount = decimal.New(1, 12)

var idForm = regexp.MustCompile(`^[\p{L}\p{N}-]+$`)

// isID tells whether a text may be an id. Its length stands apart from its form, which would take a megabyte and a millisecond with it.
func isID(id ID) bool {
	return utf8.RuneCountInString(string(id)) <= 40 && idForm.MatchString(string(id))
}

// Validate returns everything in the document that is Wrong: it contradicts itself, so that no answer from it could be
// right. What is merely not said yet is Lacks' matter. A plan without Wrong problems can be computed without a panic.
func Validate(p Plan) Problems {
	v := validator{plan: p}
	v.text("title", p.Title)
	v.brief()
	v.property()
	v.scenes()
	v.people()
	v.releases()
	v.wordings()
	v.hours()
	v.shooting()
	v.pricing()
	v.papers()
	v.log()
	return v.found
}

type validator struct {
	plan  Plan
	found Problems
}

func (v *validator) wrong(path string, code Code, facts ...any) {
	v.found = append(v.found, Problem{Code: code, Level: Wrong, Path: path, Facts: facts})
}

func (v *validator) text(path, s string) {
	if utf8.RuneCountInString(s) > maxText {
		v.wrong(path, TooLong, maxText)
	}
}

func (v *validator) within(path string, x, low, high float64) {
	if !(x >= low && x <= high) { // so written that NaN is refused
		v.outside(path, plainNumber(x), plainNumber(low), plainNumber(high))
	}
}

// length is within for a length, which is told in the reader's unit.
func (v *validator) length(path string, x, low, high Metres) {
	if !(x >= low && x <= high) {
		v.wrong(path, OutOfRange, say.LengthFigure(x), say.LengthFigure(low), say.LengthFigure(high))
	}
}

// outside tells that something lies outside two figures.
func (v *validator) outside(path string, what, low, high say.Text) {
	v.wrong(path, OutOfRange, what, low, high)
}

// plainNumber prints a figure as people write it, never 1e+06.
func plainNumber(x float64) say.Text { return say.Number(strconv.FormatFloat(x, 'f', -1, 64)) }

func (v *validator) angle(path string, a *Angle, low, high float64) {
	if a != nil {
		v.within(path, float64(*a), low, high)
	}
}

func (v *validator) date(path string, d Date) {
	if d.IsZero() {
		return
	}
	if d != DateOf(d.utc()) || d.Year < 1 || d.Year > 9999 {
		v.wrong(path, NoDate, fmt.Sprintf("%04d-%02d-%02d", d.Year, int(d.Month), d.Day))
		return
	}
	v.within(path, float64(d.Year), 1900, 2100) // where the sun's theory used here holds
}

func (v *validator) order(path string, from, to Clock) {
	if from.IsSet() && to.IsSet() && to.Minutes() <= from.Minutes() {
		v.wrong(path, EndsBeforeStart, to, from)
	}
}

func oneOf[T ~string](v *validator, path string, value T, all []T) {
	if value != "" && !slices.Contains(all, value) {
		names := make([]string, len(all))
		for i, a := range all {
			names[i] = string(a)
		}
		v.wrong(path, NotOneOf, string(value), strings.Join(names, ", "), v.suggest(string(value), names))
	}
}

// suggest looks for what was meant, as long as there are few faults: in a hostile file of thousands it would take minutes.
func (v *validator) suggest(word string, known []string) say.Text {
	if len(v.found) > 100 {
		return say.Text{}
	}
	return Suggest(word, known)
}

// unique checks the ids of one list and returns them.
func unique[T any](v *validator, path string, list []T, id func(T) ID, word string) []string {
	first := map[ID]string{}
	var ids []string
	for i, item := range list {
		at := fmt.Sprintf("%s[%d].id", path, i)
		switch n := id(item); {
		case n == "":
			v.wrong(at, MissingID, fmt.Sprintf("%s-%d", word, i+1))
		case !isID(n):
			v.wrong(at, BadID, string(n))
		case first[n] != "":
			v.wrong(at, DuplicateID, string(n), first[n])
		default:
			first[n] = at
			ids = append(ids, string(n))
		}
	}
	return ids
}

// thing is what an id can stand for, as a form.
type thing string

var (
	aFace          = thing(say.Mark("face"))
	aSpace         = thing(say.Mark("space"))
	aScene         = thing(say.Mark("scene"))
	aPerson        = thing(say.Mark("person"))
	aCrewRate      = thing(say.Mark("rate of the crew"))
	anOvertimeRule = thing(say.Mark("overtime rule"))
)

// In is its name in a tongue.
func (t thing) In(tongue say.Tongue) string { return tongue.Form(string(t)) }

// String is its name in English, which package store goes by.
func (t thing) String() string { return t.In(nil) }

func (v *validator) refer(path string, id ID, ids []string, what thing) {
	if id != "" && !slices.Contains(ids, string(id)) {
		v.wrong(path, DanglingID, what, string(id), v.suggest(string(id), ids))
	}
}

func (v *validator) referAll(path string, list []ID, ids []string, what thing) {
	for i, id := range list {
		v.refer(fmt.Sprintf("%s[%d]", path, i), id, ids, what)
		if slices.Contains(list[:i], id) {
			v.wrong(fmt.Sprintf("%s[%d]", path, i), NamedTwice, string(id))
		}
	}
}

func (v *validator) brief() {
	b := v.plan.Brief
	v.text("brief.client", b.Client)
	v.text("brief.agent", b.Agent)
	v.text("brief.purpose", b.Purpose)
	v.text("brief.notes", b.Notes)
	v.date("brief.due", b.Due)
	scenes := v.sceneIDs()
	for i, d := range b.Deliverables {
		v.deliverable(fmt.Sprintf("brief.deliverables[%d]", i), d, scenes)
	}
	if b.Budget.IsZero() {
		return
	}
	if !currencyForm.MatchString(b.Budget.Currency) {
		v.wrong("brief.budget.currency", BadCurrency, b.Budget.Currency)
	}
	v.amount("brief.budget.amount", b.Budget.Amount)
}

func (v *validator) deliverable(at string, d Deliverable, scenes []string) {
	v.within(at+".seconds", float64(d.Seconds), 0, maxSeconds)
	v.referAll(at+".scenes", d.Scenes, scenes, aScene)
	oneOf(v, at+".kind", d.Kind, DeliverableKinds)
	v.within(at+".stills", float64(d.Stills), 0, maxCount)
	v.within(at+".exposures", float64(d.Exposures), 0, 99)
}

var currencyForm = regexp.MustCompile(`^[A-Z]{3}$`)

func (v *validator) property() {
	h := v.plan.Property
	v.text("property.name", h.Name)
	v.text("property.address", h.Address)
	if h.Position != nil {
		v.within("property.position.lat", h.Position.Lat, -90, 90)
		v.within("property.position.lon", h.Position.Lon, -180, 180)
	}
	v.length("property.elevation", h.Elevation, -500, 9000)
	v.within("property.declination", float64(h.Declination), -180, 180)
	if h.Air != nil {
		v.within("property.air.pressure", h.Air.Pressure, 300, 1100)
		v.within("property.air.temperature", h.Air.Temperature, -60, 60)
	}
	if h.Zone != "" {
		if _, err := time.LoadLocation(h.Zone); err != nil || h.Zone == "Local" {
			v.wrong("property.zone", BadZone, h.Zone)
		}
	}
	faces := v.faceIDs()
	for i, f := range h.Faces {
		v.within(fmt.Sprintf("property.faces[%d].bearing", i), float64(f.Bearing), 0, 360)
	}
	for i, s := range h.Skyline {
		v.within(fmt.Sprintf("property.skyline[%d].bearing", i), float64(s.Bearing), 0, 360)
		v.within(fmt.Sprintf("property.skyline[%d].altitude", i), float64(s.Altitude), -10, 90)
	}
	for i, o := range h.Obstacles {
		at := fmt.Sprintf("property.obstacles[%d]", i)
		v.length(at+".height", o.Height, 0, 9000)
		v.length(at+".distance", o.Distance, 0.1, maxDistance)
		v.within(at+".from", float64(o.From), 0, 360)
		v.within(at+".to", float64(o.To), 0, 360)
	}
	spaces := v.spaceIDs()
	for i, s := range h.Spaces {
		at := fmt.Sprintf("property.spaces[%d]", i)
		oneOf(v, at+".kind", s.Kind, SpaceKinds)
		v.referAll(at+".faces", s.Faces, faces, aFace)
		v.length(at+".head", s.Head, 0, 50)
		v.length(at+".sill", s.Sill, 0, 50)
		if s.Head > 0 && s.Sill >= s.Head {
			v.wrong(at+".sill", SillOverHead, say.Length(s.Sill), say.Length(s.Head))
		}
		for j, w := range s.Wings {
			at := fmt.Sprintf("%s.wings[%d]", at, j)
			v.within(at+".from", float64(w.From), 0, 360)
			v.within(at+".to", float64(w.To), 0, 360)
			v.within(at+".altitude", float64(w.Altitude), 0, 90)
		}
	}
	for i, m := range h.Moves {
		at := fmt.Sprintf("property.moves[%d]", i)
		v.refer(at+".from", m.From, spaces, aSpace)
		v.refer(at+".to", m.To, spaces, aSpace)
		if m.From == m.To {
			v.wrong(at+".to", SelfReference)
		}
		v.within(at+".minutes", float64(m.Minutes), 0, maxMinutes)
		same := func(n Move) bool { return n.From == m.From && n.To == m.To || n.From == m.To && n.To == m.From }
		if first := slices.IndexFunc(h.Moves, same); first < i {
			v.wrong(at, DuplicateMove, string(m.From), string(m.To), fmt.Sprintf("property.moves[%d]", first))
		}
	}
}

func (v *validator) faceIDs() []string {
	return unique(v, "property.faces", v.plan.Property.Faces, func(f Face) ID { return f.ID }, "face")
}

func (v *validator) spaceIDs() []string {
	return unique(v, "property.spaces", v.plan.Property.Spaces, func(s Space) ID { return s.ID }, "space")
}

// sceneIDs are those that others can refer to; the faults of the list itself are told by scenes.
func (v *validator) sceneIDs() []string {
	var ids []string
	for _, s := range v.plan.Scenes {
		ids = append(ids, string(s.ID))
	}
	return ids
}

func (v *validator) scenes() {
	quiet := &validator{plan: v.plan} // lists named elsewhere: their own faults are told there
	faces, spaces, people := quiet.faceIDs(), quiet.spaceIDs(), quiet.personIDs()
	scenes := unique(v, "scenes", v.plan.Scenes, func(s Scene) ID { return s.ID }, "scene")
	numbers := map[string]string{}
	for i, s := range v.plan.Scenes {
		at := fmt.Sprintf("scenes[%d]", i)
		if first := numbers[s.Number]; s.Number != "" && first != "" {
			v.wrong(at+".number", DuplicateNumber, s.Number, first)
		}
		numbers[s.Number] = at + ".number"
		v.scene(at, s)
		v.refer(at+".space", s.Space, spaces, aSpace)
		v.refer(at+".cover", s.Cover, scenes, aScene)
		v.refer(at+".light.face", s.Wish.Face, faces, aFace)
		v.referAll(at+".people", s.People, people, aPerson)
		v.referAll(at+".after", s.After, scenes, aScene)
		for j, l := range s.Looks {
			v.refer(fmt.Sprintf("%s.looks[%d].person", at, j), l.Person, people, aPerson)
		}
	}
	v.cycles()
}

func (v *validator) scene(at string, s Scene) {
	v.text(at+".action", s.Action)
	v.text(at+".notes", s.Notes)
	v.within(at+".setup", float64(s.Setup), 0, maxMinutes)
	v.within(at+".shoot", float64(s.Shoot), 0, maxMinutes)
	v.within(at+".seconds", float64(s.Seconds), 0, maxSeconds)
	oneOf(v, at+".importance", s.Importance, Importances)
	v.order(at+".to", s.From, s.To)
	v.date(at+".pin.date", s.Pin.Date)
	if s.Cover != "" && s.Cover == s.ID {
		v.wrong(at+".cover", SelfReference)
	}
	v.text(at+".lights", s.Lights)
	v.looks(at+".looks", s)
	v.shots(at+".shots", s.Shots)
	v.text(at+".audio", s.Audio)
	v.pictures(at+".pictures", s.Pictures)
	v.wish(at+".light", s.Wish)
	v.values(at+".values", s)
	v.within(at+".view", float64(s.View), 0, 180)
	if l := s.Lamp; l != nil {
		v.within(at+".lamp.lux", l.Lux, 0, maxWeight)
		v.length(at+".lamp.rated", l.Rated, 0.1, 100)
		v.within(at+".lamp.loss", l.Loss, 0, 10)
		v.length(at+".lamp.subject", l.Subject, 0.1, 100)
	}
}

// looks are those of people in the scene; scenes finds those of nobody.
func (v *validator) looks(at string, s Scene) {
	for i, l := range s.Looks {
		at := fmt.Sprintf("%s[%d]", at, i)
		who, known := v.plan.Person(l.Person)
		switch {
		case l.Person == "":
			v.wrong(at+".person", MissingName)
		case slices.ContainsFunc(s.Looks[:i], func(m Look) bool { return m.Person == l.Person }):
			v.wrong(at+".person", NamedTwice, string(l.Person))
		case known && !slices.Contains(s.People, l.Person):
			v.wrong(at+".person", NotInScene, who.Called(), s.Name())
		}
		v.name(at+".look", l.Look)
	}
}

func (v *validator) shots(at string, shots []Shot) {
	for i, s := range shots {
		at := fmt.Sprintf("%s[%d]", at, i)
		v.text(at+".frame", s.Frame)
		v.text(at+".lens", s.Lens)
		v.text(at+".movement", s.Movement)
		v.text(at+".note", s.Note)
	}
}

// name is a text that can't be left out.
func (v *validator) name(path, s string) {
	if strings.TrimSpace(s) == "" {
		v.wrong(path, MissingName)
	}
	v.text(path, s)
}

func (v *validator) values(at string, s Scene) {
	if len(s.Values) > 0 && s.Wish.Kind.Or() != Any {
		v.wrong(at, ValuesAndWish, s.Wish.Kind)
	}
	for i, l := range s.Values {
		at := fmt.Sprintf("%s[%d]", at, i)
		if !l.From.IsSet() {
			v.wrong(at+".from", MissingTime)
		}
		if !l.To.IsSet() {
			v.wrong(at+".to", MissingTime)
		}
		v.order(at+".to", l.From, l.To)
		v.within(at+".share", l.Share, 0, 1)
		overlaps := func(m Value) bool {
			return m.From.IsSet() && l.From.Minutes() < m.To.Minutes() && m.From.Minutes() < l.To.Minutes()
		}
		if j := slices.IndexFunc(s.Values[:i], overlaps); l.From.IsSet() && j >= 0 {
			v.wrong(at+".from", TimesOverlap, s.Values[j].From, s.Values[j].To)
		}
	}
}

func (v *validator) wish(at string, w Wish) {
	oneOf(v, at+".wish", w.Kind, WishKinds)
	v.angle(at+".incidence", w.Incidence, 0, 90)
	v.angle(at+".max-altitude", w.MaxAltitude, -18, 90)
	v.angle(at+".min-altitude", w.MinAltitude, -18, 90)
	v.angle(at+".below", w.Below, -90, 90)
	if w.Camera != nil {
		v.within(at+".camera", float64(*w.Camera), 0, 360)
	}
	if !slices.Contains(WishKinds, w.Kind.Or()) {
		return // what it takes can't be told
	}
	uses := w.Kind.Or().Uses()
	for _, f := range w.figures() {
		if !slices.Contains(uses, f) {
			v.wrong(at+"."+string(f), UnusedFigure, w.Kind.Or(), f)
		}
	}
}

// figures lists the figures that the wish carries.
func (w Wish) figures() []WishFigure {
	var out []WishFigure
	add := func(set bool, f WishFigure) {
		if set {
			out = append(out, f)
		}
	}
	add(w.Direct, FigureDirect)
	add(w.Face != "", FigureFace)
	add(w.Incidence != nil, FigureIncidence)
	add(w.Camera != nil, FigureCamera)
	add(w.MaxAltitude != nil, FigureMaxAltitude)
	add(w.MinAltitude != nil, FigureMinAltitude)
	add(w.Below != nil, FigureBelow)
	return out
}

// cycles finds scenes that would have to come before themselves.
func (v *validator) cycles() {
	index := map[ID]int{}
	for i, s := range v.plan.Scenes {
		index[s.ID] = i
	}
	const open, done = 1, 2
	state := make([]int, len(v.plan.Scenes))
	var trail []string
	var visit func(i int) bool
	visit = func(i int) bool {
		if state[i] == done {
			return false
		}
		s := v.plan.Scenes[i]
		trail = append(trail, s.Name())
		defer func() { trail = trail[:len(trail)-1] }()
		if state[i] == open {
			v.wrong(fmt.Sprintf("scenes[%d].after", i), Cycle, s.Name(), oneAfterAnother(trail))
			return true
		}
		state[i] = open
		for _, before := range s.After {
			if j, ok := index[before]; ok && visit(j) {
				state[i] = done
				return true
			}
		}
		state[i] = done
		return false
	}
	for i := range v.plan.Scenes {
		visit(i)
	}
}

func oneAfterAnother(names []string) say.Text {
	out := say.Plain(names[0])
	for _, n := range names[1:] {
		out = say.That("%s after %s", out, n)
	}
	return out
}

func (v *validator) personIDs() []string {
	return unique(v, "people", v.plan.People, func(p Person) ID { return p.ID }, "person")
}

func (v *validator) people() {
	ids, rates := v.personIDs(), v.crewRateIDs()
	for i, p := range v.plan.People {
		at := fmt.Sprintf("people[%d]", i)
		v.text(at+".name", p.Name)
		v.text(at+".pronouns", p.Pronouns)
		v.text(at+".sizes", p.Sizes)
		v.text(at+".diet", p.Diet)
		v.text(at+".notes", p.Notes)
		oneOf(v, at+".role", p.Role, Roles)
		v.born(at+".born", p.Born)
		oneOf(v, at+".guardian-there", p.GuardianThere, GuardiansThere)
		v.refer(at+".guardian", p.Guardian, ids, aPerson)
		v.refer(at+".rate", p.Rate, rates, aCrewRate)
		if p.Guardian != "" && p.Guardian == p.ID {
			v.wrong(at+".guardian", SelfReference)
		}
		v.within(at+".travel", float64(p.Travel), 0, maxMinutes)
		v.within(at+".weight", p.Weight, 0, 1000)
		v.within(at+".change", float64(p.Change), 0, maxMinutes)
		v.within(at+".longest", float64(p.Longest), 0, maxMinutes)
		v.within(at+".work", float64(p.Work), 0, maxMinutes)
		v.availability(at+".availability", p.Availability)
		v.text(at+".certificate.number", p.Certificate.Number)
		v.date(at+".certificate.trained", p.Certificate.Trained)
		v.date(at+".certificate.until", p.Certificate.Until)
	}
}

// born is a day of birth, no later than any day that may be shot on.
func (v *validator) born(at string, born Date) {
	v.date(at, born)
	s := v.plan.Shooting
	for _, d := range append([]Date{s.Date}, s.Dates...) {
		if !d.IsZero() && d.Before(born) {
			v.wrong(at, BornLater, born, d)
			return
		}
	}
}

func (v *validator) availability(at string, times []Availability) {
	for i, a := range times {
		at := fmt.Sprintf("%s[%d]", at, i)
		v.date(at+".date", a.Date)
		v.order(at+".to", a.From, a.To)
	}
}

func (v *validator) shooting() {
	s := v.plan.Shooting
	for i, d := range s.Dates {
		at := fmt.Sprintf("shooting.dates[%d]", i)
		if d.IsZero() {
			v.wrong(at, MissingDate)
		}
		v.date(at, d)
		if first := slices.Index(s.Dates, d); first < i {
			v.wrong(at, NamedTwice, d.String())
		}
	}
	v.date("shooting.date", s.Date)
	for i, w := range s.Weather {
		at := fmt.Sprintf("shooting.weather[%d]", i)
		v.date(at+".date", w.Date)
		v.order(at+".to", w.From, w.To)
		v.within(at+".cloud", float64(w.Cloud), 0, 100)
		v.within(at+".rain", float64(w.Rain), 0, 100)
	}
	v.kit()
	v.flying()
	v.rules()
	v.weights()
	v.limits("golden", s.Light.GoldenLow, s.Light.GoldenHigh)
	v.limits("blue", s.Light.BlueLow, s.Light.BlueHigh)
}

func (v *validator) kit() {
	kit := v.plan.Shooting.Kit
	for i, k := range kit {
		at := fmt.Sprintf("shooting.kit[%d]", i)
		v.name(at+".name", k.Name)
		same := func(other Kit) bool { return other.Is(k.Name) }
		if j := slices.IndexFunc(kit, same); j < i && k.Name != "" {
			v.wrong(at+".name", DuplicateName, k.Name, fmt.Sprintf("shooting.kit[%d].name", j))
		}
		v.availability(at+".availability", k.Availability)
	}
}

func (v *validator) flying() {
	f := v.plan.Shooting.Flying
	quiet := &validator{plan: v.plan} // the faults of the people themselves are told elsewhere
	oneOf(v, "shooting.flying.rules", f.Rules, FlightRuleNames)
	v.date("shooting.flying.read", f.Read)
	v.refer("shooting.flying.read-by", f.ReadBy, quiet.personIDs(), aPerson)
}

func (v *validator) rules() {
	s := v.plan.Shooting
	v.within("shooting.days", float64(s.DayCount()), 1, maxDays)
	v.order("shooting.latest-wrap", s.EarliestCall, s.LatestWrap)
	for _, m := range []struct {
		name string
		low  Minutes
		Minutes
	}{{"longest", 1, s.Longest}, {"prepare", 0, s.Prepare}, {"ready", 0, s.Ready}, {"pack-up", 0, s.PackUp},
		{"meal-within", 1, s.MealWithin}, {"meal-length", 0, s.MealLength}, {"meal-apart", 0, s.MealApart}, {"rest", 0, s.Rest}} {
		v.within("shooting."+m.name, float64(m.Minutes), float64(m.low), maxMinutes)
	}
	if s.MealApart > s.MealWithin {
		v.wrong("shooting.meal-apart", MealsApart, s.MealApart, s.MealWithin)
	}
	v.within("shooting.grid", float64(s.Grid), 1, 60)
}

func (v *validator) weights() {
	s := v.plan.Shooting
	for _, w := range []struct {
		name  string
		value float64
	}{{"light", s.Weights.Light}, {"waiting", s.Weights.Waiting}, {"minor", s.Weights.Minor},
		{"moving", s.Weights.Moving}, {"length", s.Weights.Length}, {"left-out", s.Weights.LeftOut},
		{"again", s.Weights.Again}, {"day", s.Weights.Day}} {
		v.within("shooting.weights."+w.name, w.value, 0, maxWeight)
	}
	for i, step := range s.Overtime {
		at := fmt.Sprintf("shooting.overtime[%d]", i)
		v.within(at+".after", float64(step.After), 1, maxMinutes)
		v.within(at+".points", step.Points, 0, maxWeight)
		if i > 0 && step.After <= s.Overtime[i-1].After {
			v.wrong(at+".after", NotRising, step.After, s.Overtime[i-1].After)
		}
	}
}

func (v *validator) limits(name string, low, high Angle) {
	v.within("shooting.light."+name+"-low", float64(low), -18, 30)
	v.within("shooting.light."+name+"-high", float64(high), -18, 30)
	if high <= low && !math.IsNaN(float64(high)) {
		v.outside("shooting.light."+name+"-high", plainNumber(float64(high)), plainNumber(float64(low)), plainNumber(30))
	}
}

func (v *validator) papers() {
	f := v.plan.Papers
	oneOf(v, "papers.size", f.Size, PaperSizes)
	oneOf(v, "papers.dates", f.Dates, DateLanguages)
	oneOf(v, "papers.clock", f.Clock, HourClocks)
	v.text("papers.producer", f.Producer)
	v.text("papers.access", f.Access)
	v.text("papers.parking", f.Parking)
	v.text("papers.hospital", f.Hospital)
	v.text("papers.notes", f.Notes)
	v.calendar()
	v.sheets()
}

func (v *validator) log() {
	scenes := v.sceneIDs()
	for i, e := range v.plan.Log {
		at := fmt.Sprintf("log[%d]", i)
		v.refer(at+".scene", e.Scene, scenes, aScene)
		v.date(at+".date", e.Date)
		v.order(at+".end", e.Start, e.End)
	}
}

// Suggest returns `; did you mean "bearing"?` when one of the known words is a slip of the finger away, or nothing.
func Suggest(word string, known []string) say.Text {
	best, at := 1+len(word)/3, ""
	for _, k := range known {
		if d := slips(strings.ToLower(word), strings.ToLower(k)); d < best {
			best, at = d, k
		}
	}
	if at == "" {
		return say.Text{}
	}
	return say.That("; did you mean %q?", at)
}

// slips counts the letters put in, left out or changed between two words, and neighbours swapped
// (optimal string alignment; Damerau 1964).
func slips(a, b string) int {
	if len(a) > 60 || len(b) > 60 {
		return 1000
	}
	s, t := []rune(a), []rune(b)
	var before, prev, row []int
	prev = make([]int, len(t)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := range s {
		row = append(make([]int, 0, len(t)+1), i+1)
		for j := range t {
			cost := 1
			if s[i] == t[j] {
				cost = 0
			}
			d := min(prev[j]+cost, prev[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && s[i] == t[j-1] && s[i-1] == t[j] {
				d = min(d, before[j-1]+1)
			}
			row = append(row, d)
		}
		before, prev = prev, row
	}
	return prev[len(t)]
}
