package draw

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"eavelight/app/look"
)

// Invented figures: costs in two heaps with a price between them, what moves them, and what four others ask.

func sampleCosts() HistogramData {
	d := HistogramData{Over: 8700, Empty: "Nothing is unsure.",
		Marks: []ValueMark{{8700, "the price: 8,700.00", false}, {7450, "holds in 8 of 10: 7,450.00", true}},
		Scale: []ValueMark{{7000, "7,000", false}, {8000, "8,000", false}, {9000, "9,000", false}, {10000, "10,000", false}}}
	for i, n := range []int{40, 900, 2600, 3100, 1500, 320, 40, 0, 0, 0, 0, 0, 60, 540, 700, 180, 20} {
		d.Bars = append(d.Bars, HistogramBar{6500 + 250*float64(i), 6750 + 250*float64(i), n})
	}
	return d
}

func sampleSwings() SwingsData {
	return SwingsData{Base: "likely costs: 6,900.00", Less: "costs less", More: "costs more", Empty: "Nothing moves it.", Rows: []SwingRow{
		{Name: "A further day", Note: "happens in 15 cases of 100", High: 2900, More: "+2,900.00"},
		{Name: "Editing", Low: -310, High: 740, Less: "−310.00", More: "+740.00"},
		{Name: "A discount that is likely", Note: "happens in 70 cases of 100", Low: -400, Less: "−400.00"},
		{Name: "Rounds of changes", Low: 60, High: 180, More: "+180.00"}}}
}

func sampleOffers() OffersData {
	return OffersData{Empty: "Nothing is noted.", Quartiles: [3]float64{6200, 8600, 10900}, Ours: ValueMark{At: 8750, Label: "our price: 8,750.00"},
		Offers: []ValueMark{{4200, "4,200.00  Two brothers", false}, {6900, "6,900.00  A studio in the next town", false},
			{10300, "10,300.00  A film maker from the coast", false}, {12500, "12,500.00  An agency", false}}}
}

// TestValuesThatAreNoNumbers: what can't be placed is left out, or nothing is drawn.
func TestValuesThatAreNoNumbers(t *testing.T) {
	th := look.New(false)
	use(t, th)
	for _, bad := range []float64{nan(), 1 / zero(), -1 / zero(), 1e300} {
		costs, swings, offers := NewHistogram(), NewSwings(), NewOffers()
		c := sampleCosts()
		c.Bars[0].From, c.Bars[1].Count, c.Marks[0].At, c.Scale[1].At, c.Over = bad, -1, bad, bad, bad
		costs.Set(c)
		if len(costs.data.Bars) != len(c.Bars)-2 || len(costs.data.Marks) != 1 {
			t.Errorf("%v: %d bars and %d marks are shown", bad, len(costs.data.Bars), len(costs.data.Marks))
		}
		s := sampleSwings()
		s.Rows[0].High = bad
		swings.Set(s)
		o := sampleOffers()
		o.Ours.At = bad
		offers.Set(o)
		for _, w := range []fyne.CanvasObject{costs, swings, offers} {
			capture(th, w, fyne.NewSize(700, 200), 1)
		}
	}
}

// TestAPriceFarOffKeepsTheBars: a mark ten widths away does not make the bars a hair; they keep at least a third of the width.
func TestAPriceFarOffKeepsTheBars(t *testing.T) {
	use(t, look.New(false))
	w, d := NewHistogram(), sampleCosts()
	d.Marks[0].At = 60000
	w.Set(d)
	figures := []float64{d.Bars[0].From, d.Bars[len(d.Bars)-1].To}
	v := over(0, 900, append(figures, w.inSight(figures)...)...)
	if got := v.at(figures[1]) - v.at(figures[0]); got < 300 {
		t.Errorf("the bars are %v wide of 900", got)
	}
	if got := v.at(60000); got > 900 {
		t.Errorf("the mark stands at %v", got)
	}
	if got := w.farOff(v); !strings.HasSuffix(got[0].Label, "outside the picture") || got[1].Label != d.Marks[1].Label {
		t.Errorf("the marks say %q and %q", got[0].Label, got[1].Label)
	}
}

// TestOneValue stands in the middle of its line.
func TestOneValue(t *testing.T) {
	if got := over(10, 100, 5, 5).at(5); got != 60 {
		t.Errorf("at %v", got)
	}
	if got := over(0, 100).at(7); got != 100 {
		t.Errorf("on an empty line at %v", got)
	}
}
