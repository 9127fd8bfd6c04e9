package page

import (
	"strings"

	"eavelight/app/draw"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// pasteScenes shows what the rows on the clipboard would become, and adds them in one edit.
type pasteScenes struct {
	edit    Editor
	done    func()
	made    func(plan.ID) // hears of the first one added, before it is shown
	plan    *plan.Plan
	text    string // as it was on the clipboard
	pasted  view.Pasted
	told    *widget.Label
	rows    *draw.Grid
	refused *widget.Label
	aside   *fyne.Container
	list    *fyne.Container
	add     *widget.Button
	foot    *fyne.Container
	object  fyne.CanvasObject
}

func newPasteScenes(edit Editor, done func(), made func(plan.ID)) *pasteScenes {
	s := &pasteScenes{edit: edit, done: done, made: made, plan: &plan.Plan{}, told: wrapped(), rows: draw.NewGrid(), refused: wrapped()}
	head := widget.NewLabelWithStyle(tongue.Say("Paste from a spreadsheet"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	back := widget.NewButtonWithIcon(tongue.Say("Back to the scenes"), theme.NavigateBackIcon(), done)
	how := wrapped()
	how.Importance = widget.LowImportance
	how.SetText(tongue.Say("A row becomes a scene at the end of the list. Headings such as Title, Space, People, Light, Set-up, Shooting, Seconds, Importance, " +
		"Action, Kit and Notes tell the columns; without any they are taken in the order of the table. Nothing changes before you add them."))
	s.aside = newFaults(tongue.Say("What is not taken"), s.refused)
	s.list = container.New(asideThird{}, s.rows, s.aside)
	again := widget.NewButtonWithIcon(tongue.Say("Read the clipboard again"), theme.ContentPasteIcon(), s.read)
	again.Importance = widget.LowImportance
	s.add = widget.NewButtonWithIcon("", theme.ConfirmIcon(), s.take)
	s.add.Importance = widget.HighImportance
	s.foot = container.NewBorder(nil, nil, again, s.add)
	top := container.NewVBox(container.NewBorder(nil, nil, nil, back, head), how, s.told)
	s.object = container.NewBorder(top, s.foot, nil, nil, s.list)
	return s
}

// read reads what is on the clipboard now.
func (s *pasteScenes) read() {
	s.text = fyne.CurrentApp().Clipboard().Content()
	s.show(s.plan)
}

// show reads it for a plan: what is taken depends on its spaces, people and numbers.
func (s *pasteScenes) show(p *plan.Plan) {
	s.plan = p
	var err error
	s.pasted, err = view.ReadScenes(p, s.text)
	words, importance := s.pasted.Summary(), widget.MediumImportance
	if err != nil {
		words, importance = sentence(tongue.Error(err)), widget.WarningImportance
	}
	s.told.Importance = importance
	s.told.SetText(words)
	d := draw.GridData{Row: -1, Empty: tongue.Say("No rows.")}
	for _, c := range view.TableColumns() {
		d.Columns = append(d.Columns, draw.GridColumn{Head: c.Heading(), Share: c.Share, Figure: c.Figure})
	}
	d.Columns = append(d.Columns, draw.GridColumn{Head: tongue.Say("Not taken"), Share: 6.5})
	for _, r := range s.pasted.Rows {
		d.Rows = append(d.Rows, append(r.Cells, strings.Join(r.Without, ", ")))
	}
	s.rows.Set(d)
	refusals := s.pasted.Refusals()
	s.refused.SetText(refusals)
	setVisible(s.aside, refusals != "")
	s.list.Refresh()
	s.add.SetText(view.AddScenesWords(len(s.pasted.Rows)))
	setEnabled(s.add, len(s.pasted.Rows) > 0)
	s.foot.Refresh()
}

func (s *pasteScenes) take() {
	pasted := s.pasted
	wrong := s.edit(view.AddScenesName(len(pasted.Rows)), "", func(p *plan.Plan) { s.made(pasted.AddTo(p, len(p.Scenes))[0]) })
	if len(wrong) > 0 {
		s.made("")
		s.told.Importance = widget.DangerImportance
		s.told.SetText(tongue.Say("Nothing was added: %s", wrong[0]))
		return
	}
	s.done()
}

// sentence begins with a capital letter and ends with a point.
func sentence(words string) string {
	r := []rune(words)
	return strings.ToUpper(string(r[:1])) + string(r[1:]) + "."
}
