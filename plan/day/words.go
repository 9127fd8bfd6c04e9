package day

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"eavelight/plan"
)

// This file words what the package finds out about a day. Sentences have no full stop; phrases begin small.

// listed joins words for a sentence: "7, 9 and 12".
func listed(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// sceneNames lists scenes by their numbers: "scene 7", "scenes 7, 9 and 12".
func sceneNames(p *plan.Plan, ids []plan.ID) string {
	var names []string
	for _, id := range ids {
		s, _ := p.Scene(id)
		names = append(names, s.Name())
	}
	slices.SortFunc(names, plan.ByNumber)
	if len(names) == 1 {
		return "scene " + names[0]
	}
	return "scenes " + listed(names)
}

func called(p *plan.Plan, id plan.ID) string {
	who, _ := p.Person(id)
	return who.Called()
}

// PointWords is a number of points: "1 point", "0.4 points", "38 points".
func PointWords(x float64) string {
	text := fmt.Sprintf("%.0f", x)
	if math.Abs(x) < 9.95 {
		text = strings.TrimSuffix(fmt.Sprintf("%.1f", x), ".0")
	}
	if text == "1" {
		return text + " point"
	}
	return text + " points"
}

// Words say what is lost more and what less, the parts with the most points first: "scene 4 is left out; 8 min less light:
// scene 7; Nina waits 35 min longer; 1 h longer". Where nothing differs they are empty.
func (x Difference) Words(p *plan.Plan) string { return strings.Join(x.phrases(p), "; ") }

func (x Difference) phrases(p *plan.Plan) []string {
	type phrase struct {
		weight float64
		words  string
	}
	var out []phrase
	add := func(weight float64, words string) {
		if words != "" {
			out = append(out, phrase{math.Abs(weight), words})
		}
	}
	add(math.Inf(1), x.inWords(p))
	if len(x.Out) > 0 {
		add(math.Inf(1), sceneNames(p, x.Out)+verb(x.Out, " is", " are")+" left out")
	}
	add(x.Points.Light, x.lightWords(p))
	add(x.Points.Waiting, x.waitingWords(p))
	add(x.Points.Moves, amount(x.Moving, "more moving of kit", "less moving of kit"))
	add(x.Points.Length+x.Points.Overtime, amount(x.Length, "longer day", "shorter day"))
	slices.SortStableFunc(out, func(a, b phrase) int { return cmp.Compare(b.weight, a.weight) })
	var words []string
	for _, o := range out {
		words = append(words, o.words)
	}
	return words
}

// inWords are "scenes 2 and 13 find a place", and of those that keep too little light there "scene 7 finds a place with 40 %
// of its light".
func (x Difference) inWords(p *plan.Plan) string {
	var whole []plan.ID
	var out []string
	for _, s := range x.In {
		if float64(s.Of)-s.Kept < leastLight {
			whole = append(whole, s.Scene)
			continue
		}
		out = append(out, fmt.Sprintf("scene %s finds a place with %d %% of its light", sceneName(p, s.Scene), Percent(s.Kept/float64(s.Of))))
	}
	if len(whole) > 0 {
		out = slices.Insert(out, 0, sceneNames(p, whole)+verb(whole, " finds", " find")+" a place")
	}
	return strings.Join(out, ", ")
}

func verb(ids []plan.ID, one, many string) string {
	if len(ids) == 1 {
		return one
	}
	return many
}

// amount is "35 min longer" or "5 min less"; nothing for nothing.
func amount(m plan.Minutes, more, less string) string {
	switch {
	case m > 0:
		return m.String() + " " + more
	case m < 0:
		return (-m).String() + " " + less
	}
	return ""
}

// lightWords are "8 min less light: scene 7, 38 min more: scenes 4 and 9".
func (x Difference) lightWords(p *plan.Plan) string {
	var lost, kept float64
	var loses, keeps []plan.ID
	for _, s := range x.Light {
		if s.Minutes > 0 {
			lost, loses = lost+s.Minutes, append(loses, s.Scene)
		} else {
			kept, keeps = kept-s.Minutes, append(keeps, s.Scene)
		}
	}
	var out []string
	for _, side := range []struct {
		minutes float64
		word    string
		scenes  []plan.ID
	}{{kept, "more", keeps}, {lost, "less", loses}} {
		if len(side.scenes) > 0 {
			out = append(out, fmt.Sprintf("%s %s light: %s", plan.Minutes(math.Round(side.minutes)), side.word, sceneNames(p, side.scenes)))
		}
	}
	return strings.Join(out, ", ")
}

// waitingWords name one or two people, or else tell the sum and who waits how much longer.
func (x Difference) waitingWords(p *plan.Plan) string {
	var each []string
	sum := plan.Minutes(0)
	for _, q := range x.Waiting {
		sum += q.Waits
		each = append(each, called(p, q.Person)+" waits "+amount(q.Waits, "longer", "less"))
	}
	if len(each) <= 2 {
		return strings.Join(each, ", ")
	}
	var signed []string
	for _, q := range x.Waiting {
		sign := "+"
		if q.Waits < 0 {
			sign = ""
		}
		signed = append(signed, called(p, q.Person)+" "+sign+q.Waits.String())
	}
	words := amount(sum, "more waiting", "less waiting")
	if words == "" {
		words = "as much waiting"
	}
	return words + " (" + strings.Join(signed, ", ") + ")"
}

// cost is what is lost more, in points and in words: "12 points more: Nina waits 35 min longer".
func (x Difference) cost(p *plan.Plan) string {
	points := x.Points.Total()
	words := x.Words(p)
	switch {
	case points <= 0.0005 && words == "":
		return "nothing is lost"
	case math.Abs(points) <= 0.0005:
		return "nothing is lost: " + words
	case points < 0:
		return PointWords(-points) + " less: " + words
	case words == "":
		return PointWords(points) + " more"
	}
	return PointWords(points) + " more: " + words
}

// Beats says why the first of two days is better than the second: "Keeps 38 min more light: scenes 4 and 9; the same length".
func Beats(p *plan.Plan, better, other Figures) string {
	x := Compare(other, better)
	words := x.phrases(p)
	if len(words) == 0 {
		return "the same day; it is only earlier"
	}
	if x.Length == 0 {
		words = append(words, "the same length")
	}
	points := -x.Points.Total()
	if points < 0.05 {
		return strings.Join(words, "; ")
	}
	return fmt.Sprintf("%s better: %s", PointWords(points), strings.Join(words, "; "))
}

// Words say why the scene is where it is, earlier and later: "An hour earlier: 12 points more: Nina waits 35 min longer".
func (h Here) Words(d Day) []string {
	var out []string
	for _, side := range []struct {
		name  string
		shift *Shift
	}{{"An hour earlier", h.Earlier}, {"An hour later", h.Later}} {
		if side.shift == nil {
			out = append(out, side.name+": the search could not tell")
			continue
		}
		out = append(out, side.name+": "+side.shift.words(d.made.plan))
	}
	return out
}

func (s Shift) words(p *plan.Plan) string {
	switch {
	case s.Cannot != "":
		return "cannot be, " + s.Cannot
	case !s.Proven && s.Cost.Points.Total() > 0:
		return "at most " + s.Cost.cost(p)
	}
	return s.Cost.cost(p)
}

// soonerWords stand after the scene that the shift makes sooner.
func (s Shift) soonerWords(p *plan.Plan) string {
	switch {
	case s.Cannot != "":
		return " can't be sooner, " + s.Cannot
	case s.Cost.Points.Total() <= 0.0005:
		return " could be sooner at no loss"
	}
	return " sooner: " + s.words(p)
}

// Words are a sentence for each wait, and one for what it would cost to spare the person.
func (w Waiting) Words(d Day) []string {
	p := d.made.plan
	var out []string
	for _, b := range w.Between {
		from, _ := p.Scene(b.After)
		to, _ := p.Scene(b.Before)
		out = append(out, fmt.Sprintf("%s between scenes %s and %s: %s", b.Waits, from.Name(), to.Name(), b.fillings(d)))
	}
	switch o := w.Without; {
	case o == nil:
		out = append(out, "Whether it can be had with less, the search could not tell")
	case o.Waits >= w.Waits && o.Proven:
		out = append(out, "It can't be less with these scenes")
	case o.Waits >= w.Waits:
		out = append(out, "The search found no day with less")
	case o.Waits == 0:
		out = append(out, "None of it need be: "+o.Cost.cost(p))
	default:
		out = append(out, fmt.Sprintf("It could be %s: %s", o.Waits, o.Cost.cost(p)))
	}
	return out
}

// fillings sums up what goes on in a wait.
func (b Wait) fillings(d Day) string {
	p := d.made.plan
	var scenes []plan.ID
	var shooting, moving, setting, idle plan.Minutes
	var why []string
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
				why = append(why, "scene "+sceneName(p, f.Scene)+f.Sooner.soonerWords(p))
			}
		}
	}
	var out []string
	if shooting > 0 {
		out = append(out, fmt.Sprintf("%s for %s%s", shooting, sceneNames(p, scenes), wanted(p, scenes)))
	}
	if moving > 0 {
		out = append(out, moving.String()+" for moving kit")
	}
	if setting > 0 {
		out = append(out, fmt.Sprintf("%s for the set-up of scene %s", setting, sceneName(p, b.Before)))
	}
	if idle > 0 {
		text := idle.String() + " in which nothing is made"
		if len(why) > 0 {
			text += " (" + strings.Join(why, "; ") + ")"
		}
		out = append(out, text)
	}
	return listed(out)
}

