package view

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
	"eavelight/plan/say"
)

// HandRule says how the board is used, where nothing else is to be said.
func HandRule() string {
	return tongue.Say("Drag a scene to move it, or its edges to stretch it. It stays where you put it; what it meets makes way, just as far as it must.")
}

// KeyRule stands there while the board has the keyboard.
func KeyRule() string {
	return tongue.Say("Left and Right move it 5 minutes, with Shift 1, with Ctrl a slot; Alt stretches; Up and Down choose; Space pins, Enter edits, + and - zoom.")
}

// Arrange is what is done to scenes of the day shown by hand.
type Arrange struct {
	Scenes []plan.ID
	Move   time.Duration // later than they are, or could be (BoardShelf)
	SetUp  plan.Minutes  // more than they have
	Shoot  plan.Minutes
	Space  *plan.ID // where they are to be shot; nil: where they are
}

// Arranged is the day as it would be.
type Arranged struct {
	session.State        // with that plan, and that day shown
	Name          string // of the edit, as undo calls it
	Cannot        string // why it can't be; then the state is the one before
}

// ArrangeDay is the day shown as it would be with something done by hand. It is quick enough to be asked for each step of a
// hand.
func ArrangeDay(st session.State, a Arrange) Arranged {
	d, p := st.Results.Chosen, st.Plan.Clone()
	keepDate(&p, d)
	for _, id := range a.Scenes {
		if sc := p.SceneAt(id); sc != nil {
			a.change(st, sc)
		}
	}
	for _, other := range st.Results.Shoot.Days { // or a scene could leave the day shown, or come to it
		if other.Date != d.Date {
			other.Hold(&p)
		}
	}
	out := Arranged{State: st, Name: a.name(st.Plan)}
	kept, placed, why := d.ByHand(&p, a.Scenes...)
	if why != nil {
		out.Cannot = sentence(handWords(*why))
		return out
	}
	out.Plan = kept
	out.Results.Chosen = placed
	out.Results.Shoot.Days = slices.Clone(st.Results.Shoot.Days)
	for i := range out.Results.Shoot.Days {
		if out.Results.Shoot.Days[i].Date == d.Date {
			out.Results.Shoot.Days[i] = placed
		}
	}
	return out
}

// handWords are a problem's, but that nobody has pinned yet what a hand only holds somewhere.
func handWords(why plan.Problem) string {
	if why.Code == plan.PinForbidden && len(why.Facts) == 3 {
		return tongue.Of(say.That("scene %s can't be shot at %s: %s", why.Facts[0], why.Facts[1], why.Facts[2]))
	}
	return tongue.Of(why)
}

// keepDate chooses the date of a day that is arranged by hand: another one might lose less then, and the board would leave.
func keepDate(p *plan.Plan, d day.Day) {
	if len(day.Candidates(p)) > 1 {
		p.Shooting.Date = d.Date
	}
}

func (a Arrange) change(st session.State, sc *plan.Scene) {
	d := st.Results.Chosen
	sc.Setup, sc.Shoot = max(0, sc.Setup+a.SetUp), max(1, sc.Shoot+a.Shoot)
	if a.Space != nil {
		sc.Space = *a.Space
	}
	if a.SetUp != 0 || a.Shoot != 0 {
		return
	}
	at, placed := d.Placed(sc.ID)
	if !placed {
		at.Start = shelfStart(st, *sc)
	}
	sc.Pin = pinAt(&st.Plan, *sc, d, at.Start.Add(a.Move))
}

// pinAt is a pin on the day shown; one that held on any date goes on to.
func pinAt(p *plan.Plan, sc plan.Scene, d day.Day, start time.Time) plan.Pin {
	pin := plan.Pin{Start: plan.ClockOn(d.Date, start, d.Zone)}
	if anyDate := sc.Pin.Start.IsSet() && sc.Pin.Date.IsZero() && !sc.Pin.Held; len(day.Candidates(p)) > 1 && !anyDate {
		pin.Date = d.Date
	}
	return pin
}

func (a Arrange) name(p plan.Plan) string {
	what := someScenes(p, a.Scenes)
	switch {
	case a.SetUp != 0:
		return tongue.Say("set-up of %s", what)
	case a.Shoot != 0:
		return tongue.Say("shooting of %s", what)
	}
	return tongue.Say("move %s", what)
}

// someScenes are scenes where an edit is named: "scene 8", "2 scenes".
func someScenes(p plan.Plan, ids []plan.ID) string {
	if len(ids) != 1 {
		return tongue.Count(len(ids), "%d scene", "%d scenes")
	}
	sc, _ := p.Scene(ids[0])
	return tongue.Say("edit|scene %s", sc.Name())
}

