package store

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// maker draws the parts of a valid plan.
type maker struct{ *rapid.T }

// draw picks a value. What it is called matters only in the report of a failure.
func draw[V any](m maker, g *rapid.Generator[V]) V { return g.Draw(m.T, "") }

func (m maker) chance() bool { return draw(m, rapid.Bool()) }

// awkward texts are those that YAML reads as something else, or folds, or cannot hold plainly.
var awkward = []string{"", "null", "~", "yes", "No", "1", "007", "1e3", "0x1F", ".inf", "2027-03-06", "18:30", "- a", "a: b",
	"a #b", "#a", "'", `"`, `\`, "&a", "*a", "!a", "%a", "@a", "`a`", "{a", "[a", "]", "|", ">", "?", "<<", "=", " a", "a ",
	"\ta", "a\tb", "a\nb", "a\n", "a\n\n", "\na", "\n", " a\nb", "a\n  b\n", "a \nb", "a\r\nb", "a\u0085b", "a\u2028b",
	"\ufeffa", "a\u0000b", "\x7f", "\u00e9\u0301", "\u5c71\u306e\u5bb6", "\U0001f3e1 home", "---", "...", "--- a", "# a\nb", "a: b\nc: d\n"}

// name draws a text that says something.
func (m maker) name() string {
	return draw(m, rapid.Custom(func(t *rapid.T) string { return maker{t}.text() }).Filter(func(s string) bool { return strings.TrimSpace(s) != "" }))
}

func (m maker) text() string {
	return draw(m, rapid.OneOf(rapid.SampledFrom(awkward), rapid.StringN(0, 30, -1), rapid.StringMatching(`[a-z]+( [a-z]+\n?){0,5}`)))
}

// ids draws distinct ids; some of them look like numbers or truths.
func (m maker) ids(most int) []plan.ID {
	odd := rapid.SampledFrom([]string{"1", "007", "null", "true", "no", "-", "--", "1e3", "é", "山"})
	return draw(m, rapid.SliceOfNDistinct(rapid.Map(rapid.OneOf(odd, rapid.StringMatching(`[a-z0-9-]{1,12}`)),
		func(s string) plan.ID { return plan.ID(s) }), 0, most, rapid.ID[plan.ID]))
}

// some draws distinct ones of a list, one a single one or none.
func some[T comparable](m maker, list []T) []T {
	if len(list) == 0 || m.chance() {
		return nil
	}
	return draw(m, rapid.SliceOfNDistinct(rapid.SampledFrom(list), 1, min(3, len(list)), rapid.ID[T]))
}

func one[T comparable](m maker, list []T) T {
	var none T
	return append(some(m, list), none)[0]
}

// otherThan draws one of the ids that is not self.
func (m maker) otherThan(self plan.ID, ids []plan.ID) plan.ID {
	return one(m, slices.DeleteFunc(slices.Clone(ids), func(id plan.ID) bool { return id == self }))
}

func (m maker) number(low, high float64) float64 {
	return draw(m, rapid.OneOf(rapid.Float64Range(low, high), rapid.SampledFrom([]float64{low, high, low + (high-low)/3})))
}

func (m maker) whole(low, high int) int { return draw(m, rapid.IntRange(low, high)) }

func (m maker) bearing() plan.Bearing { return plan.Bearing(m.number(0, 360)) }

func (m maker) date() plan.Date {
	if m.chance() {
		return plan.Date{}
	}
	return m.day()
}

func (m maker) day() plan.Date {
	return plan.Date{Year: 1900, Month: 1, Day: 1}.AddDays(m.whole(0, 73000))
}

// clocks draws two times in order, either or both of them not said.
func (m maker) clocks() (plan.Clock, plan.Clock) {
	from := m.whole(0, plan.LastClock-1)
	a, b := plan.ClockAt(from), plan.ClockAt(m.whole(from+1, plan.LastClock))
	if m.chance() {
		a = plan.NoClock
	}
	if m.chance() {
		b = plan.NoClock
	}
	return a, b
}

func many[V any](m maker, most int, item func() V) []V {
	var out []V
	for range m.whole(0, most) {
		out = append(out, item())
	}
	return out
}

func named[N ~string, V any](ids []N, item func(N) V) []V {
	var out []V
	for _, id := range ids {
		out = append(out, item(id))
	}
	return out
}

func orNil[V any](m maker, item func() V) *V {
	if m.chance() {
		return nil
	}
	v := item()
	return &v
}

// plan draws a plan that Validate finds nothing Wrong in.
func (m maker) plan() plan.Plan {
	faces, spaces, scenes, people := m.ids(3), m.ids(4), m.ids(5), m.ids(4)
	shooting := m.shooting()
	shooting.Flying = plan.Flying{Rules: one(m, plan.FlightRuleNames), Read: m.date(), ReadBy: one(m, people), Light: m.chance()}
	return plan.Plan{
		Title:    m.text(),
		Brief:    m.brief(scenes),
		Property: m.property(faces, spaces),
		Scenes:   m.scenes(scenes, spaces, faces, people),
		People:   named(people, func(id plan.ID) plan.Person { return m.person(id, people, shooting) }),
		Releases: named(m.ids(3), func(id plan.ID) plan.Release { return m.release(id, people, scenes) }),
		Wordings: named(some(m, plan.ReleaseKinds), m.wording),
		Hours:    named(m.ids(2), m.hourTable),
		Shooting: shooting,
		Pricing:  m.pricing(scenes),
		Papers: plan.PaperFacts{Size: one(m, plan.PaperSizes), Producer: m.text(), Access: m.text(), Parking: m.text(), Hospital: m.text(),
			Safety: many(m, 3, m.text), Notes: m.text(), Calendar: m.calendar(), Sheets: m.sheets()},
		Log: many(m, 3, func() plan.LogEntry {
			e := plan.LogEntry{Scene: one(m, scenes), Date: m.date(), Note: m.text()}
			e.Start, e.End = m.clocks()
			return e
		}),
	}
}

func (m maker) brief(scenes []plan.ID) plan.Brief {
	b := plan.Brief{Client: m.text(), Agent: m.text(), Purpose: m.text(), Due: m.date(), Notes: m.text()}
	b.Deliverables = many(m, 3, func() plan.Deliverable {
		return m.deliverable(scenes)
	})
	if m.chance() {
		b.Budget = plan.Money{Amount: decimal.New(int64(m.whole(0, 1e9)), int32(m.whole(-4, 2))), Currency: "USD"}
	}
	return b
}

func (m maker) property(faces, spaces []plan.ID) plan.Property {
	return plan.Property{
		Name: m.text(), Address: m.text(), Elevation: plan.Metres(m.number(-500, 9000)),
		Zone: draw(m, rapid.SampledFrom([]string{"", "America/Los_Angeles", "Asia/Kathmandu", "UTC"})),
		Position: orNil(m, func() plan.Position {
			return plan.Position{Lat: m.number(-90, 90), Lon: m.number(-180, 180)}
		}),
		Faces: named(faces, func(id plan.ID) plan.Face { return plan.Face{ID: id, Name: m.text(), Bearing: m.bearing()} }),
		Skyline: many(m, 4, func() plan.SkyPoint {
			return plan.SkyPoint{Bearing: m.bearing(), Altitude: plan.Angle(m.number(-10, 90))}
		}),
		Obstacles: many(m, 2, func() plan.Obstacle {
			return plan.Obstacle{Name: m.text(), Height: plan.Metres(m.number(0, 9000)),
				Distance: plan.Metres(m.number(0.1, 1e5)), From: m.bearing(), To: m.bearing()}
		}),
		Spaces: named(spaces, func(id plan.ID) plan.Space {
			head := m.number(0.5, 50)
			return plan.Space{ID: id, Name: m.text(), Kind: one(m, plan.SpaceKinds), Faces: some(m, faces),
				Sill: plan.Metres(m.number(0, head-0.1)), Head: plan.Metres(head), Safety: m.text(),
				Wings: many(m, 2, func() plan.Wing {
					return plan.Wing{From: m.bearing(), To: m.bearing(), Altitude: plan.Angle(m.number(0, 90))}
				})}
		}),
		Moves:       m.moves(spaces),
		Declination: plan.Angle(m.number(-180, 180)), SeaHorizon: m.chance(),
		Air: orNil(m, func() plan.Air { return plan.Air{Pressure: m.number(300, 1100), Temperature: m.number(-60, 60)} }),
	}
}

func (m maker) moves(spaces []plan.ID) []plan.Move {
	if len(spaces) < 2 {
		return nil
	}
	return many(m, 1, func() plan.Move {
		return plan.Move{From: spaces[0], To: spaces[1], Minutes: plan.Minutes(m.whole(0, 2160))}
	})
}

func (m maker) scenes(ids, spaces, faces, people []plan.ID) []plan.Scene {
	var out []plan.Scene
	for i, id := range ids {
		s := plan.Scene{
			ID: id, Title: m.text(), Space: one(m, spaces), Action: m.text(), People: some(m, people), Kit: many(m, 3, m.text),
			Wish: m.wish(faces), Setup: plan.Minutes(m.whole(0, 2160)), Shoot: plan.Minutes(m.whole(0, 2160)),
			Seconds: m.whole(0, 86400), Importance: one(m, plan.Importances), After: some(m, ids[:i]),
			View: plan.Angle(m.number(0, 180)),
			Lamp: orNil(m, func() plan.Lamp {
				return plan.Lamp{Lux: m.number(0, 1e6), Rated: plan.Metres(m.number(0.1, 100)), Loss: m.number(0, 10), Subject: plan.Metres(m.number(0.1, 100))}
			}),
			Pin: plan.Pin{Date: m.date(), Held: m.chance()}, Cover: m.otherThan(id, ids), Notes: m.text(),
		}
		if m.chance() {
			s.Number = fmt.Sprint(i)
		}
		s.Lights, s.Audio = m.text(), m.text()
		s.Shots = many(m, 3, func() plan.Shot {
			return plan.Shot{Frame: m.text(), Lens: m.text(), Movement: m.text(), Note: m.text()}
		})
		s.Pictures = many(m, 3, func() plan.Picture {
			q := plan.Picture{File: draw(m, rapid.SampledFrom([]string{"a.jpg", "plan-pictures/a b.jpg", "x/y/ä.jpg", "..jpg"})), Caption: m.text()}
			if m.chance() {
				q.SHA256 = m.digest()
			}
			return q
		})
		s.Looks = named(some(m, s.People), func(who plan.ID) plan.Look { return plan.Look{Person: who, Look: m.name()} })
		if s.Wish.Kind.Or() == plan.Any {
			s.Values = m.values()
		}
		s.From, s.To = m.clocks()
		s.Pin.Start, _ = m.clocks()
		out = append(out, s)
	}
	return out
}

// values draws light by the clock: stretches in no order, some of which touch.
func (m maker) values() []plan.Value {
	cuts := draw(m, rapid.SliceOfNDistinct(rapid.IntRange(0, plan.LastClock), 0, 6, rapid.ID[int]))
	slices.Sort(cuts)
	var out []plan.Value
	for i := 0; i+1 < len(cuts); i++ {
		if m.chance() {
			out = append(out, plan.Value{From: plan.ClockAt(cuts[i]), To: plan.ClockAt(cuts[i+1]), Share: m.number(0, 1)})
		}
	}
	if m.chance() {
		slices.Reverse(out)
	}
	return out
}

func (m maker) wish(faces []plan.ID) plan.Wish {
	w := plan.Wish{Kind: one(m, plan.WishKinds)}
	angle := func(low, high float64) *plan.Angle {
		return orNil(m, func() plan.Angle { return plan.Angle(m.number(low, high)) })
	}
	for _, f := range w.Kind.Or().Uses() {
		switch f {
		case plan.FigureDirect:
			w.Direct = m.chance()
		case plan.FigureFace:
			w.Face = one(m, faces)
		case plan.FigureIncidence:
			w.Incidence = angle(0, 90)
		case plan.FigureCamera:
			w.Camera = orNil(m, m.bearing)
		case plan.FigureMaxAltitude:
			w.MaxAltitude = angle(-18, 90)
		case plan.FigureMinAltitude:
			w.MinAltitude = angle(-18, 90)
		case plan.FigureBelow:
			w.Below = angle(-90, 90)
		}
	}
	return w
}

func (m maker) person(id plan.ID, people []plan.ID, shooting plan.Shooting) plan.Person {
	return plan.Person{
		Pronouns: m.text(), Sizes: m.text(), Diet: m.text(), Born: m.born(shooting), GuardianThere: one(m, plan.GuardiansThere),
		ID: id, Name: m.text(), Role: one(m, plan.Roles), Job: m.text(), Phone: m.text(), Email: m.text(),
		Paid: m.chance(), Minor: m.chance(), Guardian: m.otherThan(id, people), Travel: plan.Minutes(m.whole(0, 2160)),
		Availability: many(m, 2, m.availability),
		Weight:       draw(m, rapid.SampledFrom([]float64{0, 1, 2.5, 1000})), Notes: m.text(),
		Change: draw(m, rapid.SampledFrom([]plan.Minutes{0, 1, 15, 2160})), Longest: plan.Minutes(m.whole(0, 2160)),
		Work:        plan.Minutes(m.whole(0, 2160)),
		Certificate: plan.Certificate{Number: m.text(), Trained: m.date(), Until: m.date()},
	}
}

// born draws a date no later than any that may be shot on.
func (m maker) born(s plan.Shooting) plan.Date {
	d := m.date()
	for _, day := range append([]plan.Date{s.Date}, s.Dates...) {
		if !day.IsZero() && day.Before(d) {
			d = day
		}
	}
	return d
}

func (m maker) availability() plan.Availability {
	a := plan.Availability{Date: m.date()}
	a.From, a.To = m.clocks()
	return a
}

func (m maker) release(id plan.ID, people, scenes []plan.ID) plan.Release {
	return plan.Release{ID: id, Kind: one(m, plan.ReleaseKinds), Party: one(m, people), Subject: m.text(),
		Scenes: some(m, scenes), SignedBy: m.text(), Media: m.text(), Term: m.text(),
		Status: one(m, plan.ReleaseStatuses), Changed: m.date(), Until: m.date(),
		Relation: m.text(), Territory: m.text(), Compensation: m.text(),
		Scan:      orNil(m, func() plan.Scan { return plan.Scan{Path: m.name(), SHA256: m.digest()} }),
		Signature: orNil(m, m.signature)}
}

func (m maker) digest() string { return draw(m, rapid.StringMatching(`[0-9a-f]{64}`)) }

// calendar has the day of all and perhaps one more, at moments from 1900 to 2100.
func (m maker) calendar() plan.Calendar {
	if m.chance() {
		return plan.Calendar{}
	}
	out := plan.Calendar{Key: m.digest()}
	for i := range m.whole(0, 2) {
		out.Events = append(out.Events, plan.Event{Person: one(m, m.ids(2)), Day: i + 1, Sequence: m.whole(0, 100_000), Digest: m.digest(),
			From: time.Unix(int64(m.whole(-2_208_988_800, 4_133_980_799)), 0).UTC(), To: time.Unix(int64(m.whole(-2_208_988_800, 4_133_980_799)), 0).UTC()})
	}
	return out
}

// sheets are of distinct days, and their items' keys are distinct.
func (m maker) sheets() []plan.SentSheet {
	moment := func() time.Time {
		if m.chance() {
			return time.Time{}
		}
		return time.Unix(int64(m.whole(-2_208_988_800, 4_133_980_799)), 0).UTC()
	}
	var out []plan.SentSheet
	for day := range m.whole(0, 3) {
		s := plan.SentSheet{Day: day + 1, Revision: m.whole(1, 100_000), Date: m.date(), Before: m.date()}
		for i := range m.whole(0, 2) {
			s.Items = append(s.Items, plan.SentItem{Key: fmt.Sprint(m.name(), i), Name: m.text(), Digest: m.digest(), From: moment(), To: moment(),
				Change: one(m, plan.SentChanges), Was: plan.Span{From: moment(), To: moment()}})
		}
		out = append(out, s)
	}
	return out
}

func (m maker) signature() plan.Signature {
	s := plan.Signature{Name: m.name(), Place: m.text(), Consent: true, Digest: m.digest(),
		Size: plan.PadSize{Width: m.whole(1, 10_000), Height: m.whole(1, 10_000)}}
	s.At = time.Unix(int64(m.whole(-2_208_988_800, 4_133_980_799)), 0).UTC() // 1900 to 2100
	for range m.whole(1, 4) {
		stroke := make(plan.Stroke, m.whole(1, 4))
		for i := range stroke {
			stroke[i] = plan.Point{X: m.whole(0, s.Size.Width), Y: m.whole(0, s.Size.Height)}
		}
		s.Strokes = append(s.Strokes, stroke)
	}
	return s
}

// wording draws a text with fields; the braces of other texts would be faults.
func (m maker) wording(k plan.ReleaseKind) plan.Wording {
	w := strings.NewReplacer("{", "(", "}", ")").Replace(m.name())
	return plan.Wording{Kind: k, Text: w + "{" + draw(m, rapid.SampledFrom(plan.WordingFields)) + "}"}
}

func (m maker) hourTable(id plan.ID) plan.HourTable {
	t := plan.HourTable{ID: id, Name: m.name(), Source: m.name(), Verified: many(m, 2, m.text), Memory: many(m, 2, m.text), Notes: many(m, 2, m.text)}
	from := plan.Age{Months: m.whole(0, 30)}
	for range m.whole(1, 3) {
		r := plan.HourRow{From: from, To: plan.Age{Months: from.Months + m.whole(1, 300), Days: m.whole(0, 40)}}
		r.Limit = plan.Limit{Place: plan.Minutes(m.whole(1, 1440)), AtOnce: plan.Minutes(m.whole(0, 1440)), Overnight: plan.Minutes(m.whole(0, 1440)), Note: m.text()}
		part := func() plan.Minutes { return plan.Minutes(m.whole(0, int(r.Limit.Place))) }
		r.WorkSchool, r.WorkFree, r.Lessons, r.Limit.Rest = part(), part(), part(), part()
		if m.chance() {
			r.WorkFree = r.WorkSchool
		}
		r.Limit.Earliest, r.Limit.Latest = m.clocks()
		if m.chance() {
			r.Limit.LatestFree = r.Limit.Latest
		}
		t.Rows, from = append(t.Rows, r), r.To
	}
	return t
}

func (m maker) shooting() plan.Shooting {
	if m.chance() {
		return plan.UsualShooting()
	}
	minutes := func(low int) plan.Minutes { return plan.Minutes(m.whole(low, 2160)) }
	weight := func() float64 { return m.number(0, 1e6) }
	limits := func() (plan.Angle, plan.Angle) {
		low := m.number(-18, 29)
		return plan.Angle(low), plan.Angle(m.number(low+0.5, 30))
	}
	s := plan.Shooting{
		Dates: many(m, 1, m.day), Date: m.date(), Longest: minutes(1), Prepare: minutes(0), Ready: minutes(0),
		PackUp: minutes(0), MealWithin: minutes(1), MealLength: minutes(0), Grid: plan.Minutes(m.whole(1, 60)),
		Weights: plan.Weights{Light: weight(), Waiting: weight(), Minor: weight(), Moving: weight(), Length: weight(), LeftOut: weight(),
			Again: weight(), Day: weight()},
		Days: m.whole(0, 3), Rest: minutes(0),
	}
	s.MealApart = plan.Minutes(m.whole(0, int(s.MealWithin)))
	if s.School = m.chance(); m.chance() {
		s.Minors = "california"
	}
	for after := m.whole(1, 900); m.chance() && after <= 2160; after += m.whole(1, 900) {
		s.Overtime = append(s.Overtime, plan.Overtime{After: plan.Minutes(after), Points: weight()})
	}
	s.Kit = m.kit()
	s.Weather = many(m, 2, func() plan.Weather {
		w := plan.Weather{Date: m.date(), Cloud: m.whole(0, 100), Rain: m.whole(0, 100)}
		w.From, w.To = m.clocks()
		return w
	})
	s.EarliestCall, s.LatestWrap = m.clocks()
	s.Light.GoldenLow, s.Light.GoldenHigh = limits()
	s.Light.BlueLow, s.Light.BlueHigh = limits()
	return s
}

// kit draws kit of different names.
func (m maker) kit() []plan.Kit {
	var out []plan.Kit
	for range m.whole(0, 3) {
		k := plan.Kit{Name: m.name(), Availability: many(m, 2, m.availability)}
		if !slices.ContainsFunc(out, func(o plan.Kit) bool { return o.Is(k.Name) }) {
			out = append(out, k)
		}
	}
	return out
}

// same reports whether two plans say the same. Amounts are the same when they are equal, whatever their places.
func same(a, b plan.Plan) bool {
	a, b = a.Clone(), b.Clone()
	trimAmounts(reflect.ValueOf(&a).Elem())
	trimAmounts(reflect.ValueOf(&b).Elem())
	return reflect.DeepEqual(a, b)
}

func trimAmounts(v reflect.Value) {
	if d, ok := v.Interface().(decimal.Decimal); ok {
		v.Set(reflect.ValueOf(decimal.RequireFromString(d.String())))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				trimAmounts(f)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			trimAmounts(v.Index(i))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			trimAmounts(v.Elem())
		}
	}
}

func TestEveryValidPlanReadsBackAsItWas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := maker{t}.plan()
		if wrong := plan.Validate(p).At(plan.Wrong); len(wrong) > 0 {
			t.Fatalf("the generator drew a plan that is wrong: %v", wrong)
		}
		data, err := Encode(p)
		if err != nil {
			t.Fatal(err)
		}
		back, err := Decode("plan", data)
		if err != nil {
			t.Fatalf("%v\n%s", err, data)
		}
		if !same(p, back) {
			t.Fatalf("drew %+v\nread %+v\nfrom\n%s", p, back, data)
		}
		again, err := Encode(back)
		if err != nil || string(again) != string(data) {
			t.Fatalf("%v; written first\n%s\nthen\n%s", err, data, again)
		}
	})
}

func (m maker) deliverable(scenes []plan.ID) plan.Deliverable {
	return plan.Deliverable{Name: m.text(), Seconds: m.whole(0, 86400), Format: m.text(), Scenes: some(m, scenes),
		Kind: one(m, plan.DeliverableKinds), Stills: m.whole(0, 100_000), Exposures: m.whole(0, 99)}
}

// decimal draws an amount of money or a share, as a user could type it.
func (m maker) decimal(most int) decimal.Decimal {
	return decimal.New(int64(m.whole(0, most)), -int32(m.whole(0, 6)))
}

func (m maker) pricing(scenes []plan.ID) plan.Pricing {
	card := m.card()
	var rates []plan.ID
	for _, r := range card.Crew {
		rates = append(rates, r.ID)
	}
	return plan.Pricing{
		WhatIf: plan.WhatIf{Talent: one(m, rates), Camera: one(m, rates), Saves: m.whole(0, 90), More: m.deliverable(scenes)},
		Recording: plan.Recording{Ratio: m.number(0, 1000), Bitrate: m.number(0, 1e5), Megapixels: m.number(0, 1000), Bits: m.whole(0, 32),
			Packed: m.chance(), Card: m.whole(0, 100_000), Drive: m.whole(0, 1_000_000), Offload: m.whole(0, 100_000), Copies: 3,
			OnDrives: m.whole(0, 3), Elsewhere: m.whole(0, 3),
			Batteries: many(m, 2, func() plan.Battery {
				return plan.Battery{Name: m.text(), Lasts: plan.Minutes(m.whole(1, 2160)), Spare: m.whole(0, 1000), Flying: m.chance()}
			})},
		Card: card, Distance: m.whole(0, 100_000), Asked: m.decimal(1e9), Try: m.decimal(1e9), Quoted: m.date(), Booked: m.date(),
		Lines: named(m.ids(2), func(id plan.ID) plan.TypedLine {
			return plan.TypedLine{ID: id, Group: one(m, plan.Groups), Text: m.text(), Quantity: m.decimal(1e6), Unit: m.text(),
				Rate: m.decimal(1e9), Untaxed: m.chance(), Pays: one(m, plan.Payers), Note: m.text()}
		}),
		Overrides: named(m.ids(2), func(id plan.ID) plan.Override {
			o := plan.Override{Line: "rate/" + string(id), Out: m.chance(), Pays: one(m, plan.Payers), Note: m.text()}
			o.Quantity = orNil(m, func() decimal.Decimal { return m.decimal(1e6) })
			o.Rate = orNil(m, func() decimal.Decimal { return m.decimal(1e6) })
			return o
		}),
		Unsure: plan.Unsure{Early: plan.Minutes(m.whole(0, 2160)), Late: plan.Minutes(m.whole(0, 2160)), Rounds: m.whole(0, 99),
			MostRounds: m.whole(0, 99), Weather: m.whole(0, 100)},
		Packages: many(m, 2, func() plan.Package {
			return plan.Package{Name: "p" + m.text(), Scenes: some(m, scenes), Deliverables: many(m, 2, m.text)}
		}),
		Market: many(m, 2, func() plan.Offer {
			return plan.Offer{Who: m.text(), Amount: m.decimal(1e9), Includes: m.text(), Noted: m.date()}
		}),
	}
}

func (m maker) card() plan.RateCard {
	rules, crew := m.ids(2), m.ids(3)
	c := plan.RateCard{Name: m.text(), Starter: m.chance(), Currency: draw(m, rapid.SampledFrom([]string{"", "USD", "JPY", "KWD"})),
		TimeStep: plan.Minutes(m.whole(0, 60))}
	c.Overtime = named(rules, func(id plan.ID) plan.OvertimeRule {
		return plan.OvertimeRule{ID: id, Name: m.text(), Source: m.text(), Beyond: m.chance(), Daily: m.steps(), Seventh: m.steps(),
			Weekly: plan.Minutes(m.whole(0, 7*24*60)), WeeklyTimes: decimal.New(int64(m.whole(10, 30)), -1)}
	})
	c.Crew = named(crew, func(id plan.ID) plan.CrewRate {
		return plan.CrewRate{ID: id, Name: m.text(), Basis: one(m, plan.Bases), Rate: m.decimal(1e6), Hours: plan.Minutes(m.whole(1, 1440)),
			Overtime: one(m, rules), Travel: m.chance()}
	})
	c.Kit = many(m, 2, func() plan.KitRate {
		return plan.KitRate{Name: "k" + m.text(), Always: m.chance(), Owned: m.chance(), Cost: decimal.New(5, 6), Salvage: m.decimal(1e6),
			Years: m.whole(1, 100), Days: m.whole(1, 366), Day: m.decimal(1e6), Week: m.decimal(1e6)}
	})
	c.Rates = named(m.ids(3), func(id plan.ID) plan.Rate {
		r := plan.Rate{ID: id, Name: m.text(), Group: one(m, plan.Groups), Per: one(m, plan.Measures), For: one(m, plan.DeliverableKinds),
			Untaxed: m.chance(), Pays: one(m, plan.Payers), Note: m.text(), Low: m.whole(0, 100), High: m.whole(100, 1000)}
		if r.Who = one(m, crew); r.Who != "" {
			r.Time = plan.Minutes(m.whole(1, 9999))
		} else {
			r.Amount = m.decimal(1e6)
		}
		return r
	})
	c.Business = plan.Business{Days: m.whole(0, 366), Hours: plan.Minutes(m.whole(0, 1440)), Pay: m.decimal(1e9),
		Overheads: many(m, 2, func() plan.Overhead { return plan.Overhead{Name: m.text(), Yearly: m.decimal(1e9)} })}
	c.Terms = plan.Terms{Contingency: m.decimal(100), Margin: m.decimal(99), Discount: m.decimal(100), Step: m.decimal(1000),
		TaxByLine: m.chance(), Valid: m.whole(0, 366), Wording: m.text(),
		Taxes: many(m, 2, func() plan.Tax { return plan.Tax{Name: m.text(), Percent: m.decimal(100)} })}
	if first := m.whole(0, 100); m.chance() {
		for _, percent := range []int{first, 100 - first} {
			c.Terms.Payments = append(c.Terms.Payments, plan.Payment{Name: m.text(), Percent: decimal.NewFromInt(int64(percent)),
				When: one(m, plan.Moments), Days: m.whole(-366, 366)})
		}
	}
	return c
}

func (m maker) steps() []plan.OvertimeStep {
	var out []plan.OvertimeStep
	after, times := 0, 10
	for range m.whole(0, 2) {
		after, times = after+m.whole(1, 600), times+m.whole(0, 20)
		out = append(out, plan.OvertimeStep{After: plan.Minutes(after), Times: decimal.New(int64(times), -1)})
	}
	return out
}
