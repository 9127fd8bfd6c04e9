package page

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"

	"github.com/shopspring/decimal"
)

func TestParseBearing(t *testing.T) {
	p := plan.New()
	p.Property.Declination = 13
	for in, want := range map[string]plan.Bearing{
		"248": 248, " 248.5° ": 248.5, "wsw": 247.5, "N": 0, "360": 360, "12,5": 12.5, "235m": 248, "355 M": 8, "235°m": 248,
	} {
		if got, err := parseBearing(in); err != nil || got.at(&p) != want {
			t.Errorf("%q is %v, %v; want %v", in, got.at(&p), err, want)
		}
	}
	for _, in := range []string{"", "-1", "361", "west", "NaN", "1e400", "Inf", "m"} {
		if got, err := parseBearing(in); err == nil {
			t.Errorf("%q is %v; want an error", in, got)
		}
	}
}

func TestParseWeather(t *testing.T) {
	day := plan.Date{Year: 2027, Month: 10, Day: 16}
	next := day.AddDays(1)
	at := func(h int) plan.Clock { return plan.ClockAt(60 * h) }
	for in, want := range map[string]plan.Weather{
		"06:00-11:00 70% cloud, 20% rain":  {Date: day, From: at(6), To: at(11), Cloud: 70, Rain: 20},
		"2027-10-17 6-11 cloud 70 rain 20": {Date: next, From: at(6), To: at(11), Cloud: 70, Rain: 20},
		"cloud 40":                         {Date: day, Cloud: 40},
		"40 %":                             {Date: day, Cloud: 40},
		"1pm–7pm: rain 80":                 {},
		"every day 6-11 cloud 70":          {From: at(6), To: at(11), Cloud: 70},
		"13:00–19:00 rain 80":              {Date: day, From: at(13), To: at(19), Rain: 80},
	} {
		got, err := parseWeather(in+"\n\n", day)
		if want == (plan.Weather{}) {
			if err == nil {
				t.Errorf("%q is %v; want an error", in, got)
			}
			continue
		}
		if err != nil || len(got) != 1 || got[0] != want {
			t.Errorf("%q is %v, %v; want %v", in, got, err, want)
		}
	}
	for _, in := range []string{"sunny", "06-11", "cloud", "06:00-11:00 70 80", "2027-02-30 cloud 3", "cloud 40 rain"} {
		if got, err := parseWeather(in, day); err == nil {
			t.Errorf("%q is %v; want an error", in, got)
		}
	}
}

func TestParseDate(t *testing.T) {
	want := plan.Date{Year: 2027, Month: 3, Day: 6}
	for _, in := range []string{"2027-03-06", "6 Mar 2027", "March 6, 2027", "6 march 2027", "Sat 6 Mar 2027"} {
		if got, err := parseDate(in); err != nil || got != want {
			t.Errorf("%q is %v, %v; want %v", in, got, err, want)
		}
	}
	for _, in := range []string{"6/3/2027", "30 Feb 2027", "tomorrow", "2027-3-6"} {
		if got, err := parseDate(in); err == nil {
			t.Errorf("%q is %v; want an error", in, got)
		}
	}
}

func TestParseMoney(t *testing.T) {
	for in, want := range map[string]string{"18500 USD": "18500 USD", "18,500.50 usd": "18500.5 USD", "EUR 900": "900 EUR", "": ""} {
		got, err := parseMoney(in)
		if err != nil || printMoney(got) != want {
			t.Errorf("%q is %q, %v; want %q", in, printMoney(got), err, want)
		}
	}
	for _, in := range []string{"18500", "USD", "a lot", "1.2.3 USD", "18.500,00 EUR", "18500,50 EUR", "1e9 USD"} {
		if got, err := parseMoney(in); err == nil {
			t.Errorf("%q is %v; want an error", in, got)
		}
	}
}

var cast = []plan.Person{{ID: "nina", Name: "Nina Vale"}, {ID: "noor", Name: "Noor Vale"}, {ID: "kid-1", Name: "Kit"},
	{ID: "kid-2", Name: "kit"}, {ID: "x", Name: "Dr: X"}, {ID: "blank"}}

