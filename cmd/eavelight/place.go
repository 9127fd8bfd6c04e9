package main

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"time"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
	"eavelight/plan/store"
)

// dated is what commands that work on one day of a plan share.
type dated struct {
	Plan string `arg:"" help:"The plan."`
	Date string `help:"The date, as in 2027-10-16; otherwise the plan's chosen one, or the best of its candidates." placeholder:"DATE" xor:"date"`
	JSON bool   `help:"Print JSON for machines."`
}

// shoot reads the plan and places it: as well as it can until the context ends.
func (c dated) shoot(ctx context.Context, w world) (plan.Plan, day.Shoot, error) {
	p, _, err := store.Read(c.Plan)
	if err != nil {
		return p, day.Shoot{}, err
	}
	if c.Date != "" {
		if p.Shooting.Date, err = plan.ParseDate(c.Date); err != nil {
			return p, day.Shoot{}, err
		}
	}
	s, err := w.shoot(ctx, &p)
	return p, s, err
}

// shoot places a plan and tells how far it is. What was found when the user stopped it is nothing that was asked for.
func (w world) shoot(ctx context.Context, p *plan.Plan) (day.Shoot, error) {
	hear, end := w.doing("Placing the scenes")
	defer end()
	s, err := day.ChosenShoot(ctx, p, func(placed, of int) {
		if days := p.Shooting.DayCount(); placed == of && days > 1 {
			hear(fmt.Sprintf("Sharing the scenes out among %d days", days))
			return
		}
		hear(placing(placed, of))
	})
	return s, cmp.Or(w.ctx.Err(), err)
}

// placing tells which of some dates is placed now.
func placing(placed, of int) string {
	return fmt.Sprintf("Placing the scenes: date %d of %d", min(placed+1, of), of)
}

type placeCommand struct {
	dated
	Dates bool          `help:"Rank the plan's candidate dates instead, best first." xor:"date,why"`
	Why   bool          `help:"Tell why each scene is where it is and why people wait, what would free a scene left out, which other days are good, and what more would buy." xor:"why"`
	Limit time.Duration `help:"Stop searching after so long, as in 10s, and print the best found by then; with --why, twice so long." placeholder:"TIME"`
}

// search is the context of one search, with the limit that the user gave it.
func (c placeCommand) search(w world) (context.Context, context.CancelFunc) {
	if c.Limit == 0 {
		return context.WithCancel(w.ctx)
	}
	return context.WithTimeout(w.ctx, c.Limit)
}

// shootReport is what place --json prints of a film on several days; of one day it prints that day's report alone.
type shootReport struct {
	Days    []placeReport `json:"days"`
	Total   float64       `json:"total"`   // points; what is left out of the film is in every day's loss and counts once
	Again   float64       `json:"again"`   // of it, for people who come on a further day
	Opening float64       `json:"opening"` // of it, for the further days
	Status  string        `json:"status"`  // of how the scenes are shared out
	Gap     float64       `json:"gap"`
}

// placeReport is what place --json prints of a day. Times are UTC; light is the share of its light that a scene keeps, 0 to 1; loss
// is in points, which the plan's weights define.
type placeReport struct {
	Date     string        `json:"date"`
	Zone     string        `json:"zone"`
	Status   string        `json:"status"`
	Gap      float64       `json:"gap"`
	Bound    float64       `json:"bound"`   // no day loses less than this
	Stopped  bool          `json:"stopped"` // a search was stopped by the limit
	Figures  figuresReport `json:"figures"`
	Call     *time.Time    `json:"call"`
	Wrap     *time.Time    `json:"wrap"`
	Loss     lossReport    `json:"loss"`
	Scenes   []sceneReport `json:"scenes"`
	LeftOut  []leftReport  `json:"leftOut"`
	Meals    []spanReport  `json:"meals"`
	People   []whoReport   `json:"people"`
	Problems []string      `json:"problems"`
	Why      *whyReport    `json:"why,omitempty"` // with --why
}

type lossReport struct {
	Total    float64 `json:"total"`
	Light    float64 `json:"light"`
	Waiting  float64 `json:"waiting"`
	Moves    float64 `json:"moves"`
	Length   float64 `json:"length"`
	Overtime float64 `json:"overtime"`
	LeftOut  float64 `json:"leftOut"`
}

