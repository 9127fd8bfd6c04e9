package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/store"
)

// told is what place --why tells of a day, as far as the limit let it come.
type told struct {
	here    []day.Here
	waiting []day.Waiting
	freeing []day.Freeing
	others  []day.Other
	gains   []day.Gain
	stopped bool
}

// tells asks each day for what is to be printed of it.
func (c placeCommand) tells(w world, days []day.Day) []told {
	_, end := w.doing("Asking why")
	defer end()
	out := make([]told, len(days))
	for i, d := range days {
		switch {
		case c.Why:
			out[i] = c.tell(w, d)
		case c.JSON:
			out[i] = c.tellHere(w, d)
		}
	}
	return out
}

// tell asks a day for all that it can tell of itself.
func (c placeCommand) tell(w world, d day.Day) told {
	ctx, cancel := c.search(w)
	defer cancel()
	var t told
	var errs [5]error
	t.here, errs[0] = d.WhyHere(ctx)
	t.waiting, errs[1] = d.WhyWaiting(ctx)
	t.freeing, errs[2] = d.Freeing(ctx)
	t.others, errs[3] = d.Others(ctx)
	t.gains, errs[4] = d.Gains(ctx)
	t.stopped = errors.Join(errs[:]...) != nil
	return t
}

// tellHere asks a day only why its scenes are where they are.
func (c placeCommand) tellHere(w world, d day.Day) told {
	ctx, cancel := c.search(w)
	defer cancel()
	here, err := d.WhyHere(ctx)
	return told{here: here, stopped: err != nil}
}

func (t told) print(w world, p plan.Plan, d day.Day) {
	section := func(n int, title string) {
		if n > 0 {
			fmt.Fprintf(w.out, "\n  %s\n", title)
		}
	}
	section(len(t.here), "Why here")
	for _, h := range t.here {
		at, _ := d.Placed(h.Scene)
		sc, _ := p.Scene(h.Scene)
		fmt.Fprintf(w.out, "    %s  %s %s\n", clockOn(d.Date, at.Start, d.Zone), sc.Number, sc.Title)
		for _, line := range h.Words(d) {
			paragraph(w.out, "           - ", line.String())
		}
	}
	section(len(t.waiting), "Why people wait")
	for _, q := range t.waiting {
		who, _ := p.Person(q.Person)
		fmt.Fprintf(w.out, "    %s, %s\n", who.Called(), q.Waits)
		for _, line := range q.Words(d) {
			paragraph(w.out, "           - ", line.String())
		}
	}
	for _, f := range t.freeing {
		sc, _ := p.Scene(f.Scene)
		section(1, "What would give scene "+sc.Name()+" a place")
		for _, change := range f.Changes {
			paragraph(w.out, "    - ", change.Words(d).String())
		}
		if len(f.Changes) == 0 {
			fmt.Fprintln(w.out, "    - no single change that was tried")
		}
	}
	t.printOthers(w.out, d)
	section(len(t.gains), "What more would buy")
	for _, g := range t.gains {
		paragraph(w.out, "    - ", g.Words(d).String())
	}
	if t.stopped {
		fmt.Fprint(w.out, "\n  stopped by the limit; there is more to tell\n")
	}
}

func (t told) printOthers(out io.Writer, d day.Day) {
	if len(t.others) == 0 {
		return
	}
	fmt.Fprintln(out)
	figuresHead(out, "Other good days")
	figuresRow(out, "the day above", d.Figures(), d.Zone, "")
	for _, o := range t.others {
		figuresRow(out, string(o.Kind), o.Figures(), d.Zone, "")
	}
	fmt.Fprintln(out)
	for _, o := range t.others {
		paragraph(out, "    - ", o.Words(d).String())
	}
}

func figuresHead(out io.Writer, name string) {
	fmt.Fprintf(out, "  %s  light   waiting   call   wrap   length  moves  left out   points\n", cell(name, 16))
}

func figuresRow(out io.Writer, name string, f day.Figures, zone *time.Location, note string) {
	at := func(t time.Time) string { return clockOn(f.Date, t, zone) }
	row := fmt.Sprintf("  %s  %3d %%  %8s  %5s  %5s  %7s  %5d  %8d  %7.1f  %s", cell(name, 16), day.Percent(f.KeptShare()), f.Waiting(),
		at(f.Call), at(f.Wrap), f.Length(), f.Moves, len(f.LeftOut), f.Loss.Total(), note)
	fmt.Fprintln(out, strings.TrimRight(row, " "))
}

// ranking is what place --dates --json prints, the best date first.
type ranking struct {
	Dates   []rankedReport `json:"dates"`
	Stopped bool           `json:"stopped"`
}

type rankedReport struct {
	figuresReport
	Problems []string `json:"problems,omitempty"` // what kept the date from being placed
	Beats    string   `json:"beats,omitempty"`    // why it is better than the next
}

// rank places all candidate dates and prints them, the best first.
func (c placeCommand) rank(w world) error {
	p, _, err := store.Read(c.Plan)
	if err != nil {
		return err
	}
	ctx, cancel := c.search(w)
	defer cancel()
	dates, placed := day.Candidates(&p), 0
	hear, end := w.doing(placing(0, len(dates)))
	found, err := day.Rank(ctx, &p, dates, func(day.Figures) {
		placed++
		hear(placing(placed, len(dates)))
	})
	end()
	stopped := errors.Is(err, context.DeadlineExceeded)
	switch {
	case err != nil && !stopped:
		return err
	case len(found) == 0 && stopped:
		return fmt.Errorf("the limit of %s ended the search before it placed a date; give it longer", c.Limit)
	case len(found) == 0:
		return errors.New("no date is proposed; add some on the page Day, or name one with --date")
	}
	if c.JSON {
		err = printJSON(w, newRanking(&p, found, stopped))
	} else {
		c.printRanking(w, p, found, stopped)
	}
	if err == nil && (!found[0].Computed() || len(found[0].LeftOut) > 0) {
		return errProblems
	}
	return err
}

func newRanking(p *plan.Plan, found []day.Figures, stopped bool) ranking {
	out := ranking{Stopped: stopped}
	for i, f := range found {
		r := rankedReport{figuresReport: newFiguresReport(f)}
		for _, problem := range f.Problems {
			r.Problems = append(r.Problems, problem.String())
		}
		if i+1 < len(found) && found[i+1].Computed() {
			r.Beats = day.Beats(p, f, found[i+1]).String()
		}
		out.Dates = append(out.Dates, r)
	}
	return out
}

func (c placeCommand) printRanking(w world, p plan.Plan, found []day.Figures, stopped bool) {
	if !found[0].Computed() { // they all lack the same
		for _, problem := range found[0].Problems {
			paragraph(w.out, "", problem.String())
		}
		return
	}
	fmt.Fprintf(w.out, "%s\n\n", p.Title)
	figuresHead(w.out, "Date")
	for _, f := range found {
		note := "proven"
		if f.Gap > 0 {
			note = fmt.Sprintf("gap %.1f", f.Gap)
		}
		figuresRow(w.out, f.Date.Short(), f, day.Zone(&p), note)
	}
	if len(found) > 1 {
		fmt.Fprintln(w.out)
		paragraph(w.out, "  ", fmt.Sprintf("%s before %s: %s", found[0].Date.Short(), found[1].Date.Short(), day.Beats(&p, found[0], found[1])))
	}
	if stopped {
		fmt.Fprintf(w.out, "\n  stopped after %s with %d of %d dates; a longer search may find better\n", c.Limit, len(found), len(day.Candidates(&p)))
	}
}
