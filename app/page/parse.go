package page

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/light"

	"github.com/shopspring/decimal"
)

// Each parse function reads what a person types into a field; an error says in words what to type instead. What a value
// may be, plan.Validate decides.

// thousands are figures whose commas may divide thousands or be a decimal mark.
var thousands = regexp.MustCompile(`^-?\d{1,3}(,\d{3})+$`)

// moneyForm is an amount as this program reads it: commas divide thousands, a point stands before the decimals.
var moneyForm = regexp.MustCompile(`^(\d+|\d{1,3}(,\d{3})+)(\.\d{1,6})?$`)

func parseNumber(text string) (float64, error) {
	if thousands.MatchString(strings.TrimSpace(text)) {
		return 0, fmt.Errorf("%q can be read two ways; type it without the comma, or with a point before the decimals", text)
	}
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, fmt.Errorf("%q is not a number", text)
	}
	return v, nil
}

// numberOrNone reads a figure; an empty field is 0, which stands for none.
func numberOrNone(text string) (float64, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	return parseNumber(text)
}

// printOrNone leaves a field empty for 0.
func printOrNone(v float64) string {
	if v == 0 {
		return ""
	}
	return printNumber(v)
}

func printNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// parseWhole reads a whole number of something; an empty field is none.
func parseWhole(text string) (int, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, nil
	}
	v, err := strconv.Atoi(text)
	if err != nil {
		return 0, fmt.Errorf("%q is not a whole number", text)
	}
	return v, nil
}

// printWhole leaves a field empty for none.
func printWhole(v int) string {
	if v == 0 {
		return ""
	}
	return strconv.Itoa(v)
}

// reading is a direction as somebody reads it: from true north, or off a compass.
type reading struct {
	bearing plan.Bearing
	compass bool
}

// at is the true bearing of a reading at a property, whose declination a compass needs.
func (r reading) at(p *plan.Plan) plan.Bearing {
	if r.compass {
		return light.CompassBearing(r.bearing, p.Property.Declination)
	}
	return r.bearing
}

// parseBearing reads degrees or a point of the compass rose from true north, "248", "248°", "WSW", or with an m the
// reading of a magnetic compass: "235m".
func parseBearing(text string) (reading, error) {
	t := strings.TrimSpace(text)
	for i := range 16 {
		if b := plan.Bearing(float64(i) * 22.5); strings.EqualFold(t, b.Compass()) {
			return reading{bearing: b}, nil
		}
	}
	t, compass := strings.CutSuffix(strings.ToLower(t), "m")
	v, err := parseNumber(strings.TrimSuffix(strings.TrimSpace(t), "°"))
	if err != nil || v < 0 || v > 360 {
		return reading{}, fmt.Errorf("%q is not a bearing; type degrees from true north, 0 to 360, a point such as WSW, or a compass reading such as 235m", text)
	}
	return reading{plan.Bearing(v), compass}, nil
}

func printBearing(b plan.Bearing) string { return printNumber(float64(b)) }

func parseClock(text string) (plan.Clock, error) {
	if strings.TrimSpace(text) == "" {
		return plan.NoClock, nil
	}
	return plan.ParseClock(text)
}

// parseDate reads a date as the file has it, or as people write it with the month in letters: "6 Mar 2027". Figures
// alone in another order are refused, since 6/3 is two different days.
func parseDate(text string) (plan.Date, error) {
	t := strings.TrimSpace(text)
	if t == "" {
		return plan.Date{}, nil
	}
	for _, form := range []string{"2 Jan 2006", "2 January 2006", "Jan 2 2006", "January 2 2006", "Jan 2, 2006", "January 2, 2006", "Mon 2 Jan 2006"} {
		if at, err := time.Parse(form, t); err == nil {
			return plan.DateOf(at), nil
		}
	}
	return plan.ParseDate(t)
}

// parseMoney reads "18500", "18,500.00 USD" or "EUR 900".
func parseMoney(text string) (plan.Money, error) {
	t := strings.TrimSpace(text)
	if t == "" {
		return plan.Money{}, nil
	}
	var m plan.Money
	figures := ""
	for _, word := range strings.Fields(t) {
		if len(word) == 3 && strings.ToUpper(word) != strings.ToLower(word) {
			m.Currency = strings.ToUpper(word)
			continue
		}
		figures += word
	}
	bad := fmt.Errorf("%q is not an amount; type it as in 18500.00 USD", text)
	if !moneyForm.MatchString(figures) {
		return plan.Money{}, bad
	}
	amount, err := decimal.NewFromString(strings.ReplaceAll(figures, ",", ""))
	if err != nil || m.Currency == "" {
		return plan.Money{}, bad
	}
	m.Amount = amount
	return m, nil
}

func printMoney(m plan.Money) string {
	if m.IsZero() {
		return ""
	}
	return m.Amount.String() + " " + m.Currency
}

// parseDecimal reads an amount or a figure without a currency: "1250", "1,250.00"; an empty field is 0.
func parseDecimal(text string) (decimal.Decimal, error) {
	t := strings.ReplaceAll(strings.TrimSpace(text), " ", "")
	if t == "" {
		return decimal.Zero, nil
	}
	if !moneyForm.MatchString(t) {
		return decimal.Zero, fmt.Errorf("%q is not a figure; type it as in 1250.50", text)
	}
	return decimal.NewFromString(strings.ReplaceAll(t, ",", ""))
}

// printDecimal leaves a field empty for 0.
func printDecimal(d decimal.Decimal) string {
	if d.IsZero() {
		return ""
	}
	return d.String()
}

// timeForm is a length of time as people write it: hours, hours with minutes, or minutes.
var timeForm = regexp.MustCompile(`^(?:(\d{1,4}(?:\.\d{1,4})?)(?:h|hours?)?|(\d{1,4})(?:h|:)(\d{1,2})(?:m|min)?|(\d{1,6})(?:m|min|minutes?))$`)

// parseTime reads a length of time: "8", "8 h", "7.5", "8 h 30", "8:30", "20 min"; an empty field is none.
func parseTime(text string) (plan.Minutes, error) {
	t := strings.ReplaceAll(lower(strings.TrimSpace(text)), " ", "")
	if t == "" {
		return 0, nil
	}
	m := timeForm.FindStringSubmatch(t)
	if m == nil {
		return 0, fmt.Errorf("%q is not a time; type it as in 8 h, 8 h 30 or 20 min", text)
	}
	hours, _ := strconv.ParseFloat(m[1]+m[2], 64) // figures, by the form, and of both one is empty
	minutes, _ := strconv.Atoi(m[3] + m[4])
	return plan.Minutes(math.Round(hours*60)) + plan.Minutes(minutes), nil
}

// printTime leaves a field empty for none.
func printTime(m plan.Minutes) string {
	if m == 0 {
		return ""
	}
	return m.String()
}

// splitList reads words separated by commas.
func splitList(text string) []string {
	var out []string
	for _, word := range strings.Split(text, ",") {
		if word = strings.TrimSpace(word); word != "" {
			out = append(out, word)
		}
	}
	return out
}

func joinWords(list []string) string { return strings.Join(list, ", ") }

// splitLines reads one thing a line.
func splitLines(text string) []string {
	var out []string
	for _, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			out = append(out, line)
		}
	}
	return out
}

func lower(s string) string { return strings.ToLower(s) }
