package page

import (
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Contacts brings people in from the address book and from files, and takes them there: buttons for the foot of the list of
// people, and a panel that takes the place of the page while it is open.
type Contacts struct {
	OnOpen func(open bool) // hears when the panel opens and closes; set it before the panel is used

	state     session.State
	importing *importing
	exporting *exporting
	from      *booking
	into      *booking
	head      *widget.Label
	bar       *fyne.Container
	object    *fyne.Container
}

// NewContacts builds the buttons and the panel. pick lets the user choose a file; today refuses dates of birth after it; book is
// the path of the address book; selected is who is selected in the plan.
func NewContacts(edit Editor, async Async, pick func(chosen func(path string)), today func() plan.Date, book string, selected func() plan.ID) *Contacts {
	c := &Contacts{OnOpen: func(bool) {}, importing: newImporting(edit, async, pick, today), exporting: newExporting(async, today),
		from: newBooking(view.BookToPlan, edit, async, book), into: newBooking(view.PlanToBook, edit, async, book)}
	button := func(words string, icon fyne.Resource, head string, part *booking) *widget.Button {
		return widget.NewButtonWithIcon(words, icon, func() {
			c.open(head, part.object)
			part.open(selected())
		})
	}
	from := button(tongue.Say("From the address book…"), theme.AccountIcon(), tongue.Say("From the address book"), c.from)
	into := button(tongue.Say("Keep in the book…"), theme.ContentAddIcon(), tongue.Say("Keep in the address book"), c.into)
	in := widget.NewButtonWithIcon(tongue.Say("Import contacts…"), theme.DownloadIcon(), func() { c.open(tongue.Say("Import contacts"), c.importing.object) })
	out := widget.NewButtonWithIcon(tongue.Say("Write contacts…"), theme.UploadIcon(), func() {
		c.open(tongue.Say("Write contacts"), c.exporting.object)
		c.exporting.show(c.state)
	})
	for _, b := range []*widget.Button{in, out, from, into} {
		b.Importance = widget.LowImportance
		b.Alignment = widget.ButtonAlignLeading
	}
	c.bar = container.New(&flow{}, in, out, from, into)
	c.head = widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	back := widget.NewButtonWithIcon(tongue.Say("Close"), theme.CancelIcon(), c.Close)
	top := container.NewBorder(nil, nil, nil, back, c.head)
	c.object = container.NewBorder(top, nil, nil, nil, container.NewStack(c.parts()...))
	c.object.Hide()
	return c
}

func (c *Contacts) parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{c.importing.object, c.exporting.object, c.from.object, c.into.object}
}

// Bar holds the buttons that open the panel.
func (c *Contacts) Bar() fyne.CanvasObject { return c.bar }

// Object is the panel, hidden while it is closed.
func (c *Contacts) Object() fyne.CanvasObject { return c.object }

// Show brings the panel up to a state.
func (c *Contacts) Show(st session.State) {
	c.state = st
	c.importing.show(st)
	c.exporting.show(st)
	c.from.show(st)
	c.into.show(st)
}

func (c *Contacts) open(head string, part fyne.CanvasObject) {
	c.head.SetText(head)
	for _, o := range c.parts() {
		setVisible(o, o == part)
	}
	c.object.Show()
	c.OnOpen(true)
	c.object.Refresh() // what was hidden has not been laid out
}

// Close closes the panel; of what was read and not taken, nothing is left.
func (c *Contacts) Close() {
	c.importing.drop()
	c.exporting.drop()
	c.from.drop()
	c.into.drop()
	c.object.Hide()
	c.OnOpen(false)
}
