package papers

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/say"

	"github.com/xuri/excelize/v2"
)

// XLSX writes the book as a workbook (Office Open XML, ECMA-376), with every formula's figure beside it, so that programs that only
// show it need not reckon. The same book, size and moment give the same bytes.
func (b Book) XLSX(w io.Writer, size plan.PaperSize, made time.Time) error {
	if made.IsZero() { // the same moment as in a print
		made = time.Unix(0, 0)
	}
	x := bookWriter{Book: b, file: excelize.NewFile(), size: size, made: made, styles: map[bookStyle]int{}}
	defer func() { _ = x.file.Close() }()
	x.file.SetZipWriter(func(w io.Writer) excelize.ZipWriter { return &sameZip{w, made.UTC(), map[string]*bytes.Buffer{}} })
	x.properties()
	for i, l := range b.leaves {
		if i == 0 {
			x.try(x.file.SetSheetName("Sheet1", l.name))
		} else {
			_, err := x.file.NewSheet(l.name)
			x.try(err)
		}
		x.page(l)
		x.leaf(l)
	}
	if x.err == nil {
		x.err = x.file.Write(w)
	}
	if x.err != nil {
		return say.Error("writing %s: %v", b.Name, x.err)
	}
	return nil
}

// bookWriter keeps the first error, after which nothing is written any more.
type bookWriter struct {
	Book
	file   *excelize.File
	size   plan.PaperSize
	made   time.Time
	styles map[bookStyle]int
	err    error
}

func (x *bookWriter) try(err error) {
	if x.err == nil {
		x.err = err
	}
}

func (x *bookWriter) properties() {
	at := x.made.UTC().Format(time.RFC3339)
	x.try(x.file.SetDocProps(&excelize.DocProperties{Title: x.kind + ": " + x.title, Creator: "Eavelight", LastModifiedBy: "Eavelight", Created: at, Modified: at, Language: "en"}))
	x.try(x.file.SetAppProps(&excelize.AppProperties{Application: "Eavelight"}))
}

// page sets a leaf up for print: across the paper, as wide as it, the heads of the columns on each page.
func (x *bookWriter) page(l leaf) {
	across, one, any, paper := "landscape", 1, 0, 1 // Letter
	if x.size == plan.A4 {
		paper = 9
	}
	side, edge, fit := 0.4, 0.7, true // inches
	x.try(x.file.SetSheetProps(l.name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	x.try(x.file.SetPageLayout(l.name, &excelize.PageLayoutOptions{Size: &paper, Orientation: &across, FitToWidth: &one, FitToHeight: &any}))
	x.try(x.file.SetPageMargins(l.name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &edge, Bottom: &edge, Header: &side, Footer: &side}))
	x.try(x.file.SetHeaderFooter(l.name, &excelize.HeaderFooterOptions{
		OddHeader: "&L" + inHeader(x.title) + "&R" + inHeader(x.kind),
		OddFooter: "&L" + inHeader(x.about()) + "&RPage &P of &N",
	}))
	x.try(x.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: "'" + l.name + "'!$1:$1", Scope: l.name}))
}

// about is what the foot of each page says.
func (x *bookWriter) about() string {
	made := "made " + x.made.In(x.zone).Format("2006-01-02 15:04")
	if x.foot == "" {
		return made
	}
	return x.foot + " · " + made
}

// inHeader is a text for the head or the foot of a page, where & begins a code and a digit after one would be a size. Both together
// hold 255 characters.
func inHeader(s string) string {
	const most = 100
	if letters := []rune(s); len(letters) > most {
		s = string(letters[:most-1]) + "…"
	}
	return " " + strings.ReplaceAll(s, "&", "&&")
}

