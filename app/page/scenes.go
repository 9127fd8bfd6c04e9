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

// Scenes is the page of the scenes: the table, and the selected scene beside it, or under it where there is less room. What
// brings scenes in takes the place of both while it is open.
type Scenes struct {
	*items[plan.Scene]
	state    session.State
	table    *sceneTable
	filter   *widget.Entry
	left     *widget.Label // how many the filter leaves
	ready    *readyScenes
	paste    *pasteScenes
	pictures *scenePictures
	work     fyne.CanvasObject
	object   fyne.CanvasObject
}

// NewScenes builds the page.
func NewScenes(edit Editor, files PictureFiles) *Scenes {
	s := &Scenes{}
	settled := Editor(func(name, key string, f func(*plan.Plan)) plan.Problems { // what is being written in the table goes first
		s.table.Commit()
		return edit(name, key, f)
	})
	s.items = newItems(tongue.Say("scene"), tongue.Say("No scene yet. Add the first one: where it happens, who is in it, and the light it wants. "+
		"Or begin with ready-made ones, or paste them from a spreadsheet."), settled,
		func(p *plan.Plan) []plan.Scene { return p.Scenes },
		func(sc *plan.Scene) plan.ID { return sc.ID },
		listOps{add: (*plan.Plan).AddScene, duplicate: (*plan.Plan).DuplicateScene, remove: (*plan.Plan).RemoveScene})
	s.table = newSceneTable(edit, s.pick, s.drop, s.openPaste)
	s.fill, s.marked = func(int) { s.fillTable() }, s.table.marked
	want := func(id plan.ID) { s.wanted = id }
	s.ready, s.paste = newReadyScenes(settled, s.close, want), newPasteScenes(settled, s.close, want)
	s.storyFields()
	s.lightFields()
	s.lampFields()
	s.form.beside(0.4)
	s.timeFields()
	s.cameraFields()
	s.pictureFields(files)
	s.otherFields()
	s.build()
	return s
}

func (s *Scenes) build() {
	s.filter, s.left = widget.NewEntry(), widget.NewLabel("")
	s.filter.SetPlaceHolder(tongue.Say("only scenes with…"))
	s.filter.OnChanged = func(string) {
		s.table.Commit()
		s.fillTable()
	}
	button := func(words string, icon fyne.ThemeIconName, do func()) *widget.Button {
		b := widget.NewButtonWithIcon(words, theme.Icon(icon), do)
		b.Importance = widget.LowImportance
		return b
	}
	s.bar.Add(button(tongue.Say("Ready-made…"), theme.IconNameList, func() { s.open(s.ready.object) }))
	s.bar.Add(button(tongue.Say("Paste…"), theme.IconNameContentPaste, s.openPaste))
	renumber := button(tongue.Say("Renumber"), theme.IconNameViewRefresh, s.renumber)
	s.bar.Add(renumber)
	s.needRow = append(s.needRow, renumber)
	s.bar.Add(container.NewBorder(nil, nil, nil, s.left, s.filter))
	s.bar.Layout = &flow{rest: true}
	s.empty.Wrapping = fyne.TextWrapWord
	rows := container.NewStack(s.table.object, container.NewVBox(s.empty))
	s.detail.Content = container.New(broad, s.form.box)
	split := container.NewVSplit(container.NewBorder(s.bar, s.table.wrong, nil, nil, rows), s.detail)
	s.work = container.New(&besideOrUnder{split: split}, split)
	s.ready.object.Hide()
	s.paste.object.Hide()
	s.object = container.NewStack(s.work, s.ready.object, s.paste.object, s.pictures.larger.object)
}

// besideOrUnder lays two things side by side where there is room for a table and a form, and under each other elsewhere.
type besideOrUnder struct {
	split *container.Split
	asked bool
}

func (b *besideOrUnder) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(600, 400) }

func (b *besideOrUnder) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	if beside := size.Width >= 1400*theme.TextSize()/14; !b.asked || beside != b.split.Horizontal {
		b.asked, b.split.Horizontal = true, beside
		b.split.Offset = 0.46
		if beside {
			b.split.Offset = 0.6
		}
		b.split.Refresh()
	}
	b.split.Resize(size)
}

