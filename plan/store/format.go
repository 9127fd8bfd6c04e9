package store

import (
	"eavelight/plan"
	"eavelight/plan/say"

	"gopkg.in/yaml.v3"
)

// format is the number of the format that this program writes. A change that an older program would misread, or
// refuse, raises it; then a file of an older format is changed, tree to tree, before it is read.
const format = 1

// The format: for each type of the plan, its keys in the order they are written, each bound to a place in one value of
// that type. Paths are built from these keys, and are those of plan.Validate.

func document(p *plan.Plan) value {
	return block(
		must(planFile.key, version{}),
		may("title", text(&p.Title)),
		may("brief", brief(&p.Brief)),
		may("property", property(&p.Property)),
		may("scenes", items(&p.Scenes, scene)),
		may("people", list[plan.Person]{to: &p.People, item: person, fresh: usualPerson}),
		may("releases", items(&p.Releases, release)),
		may("wordings", items(&p.Wordings, wording)),
		may("hours", items(&p.Hours, hourTable)),
		says("shooting", shooting(&p.Shooting)),
		may("pricing", pricing(&p.Pricing)),
		may("papers", papers(&p.Papers)),
		may("log", items(&p.Log, logEntry)),
	)
}

func brief(b *plan.Brief) value {
	return block(
		may("client", text(&b.Client)),
		may("agent", text(&b.Agent)),
		may("purpose", text(&b.Purpose)),
		may("deliverables", items(&b.Deliverables, deliverable)),
		may("due", date(&b.Due)),
		may("budget", money(&b.Budget)),
		may("notes", text(&b.Notes)),
	)
}

func deliverable(d *plan.Deliverable) value {
	return block(
		may("name", text(&d.Name)),
		may("seconds", whole(&d.Seconds)),
		may("format", text(&d.Format)),
		may("scenes", row(&d.Scenes, text)),
		may("kind", text(&d.Kind)),
		may("stills", whole(&d.Stills)),
		may("exposures", whole(&d.Exposures)),
	)
}

func money(m *plan.Money) value {
	return inline(
		says("amount", amount(&m.Amount)),
		says("currency", text(&m.Currency)),
	)
}

func property(h *plan.Property) value {
	return block(
		may("name", text(&h.Name)),
		may("address", text(&h.Address)),
		may("position", option(&h.Position, position)),
		may("elevation", number(&h.Elevation)),
		may("zone", text(&h.Zone)),
		may("declination", number(&h.Declination)),
		may("air", option(&h.Air, air)),
		may("sea-horizon", truth(&h.SeaHorizon)),
		may("faces", items(&h.Faces, face)),
		may("skyline", items(&h.Skyline, skyPoint)),
		may("obstacles", items(&h.Obstacles, obstacle)),
		may("spaces", items(&h.Spaces, space)),
		may("moves", items(&h.Moves, move)),
	)
}

func position(p *plan.Position) value {
	return inline(
		must("lat", number(&p.Lat)),
		must("lon", number(&p.Lon)),
	)
}

func air(a *plan.Air) value {
	return inline(
		must("pressure", number(&a.Pressure)),
		must("temperature", number(&a.Temperature)),
	)
}

func face(f *plan.Face) value {
	return block(
		may("id", text(&f.ID)),
		may("name", text(&f.Name)),
		must("bearing", number(&f.Bearing)),
	)
}

func skyPoint(s *plan.SkyPoint) value {
	return inline(
		must("bearing", number(&s.Bearing)),
		must("altitude", number(&s.Altitude)),
	)
}

func obstacle(o *plan.Obstacle) value {
	return block(
		may("name", text(&o.Name)),
		must("height", number(&o.Height)),
		must("distance", number(&o.Distance)),
		must("from", number(&o.From)),
		must("to", number(&o.To)),
	)
}

func space(s *plan.Space) value {
	return block(
		may("id", text(&s.ID)),
		may("name", text(&s.Name)),
		may("kind", text(&s.Kind)),
		may("faces", row(&s.Faces, text)),
		may("sill", number(&s.Sill)),
		may("head", number(&s.Head)),
		may("wings", items(&s.Wings, wing)),
		may("safety", text(&s.Safety)),
	)
}

func wing(w *plan.Wing) value {
	return inline(
		must("from", number(&w.From)),
		must("to", number(&w.To)),
		must("altitude", number(&w.Altitude)),
	)
}

func move(m *plan.Move) value {
	return inline(
		may("from", text(&m.From)),
		may("to", text(&m.To)),
		must("minutes", whole(&m.Minutes)),
	)
}

