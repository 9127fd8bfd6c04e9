package page

import (
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/app/tongue"
	"eavelight/plan"

	"github.com/shopspring/decimal"
)

// speak has the window speak a language, with the 12-hour clock or the other, until the test is over.
func speak(t testing.TB, code string, clock12 bool) {
	t.Helper()
	if err := tongue.Use(code); err != nil {
		t.Fatal(err)
	}
	tongue.UseClock12(clock12)
	t.Cleanup(func() {
		tongue.UseClock12(false)
		tongue.Use("en")
	})
}

// everyway runs a test in every language, with both clocks.
func everyway(t *testing.T, test func(t *testing.T)) {
	for _, l := range tongue.Languages {
		for clock, on := range map[string]bool{"24 h": false, "12 h": true} {
			t.Run(l.Code+" "+clock, func(t *testing.T) {
				speak(t, l.Code, on)
				test(t)
			})
		}
	}
}

// TestEntriesReadBackWhatTheyShow: whatever the language and the clock, an entry understands what it shows itself.
func TestEntriesReadBackWhatTheyShow(t *testing.T) {
	everyway(t, func(t *testing.T) {
		for _, v := range []float64{0, 4.5, -0.833, 1234, 1234.5, 0.125, 12.345, 1e6, 247.5} {
			if got, err := parseNumber(printNumber(v)); err != nil || got != v {
				t.Errorf("%v is shown as %q and read as %v, %v", v, printNumber(v), got, err)
			}
		}
		for _, v := range []string{"0", "1250.5", "18500", "0.005", "1234.567", "1000000.25"} {
			want := decimal.RequireFromString(v)
			if got, err := parseDecimal(printDecimal(want)); err != nil || !got.Equal(want) {
				t.Errorf("%s is shown as %q and read as %v, %v", v, printDecimal(want), got, err)
			}
			m := plan.Money{Amount: want, Currency: "EUR"}
			if got, err := parseMoney(printMoney(m)); err != nil || !got.Amount.Equal(want) {
				t.Errorf("%s is shown as %q and read as %v, %v", v, printMoney(m), got, err)
			}
		}
		for m := 0; m <= plan.LastClock; m++ {
			c := plan.ClockAt(m)
			if got, err := parseClock(printClock(c)); err != nil || got != c {
				t.Fatalf("%v is shown as %q and read as %v, %v", c, printClock(c), got, err)
			}
		}
		for m := range plan.Minutes(1500) {
			if got, err := parseTime(printTime(m)); err != nil || got != m {
				t.Fatalf("%v is shown as %q and read as %v, %v", m, printTime(m), got, err)
			}
		}
		date := plan.Date{Year: 2027, Month: 10, Day: 16}
		weather := []plan.Weather{{Date: date, From: plan.ClockAt(6 * 60), To: plan.ClockAt(13 * 60), Cloud: 70, Rain: 20},
			{From: plan.ClockAt(0), To: plan.ClockAt(24 * 60), Cloud: 40}, {Rain: 5}}
		if got, err := parseWeather(printWeather(weather), plan.Date{}); err != nil || !slices.Equal(got, weather) {
			t.Errorf("%v is shown as %q and read as %v, %v", weather, printWeather(weather), got, err)
		}
		kit := []plan.Kit{{Name: "Grúa", Availability: []plan.Availability{{Date: date, From: plan.ClockAt(9 * 60), To: plan.ClockAt(17 * 60)},
			{From: plan.ClockAt(12*60 + 5)}, {To: plan.ClockAt(30)}, {}}}, {Name: "Drone"}}
		if got, err := parseKit(printKit(kit)); err != nil || len(got) != 2 || !slices.Equal(got[0].Availability, kit[0].Availability) || got[1].Availability != nil {
			t.Errorf("%v is shown as %q and read as %v, %v", kit, printKit(kit), got, err)
		}
		steps := []plan.OvertimeStep{{After: 510, Times: decimal.RequireFromString("1.5")}, {After: 0, Times: decimal.RequireFromString("2")},
			{After: 45, Times: decimal.RequireFromString("1.25")}}
		got, err := parseSteps(printSteps(steps))
		if err != nil || !slices.EqualFunc(got, steps, func(a, b plan.OvertimeStep) bool { return a.After == b.After && a.Times.Equal(b.Times) }) {
			t.Errorf("%v is shown as %q and read as %v, %v", steps, printSteps(steps), got, err)
		}
	})
}