func TestParseLooks(t *testing.T) {
	for in, want := range map[string]plan.Look{
		"Nina: linen dress":         {Person: "nina", Look: "linen dress"},
		" nina vale :  hat: straw ": {Person: "nina", Look: "hat: straw"},
		"noor: suit":                {Person: "noor", Look: "suit"},
		"NO: suit":                  {Person: "noor", Look: "suit"},
		"kid-2: cape":               {Person: "kid-2", Look: "cape"},
		"blank: coat":               {Person: "blank", Look: "coat"},
		"x: coat":                   {Person: "x", Look: "coat"},
	} {
		got, err := parseLooks("\n"+in+"\n\n", cast)
		if err != nil || len(got) != 1 || got[0] != want {
			t.Errorf("%q is %v, %v; want %v", in, got, err, want)
			continue
		}
		if again, err := parseLooks(printLooks(got, cast), cast); err != nil || !slices.Equal(again, got) {
			t.Errorf("%v reads back as %v, %v", got, again, err)
		}
	}
	for in, want := range map[string]string{
		"Nina":              "line 1: write who, a colon",
		"Nina: ":            "line 1: write who, a colon",
		": dress":           "line 1: nobody in this scene is called \"\"; it has Nina Vale, Noor Vale, kid-1, kid-2, x, blank",
		"Nina: a\nTom: b":   "line 2: nobody in this scene is called \"Tom\"",
		"n: dress":          "line 1: \"n\" may be more than one person",
		"kit: dress":        "line 1: \"kit\" may be more than one person in this scene; write one of Nina Vale",
		"linen dress, Nina": "line 1: write who, a colon",
	} {
		if got, err := parseLooks(in, cast); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q is %v, %v; want an error %q", in, got, err, want)
		}
	}
	if _, err := parseLooks("Nina: dress", nil); err == nil || !strings.Contains(err.Error(), "tick its people first") {
		t.Errorf("in a scene with nobody: %v", err)
	}
}

