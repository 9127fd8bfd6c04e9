package main

import (
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/say"
)

// The reports below are what place --json prints with --why, and of every day in figures. Points are those of the plan's
// weights, minutes are whole but for light; what a difference counts is more than on the day that is printed, below 0 less.
// Words are the sentences that people read.

type figuresReport struct {
	Date    string       `json:"date"`
	Light   float64      `json:"light"` // share of the light wished for that is kept, 0 to 1
	Waiting plan.Minutes `json:"waitingMinutes"`
	Call    *time.Time   `json:"call"`
	Wrap    *time.Time   `json:"wrap"`
	Length  plan.Minutes `json:"lengthMinutes"`
	Moves   int          `json:"moves"`
	Moving  plan.Minutes `json:"movingMinutes"`
	LeftOut []plan.ID    `json:"leftOut"`
	Loss    lossReport   `json:"loss"`
	Gap     float64      `json:"gap"`
	Status  string       `json:"status"`
}

func newFiguresReport(f day.Figures) figuresReport {
	return figuresReport{
		Date: f.Date.String(), Light: f.KeptShare(), Waiting: f.Waiting(), Call: utc(f.Call), Wrap: utc(f.Wrap), Length: f.Length(),
		Moves: f.Moves, Moving: f.Moving, LeftOut: append([]plan.ID{}, f.LeftOut...), Loss: newLossReport(f.Loss), Gap: f.Gap, Status: f.Status.String(),
	}
}

type differenceReport struct {
	Loss    lossReport      `json:"loss"`
	Light   []minutesReport `json:"lightLost"`
	Waiting []minutesReport `json:"waiting"`
	Moving  plan.Minutes    `json:"movingMinutes"`
	Length  plan.Minutes    `json:"lengthMinutes"`
	LeftOut []plan.ID       `json:"leftOut"` // scenes placed on the day that is printed
	Placed  []placedReport  `json:"placed"`  // scenes left out on it
	Words   string          `json:"words"`
}

type minutesReport struct {
	ID      plan.ID `json:"id"`
	Minutes float64 `json:"minutes"`
}

type placedReport struct {
	ID    plan.ID `json:"id"`
	Light float64 `json:"light"` // share of its light that it keeps there
}

func newDifferenceReport(p *plan.Plan, x day.Difference) differenceReport {
	r := differenceReport{
		Loss: newLossReport(x.Points), Light: []minutesReport{}, Waiting: []minutesReport{}, Moving: x.Moving, Length: x.Length,
		LeftOut: append([]plan.ID{}, x.Out...), Placed: []placedReport{}, Words: x.Words(p).String(),
	}
	for _, s := range x.In {
		r.Placed = append(r.Placed, placedReport{s.Scene, s.Kept / float64(s.Of)})
	}
	for _, s := range x.Light {
		r.Light = append(r.Light, minutesReport{s.Scene, s.Minutes})
	}
	for _, q := range x.Waiting {
		r.Waiting = append(r.Waiting, minutesReport{q.Person, float64(q.Waits)})
	}
	return r
}

// hereWhy is why a scene is where it is.
type hereWhy struct {
	Earlier *shiftReport `json:"earlier"` // at least an hour; null where the search could not tell
	Later   *shiftReport `json:"later"`
	Words   []string     `json:"words"`
}

type shiftReport struct {
	Cannot string            `json:"cannot,omitempty"` // why there is no such day
	Start  *time.Time        `json:"start,omitempty"`
	Proven bool              `json:"proven"`
	Cost   *differenceReport `json:"cost,omitempty"`
}

func newShiftReport(p *plan.Plan, s *day.Shift) *shiftReport {
	switch {
	case s == nil:
		return nil
	case !s.Cannot.IsZero():
		return &shiftReport{Cannot: s.Cannot.String(), Proven: true}
	}
	cost := newDifferenceReport(p, s.Cost)
	return &shiftReport{Start: utc(s.Start), Proven: s.Proven, Cost: &cost}
}

func inEnglish(texts []say.Text) []string {
	var out []string
	for _, t := range texts {
		out = append(out, t.String())
	}
	return out
}

// whyReport is the rest of what --why tells.
type whyReport struct {
	Waiting []waitingReport `json:"waiting"`
	Freeing []freeingReport `json:"freeing"`
	Others  []otherReport   `json:"otherDays"`
	Gains   []gainReport    `json:"gains"`
}

type waitingReport struct {
	ID      plan.ID        `json:"id"`
	Waits   plan.Minutes   `json:"waitingMinutes"`
	Between []waitReport   `json:"between"`
	Without *withoutReport `json:"without"` // null where the search could not tell
	Words   []string       `json:"words"`
}

type waitReport struct {
	After  plan.ID         `json:"after"`
	Before plan.ID         `json:"before"`
	Waits  plan.Minutes    `json:"waitingMinutes"`
	Filled []fillingReport `json:"filled"`
}

