package contacts

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"eavelight/plan/say"
)

// Table is a file of rows and columns, as text, with a guess at what it holds. The user confirms the Match, or changes it,
// before Contacts makes people of the rows.
type Table struct {
	Delimiter rune   // comma, semicolon or tab
	Encoding  string // "UTF-8", "UTF-16" or "Windows-1252"
	Above     []Row  // what stands above the headings; usually nothing
	Headings  []string
	HasHeader bool // the headings stand in the file; otherwise they are "Column 1" and so on
	Rows      []Row
	Match     Match // the guess
	found     problems
}

// Row is one row of a table. A row may have fewer cells than there are headings, or more.
type Row struct {
	Line  int // where it begins in the file, from 1
	Cells []string
}

// Match says what the columns of a table are.
type Match struct {
	Fields []Field // one a column; a column beyond them goes to the notes
	Dates  DateOrder
}

// maxColumns is the most columns that a table may have.
const maxColumns = 300

// ErrTooWide says that a table is none of people.
var ErrTooWide = say.Error("the file has more than 300 columns; is it a list of people, one a row?")

// ReadTable reads a table. It finds out the encoding, the delimiter and the row of headings, and guesses the columns. The
// error is ErrTooLarge, ErrTooMany, ErrTooWide, ErrNobody, or a failure of reading.
func ReadTable(r io.Reader) (Table, error) {
	data, err := readAll(r)
	if err != nil {
		return Table{}, err
	}
	var t Table
	var text string
	text, t.Encoding = readText(data)
	if delimiter, rest, said := saysDelimiter(text); said {
		t.Delimiter, text = delimiter, "\n"+rest // so that lines are counted right
	} else {
		t.Delimiter = delimiterOf(text)
	}
	if t.Rows, err = rowsOf(text, t.Delimiter); err != nil {
		return Table{}, err
	}
	t.quotes(text)
	t.header()
	if len(t.Rows) == 0 {
		return Table{}, ErrNobody
	}
	t.Match = t.guess()
	return t, nil
}

// readText is the text of a file, line by line in UTF-8 or in Windows-1252, and the name of what it is in. All lines end
// with \n.
func readText(data []byte) (text, encoding string) {
	data, encoding = unmarked(data)
	if !bytes.Contains(data, []byte("\n")) {
		data = bytes.ReplaceAll(data, []byte("\r"), []byte("\n"))
	}
	if utf8.Valid(data) {
		if encoding == "" {
			encoding = "UTF-8"
		}
		return string(data), encoding
	}
	var b strings.Builder
	for line := range bytes.Lines(data) {
		s, _ := decoded(line)
		b.WriteString(s)
	}
	return b.String(), "Windows-1252"
}

// saysDelimiter reads a first line such as sep=; which spreadsheets write.
func saysDelimiter(text string) (delimiter rune, rest string, said bool) {
	first, rest, _ := strings.Cut(text, "\n")
	rest0, said := cutFold(strings.Trim(strings.TrimRight(first, "\r"), `"`), "sep=")
	if r, size := utf8.DecodeRuneInString(rest0); said && size == len(rest0) && slices.Contains(delimiters, r) {
		return r, rest, true
	}
	return 0, text, false
}

var delimiters = []rune{',', ';', '\t'}

// delimiterOf finds the mark that the rows are divided by: the one under which some row holds the most words that head
// columns; or else the one that divides the first rows into the most cells, as many in each. Commas in the remarks of a
// table with semicolons may well outnumber these. With no mark at all, a column of names is all there is.
func delimiterOf(text string) rune {
	head := text[:min(len(text), 50_000)]
	best, most := ',', 0
	for _, d := range delimiters {
		r := reader(head, d)
		r.LazyQuotes = false // a quotation mark in the wrong place is a sign of the wrong delimiter
		counts := map[int]int{}
		score := 0
		for range 50 {
			row, err := r.Read()
			if err != nil {
				break
			}
			counts[len(row)]++
			score = max(score, 10_000*headingsIn(row))
		}
		even := 0
		for cells, times := range counts {
			even = max(even, times*(min(cells, 50)-1))
		}
		if score += even; score > most {
			best, most = d, score
		}
	}
	return best
}

