package papers

import (
	"io"
	"time"

	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/say"

	"codeberg.org/go-pdf/fpdf"
)

// PDF prints the sheet. made is the moment it says it was made, printed in its foot and kept in the file. The same sheet,
// size and moment give the same bytes.
func (s Sheet) PDF(w io.Writer, size plan.PaperSize, made time.Time) error {
	if made.IsZero() { // the print library would ask the clock
		made = time.Unix(0, 0)
	}
	l := s.lay(size, made)
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: l.wide, Ht: l.tall}})
	pdf.AddUTF8FontFromBytes(family, "", assets.SansRegular)
	pdf.AddUTF8FontFromBytes(family, "B", assets.SansBold)
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(made.UTC())
	pdf.SetModificationDate(made.UTC())
	pdf.SetTitle(s.Kind+": "+s.Title, true)
	pdf.SetCreator("Eavelight", true)
	pdf.SetLang("en")
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetLineCapStyle("round")
	pdf.SetLineJoinStyle("round")
	for i := range l.pages {
		pdf.AddPage()
		l.draw(printer{pdf}, i)
	}
	if err := pdf.Output(w); err != nil {
		return say.Error("printing the %s: %v", s.Kind, err)
	}
	return nil
}

const family = "sans"

// printer is the surface of the print library.
type printer struct{ pdf *fpdf.Fpdf }

func (p printer) fill(corners []point, t tint) {
	p.pdf.SetFillColor(t.r, t.g, t.b)
	p.pdf.MoveTo(corners[0].x, corners[0].y)
	for _, c := range corners[1:] {
		p.pdf.LineTo(c.x, c.y)
	}
	p.pdf.ClosePath()
	p.pdf.DrawPath("F")
}

func (p printer) stroke(way path, thick float64, t tint) {
	p.pdf.SetDrawColor(t.r, t.g, t.b)
	p.pdf.SetLineWidth(thick)
	p.pdf.MoveTo(way.from.x, way.from.y)
	for _, s := range way.steps {
		if s.curved {
			p.pdf.CurveBezierCubicTo(s.c1.x, s.c1.y, s.c2.x, s.c2.y, s.to.x, s.to.y)
		} else {
			p.pdf.LineTo(s.to.x, s.to.y)
		}
	}
	p.pdf.DrawPath("D")
}

func (p printer) text(x, y float64, l line) {
	style := ""
	if l.face.bold {
		style = "B"
	}
	p.pdf.SetFont(family, style, l.face.size)
	p.pdf.SetTextColor(l.face.tint.r, l.face.tint.g, l.face.tint.b)
	p.pdf.Text(x, y, l.text)
}
