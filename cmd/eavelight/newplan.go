package main

import (
	"fmt"

	"eavelight/plan"
	"eavelight/plan/store"
)

type newCommand struct {
	File string `arg:"" help:"The file to write; it must not exist yet."`
	JSON bool   `help:"Print JSON for machines."`
}

// Run is kong's.
func (c newCommand) Run(w world) error {
	if _, err := store.Write(c.File, plan.New(), store.Stamp{}); err != nil {
		return err
	}
	if c.JSON {
		return printJSON(w, map[string]string{"written": c.File})
	}
	fmt.Fprintln(w.out, c.File)
	return nil
}