func sceneName(p *plan.Plan, id plan.ID) string {
	s, _ := p.Scene(id)
	return s.Name()
}

// wanted is the light of a single scene, which is what it stands there for: " (golden evening)".
func wanted(p *plan.Plan, scenes []plan.ID) string {
	if len(scenes) != 1 {
		return ""
	}
	s, _ := p.Scene(scenes[0])
	if s.Wish.Kind.Or() == plan.Any {
		return ""
	}
	return " (" + string(s.Wish.Kind) + ")"
}

// Words are the change as something to do: "shorten scene 7 by 15 min".
func (c Change) Words(p *plan.Plan) string {
	scene, who := sceneName(p, c.Scene), called(p, c.Person)
	r := p.Shooting
	switch c.Kind {
	case Shorten:
		return fmt.Sprintf("shorten scene %s by %s", scene, c.By)
	case Weigh:
		s, _ := p.Scene(c.Scene)
		return fmt.Sprintf("count scene %s as %s instead of %s", scene, c.As, s.Importance.Or())
	case Unpin:
		return fmt.Sprintf("take out the pin of scene %s", scene)
	case LiftLimits:
		return fmt.Sprintf("take out the clock limits of scene %s", scene)
	case AnyOrder:
		return fmt.Sprintf("let scene %s come before scene %s", scene, sceneName(p, c.Other))
	case LongerDay:
		return fmt.Sprintf("let the day be %s longer, up to %s", c.By, longer(r.Longest, c.By))
	case LaterWrap:
		return fmt.Sprintf("wrap up to %s later, by %s", c.By, plus(latestWrap(p), c.By))
	case EarlierCall:
		return fmt.Sprintf("call up to %s earlier, from %s", c.By, plus(r.EarliestCall, -c.By))
	case MoreEvening:
		return fmt.Sprintf("let the day be %s longer, with its wrap by %s", c.By, plus(latestWrap(p), c.By))
	case MoreMorning:
		return fmt.Sprintf("let the day be %s longer, with its call from %s", c.By, plus(r.EarliestCall, -c.By))
	case FreeFrom:
		return fmt.Sprintf("have %s %s earlier, from %s", who, c.By, plus(c.At, -c.By))
	case FreeUntil:
		return fmt.Sprintf("have %s %s longer, until %s", who, c.By, plus(c.At, c.By))
	case FreeAllDay:
		return fmt.Sprintf("have %s all day", who)
	case NoWaiting:
		return fmt.Sprintf("let %s wait as long as it takes", who)
	case NoMove:
		return fmt.Sprintf("have kit of its own in both %s and %s", spaceName(p, c.From), spaceName(p, c.To))
	case NoMoves:
		return "have kit of its own in every space"
	case OtherDate:
		return "shoot on " + c.Date.Short()
	case SecondDate:
		return "add a second day on " + c.Date.Short()
	}
	return string(c.Kind)
}

