package page

import (
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// hourFields are the choice of the table of minors' hours, where it is from, and the way in for one of the user's own.
func (d *Day) hourFields() {
	f := d.rules
	f.choice(tongue.Say("Minors' hours"), hourTables, func(p *plan.Plan) string { return string(p.Shooting.Minors) },
		func(p *plan.Plan, v string) { p.Shooting.Minors = plan.ID(v) })
	source, said := wrapped(), wrapped()
	said.Hide()
	tell := func(words string, importance widget.Importance) {
		said.Importance = importance
		said.SetText(words)
		setVisible(said, words != "")
		f.box.Refresh()
		d.side.Refresh()
	}
	asked := 0 // so that a late answer is dropped
	from := widget.NewButtonWithIcon(tongue.Say("From a file…"), theme.FolderOpenIcon(), func() {
		d.pick(func(path string) {
			asked++
			mine := asked
			tell(tongue.Say("Reading…"), widget.LowImportance)
			d.async(func() func() {
				t, err := view.ReadHours(path)
				return func() {
					if mine == asked {
						d.takeHours(t, err, tell)
					}
				}
			})
		})
	})
	out := widget.NewButton(tongue.Say("Take it out"), func() {
		id := d.state.Plan.Shooting.Minors
		tell("", widget.LowImportance)
		d.edit(tongue.Say("take the table of hours out"), "", func(p *plan.Plan) { view.DropHours(p, id) })
	})
	f.row("", stack(source, said, flowing(from, out)))
	f.syncs = append(f.syncs, func(p *plan.Plan) {
		source.SetText(view.HoursSource(p))
		setVisible(source, source.Text != "")
		setVisible(out, view.CarriesHours(p))
	})
}

// takeHours puts a table that was read into the plan, or says why not.
func (d *Day) takeHours(t plan.HourTable, err error, tell func(string, widget.Importance)) {
	if err != nil {
		tell(tongue.Error(err), widget.DangerImportance)
		return
	}
	if wrong := d.edit(tongue.Say("bring in a table of hours"), "", func(p *plan.Plan) { view.TakeHours(p, t) }); len(wrong) > 0 {
		tell(tongue.Of(wrong[0]), widget.DangerImportance)
		return
	}
	tell(tongue.Say("“%s” is in the plan now, and holds.", t.Name), widget.SuccessImportance)
}