// headingsIn counts the words that head columns.
func headingsIn(cells []string) (n int) {
	for _, c := range cells {
		if _, known := fieldOf(c); known {
			n++
		}
	}
	return n
}

func reader(text string, delimiter rune) *csv.Reader {
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = delimiter, -1, true
	return r
}

// quotes tells of the first quotation mark that stands where none should: a cell may have swallowed the rows after it.
func (t *Table) quotes(text string) {
	if line := unpaired(text, t.Delimiter); line > 0 {
		t.found.add(line, 0, say.That("a quotation mark here has no partner; look whether this row and those after it are whole"))
	}
}

// unpaired is the line of the first quotation mark without a partner, 0 where there is none.
func unpaired(text string, delimiter rune) int {
	r := reader(text, delimiter)
	r.LazyQuotes, r.ReuseRecord = false, true
	for {
		var at *csv.ParseError
		switch _, err := r.Read(); {
		case err == nil:
		case errors.As(err, &at):
			return at.StartLine
		default:
			return 0
		}
	}
}

// Cells divides a text that was copied from a spreadsheet, or out of a CSV file, into its rows, without those that hold nothing.
// unpairedAt is the line of a quotation mark without a partner, from which on rows may have run into one cell; 0 for none.
func Cells(text string) (rows []Row, unpairedAt int, err error) {
	text, _ = readText([]byte(text))
	delimiter := '\t' // spreadsheets copy cells so
	if !strings.Contains(text, "\t") {
		delimiter = delimiterOf(text)
	}
	rows, err = rowsOf(text, delimiter)
	return rows, unpaired(text, delimiter), err
}

// rowsOf divides the text into rows; those with nothing in them are left out.
func rowsOf(text string, delimiter rune) ([]Row, error) {
	for line := range strings.Lines(text) {
		if strings.Count(line, string(delimiter)) > 10*maxColumns { // before cells are made of them
			return nil, ErrTooWide
		}
	}
	var rows []Row
	r := reader(text, delimiter)
	for {
		cells, err := r.Read()
		if err == io.EOF {
			return rows, nil
		}
		if err != nil { // with lazy quotes there is nothing that it refuses
			return nil, say.Error("the file can't be read as a table: %v", err)
		}
		line, _ := r.FieldPos(0)
		blank := true
		for i := range cells {
			cells[i] = manyLines(cells[i])
			blank = blank && cells[i] == ""
		}
		for len(cells) > 0 && cells[len(cells)-1] == "" {
			cells = cells[:len(cells)-1]
		}
		switch {
		case blank:
		case len(cells) > maxColumns:
			return nil, ErrTooWide
		case len(rows) > MaxPeople:
			return nil, ErrTooMany
		default:
			rows = append(rows, Row{line, cells})
		}
	}
}

// header finds the row of headings among the first: the one with the most words that head columns. Without any it is the
// first row where it holds only words, and a row below it something else. What stands above it is set aside.
func (t *Table) header() {
	at, most := -1, 0
	for i, row := range t.Rows[:min(len(t.Rows), 10)] {
		if slices.ContainsFunc(row.Cells, address.MatchString) {
			break
		}
		n := headingsIn(row.Cells)
		// Further down only a row with two: a heading's word may be what somebody is called, or does.
		if n > most && (i == 0 || n > 1) {
			at, most = i, n
		}
	}
	if at < 0 && t.firstIsWords() {
		at = 0
	}
	width := 0
	for _, row := range t.Rows[max(at, 0):] {
		width = max(width, len(row.Cells))
	}
	t.Headings = make([]string, width)
	if at >= 0 {
		t.HasHeader = true
		copy(t.Headings, t.Rows[at].Cells)
		t.Above, t.Rows = t.Rows[:at:at], t.Rows[at+1:]
	}
	for i, h := range t.Headings {
		if t.Headings[i] = oneLine(h); t.Headings[i] == "" {
			t.Headings[i] = unnamed(i)
		}
	}
}