func scene(s *plan.Scene) value {
	return block(
		may("id", text(&s.ID)),
		may("number", text(&s.Number)),
		may("title", text(&s.Title)),
		may("space", text(&s.Space)),
		may("action", text(&s.Action)),
		may("people", row(&s.People, text)),
		may("looks", items(&s.Looks, look)),
		may("kit", items(&s.Kit, text)),
		may("shots", items(&s.Shots, shot)),
		may("audio", text(&s.Audio)),
		may("light", wish(&s.Wish)),
		may("values", items(&s.Values, lightValue)),
		may("view", number(&s.View)),
		may("lamp", option(&s.Lamp, lamp)),
		may("lights", text(&s.Lights)),
		may("from", clock(&s.From)),
		may("to", clock(&s.To)),
		may("setup", whole(&s.Setup)),
		may("shoot", whole(&s.Shoot)),
		may("seconds", whole(&s.Seconds)),
		may("importance", text(&s.Importance)),
		may("after", row(&s.After, text)),
		may("pin", pin(&s.Pin)),
		may("cover", text(&s.Cover)),
		may("notes", text(&s.Notes)),
		may("pictures", items(&s.Pictures, picture)),
	)
}

func picture(q *plan.Picture) value {
	return block(
		must("file", text(&q.File)),
		may("sha256", text(&q.SHA256)),
		may("caption", text(&q.Caption)),
	)
}

func look(l *plan.Look) value {
	return inline(
		must("person", text(&l.Person)),
		must("look", text(&l.Look)),
	)
}

func shot(s *plan.Shot) value {
	return inline(
		may("frame", text(&s.Frame)),
		may("lens", text(&s.Lens)),
		may("movement", text(&s.Movement)),
		may("note", text(&s.Note)),
	)
}

func lightValue(l *plan.Value) value {
	return inline(
		may("from", clock(&l.From)),
		may("to", clock(&l.To)),
		must("share", number(&l.Share)),
	)
}

func wish(w *plan.Wish) value {
	return block(
		may("wish", text(&w.Kind)),
		may(string(plan.FigureDirect), truth(&w.Direct)),
		may(string(plan.FigureFace), text(&w.Face)),
		may(string(plan.FigureIncidence), option(&w.Incidence, number)),
		may(string(plan.FigureCamera), option(&w.Camera, number)),
		may(string(plan.FigureMaxAltitude), option(&w.MaxAltitude, number)),
		may(string(plan.FigureMinAltitude), option(&w.MinAltitude, number)),
		may(string(plan.FigureBelow), option(&w.Below, number)),
	)
}

func lamp(l *plan.Lamp) value {
	return inline(
		must("lux", number(&l.Lux)),
		must("rated", number(&l.Rated)),
		may("loss", number(&l.Loss)),
		must("subject", number(&l.Subject)),
	)
}

func pin(p *plan.Pin) value {
	return inline(
		may("date", date(&p.Date)),
		may("start", clock(&p.Start)),
		may("held", truth(&p.Held)),
	)
}

// usualPerson has what holds of a person when nothing is said.
var usualPerson = plan.NewPerson()

func person(p *plan.Person) value {
	return block(
		may("id", text(&p.ID)),
		may("name", text(&p.Name)),
		may("pronouns", text(&p.Pronouns)),
		may("role", text(&p.Role)),
		may("job", text(&p.Job)),
		may("phone", text(&p.Phone)),
		may("email", text(&p.Email)),
		may("sizes", text(&p.Sizes)),
		may("diet", text(&p.Diet)),
		may("paid", truth(&p.Paid)),
		may("rate", text(&p.Rate)),
		may("born", date(&p.Born)),
		may("minor", truth(&p.Minor)),
		may("guardian", text(&p.Guardian)),
		may("guardian-there", text(&p.GuardianThere)),
		may("longest", whole(&p.Longest)),
		may("work", whole(&p.Work)),
		may("travel", whole(&p.Travel)),
		may("availability", items(&p.Availability, availability)),
		may("certificate", certificate(&p.Certificate)),
		may("weight", numberOr(&p.Weight, usualPerson.Weight)),
		may("change", wholeOr(&p.Change, usualPerson.Change)),
		may("notes", text(&p.Notes)),
	)
}

func certificate(c *plan.Certificate) value {
	return block(
		may("number", text(&c.Number)),
		may("trained", date(&c.Trained)),
		may("until", date(&c.Until)),
	)
}

