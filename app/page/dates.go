package page

import (
	"slices"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// dates is what the Day page does with its candidate dates beside choosing one: it adds one from a calendar, takes one out, and
// sets two beside each other.
type dates struct {
	day    *Day
	shown  plan.Date // the date shown last
	beside plan.Date // what it is compared with; zero: nothing

	add, compare, remove *widget.Button
	buttons              *fyne.Container
	calendar             *widget.PopUp // nil while there is none
	cells                [][]*widget.Label
	panel                *fyne.Container
}

func newDates(d *Day) *dates {
	s := &dates{day: d}
	s.add = widget.NewButtonWithIcon(tongue.Say("Add date"), theme.ContentAddIcon(), s.openCalendar)
	s.compare = widget.NewButton(tongue.Say("Compare"), s.toggle)
	s.remove = widget.NewButtonWithIcon(tongue.Say("Remove date"), theme.DeleteIcon(), func() { s.takeOut(s.day.state.Results.Chosen.Date) })
	s.buttons = container.NewHBox(s.add, s.compare, s.remove)
	s.panel = container.New(&lined{columns: 1 + len(view.CompareHeads)})
	for i := range 3 {
		var cells []*widget.Label
		for j := range 1 + len(view.CompareHeads) {
			l := wrapped()
			if i == 0 {
				l.Importance = widget.LowImportance
			}
			if i == 0 && j > 0 {
				l.SetText(tongue.Marked(view.CompareHeads[j-1]))
			}
			cells = append(cells, l)
			s.panel.Add(l)
		}
		s.cells = append(s.cells, cells)
	}
	s.panel.Hide()
	return s
}

// show brings the comparison up to the state. When the other date is the one shown from now on, the one shown before takes its place.
func (s *dates) show() {
	st := s.day.state
	chosen := st.Results.Chosen.Date
	if s.beside == chosen && !s.beside.IsZero() {
		s.beside = s.shown
	}
	s.shown = chosen
	two := view.Compare(st, chosen, s.beside)
	if two == nil && !st.Results.Busy {
		s.beside = plan.Date{}
	}
	able(s.compare, !s.beside.IsZero() || !view.CompareWith(st, chosen).IsZero())
	able(s.remove, !chosen.IsZero())
	s.compare.Importance = widget.MediumImportance
	if !s.beside.IsZero() {
		s.compare.Importance = widget.HighImportance
	}
	s.compare.Refresh()
	corner := ""
	if st.Plan.Shooting.DayCount() > 1 {
		corner = tongue.Say("Each date alone")
	}
	s.cells[0][0].SetText(corner)
	for i, one := range two {
		s.write(s.cells[i+1], one)
	}
	s.panel.Refresh()                                                              // the columns follow the words
	on := two != nil || st.Results.Busy && s.panel.Visible() && !s.beside.IsZero() // what was told stays until it is known anew
	if on != s.panel.Visible() {
		setVisible(s.panel, on)
		s.panel.Resize(fyne.NewSize(s.day.object.Size().Width, s.panel.Size().Height)) // so that it knows how high its words are
		s.day.object.Refresh()
		s.day.object.Refresh() // now that the panel knows its width, it is as high as its words make it
	}
}

func (s *dates) write(cells []*widget.Label, c view.Compared) {
	cells[0].SetText(c.Name)
	for i, text := range c.Values {
		cells[i+1].TextStyle.Bold = c.Better[i]
		cells[i+1].SetText(text)
	}
}

// toggle compares the date shown with the best of the others, or ends the comparison.
func (s *dates) toggle() {
	if !s.beside.IsZero() {
		s.set(plan.Date{})
		return
	}
	s.set(view.CompareWith(s.day.state, s.day.state.Results.Chosen.Date))
}

// pressed compares with a card of the strip; pressed again, with none.
func (s *dates) pressed(id string) {
	other, _ := plan.ParseDate(id)
	if other == s.beside {
		other = plan.Date{}
	}
	s.set(other)
}

func (s *dates) set(other plan.Date) {
	s.beside = other
	s.day.show()
}

// takeOut takes a candidate date out of the plan.
func (s *dates) takeOut(date plan.Date) {
	s.day.edit(tongue.Say("remove the date %s", date.SaidDayMonth()), "", func(p *plan.Plan) {
		if p.Shooting.Date == date {
			p.Shooting.Date = plan.Date{}
		}
		p.Shooting.Dates = slices.DeleteFunc(p.Shooting.Dates, func(d plan.Date) bool { return d == date })
	})
}

// openCalendar shows a calendar under its button. What is pressed there is proposed.
func (s *dates) openCalendar() {
	c := fyne.CurrentApp().Driver().CanvasForObject(s.add)
	if c == nil {
		return
	}
	from := s.day.state.Results.Chosen.Date
	if from.IsZero() {
		from = s.day.today()
	}
	end := func() { s.calendar.Hide() }
	month := newMonth(from, func(d plan.Date) {
		end()
		s.day.proposeDate(d)
	})
	leave := newLeave(tongue.Say("Close"), end)
	s.calendar = widget.NewPopUp(container.NewBorder(widget.NewLabel(tongue.Say("Press a date to propose it.")), leave, nil, nil, month.object), c)
	s.calendar.ShowAtRelativePosition(fyne.NewPos(0, s.add.Size().Height), s.add)
	c.Focus(leave)
}

// leave is a button that Escape presses too.
type leave struct{ widget.Button }

func newLeave(text string, do func()) *leave {
	l := &leave{}
	l.Text, l.OnTapped = text, do
	l.ExtendBaseWidget(l)
	return l
}

// TypedKey is Fyne's.
func (l *leave) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape {
		l.OnTapped()
		return
	}
	l.Button.TypedKey(e)
}
