package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"

	"eavelight/plan"
	"eavelight/plan/papers"
)

type papersCommand struct {
	dated
	Out       string `short:"o" default:"out" help:"The folder to write into; made if it is not there." placeholder:"DIR"`
	Overwrite bool   `help:"Replace papers of the same name that are there already."`
}

// Run is kong's.
func (c papersCommand) Run(w world) error {
	p, s, err := c.shoot(context.Background())
	if err != nil {
		return err
	}
	if d := s.Days[0]; d.Sky == nil {
		printDay(w, p, d)
		return fmt.Errorf("there is no day to write about yet: %s", firstWords(d.Problems))
	}
	paths, err := papers.Write(c.Out, &p, s.Days, w.now(), c.Overwrite)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%w; add --overwrite to replace it", err)
	}
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(w, map[string][]string{"written": paths})
	}
	for _, path := range paths {
		fmt.Fprintln(w.out, path)
	}
	return nil
}

func firstWords(ps plan.Problems) string {
	if len(ps) == 0 {
		return "no date is proposed"
	}
	return ps[0].String()
}
