package main

import (
	"fmt"
	"image/png"
	"os"

	"eavelight/app"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/store"

	"fyne.io/fyne/v2"
)

type pictureCommand struct {
	Plan     string `arg:"" help:"The plan."`
	Page     string `help:"The page: brief, property, scenes, people, day, price or papers." default:"day"`
	Out      string `short:"o" required:"" help:"The PNG file to write." placeholder:"FILE.png"`
	Size     string `help:"Width and height of the window." default:"1440x900"`
	Date     string `help:"The date, as in 2027-10-16; otherwise the plan's chosen one, or the best of its candidates." placeholder:"DATE"`
	Dark     bool   `help:"Draw it in the dark theme."`
	Text     int    `help:"The size of text, in percent: 100, 125 or 150." enum:"100,125,150" default:"100"`
	Language string `help:"The language of the window: en or es." enum:"en,es" default:"en"`
	JSON     bool   `help:"Print JSON for machines."`
}

// Run is kong's.
func (c pictureCommand) Run(w world) (err error) {
	var width, height int
	if n, _ := fmt.Sscanf(c.Size, "%dx%d", &width, &height); n != 2 || fmt.Sprintf("%dx%d", width, height) != c.Size || width < 400 || height < 300 || width > 8000 || height > 8000 {
		return fmt.Errorf("--size %q is not a size; write it as in 1440x900, from 400x300 to 8000x8000", c.Size)
	}
	p, _, err := store.Read(c.Plan)
	if err != nil {
		return err
	}
	if c.Date != "" {
		if p.Shooting.Date, err = plan.ParseDate(c.Date); err != nil {
			return err
		}
	}
	_, end := w.doing("Drawing the page")
	img, err := app.Picture(w.ctx, p, view.Page(c.Page), fyne.NewSize(float32(width), float32(height)), app.Look{Dark: c.Dark, Text: c.Text, Language: c.Language}, w.now)
	end()
	if err != nil {
		return err
	}
	f, err := os.OpenFile(c.Out, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600) // it names people
	if err != nil {
		return err
	}
	if err := png.Encode(f, img); err != nil {
		f.Close()
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	if c.JSON {
		return printJSON(w, map[string]string{"written": c.Out})
	}
	fmt.Fprintln(w.out, c.Out)
	return nil
}
