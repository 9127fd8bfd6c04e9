package page

import (
	"slices"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// reminders is the part of the page of people that says what must be sent to whom by when, with the text to send.
type reminders struct {
	edit  Editor
	today func() plan.Date
	mail  DraftWriter

	rows     []view.ReminderRow
	selected plan.ID
	shown    plan.ID // what the right side shows
	filling  bool
	list     *widget.List
	head     *widget.Label
	lead     *widget.Label
	text     *widget.Label
	scroll   *container.Scroll
	copy     *widget.Button
	sent     *widget.Button
	drafts   *widget.Label
	write    *widget.Button
	again    *widget.Button // writes over drafts that are there
	told     *widget.Label
	side     fyne.CanvasObject
	foot     *fyne.Container
	object   fyne.CanvasObject
}

// DraftWriter writes the mail drafts beside the plan. done hears what to say of it, and whether some exist already.
type DraftWriter func(overwrite bool, done func(words string, exists bool, err error))

func newReminders(edit Editor, today func() plan.Date, mail DraftWriter) *reminders {
	s := &reminders{edit: edit, today: today, mail: mail, head: wrapped(), lead: wrapped(), text: wrapped(), drafts: wrapped(), told: wrapped()}
	s.list = widget.NewList(func() int { return len(s.rows) }, newLine, s.fillLine)
	s.list.OnSelected = func(i widget.ListItemID) {
		if !s.filling && i < len(s.rows) {
			s.selected = s.rows[i].ID
			s.showRow()
		}
	}
	s.copy = widget.NewButtonWithIcon(tongue.Say("Copy the text"), theme.ContentCopyIcon(), s.copyText)
	s.sent = widget.NewButtonWithIcon(tongue.Say("I have sent the release"), theme.ConfirmIcon(), s.markSent)
	s.write = widget.NewButtonWithIcon(tongue.Say("Write the mail drafts"), theme.MailComposeIcon(), func() { s.run(false) })
	s.write.Importance = widget.HighImportance
	s.again = widget.NewButton(tongue.Say("Write over them"), func() { s.run(true) })
	s.again.Hide()
	s.told.Hide()
	s.scroll = container.NewVScroll(measure(s.text))
	s.side = container.NewBorder(measure(s.lead), flowing(s.copy, s.sent), nil, nil, s.scroll)
	split := container.NewHSplit(s.list, container.NewStack(s.side))
	split.Offset = 0.44
	s.foot = container.NewVBox(container.NewBorder(nil, nil, nil, s.again, s.told), container.NewBorder(nil, nil, nil, s.write, s.drafts))
	s.object = container.NewBorder(s.head, s.foot, nil, nil, split)
	return s
}

func (s *reminders) fillLine(i widget.ListItemID, o fyne.CanvasObject) {
	if i < len(s.rows) {
		fillRow(o, s.rows[i].Row)
	}
}

func (s *reminders) show(st session.State) {
	r := view.Reminders(st, s.today())
	before := s.index()
	s.rows = r.Rows
	if s.index() < 0 && len(s.rows) > 0 {
		s.selected = s.rows[min(max(before, 0), len(s.rows)-1)].ID
	}
	s.head.SetText(r.Head)
	s.drafts.SetText(r.Mail)
	if r.Some && !st.Results.Busy { // the times in them are those of the plan as it stands
		s.write.Enable()
	} else {
		s.write.Disable()
	}
	s.filling = true
	s.list.Refresh()
	if i := s.index(); i >= 0 {
		s.list.Select(i)
	} else {
		s.list.UnselectAll()
	}
	s.filling = false
	s.showRow()
}

func (s *reminders) index() int {
	return slices.IndexFunc(s.rows, func(r view.ReminderRow) bool { return r.ID == s.selected })
}

// showRow brings the right side up to the selected row.
func (s *reminders) showRow() {
	i := s.index()
	setVisible(s.side, i >= 0)
	if s.shown != s.selected { // what was said is about another one
		s.shown = s.selected
		s.again.Hide()
		s.told.Hide()
		s.scroll.ScrollToTop()
	}
	s.foot.Refresh() // its words may take more lines now, or fewer
	s.object.Refresh()
	if i < 0 {
		return
	}
	row := s.rows[i]
	s.lead.SetText(row.Lead)
	s.text.SetText(row.Text)
	setVisible(s.copy, row.Text != "")
	setVisible(s.sent, row.Sent != nil)
	s.side.Refresh()
}

func (s *reminders) copyText() {
	if i := s.index(); i >= 0 {
		fyne.CurrentApp().Clipboard().SetContent(s.rows[i].Text)
		s.say(tongue.Say("The text is copied: paste it where you write to %s.", s.rows[i].Title), widget.SuccessImportance)
	}
}

func (s *reminders) markSent() {
	if i := s.index(); i >= 0 && s.rows[i].Sent != nil {
		s.edit(tongue.Say("note that the release was sent"), "", s.rows[i].Sent)
	}
}

// run writes the drafts and says what became of it.
func (s *reminders) run(overwrite bool) {
	s.again.Hide()
	s.say(tongue.Say("Writing…"), widget.LowImportance)
	s.mail(overwrite, func(words string, exists bool, err error) {
		setVisible(s.again, exists)
		switch {
		case exists:
			s.say(words, widget.WarningImportance)
		case err != nil:
			s.say(words, widget.DangerImportance)
		default:
			s.say(words, widget.SuccessImportance)
		}
	})
}

func (s *reminders) say(words string, importance widget.Importance) {
	s.told.Importance = importance
	s.told.SetText(words)
	s.told.Show()
	s.foot.Refresh() // what was hidden has not been laid out
	s.object.Refresh()
}
