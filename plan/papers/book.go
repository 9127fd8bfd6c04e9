package papers

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode/utf16"

	"eavelight/plan"
	"eavelight/plan/say"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// Book is a paper of rows and columns, for those who work on with its figures: a workbook, where what follows from a figure follows
// when it is changed, and plain rows for every other program.
type Book struct {
	Name   string // of its files, without the ending that tells their kind
	title  string
	kind   string
	foot   string
	zone   *time.Location // of the making time in its foot
	leaves []leaf         // the first is what plain rows are made of
}

// leaf is one sheet of a book. Its first row are the heads of the columns.
type leaf struct {
	name    string
	columns []leafColumn
	rows    []leafRow
	note    string // under a workbook's rows
}

type leafColumn struct {
	head   string
	widest int  // in letters; longer texts go on in a further line
	figure bool // the head stands where figures do, at the right
}

type leafRow struct {
	strong bool // a total
	cells  []bookCell
}

// bookCell is words, or a figure with a format; the zero value is empty.
type bookCell struct {
	plain   string // the words, or the figure as plain rows have it
	format  string // of the figure, as workbooks write it; empty: words
	figure  float64
	formula string // that the figure comes of; empty: it is typed
}

// add puts a row at the end and returns its number, as formulas name it.
func (l *leaf) add(strong bool, cells ...bookCell) int {
	l.rows = append(l.rows, leafRow{strong, cells})
	return l.next() - 1
}

// next is the number that the next row will have.
func (l *leaf) next() int { return len(l.rows) + 2 }

// subtotal sums up a column of whole numbers from a row to the last, without the subtotals in it.
func (l *leaf) subtotal(col, from int) bookCell {
	if from == l.next() {
		return whole(0, "")
	}
	sum := 0.0
	for _, r := range l.rows[from-2:] {
		if !r.strong {
			sum += r.at(col).figure
		}
	}
	return whole(int(sum), fmt.Sprintf("SUBTOTAL(9,%s%d:%s%d)", column(col), from, column(col), l.next()-1))
}

// words are a text on one line, no longer than a cell can be: 32,767 characters of UTF-16 (Microsoft, Excel specifications and limits).
// U+FFFE and U+FFFF are no characters, and may not stand in XML.
func words(s string) bookCell {
	s = strings.NewReplacer("\ufffe", "\ufffd", "\uffff", "\ufffd").Replace(oneLine(s))
	left := 32767
	for i, r := range s {
		if left -= utf16.RuneLen(r); left < 0 {
			s = s[:i]
			break
		}
	}
	return bookCell{plain: s}
}

// number is shown with as many decimals as it has.
func number(n decimal.Decimal, formula string) bookCell {
	return bookCell{plain: n.String(), format: "General", figure: n.InexactFloat64(), formula: formula}
}

func whole[T ~int](n T, formula string) bookCell {
	c := number(decimal.NewFromInt(int64(n)), formula)
	c.format = "#,##0"
	return c
}

// sceneNumber is a number where it is one, so that rows sort by it and programs have nothing to warn of.
func sceneNumber(s string) bookCell {
	if n, err := strconv.ParseUint(s, 10, 16); err == nil && fmt.Sprint(n) == s {
		return number(decimal.NewFromUint64(n), "")
	}
	return words(s)
}

// money is shown with so many decimals.
func money(n decimal.Decimal, places int32, formula string) bookCell {
	return bookCell{plain: n.StringFixed(places), format: decimals(places), figure: n.InexactFloat64(), formula: formula}
}

func decimals(n int32) string {
	if n == 0 {
		return "#,##0"
	}
	return "#,##0." + strings.Repeat("0", int(n))
}

// over is a number over a whole one: typed where it ends within some places, and a formula where it does not, so that what is reckoned
// from it is right to the last unit.
func over(n decimal.Decimal, by int64, places int32) bookCell {
	whole := decimal.NewFromInt(by)
	if typed := n.DivRound(whole, 12); typed.Mul(whole).Equal(n) {
		return number(typed, "")
	}
	c := money(n.DivRound(whole, places), places, fmt.Sprintf("%s/%d", n, by))
	c.figure = n.DivRound(whole, 20).InexactFloat64()
	return c
}

// rate shows a number as a rate: with the currency's decimals, and up to two more where it has them.
func (c bookCell) rate(places int32) bookCell {
	shown, _ := decimal.NewFromString(c.plain)
	shown = shown.Round(places + 2)
	if short := shown.Truncate(places); !short.Equal(shown) {
		places += 2
	}
	c.plain, c.format = shown.StringFixed(places), decimals(places)
	return c
}

