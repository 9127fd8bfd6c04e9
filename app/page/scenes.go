package page

import (
	"slices"

	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Scenes is the page of the scenes: the list at the left, the selected scene at the right.
type Scenes struct {
	*listPane
	form   *form
	detail *container.Scroll
	state  session.State
	object fyne.CanvasObject
}

// NewScenes builds the page.
func NewScenes(edit Editor) *Scenes {
	s := &Scenes{}
	s.listPane = newListPane("scene", "No scene yet. Add the first one: where it happens, who is in it, and the light it wants.", edit, listOps{
		id:        func(p *plan.Plan, i int) plan.ID { return p.Scenes[i].ID },
		add:       (*plan.Plan).AddScene,
		duplicate: (*plan.Plan).DuplicateScene,
		shift:     func(p *plan.Plan, i, by int) { plan.Shift(p.Scenes, i, by) },
		remove:    (*plan.Plan).RemoveScene,
	}, s.selectionChanged)
	s.form = newForm(edit, func() string { return string(s.selected) })
	s.fields()
	s.detail = container.NewVScroll(measure(s.form.box))
	split := container.NewHSplit(s.listPane.object, s.detail)
	split.Offset = 0.34
	s.object = split
	return s
}

// Select shows one scene.
func (s *Scenes) Select(id plan.ID) {
	s.select1 = id
	s.Show(s.state)
}

// Object is the page.
func (s *Scenes) Object() fyne.CanvasObject { return s.object }

// Show brings the page up to the state.
func (s *Scenes) Show(st session.State) {
	s.state = st
	s.listPane.show(view.SceneRows(st))
	s.showDetail()
}

func (s *Scenes) selectionChanged() {
	s.detail.ScrollToTop()
	s.showDetail()
}

func (s *Scenes) showDetail() {
	setVisible(s.detail, s.selected != "")
	s.form.show(&s.state.Plan)
}

// at is the selected scene in a plan, nil where there is none.
func (s *Scenes) at(p *plan.Plan) *plan.Scene {
	i := slices.IndexFunc(p.Scenes, func(sc plan.Scene) bool { return sc.ID == s.selected })
	if i < 0 {
		return nil
	}
	return &p.Scenes[i]
}

func (s *Scenes) fields() {
	f := s.form
	text := func(get func(*plan.Scene) *string) func(*plan.Plan) *string {
		return func(p *plan.Plan) *string { return of(s.at(p), get) }
	}
	f.says("On the day", func(*plan.Plan) string { return view.SceneDay(s.state, s.selected) })
	f.text("Number", "7, or 7A", text(func(sc *plan.Scene) *string { return &sc.Number }))
	f.text("Title", "Coffee in the first sun", text(func(sc *plan.Scene) *string { return &sc.Title }))
	f.choice("Space", s.spaces, s.value(func(sc *plan.Scene) string { return string(sc.Space) }),
		s.set(func(sc *plan.Scene, v string) { sc.Space = plan.ID(v) }))
	f.long("Action", "what happens", 3, text(func(sc *plan.Scene) *string { return &sc.Action }))
	f.ticks("People", "Nobody is listed yet: add people on their page.", 2, personOptions, func(p *plan.Plan) *[]plan.ID {
		return of(s.at(p), func(sc *plan.Scene) *[]plan.ID { return &sc.People })
	})
	f.choice("Importance", words(plan.Importances), s.value(func(sc *plan.Scene) string { return string(sc.Importance.Or()) }),
		s.set(func(sc *plan.Scene, v string) { sc.Importance = plan.Importance(v) }))
	s.lightFields()
	s.timeFields()
	f.heading("And")
	f.parsed("Kit", "drone, 50 mm lens", s.value(func(sc *plan.Scene) string { return joinWords(sc.Kit) }), s.parse(func(text string) (func(*plan.Scene), error) {
		return func(sc *plan.Scene) { sc.Kit = splitList(text) }, nil
	}))
	f.ticks("Comes after", "There is no other scene.", 1, s.others, func(p *plan.Plan) *[]plan.ID {
		return of(s.at(p), func(sc *plan.Scene) *[]plan.ID { return &sc.After })
	})
	f.choice("Cover scene", func(p *plan.Plan) []option { return append([]option{{"", "none"}}, s.others(p)...) },
		s.value(func(sc *plan.Scene) string { return string(sc.Cover) }), s.set(func(sc *plan.Scene, v string) { sc.Cover = plan.ID(v) }))
	f.long("Notes", "anything the crew should know", 2, text(func(sc *plan.Scene) *string { return &sc.Notes }))
}

func (s *Scenes) lightFields() {
	f := s.form
	f.heading("Light")
	f.choice("Light wish", words(plan.WishKinds), s.value(func(sc *plan.Scene) string { return string(sc.Wish.Kind.Or()) }),
		s.set(func(sc *plan.Scene, v string) { sc.SetWishKind(plan.WishKind(v)) }))
	f.only(s.uses(plan.FigureDirect), func() {
		f.check("Direct sun", "the sun itself, not only its glow", func(p *plan.Plan) *bool {
			return of(s.at(p), func(sc *plan.Scene) *bool { return &sc.Wish.Direct })
		})
	})
	f.only(s.uses(plan.FigureFace), func() {
		f.choice("Face", func(p *plan.Plan) []option {
			var out []option
			for _, face := range p.Property.Faces {
				out = append(out, option{string(face.ID), view.FaceName(face)})
			}
			return out
		}, s.value(func(sc *plan.Scene) string { return string(sc.Wish.Face) }), s.set(func(sc *plan.Scene, v string) { sc.Wish.Face = plan.ID(v) }))
	})
	f.only(s.uses(plan.FigureCamera), func() {
		f.parsed("Camera looks", "bearing from true north, 0-360 or WSW", s.value(func(sc *plan.Scene) string {
			if sc.Wish.Camera == nil {
				return ""
			}
			return printBearing(*sc.Wish.Camera)
		}), s.parse(func(text string) (func(*plan.Scene), error) {
			if text == "" {
				return func(sc *plan.Scene) { sc.Wish.Camera = nil }, nil
			}
			b, err := parseBearing(text)
			return func(sc *plan.Scene) { sc.Wish.Camera = &b }, err
		}))
	})
	s.angle("Largest incidence", plan.FigureIncidence, plan.UsualIncidence, func(sc *plan.Scene) **plan.Angle { return &sc.Wish.Incidence })
	s.angle("Highest sun", plan.FigureMaxAltitude, plan.UsualMaxAltitude, func(sc *plan.Scene) **plan.Angle { return &sc.Wish.MaxAltitude })
	s.angle("Lowest sun", plan.FigureMinAltitude, plan.UsualMinAltitude, func(sc *plan.Scene) **plan.Angle { return &sc.Wish.MinAltitude })
	s.angle("Sun below", plan.FigureBelow, plan.UsualDark, func(sc *plan.Scene) **plan.Angle { return &sc.Wish.Below })
}

// angle adds a field for an angle of the wish; left empty it is the usual one.
func (s *Scenes) angle(label string, figure plan.WishFigure, usual plan.Angle, at func(*plan.Scene) **plan.Angle) {
	s.form.only(s.uses(figure), func() {
		s.form.parsed(label, "degrees; left empty: "+printNumber(float64(usual)), s.value(func(sc *plan.Scene) string {
			if a := *at(sc); a != nil {
				return printNumber(float64(*a))
			}
			return ""
		}), s.parse(func(text string) (func(*plan.Scene), error) {
			if text == "" {
				return func(sc *plan.Scene) { *at(sc) = nil }, nil
			}
			v, err := parseNumber(text)
			a := plan.Angle(v)
			return func(sc *plan.Scene) { *at(sc) = &a }, err
		}))
	})
}

func (s *Scenes) timeFields() {
	f := s.form
	f.heading("Time")
	whole := func(label, hint string, at func(*plan.Scene) *int) {
		f.parsed(label, hint, s.value(func(sc *plan.Scene) string { return printWhole(*at(sc)) }), s.parse(func(text string) (func(*plan.Scene), error) {
			v, err := parseWhole(text)
			return func(sc *plan.Scene) { *at(sc) = v }, err
		}))
	}
	minutes := func(at func(*plan.Scene) *plan.Minutes) func(*plan.Scene) *int {
		return func(sc *plan.Scene) *int { return (*int)(at(sc)) }
	}
	clock := func(label, hint string, at func(*plan.Scene) *plan.Clock) {
		f.parsed(label, hint, s.value(func(sc *plan.Scene) string { return at(sc).String() }), s.parse(func(text string) (func(*plan.Scene), error) {
			c, err := parseClock(text)
			return func(sc *plan.Scene) { *at(sc) = c }, err
		}))
	}
	whole("Set-up minutes", "15", minutes(func(sc *plan.Scene) *plan.Minutes { return &sc.Setup }))
	whole("Shooting minutes", "20", minutes(func(sc *plan.Scene) *plan.Minutes { return &sc.Shoot }))
	whole("Seconds on screen", "8", func(sc *plan.Scene) *int { return &sc.Seconds })
	clock("Not before", "a clock limit beside the wish, as in 14:00", func(sc *plan.Scene) *plan.Clock { return &sc.From })
	clock("Done by", "as in 15:30", func(sc *plan.Scene) *plan.Clock { return &sc.To })
	clock("Pinned to", "fixes the start by hand, as in 17:40", func(sc *plan.Scene) *plan.Clock { return &sc.Pin.Start })
	f.parsed("Pinned on", "left empty: on any date", s.value(func(sc *plan.Scene) string { return sc.Pin.Date.String() }), s.parse(func(text string) (func(*plan.Scene), error) {
		d, err := parseDate(text)
		return func(sc *plan.Scene) { sc.Pin.Date = d }, err
	}))
}

// value reads a text of the selected scene.
func (s *Scenes) value(get func(*plan.Scene) string) func(*plan.Plan) string {
	return func(p *plan.Plan) string { return of(s.at(p), get) }
}

func (s *Scenes) set(set func(*plan.Scene, string)) func(*plan.Plan, string) {
	return func(p *plan.Plan, v string) {
		if sc := s.at(p); sc != nil {
			set(sc, v)
		}
	}
}

// parse turns a change of a scene into one of the plan.
func (s *Scenes) parse(parse func(string) (func(*plan.Scene), error)) func(string) (func(*plan.Plan), error) {
	return func(text string) (func(*plan.Plan), error) {
		change, err := parse(text)
		return func(p *plan.Plan) {
			if sc := s.at(p); sc != nil {
				change(sc)
			}
		}, err
	}
}

// uses reports whether the selected scene's wish takes a figure.
func (s *Scenes) uses(figure plan.WishFigure) func(*plan.Plan) bool {
	return func(p *plan.Plan) bool {
		return of(s.at(p), func(sc *plan.Scene) bool { return slices.Contains(sc.Wish.Kind.Or().Uses(), figure) })
	}
}

func (s *Scenes) spaces(p *plan.Plan) []option {
	out := []option{{"", "not said yet"}}
	for _, sp := range p.Property.Spaces {
		out = append(out, option{string(sp.ID), view.SpaceName(sp)})
	}
	return out
}

func (s *Scenes) others(p *plan.Plan) []option {
	var out []option
	for _, sc := range p.Scenes {
		if sc.ID != s.selected {
			out = append(out, option{string(sc.ID), view.SceneName(sc)})
		}
	}
	return out
}

func personOptions(p *plan.Plan) []option {
	var out []option
	for _, q := range p.People {
		out = append(out, option{string(q.ID), q.Called()})
	}
	return out
}
