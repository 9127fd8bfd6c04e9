package page

import (
	"slices"
	"strings"

	"eavelight/app/draw"
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// cleared is the part of the page of people that shows scenes against permissions: what is missing where, and what falls away
// without it. It is computed while it is in sight.
type cleared struct {
	edit   Editor
	today  func() plan.Date
	open   func(release plan.ID) // shows a release
	state  session.State
	is     people.Clearance
	scene  plan.ID // the selected one; "" where a whole column is selected
	need   people.Permission
	chosen bool // by the user: else what is missing first

	lines  *widget.Label
	shows  *draw.Clearance
	head   *widget.Label
	told   *widget.Label
	wrong  *widget.Label
	goTo   *widget.Button
	text   *fyne.Container
	panel  fyne.CanvasObject
	object *fyne.Container
}

func newCleared(edit Editor, today func() plan.Date, open func(plan.ID)) *cleared {
	s := &cleared{edit: edit, today: today, open: open, lines: wrapped(), shows: draw.NewClearance(), head: wrapped(), told: wrapped(), wrong: told()}
	s.head.TextStyle.Bold = true
	s.goTo = widget.NewButton("", s.goToRelease)
	s.shows.OnOpen = s.goToRelease
	s.shows.OnSelect = func(row, column int) {
		s.scene, s.need, s.chosen = "", s.is.Permissions[column], true
		if row >= 0 {
			s.scene = s.is.Scenes[row].Scene
		}
		s.tell(row, column)
	}
	s.text = container.NewVBox(container.New(tight{}, s.head, s.told), s.wrong, container.NewHBox(s.goTo))
	s.panel = container.NewBorder(nil, nil, widget.NewSeparator(), nil, container.NewVScroll(s.text))
	s.object = container.NewBorder(s.lines, nil, nil, nil, container.New(beside{s.shows}, s.shows, s.panel))
	return s
}

// beside lays the panel out right beside the picture, which gets no more room than it needs.
type beside struct{ shows *draw.Clearance }

// panel is how wide the panel is beside a picture with so much room for both; leastPanel is what it is at least.
func (b beside) panel(wide float32) float32 {
	return max(leastPanel*theme.TextSize(), min(22*theme.TextSize(), wide-b.shows.MinSize().Width))
}

const leastPanel = 14

func (b beside) MinSize(objects []fyne.CanvasObject) fyne.Size {
	least, panel := b.shows.MinSize(), objects[1].MinSize()
	return fyne.NewSize(least.Width+leastPanel*theme.TextSize(), max(least.Height, panel.Height))
}

func (b beside) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	room, panel := size.Width, b.panel(size.Width)
	if objects[1].Visible() {
		room = min(room-panel, b.shows.Full())
		objects[1].Move(fyne.NewPos(room, 0))
		objects[1].Resize(fyne.NewSize(panel, size.Height))
	}
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(fyne.NewSize(room, size.Height))
}

// show brings the picture up to the state, if it is in sight.
func (s *cleared) show(st session.State) {
	s.state = st
	if !s.object.Visible() {
		return
	}
	s.is = view.Cleared(st)
	lines, between := append(view.ClearedLines(st, 12), view.ClearedSum(st, s.is)), "\n"
	if len(lines) > 6 { // a line each would leave the picture no room
		between = "  "
	}
	s.lines.SetText(strings.TrimSpace(strings.Join(lines, between)))
	row, column := s.place()
	s.shows.Set(clearanceData(st, s.is, row, column))
	blank := len(s.is.Permissions) == 0
	setVisible(s.panel, !blank)
	if !blank {
		s.tell(row, column)
	}
	s.object.Refresh()
}

// place is where what is selected stands by now; without a choice it is the first permission that is missing.
func (s *cleared) place() (row, column int) {
	row = slices.IndexFunc(s.is.Scenes, func(c people.SceneClearance) bool { return c.Scene == s.scene })
	column = slices.Index(s.is.Permissions, s.need)
	if !s.chosen || column < 0 {
		row, column = -1, 0
		if open := s.is.Open(); len(open) > 0 {
			column = open[0].Column
		}
	}
	return row, column
}

// tell says in the panel what is selected.
func (s *cleared) tell(row, column int) {
	p := view.TellPermission(s.state, s.is, row, column)
	s.head.SetText(p.Head)
	s.told.SetText(strings.Join(p.Lines, "\n\n"))
	s.wrong.Hide()
	s.goTo.SetText(tongue.Say("Go to the release"))
	if p.Release == "" {
		s.goTo.SetText(tongue.Say("Write the release down"))
	}
	s.text.Refresh() // what is told takes more or fewer lines
}

// goToRelease shows the release that is told of. Where none is written down, it adds it first.
func (s *cleared) goToRelease() {
	row, column := s.place()
	id := view.TellPermission(s.state, s.is, row, column).Release
	if id == "" {
		need := s.is.Permissions[column]
		wrong := s.edit(tongue.Say("add release"), "", func(p *plan.Plan) { id = writeDown(p, need, s.today()) })
		if len(wrong) > 0 {
			s.wrong.SetText(tongue.Of(wrong[0]))
			s.wrong.Show()
			return
		}
	}
	s.open(id)
}

// writeDown adds the release of a permission, and returns its id.
func writeDown(p *plan.Plan, need people.Permission, today plan.Date) plan.ID {
	if need.Person != "" {
		p.SetOwnRelease(need.Person, need.Kind, plan.Needed, today)
		return p.Releases[len(p.Releases)-1].ID
	}
	r := &p.Releases[p.AddRelease(len(p.Releases))]
	r.Kind, r.Subject = need.Kind, "Flights"
	return r.ID
}

func clearanceData(st session.State, c people.Clearance, row, column int) draw.ClearanceData {
	d := draw.ClearanceData{Row: row, Column: column, Empty: view.NothingToClear(), Words: map[draw.Standing]string{}}
	for _, s := range []people.Standing{{}, {Needed: true, Status: plan.Signed}, {Needed: true, Status: plan.Sent}, {Needed: true, Status: plan.Needed},
		{Needed: true, Status: plan.Signed, Doubt: &plan.Problem{}}, {Needed: true, Status: plan.Lapsed}, {Needed: true, Status: plan.Declined}} {
		d.Words[markOf(s)] = view.StandingWord(s)
	}
	for i, need := range c.Permissions {
		d.Columns = append(d.Columns, draw.ClearanceHead{Name: tongue.Of(need.About(&st.Plan)), Note: view.PermissionClearance(c, i)})
	}
	for i, s := range c.Scenes {
		d.Rows = append(d.Rows, draw.ClearanceHead{Name: view.SceneName(st.Plan.Scenes[i]), Note: view.SceneClearance(s)})
		cells := make([]draw.Standing, len(s.Standings))
		for j, standing := range s.Standings {
			cells[j] = markOf(standing)
		}
		d.Cells = append(d.Cells, cells)
	}
	return d
}

// markOf is the mark of a standing.
func markOf(s people.Standing) draw.Standing {
	switch {
	case !s.Needed:
		return draw.NotNeeded
	case s.Doubt != nil:
		return draw.Doubted
	}
	return map[plan.ReleaseStatus]draw.Standing{plan.Needed: draw.Needed, plan.Sent: draw.Sent, plan.Signed: draw.Signed,
		plan.Lapsed: draw.Lapsed, plan.Declined: draw.Declined}[s.Status]
}
