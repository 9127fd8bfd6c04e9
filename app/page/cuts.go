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
	line []*cutLine
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
	for i := len(c.line); i < len(p.Brief.Deliverables); i++ {
		c.line = append(c.line, newCutLine(func() { c.turn(i) }))
		c.line[i].show(p, p.Brief.Deliverables[i], false) // before it is laid out
		c.rows.Add(c.line[i].object)
	}
	for i, row := range c.rows.Objects {
		setVisible(row, i < len(p.Brief.Deliverables))
		if i < len(p.Brief.Deliverables) {
			c.line[i].show(p, p.Brief.Deliverables[i], i == c.open)
		}
	}
}

// cutLine sets the button that names a deliverable beside its seconds, in two columns. A name too long for its column has the seconds
// under it, and one too long for the line is cut off: the table above has it whole.
type cutLine struct {
	fold   *widget.Button
	give   *widget.Label
	object *fyne.Container
	open   bool                     // its scenes are unfolded
	name   string                   // of the deliverable
	says   func(name string) string // what the button says of it
	wide   float32                  // as it was laid out last
}

func newCutLine(turn func()) *cutLine {
	c := &cutLine{fold: widget.NewButton("", turn), give: widget.NewLabel("")}
	c.fold.Alignment = widget.ButtonAlignLeading
	c.fold.Importance = widget.LowImportance
	c.object = container.New(c, c.fold, c.give)
	return c
}

func (c *cutLine) show(p *plan.Plan, d plan.Deliverable, open bool) {
	c.open, c.name = open, view.DeliverableName(d)
	c.says = func(name string) string {
		d.Name = name
		return view.CutFrom(*p, d)
	}
	c.arrange()
	c.give.SetText(view.CutSeconds(*p, d))
}

// arrange has the button name the deliverable as far as there is room.
func (c *cutLine) arrange() {
	text := c.says(c.name)
	if c.wide > 0 && c.takes(text) > c.wide {
		text = c.says(cutOff(c.name, func(name string) bool { return c.takes(c.says(name)) <= c.wide }))
	}
	icon := theme.MenuExpandIcon()
	if c.open {
		icon = theme.MenuDropDownIcon()
	}
	if text != c.fold.Text || icon != c.fold.Icon { // every key typed beside it comes here
		c.fold.Icon = icon
		c.fold.SetText(text)
	}
}

// takes is how wide the button is with a text in place of its own.
func (c *cutLine) takes(text string) float32 {
	letters := func(s string) float32 { return fyne.MeasureText(s, theme.TextSize(), fyne.TextStyle{Bold: true}).Width }
	return c.fold.MinSize().Width - letters(c.fold.Text) + letters(text)
}

func (c *cutLine) beneath() bool { return c.fold.MinSize().Width > c.wide/2 }

func (c *cutLine) MinSize([]fyne.CanvasObject) fyne.Size {
	fold, give := c.fold.MinSize(), c.give.MinSize()
	if c.beneath() {
		return fyne.NewSize(give.Width, fold.Height+give.Height)
	}
	return fyne.NewSize(give.Width, max(fold.Height, give.Height))
}

func (c *cutLine) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	if size.Width != c.wide {
		c.wide = size.Width
		c.arrange()
	}
	high := c.fold.MinSize().Height
	c.fold.Move(fyne.NewPos(0, 0))
	c.fold.Resize(fyne.NewSize(size.Width, high))
	at := fyne.NewPos(theme.IconInlineSize()+theme.InnerPadding(), high)
	if !c.beneath() {
		at = fyne.NewPos(size.Width/2, 0)
		c.fold.Resize(fyne.NewSize(size.Width/2, high))
	}
	c.give.Move(at)
	c.give.Resize(fyne.NewSize(size.Width-at.X, c.give.MinSize().Height))
}

// turn unfolds the scenes of a deliverable, or folds them up again.
func (c *cuts) turn(i int) {
	if c.open == i {
		i = -1
	}
	c.open = i
	c.form.show(c.form.last)
}
