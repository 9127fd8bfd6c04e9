package main

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/store"
)

// dated is what commands that work on one day of a plan share.
type dated struct {
	Plan string `arg:"" help:"The plan."`
	Date string `help:"The date, as in 2027-10-16; otherwise the plan's chosen one, or the best of its candidates." placeholder:"DATE"`
	JSON bool   `help:"Print JSON for machines."`
}

// day reads the plan and places it.
func (c dated) day() (plan.Plan, day.Day, error) {
	p, _, err := store.Read(c.Plan)
	if err != nil {
		return p, day.Day{}, err
	}
	if c.Date != "" {
		if p.Shooting.Date, err = plan.ParseDate(c.Date); err != nil {
			return p, day.Day{}, err
		}
	}
	d, err := day.Chosen(context.Background(), &p)
	return p, d, err
}

type placeCommand struct{ dated }

// placeReport is what place --json prints. Times are UTC; light is the share of its light that a scene keeps, 0 to 1; loss
// is in points, which the plan's weights define.
type placeReport struct {
	Date     string        `json:"date"`
	Zone     string        `json:"zone"`
	Status   string        `json:"status"`
	Gap      float64       `json:"gap"`
	Call     *time.Time    `json:"call"`
	Wrap     *time.Time    `json:"wrap"`
	Loss     lossReport    `json:"loss"`
	Scenes   []sceneReport `json:"scenes"`
	LeftOut  []leftReport  `json:"leftOut"`
	Meals    []spanReport  `json:"meals"`
	People   []whoReport   `json:"people"`
	Problems []string      `json:"problems"`
}

type lossReport struct {
	Total   float64 `json:"total"`
	Light   float64 `json:"light"`
	Waiting float64 `json:"waiting"`
	Moves   float64 `json:"moves"`
	Length  float64 `json:"length"`
	LeftOut float64 `json:"leftOut"`
}

type sceneReport struct {
	ID     plan.ID    `json:"id"`
	Number string     `json:"number"`
	Setup  *time.Time `json:"setup"`
	Start  *time.Time `json:"start"`
	End    *time.Time `json:"end"`
	Light  float64    `json:"light"`
}

type leftReport struct {
	ID  plan.ID `json:"id"`
	Why string  `json:"why"`
}

type spanReport struct {
	Start *time.Time `json:"start"`
	End   *time.Time `json:"end"`
}

type whoReport struct {
	ID      plan.ID      `json:"id"`
	Call    *time.Time   `json:"call"`
	Release *time.Time   `json:"release"`
	Filmed  plan.Minutes `json:"filmedMinutes"`
	Waits   plan.Minutes `json:"waitingMinutes"`
}

// Run is kong's.
func (c placeCommand) Run(w world) error {
	p, d, err := c.day()
	if err != nil {
		return err
	}
	if c.JSON {
		if err := printJSON(w, newPlaceReport(p, d)); err != nil {
			return err
		}
	} else {
		printDay(w, p, d)
	}
	if d.Sky == nil || len(d.LeftOut) > 0 {
		return errProblems
	}
	return nil
}

func newPlaceReport(p plan.Plan, d day.Day) placeReport {
	l := d.Loss
	r := placeReport{
		Date: d.Date.String(), Zone: p.Property.Zone, Status: d.Status.String(), Gap: d.Gap, Call: utc(d.Call), Wrap: utc(d.Wrap),
		Loss:   lossReport{l.Total(), l.Light, l.Waiting, l.Moves, l.Length, l.LeftOut},
		Scenes: []sceneReport{}, LeftOut: []leftReport{}, Meals: []spanReport{}, People: []whoReport{}, Problems: []string{},
	}
	for _, s := range d.Scenes {
		sc, _ := p.Scene(s.Scene)
		r.Scenes = append(r.Scenes, sceneReport{s.Scene, sc.Number, utc(s.Setup), utc(s.Start), utc(s.End), s.Kept})
	}
	for _, s := range d.LeftOut {
		r.LeftOut = append(r.LeftOut, leftReport{s.Scene, s.Why.String()})
	}
	for _, m := range d.Meals {
		r.Meals = append(r.Meals, spanReport{utc(m.From), utc(m.To)})
	}
	for _, q := range d.People {
		r.People = append(r.People, whoReport{q.Person, utc(q.Call), utc(q.Release), q.Filmed, q.Waits})
	}
	for _, q := range d.Problems {
		r.Problems = append(r.Problems, q.String())
	}
	return r
}

func printDay(w world, p plan.Plan, d day.Day) {
	if d.Sky == nil {
		for _, problem := range d.Problems {
			fmt.Fprintln(w.out, problem)
		}
		return
	}
	at := func(t time.Time) string { return clockOn(d.Date, t, d.Zone) }
	fmt.Fprintf(w.out, "%s, %s\n\n  %s  call\n", p.Title, d.Date.Long(), at(d.Call))
	meals := d.Meals
	for _, s := range d.Scenes {
		for len(meals) > 0 && meals[0].From.Before(s.Start) {
			fmt.Fprintf(w.out, "  %s  meal to %s\n", at(meals[0].From), at(meals[0].To))
			meals = meals[1:]
		}
		sc, _ := p.Scene(s.Scene)
		space, _ := p.Space(sc.Space)
		name := strings.TrimSpace(sc.Number + " " + sc.Title)
		fmt.Fprintf(w.out, "  %s-%s  %-36s %-16s %3d %% of its light (%s)\n", at(s.Start), at(s.End), name, cmp.Or(space.Name, string(space.ID)),
			day.Percent(s.Kept), sc.Wish.Kind.Or())
	}
	for _, m := range meals {
		fmt.Fprintf(w.out, "  %s  meal to %s\n", at(m.From), at(m.To))
	}
	fmt.Fprintf(w.out, "  %s  wrap, %s after the call\n\n", at(d.Wrap), d.Length())
	for _, q := range d.People {
		who, _ := p.Person(q.Person)
		fmt.Fprintf(w.out, "  %-28s %s-%s  waiting %s\n", who.Called(), at(q.Call), at(q.Release), q.Waits)
	}
	l := d.Loss
	fmt.Fprintf(w.out, "\n  loss %.1f points: light %.1f, waiting %.1f, moves %.1f, length %.1f, left out %.1f (%s, gap %.1f)\n\n",
		l.Total(), l.Light, l.Waiting, l.Moves, l.Length, l.LeftOut, d.Status, d.Gap)
	for _, s := range d.LeftOut {
		fmt.Fprintf(w.out, "  ! %s\n", s.Why)
	}
	for _, problem := range d.Problems {
		fmt.Fprintf(w.out, "  ! %s\n", problem)
	}
}

// clockOn is the wall clock at the property, with a mark for the next date and for the one before.
func clockOn(d plan.Date, t time.Time, zone *time.Location) string {
	local := t.Round(time.Minute).In(zone)
	mark := ""
	switch on := plan.DateOf(local); {
	case d.Before(on):
		mark = "+1"
	case on.Before(d):
		mark = "-1"
	}
	return local.Format("15:04") + mark
}

func printJSON(w world, v any) error {
	enc := json.NewEncoder(w.out)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}
