package price

import (
	"encoding/json"
	"fmt"
	"math/big"
	"os"
	"slices"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func told(t *testing.T, s *Sheet, id string) string {
	t.Helper()
	l, ok := s.line(id)
	if !ok {
		return "no line"
	}
	return s.Amount(l.Amount) + " = " + s.Explain(l.Parts).String()
}

// TestOverridesOfParts: what the user says of a line with overtime in it. By hand: 12 h of California Labor Code 510(a) at 30 are
// 8 x 30 and 4 x 45; a day of 10 h at 600 and 2 h beyond it are 600 and 2 x 90.
func TestOverridesOfParts(t *testing.T) {
	for _, c := range []struct {
		basis          plan.Basis
		quantity, rate string
		want           string
	}{
		{plan.ByHour, "", "", "420.00 = 8 h x 30.00 + 4 h x 45.00"},
		{plan.ByHour, "", "40", "560.00 = 8 h x 40.00 + 4 h x 60.00"},
		{plan.ByHour, "13", "", "465.00 = 8 h x 30.00 + 5 h x 45.00"},
		{plan.ByHour, "10", "", "330.00 = 8 h x 30.00 + 2 h x 45.00"},
		{plan.ByHour, "0", "", "0.00 = 0 h x 30.00"},
		{plan.ByHour, "12", "30", "360.00 = 12 h x 30.00"}, // agreed as it is
		{plan.ByDay, "", "", "780.00 = 1 day x 600.00 + 2 h x 90.00"},
		{plan.ByDay, "", "700", "910.00 = 1 day x 700.00 + 2 h x 105.00"},
		{plan.ByDay, "", "0", "0.00 = 1 day x 0.00 + 2 h x 0.00"},
		{plan.ByDay, "1", "", "600.00 = 1 day x 600.00"},
	} {
		p := small()
		card := &p.Pricing.Card
		if c.basis == plan.ByDay {
			card.Overtime = append(card.Overtime, byDay)
			card.Overtime[1].ID = "day"
			card.Crew[1] = plan.CrewRate{ID: "camera", Basis: plan.ByDay, Rate: dec("600"), Hours: 600, Overtime: "day", Travel: true}
		}
		o := plan.Override{Line: "crew/cam"}
		for _, f := range []struct {
			text string
			to   **decimal.Decimal
		}{{c.quantity, &o.Quantity}, {c.rate, &o.Rate}} {
			if f.text != "" {
				d := dec(f.text)
				*f.to = &d
			}
		}
		p.Pricing.Overrides = []plan.Override{o}
		s := Of(&p, []day.Day{dayOf(&p, october, 720, 60)})
		if got := told(t, &s, "crew/cam"); got != c.want {
			t.Errorf("%s, quantity %q, rate %q: %s, want %s", c.basis, c.quantity, c.rate, got, c.want)
		}
	}
}

// TestOverrideBeforeDays: what the user says of somebody's hours holds while no day is placed, at the rate of the card.
func TestOverrideBeforeDays(t *testing.T) {
	p := small()
	three := dec("3")
	p.Pricing.Overrides = []plan.Override{{Line: "crew/cam", Quantity: &three}, {Line: "crew/own", Quantity: &three}}
	s := Of(&p, nil)
	if a, b := told(t, &s, "crew/cam"), told(t, &s, "crew/own"); a != "90.00 = 3 h x 30.00" || b != "150.00 = 3 h x 50.00" {
		t.Errorf("%s; %s", a, b)
	}
	if s.OwnerTime != 180 {
		t.Errorf("the owner's time is %s", s.OwnerTime)
	}
}

// TestExplains: what is shown multiplies out to what is billed, where hours have no end either. 70 min at 62,000 a year of 880 h
// are 82.197; a day of 620 is for 9 h, so an hour and a half beyond it is 103.3333 each; 95 s are 1.5833 min. Arithmetic.
func TestExplains(t *testing.T) {
	s := Sheet{Places: 2}
	for _, c := range []struct {
		part Part
		want string
	}{
		{s.part(inHours(70), "h", exact{dec("62000"), 880}, one), "82.20 = 1 h 10 x 70.4545"},
		{s.part(inHours(5), "h", exact{dec("60"), 1}, one), "5.00 = 5 min x 60.00"},
		{s.part(inHours(90), "h", exact{dec("620"), 9}, dec("1.5")), "155.00 = 1.5 h x 103.3333"},
		{s.part(exact{dec("95"), 60}, "finished minute", exact{dec("40"), 1}, one), "63.33 = 1.5833 finished minutes x 40.00"},
		{s.part(whole(1), "day", exact{dec("0.005"), 1}, one), "0.01 = 1 day x 0.005"},
	} {
		if got := s.Amount(c.part.Amount) + " = " + s.Explain([]Part{c.part}).String(); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
}

// TestOwnerTimeIsExact: twenty minutes three times over are an hour, not three times 0.33 h. Arithmetic.
func TestOwnerTimeIsExact(t *testing.T) {
	p := small()
	p.Pricing.Card.Rates = nil
	for i := range 9 {
		p.Pricing.Card.Rates = append(p.Pricing.Card.Rates, plan.Rate{ID: plan.ID(fmt.Sprint("r", i)), Time: 20, Who: "owner"})
	}
	if s := Of(&p, nil); s.OwnerTime != 180 {
		t.Errorf("nine times 20 min are %s", s.OwnerTime)
	}
}

// TestHired: a week is for up to seven days in a row, and costs no more than its days. By hand, at 35 a day and 120 a week.
func TestHired(t *testing.T) {
	for _, c := range []struct {
		day, week string
		used      []int // days after the first
		want      string
	}{
		{"35", "120", []int{0, 1, 2}, "3 days x 35.00"},
		{"35", "120", []int{0, 1, 2, 3}, "1 week x 120.00"},
		{"35", "120", []int{0, 1, 2, 3, 4, 5, 6, 7}, "1 week x 120.00 + 1 day x 35.00"},
		{"35", "120", []int{0, 7, 14, 21}, "4 days x 35.00"},
		{"35", "120", []int{0, 10, 11, 12, 13}, "1 week x 120.00 + 1 day x 35.00"},
		{"35", "0", []int{0, 1, 2, 3, 4}, "5 days x 35.00"},
		{"0", "120", []int{0}, "1 week x 120.00"},
		{"0", "120", []int{0, 6, 7}, "2 weeks x 120.00"},
	} {
		var used []plan.Date
		for _, n := range c.used {
			used = append(used, october.AddDays(n))
		}
		s := Sheet{Places: 2}
		if got := s.Explain(s.hired(plan.KitRate{Day: dec(c.day), Week: dec(c.week)}, used)).String(); got != c.want {
			t.Errorf("%v at %s a day, %s a week: %s, want %s", c.used, c.day, c.week, got, c.want)
		}
	}
}

// TestDepreciation: straight line. The first two rows are a textbook's slides and a course sheet's, the third from memory (OpenStax
// Accounting 11.3); a single day of use a year costs the year's.
func TestDepreciation(t *testing.T) {
	for _, c := range []struct {
		cost, salvage string
		years         int
		want          string
	}{
		{"10000", "2000", 5, "1600"},
		{"17000", "1400", 4, "3900"},
		{"58000", "10000", 5, "9600"},
	} {
		p := small()
		p.Pricing.Card.Kit[0] = plan.KitRate{Name: "drone", Owned: true, Cost: dec(c.cost), Salvage: dec(c.salvage), Years: c.years, Days: 1}
		s := Of(&p, []day.Day{dayOf(&p, october, 600, 30)})
		if l, ok := s.line("kit/drone"); !ok || !l.Amount.Equal(dec(c.want)) {
			t.Errorf("%s less %s over %d years: %s, want %s", c.cost, c.salvage, c.years, l.Amount, c.want)
		}
	}
}

// TestHostileLines: 500 lines at hostile rates come to the sum of their products, each rounded half away from zero to the minor
// unit, as math/big has it; what is negative is refused before it is reckoned with.
func TestHostileLines(t *testing.T) {
	figures := append(decs("0 0.005 0.004999 0.0000001 1 19.99 33.333 1000000000000"), decimal.Decimal{})
	rapid.Check(t, func(t *rapid.T) {
		p := plan.New()
		p.Pricing.Card.Currency = rapid.SampledFrom([]string{"USD", "JPY", "KWD", "CLF"}).Draw(t, "currency")
		places := Places(p.Pricing.Card.Currency)
		unit := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
		want := new(big.Int) // in minor units
		for i := range 500 {
			l := plan.TypedLine{ID: plan.ID(fmt.Sprint("l", i)), Group: plan.Groups[i%len(plan.Groups)],
				Quantity: rapid.SampledFrom(figures).Draw(t, "quantity"), Rate: rapid.SampledFrom(figures).Draw(t, "rate")}
			p.Pricing.Lines = append(p.Pricing.Lines, l)
			product := new(big.Rat).Mul(l.Quantity.Rat(), l.Rate.Rat())
			product.Mul(product, new(big.Rat).SetInt(unit)).Add(product, big.NewRat(1, 2))
			want.Add(want, new(big.Int).Div(product.Num(), product.Denom()))
		}
		if problems := plan.Validate(p); slices.ContainsFunc(problems, func(q plan.Problem) bool { return q.Level == plan.Wrong }) {
			t.Fatal(problems)
		}
		s := Of(&p, nil)
		if got := s.Floor.Shift(places).BigInt(); got.Cmp(want) != 0 || !s.Floor.Equal(s.Direct) {
			t.Fatalf("floor %s of a minor unit, want %s", got, want)
		}
		p.Pricing.Lines[7].Rate = dec("-0.01")
		if problems := plan.Validate(p); !slices.ContainsFunc(problems, func(q plan.Problem) bool { return q.Path == "pricing.lines[7].rate" }) {
			t.Fatal("a negative rate is not refused")
		}
	})
}

// TestUnits: English, from memory; every measure of a rate card and some of what people type.
func TestUnits(t *testing.T) {
	for unit, want := range map[string]string{"job": "jobs", "shooting day": "shooting days", "scene": "scenes", "person on camera": "people on camera",
		"release": "releases", "meal": "meals", "person called": "people called", "kilometre": "kilometres", "flying day": "flying days",
		"deliverable": "deliverables", "finished minute": "finished minutes", "still": "stills", "exposure": "exposures",
		"round of changes": "rounds of changes", "memory card": "memory cards", "drive": "drives", "battery": "batteries", "half day": "half days",
		"h": "h", "km": "km", "min": "min", "box": "boxes", "hours": "hours", "": "", "é": "é"} {
		if got := Units(unit, dec("2")).String(); got != want {
			t.Errorf("2 %s, want %s", got, want)
		}
		if got := Units(unit, dec("1")).String(); got != unit {
			t.Errorf("1 %s, want %s", got, unit)
		}
	}
	for _, m := range plan.Measures {
		if Units(string(m), dec("2")).String() == string(m) {
			t.Errorf("%s has no plural", m)
		}
		if measured(m, 2).IsZero() {
			t.Errorf("%s has no words of its own in other languages", m)
		}
	}
}

// TestTypedUnitsInSpanish: nobody knows the plural of what a user has typed in another language, and the English one is none.
func TestTypedUnitsInSpanish(t *testing.T) {
	data, err := os.ReadFile("../../assets/tongues/es/price.json")
	if err != nil {
		t.Fatal(err)
	}
	words := map[string]any{}
	if err := json.Unmarshal(data, &words); err != nil {
		t.Fatal(err)
	}
	spanish := func(form string, n int) string {
		if s, ok := words[form].(string); ok {
			return s
		}
		if n == 1 {
			return words[form].(map[string]any)["one"].(string)
		}
		return words[form].(map[string]any)["other"].(string)
	}
	for unit, want := range map[string]string{"jornal": "jornal", "persona": "persona", "box": "box", "": "", "still": "fotos"} {
		if got := Units(unit, dec("2")).In(spanish); got != want {
			t.Errorf("2 %q, want %q, of %q", got, want, unit)
		}
	}
}