// open shows what brings scenes in, in place of the table and the form.
func (s *Scenes) open(o fyne.CanvasObject) {
	if s.table.Commit() {
		s.work.Hide()
		o.Show()
		s.showOpen()
		o.Refresh()
	}
}

func (s *Scenes) openPaste() {
	s.paste.text = fyne.CurrentApp().Clipboard().Content()
	s.open(s.paste.object)
}

// showOpen brings up to the plan what brings scenes in.
func (s *Scenes) showOpen() {
	if s.ready.object.Visible() {
		s.ready.show(s.shown)
	}
	if s.paste.object.Visible() {
		s.paste.show(s.shown)
	}
}

func (s *Scenes) close() {
	s.ready.object.Hide()
	s.paste.object.Hide()
	s.pictures.larger.object.Hide()
	s.work.Show()
	s.work.Refresh()
	s.table.focus(s.table.grid)
}

// onList does something with the table; nothing while something lies in its place.
func (s *Scenes) onList(do func(*listPane)) {
	if s.work.Visible() {
		do(s.listPane)
	}
}

// Add, Duplicate, Shift and Delete are Lister's.
func (s *Scenes) Add()         { s.onList((*listPane).Add) }
func (s *Scenes) Duplicate()   { s.onList((*listPane).Duplicate) }
func (s *Scenes) Shift(by int) { s.onList(func(l *listPane) { l.Shift(by) }) }
func (s *Scenes) Delete()      { s.onList((*listPane).Delete) }

// CopyRow is RowCopier's.
func (s *Scenes) CopyRow() { s.onList(func(*listPane) { s.table.copyRows() }) }

// Select shows one scene.
func (s *Scenes) Select(id plan.ID) {
	s.close()
	s.wanted = id
	s.Show(s.state)
}

// pick hears of the scene selected in the table.
func (s *Scenes) pick(id plan.ID) {
	s.selected = id
	s.onSelect()
	s.fillTable()
}

// drop moves a scene to before another, or to the end.
func (s *Scenes) drop(id, before plan.ID) {
	s.form.edit(tongue.Say("move %s", s.item), "", func(p *plan.Plan) {
		at := func(id plan.ID) int {
			return slices.IndexFunc(p.Scenes, func(sc plan.Scene) bool { return sc.ID == id })
		}
		from, to := at(id), at(before)
		if to < 0 {
			to = len(p.Scenes)
		}
		if to > from {
			to--
		}
		plan.Shift(p.Scenes, from, to-from)
	})
}

func (s *Scenes) renumber() {
	s.form.edit(tongue.Say("renumber scenes"), "", (*plan.Plan).RenumberScenes)
}

// Commit makes an edit of what is being written in the table.
func (s *Scenes) Commit() bool { return s.table.Commit() }

// Revert is Reverter's.
func (s *Scenes) Revert() bool { return s.table.Revert() || s.items.Revert() }

// Object is the page.
func (s *Scenes) Object() fyne.CanvasObject { return s.object }

// Show brings the page up to the state.
func (s *Scenes) Show(st session.State) {
	s.state = st
	s.showItems(&st.Plan, view.SceneRows(st))
	s.showOpen()
}

func (s *Scenes) fillTable() {
	setVisible(s.empty, len(s.rows) == 0)
	setVisible(s.table.object, len(s.rows) > 0)
	s.table.show(s.state, s.filter.Text, s.selected)
	s.left.SetText(view.FilterLine(s.table.lines, s.state, s.filter.Text))
	setVisible(s.left, s.left.Text != "")
	s.bar.Refresh() // the line takes as much room as it now wants
}