// TestEntriesUnderstandTheirHints: what a hint or a complaint shows as an example can be typed.
func TestEntriesUnderstandTheirHints(t *testing.T) {
	everyway(t, func(t *testing.T) {
		_, weather, _ := strings.Cut(tongue.Say("type or paste, a line each:\n%s-%s cloud 70 rain 20", clockHint(6, 0), clockHint(11, 0)), "\n")
		want := plan.Weather{From: plan.ClockAt(6 * 60), To: plan.ClockAt(11 * 60), Cloud: 70, Rain: 20}
		if got, err := parseWeather(weather, plan.Date{}); err != nil || len(got) != 1 || got[0] != want {
			t.Errorf("%q is %v, %v", weather, got, err)
		}
		_, kit, _ := strings.Cut(tongue.Say("a line each:\nCrane: 2027-10-16 %s-%s", clockHint(9, 0), clockHint(17, 0)), "\n")
		if got, err := parseKit(kit); err != nil || len(got) != 1 || got[0].Availability[0].To != plan.ClockAt(17*60) {
			t.Errorf("%q is %v, %v", kit, got, err)
		}
		for _, word := range strings.Split(tongue.Say("248, WSW, 235m"), ", ") {
			if _, err := parseBearing(word); err != nil {
				t.Error(err)
			}
		}
		if got, err := parseMoney(tongue.Say("18500 USD")); err != nil || got.IsZero() {
			t.Errorf("%v, %v", got, err)
		}
		for _, c := range []struct {
			read func(string) error
			last int // words of the complaint that are its example
		}{
			{func(s string) error { _, err := parseMoney(s); return err }, 2},
			{func(s string) error { _, err := parseDecimal(s); return err }, 1},
			{func(s string) error { _, err := parseSteps(s); return err }, 5},
		} {
			words := strings.Fields(tongue.Error(c.read("?")))
			if err := c.read(strings.Join(words[len(words)-c.last:], " ")); err != nil {
				t.Errorf("%q gives an example that is not understood: %v", words, err)
			}
		}
	})
}

// TestParseWithDecimalComma: figures as Spanish writes them.
func TestParseWithDecimalComma(t *testing.T) {
	speak(t, "es", false)
	for in, want := range map[string]float64{"1250,50": 1250.5, "4,5": 4.5, "-0,833": -0.833, "4.5": 4.5, "39.2345": 39.2345, "14": 14} {
		if got, err := parseNumber(in); err != nil || got != want {
			t.Errorf("%q is %v, %v; want %v", in, got, err, want)
		}
	}
	for in, want := range map[string]string{"1.250": "can be read two ways", "1,2,3": "is not a number", "doce": "is not a number"} {
		if got, err := parseNumber(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is %v, %v; want %s", in, got, err, want)
		}
	}
	for in, want := range map[string]string{"18.500,00 EUR": "18500 EUR", "18500,5 eur": "18500,5 EUR", "EUR 900": "900 EUR", "": ""} {
		if got, err := parseMoney(in); err != nil || printMoney(got) != want {
			t.Errorf("%q is %q, %v; want %q", in, printMoney(got), err, want)
		}
	}
	for _, in := range []string{"18,500.00 EUR", "18500.50 EUR", "1,2,3 EUR", "18500"} {
		if got, err := parseMoney(in); err == nil {
			t.Errorf("%q is %v; want an error", in, got)
		}
	}
	for in, want := range map[string]string{"1250,50": "1250.5", " 1.250,5 ": "1250.5", "1.250": "1250", "1 250": "1250", "0,005": "0.005"} {
		if got, err := parseDecimal(in); err != nil || got.String() != want {
			t.Errorf("%q is %s, %v; want %s", in, got, err, want)
		}
	}
	for in, want := range map[string]plan.Minutes{"7,5": 450, "7,5 h": 450, "8 h 30": 510, "8 horas": 480, "20 minutos": 20, "8:30": 510} {
		if got, err := parseTime(in); err != nil || got != want {
			t.Errorf("%q is %v, %v; want %v", in, got, err, want)
		}
	}
	if got, err := parseBearing("248,5°"); err != nil || got.bearing != 248.5 {
		t.Errorf("%v, %v", got, err)
	}
	for in, want := range map[string]plan.OvertimeStep{
		"tras 8 h 1,5 veces":    {After: 480, Times: decimal.RequireFromString("1.5")},
		"after 8 h 1,5 times":   {After: 480, Times: decimal.RequireFromString("1.5")},
		"Tras 7,5 h, 2":         {After: 450, Times: decimal.RequireFromString("2")},
		"tras 45 min: 1,25x":    {After: 45, Times: decimal.RequireFromString("1.25")},
		"tras 8 h 30 x1,5":      {After: 510, Times: decimal.RequireFromString("1.5")},
		"tras 12 h, x 2 veces ": {After: 720, Times: decimal.RequireFromString("2")},
	} {
		if got, err := parseSteps(in); err != nil || len(got) != 1 || got[0].After != want.After || !got[0].Times.Equal(want.Times) {
			t.Errorf("%q is %v, %v; want %v", in, got, err, want)
		}
	}
}