// firstIsWords reports whether no cell of the first row is a number, an address or the like, while one below it is.
func (t *Table) firstIsWords() bool {
	if len(t.Rows) < 2 || slices.ContainsFunc(t.Rows[0].Cells, isFact) {
		return false
	}
	return slices.ContainsFunc(t.Rows[1:min(len(t.Rows), 10)], func(r Row) bool { return slices.ContainsFunc(r.Cells, isFact) })
}

// isFact reports a cell that heads no column: an email address, or more digits than "Phone 2" has.
func isFact(cell string) bool { return address.MatchString(cell) || digitCount(cell) >= 4 }

// column goes through the cells of one column that hold something.
func (t *Table) column(i int) []string {
	var out []string
	for _, r := range t.Rows {
		if i < len(r.Cells) && r.Cells[i] != "" {
			out = append(out, r.Cells[i])
		}
	}
	return out
}

// Samples returns the first cells of a column that hold something, to be shown beside its match.
func (t *Table) Samples(column, most int) []string {
	all := t.column(column)
	return all[:min(len(all), most)]
}

// guess tells from the headings, and where they say nothing from the cells, what the columns are. What it does not know
// goes to the notes.
func (t *Table) guess() Match {
	m := Match{Fields: make([]Field, len(t.Headings))}
	for i, h := range t.Headings {
		m.Fields[i], _ = fieldOf(h)
	}
	has := func(f Field) int { return slices.Index(m.Fields, f) }
	// "Name" beside first names, as German and French write it, is the family's; "Nombre" beside "Apellidos" the given one.
	if i := has(FieldName); i >= 0 {
		switch given, family := has(FieldGiven) >= 0, has(FieldFamily) >= 0; {
		case given && !family:
			m.Fields[i] = FieldFamily
		case family && !given:
			m.Fields[i] = FieldGiven
		}
	}
	for i := range m.Fields {
		if m.Fields[i] == FieldNotes && has(FieldEmail) < 0 && mostly(t.column(i), address.MatchString) {
			m.Fields[i] = FieldEmail
		}
	}
	for i := range m.Fields {
		if !t.HasHeader && m.Fields[i] == FieldNotes && has(FieldPhone) < 0 && mostly(t.column(i), isPhone) {
			m.Fields[i] = FieldPhone
		}
	}
	if has(FieldName) < 0 && has(FieldGiven) < 0 && has(FieldFamily) < 0 {
		isName := func(s string) bool { return digitCount(s) == 0 && !strings.Contains(s, "@") }
		for i := range m.Fields {
			if m.Fields[i] == FieldNotes && !isNotes(t.Headings[i]) && mostly(t.column(i), isName) {
				m.Fields[i] = FieldName
				break
			}
		}
	}
	m.Dates = t.dates(m)
	return m
}

// dates finds out which way round the dates of birth are.
func (t *Table) dates(m Match) DateOrder {
	var all []string
	for i := range t.Headings {
		if m.field(i) == FieldBorn {
			all = append(all, t.column(i)...)
		}
	}
	return orderOf(all)
}

// mostly reports whether more than half of the cells, one at least, are so.
func mostly(cells []string, so func(string) bool) bool {
	n := 0
	for _, c := range cells {
		if so(c) {
			n++
		}
	}
	return 2*n > len(cells)
}

// isPhone reports a cell of digits and what stands between them in a phone number.
func isPhone(s string) bool {
	return digitCount(s) >= 6 && strings.Trim(s, "0123456789 +-/().") == "" && !yearFirst.MatchString(s) && !yearLast.MatchString(s)
}
