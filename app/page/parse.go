package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"eavelight/plan"

	"github.com/shopspring/decimal"
)

// Each parse function reads what a person types into a field; an error says in words what to type instead. What a value
// may be, plan.Validate decides.

func parseNumber(text string) (float64, error) {
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, fmt.Errorf("%q is not a number", text)
	}
	return v, nil
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

// parseBearing reads degrees or a point of the compass: "248", "248°", "WSW".
func parseBearing(text string) (plan.Bearing, error) {
	t := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "°"))
	for i := range 16 {
		if b := plan.Bearing(float64(i) * 22.5); strings.EqualFold(t, b.Compass()) {
			return b, nil
		}
	}
	v, err := parseNumber(t)
	if err != nil || v < 0 || v > 360 {
		return 0, fmt.Errorf("%q is not a bearing; type degrees clockwise from true north, 0 to 360, or a point such as WSW", text)
	}
	return plan.Bearing(v), nil
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
	bad := fmt.Errorf("%q is not an amount; type it as in 18500 USD", text)
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
