package page

import (
	"reflect"
	"strings"

	"eavelight/app/draw"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"
)

// market is the part of the page of the price with what others nearby ask, as the user has noted it.
type market struct {
	form   *form
	shown  view.Market
	words  *widget.Label
	line   *draw.Offers
	object fyne.CanvasObject
}

func newMarket(edit Editor, today func() plan.Date) *market {
	s := &market{form: newForm(edit, nil), words: wrapped(), line: draw.NewOffers()}
	offer := func(p *plan.Plan, i int) *plan.Offer { return &p.Pricing.Market[i] }
	s.form.table("", table{
		item:   tongue.Say("offer"),
		count:  func(p *plan.Plan) int { return len(p.Pricing.Market) },
		add:    func(p *plan.Plan) { p.Pricing.Market = append(p.Pricing.Market, plan.Offer{Noted: today()}) },
		raise:  raised(func(p *plan.Plan) []plan.Offer { return p.Pricing.Market }),
		remove: func(p *plan.Plan, i int) { p.Pricing.Market = removed(p.Pricing.Market, i) },
		columns: []column{
			textColumn(tongue.Say("Who"), tongue.Say("a studio in town"), 4, func(p *plan.Plan, i int) *string { return &offer(p, i).Who }),
			decimalColumn(tongue.Say("Amount"), "4200", 2, func(p *plan.Plan, i int) *decimal.Decimal { return &offer(p, i).Amount }),
			textColumn(tongue.Say("What is in it"), tongue.Say("a film of 60 s and stills"), 6, func(p *plan.Plan, i int) *string { return &offer(p, i).Includes }),
			dateColumn(tongue.Say("Noted"), 2.4, func(p *plan.Plan, i int) *plan.Date { return &offer(p, i).Noted }),
		},
	})
	s.object = container.NewVScroll(stack(s.words, s.line, container.New(atMost(1200), s.form.box)))
	return s
}

// Object is pricePart's.
func (s *market) Object() fyne.CanvasObject { return s.object }

// Revert is Reverter's.
func (s *market) Revert() bool { return s.form.Revert() }

func (s *market) show(p view.Priced) {
	s.form.show(&p.Plan)
	now := view.MarketOf(p)
	if reflect.DeepEqual(now, s.shown) {
		return
	}
	s.shown = now
	s.words.SetText(strings.Join(now.Lines, "\n"))
	setVisible(s.line, len(now.Offers) > 0)
	s.line.Set(draw.OffersData{Offers: valueMarks(now.Offers), Quartiles: now.Quartiles, Ours: draw.ValueMark{At: now.Ours.At, Label: now.Ours.Words}})
	s.object.Refresh()
}

func valueMarks(figures []view.Point) []draw.ValueMark {
	var out []draw.ValueMark
	for _, f := range figures {
		out = append(out, draw.ValueMark{At: f.At, Label: f.Words})
	}
	return out
}
