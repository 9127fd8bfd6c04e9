package page

import (
	"fmt"
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
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
	*items[plan.Space]
	house  *form
	find   *finder
	plan   *house
	state  session.State
	object fyne.CanvasObject
}

// NewProperty builds the page.
func NewProperty(edit Editor, async Async) *Property {
	h := &Property{house: newForm(edit, nil), find: newFinder(edit, async), plan: newHouse()}
	h.plan.moved = func() { h.showDetail() }
	h.houseFields()
	h.items = newItems(tongue.Say("space"), tongue.Say("No space yet: add the rooms, terraces and the air above, wherever a scene can happen."), edit,
		func(p *plan.Plan) []plan.Space { return p.Property.Spaces },
		func(s *plan.Space) plan.ID { return s.ID },
		listOps{add: (*plan.Plan).AddSpace, duplicate: (*plan.Plan).DuplicateSpace, remove: (*plan.Plan).RemoveSpace})
	h.spaceFields()
	spaces := container.NewHSplit(h.listPane.object, h.detail)
	spaces.Offset = 0.4
	right := container.NewVSplit(h.plan.object, spaces)
	right.Offset = 0.48
	split := container.NewHSplit(container.NewVScroll(measure(h.house.box)), right)
	split.Offset = 0.42
	h.object = split
	return h
}

// Object is the page.
func (h *Property) Object() fyne.CanvasObject { return h.object }

// Revert is Reverter's.
func (h *Property) Revert() bool {
	house := h.house.Revert()
	return h.items.Revert() || house
}

// Show brings the page up to the state.
func (h *Property) Show(st session.State) {
	h.state = st
	h.house.show(&st.Plan)
	h.plan.show(st)
	h.showItems(&st.Plan, view.SpaceRows(st))
}

func (h *Property) houseFields() {
	f := h.house
	f.text(tongue.Say("Name"), tongue.Say("what people call the house"), func(p *plan.Plan) *string { return &p.Property.Name })
	f.long(tongue.Say("Address"), tongue.Say("as it stands on the call sheet"), 2, func(p *plan.Plan) *string { return &p.Property.Address })
	f.row(tongue.Say("Find it"), h.find.object)
	f.says(tongue.Say("place|Position"), func(p *plan.Plan) string { return view.PositionLine(*p) })
	f.parsed(tongue.Say("Time zone"), tongue.Say("follows from the position"), func(p *plan.Plan) string { return p.Property.Zone },
		func(text string) (func(*plan.Plan), error) {
			return func(p *plan.Plan) { p.Property.Zone = strings.TrimSpace(text) }, nil
		})
	f.length(tongue.Say("Elevation"), tongue.Say("above the sea"), func(p *plan.Plan) *plan.Metres { return &p.Property.Elevation }, printLength, parseLength)
	f.check(tongue.Say("Sea horizon"), tongue.Say("the free horizon is the sea, seen from the elevation"), func(p *plan.Plan) *bool { return &p.Property.SeaHorizon })
	h.airFields()
	f.parsed(tongue.Say("Declination"), tongue.Say("degrees that a compass points east of true north"), func(p *plan.Plan) string { return printOrNone(float64(p.Property.Declination)) },
		func(text string) (func(*plan.Plan), error) {
			v, err := numberOrNone(text)
			return func(p *plan.Plan) { p.Property.Declination = plan.Angle(v) }, err
		})
	f.says("", func(p *plan.Plan) string { return view.BearingAdvice(*p) })
	f.table(tongue.Say("Faces"), table{
		item:   tongue.Say("face"),
		count:  func(p *plan.Plan) int { return len(p.Property.Faces) },
		add:    (*plan.Plan).AddFace,
		raise:  raised(func(p *plan.Plan) []plan.Face { return p.Property.Faces }),
		remove: (*plan.Plan).RemoveFace,
		columns: []column{
			textColumn(tongue.Say("Side of the house"), tongue.Say("Garden side"), 4, func(p *plan.Plan, i int) *string { return &p.Property.Faces[i].Name }),
			bearingColumn(tongue.Say("Looks toward"), 3, func(p *plan.Plan, i int) *plan.Bearing { return &p.Property.Faces[i].Bearing }),
		},
	})
	f.table(tongue.Say("Skyline"), table{
		item:   tongue.Say("corner"),
		count:  func(p *plan.Plan) int { return len(p.Property.Skyline) },
		add:    func(p *plan.Plan) { p.Property.Skyline = append(p.Property.Skyline, plan.SkyPoint{}) },
		remove: func(p *plan.Plan, i int) { p.Property.Skyline = removed(p.Property.Skyline, i) },
		columns: []column{
			bearingColumn(tongue.Say("At bearing"), 3, func(p *plan.Plan, i int) *plan.Bearing { return &p.Property.Skyline[i].Bearing }),
			numberColumn(tongue.Say("Degrees high"), printNumber(4.5), 3, func(p *plan.Plan, i int) *plan.Angle { return &p.Property.Skyline[i].Altitude }),
		},
	})
	f.table(tongue.Say("Obstacles"), table{
		item:   tongue.Say("obstacle"),
		count:  func(p *plan.Plan) int { return len(p.Property.Obstacles) },
		add:    addObstacle,
		raise:  raised(func(p *plan.Plan) []plan.Obstacle { return p.Property.Obstacles }),
		remove: func(p *plan.Plan, i int) { p.Property.Obstacles = removed(p.Property.Obstacles, i) },
		columns: []column{
			textColumn(tongue.Say("What"), tongue.Say("Spruce row"), 4, func(p *plan.Plan, i int) *string { return &p.Property.Obstacles[i].Name }),
			lengthColumn(tongue.Say("obstacle|Height"), 14, 2, func(p *plan.Plan, i int) *plan.Metres { return &p.Property.Obstacles[i].Height }),
			lengthColumn(tongue.Say("obstacle|Distance"), 40, 2, func(p *plan.Plan, i int) *plan.Metres { return &p.Property.Obstacles[i].Distance }),
			bearingColumn(tongue.Say("From"), 2, func(p *plan.Plan, i int) *plan.Bearing { return &p.Property.Obstacles[i].From }),
			bearingColumn(tongue.Say("To"), 2, func(p *plan.Plan, i int) *plan.Bearing { return &p.Property.Obstacles[i].To }),
		},
	})
	f.says("", func(p *plan.Plan) string { return view.ObstacleAngles(*p) })
}