type fillingReport struct {
	Kind   day.FillingKind `json:"kind"`
	Scene  plan.ID         `json:"scene,omitempty"`
	Start  *time.Time      `json:"start"`
	End    *time.Time      `json:"end"`
	Sooner *shiftReport    `json:"sooner,omitempty"`
}

type withoutReport struct {
	Waits  plan.Minutes     `json:"waitingMinutes"`
	Proven bool             `json:"proven"`
	Cost   differenceReport `json:"cost"`
}

// changeReport holds the figures that a change of its kind has, and no others.
type changeReport struct {
	Kind   day.ChangeKind  `json:"kind"`
	Scene  plan.ID         `json:"scene,omitempty"`
	Other  plan.ID         `json:"other,omitempty"`
	Person plan.ID         `json:"person,omitempty"`
	From   plan.ID         `json:"from,omitempty"`
	To     plan.ID         `json:"to,omitempty"`
	By     plan.Minutes    `json:"byMinutes,omitempty"`
	At     string          `json:"at,omitempty"`
	As     plan.Importance `json:"as,omitempty"`
	Date   string          `json:"date"`
}

func newChangeReport(c day.Change) changeReport {
	return changeReport{c.Kind, c.Scene, c.Other, c.Person, c.From, c.To, c.By, c.At.String(), c.As, c.Date.String()}
}

type freeingReport struct {
	Scene   plan.ID       `json:"scene"`
	Changes []freedReport `json:"changes"`
}

type freedReport struct {
	Change  changeReport  `json:"change"`
	Figures figuresReport `json:"figures"`
	Words   string        `json:"words"`
}

type otherReport struct {
	Kind    day.OtherKind    `json:"kind"`
	Most    bool             `json:"most"` // no day with these scenes is better in its kind
	Figures figuresReport    `json:"figures"`
	Scenes  []sceneReport    `json:"scenes"`
	Cost    differenceReport `json:"cost"`
	Words   string           `json:"words"`
}

type gainReport struct {
	Change  changeReport   `json:"change"`
	Points  float64        `json:"points"`
	Figures figuresReport  `json:"figures"`
	Scenes  []plan.ID      `json:"secondScenes,omitempty"`  // of a second date: what is shot on it
	Second  *figuresReport `json:"secondFigures,omitempty"` // and that day
	Words   string         `json:"words"`
}

// addHere puts into the report why each scene is where it is.
func (r *placeReport) addHere(d day.Day, p *plan.Plan, here []day.Here) {
	for _, h := range here {
		for i := range r.Scenes {
			if r.Scenes[i].ID == h.Scene {
				r.Scenes[i].Why = &hereWhy{newShiftReport(p, h.Earlier), newShiftReport(p, h.Later), inEnglish(h.Words(d))}
			}
		}
	}
}

// addWhy puts what was told besides into the report of the day.
func (r *placeReport) addWhy(d day.Day, p *plan.Plan, t told) {
	why := whyReport{Waiting: []waitingReport{}, Freeing: []freeingReport{}, Others: []otherReport{}, Gains: []gainReport{}}
	for _, w := range t.waiting {
		why.Waiting = append(why.Waiting, newWaitingReport(d, p, w))
	}
	for _, f := range t.freeing {
		one := freeingReport{Scene: f.Scene, Changes: []freedReport{}}
		for _, c := range f.Changes {
			one.Changes = append(one.Changes, freedReport{newChangeReport(c.Change), newFiguresReport(c.Figures), c.Words(d).String()})
		}
		why.Freeing = append(why.Freeing, one)
	}
	for _, o := range t.others {
		cost := newDifferenceReport(p, day.Compare(d.Figures(), o.Figures()))
		why.Others = append(why.Others, otherReport{o.Kind, o.Most, newFiguresReport(o.Figures()), newSceneReports(p, o.Day), cost, o.Words(d).String()})
	}
	for _, g := range t.gains {
		one := gainReport{Change: newChangeReport(g.Change), Points: g.Points, Figures: newFiguresReport(g.Figures), Words: g.Words(d).String()}
		if g.Second != nil {
			second := newFiguresReport(g.Second.Figures)
			one.Scenes, one.Second = g.Second.Scenes, &second
		}
		why.Gains = append(why.Gains, one)
	}
	r.Why = &why
}

func newWaitingReport(d day.Day, p *plan.Plan, w day.Waiting) waitingReport {
	r := waitingReport{ID: w.Person, Waits: w.Waits, Between: []waitReport{}, Words: inEnglish(w.Words(d))}
	for _, b := range w.Between {
		one := waitReport{b.After, b.Before, b.Waits, []fillingReport{}}
		for _, f := range b.Filled {
			one.Filled = append(one.Filled, fillingReport{f.Kind, f.Scene, utc(f.From), utc(f.To), newShiftReport(p, f.Sooner)})
		}
		r.Between = append(r.Between, one)
	}
	if o := w.Without; o != nil {
		r.Without = &withoutReport{o.Waits, o.Proven, newDifferenceReport(p, o.Cost)}
	}
	return r
}