type sceneReport struct {
	ID     plan.ID       `json:"id"`
	Number string        `json:"number"`
	Setup  *time.Time    `json:"setup"`
	Start  *time.Time    `json:"start"`
	End    *time.Time    `json:"end"`
	Light  float64       `json:"light"`
	Flight *flightReport `json:"flight,omitempty"` // of a scene shot from a drone
	Why    *hereWhy      `json:"why,omitempty"`    // missing where the limit ended the search for it
}

// flightReport is the light that a flight is in: day, twilight, night or unknown; empty where the plan names no rules.
type flightReport struct {
	Light people.FlightLight `json:"light"`
	Words string             `json:"words"`
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
	switch {
	case c.Limit < 0:
		return fmt.Errorf("--limit %s is no time to search; write it as in 10s", c.Limit)
	case c.Dates:
		return c.rank(w)
	}
	ctx, cancel := c.search(w)
	defer cancel()
	p, s, err := c.shoot(ctx, w)
	if errors.Is(err, context.DeadlineExceeded) {
		return fmt.Errorf("the limit of %s ended the search before it found a day; give it longer", c.Limit)
	}
	if err != nil {
		return err
	}
	stopped := ctx.Err() != nil
	tells := c.tells(w, s.Days)
	if err := w.ctx.Err(); err != nil {
		return err
	}
	var reports []placeReport
	for i, d := range s.Days {
		t := tells[i]
		if c.JSON {
			reports = append(reports, c.report(p, d, t, stopped))
			continue
		}
		printDay(w, p, d)
		if stopped {
			fmt.Fprintf(w.out, "  stopped after %s; a longer search may find better\n", c.Limit)
		}
		t.print(w, p, d)
	}
	switch {
	case c.JSON && len(reports) == 1:
		err = printJSON(w, reports[0])
	case c.JSON:
		err = printJSON(w, shootReport{reports, s.Total(), s.Again, s.Opening, s.Status.String(), s.Gap})
	case len(s.Days) > 1:
		printShoot(w, s)
	}
	if err == nil && (s.Days[0].Sky == nil || len(s.LeftOut()) > 0) {
		return errProblems
	}
	return err
}

func (c placeCommand) report(p plan.Plan, d day.Day, t told, stopped bool) placeReport {
	r := newPlaceReport(p, d)
	r.Stopped = stopped || t.stopped
	r.addHere(d, &p, t.here)
	if c.Why {
		r.addWhy(d, &p, t)
	}
	return r
}

// printShoot adds up the days of a film.
func printShoot(w world, s day.Shoot) {
	fmt.Fprintf(w.out, "\n%d days\n\n", len(s.Days))
	paragraph(w.out, "  ", fmt.Sprintf("loss %.1f points in all: of it %.1f for people who come again, %.1f for the further days", s.Total(), s.Again, s.Opening))
	paragraph(w.out, "  ", "The scenes are shared out among the days by a search, "+shared(s.Gap)+".")
}

// shared says how far the sharing out can be trusted to be the best.
func shared(gap float64) string {
	if gap == 0 {
		return "proven best"
	}
	return "not proven best: at most " + day.PointWords(gap).String() + " could be saved"
}

