package view

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/say"
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
			return tongue.Say("Scene %s", clipped(s.Number, 8))
		}
		return tongue.Say("Scene")
	case TellWaiting:
		return counted(tongue.Say("Waiting"), len(waiting(d)))
	case TellLeftOut:
		return counted(tongue.Say("Left out"), len(d.LeftOut))
	case TellGains:
		return tongue.Say("What more buys")
	case TellOthers:
		return tongue.Say("Other days")
	}
	return tongue.Say("The day")
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
		return Told{Head: tongue.Say("The day"), Items: said(NoDay(a.State))}
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
	TellScene:   say.Mark("Looking an hour earlier and later…"),
	TellWaiting: say.Mark("Looking for days that spare each of them…"),
	TellLeftOut: say.Mark("Trying one change after another…"),
	TellGains:   say.Mark("Trying what could be had more of…"),
	TellOthers:  say.Mark("Looking for days of less waiting, an earlier wrap, more light…"),
}

func (p Part) status(a Asking) string {
	switch {
	case a.State.Results.Busy && p != TellDay:
		return tongue.Say("The scenes are being placed anew…")
	case a.Looking:
		return tongue.Marked(looking[p])
	case a.Answer != nil && a.Answer.Err != nil:
		return tongue.Say("It could not be told: %s", tongue.Error(a.Answer.Err))
	case a.Answer != nil && a.Answer.Stopped:
		return tongue.Say("Stopped; there may be more to tell.")
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

func sentences(lines []say.Text) []string {
	var out []string
	for _, line := range lines {
		out = append(out, sentence(tongue.Of(line)))
	}
	return out
}

func tellDay(st session.State) Told {
	d := st.Results.Chosen
	t := Told{Head: tongue.Say("The day of %s", d.Date.SaidShort())}
	if dates := whyDate(st); len(dates.Lines) > 0 {
		t.Items = append(t.Items, dates)
	}
	if len(d.Scenes) > 0 {
		t.Items = append(t.Items, Item{Title: tongue.Say("How sure it is"), Lines: []string{sure(d)}})
	}
	if troubles := Troubles(d); len(troubles) > 0 {
		t.Items = append(t.Items, Item{Title: tongue.Say("What to look at"), Lines: troubles})
	}
	return t
}

// mostDates is how many other dates the day shown is held against.
const mostDates = 5

// whyDate holds the date shown against the others, the nearest first. The days of a longer shoot are chosen together.
func whyDate(st session.State) Item {
	d := st.Results.Chosen
	if days := st.Results.Shoot.Days; len(days) > 1 {
		return Item{Title: tongue.Say("The shoot"), Lines: []string{shootLine(st.Results.Shoot)}}
	}
	mine := d.Figures()
	var others []day.Figures
	for _, o := range st.Results.Days {
		if f := o.Figures(); f.Computed() && f.Date != d.Date {
			others = append(others, f)
		}
	}
	slices.SortStableFunc(others, func(a, b day.Figures) int { return cmp.Compare(a.Loss.Total(), b.Loss.Total()) })
	it := Item{Title: tongue.Say("Why this date")}
	for i, o := range others {
		switch {
		case i == mostDates:
			it.Lines = append(it.Lines, tongue.Count(len(others)-i, "%d further date loses more.", "%d further dates lose more."))
			return it
		case o.Loss.Total() < mine.Loss.Total()-0.05:
			it.Lines = append(it.Lines, tongue.Say("%s would be %s.", o.Date.SaidShort(), day.Beats(&st.Plan, o, mine)))
		default:
			it.Lines = append(it.Lines, tongue.Say("Rather than %s: %s.", o.Date.SaidShort(), day.Beats(&st.Plan, mine, o)))
		}
	}
	return it
}

func shootLine(s day.Shoot) string {
	var dates []string
	for _, d := range s.Days {
		dates = append(dates, shortDate(d.Date))
	}
	text := tongue.Say("Shot on %s. Together they lose %s, of which %s for the further days and %s for people who come again.",
		tongue.List(dates), day.PointWords(s.Total()), day.PointWords(s.Opening), day.PointWords(s.Again))
	if s.Gap > 0 {
		text += " " + tongue.Say("Shared out in another way, they could lose %s less at most.", day.PointWords(s.Gap))
	}
	return text
}

func tellScene(a Asking) Told {
	st, d := a.State, a.State.Results.Chosen
	s, ok := st.Plan.Scene(a.Scene)
	if !ok {
		return Told{Head: tongue.Say("Scene"), Items: said(tongue.Say("Select a scene on the board, and it is told why it is there."))}
	}
	t := Told{Head: tongue.Say("Why scene %s is here", s.Name())}
	if _, placed := d.Placed(a.Scene); !placed {
		t.Head = tongue.Say("Scene %s", s.Name())
	}
	for _, h := range a.answer().Here {
		if h.Scene == a.Scene {
			t.Items = append(t.Items, Item{Lines: sentences(h.Words(d))})
		}
	}
	t.Items = append(t.Items, Item{Title: SceneName(s), Lines: []string{selectedDay(st, s)}})
	return t
}

func tellWaiting(a Asking) Told {
	d := a.State.Results.Chosen
	t := Told{Head: tongue.Say("Why they wait")}
	for _, pr := range waiting(d) {
		who, _ := a.State.Plan.Person(pr.Person)
		it := Item{Title: tongue.Say("%s waits %s", who.Called(), pr.Waits)}
		for _, w := range a.answer().Waiting {
			if w.Person == pr.Person {
				it.Lines = sentences(w.Words(d))
			}
		}
		t.Items = append(t.Items, it)
	}
	if len(t.Items) == 0 {
		t.Items = said(tongue.Say("Nobody waits."))
	}
	return t
}

func tellLeftOut(a Asking) Told {
	st, d := a.State, a.State.Results.Chosen
	t := Told{Head: tongue.Say("What would give them a place")}
	for _, out := range d.LeftOut {
		s, _ := st.Plan.Scene(out.Scene)
		it := Item{Title: SceneName(s), Lines: []string{sentence(tongue.Of(out.Why))}}
		for _, f := range a.answer().Freeing {
			if f.Scene != out.Scene {
				continue
			}
			for _, c := range f.Changes {
				it.Choices = append(it.Choices, Choice{
					Text: sentence(tongue.Of(c.Words(d))), Do: Do{Button: tongue.Say("Do it"), Name: tongue.Of(c.Change.Words(&st.Plan)), Change: c.Change},
				})
			}
		}
		if a.complete() && len(it.Choices) == 0 {
			it.Lines = append(it.Lines, tongue.Say("No single change that was tried gives it a place."))
		}
		t.Items = append(t.Items, it)
	}
	if len(t.Items) == 0 {
		t.Head, t.Items = tongue.Say("Left out"), said(tongue.Say("No scene is left out."))
	}
	return t
}

func tellGains(a Asking) Told {
	st, d := a.State, a.State.Results.Chosen
	t := Told{Head: tongue.Say("What more would buy, in points")}
	var it Item
	for _, g := range a.answer().Gains {
		it.Choices = append(it.Choices, Choice{Worth: tongue.Of(day.PointWords(g.Points)), Text: gainLine(st.Plan, d, g)})
	}
	switch {
	case len(it.Choices) > 0:
		t.Items = []Item{it}
	case len(d.Scenes) == 0:
		t.Items = said(tongue.Say("No scene is placed yet."))
	case a.complete():
		t.Items = said(tongue.Say("Nothing that was tried gains much: longer hours, somebody's time all day, kit of its own in two spaces, waiting, a second date."))
	}
	return t
}

// gainLine is what would be had, and what becomes of the day.
func gainLine(p plan.Plan, d day.Day, g day.Gain) string {
	text := g.What(&p)
	if g.Second == nil {
		text = say.Join(": ", text, day.Compare(d.Figures(), g.Figures).Words(&p))
	}
	return sentence(tongue.Of(text))
}

func tellOthers(a Asking) Told {
	st, d := a.State, a.State.Results.Chosen
	t := Told{Head: tongue.Say("Other good days")}
	others := a.answer().Others
	for _, o := range others {
		text := tongue.Of(o.Words(d))
		if !o.Most {
			text = tongue.Say("%s (a longer search could find better)", text)
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
		t.Items = said(tongue.Say("No scene is placed yet."))
	case a.complete() && len(others) == 0 && len(pins) == 0:
		t.Items = said(tongue.Say("No other day with these scenes waits less, wraps earlier or keeps more light."))
	case a.complete() && len(others) == 0:
		t.Items = said(tongue.Say("With its pins, no other day with these scenes waits less, wraps earlier or keeps more light."))
	}
	if len(pins) > 0 {
		t.Items = append(t.Items, Item{Choices: []Choice{{
			Text: tongue.Count(len(pins), "%d scene is pinned to this day; other days keep the pins.",
				"%d scenes are pinned to this day; other days keep the pins."),
			Do: Do{Button: tongue.Say("Take out the pins"), Name: tongue.Say("take out the pins of the day"), Pins: pins},
		}}})
	}
	return t
}

var bestAt = map[day.OtherKind]string{
	day.LeastWaiting: say.Mark("Least waiting"),
	day.EarliestWrap: say.Mark("Earliest wrap"),
	day.MostLight:    say.Mark("Most light"),
}

// otherTable holds the day shown and the others against each other.
func otherTable(st session.State, others []day.Other) Table {
	t := Table{Heads: []string{tongue.Say("This day")}, Do: []Do{{}}}
	days := []day.Day{st.Results.Chosen}
	for _, o := range others {
		t.Heads = append(t.Heads, tongue.Marked(bestAt[o.Kind]))
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
	row(tongue.Say("Light kept"), func(_ int, f day.Figures) string { return fmt.Sprintf("%d %%", day.Percent(f.KeptShare())) },
		func(a, b day.Figures) bool { return a.KeptMinutes() > b.KeptMinutes()+0.5 })
	row(tongue.Say("Waiting"), func(_ int, f day.Figures) string { return f.Waiting().String() },
		func(a, b day.Figures) bool { return a.Waiting() < b.Waiting() })
	row(tongue.Say("time|Call"), func(i int, f day.Figures) string { return clock(days[i], f.Call) }, nil)
	row(tongue.Say("time|Wrap"), func(i int, f day.Figures) string { return clock(days[i], f.Wrap) },
		func(a, b day.Figures) bool { return a.Wrap.Before(b.Wrap) })
	row(tongue.Say("Length"), func(_ int, f day.Figures) string { return f.Length().String() },
		func(a, b day.Figures) bool { return a.Length() < b.Length() })
	row(tongue.Say("Moves"), func(_ int, f day.Figures) string { return fmt.Sprint(f.Moves) },
		func(a, b day.Figures) bool { return a.Moves < b.Moves })
	if slices.ContainsFunc(figures, func(f day.Figures) bool { return len(f.LeftOut) != len(figures[0].LeftOut) }) {
		row(tongue.Say("Left out"), func(_ int, f day.Figures) string { return fmt.Sprint(len(f.LeftOut)) },
			func(a, b day.Figures) bool { return len(a.LeftOut) < len(b.LeftOut) })
	}
	row(tongue.Say("Points lost"), func(_ int, f day.Figures) string { return points(f.Loss.Total()) },
		func(a, b day.Figures) bool { return a.Loss.Total() < b.Loss.Total()-0.05 })
	return t
}

// take pins an other day's scenes where it has them, and keeps its date: with pins, another date might lose less.
func take(st session.State, o day.Other) Do {
	names := map[day.OtherKind]string{
		day.LeastWaiting: tongue.Say("take the day of least waiting"),
		day.EarliestWrap: tongue.Say("take the day of the earliest wrap"),
		day.MostLight:    tongue.Say("take the day of most light"),
	}
	do := Do{Button: tongue.Say("Take this day"), Name: names[o.Kind]}
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
		return text + " " + tongue.Say("No other order of these scenes on this date loses less.")
	default:
		return text + " " + tongue.Say("There may be a better order; this is the best that was found.")
	}
}

// points is a number of points without the word.
func points(x float64) string { return strings.Fields(tongue.Of(day.PointWords(x)))[0] }
