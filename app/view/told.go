package view

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
)

// Part is a part of what can be told of a day.
type Part string

// The parts.
const (
	TellDay     Part = "the day"
	TellScene   Part = "scene"
	TellWaiting Part = "waiting"
	TellLeftOut Part = "left out"
	TellGains   Part = "more would buy"
	TellOthers  Part = "other days"
)

// Parts lists them as they are offered.
var Parts = []Part{TellDay, TellScene, TellWaiting, TellLeftOut, TellGains, TellOthers}

// Asking is what a part of the telling is made from.
type Asking struct {
	State   session.State
	Scene   plan.ID         // selected on the board, or ""
	Answer  *session.Answer // of the day shown; nil where there is none yet
	Looking bool            // for the answer
}

// Told is a part of the telling, ready to show.
type Told struct {
	Head   string
	Status string // what is being looked for, or that it was stopped; "" where there is nothing to say
	Items  []Item
	Table  Table
}

// Item is one thing told: a title, lines under it, and things that could be.
type Item struct {
	Title   string // "" for none
	Lines   []string
	Choices []Choice
}

// Choice is something that could be: what it is worth in a word or two, or how it is done, and what it is.
type Choice struct {
	Worth string // "15 points"; "" where Do stands in its place
	Text  string
	Do    Do
}

// Do is an edit on offer. One without a button is none.
type Do struct {
	Button string
	Name   string // of the edit, as undo calls it
	Change day.Change
	Pins   []Pinned  // in place of a change
	Date   plan.Date // to be the chosen one; zero leaves the choice as it is
}

// Pinned is where a scene is to be pinned; the zero Pin takes its pin out.
type Pinned struct {
	Scene plan.ID
	Pin   plan.Pin
}

// Edit does it to a plan.
func (d Do) Edit(p *plan.Plan) {
	if d.Change.Kind != "" {
		d.Change.Apply(p)
	}
	for _, at := range d.Pins {
		if i := slices.IndexFunc(p.Scenes, func(s plan.Scene) bool { return s.ID == at.Scene }); i >= 0 {
			p.Scenes[i].Pin = at.Pin
		}
	}
	if !d.Date.IsZero() {
		p.Shooting.Date = d.Date
	}
}

// Table holds days against each other, one a column.
type Table struct {
	Heads []string // of the columns after the names
	Rows  []TableRow
	Do    []Do // under the columns
}

// TableRow is one figure of every day.
type TableRow struct {
	Name  string
	Cells []string
	Best  []bool // of the cells; none where they are all alike
}

// Label is a part's name where it is chosen, with how much there is of it.
func (p Part) Label(st session.State, scene plan.ID) string {
	counted := func(name string, n int) string {
		if n == 0 {
			return name
		}
		return fmt.Sprintf("%s (%d)", name, n)
	}
	d := st.Results.Chosen
	switch p {
	case TellScene:
		if s, ok := st.Plan.Scene(scene); ok && s.Number != "" {
			return "Scene " + clipped(s.Number, 8)
		}
		return "Scene"
	case TellWaiting:
		return counted("Waiting", len(waiting(d)))
	case TellLeftOut:
		return counted("Left out", len(d.LeftOut))
	case TellGains:
		return "What more buys"
	case TellOthers:
		return "Other days"
	}
	return "The day"
}

// clipped keeps a text within some letters.
func clipped(s string, most int) string {
	if r := []rune(s); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}

// Question is what the day must be asked for a part; ok is false where there is nothing to ask.
func (p Part) Question(st session.State, scene plan.ID) (q session.Question, ok bool) {
	d := st.Results.Chosen
	switch p {
	case TellScene:
		_, placed := d.Placed(scene)
		return session.WhyHere, placed
	case TellWaiting:
		return session.WhyWaiting, len(waiting(d)) > 0
	case TellLeftOut:
		return session.Freeing, len(d.LeftOut) > 0
	case TellGains:
		return session.Gains, len(d.Scenes) > 0
	case TellOthers:
		return session.Others, len(d.Scenes) > 0
	}
	return "", false
}

func waiting(d day.Day) []day.Presence {
	return slices.DeleteFunc(slices.Clone(d.People), func(p day.Presence) bool { return p.Waits == 0 })
}