func (s *Scenes) storyFields() {
	s.form.says(tongue.Say("On the day"), func(*plan.Plan) string { return view.SceneDay(s.state, s.selected) })
	s.text(tongue.Say("Number"), tongue.Say("7, or 7A"), func(sc *plan.Scene) *string { return &sc.Number })
	s.text(tongue.Say("Title"), tongue.Say("Coffee in the first sun"), func(sc *plan.Scene) *string { return &sc.Title })
	s.first = s.form.newest()
	s.choice(tongue.Say("Space"), spaceOptions, func(sc *plan.Scene) string { return string(sc.Space) },
		func(sc *plan.Scene, v string) { sc.Space = plan.ID(v) })
	s.long(tongue.Say("Action"), tongue.Say("what happens"), 3, func(sc *plan.Scene) *string { return &sc.Action })
	s.form.ticksOf(tongue.Say("People"), tongue.Say("Nobody is listed yet: add people on their page."), 2, personOptions, func(p *plan.Plan, person plan.ID) bool {
		return slices.Contains(read(s.items, func(sc *plan.Scene) []plan.ID { return sc.People })(p), person)
	}, func(p *plan.Plan, person plan.ID, on bool) {
		s.edited(func(sc *plan.Scene) { sc.SetIn(person, on) })(p)
	})
	s.lines(tongue.Say("Looks"), tongue.Say("what they wear, a line each:\nNina: linen dress"), 2, func(p *plan.Plan, sc *plan.Scene) string {
		return printLooks(sc.Looks, p.People)
	}, func(text string) (func(*plan.Scene), error) {
		looks, err := parseLooks(text, s.cast())
		return func(sc *plan.Scene) { sc.Looks = looks }, err
	})
	s.choice(tongue.Say("Importance"), words(plan.Importances), func(sc *plan.Scene) string { return string(sc.Importance.Or()) },
		func(sc *plan.Scene, v string) { sc.Importance = plan.Importance(v) })
}

// cast are the people in the selected scene.
func (s *Scenes) cast() []plan.Person {
	ids := read(s.items, func(sc *plan.Scene) []plan.ID { return sc.People })(s.shown)
	return slices.DeleteFunc(slices.Clone(s.shown.People), func(q plan.Person) bool { return !slices.Contains(ids, q.ID) })
}

func (s *Scenes) lightFields() {
	f := s.form
	f.heading(tongue.Say("Light"))
	s.choice(tongue.Say("Light wish"), words(plan.WishKinds), func(sc *plan.Scene) string { return string(sc.Wish.Kind.Or()) },
		func(sc *plan.Scene, v string) { sc.SetWishKind(plan.WishKind(v)) })
	f.only(read(s.items, func(sc *plan.Scene) bool { return len(sc.Values) > 0 }), func() {
		f.says(tongue.Say("By the clock"), read(s.items, func(sc *plan.Scene) string { return view.ValuesLine(*sc) }))
	})
	f.only(s.uses(plan.FigureDirect), func() {
		s.check(tongue.Say("Direct sun"), tongue.Say("the sun itself, not only its glow"), func(sc *plan.Scene) *bool { return &sc.Wish.Direct })
	})
	f.only(s.uses(plan.FigureFace), func() {
		s.choice(tongue.Say("Face"), faceOptions, func(sc *plan.Scene) string { return string(sc.Wish.Face) },
			func(sc *plan.Scene, v string) { sc.Wish.Face = plan.ID(v) })
	})
	s.angle(tongue.Say("Largest incidence"), plan.FigureIncidence, plan.UsualIncidence, func(sc *plan.Scene) **plan.Angle { return &sc.Wish.Incidence })
	s.angle(tongue.Say("Highest sun"), plan.FigureMaxAltitude, plan.UsualMaxAltitude, func(sc *plan.Scene) **plan.Angle { return &sc.Wish.MaxAltitude })
	s.angle(tongue.Say("Lowest sun"), plan.FigureMinAltitude, plan.UsualMinAltitude, func(sc *plan.Scene) **plan.Angle { return &sc.Wish.MinAltitude })
	s.angle(tongue.Say("Sun below"), plan.FigureBelow, plan.UsualDark, func(sc *plan.Scene) **plan.Angle { return &sc.Wish.Below })
	f.only(s.uses(plan.FigureCamera), func() {
		s.form.parsed(tongue.Say("Camera looks"), tongue.Say("bearing: 248, WSW, or 235m by compass"), read(s.items, func(sc *plan.Scene) string {
			if sc.Wish.Camera == nil {
				return ""
			}
			return printBearing(*sc.Wish.Camera)
		}), s.camera)
	})
	s.figure(tongue.Say("Lens sees across"), tongue.Say("degrees, as in 40: then the sun in the frame is told"), func(sc *plan.Scene) *float64 { return (*float64)(&sc.View) })
}

// uses reports whether the selected scene's wish takes a figure.
func (s *Scenes) uses(figure plan.WishFigure) func(*plan.Plan) bool {
	return read(s.items, func(sc *plan.Scene) bool { return slices.Contains(sc.Wish.Kind.Or().Uses(), figure) })
}

