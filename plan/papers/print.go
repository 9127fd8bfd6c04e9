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
	if r.write > 0 {
		p.line(marginSide+r.write, marginSide+width, marginTop+r.y+r.height()-r.below)
	}
	if !r.drawing.empty() {
		p.drawing(r.drawing, top+r.pad, r.tall)
	}
	for _, c := range r.cells {
		p.cell(c, top+r.pad)
	}
}

// line draws a line to write on.
func (p printer) line(from, to, y float64) {
	p.pdf.SetDrawColor(soft.r, soft.g, soft.b)
	p.pdf.SetLineWidth(0.2)
	p.pdf.Line(from, y, to, y)
}

// drawing draws what a pen drew on the line that it stands on, at most half a page wide: each stroke runs through the middles
// of its pieces, as the window shows it, so that no corner shows where the pen was fast.
func (p printer) drawing(d Drawing, top, tall float64) {
	unit := min(tall/float64(d.Size.Height), (p.wide/2-marginSide)/float64(d.Size.Width))
	at := func(q plan.Point) (x, y float64) { return marginSide + unit*float64(q.X), top + unit*float64(q.Y) }
	p.line(marginSide, marginSide+unit*float64(d.Size.Width), top+0.77*unit*float64(d.Size.Height))
	p.pdf.SetDrawColor(ink.r, ink.g, ink.b)
	p.pdf.SetLineWidth(0.35)
	p.pdf.SetLineCapStyle("round")
	p.pdf.SetLineJoinStyle("round")
	for _, stroke := range d.Strokes {
		if len(stroke) == 0 {
			continue
		}
		x0, y0 := at(stroke[0])
		p.pdf.MoveTo(x0, y0)
		for i := 1; i+1 < len(stroke); i++ {
			cx, cy := at(stroke[i]) // pulls the curve from the middle before it to the middle after it
			x1, y1 := at(stroke[i+1])
			x1, y1 = (cx+x1)/2, (cy+y1)/2
			p.pdf.CurveBezierCubicTo((x0+2*cx)/3, (y0+2*cy)/3, (x1+2*cx)/3, (y1+2*cy)/3, x1, y1)
			x0, y0 = x1, y1
		}
		p.pdf.LineTo(at(stroke[len(stroke)-1])) // of a single point: a dot
		p.pdf.DrawPath("D")
	}
	p.pdf.SetLineCapStyle("butt")
	p.pdf.SetLineJoinStyle("miter")
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
