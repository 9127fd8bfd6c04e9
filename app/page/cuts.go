package page

import (
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// cuts says for each deliverable from which scenes it is cut, a line each with the seconds that they give. One at a time unfolds
// its scenes, to be ticked.
type cuts struct {
	form *form
	rows *fyne.Container
	fold []*widget.Button
	give []*widget.Label
	open int // the deliverable whose scenes are unfolded, or -1
}

func (f *form) cuts(label string) {
	c := &cuts{form: f, rows: container.NewVBox(), open: -1}
	none := widget.NewLabel(tongue.Say("Nothing to deliver yet."))
	none.Importance = widget.LowImportance
	f.syncs = append(f.syncs, func(p *plan.Plan) {
		c.show(p)
		setVisible(none, len(p.Brief.Deliverables) == 0)
	})
	f.row(label, container.NewVBox(none, c.rows))
	f.only(func(p *plan.Plan) bool { return c.at(p) != nil }, func() {
		f.says(tongue.Say("Scenes of"), func(p *plan.Plan) string {
			if d := c.at(p); d != nil {
				return view.DeliverableName(*d)
			}
			return ""
		})
		f.toggle(tongue.Say("All scenes"), tongue.Say("those that come later too"), func(p *plan.Plan) bool {
			d := c.at(p)
			return d != nil && len(d.Scenes) == 0
		}, c.setAll)
		f.ticks(tongue.Say("Only scenes"), tongue.Say("No scene yet."), 1, sceneOptions, func(p *plan.Plan) *[]plan.ID {
			if d := c.at(p); d != nil {
				return &d.Scenes
			}
			return nil
		})
	})
}

// at is the deliverable whose scenes are unfolded; nil for none.
func (c *cuts) at(p *plan.Plan) *plan.Deliverable {
	if c.open < 0 || c.open >= len(p.Brief.Deliverables) {
		return nil
	}
	return &p.Brief.Deliverables[c.open]
}

// setAll takes the list away, or starts one with every scene, to take some out of.
func (c *cuts) setAll(p *plan.Plan, all bool) {
	d := c.at(p)
	if d == nil {
		return
	}
	d.Scenes = nil
	for _, s := range p.Scenes {
		if !all {
			d.Scenes = append(d.Scenes, s.ID)
		}
	}
}

func (c *cuts) show(p *plan.Plan) {
	for i := len(c.fold); i < len(p.Brief.Deliverables); i++ {
		fold := widget.NewButton("", func() { c.turn(i) })
		fold.Alignment = widget.ButtonAlignLeading
		fold.Importance = widget.LowImportance
		give := widget.NewLabel("")
		c.fold, c.give = append(c.fold, fold), append(c.give, give)
		c.rows.Add(container.New(byShare{1, 1}, fold, give))
	}
	for i, row := range c.rows.Objects {
		setVisible(row, i < len(p.Brief.Deliverables))
		if i >= len(p.Brief.Deliverables) {
			continue
		}
		d := p.Brief.Deliverables[i]
		c.fold[i].Icon = theme.MenuExpandIcon()
		if i == c.open {
			c.fold[i].Icon = theme.MenuDropDownIcon()
		}
		c.fold[i].SetText(view.CutFrom(*p, d))
		c.give[i].SetText(view.CutSeconds(*p, d))
	}
}

// turn unfolds the scenes of a deliverable, or folds them up again.
func (c *cuts) turn(i int) {
	if c.open == i {
		i = -1
	}
	c.open = i
	c.form.show(c.form.last)
}
