package papers

import (
	"fmt"
	"io"
	"time"

	"eavelight/assets"
	"eavelight/plan"

	"codeberg.org/go-pdf/fpdf"
)

// PDF prints the sheet. made is the moment it says it was made, printed in its foot and kept in the file. The same sheet,
// size and moment give the same bytes.
func (s Sheet) PDF(w io.Writer, size plan.PaperSize, made time.Time) error {
	name := "Letter"
	if size == plan.A4 {
		name = "A4"
	}
	if made.IsZero() { // the print library would ask the clock
		made = time.Unix(0, 0)
	}
	pdf := fpdf.New("P", "mm", name, "")
	pdf.AddUTF8FontFromBytes(family, "", assets.SansRegular)
	pdf.AddUTF8FontFromBytes(family, "B", assets.SansBold)
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(made.UTC())
	pdf.SetModificationDate(made.UTC())
	pdf.SetTitle(s.Kind+": "+s.Title, true)
	pdf.SetCreator("Eavelight", true)
	pdf.SetLang("en")
	pdf.SetAutoPageBreak(false, 0)
	pr := printer{pdf: pdf}
	pr.wide, pr.tall = pdf.GetPageSize()
	set := setter{measure: pr.measure, width: pr.wide - 2*marginSide}
	pages := fit(set.runs(s), pr.tall-marginTop-marginBottom)
	for i, page := range pages {
		pdf.AddPage()
		for _, r := range page {
			pr.row(r, set.width)
		}
		pr.foot(s, i+1, len(pages), made)
	}
	if err := pdf.Output(w); err != nil {
		return fmt.Errorf("printing the %s: %w", s.Kind, err)
	}
	return nil
}

const family = "sans"

// printer draws laid rows with the print library.
type printer struct {
	pdf        *fpdf.Fpdf
	wide, tall float64
}

func (p printer) measure(text string, f face) float64 {
	p.pick(f)
	return p.pdf.GetStringWidth(text)
}

func (p printer) pick(f face) {
	style := ""
	if f.bold {
		style = "B"
	}
	p.pdf.SetFont(family, style, f.size)
}

func (p printer) row(r laid, width float64) {
	top := marginTop + r.y + r.above
	if r.fill != (tint{}) {
		p.pdf.SetFillColor(r.fill.r, r.fill.g, r.fill.b)
		p.pdf.Rect(marginSide, top, width, r.height()-r.above, "F")
	}
	if r.rule != (tint{}) {
		p.pdf.SetDrawColor(r.rule.r, r.rule.g, r.rule.b)
		p.pdf.SetLineWidth(r.thick)
		p.pdf.Line(marginSide, top, marginSide+width, top)
	}
	for _, c := range r.cells {
		p.cell(c, top+r.pad)
	}
}

func (p printer) cell(c cell, y float64) {
	for _, l := range c.lines {
		x := marginSide + c.x
		if c.right {
			x += c.width - p.measure(l.text, l.face)
		}
		p.text(x, y+baseline(l.face), l)
		y += l.face.lead
	}
}

// baseline is how far the foot of the letters lies under the top of their line: the line's slack is shared evenly, and the
// type stands about four fifths of its size above its base.
func baseline(f face) float64 {
	const millimetres = 25.4 / 72
	size := f.size * millimetres
	return (f.lead-size)/2 + 0.8*size
}

func (p printer) text(x, y float64, l line) {
	p.pick(l.face)
	p.pdf.SetTextColor(l.face.tint.r, l.face.tint.g, l.face.tint.b)
	p.pdf.Text(x, y, l.text)
}

// foot prints page number, title, making time and what the times mean. A title that is too long gives way to the rest
// on a line of its own above.
func (p printer) foot(s Sheet, page, pages int, made time.Time) {
	zone := s.Zone
	if zone == nil {
		zone = time.UTC
	}
	set := setter{measure: p.measure, width: p.wide - 2*marginSide}
	number := fmt.Sprintf("page %d of %d", page, pages)
	right := p.measure(number, faceFoot)
	about := s.Title + " · " + s.Foot + " · made " + made.In(zone).Format("2006-01-02 15:04")
	lines := set.wrap(about, faceFoot, set.width-right-gutter)
	if len(lines) > 2 { // the title stands in full on the first page
		lines = set.wrap(s.Foot+" · made "+made.In(zone).Format("2006-01-02 15:04"), faceFoot, set.width-right-gutter)
	}
	y := p.tall - footBase - float64(len(lines)-1)*faceFoot.lead
	p.text(p.wide-marginSide-right, y, line{number, faceFoot})
	for _, l := range lines {
		p.text(marginSide, y, l)
		y += faceFoot.lead
	}
}
