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
		c.rows.Add(container.New(&cutLine{}, fold, give))
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

// cutLine sets the button that names a deliverable beside its seconds, in two columns; a name too long for its column has the seconds
// under it.
type cutLine struct{ wide float32 } // as it was laid out last

func (c *cutLine) beneath(fold fyne.CanvasObject) bool { return fold.MinSize().Width > c.wide/2 }

func (c *cutLine) MinSize(objects []fyne.CanvasObject) fyne.Size {
	fold, give := objects[0].MinSize(), objects[1].MinSize()
	if c.beneath(objects[0]) {
		return fyne.NewSize(give.Width, fold.Height+give.Height)
	}
	return fyne.NewSize(give.Width, max(fold.Height, give.Height))
}

func (c *cutLine) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	c.wide = size.Width
	fold, give := objects[0], objects[1]
	fold.Move(fyne.NewPos(0, 0))
	fold.Resize(fyne.NewSize(size.Width, fold.MinSize().Height))
	at := fyne.NewPos(size.Width/2, 0)
	if c.beneath(fold) {
		at = fyne.NewPos(theme.IconInlineSize()+theme.InnerPadding(), fold.MinSize().Height)
	} else {
		fold.Resize(fyne.NewSize(size.Width/2, fold.MinSize().Height))
	}
	give.Move(at)
	give.Resize(fyne.NewSize(size.Width-at.X, give.MinSize().Height))
}

// turn unfolds the scenes of a deliverable, or folds them up again.
func (c *cuts) turn(i int) {
	if c.open == i {
		i = -1
	}
	c.open = i
	c.form.show(c.form.last)
}
