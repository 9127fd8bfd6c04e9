package page

import (
	"errors"
	"io/fs"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/contacts"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// exporting writes all people of the plan into a vCard file.
type exporting struct {
	async    Async
	today    func() plan.Date
	people   []plan.Person
	path     *widget.Entry
	proposed string // the path proposed last, which another proposal may replace
	what     *widget.Label
	over     *widget.Check
	told     *widget.Label
	write    *widget.Button
	object   *fyne.Container
}

func newExporting(async Async, today func() plan.Date) *exporting {
	e := &exporting{async: async, today: today, path: widget.NewEntry(), what: wrapped(), told: wrapped()}
	e.path.SetPlaceHolder(tongue.Say("the file to write, as in people.vcf with its folder"))
	e.over = widget.NewCheck(tongue.Say("Replace the file that is there"), nil)
	e.path.OnChanged = func(string) { e.drop() } // the leave to replace was for another file
	e.path.OnSubmitted = func(string) { e.run() }
	e.write = widget.NewButtonWithIcon(tongue.Say("Write the file"), theme.DocumentSaveIcon(), e.run)
	e.write.Importance = widget.HighImportance
	e.object = container.NewVBox(e.what, container.NewBorder(nil, nil, nil, e.write, e.path), e.told, e.over)
	e.drop()
	return e
}

func (e *exporting) show(st session.State) {
	e.people = st.Plan.People
	e.what.SetText(view.WritingWords(e.people, e.today()))
	if len(e.people) == 0 {
		e.write.Disable()
	} else {
		e.write.Enable()
	}
	if e.path.Text == e.proposed {
		e.proposed = view.ContactsPath(st)
		if e.path.Text != e.proposed {
			e.path.SetText(e.proposed)
		}
	}
}

// drop forgets what was said about a file.
func (e *exporting) drop() {
	e.over.SetChecked(false)
	e.over.Hide()
	e.told.Hide()
	e.object.Refresh()
}

func (e *exporting) tell(words string, importance widget.Importance) {
	e.told.Importance = importance
	e.told.SetText(words)
	e.told.Show()
	e.object.Refresh()
}

func (e *exporting) run() {
	path := strings.TrimSpace(e.path.Text)
	if path == "" {
		e.tell(tongue.Say("Type the file to write, with its folder."), widget.WarningImportance)
		return
	}
	people, over := e.people, e.over.Checked && e.over.Visible()
	e.drop()
	e.tell(tongue.Say("Writing…"), widget.LowImportance)
	e.async(func() func() {
		err := contacts.WriteFile(path, people, over)
		return func() {
			switch {
			case errors.Is(err, fs.ErrExist):
				e.over.Show()
				e.tell(tongue.Error(err)+".", widget.WarningImportance)
			case err != nil:
				e.tell(tongue.Error(err), widget.DangerImportance)
			default:
				e.tell(tongue.Say("Written: %s", path), widget.SuccessImportance)
			}
		}
	})
}
