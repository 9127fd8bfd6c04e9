package papers

import go_qr "github.com/piglig/go-qr"

// geoCode is the property's position as a code that a phone reads and opens in its map: a geo URI (RFC 5870) as a QR code (ISO/IEC 18004).
// Its right and upper edges stand on the edges of the text; the quiet zone that the standard asks for on those sides is the page's margin
// and the heading's empty end.
type geoCode struct {
	uri  string
	code *go_qr.QrCode
}

// quiet is how many modules around a code stay empty: ISO/IEC 18004 asks for four.
const quiet = 4

// geoCode is the code of the position. There is none without one.
func (c caller) geoCode() Figure {
	at := c.Property.Position
	if at == nil || !at.Valid() {
		return nil
	}
	code, err := go_qr.EncodeText(at.GeoURI(), go_qr.Medium)
	if err != nil { // too long for a code, which no position is
		return nil
	}
	return geoCode{at.GeoURI(), code}
}

// Words is a Figure's.
func (g geoCode) Words() string { return "(drawn: a code that a phone reads as " + g.uri + ")" }

// module is the side of one of the squares.
func (g geoCode) module(width float64) float64 { return width / float64(g.code.Size()+quiet) }

func (g geoCode) tall(width float64) float64 { return width + faceFoot.lead }

// draw draws the squares as whole runs, across and down, so that no seam shows between two.
func (g geoCode) draw(on surface, x, y, width float64) {
	n, m := g.code.Size(), g.module(width)
	left := x + quiet*m
	run := func(dark func(i int) bool, lay func(from, count int)) {
		for i := 0; i < n; i++ {
			from := i
			for i < n && dark(i) {
				i++
			}
			if i > from {
				lay(from, i-from)
			}
		}
	}
	for k := range n {
		at := float64(k) * m
		run(func(i int) bool { return g.code.Module(i, k) }, func(from, count int) {
			block(on, left+float64(from)*m, y+at, float64(count)*m, m, ink)
		})
		run(func(i int) bool { return g.code.Module(k, i) }, func(from, count int) {
			block(on, left+at, y+float64(from)*m, m, float64(count)*m, ink)
		})
	}
	const words = "scan for a map"
	put(on, x+width-widthOf(words, faceFoot), y+width, words, faceFoot)
}
