package papers

import "time"

// Sheet is what a paper says, in reading order. Nothing in it is measured yet. A "\n" in a text starts a new line.
type Sheet struct {
	Kind     string   // "Call sheet"
	Title    string   // whose sheet it is: the plan's title
	Lines    []string // under the title
	Key      Fact     // the one figure that everybody looks for, printed large; may be empty
	KeyNote  string   // under it
	KeyMark  string   // what has changed of it since the sheet was sent last: "was 08:10"; mostly empty
	Sections []Section
	Foot     string         // at the bottom of each page, beside the page number
	Zone     *time.Location // of the times in it; the making time is printed in it too. nil is UTC

	key string // of the part that Key is, for its mark
}

// Section is a heading with what stands under it, in the order of its fields; what is empty takes no room. One that is signed,
// by hand or in the window, stays on one page.
type Section struct {
	Heading string
	Figure  Figure // nil: none
	Strip   []Fact // short figures side by side, the name small above the figure
	Beside  Figure // at the right of the first facts; nil: none
	Facts   []Fact // names in one column, texts in the other
	Text    []string
	Table   Table
	List    []string // one point each
	Blanks  []string // a name each, with a line beside it to write on by hand; the last is signed on
	Small   []string // in small type: what is looked up and not read

	Marks map[string]string // what has changed since the sheet was sent last: by the name of a fact, and "" for all else but rows
}

// Fact is a name and what it stands for.
type Fact struct{ Name, Text string }

// Table is rows under named columns. A row never breaks across pages unless it is taller than one.
type Table struct {
	Columns []Column
	Rows    []Row
	Right   int // so many of the last columns are set flush right, as figures are
}

func (t Table) right(column int) bool { return column >= len(t.Columns)-t.Right }

// Column is one column of a table; widths are shares of the whole, in any unit.
type Column struct {
	Head  string
	Width float64
}

// Row is one row of a table. Where it has fewer cells than columns, its last cell runs over the rest.
type Row struct {
	Cells []Cell
	Note  string // under the cells, from the second column to the end
	Aside bool   // set back: what happens between the rows proper
	Keep  bool   // stays on the page of the row after it
	Opens bool   // begins a group, and stays on the page of the row after it
	Tick  bool   // a box to tick by hand stands before its first cell
	Mark  string // what has changed of it since the sheet was sent last: "new", "was 08:10"; mostly empty

	sheetPart // which one it is, where that is to be known when the sheet is written again
}

// Cell is a text, the strong part first, each on lines of its own.
type Cell struct{ Strong, Text string }
