//go:build !cgo

package main

import "errors"

type openCommand struct {
	Plan string `arg:"" optional:"" help:"The plan to open."`
}

// Run is kong's.
func (openCommand) Run(world) error {
	return errors.New("this build has no window, because it was made without cgo; the other commands work (eavelight --help)")
}
