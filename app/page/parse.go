package page

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"time"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/say"

	"github.com/shopspring/decimal"
)

// Each parse function reads what a person types into a field, and what the print function beside it shows there; an error says
// in words what to type instead. What a value may be, plan.Validate decides. Figures have the marks of the window's language.

// pointed turns the marks of figures round where the window's language writes a decimal comma, so that a point stands before
// the decimals and commas divide thousands; and back again.
func pointed(text string) string {
	if tongue.Number(".") == "." {
		return text
	}
	return strings.NewReplacer(".", ",", ",", ".").Replace(text)
}

// thousands are figures whose commas may divide thousands or be a decimal mark.
var thousands = regexp.MustCompile(`^-?\d{1,3}(,\d{3})+$`)

// moneyForm is an amount as this program reads it: commas divide thousands, a point stands before the decimals.
var moneyForm = regexp.MustCompile(`^(\d+|\d{1,3}(,\d{3})+)(\.\d{1,6})?$`)

func parseNumber(text string) (float64, error) {
	t := pointed(strings.TrimSpace(text))
	if thousands.MatchString(t) {
		return 0, say.Error("%q can be read two ways; type it without the comma, or with a point before the decimals", text)
	}
	v, err := strconv.ParseFloat(strings.Replace(t, ",", ".", 1), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, say.Error("%q is not a number", text)
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

func printNumber(v float64) string { return pointed(strconv.FormatFloat(v, 'f', -1, 64)) }

// parseWhole reads a whole number of something; an empty field is none.
func parseWhole(text string) (int, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, nil
	}
	v, err := strconv.Atoi(text)
	if err != nil {
		return 0, say.Error("%q is not a whole number", text)
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
	if b, ok := compassPoints()[lower(t)]; ok {
		return reading{bearing: b}, nil
	}
	t, compass := strings.CutSuffix(strings.ToLower(t), "m")
	v, err := parseNumber(strings.TrimSuffix(strings.TrimSpace(t), "°"))
	if err != nil || v < 0 || v > 360 {
		return reading{}, say.Error("%q is not a bearing; type degrees from true north, 0 to 360, a point such as WSW, or a compass reading such as 235m", text)
	}
	return reading{plan.Bearing(v), compass}, nil
}

// compassPoints are the sixteen points of the compass rose by their names in every language of the window.
var compassPoints = sync.OnceValue(func() map[string]plan.Bearing {
	out := map[string]plan.Bearing{}
	for _, speak := range everyTongue() {
		for i := range 16 {
			b := plan.Bearing(float64(i) * 22.5)
			_, name, _ := strings.Cut(b.In(speak), " ")
			out[lower(name)] = b
		}
	}
	return out
})

func printBearing(b plan.Bearing) string { return printNumber(float64(b)) }

// parseClock reads a time of day; an empty field is none.
func parseClock(text string) (plan.Clock, error) {
	if strings.TrimSpace(text) == "" {
		return plan.NoClock, nil
	}
	return readClock(text)
}

// half is the half of the day as Spanish writes it too: "6:05 p. m.".
var half = regexp.MustCompile(`(?i)\b([ap])\.[\s\x{a0}]?m\.?`)

// readClock reads a time of day that must be there.
func readClock(text string) (plan.Clock, error) {
	return plan.ParseClock(half.ReplaceAllString(text, "${1}m"))
}

// printClock shows a time of day by the clock of the window. Past midnight only the 24-hour clock goes on.
func printClock(c plan.Clock) string {
	if !c.IsSet() || c.Minutes() >= 24*60 {
		return c.String()
	}
	shown := tongue.Hour(time.Date(2000, time.January, 1, 0, c.Minutes(), 0, 0, time.UTC))
	return strings.ReplaceAll(shown, "\u00a0", " ") // which a person types
}

// clockHint is a time of day as a hint shows it.
func clockHint(hour, minute int) string { return printClock(plan.ClockAt(60*hour + minute)) }

// parseDate reads a date as the file has it, or as people write it with the month in letters: "6 Mar 2027", "6 de marzo de
// 2027". Figures alone in another order are refused, since 6/3 is two different days.
func parseDate(text string) (plan.Date, error) {
	t := strings.TrimSpace(text)
	if t == "" {
		return plan.Date{}, nil
	}
	if d, ok := lettered(t); ok {
		return d, nil
	}
	return plan.ParseDate(t)
}

// lettered reads a date whose month is in letters, before or after the day.
func lettered(text string) (plan.Date, bool) {
	var words []string
	for _, word := range strings.Fields(strings.ReplaceAll(lower(text), ",", " ")) {
		if word = strings.TrimSuffix(word, "."); word != "de" && word != "del" {
			words = append(words, word)
		}
	}
	calendar := calendarWords()
	if len(words) == 4 && calendar.weekdays[words[0]] {
		words = words[1:]
	}
	if len(words) != 3 {
		return plan.Date{}, false
	}
	month, day := calendar.months[words[1]], words[0]
	if month == 0 {
		month, day = calendar.months[words[0]], words[1]
	}
	at, err := time.Parse("2006 1 2", words[2]+" "+strconv.Itoa(int(month))+" "+day)
	return plan.DateOf(at), err == nil
}

type calendarNames struct {
	months   map[string]time.Month
	weekdays map[string]bool
}

// calendarWords are the names of months and weekdays, long and short, in every language of the window.
var calendarWords = sync.OnceValue(func() calendarNames {
	out := calendarNames{map[string]time.Month{}, map[string]bool{}}
	for _, speak := range everyTongue() {
		for m := time.January; m <= time.December; m++ {
			long, short := lower(say.Month(m).In(speak)), lower(say.ShortMonth(m).In(speak))
			out.months[long], out.months[short], out.months[short[:min(3, len(short))]] = m, m, m // "sept" is often "sep"
		}
		for d := time.Sunday; d <= time.Saturday; d++ {
			out.weekdays[lower(say.Weekday(d).In(speak))], out.weekdays[lower(say.ShortWeekday(d).In(speak))] = true, true
		}
	}
	return out
})

// everyTongue is every language of the window, whichever it speaks now: what was written in one is understood in another.
var everyTongue = sync.OnceValue(func() []say.Tongue {
	var out []say.Tongue
	for _, l := range tongue.Languages {
		forms, err := tongue.Forms(l.Code)
		if err != nil {
			continue
		}
		out = append(out, func(form string, _ int) string {
			if words, ok := forms[form].(string); ok {
				return words
			}
			return form
		})
	}
	return out
})

// inEnglish turns words of any language of the window into the English ones that a parse function knows: each of the forms
// where it stands as a word, with or without its accents. The text comes back in small letters.
func inEnglish(text string, forms ...string) string {
	text = " " + strings.Join(strings.Fields(unaccented(lower(text))), " ") + " "
	for _, form := range forms {
		english := say.Tongue(nil).Form(form)
		for _, speak := range everyTongue() {
			text = strings.ReplaceAll(text, " "+unaccented(lower(speak.Form(form)))+" ", " "+english+" ")
		}
	}
	return strings.TrimSpace(text)
}

var unaccented = strings.NewReplacer("á", "a", "é", "e", "í", "i", "ó", "o", "ú", "u", "ü", "u").Replace

// parseMoney reads "18500", "18,500.00 USD" or "EUR 900".
func parseMoney(text string) (plan.Money, error) {
	t := strings.TrimSpace(text)
	if t == "" {
		return plan.Money{}, nil
	}
	var m plan.Money
	figures := ""
	for _, word := range strings.Fields(pointed(t)) {
		if len(word) == 3 && strings.ToUpper(word) != strings.ToLower(word) {
			m.Currency = strings.ToUpper(word)
			continue
		}
		figures += word
	}
	bad := say.Error("%q is not an amount; type it as in 18500.00 USD", text)
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
	return printFigure(m.Amount) + " " + m.Currency
}

// parseDecimal reads an amount or a figure without a currency: "1250", "1,250.00"; an empty field is 0.
func parseDecimal(text string) (decimal.Decimal, error) {
	t := pointed(strings.Join(strings.Fields(text), ""))
	if t == "" {
		return decimal.Zero, nil
	}
	if !moneyForm.MatchString(t) {
		return decimal.Zero, say.Error("%q is not a figure; type it as in 1250.50", text)
	}
	return decimal.NewFromString(strings.ReplaceAll(t, ",", ""))
}

// printDecimal leaves a field empty for 0.
func printDecimal(d decimal.Decimal) string {
	if d.IsZero() {
		return ""
	}
	return printFigure(d)
}

func printFigure(d decimal.Decimal) string { return pointed(d.String()) }

// timeForm is a length of time as people write it: hours, hours with minutes, or minutes.
var timeForm = regexp.MustCompile(`^(?:(\d{1,4}(?:\.\d{1,4})?)(?:h|hours?|horas?)?|(\d{1,4})(?:h|:)(\d{1,2})(?:m|min)?|(\d{1,6})(?:m|min|minut[eo]s?))$`)

// parseTime reads a length of time: "8", "8 h", "7.5", "8 h 30", "8:30", "20 min"; an empty field is none.
func parseTime(text string) (plan.Minutes, error) {
	t := pointed(strings.ReplaceAll(lower(strings.TrimSpace(text)), " ", ""))
	if t == "" {
		return 0, nil
	}
	m := timeForm.FindStringSubmatch(t)
	if m == nil {
		return 0, say.Error("%q is not a time; type it as in 8 h, 8 h 30 or 20 min", text)
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
