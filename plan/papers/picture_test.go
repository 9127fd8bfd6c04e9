package papers

import (
	"fmt"
	"image"
	"image/draw"
	"math"
	"testing"

	"eavelight/assets"
	"eavelight/plan"

	"codeberg.org/go-pdf/fpdf"
)

// TestWidthsAreThePrintLibrarys has the lines break where the print library has room for them: it measures the same.
func TestWidthsAreThePrintLibrarys(t *testing.T) {
	pdf := fpdf.New("P", "mm", "A4", "")
	pdf.AddUTF8FontFromBytes(family, "", assets.SansRegular)
	pdf.AddUTF8FontFromBytes(family, "B", assets.SansBold)
	texts := append([]string{"", "AV To fi 0123456789", "a\u0301 e\u0308", "—·•°", "Scene\u00a07\u2002Toast"}, names...)
	for _, text := range texts {
		for style, f := range map[string]face{"": faceText, "B": faceTitle} {
			pdf.SetFont(family, style, f.size)
			if got, want := widthOf(text, f), pdf.GetStringWidth(text); math.Abs(got-want) > 0.01 {
				t.Errorf("%q in %q: %.3f mm, the print library has %.3f", text, style, got, want)
			}
		}
	}
}

// TestPictureIsThePrint compares our picture of a page with what poppler makes of the same page's PDF: cell by cell of two
// millimetres, the two are as dark.
func TestPictureIsThePrint(t *testing.T) {
	p, d := demo(t)
	q, e := changed(t)
	signed := Sheet{Kind: "Release", Title: "Grete Sandoval", Sections: []Section{{Heading: "Signature",
		Figure: Drawing{plan.PadSize{Width: 1000, Height: 300}, []plan.Stroke{{{X: 10, Y: 200}, {X: 200, Y: 20}, {X: 400, Y: 260}, {X: 900, Y: 120}}}}}}}
	for name, s := range map[string]Sheet{"call sheet": CallSheet(&p, d), "changed call sheet": CallSheet(&q, e), "signature": signed} {
		print := rendered(t, s)
		pages := s.Pages(plan.A4, madeAt)
		ours := image.NewGray(print.Rect)
		draw.Draw(ours, ours.Rect, pages.Picture(0, print.Rect.Dx()), image.Point{}, draw.Src)
		if got, want := darkness(ours, ours.Rect), darkness(print, print.Rect); math.Abs(got-want) > 0.1*want || want == 0 {
			t.Errorf("%s: the page is %.4f dark, the print %.4f", name, got, want)
		}
		const cell = 10 // pixels of a fifth of a millimetre
		worst, where := 0.0, ""
		for y := 0; y+cell <= print.Rect.Dy(); y += cell {
			for x := 0; x+cell <= print.Rect.Dx(); x += cell {
				r := image.Rect(x, y, x+cell, y+cell)
				if far := math.Abs(darkness(ours, r) - darkness(print, r)); far > worst {
					worst, where = far, fmt.Sprint(r)
				}
			}
		}
		if worst > 0.25 { // the two smooth letters and hairlines in other ways
			t.Errorf("%s: %.2f of a cell differs at %s", name, worst, where)
		}
	}
}

// darkness is the share of black in a part of a picture.
func darkness(g *image.Gray, r image.Rectangle) float64 {
	sum := 0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			sum += 255 - int(g.GrayAt(x, y).Y)
		}
	}
	return float64(sum) / 255 / float64(r.Dx()*r.Dy())
}

func BenchmarkCallSheetPDF(b *testing.B) {
	p, d := demo(b)
	s := CallSheet(&p, d)
	b.ReportAllocs()
	for b.Loop() {
		printed(b, s, plan.A4)
	}
}

func BenchmarkLayout(b *testing.B) {
	p, d := demo(b)
	s := CallSheet(&p, d)
	for b.Loop() {
		s.lay(plan.A4, madeAt)
	}
}

func BenchmarkPagePicture(b *testing.B) {
	p, d := demo(b)
	pages := CallSheet(&p, d).Pages(plan.A4, madeAt)
	for b.Loop() {
		pages.Picture(0, 800)
	}
}