func availability(a *plan.Availability) value {
	return inline(
		may("date", date(&a.Date)),
		may("from", clock(&a.From)),
		may("to", clock(&a.To)),
	)
}

func release(r *plan.Release) value {
	return block(
		may("id", text(&r.ID)),
		may("kind", text(&r.Kind)),
		may("party", text(&r.Party)),
		may("subject", text(&r.Subject)),
		may("scenes", row(&r.Scenes, text)),
		may("signed-by", text(&r.SignedBy)),
		may("relation", text(&r.Relation)),
		may("media", text(&r.Media)),
		may("territory", text(&r.Territory)),
		may("term", text(&r.Term)),
		may("compensation", text(&r.Compensation)),
		may("status", text(&r.Status)),
		may("changed", date(&r.Changed)),
		may("until", date(&r.Until)),
		may("scan", option(&r.Scan, scan)),
		may("signature", option(&r.Signature, signature)),
	)
}

func scan(s *plan.Scan) value {
	return block(
		must("path", text(&s.Path)),
		must("sha256", text(&s.SHA256)),
	)
}

func signature(s *plan.Signature) value {
	return block(
		must("name", text(&s.Name)),
		must("at", instant(&s.At)),
		may("place", text(&s.Place)),
		must("consent", truth(&s.Consent)),
		must("digest", text(&s.Digest)),
		must("size", padSize(&s.Size)),
		must("strokes", items(&s.Strokes, stroke)),
	)
}

func padSize(s *plan.PadSize) value {
	return inline(
		must("width", whole(&s.Width)),
		must("height", whole(&s.Height)),
	)
}

func wording(w *plan.Wording) value {
	return block(
		must("kind", text(&w.Kind)),
		must("text", text(&w.Text)),
	)
}

// hourTable has the keys and the forms of the files that people.ReadHours reads, so that one can be pasted here.
func hourTable(t *plan.HourTable) value {
	return block(
		must("id", text(&t.ID)),
		must("name", text(&t.Name)),
		must("source", text(&t.Source)),
		may("verified", items(&t.Verified, text)),
		may("memory", items(&t.Memory, text)),
		may("notes", items(&t.Notes, text)),
		must("rows", list[plan.HourRow]{to: &t.Rows, item: hourRow, fresh: plan.HourRow{WorkSchool: notSaid, WorkFree: notSaid}}),
	)
}

// workRow is a row of a table of hours: its longest work is told once, or apart for days in and out of a school session.
type workRow struct {
	group
	to                 *plan.HourRow
	work, school, free *plan.Minutes
}

func hourRow(h *plan.HourRow) value {
	work, school, free := h.WorkFree, plan.Minutes(notSaid), plan.Minutes(notSaid)
	if h.WorkSchool != h.WorkFree {
		work, school, free = notSaid, h.WorkSchool, h.WorkFree
	}
	l := &h.Limit
	return workRow{to: h, work: &work, school: &school, free: &free, group: group{style: yaml.FlowStyle, fields: []field{
		must("from", age(&h.From)),
		must("to", age(&h.To)),
		must("place", length(&l.Place, 0)),
		may("work", length(&work, notSaid)),
		may("work-school", length(&school, notSaid)),
		may("work-free", length(&free, notSaid)),
		may("at-once", length(&l.AtOnce, 0)),
		may("lessons", length(&h.Lessons, 0)),
		may("rest", length(&l.Rest, 0)),
		may("overnight", length(&l.Overnight, 0)),
		may("earliest", clock(&l.Earliest)),
		may("latest", clock(&l.Latest)),
		may("latest-free", clock(&l.LatestFree)),
		may("note", text(&l.Note)),
	}}}
}

func (w workRow) read(r *reader, path string, n *yaml.Node) {
	before := len(r.faults)
	w.group.read(r, path, n)
	apart := *w.school != notSaid || *w.free != notSaid
	switch {
	case len(r.faults) > before:
	case *w.work != notSaid && apart:
		r.fault(n, path, say.That("write work, or work-school and work-free, not both"))
	case *w.work != notSaid:
		*w.school, *w.free = *w.work, *w.work
	case *w.school == notSaid || *w.free == notSaid:
		r.fault(n, path, say.That("the longest work is missing: work, or both of work-school and work-free"))
	}
	w.to.WorkSchool, w.to.WorkFree = *w.school, *w.free
}