// airFields are for the air that bends the light near the horizon.
func (h *Property) airFields() {
	has := func(p *plan.Plan) bool { return p.Property.Air != nil }
	h.house.toggle(tongue.Say("Air"), tongue.Say("not the standard one (1010 hPa, 10 °C)"), has, func(p *plan.Plan, on bool) {
		p.Property.Air = nil
		if on {
			p.Property.Air = &plan.Air{Pressure: 1010, Temperature: 10}
		}
	})
	h.house.only(has, func() {
		figure := func(label, hint string, at func(*plan.Air) *float64) {
			h.house.parsed(label, hint, func(p *plan.Plan) string {
				if p.Property.Air == nil {
					return ""
				}
				return printNumber(*at(p.Property.Air))
			}, func(text string) (func(*plan.Plan), error) {
				v, err := parseNumber(text)
				return func(p *plan.Plan) {
					if p.Property.Air != nil {
						*at(p.Property.Air) = v
					}
				}, err
			})
		}
		figure(tongue.Say("Pressure, hPa"), tongue.Say("at the property, not reduced to the sea"), func(a *plan.Air) *float64 { return &a.Pressure })
		figure(tongue.Say("Temperature, °C"), "", func(a *plan.Air) *float64 { return &a.Temperature })
	})
}

func addObstacle(p *plan.Plan) {
	p.Property.Obstacles = append(p.Property.Obstacles, plan.Obstacle{Height: 5, Distance: 50})
}

func (h *Property) spaceFields() {
	h.form.says(tongue.Say("sky|Sun"), func(*plan.Plan) string { return view.SpaceSun(h.state, h.plan.sky, h.selected, h.plan.minute()) })
	h.text(tongue.Say("Name"), tongue.Say("Kitchen"), func(s *plan.Space) *string { return &s.Name })
	h.first = h.form.newest()
	h.choice(tongue.Say("Kind"), words(plan.SpaceKinds), func(s *plan.Space) string { return string(s.Kind.Or()) },
		func(s *plan.Space, v string) { s.Kind = plan.SpaceKind(v) })
	h.form.ticks(tongue.Say("Looks toward"), tongue.Say("Add the faces of the house first."), 1, faceOptions,
		read(h.items, func(s *plan.Space) *[]plan.ID { return &s.Faces }))
	h.length(tongue.Say("Window sills"), aboveFloor(0.9), func(s *plan.Space) *plan.Metres { return &s.Sill })
	h.length(tongue.Say("Window tops"), aboveFloor(2.4), func(s *plan.Space) *plan.Metres { return &s.Head })
	wings := read(h.items, func(s *plan.Space) []plan.Wing { return s.Wings })
	h.form.table(tongue.Say("Shaded by"), table{
		item:  tongue.Say("wing"),
		count: func(p *plan.Plan) int { return len(wings(p)) },
		add: func(p *plan.Plan) {
			h.edited(func(s *plan.Space) { s.Wings = append(s.Wings, plan.Wing{Altitude: 90}) })(p)
		},
		remove: func(p *plan.Plan, i int) {
			h.edited(func(s *plan.Space) { s.Wings = removed(s.Wings, i) })(p)
		},
		columns: []column{
			bearingColumn(tongue.Say("From"), 2, func(p *plan.Plan, i int) *plan.Bearing { return &wings(p)[i].From }),
			bearingColumn(tongue.Say("To"), 2, func(p *plan.Plan, i int) *plan.Bearing { return &wings(p)[i].To }),
			numberColumn(tongue.Say("Degrees high"), "90", 2, func(p *plan.Plan, i int) *plan.Angle { return &wings(p)[i].Altitude }),
		},
	})
	h.long(tongue.Say("Look out for"), tongue.Say("note|printed on the call sheet"), 2, func(s *plan.Space) *string { return &s.Safety })
	h.form.row(tongue.Say("Moves"), newMoveRows(h).object)
}