// BoardShelf are the scenes that found no place on the day shown and could be put somewhere by hand.
func BoardShelf(st session.State) []day.Placed {
	var out []day.Placed
	for _, l := range st.Results.Chosen.LeftOut {
		if sc, ok := st.Plan.Scene(l.Scene); ok && sc.Shoot > 0 {
			start := shelfStart(st, sc)
			out = append(out, day.Placed{Scene: sc.ID, Setup: start.Add(-time.Duration(sc.Setup) * time.Minute), Start: start,
				End: start.Add(time.Duration(sc.Shoot) * time.Minute)})
		}
	}
	return out
}

// shelfStart is where a scene without a place would begin: with its light, or else when all is set up.
func shelfStart(st session.State, sc plan.Scene) time.Time {
	d := st.Results.Chosen
	start := d.Call.Add(time.Duration(st.Plan.Shooting.Prepare+sc.Setup) * time.Minute)
	if w := d.Windows[sc.ID]; len(w) > 0 && w[0].From.After(start) {
		start = w[0].From
	}
	grid := time.Duration(max(1, st.Plan.Shooting.Grid)) * time.Minute
	return d.Sky.Start.Add((start.Sub(d.Sky.Start) + grid - 1) / grid * grid)
}

// PinScenes pins scenes of the day shown where they are, or takes the pins out where all are pinned: then they are held, and
// may be let go.
func PinScenes(st session.State, ids []plan.ID) (name string, edit func(*plan.Plan)) {
	d := st.Results.Chosen
	pinned := func(id plan.ID) bool { at, ok := d.Placed(id); return !ok || at.Pinned }
	out := !slices.ContainsFunc(ids, func(id plan.ID) bool { return !pinned(id) })
	name = tongue.Say("pin %s", someScenes(st.Plan, ids))
	if out {
		name = tongue.Say("unpin %s", someScenes(st.Plan, ids))
	}
	return name, func(p *plan.Plan) {
		keepDate(p, d)
		for _, id := range ids {
			sc := p.SceneAt(id)
			if at, ok := d.Placed(id); ok && sc != nil {
				sc.Pin = pinAt(p, *sc, d, at.Start)
				sc.Pin.Held = out
			}
		}
	}
}

// HandTag is what stands over a scene while a hand moves it: its time, the light that it keeps, and when that ends.
func HandTag(st session.State, id plan.ID) string {
	d := st.Results.Chosen
	at, ok := d.Placed(id)
	if !ok {
		return ""
	}
	text := clock(d, at.Start) + "–" + clock(d, at.End)
	sc, _ := st.Plan.Scene(id)
	if sc.Wish.Kind.Or() == plan.Any && len(sc.Values) == 0 {
		return text
	}
	return text + " · " + lightTag(d, at)
}

// lightTag says how much of its light a scene keeps, and when that ends.
func lightTag(d day.Day, at day.Placed) string {
	kept := day.Percent(at.Kept)
	switch w, ok := light.Window(d.Windows[at.Scene], at.Start); {
	case !ok:
		return tongue.Say("%d %% of its light", kept)
	case w.From.After(at.Start):
		return tongue.Say("%d %% of its light, which begins %s", kept, clock(d, w.From))
	case w.To.After(at.Start):
		return tongue.Say("%d %% of its light, which ends %s", kept, clock(d, w.To))
	default:
		return tongue.Say("%d %% of its light, which ended %s", kept, clock(d, w.To))
	}
}

// HandLine is what the day shown comes to, beside what it came to before the hand took hold.
func HandLine(before, now session.State) string {
	a, b := before.Results.Chosen.Figures(), now.Results.Chosen.Figures()
	light := tongue.Say("Light %d %%", day.Percent(b.KeptShare()))
	if by := day.Percent(b.KeptShare()) - day.Percent(a.KeptShare()); by != 0 {
		light += fmt.Sprintf(" (%+d)", by)
	}
	parts := []string{light, tongue.Say("waiting %s", withChange(a.Waiting(), b.Waiting()))}
	x, y := PriceOf(before), PriceOf(now)
	over := tongue.Say("overtime none")
	if o := y.Sheet.OvertimeOn(&now.Plan.Pricing.Card, b.Date); o.IsPositive() {
		over = tongue.Say("overtime %s", y.Money(o))
	}
	price := tongue.Say("price %s", y.Money(y.Quote.Price))
	if by := y.Quote.Price.Sub(x.Quote.Price); !by.IsZero() {
		price += " (" + map[bool]string{true: "+"}[by.IsPositive()] + tongue.Number(y.Sheet.Amount(by)) + ")"
	}
	parts = append(parts, over, price)
	if out := newlyOut(a, b); len(out) > 0 {
		parts = append([]string{noPlace(now, sceneNames(now.Plan, out))}, parts...)
	}
	return strings.Join(parts, " · ")
}

// noPlace says that scenes would be left out.
func noPlace(st session.State, names []string) string {
	if len(st.Results.Shoot.Days) > 1 { // but maybe there is one on another
		return tongue.Count(len(names), "Scene %[2]s would find no place on this day", "Scenes %[2]s would find no place on this day", tongue.List(names))
	}
	return tongue.Count(len(names), "Scene %[2]s would find no place", "Scenes %[2]s would find no place", tongue.List(names))
}