func TestParseKit(t *testing.T) {
	day := plan.Date{Year: 2027, Month: 10, Day: 16}
	at := func(h int) plan.Clock { return plan.ClockAt(60 * h) }
	for in, want := range map[string][]plan.Availability{
		"Crane: 2027-10-16 09:00-17:00":  {{Date: day, From: at(9), To: at(17)}},
		" crane :2027-10-16, 9am–5pm":    {{Date: day, From: at(9), To: at(17)}},
		"Crane: 9-17 2027-10-16":         {{Date: day, From: at(9), To: at(17)}},
		"Crane: 2027-10-16":              {{Date: day}},
		"Crane: 09:00-":                  {{From: at(9)}},
		"Crane: -17":                     {{To: at(17)}},
		"Crane":                          nil,
		"Crane:":                         nil,
		"Crane: any time":                nil,
		"Crane: every day":               {{}},
		"Crane: 9-12\nCRANE: 2027-10-16": {{From: at(9), To: at(12)}, {Date: day}},
	} {
		got, err := parseKit(in + "\n\n")
		if err != nil || len(got) != 1 || !got[0].Is("crane") || !slices.Equal(got[0].Availability, want) {
			t.Errorf("%q is %v, %v; want %v", in, got, err, want)
		}
		if again, err := parseKit(printKit(got)); err != nil || !reflect.DeepEqual(again, got) {
			t.Errorf("%q prints %q, which reads back as %v, %v", in, printKit(got), again, err)
		}
	}
	if got, err := parseKit("Drone: 9-12\nCrane\ndrone: 14-16"); err != nil || len(got) != 2 || len(got[0].Availability) != 2 {
		t.Errorf("two kinds of kit are %v, %v", got, err)
	}
	for _, in := range []string{": 9-12", "Crane: 9", "Crane: -", "Crane: 9-12 14-16", "Crane: 2027-02-30", "Crane: 2027-10-16 2027-10-17",
		"Crane: mornings", "Crane: 9-twelve", "Crane: 9-40"} {
		if got, err := parseKit(in); err == nil {
			t.Errorf("%q is %v; want an error", in, got)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"248°", "2027-03-06", "18,500.00 USD", "7pm", "1e999999999 USD", "٣", "", "6 Mar 2027",
		"Nina: hat\nno: coat", "Crane: 2027-10-16 9-17\nDrone\ncrane: -12:30"} {
		f.Add(s)
	}
	f.Fuzz(readsBack)
}

// FuzzParseComma is FuzzParse in a language with a decimal comma and the 12-hour clock.
func FuzzParseComma(f *testing.F) {
	speak(f, "es", true)
	for _, s := range []string{"1.250,50", "18.500,00 EUR", "6 de marzo de 2027", "6:05 p. m.", "cada día 6:00 am-11:00 am nubes 70 lluvia 20",
		"Grúa: a cualquier hora\nDron: 2027-10-16 9:00 am-5:00 pm\nGrúa: cada día"} {
		f.Add(s)
	}
	f.Fuzz(readsBack)
}

// readsBack holds what is understood to being shown so that it is understood again.
func readsBack(t *testing.T, s string) {
	parseBearing(s)
	if w, err := parseWeather(s, plan.Date{}); err == nil {
		if again, err := parseWeather(printWeather(w), plan.Date{}); err != nil || printWeather(again) != printWeather(w) {
			t.Errorf("%q is %v, which reads back as %v, %v", s, w, again, err)
		}
	}
	if k, err := parseKit(s); err == nil {
		if again, err := parseKit(printKit(k)); err != nil || !reflect.DeepEqual(again, k) {
			t.Errorf("%q is %v, which reads back as %v, %v", s, k, again, err)
		}
	}
	if l, err := parseLooks(s, cast); err == nil {
		if again, err := parseLooks(printLooks(l, cast), cast); err != nil || !slices.Equal(again, l) {
			t.Errorf("%q is %v, which reads back as %v, %v", s, l, again, err)
		}
	}
	if c, err := parseClock(s); err == nil {
		if again, err := parseClock(printClock(c)); err != nil || again != c {
			t.Errorf("%q is %v, which reads back as %v, %v", s, c, again, err)
		}
	}
	if v, err := parseNumber(s); err == nil {
		if again, err := parseNumber(printNumber(v)); err != nil || again != v {
			t.Errorf("%q is %v, shown as %q, which reads back as %v, %v", s, v, printNumber(v), again, err)
		}
	}
	parseWhole(s)
	if d, err := parseDate(s); err == nil && !d.IsZero() {
		if again, err := parseDate(d.String()); err != nil || again != d {
			t.Errorf("%q is %v, which reads back as %v, %v", s, d, again, err)
		}
	}
	if m, err := parseMoney(s); err == nil {
		p := plan.New()
		p.Brief.Budget = m
		if len(plan.Validate(p)) == 0 {
			if again, err := parseMoney(printMoney(m)); err != nil || !again.Amount.Equal(m.Amount) {
				t.Errorf("%q is %q, which reads back as %v, %v", s, printMoney(m), again, err)
			}
		}
	}
}

func TestParseDecimal(t *testing.T) {
	for in, want := range map[string]string{"1250": "1250", " 1,250.50 ": "1250.5", "0": "0", "": "0", "0.005": "0.005", "1 250": "1250"} {
		if got, err := parseDecimal(in); err != nil || got.String() != want {
			t.Errorf("%q is %s, %v; want %s", in, got, err, want)
		}
	}
	for _, in := range []string{"-5", "1e12", "12,50", "1.2.3", "five", "1.0000000001", "0x10"} {
		if got, err := parseDecimal(in); err == nil {
			t.Errorf("%q is %s; want an error", in, got)
		}
	}
}

func TestParseTime(t *testing.T) {
	for in, want := range map[string]plan.Minutes{
		"8": 480, "8 h": 480, "7.5": 450, "8 h 30": 510, "8:30": 510, "8h 5min": 485, "20 min": 20, "90m": 90, "": 0, "1 hour": 60, "0 min": 0,
	} {
		if got, err := parseTime(in); err != nil || got != want {
			t.Errorf("%q is %v, %v; want %v", in, got, err, want)
		}
	}
	for _, in := range []string{"soon", "8 h h", "-1", "8:", ":30", "8,5", "h"} {
		if got, err := parseTime(in); err == nil {
			t.Errorf("%q is %v; want an error", in, got)
		}
	}
	for m := range plan.Minutes(1500) { // what is shown is read back
		if got, err := parseTime(printTime(m)); err != nil || got != m {
			t.Fatalf("%v is shown as %q and read as %v, %v", m, printTime(m), got, err)
		}
	}
}

func TestParseSteps(t *testing.T) {
	step := func(after plan.Minutes, times string) plan.OvertimeStep {
		return plan.OvertimeStep{After: after, Times: decimal.RequireFromString(times)}
	}
	for in, want := range map[string][]plan.OvertimeStep{
		"after 8 h 1.5 times\nafter 12 h 2 times": {step(480, "1.5"), step(720, "2")},
		"8 1.5":                 {step(480, "1.5")},
		"8 h 30 2 times":        {step(510, "2")},
		"After 8:30: x1.5":      {step(510, "1.5")},
		"after 0 min 1.5 times": {step(0, "1.5")},
		"after 45 min, 1.25x":   {step(45, "1.25")},
		"\n \n":                 nil,
	} {
		got, err := parseSteps(in)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%q is %v, %v; want %v", in, got, err, want)
		}
		if again, err := parseSteps(printSteps(got)); err != nil || !reflect.DeepEqual(again, got) {
			t.Errorf("%v is shown as %q and read as %v, %v", got, printSteps(got), again, err)
		}
	}
	for in, want := range map[string]string{"after 8 h": "line 1: ", "after 8 h 1.5 times\nlater twice": `line 2: "later twice" is not understood`,
		"after dark 2 times": `line 1: "dark" is not a time`} {
		if got, err := parseSteps(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is %v, %v; want %s", in, got, err, want)
		}
	}
}

func FuzzParseSteps(f *testing.F) {
	f.Add("after 8 h 1.5 times\nafter 12 h 2 times")
	f.Fuzz(stepsReadBack)
}

func FuzzParseStepsComma(f *testing.F) {
	speak(f, "es", false)
	f.Add("tras 8 h 1,5 veces\nafter 7,5 h 2")
	f.Fuzz(stepsReadBack)
}

func stepsReadBack(t *testing.T, text string) {
	steps, err := parseSteps(text)
	if err != nil {
		return
	}
	if again, err := parseSteps(printSteps(steps)); err != nil || len(again) != len(steps) {
		t.Errorf("%q is %v, shown as %q and read as %v, %v", text, steps, printSteps(steps), again, err)
	}
}
