package day

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/say"
)

// This file words what the package finds out about a day. Sentences have no full stop; phrases begin small.

// numbers lists scenes by their numbers: "7, 9 and 12".
func numbers(p *plan.Plan, ids []plan.ID) say.Text {
	var names []string
	for _, id := range ids {
		names = append(names, sceneName(p, id))
	}
	slices.SortFunc(names, plan.ByNumber)
	return say.Names(names)
}

// sceneNames are "scene 7", "scenes 7, 9 and 12".
func sceneNames(p *plan.Plan, ids []plan.ID) say.Text {
	return say.Count(len(ids), "scene %[2]s", "scenes %[2]s", numbers(p, ids))
}

// eachAnd puts "and" between any two: "17:31-18:24 and 19:02-19:40".
func eachAnd(parts []say.Text) say.Text {
	var out say.Text
	for _, p := range parts {
		out = say.List(out, p)
	}
	return out
}

func called(p *plan.Plan, id plan.ID) string {
	who, _ := p.Person(id)
	return who.Called()
}

// PointWords is a number of points: "1 point", "0.4 points", "38 points".
func PointWords(x float64) say.Text {
	text := fmt.Sprintf("%.0f", x)
	if math.Abs(x) < 9.95 {
		text = strings.TrimSuffix(fmt.Sprintf("%.1f", x), ".0")
	}
	many := 2
	if text == "1" {
		many = 1
	}
	return say.Count(many, "%[2]s point", "%[2]s points", say.Number(text))
}

// Words say what is lost more and what less, the parts with the most points first: "scene 4 is left out; 8 min less light:
// scene 7; Nina waits 35 min longer; 1 h longer". Where nothing differs they are empty.
func (x Difference) Words(p *plan.Plan) say.Text { return say.Join("; ", x.phrases(p)...) }

func (x Difference) phrases(p *plan.Plan) []say.Text {
	type phrase struct {
		weight float64
		words  say.Text
	}
	var out []phrase
	add := func(weight float64, words say.Text) {
		if !words.IsZero() {
			out = append(out, phrase{math.Abs(weight), words})
		}
	}
	add(math.Inf(1), x.inWords(p))
	if len(x.Out) > 0 {
		add(math.Inf(1), say.Count(len(x.Out), "scene %[2]s is left out", "scenes %[2]s are left out", numbers(p, x.Out)))
	}
	add(x.Points.Light, x.lightWords(p))
	add(x.Points.Waiting, x.waitingWords(p))
	add(x.Points.Moves, amount(x.Moving, say.Mark("%s more moving of kit"), say.Mark("%s less moving of kit")))
	add(x.Points.Length+x.Points.Overtime, amount(x.Length, say.Mark("%s longer day"), say.Mark("%s shorter day")))
	slices.SortStableFunc(out, func(a, b phrase) int { return cmp.Compare(b.weight, a.weight) })
	var words []say.Text
	for _, o := range out {
		words = append(words, o.words)
	}
	return words
}

// inWords are "scenes 2 and 13 find a place", and of those that keep too little light there "scene 7 finds a place with 40 %
// of its light".
func (x Difference) inWords(p *plan.Plan) say.Text {
	var whole []plan.ID
	var out []say.Text
	for _, s := range x.In {
		if float64(s.Of)-s.Kept < leastLight {
			whole = append(whole, s.Scene)
			continue
		}
		out = append(out, say.That("scene %s finds a place with %d %% of its light", sceneName(p, s.Scene), Percent(s.Kept/float64(s.Of))))
	}
	if len(whole) > 0 {
		out = slices.Insert(out, 0, say.Count(len(whole), "scene %[2]s finds a place", "scenes %[2]s find a place", numbers(p, whole)))
	}
	return say.Join(", ", out...)
}

// amount is "35 min longer day" or "5 min less moving of kit" by the marked form for more or for less; nothing for nothing.
func amount(m plan.Minutes, more, less string) say.Text {
	switch {
	case m > 0:
		return say.Marked(more, m)
	case m < 0:
		return say.Marked(less, -m)
	}
	return say.Text{}
}

