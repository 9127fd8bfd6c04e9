package page

import (
	"reflect"
	"strings"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// recording is the part of the page of the price with how the film is recorded and what that is kept on.
type recording struct {
	form     *form
	charged  *form // the batteries, which need the width
	shown    view.Recording
	wrong    *widget.Label
	warnings *widget.Label
	empty    fyne.CanvasObject
	items    *fyne.Container
	object   fyne.CanvasObject
}

func newRecording(edit Editor) *recording {
	s := &recording{form: newForm(edit, nil), charged: newForm(edit, nil), wrong: told(), warnings: told(), items: stack()}
	s.warnings.Importance = widget.WarningImportance
	note := wrapped()
	note.SetText(view.UsualRecordingNote())
	usual := widget.NewButtonWithIcon(tongue.Say("Fill in usual values"), theme.DocumentCreateIcon(), func() {
		edit(tongue.Say("fill in usual values of recording"), "", func(p *plan.Plan) { p.Pricing.Recording = plan.UsualRecording(tongue.Current()) })
	})
	usual.Importance = widget.HighImportance
	s.empty = stack(note, container.NewHBox(usual))
	s.empty.Hide()
	s.fields()
	s.batteryFields()
	found := container.NewVScroll(stack(s.empty, s.wrong, s.warnings, s.items))
	heading := widget.NewLabelWithStyle(tongue.Say("Batteries"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	fields := container.NewVBox(measure(s.form.box), heading, measure(s.charged.box))
	s.object = newTurning(container.NewVScroll(fields), found, 0.48, 0.5, 44)
	return s
}

func (s *recording) fields() {
	f := s.form
	at := func(p *plan.Plan) *plan.Recording { return &p.Pricing.Recording }
	figure := func(label, hint string, of func(*plan.Recording) *float64) {
		f.parsed(label, hint, func(p *plan.Plan) string { return printOrNone(*of(at(p))) }, func(text string) (func(*plan.Plan), error) {
			v, err := numberOrNone(text)
			return func(p *plan.Plan) { *of(at(p)) = v }, err
		})
	}
	whole := func(label, hint string, of func(*plan.Recording) *int) {
		wholeField(f, label, hint, func(p *plan.Plan) *int { return of(at(p)) })
	}
	figure(tongue.Say("Shooting ratio"), tongue.Say("12: 12 s recorded for 1 on screen"), func(r *plan.Recording) *float64 { return &r.Ratio })
	figure(tongue.Say("Bit rate, Mbit/s"), tongue.Say("of the camera's format"), func(r *plan.Recording) *float64 { return &r.Bitrate })
	figure(tongue.Say("Megapixels"), tongue.Say("of a still"), func(r *plan.Recording) *float64 { return &r.Megapixels })
	whole(tongue.Say("Bits"), tongue.Say("of a raw pixel: 12 or 14"), func(r *plan.Recording) *int { return &r.Bits })
	f.check(tongue.Say("Raw files"), tongue.Say("compressed, to about half"), func(p *plan.Plan) *bool { return &at(p).Packed })
	whole(tongue.Say("A card holds, GB"), "128", func(r *plan.Recording) *int { return &r.Card })
	whole(tongue.Say("A drive holds, GB"), "2000", func(r *plan.Recording) *int { return &r.Drive })
	whole(tongue.Say("Read at, MB/s"), tongue.Say("how fast cards are copied"), func(r *plan.Recording) *int { return &r.Offload })
	whole(tongue.Say("Copies in all"), "3", func(r *plan.Recording) *int { return &r.Copies })
	whole(tongue.Say("Of them on drives"), "2", func(r *plan.Recording) *int { return &r.OnDrives })
	whole(tongue.Say("Of them elsewhere"), "1", func(r *plan.Recording) *int { return &r.Elsewhere })
}

// batteryFields are a table of the kinds of battery.
func (s *recording) batteryFields() {
	at := func(p *plan.Plan) *plan.Recording { return &p.Pricing.Recording }
	battery := func(p *plan.Plan, i int) *plan.Battery { return &at(p).Batteries[i] }
	s.charged.table("", table{
		item:   tongue.Say("battery"),
		count:  func(p *plan.Plan) int { return len(at(p).Batteries) },
		add:    func(p *plan.Plan) { at(p).Batteries = append(at(p).Batteries, plan.Battery{Lasts: 100, Spare: 30}) },
		raise:  raised(func(p *plan.Plan) []plan.Battery { return at(p).Batteries }),
		remove: func(p *plan.Plan, i int) { at(p).Batteries = removed(at(p).Batteries, i) },
		columns: []column{
			textColumn(tongue.Say("Name"), tongue.Say("camera"), 4, func(p *plan.Plan, i int) *string { return &battery(p, i).Name }),
			wholeColumn(tongue.Say("Minutes"), "100", 2, func(p *plan.Plan, i int) *plan.Minutes { return &battery(p, i).Lasts }),
			wholeColumn(tongue.Say("Spare %"), "30", 2, func(p *plan.Plan, i int) *int { return &battery(p, i).Spare }),
			tickColumn(tongue.Say("Flying"), 1.6, func(p *plan.Plan, i int) *bool { return &battery(p, i).Flying }),
		},
	})
}

// Object is pricePart's.
func (s *recording) Object() fyne.CanvasObject { return s.object }

// Revert is Reverter's.
func (s *recording) Revert() bool {
	charged := s.charged.Revert()
	return s.form.Revert() || charged
}

func (s *recording) show(p view.Priced) {
	s.form.show(&p.Plan)
	s.charged.show(&p.Plan)
	now := view.RecordingOf(p)
	if reflect.DeepEqual(now, s.shown) {
		return
	}
	s.shown = now
	setVisible(s.empty, now.Empty)
	s.wrong.SetText(now.Wrong)
	setVisible(s.wrong, now.Wrong != "")
	s.warnings.SetText(strings.Join(now.Warnings, "\n"))
	setVisible(s.warnings, len(now.Warnings) > 0)
	s.fill()
	s.object.Refresh()
}

// fill makes the figures anew.
func (s *recording) fill() {
	s.items.RemoveAll()
	for _, it := range s.shown.Items {
		title := wrapped()
		title.TextStyle.Bold = true
		title.SetText(it.Title)
		s.items.Add(pair(title, strings.Join(it.Lines, "\n")))
	}
}
