package main

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
	"eavelight/plan/store"
)

type checkCommand struct {
	Plan string `arg:"" help:"The plan."`
	JSON bool   `help:"Print JSON for machines."`
}

// finding is one line of check, the same for a fault of the file and for a problem of the plan.
type finding struct {
	File   string `json:"file"`
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
	Path   string `json:"path,omitempty"`
	Text   string `json:"text"`
}

func (f finding) String() string {
	at := f.File
	if f.Line > 0 {
		at = fmt.Sprintf("%s:%d:%d", at, f.Line, f.Column)
	}
	if f.Path != "" {
		at += ": " + f.Path
	}
	return at + ": " + f.Text
}

// Run is kong's.
func (c checkCommand) Run(w world) error {
	found, err := c.find(w)
	if err != nil {
		return err
	}
	if c.JSON {
		if err := printJSON(w, found); err != nil {
			return err
		}
	} else {
		for _, f := range found {
			fmt.Fprintln(w.out, f)
		}
	}
	if len(found) > 0 {
		return errProblems
	}
	if !c.JSON {
		fmt.Fprintln(w.out, c.Plan+": nothing is missing and nothing is wrong.")
	}
	return nil
}

// find lists the faults of the file; where it has none, what the plan lacks, what is wrong with its day, and which signatures
// and scans do not hold.
func (c checkCommand) find(w world) ([]finding, error) {
	found := []finding{}
	p, _, err := store.Read(c.Plan)
	if faults := (store.Faults)(nil); errors.As(err, &faults) {
		for _, f := range faults {
			found = append(found, finding{cmp.Or(f.File, c.Plan), f.Line, f.Column, f.Path, f.Text.String()})
		}
		return found, nil
	}
	if err != nil {
		return nil, err
	}
	add := func(path, text string) {
		f := finding{File: c.Plan, Path: path, Text: text}
		for _, g := range found {
			if g.Text == text {
				return
			}
		}
		found = append(found, f)
	}
	for _, l := range plan.Lacks(p) {
		add(l.Path, l.String())
	}
	shoot, err := w.shoot(w.ctx, &p)
	if err != nil {
		return nil, err
	}
	for _, s := range shoot.LeftOut() {
		add(s.Why.Path, s.Why.String())
	}
	for _, d := range shoot.Days {
		for _, problem := range d.Problems {
			add(problem.Path, problem.String())
		}
		for _, u := range day.Unsigned(&p, d.Date, nil) {
			add(u.Path, u.String())
		}
	}
	doubts, err := people.Evidence(w.ctx, filepath.Dir(c.Plan), &p, shoot.Days[0].Date)
	for _, r := range p.Releases {
		if doubt, ok := doubts[r.ID]; ok {
			add(doubt.Path, fmt.Sprintf("release %s: %s", r.ID, doubt))
		}
	}
	return found, err
}