// TestParseWordsOfEveryTongue: months, weather and kit are understood in each language while the window speaks another.
func TestParseWordsOfEveryTongue(t *testing.T) {
	everyway(t, func(t *testing.T) {
		march := plan.Date{Year: 2027, Month: time.March, Day: 6}
		for _, in := range []string{"6 Mar 2027", "March 6, 2027", "Sat 6 Mar 2027", "6 de marzo de 2027", "6 marzo 2027", "sáb, 6 mar 2027",
			"Sábado, 6 de Marzo del 2027", "6 mar. 2027", "2027-03-06"} {
			if got, err := parseDate(in); err != nil || got != march {
				t.Errorf("%q is %v, %v", in, got, err)
			}
		}
		for in, want := range map[string]time.Month{"1 ene 2027": time.January, "1 abr 2027": time.April, "1 ago 2027": time.August,
			"1 sep 2027": time.September, "1 sept 2027": time.September, "1 dic 2027": time.December, "1 Dec 2027": time.December} {
			if got, err := parseDate(in); err != nil || got.Month != want {
				t.Errorf("%q is %v, %v", in, got, err)
			}
		}
		for _, in := range []string{"31 de abril de 2027", "6 de 3 de 2027", "de de de", "mar 6", "mar mar 2027", "6 març 2027"} {
			if got, err := parseDate(in); err == nil {
				t.Errorf("%q is %v; want an error", in, got)
			}
		}
		for _, in := range []string{"every day 6-11 cloud 70 rain 20", "cada día 6-11 nubes 70 lluvia 20", "cada dia 6:00 am-11:00 am 70 % nubes, lluvia 20",
			"Cada día 6:00 a. m.-11:00 a. m. Nubes 70, Lluvia 20"} {
			want := plan.Weather{From: plan.ClockAt(6 * 60), To: plan.ClockAt(11 * 60), Cloud: 70, Rain: 20}
			if got, err := parseWeather(in, march); err != nil || len(got) != 1 || got[0] != want {
				t.Errorf("%q is %v, %v", in, got, err)
			}
		}
		for in, want := range map[string][]plan.Availability{"Grúa: a cualquier hora": nil, "Grúa: any time": nil, "Grúa: cada día": {{}},
			"Grúa: 9:00 am-5:00 pm": {{From: plan.ClockAt(9 * 60), To: plan.ClockAt(17 * 60)}}} {
			if got, err := parseKit(in); err != nil || len(got) != 1 || !slices.Equal(got[0].Availability, want) {
				t.Errorf("%q is %v, %v", in, got, err)
			}
		}
		for in, want := range map[string]plan.Bearing{"OSO": 247.5, "wsw": 247.5, "no": 315, "O": 270, "E": 90} {
			if got, err := parseBearing(in); err != nil || got.bearing != want {
				t.Errorf("%q is %v, %v", in, got, err)
			}
		}
		for in, want := range map[string]int{"6:05 p. m.": 18*60 + 5, "6:05 p.m.": 18*60 + 5, "12:30 a.m.": 30, "6:05\u00a0pm": 18*60 + 5, "18:05": 18*60 + 5, "18.05": 18*60 + 5} {
			if got, err := parseClock(in); err != nil || got.Minutes() != want {
				t.Errorf("%q is %v, %v", in, got, err)
			}
		}
	})
}

// TestValuesAreShownInTheTongue: a drop-down shows a value of the plan in the reader's words and keeps the plan's.
func TestValuesAreShownInTheTongue(t *testing.T) {
	speak(t, "es", false)
	got := words(plan.Importances)(nil)[0]
	if got.value != "must" || got.name != "imprescindible" {
		t.Errorf("%v", got)
	}
	if got := said(plan.ShotFrames); got[3] != "primer plano" {
		t.Errorf("%v", got)
	}
}