// Tell makes a part ready to show.
func (p Part) Tell(a Asking) Told {
	d := a.State.Results.Chosen
	if d.Sky == nil {
		return Told{Head: "The day", Items: said(NoDay(d))}
	}
	var t Told
	switch p {
	case TellScene:
		t = tellScene(a)
	case TellWaiting:
		t = tellWaiting(a)
	case TellLeftOut:
		t = tellLeftOut(a)
	case TellGains:
		t = tellGains(a)
	case TellOthers:
		t = tellOthers(a)
	default:
		t = tellDay(a.State)
	}
	t.Status = p.status(a)
	return t
}

// looking is what is said while an answer is looked for.
var looking = map[Part]string{
	TellScene:   "Looking an hour earlier and later…",
	TellWaiting: "Looking for days that spare each of them…",
	TellLeftOut: "Trying one change after another…",
	TellGains:   "Trying what could be had more of…",
	TellOthers:  "Looking for days of less waiting, an earlier wrap, more light…",
}

func (p Part) status(a Asking) string {
	switch {
	case a.State.Results.Busy && p != TellDay:
		return "The scenes are being placed anew…"
	case a.Looking:
		return looking[p]
	case a.Answer != nil && a.Answer.Err != nil:
		return "It could not be told: " + a.Answer.Err.Error()
	case a.Answer != nil && a.Answer.Stopped:
		return "Stopped; there may be more to tell."
	}
	return ""
}

func said(lines ...string) []Item { return []Item{{Lines: lines}} }

// complete tells an answer that says all there is from one that does not.
func (a Asking) complete() bool {
	return a.Answer != nil && !a.Answer.Stopped && a.Answer.Err == nil
}

func (a Asking) answer() session.Answer {
	if a.Answer == nil {
		return session.Answer{}
	}
	return *a.Answer
}

func sentences(lines []string) []string {
	var out []string
	for _, line := range lines {
		out = append(out, sentence(line))
	}
	return out
}

func tellDay(st session.State) Told {
	d := st.Results.Chosen
	t := Told{Head: "The day of " + d.Date.Short()}
	if dates := whyDate(st); len(dates.Lines) > 0 {
		t.Items = append(t.Items, dates)
	}
	if len(d.Scenes) > 0 {
		t.Items = append(t.Items, Item{Title: "How sure it is", Lines: []string{sure(d)}})
	}
	if troubles := Troubles(d); len(troubles) > 0 {
		t.Items = append(t.Items, Item{Title: "What to look at", Lines: troubles})
	}
	return t
}

// mostDates is how many other dates the day shown is held against.
const mostDates = 5

// whyDate holds the date shown against the others, the nearest first. The days of a longer shoot are chosen together.
func whyDate(st session.State) Item {
	d := st.Results.Chosen
	if days := st.Results.Shoot.Days; len(days) > 1 {
		return Item{Title: "The shoot", Lines: []string{shootLine(st.Results.Shoot)}}
	}
	mine := d.Figures()
	var others []day.Figures
	for _, o := range st.Results.Days {
		if f := o.Figures(); f.Computed() && f.Date != d.Date {
			others = append(others, f)
		}
	}
	slices.SortStableFunc(others, func(a, b day.Figures) int { return cmp.Compare(a.Loss.Total(), b.Loss.Total()) })
	it := Item{Title: "Why this date"}
	for i, o := range others {
		switch {
		case i == mostDates:
			it.Lines = append(it.Lines, count(len(others)-i, "further date loses", "further dates lose")+" more.")
			return it
		case o.Loss.Total() < mine.Loss.Total()-0.05:
			it.Lines = append(it.Lines, fmt.Sprintf("%s would be %s.", o.Date.Short(), day.Beats(&st.Plan, o, mine)))
		default:
			it.Lines = append(it.Lines, fmt.Sprintf("Rather than %s: %s.", o.Date.Short(), day.Beats(&st.Plan, mine, o)))
		}
	}
	return it
}

func shootLine(s day.Shoot) string {
	var dates []string
	for _, d := range s.Days {
		dates = append(dates, d.Date.Short())
	}
	text := fmt.Sprintf("Shot on %s. Together they lose %s, of which %s for the further days and %s for people who come again.",
		listed(dates), day.PointWords(s.Total()), day.PointWords(s.Opening), day.PointWords(s.Again))
	if s.Gap > 0 {
		text += fmt.Sprintf(" Shared out in another way, they could lose %s less at most.", day.PointWords(s.Gap))
	}
	return text
}