// leaf writes the rows, each as it comes: none is kept but as its bytes.
func (x *bookWriter) leaf(l leaf) {
	if x.err != nil {
		return
	}
	out, err := x.file.NewStreamWriter(l.name)
	if err != nil {
		x.try(err)
		return
	}
	var widths []float64
	for i := range l.columns {
		widths = append(widths, l.width(i))
		x.try(out.SetColWidth(i+1, i+1, widths[i]))
	}
	x.try(out.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
	heads := leafRow{}
	var cells []any
	for _, c := range l.columns {
		heads.cells = append(heads.cells, words(c.head))
		cells = append(cells, excelize.Cell{StyleID: x.style(bookStyle{head: true, right: c.figure}), Value: c.head})
	}
	x.try(out.SetRow("A1", cells, heads.height(widths)))
	for i, r := range l.rows {
		cells = nil
		for j := range l.columns {
			cells = append(cells, x.cell(r.at(j), bookStyle{strong: r.strong, right: l.columns[j].figure}))
		}
		x.try(out.SetRow(fmt.Sprintf("A%d", i+2), cells, r.height(widths)))
	}
	if l.note != "" {
		x.try(out.SetRow(fmt.Sprintf("B%d", l.next()+1), []any{x.cell(words(l.note), bookStyle{over: true})}))
	}
	x.try(out.Flush())
}

// cell is nil where there is nothing to show.
func (x *bookWriter) cell(c bookCell, style bookStyle) any {
	if c == (bookCell{}) && !style.strong {
		return nil
	}
	out := excelize.Cell{Formula: c.formula}
	if style.format = c.format; c.format != "" {
		out.Value = c.figure
	} else if c.plain != "" {
		out.Value = c.plain
	}
	out.StyleID = x.style(style)
	return out
}

// bookStyle is how a cell looks; the zero value is plain words.
type bookStyle struct {
	format              string
	head, strong, right bool
	over                bool // words go on over the empty cells beside
}

func (x *bookWriter) style(s bookStyle) int {
	if id, ok := x.styles[s]; ok {
		return id
	}
	style := excelize.Style{Alignment: &excelize.Alignment{Vertical: "top", WrapText: s.format == "" && !s.over, Horizontal: "left", Indent: 1}, Font: &excelize.Font{Family: "Calibri", Size: 11, Bold: s.head || s.strong}}
	if s.format != "" {
		style.CustomNumFmt = &s.format
	}
	if s.right {
		style.Alignment.Horizontal, style.Alignment.Indent = "right", 0
	}
	if s.strong {
		style.Border = []excelize.Border{{Type: "top", Color: "8A7A66", Style: 1}}
	}
	if s.head {
		style.Alignment.Vertical = "bottom"
		style.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"F1EADF"}}
		style.Border = []excelize.Border{{Type: "bottom", Color: "8A7A66", Style: 1}}
	}
	id, err := x.file.NewStyle(&style)
	x.try(err)
	x.styles[s] = id
	return id
}

// width is what a column's longest text needs, in digits of the usual type; words up to the column's widest.
func (l leaf) width(col int) float64 {
	c := l.columns[col]
	longest := min(breadth(c.head), 12)
	for _, word := range strings.Fields(c.head) {
		longest = max(longest, breadth(word))
	}
	for _, r := range l.rows {
		cell := r.at(col)
		switch n := breadth(cell.plain); {
		case cell.format == "":
			longest = max(longest, min(n, c.widest))
		case strings.Contains(cell.format, "yy"):
			longest = max(longest, len("Wed, Sep 30, 2027"))
		case strings.Contains(cell.format, "AM"):
			longest = max(longest, len("12:00 AM +1"))
		case strings.Contains(cell.format, "mm"):
			longest = max(longest, len("00:00 +1"))
		default:
			longest = max(longest, n+n/3) // and what parts the thousands
		}
	}
	return float64(min(longest, 250)) + 3
}

// height is set for a row whose words take several lines: not every program makes room by itself. 409 points are the most that there is.
func (r leafRow) height(widths []float64) excelize.RowOpts {
	lines := 1
	for i, w := range widths {
		if c := r.at(i); c.format == "" {
			lines = max(lines, linesOf(c.plain, int(w)-2))
		}
	}
	if lines == 1 {
		return excelize.RowOpts{}
	}
	return excelize.RowOpts{Height: min(float64(lines)*15, 409)}
}

// linesOf counts the lines of a text in a column that is so many letters wide.
func linesOf(text string, wide int) int {
	lines, at := 1, 0
	for _, word := range strings.Fields(text) {
		n := breadth(word)
		if at > 0 && at+1+n > wide {
			lines, at = lines+1, 0
		}
		if at > 0 {
			at++
		}
		at += n
		for ; at > wide; at -= wide { // a word that is longer than the line
			lines++
		}
	}
	return lines
}

// breadth counts letters, those of East Asia twice.
func breadth(s string) int {
	n := utf8.RuneCountInString(s)
	for _, r := range s {
		if r >= 0x1100 {
			n++
		}
	}
	return n
}

// sameZip is an archive whose files stand in the order of their names, which the library has by chance where it streams several.
type sameZip struct {
	to    io.Writer
	made  time.Time
	files map[string]*bytes.Buffer
}

func (z *sameZip) Create(name string) (io.Writer, error) {
	z.files[name] = &bytes.Buffer{}
	return z.files[name], nil
}

// AddFS is asked of every archive, and used by none of ours.
func (z *sameZip) AddFS(fs.FS) error { return fs.ErrInvalid }

func (z *sameZip) Close() error {
	out := zip.NewWriter(z.to)
	for _, name := range slices.Sorted(maps.Keys(z.files)) {
		f, err := out.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: z.made})
		if err != nil {
			return err
		}
		if _, err := f.Write(z.files[name].Bytes()); err != nil {
			return err
		}
	}
	return out.Close()
}