// percent is a share of a whole, shown in percent.
func percent(of100 int) bookCell {
	return bookCell{plain: fmt.Sprintf("%d%%", of100), format: "0%", figure: float64(of100) / 100}
}

// dated is a date, in the order of the plan's language; its words are in the reader's. Workbooks count days from 1900 on, and those of
// that year wrongly.
func (s style) dated(d plan.Date) bookCell {
	if d.Year <= 1900 {
		return words(cmp.Or(d.String(), "no date"))
	}
	at := time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC)
	c := bookCell{plain: d.String(), format: "ddd d mmm yyyy", figure: serial(at)}
	if s.dates == plan.USEnglish {
		c.format = "ddd, mmm d, yyyy"
	}
	return c
}

// moment is what the wall clock shows, date and time, of which a workbook shows the time and how many midnights it is off the day.
func (w wall) moment(t time.Time) bookCell {
	if t.IsZero() {
		return words("not set")
	}
	local := wallTime(t, w.zone)
	c := bookCell{plain: local.Format("2006-01-02 15:04"), format: "hh:mm", figure: serial(local)}
	if w.style.clock == plan.Clock12 {
		c.format = "h:mm AM/PM"
	}
	if days := w.days(local); days != 0 {
		c.format += fmt.Sprintf(`" %+d"`, days)
	}
	return c
}

// wallTime is what the wall clock shows, as if there were no zones: differences of such times are those of the clock's hands.
func wallTime(t time.Time, zone *time.Location) time.Time {
	local := t.Round(time.Minute).In(zone)
	return time.Date(local.Year(), local.Month(), local.Day(), local.Hour(), local.Minute(), 0, 0, time.UTC)
}

// serial is the number of days since the day that workbooks count from. A minute is no round part of a day; it is rounded up, by less
// than a thousandth of a second, because programs cut off what is left when they show it: 06:40 would be 06:39.
func serial(wall time.Time) float64 {
	const parts = 1e9
	return math.Ceil(wall.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Minutes()*parts/(24*60)) / parts
}

// lasting are the minutes between two moments in the cells from and to. Where the clocks are changed in between, the formula makes up
// for it.
func (w wall) lasting(span plan.Span, from, to string) bookCell {
	if span.From.IsZero() || span.To.IsZero() {
		return bookCell{}
	}
	minutes := plan.Span{From: span.From.Round(time.Minute), To: span.To.Round(time.Minute)}.Minutes()
	formula := fmt.Sprintf("ROUND((%s-%s)*1440,0)", to, from)
	hands := plan.Minutes(wallTime(span.To, w.zone).Sub(wallTime(span.From, w.zone)) / time.Minute)
	if changed := minutes - hands; changed != 0 {
		formula += fmt.Sprintf("%+d", changed)
	}
	return whole(minutes, formula)
}

// column is the letter of a column, from 0.
func column(i int) string {
	name, err := excelize.ColumnNumberToName(i + 1)
	if err != nil { // beyond the 16,384th
		return "XFD"
	}
	return name
}

// CSV writes the rows as comma-separated values (RFC 4180), in UTF-8 with a byte order mark, without which spreadsheet programs take
// it for another encoding.
func (b Book) CSV(w io.Writer) error {
	if _, err := io.WriteString(w, "\ufeff"); err != nil {
		return say.Error("writing %s: %v", b.Name, err)
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	l := b.leaves[0]
	var record []string
	for _, c := range l.columns {
		record = append(record, c.head)
	}
	_ = out.Write(record) // Flush keeps its error
	for _, r := range l.rows {
		if len(r.cells) == 0 { // it sets a workbook's parts apart
			continue
		}
		record = record[:0]
		for i := range l.columns {
			record = append(record, r.at(i).inert())
		}
		_ = out.Write(record)
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return say.Error("writing %s: %v", b.Name, err)
	}
	return nil
}

func (r leafRow) at(i int) bookCell {
	if i < len(r.cells) {
		return r.cells[i]
	}
	return bookCell{}
}

// sign finds what spreadsheet programs take for the beginning of a formula: = + - and @, their wide forms too, at the beginning of a
// cell. A semicolon begins one where the decimal sign is a comma.
var sign = regexp.MustCompile(`(^|;)([ "]*)([=+\-@＝＋－＠])`)

// inert is what a cell has in plain rows. Words that begin with such a sign get a single quote before it, as OWASP's page on CSV
// Injection and its Application Security Verification Standard 5.0, requirement 1.2.10, have it; words hold no tab, no line's end and
// no NUL anyway. Figures are ours and stay figures.
func (c bookCell) inert() string {
	if c.format != "" {
		return c.plain
	}
	return sign.ReplaceAllString(c.plain, "$1'$2$3")
}