// angle adds a field for an angle of the wish; left empty it is the usual one.
func (s *Scenes) angle(label string, figure plan.WishFigure, usual plan.Angle, at func(*plan.Scene) **plan.Angle) {
	s.form.only(s.uses(figure), func() {
		s.parsed(label, tongue.Say("degrees; left empty: %s", printNumber(float64(usual))), func(sc *plan.Scene) string {
			if a := *at(sc); a != nil {
				return printNumber(float64(*a))
			}
			return ""
		}, func(text string) (func(*plan.Scene), error) {
			if text == "" {
				return func(sc *plan.Scene) { *at(sc) = nil }, nil
			}
			v, err := parseNumber(text)
			a := plan.Angle(v)
			return func(sc *plan.Scene) { *at(sc) = &a }, err
		})
	})
}

// camera reads where the lens looks, or nothing.
func (s *Scenes) camera(text string) (func(*plan.Plan), error) {
	if text == "" {
		return s.edited(func(sc *plan.Scene) { sc.Wish.Camera = nil }), nil
	}
	r, err := parseBearing(text)
	return func(p *plan.Plan) {
		b := r.at(p)
		s.edited(func(sc *plan.Scene) { sc.Wish.Camera = &b })(p)
	}, err
}

// lampFields are for the lamp that is to hold against the light in the scene's space.
func (s *Scenes) lampFields() {
	has := read(s.items, func(sc *plan.Scene) bool { return sc.Lamp != nil })
	s.form.toggle(tongue.Say("Lamp"), tongue.Say("will a lamp hold against the light there?"), has, func(p *plan.Plan, on bool) {
		s.edited(func(sc *plan.Scene) {
			sc.Lamp = nil
			if on {
				sc.Lamp = &plan.Lamp{Lux: 5000, Rated: 1, Subject: 2}
			}
		})(p)
	})
	lamp := func(sc *plan.Scene) *plan.Lamp {
		if sc.Lamp == nil {
			return &plan.Lamp{} // the fields are hidden
		}
		return sc.Lamp
	}
	figure := func(label, hint string, at func(*plan.Lamp) *float64) {
		s.figure(label, hint, func(sc *plan.Scene) *float64 { return at(lamp(sc)) })
	}
	length := func(label, hint string, at func(*plan.Lamp) *plan.Metres) {
		s.length(label, hint, func(sc *plan.Scene) *plan.Metres { return at(lamp(sc)) })
	}
	s.form.only(has, func() {
		figure(tongue.Say("Lux, as rated"), tongue.Say("from the maker's table"), func(l *plan.Lamp) *float64 { return &l.Lux })
		length(tongue.Say("lamp|Rated at"), tongue.Say("the distance in that table"), func(l *plan.Lamp) *plan.Metres { return &l.Rated })
		figure(tongue.Say("Stops lost"), tongue.Say("to a softbox or a cloth"), func(l *plan.Lamp) *float64 { return &l.Loss })
		length(tongue.Say("lamp|Distance"), tongue.Say("from the lamp to the subject"), func(l *plan.Lamp) *plan.Metres { return &l.Subject })
		s.form.says("", func(*plan.Plan) string { return view.LampLine(s.state, s.selected) })
	})
}

