package page

import (
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Brief is the page of who it is for, what is delivered, by when and within what budget.
type Brief struct {
	*form
	object fyne.CanvasObject
}

// NewBrief builds the page.
func NewBrief(edit Editor) *Brief {
	f := newForm(edit, nil)
	f.text(tongue.Say("Title"), tongue.Say("what the film is called"), func(p *plan.Plan) *string { return &p.Title })
	f.text(tongue.Say("Client"), tongue.Say("who orders and pays"), func(p *plan.Plan) *string { return &p.Brief.Client })
	f.text(tongue.Say("Agent"), tongue.Say("whose listing it is"), func(p *plan.Plan) *string { return &p.Brief.Agent })
	f.long(tongue.Say("Purpose"), tongue.Say("what the film must do"), 2, func(p *plan.Plan) *string { return &p.Brief.Purpose })
	f.parsed(tongue.Say("brief|Due"), tongue.Say("2027-11-12 or 12 Nov 2027"), func(p *plan.Plan) string { return p.Brief.Due.String() },
		func(text string) (func(*plan.Plan), error) {
			d, err := parseDate(text)
			return func(p *plan.Plan) { p.Brief.Due = d }, err
		})
	f.parsed(tongue.Say("Budget"), tongue.Say("18500 USD"), func(p *plan.Plan) string { return printMoney(p.Brief.Budget) },
		func(text string) (func(*plan.Plan), error) {
			m, err := parseMoney(text)
			return func(p *plan.Plan) { p.Brief.Budget = m }, err
		})
	f.long(tongue.Say("Notes"), tongue.Say("anything the day should know"), 4, func(p *plan.Plan) *string { return &p.Brief.Notes })
	f.beside(0.38) // a table needs more
	f.table(tongue.Say("To deliver"), table{
		item:   tongue.Say("deliverable"),
		count:  func(p *plan.Plan) int { return len(p.Brief.Deliverables) },
		add:    func(p *plan.Plan) { p.Brief.Deliverables = append(p.Brief.Deliverables, plan.Deliverable{}) },
		raise:  raised(func(p *plan.Plan) []plan.Deliverable { return p.Brief.Deliverables }),
		remove: func(p *plan.Plan, i int) { p.Brief.Deliverables = removed(p.Brief.Deliverables, i) },
		columns: []column{
			textColumn(tongue.Say("Name"), tongue.Say("Hero film"), 3.8, func(p *plan.Plan, i int) *string { return &p.Brief.Deliverables[i].Name }),
			kindColumn(),
			wholeColumn(tongue.Say("brief|Seconds"), "s", 2.1, func(p *plan.Plan, i int) *int { return &p.Brief.Deliverables[i].Seconds }),
			wholeColumn(tongue.Say("Stills"), "", 1.5, func(p *plan.Plan, i int) *int { return &p.Brief.Deliverables[i].Stills }),
			wholeColumn(tongue.Say("Bracket"), "", 1.9, func(p *plan.Plan, i int) *int { return &p.Brief.Deliverables[i].Exposures }),
			textColumn(tongue.Say("Format"), tongue.Say("UHD 3840x2160, 24 fps"), 5.6, func(p *plan.Plan, i int) *string { return &p.Brief.Deliverables[i].Format }),
		},
	})
	f.cuts(tongue.Say("Cut from"))
	return &Brief{form: f, object: container.NewVScroll(container.New(broad, f.box))}
}

// kindColumn shows what a deliverable's kind is taken for while nothing was said.
func kindColumn() column {
	c := choiceColumn(tongue.Say("Kind"), 3.6, words(plan.DeliverableKinds), nil, func(p *plan.Plan, i int) *plan.DeliverableKind { return &p.Brief.Deliverables[i].Kind })
	c.get = func(p *plan.Plan, i int) string { return string(p.Brief.Deliverables[i].KindOr()) }
	return c
}

// Object is the page.
func (b *Brief) Object() fyne.CanvasObject { return b.object }

// Show brings the page up to the state.
func (b *Brief) Show(st session.State) { b.form.show(&st.Plan) }