// lightWords are "8 min less light: scene 7, 38 min more light: scenes 4 and 9".
func (x Difference) lightWords(p *plan.Plan) say.Text {
	var lost, kept float64
	var loses, keeps []plan.ID
	for _, s := range x.Light {
		if s.Minutes > 0 {
			lost, loses = lost+s.Minutes, append(loses, s.Scene)
		} else {
			kept, keeps = kept-s.Minutes, append(keeps, s.Scene)
		}
	}
	var out []say.Text
	if len(keeps) > 0 {
		out = append(out, say.That("%s more light: %s", plan.Minutes(math.Round(kept)), sceneNames(p, keeps)))
	}
	if len(loses) > 0 {
		out = append(out, say.That("%s less light: %s", plan.Minutes(math.Round(lost)), sceneNames(p, loses)))
	}
	return say.Join(", ", out...)
}

// waitingWords name one or two people, or else tell the sum and who waits how much longer.
func (x Difference) waitingWords(p *plan.Plan) say.Text {
	if len(x.Waiting) > 2 {
		return x.waitingSum(p)
	}
	var each []say.Text
	for _, q := range x.Waiting {
		form := say.Mark("%s waits %s longer")
		if q.Waits < 0 {
			form = say.Mark("%s waits %s less")
		}
		each = append(each, say.Marked(form, called(p, q.Person), magnitude(q.Waits)))
	}
	return say.Join(", ", each...)
}

func (x Difference) waitingSum(p *plan.Plan) say.Text {
	sum := plan.Minutes(0)
	var signed []string
	for _, q := range x.Waiting {
		sum += q.Waits
		sign := "+"
		if q.Waits < 0 {
			sign = ""
		}
		signed = append(signed, called(p, q.Person)+" "+sign+q.Waits.String())
	}
	who := strings.Join(signed, ", ")
	switch {
	case sum > 0:
		return say.That("%s more waiting (%s)", sum, who)
	case sum < 0:
		return say.That("%s less waiting (%s)", -sum, who)
	}
	return say.That("as much waiting (%s)", who)
}

// cost is what is lost more, in points and in words: "12 points more: Nina waits 35 min longer".
func (x Difference) cost(p *plan.Plan) say.Text {
	points := x.Points.Total()
	words := x.Words(p)
	switch {
	case points <= 0.0005 && words.IsZero():
		return say.That("nothing is lost")
	case math.Abs(points) <= 0.0005:
		return say.That("nothing is lost: %s", words)
	case points < 0:
		return say.That("%s less: %s", PointWords(-points), words)
	case words.IsZero():
		return say.That("%s more", PointWords(points))
	}
	return say.That("%s more: %s", PointWords(points), words)
}

// Beats says why the first of two days is better than the second: "Keeps 38 min more light: scenes 4 and 9; the same length".
func Beats(p *plan.Plan, better, other Figures) say.Text {
	x := Compare(other, better)
	words := x.phrases(p)
	if len(words) == 0 {
		return say.That("the same day; it is only earlier")
	}
	if x.Length == 0 {
		words = append(words, say.That("the same length"))
	}
	points := -x.Points.Total()
	if points < 0.05 {
		return say.Join("; ", words...)
	}
	return say.That("%s better: %s", PointWords(points), say.Join("; ", words...))
}

// Words say why the scene is where it is, earlier and later: "An hour earlier: 12 points more: Nina waits 35 min longer".
func (h Here) Words(d Day) []say.Text {
	return []say.Text{say.That("An hour earlier: %s", h.Earlier.words(d.made.plan)), say.That("An hour later: %s", h.Later.words(d.made.plan))}
}

func (s *Shift) words(p *plan.Plan) say.Text {
	switch {
	case s == nil:
		return say.That("the search could not tell")
	case !s.Cannot.IsZero():
		return say.That("cannot be, %s", s.Cannot)
	case !s.Proven && s.Cost.Points.Total() > 0:
		return say.That("at most %s", s.Cost.cost(p))
	}
	return s.Cost.cost(p)
}