func (s *Scenes) timeFields() {
	s.form.heading(tongue.Say("Time"))
	s.minutes(tongue.Say("Set-up minutes"), "15", func(sc *plan.Scene) *plan.Minutes { return &sc.Setup })
	s.text(tongue.Say("Lighting set-up"), tongue.Say("a name: right after another scene with it in this space, no set-up"), func(sc *plan.Scene) *string { return &sc.Lights })
	s.minutes(tongue.Say("Shooting minutes"), "20", func(sc *plan.Scene) *plan.Minutes { return &sc.Shoot })
	s.whole(tongue.Say("Seconds on screen"), "8", func(sc *plan.Scene) *int { return &sc.Seconds })
	s.clock(tongue.Say("Not before"), tongue.Say("a clock limit beside the wish, as in %s", clockHint(14, 0)), func(sc *plan.Scene) *plan.Clock { return &sc.From })
	s.clock(tongue.Say("Done by"), tongue.Say("as in %s", clockHint(15, 30)), func(sc *plan.Scene) *plan.Clock { return &sc.To })
	s.parsed(tongue.Say("Pinned to"), tongue.Say("fixes the start by hand, as in %s", clockHint(17, 40)), func(sc *plan.Scene) string { return printClock(sc.Pin.Start) },
		func(text string) (func(*plan.Scene), error) {
			c, err := parseClock(text)
			return func(sc *plan.Scene) { sc.Pin.Start, sc.Pin.Held = c, false }, err // what is typed is meant
		})
	s.parsed(tongue.Say("Pinned on"), tongue.Say("left empty: on any date"), func(sc *plan.Scene) string { return sc.Pin.Date.String() },
		func(text string) (func(*plan.Scene), error) {
			d, err := parseDate(text)
			return func(sc *plan.Scene) { sc.Pin.Date = d }, err
		})
	held := read(s.items, func(sc *plan.Scene) bool { return sc.Pin.Held })
	s.form.only(held, func() {
		s.form.says("", func(*plan.Plan) string {
			return tongue.Say("It is only held there, while others were moved by hand on the Day page.")
		})
	})
}

// cameraFields are what the camera takes of the scene, and what the sound does: both stand in the shot list.
func (s *Scenes) cameraFields() {
	s.form.heading(tongue.Say("Camera and sound"))
	shots := func(p *plan.Plan) []plan.Shot {
		return read(s.items, func(sc *plan.Scene) []plan.Shot { return sc.Shots })(p)
	}
	shot := func(p *plan.Plan, i int) *plan.Shot { return &shots(p)[i] }
	s.form.table(tongue.Say("Shots"), table{
		item:   tongue.Say("shot"),
		count:  func(p *plan.Plan) int { return len(shots(p)) },
		add:    s.edited(func(sc *plan.Scene) { sc.Shots = append(sc.Shots, plan.Shot{}) }),
		raise:  raised(shots),
		remove: func(p *plan.Plan, i int) { s.edited(func(sc *plan.Scene) { sc.Shots = removed(sc.Shots, i) })(p) },
		columns: []column{
			suggestColumn(tongue.Say("Frame"), tongue.Say("shot|close-up"), 4, said(plan.ShotFrames), func(p *plan.Plan, i int) *string { return &shot(p, i).Frame }),
			suggestColumn(tongue.Say("Lens"), "35 mm", 3, said(plan.ShotLenses), func(p *plan.Plan, i int) *string { return &shot(p, i).Lens }),
			suggestColumn(tongue.Say("Movement"), tongue.Say("shot|static"), 4, said(plan.ShotMovements), func(p *plan.Plan, i int) *string { return &shot(p, i).Movement }),
			textColumn(tongue.Say("What to get"), tongue.Say("steam against the light"), 6, func(p *plan.Plan, i int) *string { return &shot(p, i).Note }),
		},
	})
	s.long(tongue.Say("Sound"), tongue.Say("wild sound of the waves, clip-on mic on Nora"), 2, func(sc *plan.Scene) *string { return &sc.Audio })
}

func (s *Scenes) otherFields() {
	s.form.heading(tongue.Say("And"))
	s.parsed(tongue.Say("Kit"), tongue.Say("drone, 50 mm lens"), func(sc *plan.Scene) string { return joinWords(sc.Kit) },
		func(text string) (func(*plan.Scene), error) {
			return func(sc *plan.Scene) { sc.Kit = splitList(text) }, nil
		})
	s.form.ticks(tongue.Say("Comes after"), tongue.Say("There is no other scene."), 1, s.others, read(s.items, func(sc *plan.Scene) *[]plan.ID { return &sc.After }))
	s.choice(tongue.Say("Cover scene"), func(p *plan.Plan) []option { return append([]option{{"", tongue.Say("scene|none")}}, s.others(p)...) },
		func(sc *plan.Scene) string { return string(sc.Cover) }, func(sc *plan.Scene, v string) { sc.Cover = plan.ID(v) })
	s.long(tongue.Say("Notes"), tongue.Say("note|printed on the call sheet"), 2, func(sc *plan.Scene) *string { return &sc.Notes })
}

// others are all scenes but the selected one.
func (s *Scenes) others(p *plan.Plan) []option {
	return slices.DeleteFunc(sceneOptions(p), func(o option) bool { return o.value == string(s.selected) })
}