// shooting writes every rule out, so that the file says what the day was placed by even when the usual rules change.
func shooting(s *plan.Shooting) value {
	return block(
		may("dates", row(&s.Dates, date)),
		may("date", date(&s.Date)),
		says("days", whole(&s.Days)),
		says("earliest-call", clock(&s.EarliestCall)),
		says("latest-wrap", clock(&s.LatestWrap)),
		says("longest", whole(&s.Longest)),
		says("prepare", whole(&s.Prepare)),
		says("ready", whole(&s.Ready)),
		says("pack-up", whole(&s.PackUp)),
		says("meal-within", whole(&s.MealWithin)),
		says("meal-length", whole(&s.MealLength)),
		says("meal-apart", whole(&s.MealApart)),
		says("rest", whole(&s.Rest)),
		may("minors", text(&s.Minors)),
		may("school", truth(&s.School)),
		says("grid", whole(&s.Grid)),
		may("weather", items(&s.Weather, weather)),
		may("kit", items(&s.Kit, kit)),
		may("flying", flying(&s.Flying)),
		says("weights", weights(&s.Weights)),
		may("overtime", items(&s.Overtime, overtime)),
		says("light", lightLimits(&s.Light)),
	)
}

func weather(w *plan.Weather) value {
	return inline(
		may("date", date(&w.Date)),
		may("from", clock(&w.From)),
		may("to", clock(&w.To)),
		must("cloud", whole(&w.Cloud)),
		may("rain", whole(&w.Rain)),
	)
}

func kit(k *plan.Kit) value {
	return block(
		may("name", text(&k.Name)),
		may("availability", items(&k.Availability, availability)),
	)
}

func flying(f *plan.Flying) value {
	return block(
		may("rules", text(&f.Rules)),
		may("read", date(&f.Read)),
		may("read-by", text(&f.ReadBy)),
		may("light", truth(&f.Light)),
	)
}

func overtime(o *plan.Overtime) value {
	return inline(
		must("after", whole(&o.After)),
		must("points", number(&o.Points)),
	)
}

func weights(w *plan.Weights) value {
	return block(
		says("light", number(&w.Light)),
		says("waiting", number(&w.Waiting)),
		says("minor", number(&w.Minor)),
		says("moving", number(&w.Moving)),
		says("length", number(&w.Length)),
		says("left-out", number(&w.LeftOut)),
		says("again", number(&w.Again)),
		says("day", number(&w.Day)),
	)
}

func lightLimits(l *plan.LightLimits) value {
	return inline(
		says("golden-low", number(&l.GoldenLow)),
		says("golden-high", number(&l.GoldenHigh)),
		says("blue-low", number(&l.BlueLow)),
		says("blue-high", number(&l.BlueHigh)),
	)
}

func papers(f *plan.PaperFacts) value {
	return block(
		may("size", text(&f.Size)),
		may("dates", text(&f.Dates)),
		may("clock", text(&f.Clock)),
		may("producer", text(&f.Producer)),
		may("access", text(&f.Access)),
		may("parking", text(&f.Parking)),
		may("hospital", text(&f.Hospital)),
		may("safety", items(&f.Safety, text)),
		may("notes", text(&f.Notes)),
		may("calendar", calendar(&f.Calendar)),
		may("sheets", items(&f.Sheets, sentSheet)),
	)
}

func calendar(c *plan.Calendar) value {
	return block(
		may("key", text(&c.Key)),
		may("events", items(&c.Events, event)),
	)
}

func event(e *plan.Event) value {
	return inline(
		may("person", text(&e.Person)),
		must("day", whole(&e.Day)),
		says("sequence", whole(&e.Sequence)),
		must("digest", text(&e.Digest)),
		must("from", instant(&e.From)),
		must("to", instant(&e.To)),
	)
}

func sentSheet(s *plan.SentSheet) value {
	return block(
		must("day", whole(&s.Day)),
		must("revision", whole(&s.Revision)),
		may("date", date(&s.Date)),
		may("before", date(&s.Before)),
		may("items", items(&s.Items, sentItem)),
	)
}

func sentItem(s *plan.SentItem) value {
	return inline(
		must("key", text(&s.Key)),
		may("name", text(&s.Name)),
		must("digest", text(&s.Digest)),
		may("from", instant(&s.From)),
		may("to", instant(&s.To)),
		may("change", text(&s.Change)),
		may("was-from", instant(&s.Was.From)),
		may("was-to", instant(&s.Was.To)),
	)
}

func logEntry(e *plan.LogEntry) value {
	return block(
		may("scene", text(&e.Scene)),
		may("date", date(&e.Date)),
		may("start", clock(&e.Start)),
		may("end", clock(&e.End)),
		may("note", text(&e.Note)),
	)
}
