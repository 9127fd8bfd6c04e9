package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/papers"
	"eavelight/plan/people"
	"eavelight/plan/store"
)

type papersCommand struct {
	dated
	Out       string        `short:"o" default:"out" help:"The folder to write into, made if it is not there; or an archive, if it ends in .zip." placeholder:"DIR"`
	Only      []papers.Kind `help:"Only these papers, with commas between: ${kinds}." placeholder:"KINDS"`
	Overwrite bool          `help:"Replace papers of the same name that are there already."`
	CalledOff bool          `help:"The shoot is called off: write only calendars, in which all that they said before is cancelled." xor:"date"`
	Sent      bool          `help:"Have the plan remember what the call sheets and calendars say. Say so when you send them: then later sheets mark what has changed, and later calendars move their days instead of doubling them."`
}

// papersReport is what papers --json prints.
type papersReport struct {
	Written    []string `json:"written"`
	Off        []string `json:"off"`        // of them, the calendars that only take out what no longer holds
	Remembered bool     `json:"remembered"` // the plan knows what the call sheets and calendars say
}

// Run is kong's.
func (c papersCommand) Run(w world) error {
	if c.CalledOff {
		return c.callOff(w)
	}
	p, s, err := c.shoot(w.ctx, w)
	if err != nil {
		return err
	}
	if d := s.Days[0]; d.Sky == nil {
		printDay(w, p, d)
		return fmt.Errorf("there is no day to write about yet: %s", firstWords(d.Problems))
	}
	doubts, err := people.Scans(w.ctx, filepath.Dir(c.Plan), &p)
	if err != nil {
		return err
	}
	set := papers.NewSet(papers.Job{Plan: &p, Days: s.Days, Doubts: doubts, Made: w.now()})
	if len(c.Only) > 0 {
		if set, err = c.only(set); err != nil {
			return err
		}
	}
	return c.write(w, p, set)
}

// callOff writes the calendars of a shoot that is called off. No day is placed for it: there may be none any more.
func (c papersCommand) callOff(w world) error {
	p, _, err := store.Read(c.Plan)
	if err != nil {
		return err
	}
	set := papers.NewCalledOff(papers.Job{Plan: &p, Made: w.now()})
	if len(set.Papers) == 0 {
		return errors.New("the plan remembers no calendar of a day to come, so there is nothing to call off")
	}
	return c.write(w, p, set)
}

// write writes a set, has the plan remember what of it is sent, and tells of both.
func (c papersCommand) write(w world, p plan.Plan, set papers.Set) error {
	hear, end := w.doing("Writing the papers")
	wrote, err := set.WriteTo(w.ctx, c.Out, papers.Writing{Overwrite: c.Overwrite, Told: func(n, all int) {
		hear(fmt.Sprintf("Writing the papers: %d of %d", n+1, all))
	}})
	end()
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%w; add --overwrite to replace it", err)
	}
	if err != nil {
		return err
	}
	if c.Sent && wrote.Remember {
		if err := remember(c.Plan, wrote); err != nil {
			return err
		}
	}
	report := papersReport{wrote.Paths, append([]string{}, wrote.Off...), c.Sent || !wrote.Remember || wrote.Kept(&p)}
	if c.JSON {
		return printJSON(w, report)
	}
	for _, path := range report.Written {
		fmt.Fprintln(w.out, path)
	}
	if c.CalledOff {
		paragraph(w.out, "", "Send each calendar to whom you sent the one before: opened, it takes the days out of the calendar.")
		report.Off = nil // told of all at once
	}
	for _, path := range report.Off {
		paragraph(w.out, "", path+" only takes out of a calendar what no longer holds; send it too.")
	}
	if !report.Remembered {
		paragraph(w.out, "", "The plan does not remember what these papers say. When you send them, add --sent, so that later call sheets mark what has changed, and later calendars move their days instead of doubling them.")
	}
	return nil
}

// only keeps the papers of the kinds that were asked for.
func (c papersCommand) only(set papers.Set) (papers.Set, error) {
	for _, k := range c.Only {
		if !slices.Contains(papers.Kinds, k) {
			return set, fmt.Errorf("there are no papers called %q; there are %s", k, kindNames())
		}
	}
	if set = set.Only(c.Only...); len(set.Papers) == 0 {
		return set, errors.New("there are no such papers for this plan yet")
	}
	return set, nil
}

func kindNames() string {
	var out []string
	for _, k := range papers.Kinds {
		out = append(out, string(k))
	}
	return strings.Join(out, ", ")
}

// remember writes into the plan's file what the call sheets and calendars say that were written.
func remember(path string, sent papers.Written) error {
	failed := func(err error) error {
		return fmt.Errorf("the papers are written, but the plan does not remember them: %w", err)
	}
	claim, err := store.Lock(path)
	if err != nil {
		return failed(err)
	}
	defer claim.Release()
	p, stamp, err := store.Read(path)
	if err != nil {
		return failed(err)
	}
	if sent.Kept(&p) {
		return nil
	}
	sent.Keep(&p)
	if _, err := store.Write(path, p, stamp); err != nil {
		return failed(err)
	}
	return nil
}

func firstWords(ps plan.Problems) string {
	if len(ps) == 0 {
		return "no date is proposed"
	}
	return ps[0].String()
}
