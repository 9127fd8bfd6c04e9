package page

import (
	"testing"

	"eavelight/plan"
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

func FuzzParse(f *testing.F) {
	for _, s := range []string{"248°", "2027-03-06", "18,500.00 USD", "7pm", "1e999999999 USD", "٣", "", "6 Mar 2027"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		parseBearing(s)
		if w, err := parseWeather(s, plan.Date{}); err == nil {
			if again, err := parseWeather(printWeather(w), plan.Date{}); err != nil || printWeather(again) != printWeather(w) {
				t.Errorf("%q is %v, which reads back as %v, %v", s, w, again, err)
			}
		}
		parseClock(s)
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
	})
}
