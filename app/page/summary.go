package page

import (
	"slices"
	"strings"

	"eavelight/app/tongue"
	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// summary is what the job comes to, beside every part of the page of the price.
type summary struct {
	price, whence       *widget.Label
	margin, markup      *widget.Label
	asked, costs, owner *ledger
	problems            *widget.Label
	object              fyne.CanvasObject
}

func newSummary() *summary {
	s := &summary{price: widget.NewLabel(""), whence: caption(), problems: caption(), margin: widget.NewLabel(""), markup: widget.NewLabel(""),
		asked: newLedger(), costs: newLedger(), owner: newLedger()}
	s.price.SizeName, s.price.TextStyle.Bold, s.price.Alignment = theme.SizeNameHeadingText, true, fyne.TextAlignTrailing
	s.price.Truncation = fyne.TextTruncateEllipsis
	head := widget.NewLabelWithStyle(tongue.Say("Price"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	s.margin.TextStyle.Bold, s.markup.TextStyle.Bold, s.markup.Alignment = true, true, fyne.TextAlignTrailing
	shares := container.NewGridWithColumns(2, s.margin, s.markup)
	s.object = container.NewVScroll(container.NewVBox(container.New(tight{}, head, s.price, shares, s.whence), s.asked.object, widget.NewSeparator(),
		s.costs.object, widget.NewSeparator(), s.owner.object, widget.NewSeparator(), s.problems))
	return s
}

// caption is a small line of words, as many lines as it takes.
func caption() *widget.Label {
	l := wrapped()
	l.SizeName, l.Importance = theme.SizeNameCaptionText, widget.LowImportance
	return l
}

func (s *summary) show(p view.Priced) {
	sum := view.SummaryOf(p)
	changed := false
	say := func(l *widget.Label, text string) { changed = relabel(l, text, l.TextStyle, l.Importance) || changed }
	say(s.price, sum.Price)
	say(s.whence, sum.Whence)
	say(s.margin, tongue.Say("Margin %s", sum.Margin))
	say(s.markup, tongue.Say("Markup %s", sum.Markup))
	say(s.problems, strings.Join(sum.Problems, "\n\n"))
	setVisible(s.problems, len(sum.Problems) > 0)
	s.asked.set(sum.Asked)
	s.costs.set(sum.Costs)
	s.owner.set(sum.Owner)
	if changed {
		s.object.Refresh()
	}
}

// ledger is figures under each other, aligned at the right.
type ledger struct{ object *fyne.Container }

func newLedger() *ledger { return &ledger{object: container.New(tight{})} }

func (l *ledger) set(figures []view.Figure) {
	changed := len(figures) != len(l.object.Objects)
	for len(l.object.Objects) < len(figures) {
		name, value := widget.NewLabel(""), widget.NewLabelWithStyle("", fyne.TextAlignTrailing, fyne.TextStyle{})
		name.Truncation = fyne.TextTruncateEllipsis
		l.object.Objects = append(l.object.Objects, container.NewBorder(nil, nil, nil, value, name))
	}
	l.object.Objects = l.object.Objects[:len(figures)]
	for i, f := range figures {
		row, style := l.object.Objects[i].(*fyne.Container), fyne.TextStyle{Bold: f.Sum}
		name := relabel(row.Objects[0].(*widget.Label), f.Name, style, widget.MediumImportance)
		if relabel(row.Objects[1].(*widget.Label), f.Value, style, widget.MediumImportance) || name {
			row.Refresh()
		}
	}
	if changed {
		l.object.Refresh()
	}
}

// grid is a small table of words: heads at the left, figures in columns aligned at the right.
type grid struct {
	texts  [][]string
	object *fyne.Container
}

func newGrid() *grid { return &grid{object: container.NewVBox()} }

func (g *grid) set(texts [][]string) {
	if slices.EqualFunc(texts, g.texts, slices.Equal[[]string]) {
		return
	}
	g.texts = texts
	rows := container.New(tight{})
	for i, texts := range texts {
		row := container.NewGridWithColumns(len(texts))
		for at, text := range texts {
			l := widget.NewLabelWithStyle(text, fyne.TextAlignTrailing, fyne.TextStyle{Bold: i == 0})
			if at == 0 {
				l.Alignment = fyne.TextAlignLeading
			}
			row.Add(l)
		}
		rows.Add(row)
	}
	g.object.Objects = []fyne.CanvasObject{rows}
	g.object.Refresh()
}