// listed joins words for a sentence: "7, 9 and 12".
func listed(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

func tellScene(a Asking) Told {
	st, d := a.State, a.State.Results.Chosen
	s, ok := st.Plan.Scene(a.Scene)
	if !ok {
		return Told{Head: "Scene", Items: said("Select a scene on the board, and it is told why it is there.")}
	}
	t := Told{Head: "Why scene " + s.Name() + " is here"}
	if _, placed := d.Placed(a.Scene); !placed {
		t.Head = "Scene " + s.Name()
	}
	for _, h := range a.answer().Here {
		if h.Scene == a.Scene {
			t.Items = append(t.Items, Item{Lines: sentences(h.Words(d))})
		}
	}
	t.Items = append(t.Items, Item{Title: SceneName(s), Lines: []string{strings.TrimPrefix(SelectedScene(st, a.Scene), SceneName(s)+". ")}})
	return t
}

func tellWaiting(a Asking) Told {
	d := a.State.Results.Chosen
	t := Told{Head: "Why they wait"}
	for _, pr := range waiting(d) {
		who, _ := a.State.Plan.Person(pr.Person)
		it := Item{Title: who.Called() + " waits " + pr.Waits.String()}
		for _, w := range a.answer().Waiting {
			if w.Person == pr.Person {
				it.Lines = sentences(w.Words(d))
			}
		}
		t.Items = append(t.Items, it)
	}
	if len(t.Items) == 0 {
		t.Items = said("Nobody waits.")
	}
	return t
}

func tellLeftOut(a Asking) Told {
	st, d := a.State, a.State.Results.Chosen
	t := Told{Head: "What would give them a place"}
	for _, out := range d.LeftOut {
		s, _ := st.Plan.Scene(out.Scene)
		it := Item{Title: SceneName(s), Lines: []string{sentence(out.Why.String())}}
		for _, f := range a.answer().Freeing {
			if f.Scene != out.Scene {
				continue
			}
			for _, c := range f.Changes {
				it.Choices = append(it.Choices, Choice{
					Text: sentence(c.Words(d)), Do: Do{Button: "Do it", Name: c.Change.Words(&st.Plan), Change: c.Change},
				})
			}
		}
		if a.complete() && len(it.Choices) == 0 {
			it.Lines = append(it.Lines, "No single change that was tried gives it a place.")
		}
		t.Items = append(t.Items, it)
	}
	if len(t.Items) == 0 {
		t.Head, t.Items = "Left out", said("No scene is left out.")
	}
	return t
}

func tellGains(a Asking) Told {
	st, d := a.State, a.State.Results.Chosen
	t := Told{Head: "What more would buy, in points"}
	var it Item
	for _, g := range a.answer().Gains {
		it.Choices = append(it.Choices, Choice{Worth: day.PointWords(g.Points), Text: gainLine(st.Plan, d, g)})
	}
	switch {
	case len(it.Choices) > 0:
		t.Items = []Item{it}
	case len(d.Scenes) == 0:
		t.Items = said("No scene is placed yet.")
	case a.complete():
		t.Items = said("Nothing that was tried gains much: longer hours, somebody's time all day, kit of its own in two spaces, waiting, a second date.")
	}
	return t
}

// gainLine is what would be had, and what becomes of the day.
func gainLine(p plan.Plan, d day.Day, g day.Gain) string {
	text := g.Change.Words(&p)
	if g.Second != nil {
		var names []string
		for _, id := range g.Second.Scenes {
			s, _ := p.Scene(id)
			names = append(names, s.Name())
		}
		one := "scene "
		if len(names) > 1 {
			one = "scenes "
		}
		return sentence(text + " for " + one + listed(names))
	}
	if words := day.Compare(d.Figures(), g.Figures).Words(&p); words != "" {
		text += ": " + words
	}
	return sentence(text)
}

func tellOthers(a Asking) Told {
	st, d := a.State, a.State.Results.Chosen
	t := Told{Head: "Other good days"}
	others := a.answer().Others
	for _, o := range others {
		text := o.Words(d)
		if !o.Most {
			text += " (a longer search could find better)"
		}
		t.Items = append(t.Items, Item{Lines: []string{sentence(text)}})
	}
	if len(others) > 0 {
		t.Table = otherTable(st, others)
	}
	var pins []Pinned
	for _, at := range d.Scenes {
		if at.Pinned || at.Held {
			pins = append(pins, Pinned{Scene: at.Scene})
		}
	}
	switch {
	case len(d.Scenes) == 0:
		t.Items = said("No scene is placed yet.")
	case a.complete() && len(others) == 0 && len(pins) == 0:
		t.Items = said("No other day with these scenes waits less, wraps earlier or keeps more light.")
	case a.complete() && len(others) == 0:
		t.Items = said("With its pins, no other day with these scenes waits less, wraps earlier or keeps more light.")
	}
	if len(pins) > 0 {
		t.Items = append(t.Items, Item{Choices: []Choice{{
			Text: count(len(pins), "scene is", "scenes are") + " pinned to this day; other days keep the pins.",
			Do:   Do{Button: "Take out the pins", Name: "take out the pins of the day", Pins: pins},
		}}})
	}
	return t
}

// otherTable holds the day shown and the others against each other.
func otherTable(st session.State, others []day.Other) Table {
	t := Table{Heads: []string{"This day"}, Do: []Do{{}}}
	days := []day.Day{st.Results.Chosen}
	for _, o := range others {
		t.Heads = append(t.Heads, strings.TrimSuffix(sentence(string(o.Kind)), "."))
		t.Do = append(t.Do, take(st, o))
		days = append(days, o.Day)
	}
	var figures []day.Figures
	for _, d := range days {
		figures = append(figures, d.Figures())
	}
	row := func(name string, cell func(i int, f day.Figures) string, better func(a, b day.Figures) bool) {
		r := TableRow{Name: name}
		for i, f := range figures {
			beaten := func(o day.Figures) bool { return better != nil && better(o, f) }
			beats := func(o day.Figures) bool { return better != nil && better(f, o) }
			r.Cells = append(r.Cells, cell(i, f))
			r.Best = append(r.Best, !slices.ContainsFunc(figures, beaten) && slices.ContainsFunc(figures, beats))
		}
		t.Rows = append(t.Rows, r)
	}
	row("Light kept", func(_ int, f day.Figures) string { return fmt.Sprintf("%d %%", day.Percent(f.KeptShare())) },
		func(a, b day.Figures) bool { return a.KeptMinutes() > b.KeptMinutes()+0.5 })
	row("Waiting", func(_ int, f day.Figures) string { return f.Waiting().String() },
		func(a, b day.Figures) bool { return a.Waiting() < b.Waiting() })
	row("Call", func(i int, f day.Figures) string { return clock(days[i], f.Call) }, nil)
	row("Wrap", func(i int, f day.Figures) string { return clock(days[i], f.Wrap) },
		func(a, b day.Figures) bool { return a.Wrap.Before(b.Wrap) })
	row("Length", func(_ int, f day.Figures) string { return f.Length().String() },
		func(a, b day.Figures) bool { return a.Length() < b.Length() })
	row("Moves", func(_ int, f day.Figures) string { return fmt.Sprint(f.Moves) },
		func(a, b day.Figures) bool { return a.Moves < b.Moves })
	if slices.ContainsFunc(figures, func(f day.Figures) bool { return len(f.LeftOut) != len(figures[0].LeftOut) }) {
		row("Left out", func(_ int, f day.Figures) string { return fmt.Sprint(len(f.LeftOut)) },
			func(a, b day.Figures) bool { return len(a.LeftOut) < len(b.LeftOut) })
	}
	row("Points lost", func(_ int, f day.Figures) string { return points(f.Loss.Total()) },
		func(a, b day.Figures) bool { return a.Loss.Total() < b.Loss.Total()-0.05 })
	return t
}

// take pins an other day's scenes where it has them, and keeps its date: with pins, another date might lose less.
func take(st session.State, o day.Other) Do {
	names := map[day.OtherKind]string{
		day.LeastWaiting: "take the day of least waiting",
		day.EarliestWrap: "take the day of the earliest wrap",
		day.MostLight:    "take the day of most light",
	}
	do := Do{Button: "Take this day", Name: names[o.Kind]}
	for _, at := range o.Scenes {
		do.Pins = append(do.Pins, Pinned{at.Scene, plan.Pin{Date: o.Date, Start: plan.ClockOn(o.Date, at.Start, o.Zone)}})
	}
	if len(day.Candidates(&st.Plan)) > 1 {
		do.Date = o.Date
	}
	return do
}

// sure says in a sentence what a proof is worth.
func sure(d day.Day) string {
	switch text := sentence(Proof(d)); {
	case d.Gap == 0:
		return text + " No other order of these scenes on this date loses less."
	default:
		return text + " There may be a better order; this is the best that was found."
	}
}

// points is a number of points without the word.
func points(x float64) string { return strings.Fields(day.PointWords(x))[0] }