// soonerWords say what it would take to make a scene sooner as the shift does.
func (s *Shift) soonerWords(p *plan.Plan, scene plan.ID) say.Text {
	name := sceneName(p, scene)
	switch {
	case !s.Cannot.IsZero():
		return say.That("scene %s can't be sooner, %s", name, s.Cannot)
	case s.Cost.Points.Total() <= 0.0005:
		return say.That("scene %s could be sooner at no loss", name)
	}
	return say.That("scene %s sooner: %s", name, s.words(p))
}

// Words are a sentence for each wait, and one for what it would cost to spare the person.
func (w Waiting) Words(d Day) []say.Text {
	p := d.made.plan
	var out []say.Text
	for _, b := range w.Between {
		out = append(out, say.That("%s between scenes %s: %s", b.Waits, say.Names([]string{sceneName(p, b.After), sceneName(p, b.Before)}), b.fillings(d)))
	}
	switch o := w.Without; {
	case o == nil:
		out = append(out, say.That("Whether it can be had with less, the search could not tell"))
	case o.Waits >= w.Waits && o.Proven:
		out = append(out, say.That("It can't be less with these scenes"))
	case o.Waits >= w.Waits:
		out = append(out, say.That("The search found no day with less"))
	case o.Waits == 0:
		out = append(out, say.That("None of it need be: %s", o.Cost.cost(p)))
	default:
		out = append(out, say.That("It could be %s: %s", o.Waits, o.Cost.cost(p)))
	}
	return out
}

// fillings sums up what goes on in a wait.
func (b Wait) fillings(d Day) say.Text {
	p := d.made.plan
	var scenes []plan.ID
	var shooting, moving, setting, idle plan.Minutes
	var why []say.Text
	for _, f := range b.Filled {
		switch f.Kind {
		case Moving:
			moving += f.Minutes()
		case SettingUp, Shooting:
			if f.Scene == b.Before {
				setting += f.Minutes()
				break
			}
			shooting += f.Minutes()
			if !slices.Contains(scenes, f.Scene) {
				scenes = append(scenes, f.Scene)
			}
		case Idle:
			idle += f.Minutes()
			if f.Sooner != nil {
				why = append(why, f.Sooner.soonerWords(p, f.Scene))
			}
		}
	}
	var out []say.Text
	if shooting > 0 {
		out = append(out, shootingWords(p, shooting, scenes))
	}
	if moving > 0 {
		out = append(out, say.That("%s for moving kit", moving))
	}
	if setting > 0 {
		out = append(out, say.That("%s for the set-up of scene %s", setting, sceneName(p, b.Before)))
	}
	switch {
	case idle > 0 && len(why) > 0:
		out = append(out, say.That("%s in which nothing is made (%s)", idle, say.Join("; ", why...)))
	case idle > 0:
		out = append(out, say.That("%s in which nothing is made", idle))
	}
	return say.List(out...)
}

func sceneName(p *plan.Plan, id plan.ID) string {
	s, _ := p.Scene(id)
	return s.Name()
}

// shootingWords tell the scenes that are made meanwhile. The light of a single one is what it stands there for: "35 min for
// scene 7 (golden evening)".
func shootingWords(p *plan.Plan, m plan.Minutes, scenes []plan.ID) say.Text {
	if len(scenes) == 1 {
		if s, _ := p.Scene(scenes[0]); s.Wish.Kind.Or() != plan.Any {
			return say.That("%s for scene %s (%s)", m, s.Name(), s.Wish.Kind)
		}
	}
	return say.Count(len(scenes), "%[2]s for scene %[3]s", "%[2]s for scenes %[3]s", m, numbers(p, scenes))
}

