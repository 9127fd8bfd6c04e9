package page

import (
	"fmt"
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/locate"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Async runs work off the UI goroutine and then what it returns on it.
type Async func(work func() func())

// Property is the page of the house: where it stands, its faces and what shades them, and its spaces.
type Property struct {
	*listPane // the spaces
	edit      Editor
	house     *form
	space     *form
	detail    fyne.CanvasObject
	find      *finder
	state     session.State
	object    fyne.CanvasObject
}

// NewProperty builds the page.
func NewProperty(edit Editor, async Async) *Property {
	h := &Property{edit: edit}
	h.find = newFinder(edit, async)
	h.house = newForm(edit, nil)
	h.houseFields()
	h.listPane = newListPane("space", "No space yet: add the rooms, terraces and the air above, wherever a scene can happen.", edit, listOps{
		id:        func(p *plan.Plan, i int) plan.ID { return p.Property.Spaces[i].ID },
		add:       (*plan.Plan).AddSpace,
		duplicate: (*plan.Plan).DuplicateSpace,
		shift:     func(p *plan.Plan, i, by int) { plan.Shift(p.Property.Spaces, i, by) },
		remove:    (*plan.Plan).RemoveSpace,
	}, func() { h.showSpace() })
	h.space = newForm(edit, func() string { return string(h.selected) })
	h.spaceFields()
	h.detail = container.NewVScroll(measure(h.space.box))
	spaces := container.NewVSplit(h.listPane.object, h.detail)
	spaces.Offset = 0.36
	split := container.NewHSplit(container.NewVScroll(measure(h.house.box)), spaces)
	split.Offset = 0.55
	h.object = split
	return h
}

// Object is the page.
func (h *Property) Object() fyne.CanvasObject { return h.object }

// Show brings the page up to the state.
func (h *Property) Show(st session.State) {
	h.state = st
	h.house.show(&st.Plan)
	h.listPane.show(view.SpaceRows(st))
	h.showSpace()
}

func (h *Property) showSpace() {
	setVisible(h.detail, h.selected != "")
	h.space.show(&h.state.Plan)
}

func (h *Property) houseFields() {
	f := h.house
	f.text("Name", "what people call the house", func(p *plan.Plan) *string { return &p.Property.Name })
	f.long("Address", "as it stands on the call sheet", 2, func(p *plan.Plan) *string { return &p.Property.Address })
	f.row("Find it", h.find.object)
	f.says("Position", func(p *plan.Plan) string { return view.PositionLine(*p) })
	f.parsed("Time zone", "follows from the position", func(p *plan.Plan) string { return p.Property.Zone },
		func(text string) (func(*plan.Plan), error) {
			return func(p *plan.Plan) { p.Property.Zone = strings.TrimSpace(text) }, nil
		})
	f.parsed("Elevation", "metres above the sea", func(p *plan.Plan) string { return printNumber(float64(p.Property.Elevation)) },
		func(text string) (func(*plan.Plan), error) {
			v, err := parseNumber(text)
			return func(p *plan.Plan) { p.Property.Elevation = plan.Metres(v) }, err
		})
	f.table("Faces", table{
		item:   "face",
		count:  func(p *plan.Plan) int { return len(p.Property.Faces) },
		add:    (*plan.Plan).AddFace,
		remove: (*plan.Plan).RemoveFace,
		columns: []column{
			textColumn("Side of the house", "Garden side", 4, func(p *plan.Plan, i int) *string { return &p.Property.Faces[i].Name }),
			bearingColumn("Looks toward", 3, func(p *plan.Plan, i int) *plan.Bearing { return &p.Property.Faces[i].Bearing }),
		},
	})
	f.says("", func(*plan.Plan) string {
		return "Bearings are degrees clockwise from true north. A phone's compass may show magnetic north: set it to true north before you read it."
	})
	f.table("Skyline", table{
		item:   "corner",
		count:  func(p *plan.Plan) int { return len(p.Property.Skyline) },
		add:    func(p *plan.Plan) { p.Property.Skyline = append(p.Property.Skyline, plan.SkyPoint{}) },
		remove: func(p *plan.Plan, i int) { p.Property.Skyline = removed(p.Property.Skyline, i) },
		columns: []column{
			bearingColumn("At bearing", 3, func(p *plan.Plan, i int) *plan.Bearing { return &p.Property.Skyline[i].Bearing }),
			numberColumn("Degrees high", "4.5", 3, func(p *plan.Plan, i int) *plan.Angle { return &p.Property.Skyline[i].Altitude }),
		},
	})
	f.table("Obstacles", table{
		item:   "obstacle",
		count:  func(p *plan.Plan) int { return len(p.Property.Obstacles) },
		add:    addObstacle,
		remove: func(p *plan.Plan, i int) { p.Property.Obstacles = removed(p.Property.Obstacles, i) },
		columns: []column{
			textColumn("What", "Spruce row", 4, func(p *plan.Plan, i int) *string { return &p.Property.Obstacles[i].Name }),
			numberColumn("Metres high", "14", 2, func(p *plan.Plan, i int) *plan.Metres { return &p.Property.Obstacles[i].Height }),
			numberColumn("Metres away", "40", 2, func(p *plan.Plan, i int) *plan.Metres { return &p.Property.Obstacles[i].Distance }),
			bearingColumn("From", 2, func(p *plan.Plan, i int) *plan.Bearing { return &p.Property.Obstacles[i].From }),
			bearingColumn("To", 2, func(p *plan.Plan, i int) *plan.Bearing { return &p.Property.Obstacles[i].To }),
		},
	})
}

func addObstacle(p *plan.Plan) {
	p.Property.Obstacles = append(p.Property.Obstacles, plan.Obstacle{Height: 5, Distance: 50})
}

func (h *Property) spaceAt(p *plan.Plan) *plan.Space {
	i := slices.IndexFunc(p.Property.Spaces, func(s plan.Space) bool { return s.ID == h.selected })
	if i < 0 {
		return nil
	}
	return &p.Property.Spaces[i]
}

func (h *Property) spaceFields() {
	f := h.space
	f.text("Name", "Kitchen", func(p *plan.Plan) *string {
		return of(h.spaceAt(p), func(s *plan.Space) *string { return &s.Name })
	})
	f.choice("Kind", words(plan.SpaceKinds), func(p *plan.Plan) string {
		return of(h.spaceAt(p), func(s *plan.Space) string { return string(s.Kind.Or()) })
	}, func(p *plan.Plan, v string) {
		if s := h.spaceAt(p); s != nil {
			s.Kind = plan.SpaceKind(v)
		}
	})
	f.ticks("Looks toward", "Add the faces of the house first.", 1, func(p *plan.Plan) []option {
		var out []option
		for _, face := range p.Property.Faces {
			out = append(out, option{string(face.ID), view.FaceName(face)})
		}
		return out
	}, func(p *plan.Plan) *[]plan.ID {
		return of(h.spaceAt(p), func(s *plan.Space) *[]plan.ID { return &s.Faces })
	})
	f.parsed("Window tops", "metres above the floor, as in 2.4", func(p *plan.Plan) string {
		head := of(h.spaceAt(p), func(s *plan.Space) plan.Metres { return s.Head })
		if head == 0 {
			return ""
		}
		return printNumber(float64(head))
	}, func(text string) (func(*plan.Plan), error) {
		v, err := 0.0, error(nil)
		if text != "" {
			v, err = parseNumber(text)
		}
		return func(p *plan.Plan) {
			if s := h.spaceAt(p); s != nil {
				s.Head = plan.Metres(v)
			}
		}, err
	})
	f.long("Look out for", "printed on the call sheet", 2, func(p *plan.Plan) *string {
		return of(h.spaceAt(p), func(s *plan.Space) *string { return &s.Safety })
	})
	f.row("Moves", newMoveRows(h, f).object)
}

// moveRows are the minutes from the selected space to each other one.
type moveRows struct {
	page   *Property
	form   *form
	rows   []*moveRow
	object *fyne.Container
}

type moveRow struct {
	name *widget.Label
	*bound
	box *fyne.Container
}

func newMoveRows(h *Property, f *form) *moveRows {
	m := &moveRows{page: h, form: f, object: container.NewVBox()}
	f.syncs = append(f.syncs, m.show)
	return m
}

// others are the spaces that the selected one has moves to.
func (m *moveRows) others(p *plan.Plan) []plan.Space {
	return slices.DeleteFunc(slices.Clone(p.Property.Spaces), func(s plan.Space) bool { return s.ID == m.page.selected })
}

func (m *moveRows) show(p *plan.Plan) {
	others := m.others(p)
	for len(m.rows) < len(others) {
		m.rows = append(m.rows, m.addRow(len(m.rows)))
	}
	for i, r := range m.rows {
		setVisible(r.box, i < len(others))
		if i < len(others) {
			r.name.SetText("to " + view.SpaceName(others[i]))
			r.sync(p, m.form.subject()+string(others[i].ID))
		}
	}
}

func (m *moveRows) addRow(i int) *moveRow {
	to := func(p *plan.Plan) plan.ID {
		if others := m.others(p); i < len(others) {
			return others[i].ID
		}
		return ""
	}
	get := func(p *plan.Plan) string { return fmt.Sprint(int(p.MoveMinutes(m.page.selected, to(p)))) }
	r := &moveRow{name: widget.NewLabel("")}
	r.name.Truncation = fyne.TextTruncateEllipsis
	r.bound = newBound(widget.NewEntry(), "minutes", get, func(text string) string {
		return m.form.commit("move minutes", fmt.Sprint("move", i), text, func(text string) (func(*plan.Plan), error) {
			v, err := parseWhole(text)
			return func(p *plan.Plan) { p.SetMove(m.page.selected, to(p), plan.Minutes(v)) }, err
		})
	})
	unit := widget.NewLabel("min")
	r.box = container.NewVBox(container.New(byShare{5, 2, 1}, r.name, r.Entry, unit), r.wrong)
	m.object.Add(r.box)
	return r
}

// finder turns what a person types into a position, off the UI goroutine, and lets them choose where several places fit.
type finder struct {
	edit   Editor
	async  Async
	entry  *widget.Entry
	says   *widget.Label
	choice *widget.Select
	found  []locate.Found
	asked  int // counts questions, so that a late answer is dropped
	object fyne.CanvasObject
}

func newFinder(edit Editor, async Async) *finder {
	f := &finder{edit: edit, async: async, entry: widget.NewEntry(), says: widget.NewLabel("")}
	f.entry.SetPlaceHolder("a town, a US ZIP code, 39.23, -120.91, a pasted map link…")
	f.entry.OnSubmitted = func(string) { f.ask() }
	f.says.Wrapping = fyne.TextWrapWord
	f.says.Hide()
	f.choice = widget.NewSelect(nil, nil)
	f.choice.OnChanged = func(string) {
		if i := f.choice.SelectedIndex(); i >= 0 && i < len(f.found) {
			f.take(f.found[i])
		}
	}
	f.choice.PlaceHolder = "Which one?"
	f.choice.Hide()
	button := widget.NewButtonWithIcon("", theme.SearchIcon(), f.ask)
	f.object = container.NewVBox(container.NewBorder(nil, nil, nil, button, f.entry), f.says, f.choice)
	return f
}

func (f *finder) say(words string, importance widget.Importance) {
	f.says.Importance = importance
	f.says.SetText(words)
	setVisible(f.says, words != "")
}

func (f *finder) ask() {
	text := f.entry.Text
	f.asked++
	mine := f.asked
	f.choice.Hide()
	f.say("Looking it up…", widget.LowImportance)
	f.async(func() func() {
		found, err := locate.Parse(text)
		return func() {
			if mine == f.asked {
				f.answer(found, err)
			}
		}
	})
}

func (f *finder) answer(found []locate.Found, err error) {
	f.found = found
	switch {
	case err != nil:
		f.say(err.Error(), widget.DangerImportance)
	case len(found) == 1:
		f.take(found[0])
	default:
		names := make([]option, len(found))
		for i, one := range found {
			names[i] = option{name: view.FoundName(one)}
		}
		var words []string
		for _, o := range distinct(names) {
			words = append(words, o.name)
		}
		f.say(fmt.Sprintf("%d places fit.", len(found)), widget.MediumImportance)
		f.choice.SetOptions(words)
		f.choice.ClearSelected()
		f.choice.Show()
	}
}

// take sets the position, and the time zone that follows from it.
func (f *finder) take(one locate.Found) {
	f.say("Looking up the time zone…", widget.LowImportance)
	mine := f.asked
	f.async(func() func() {
		zone, err := locate.Zone(one.Position)
		return func() {
			if mine != f.asked {
				return
			}
			f.edit("set the position", "", func(p *plan.Plan) {
				pos := one.Position
				p.Property.Position = &pos
				if err == nil {
					p.Property.Zone = zone
				}
			})
			if err != nil {
				f.say(err.Error(), widget.DangerImportance)
				return
			}
			f.say("Set to "+view.FoundName(one)+".", widget.SuccessImportance)
		}
	})
}