func withChange(a, b plan.Minutes) string {
	text := b.String()
	switch {
	case b > a:
		text += " (+" + (b - a).String() + ")"
	case b < a:
		text += " (-" + (a - b).String() + ")"
	}
	return text
}

// newlyOut are the scenes that only b leaves out.
func newlyOut(a, b day.Figures) (out []plan.ID) {
	for _, id := range b.LeftOut {
		if !slices.Contains(a.LeftOut, id) {
			out = append(out, id)
		}
	}
	return out
}

// sceneNames are what scenes are called by.
func sceneNames(p plan.Plan, ids []plan.ID) []string {
	var names []string
	for _, id := range ids {
		sc, _ := p.Scene(id)
		names = append(names, sc.Name())
	}
	return names
}

// OfferLine says what the offer would change; empty without one.
func OfferLine(st session.State) string {
	if len(st.Results.Offer.Days) == 0 {
		return ""
	}
	now, offer := st.Results.Shoot, st.Results.Offer
	moved, in := 0, []plan.ID{}
	for _, d := range offer.Days {
		for _, s := range d.Scenes {
			at, ok := placedIn(now, s.Scene)
			if !ok {
				in = append(in, s.Scene)
			} else if !at.Start.Equal(s.Start) {
				moved++
			}
		}
	}
	var parts []string
	if moved > 0 {
		parts = append(parts, tongue.Count(moved, "%d scene moves", "%d scenes move"))
	}
	if len(in) > 0 {
		parts = append(parts, tongue.Count(len(in), "scene %[2]s finds a place", "scenes %[2]s find a place", tongue.List(sceneNames(st.Plan, in))))
	}
	parts = append(parts, offered(sums(now), sums(offer))...)
	parts = append(parts, tongue.Say("%s less lost", day.PointWords(now.Total()-offer.Total())))
	return tongue.Say("The search offers: %s.", strings.Join(parts, ", "))
}

// offered says what b has more and fewer minutes of than a.
func offered(a, b sum) (parts []string) {
	change := func(by float64, more, fewer func(n int) string) {
		switch n := int(math.Round(math.Abs(by))); {
		case n > 0 && by > 0:
			parts = append(parts, more(n))
		case n > 0:
			parts = append(parts, fewer(n))
		}
	}
	change(b.light-a.light,
		func(n int) string { return tongue.Count(n, "%d more minute of light", "%d more minutes of light") },
		func(n int) string { return tongue.Count(n, "%d fewer minute of light", "%d fewer minutes of light") })
	change(b.waiting-a.waiting,
		func(n int) string { return tongue.Count(n, "%d more minute waiting", "%d more minutes waiting") },
		func(n int) string { return tongue.Count(n, "%d fewer minute waiting", "%d fewer minutes waiting") })
	change(b.length-a.length,
		func(n int) string {
			return tongue.Count(n, "%d more minute from call to wrap", "%d more minutes from call to wrap")
		},
		func(n int) string {
			return tongue.Count(n, "%d fewer minute from call to wrap", "%d fewer minutes from call to wrap")
		})
	return parts
}

func placedIn(s day.Shoot, id plan.ID) (day.Placed, bool) {
	for _, d := range s.Days {
		if at, ok := d.Placed(id); ok {
			return at, true
		}
	}
	return day.Placed{}, false
}

type sum struct{ light, waiting, length float64 }

func sums(s day.Shoot) (out sum) {
	for _, d := range s.Days {
		f := d.Figures()
		out.light += f.KeptMinutes()
		out.waiting += float64(f.Waiting())
		out.length += float64(f.Length())
	}
	return out
}

// HeldLine says how many scenes are only held where they were; empty where none is.
func HeldLine(st session.State) string {
	n := 0
	for _, d := range st.Results.Shoot.Days {
		for _, s := range d.Scenes {
			if s.Held {
				n++
			}
		}
	}
	if n == 0 {
		return ""
	}
	return tongue.Count(n, "%d scene is held where it was while you moved others.", "%d scenes are held where they were while you moved others.")
}

// PointLine says what the light does at a moment: the sun, and the faces that it is on.
func PointLine(st session.State, t time.Time) string {
	d := st.Results.Chosen
	if d.Sky == nil {
		return ""
	}
	minute := min(max(d.Sky.MinuteOf(t), 0), len(d.Sky.Minutes)-1)
	text := SunLine(d.Sky, minute)
	var lit []string
	for _, f := range st.Plan.Property.Faces {
		if d.Sky.Minutes[minute].Lit(f.Bearing) {
			lit = append(lit, FaceShort(f))
		}
	}
	if len(lit) > 0 {
		text += " · " + tongue.Say("it lights the %s", strings.Join(lit, ", "))
	}
	return text
}
