package app

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/assets"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// keyGroups are all keys: those of the menu as they stand in it, and those of the pages.
func (w *Window) keyGroups() []view.KeyGroup {
	var groups []view.KeyGroup
	for _, m := range w.menu.main.Items {
		g := view.KeyGroup{Title: m.Label}
		for _, i := range m.Items {
			if keys := keyWords(i.Shortcut); keys != "" {
				g.Lines = append(g.Lines, view.KeyLine{Keys: keys, What: strings.TrimSuffix(i.Label, "…")})
			}
		}
		groups = append(groups, g)
	}
	return append(groups, view.PageKeys()...)
}

// keyboard lists the keys.
func (w *Window) keyboard() {
	table := container.New(layout.NewFormLayout())
	for _, g := range w.keyGroups() {
		table.Add(widget.NewLabelWithStyle(g.Title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
		table.Add(widget.NewLabel(""))
		for _, l := range g.Lines {
			what := widget.NewLabel(l.What)
			what.Wrapping = fyne.TextWrapWord
			table.Add(widget.NewLabelWithStyle(l.Keys, fyne.TextAlignTrailing, fyne.TextStyle{}))
			table.Add(what)
		}
	}
	w.ask(dialog.NewCustom(tongue.Say("Keyboard"), tongue.Say("Close"), container.NewVScroll(table), w.win), fyne.NewSize(620, 600))
}

// about tells what the program is, of which version, and whose work is in it.
func (w *Window) about() {
	says := func(text string) *widget.Label {
		l := widget.NewLabel(text)
		l.Wrapping = fyne.TextWrapWord
		return l
	}
	head := func(text string) *widget.Label {
		return widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	}
	all := container.NewVBox(
		says(tongue.Say("Version: %s", w.version)),
		says(tongue.Say("Eavelight plans a lifestyle film of a house: the light at the address, the scenes placed in it, the people, the papers. "+
			"Everything stays on this computer.")),
		says(tongue.Say("It gives no legal advice and replaces no licensed adviser, pilot or doctor. Never look at the sun through a lens.")),
		head(tongue.Say("Letters and data")),
		says(tongue.Say("Letters: Noto Sans, SIL Open Font License.\nPlace names: GeoNames, CC BY 4.0, and the zipcodes package, BSD.\n"+
			"Time zones by position: © OpenStreetMap contributors, Open Database License, by way of timezone-boundary-builder.")),
		head(tongue.Say("Libraries")),
	)
	var ours, tests []string
	for _, l := range assets.Libraries {
		if l.Tests {
			tests = append(tests, fmt.Sprintf("%s (%s)", l.Module, l.Licence))
			continue
		}
		ours = append(ours, fmt.Sprintf("%s – %s. %s", l.Module, l.What, l.Licence))
	}
	all.Add(says(strings.Join(ours, "\n")))
	all.Add(says(tongue.Say("Their own libraries, and the language Go, are named with all texts. For its tests alone: %s.", strings.Join(tests, ", "))))
	d := dialog.NewCustomWithoutButtons(tongue.Say("About Eavelight"), container.NewVScroll(all), w.win)
	texts := widget.NewButton(tongue.Say("Licence texts"), func() { d.Hide(); w.licences() })
	d.SetButtons([]fyne.CanvasObject{texts, widget.NewButton(tongue.Say("Close"), d.Hide)})
	w.ask(d, fyne.NewSize(620, 600))
}

// licences shows the texts that come with what is built into the program.
func (w *Window) licences() {
	text := strings.Join([]string{
		"## Noto Sans\n", assets.SansLicense, "## Place names\n", assets.PlacesNotice, assets.ModuleLicences,
	}, "\n\n")
	text = strings.TrimPrefix(strings.ReplaceAll("\n"+text, "\n## ", "\n"+strings.Repeat("─", 100)+"\n"), "\n") // the heads, for people
	grid := widget.NewTextGrid()
	grid.Scroll = fyne.ScrollVerticalOnly
	w.ask(dialog.NewCustom(tongue.Say("Licence texts"), tongue.Say("Close"), grid, w.win), fyne.NewSize(900, 600))
	grid.SetText(broken(text, 100)) // Fyne lays its lines out as wide as it is by then
}

// broken breaks lines of more than so many letters between words.
func broken(text string, most int) string {
	var out strings.Builder
	for line := range strings.SplitSeq(text, "\n") {
		used := 0
		for i, word := range strings.Split(line, " ") {
			n := utf8.RuneCountInString(word)
			switch {
			case i == 0:
			case used+1+n > most:
				out.WriteByte('\n')
				used = 0
			default:
				out.WriteByte(' ')
				used++
			}
			out.WriteString(word)
			used += n
		}
		out.WriteByte('\n')
	}
	return strings.TrimRight(out.String(), "\n")
}