// aboveFloor is the hint of a field for a height of windows.
func aboveFloor(like plan.Metres) string {
	return tongue.Say("above the floor, as in %s", printLength(like))
}

// moveRows are the minutes from the selected space to each other one.
type moveRows struct {
	page   *Property
	rows   []*moveRow
	object *fyne.Container
}

type moveRow struct {
	name *widget.Label
	*bound
	box *fyne.Container
}

func newMoveRows(h *Property) *moveRows {
	m := &moveRows{page: h, object: container.NewVBox()}
	h.form.syncs = append(h.form.syncs, m.show)
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
			r.name.SetText(tongue.Say("to %s", view.SpaceName(others[i])))
			r.sync(p, m.page.form.subject()+string(others[i].ID))
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
	r.bound = newBound(widget.NewEntry(), tongue.Say("minutes"), get, func(text string) string {
		return m.page.form.commit(tongue.Say("move minutes"), fmt.Sprint("move", i), text, func(text string) (func(*plan.Plan), error) {
			v, err := parseWhole(text)
			return func(p *plan.Plan) { p.SetMove(m.page.selected, to(p), plan.Minutes(v)) }, err
		})
	})
	m.page.form.fields = append(m.page.form.fields, r.bound)
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
	many   *fyne.Container // holds choice, and is seen where several places fit
	found  []locate.Found
	asked  int // counts questions, so that a late answer is dropped
	object fyne.CanvasObject
}

func newFinder(edit Editor, async Async) *finder {
	f := &finder{edit: edit, async: async, entry: widget.NewEntry(), says: widget.NewLabel("")}
	f.entry.SetPlaceHolder(tongue.Say("a town, ZIP, 39.23 -120.91, map link…"))
	f.entry.OnSubmitted = func(string) { f.ask() }
	f.says.Wrapping = fyne.TextWrapWord
	f.says.Hide()
	f.choice = newSelect(nil, nil)
	f.choice.OnChanged = func(string) {
		if i := f.choice.SelectedIndex(); i >= 0 && i < len(f.found) {
			f.take(f.found[i])
		}
	}
	f.choice.PlaceHolder = tongue.Say("Which one?")
	f.many = framed(f.choice)
	f.many.Hide()
	button := widget.NewButtonWithIcon("", theme.SearchIcon(), f.ask)
	f.object = container.NewVBox(container.NewBorder(nil, nil, nil, button, f.entry), f.says, f.many)
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
	f.many.Hide()
	f.say(tongue.Say("Looking it up…"), widget.LowImportance)
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
		f.say(tongue.Error(err), widget.DangerImportance)
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
		f.say(tongue.Say("%d places fit.", len(found)), widget.MediumImportance)
		f.choice.SetOptions(words)
		f.choice.ClearSelected()
		f.many.Show()
	}
}

// take sets the position, and the time zone that follows from it.
func (f *finder) take(one locate.Found) {
	f.say(tongue.Say("Looking up the time zone…"), widget.LowImportance)
	mine := f.asked
	f.async(func() func() {
		zone, err := locate.Zone(one.Position)
		return func() {
			if mine != f.asked {
				return
			}
			f.edit(tongue.Say("set the position"), "", func(p *plan.Plan) {
				pos := one.Position
				p.Property.Position = &pos
				if err == nil {
					p.Property.Zone = zone
				}
			})
			if err != nil {
				f.say(tongue.Error(err), widget.DangerImportance)
				return
			}
			f.say(tongue.Say("Set to %s.", view.FoundName(one)), widget.SuccessImportance)
		}
	})
}