func spaceName(p *plan.Plan, id plan.ID) string {
	s, _ := p.Space(id)
	if s.Name != "" {
		return s.Name
	}
	return string(id)
}

// Words say the change and the day that it gives: "shorten scene 7 by 15 min: scene 9 finds a place; 1 h longer day".
func (f Freed) Words(d Day) string {
	p := d.made.plan
	return f.Change.Words(p) + ": " + Compare(d.Figures(), f.Figures).Words(p)
}

// Words say the change, what it gains and by what: "have Ruth all day: 12 points less: ...".
func (g Gain) Words(d Day) string {
	p := d.made.plan
	gains := PointWords(g.Points)
	if g.Second != nil {
		return fmt.Sprintf("%s for %s: gains %s", g.Change.Words(p), sceneNames(p, g.Second.Scenes), gains)
	}
	words := Compare(d.Figures(), g.Figures).Words(p)
	if words == "" {
		return fmt.Sprintf("%s: gains %s", g.Change.Words(p), gains)
	}
	return fmt.Sprintf("%s: gains %s: %s", g.Change.Words(p), gains, words)
}

// Words say what the other day is best at and what it costs: "least waiting: 31 points more: ...".
func (o Other) Words(d Day) string {
	return string(o.Kind) + ": " + Compare(d.Figures(), o.Figures()).cost(d.made.plan)
}