func newPlaceReport(p plan.Plan, d day.Day) placeReport {
	r := placeReport{
		Date: d.Date.String(), Zone: p.Property.Zone, Status: d.Status.String(), Gap: d.Gap, Bound: d.Loss.Total() - d.Gap,
		Call: utc(d.Call), Wrap: utc(d.Wrap), Loss: newLossReport(d.Loss), Figures: newFiguresReport(d.Figures()),
		Scenes: newSceneReports(&p, d), LeftOut: []leftReport{}, Meals: []spanReport{}, People: []whoReport{}, Problems: []string{},
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

func newSceneReports(p *plan.Plan, d day.Day) []sceneReport {
	out := []sceneReport{}
	for _, s := range d.Scenes {
		sc, _ := p.Scene(s.Scene)
		r := sceneReport{ID: s.Scene, Number: sc.Number, Setup: utc(s.Setup), Start: utc(s.Start), End: utc(s.End), Light: s.Kept}
		if f, ok := d.Flight(s.Scene); ok {
			r.Flight = &flightReport{f.Light, f.Words(d.Zone).String()}
		}
		out = append(out, r)
	}
	return out
}

func newLossReport(l day.Loss) lossReport {
	return lossReport{l.Total(), l.Light, l.Waiting, l.Moves, l.Length, l.Overtime, l.LeftOut}
}

func printDay(w world, p plan.Plan, d day.Day) {
	if d.Sky == nil {
		for _, problem := range d.Problems {
			paragraph(w.out, "", problem.String())
		}
		return
	}
	at := func(t time.Time) string { return clockOn(d.Date, t, d.Zone) }
	number := ""
	if d.Of > 1 {
		number = fmt.Sprintf(", day %d of %d", d.Number, d.Of)
	}
	fmt.Fprintf(w.out, "%s, %s%s\n\n  %s  call\n", p.Title, d.Date.Long(), number, at(d.Call))
	meals := d.Meals
	for _, s := range d.Scenes {
		for len(meals) > 0 && meals[0].From.Before(s.Start) {
			fmt.Fprintf(w.out, "  %s  meal to %s\n", at(meals[0].From), at(meals[0].To))
			meals = meals[1:]
		}
		sc, _ := p.Scene(s.Scene)
		space, _ := p.Space(sc.Space)
		name := strings.TrimSpace(sc.Number + " " + sc.Title)
		fmt.Fprintf(w.out, "  %s-%s  %s %s %3d %% of its light (%s)\n", at(s.Start), at(s.End), cell(name, 32), cell(cmp.Or(space.Name, string(space.ID)), 16),
			day.Percent(s.Kept), sc.Wish.Kind.Or())
		if f, ok := d.Flight(s.Scene); ok && f.Light != "" {
			fmt.Fprintf(w.out, "               flight %s\n", f.Words(d.Zone))
		}
	}
	for _, m := range meals {
		fmt.Fprintf(w.out, "  %s  meal to %s\n", at(m.From), at(m.To))
	}
	fmt.Fprintf(w.out, "  %s  wrap, %s after the call\n\n", at(d.Wrap), d.Length())
	for _, q := range d.People {
		who, _ := p.Person(q.Person)
		fmt.Fprintf(w.out, "  %-28s %s-%s  waiting %s\n", who.Called(), at(q.Call), at(q.Release), q.Waits)
	}
	fmt.Fprintln(w.out)
	paragraph(w.out, "  ", lossWords(d.Loss))
	fmt.Fprintf(w.out, "  %s\n\n", searched(d.Gap))
	for _, s := range d.LeftOut {
		paragraph(w.out, "  ! ", s.Why.String())
	}
	for _, problem := range d.Problems {
		paragraph(w.out, "  ! ", problem.String())
	}
	if len(d.Flights) > 0 {
		paragraph(w.out, "  ", "Drone: "+people.DroneCaution)
	}
}

func lossWords(l day.Loss) string {
	overtime := ""
	if l.Overtime > 0 {
		overtime = fmt.Sprintf(", overtime %.1f", l.Overtime)
	}
	return fmt.Sprintf("loss %.1f points: light %.1f, waiting %.1f, moves %.1f, length %.1f%s, left out %.1f",
		l.Total(), l.Light, l.Waiting, l.Moves, l.Length, overtime, l.LeftOut)
}

// searched says how far a placement can be trusted to be the best.
func searched(gap float64) string {
	if gap == 0 {
		return "proven best"
	}
	return "within " + day.PointWords(gap).String() + " of the best"
}

// columns is how wide the lines are that people read.
const columns = 100

// amounts are numbers with their units, which no line breaks.
var amounts = regexp.MustCompile(`\d+ (h( \d\d)?|min|points?|%)`)

// paragraph prints a text behind a mark, its further lines set in by as much.
func paragraph(out io.Writer, mark, text string) {
	const held = "\u00a0"
	hold := func(amount string) string { return strings.ReplaceAll(amount, " ", held) }
	width := utf8.RuneCountInString(mark)
	line := mark
	for i, word := range strings.Split(amounts.ReplaceAllStringFunc(text, hold), " ") {
		switch {
		case i == 0:
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > columns:
			fmt.Fprintln(out, strings.ReplaceAll(line, held, " "))
			line = strings.Repeat(" ", width)
		default:
			line += " "
		}
		line += word
	}
	fmt.Fprintln(out, strings.ReplaceAll(line, held, " "))
}

// cell is a text as wide as its column: filled up, or cut.
func cell(text string, width int) string {
	runes := []rune(text)
	if len(runes) > width {
		return string(runes[:width-1]) + "…"
	}
	return text + strings.Repeat(" ", width-len(runes))
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