// Words are the change as something to do: "shorten scene 7 by 15 min".
func (c Change) Words(p *plan.Plan) say.Text {
	scene, who := sceneName(p, c.Scene), called(p, c.Person)
	r := p.Shooting
	switch c.Kind {
	case Shorten:
		return say.That("shorten scene %s by %s", scene, c.By)
	case Weigh:
		s, _ := p.Scene(c.Scene)
		return say.That("count scene %s as %s instead of %s", scene, c.As, s.Importance.Or())
	case Unpin:
		return say.That("take out the pin of scene %s", scene)
	case LiftLimits:
		return say.That("take out the clock limits of scene %s", scene)
	case AnyOrder:
		return say.That("let scene %s come before scene %s", scene, sceneName(p, c.Other))
	case LongerDay:
		return say.That("let the day be %s longer, up to %s", c.By, longer(r.Longest, c.By))
	case LaterWrap:
		return say.That("wrap up to %s later, by %s", c.By, plus(latestWrap(p), c.By))
	case EarlierCall:
		return say.That("call up to %s earlier, from %s", c.By, plus(r.EarliestCall, -c.By))
	case MoreEvening:
		return say.That("let the day be %s longer, with its wrap by %s", c.By, plus(latestWrap(p), c.By))
	case MoreMorning:
		return say.That("let the day be %s longer, with its call from %s", c.By, plus(r.EarliestCall, -c.By))
	case FreeFrom:
		return say.That("have %s %s earlier, from %s", who, c.By, plus(c.At, -c.By))
	case FreeUntil:
		return say.That("have %s %s longer, until %s", who, c.By, plus(c.At, c.By))
	case FreeAllDay:
		return say.That("have %s all day", who)
	case NoWaiting:
		return say.That("let %s wait as long as it takes", who)
	case NoMove:
		return say.That("have kit of its own in both %s and %s", spaceName(p, c.From), spaceName(p, c.To))
	case NoMoves:
		return say.That("have kit of its own in every space")
	case OtherDate:
		return say.That("shoot on %s", c.Date.SaidShort())
	case SecondDate:
		return say.That("add a second day on %s", c.Date.SaidShort())
	}
	return say.Plain(string(c.Kind))
}

func spaceName(p *plan.Plan, id plan.ID) string {
	s, _ := p.Space(id)
	if s.Name != "" {
		return s.Name
	}
	return string(id)
}

// Words say the change and the day that it gives: "shorten scene 7 by 15 min: scene 9 finds a place; 1 h longer day".
func (f Freed) Words(d Day) say.Text {
	p := d.made.plan
	return say.Join(": ", f.Change.Words(p), Compare(d.Figures(), f.Figures).Words(p))
}

// What says what would be had and, of a second day, what is shot on it: "add a second day on Sat 23 Oct 2027 for scene 11".
func (g Gain) What(p *plan.Plan) say.Text {
	if g.Second == nil {
		return g.Change.Words(p)
	}
	scenes := g.Second.Scenes
	return say.Count(len(scenes), "%[2]s for scene %[3]s", "%[2]s for scenes %[3]s", g.Change.Words(p), numbers(p, scenes))
}

// Words say the change, what it gains and by what: "have Ruth all day: 12 points less: ...".
func (g Gain) Words(d Day) say.Text {
	p := d.made.plan
	words := Compare(d.Figures(), g.Figures).Words(p)
	if g.Second != nil || words.IsZero() {
		return say.That("%s: gains %s", g.What(p), PointWords(g.Points))
	}
	return say.That("%s: gains %s: %s", g.What(p), PointWords(g.Points), words)
}

var otherForms = map[OtherKind]string{
	LeastWaiting: say.Mark("a day's|least waiting"), EarliestWrap: say.Mark("a day's|earliest wrap"), MostLight: say.Mark("a day's|most light"),
}

// Words say what the other day is best at and what it costs: "least waiting: 31 points more: ...".
func (o Other) Words(d Day) say.Text {
	return say.Join(": ", say.Marked(otherForms[o.Kind]), Compare(d.Figures(), o.Figures()).cost(d.made.plan))
}
