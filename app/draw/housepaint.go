package draw

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"eavelight/app/look"
	"eavelight/app/tongue"
)

// beadHour is a place on the sun's path.
type bead struct {
	at     point
	hour   int // on the wall clock
	hidden bool
}

// thread returns the dots of the path above the horizon, evenly apart.
func (w *HousePlan) thread() (dots []bead) {
	const apart = 5
	left := float32(0)
	w.path(func(a, b PathPoint) {
		from, to := w.box.at(a.Azimuth, a.Altitude), w.box.at(b.Azimuth, b.Altitude)
		length := hypot(to.x-from.x, to.y-from.y)
		for ; left < length; left += apart {
			dots = append(dots, bead{at: between(from, to, left/length), hidden: a.Hidden})
		}
		left -= length
	})
	return dots
}

// beads returns the path's places at full hours of the wall clock.
func (w *HousePlan) beads() (beads []bead) {
	axis := Axis{Zone: w.data.Zone}
	w.path(func(a, b PathPoint) {
		t := nextHour(axis.in(a.At).Add(-time.Nanosecond))
		if step := b.At.Sub(a.At); step > 0 && t.Before(b.At) {
			share := float32(t.Sub(a.At).Seconds() / step.Seconds())
			at := between(w.box.at(a.Azimuth, a.Altitude), w.box.at(b.Azimuth, b.Altitude), share)
			beads = append(beads, bead{at: at, hour: t.Hour(), hidden: a.Hidden})
		}
	})
	return beads
}

// path calls visit for each step of the path with both ends up.
func (w *HousePlan) path(visit func(a, b PathPoint)) {
	for i := 1; i < len(w.data.Path); i++ {
		if a, b := w.data.Path[i-1], w.data.Path[i]; a.Altitude >= 0 && b.Altitude >= 0 {
			visit(a, b)
		}
	}
}

func (w *HousePlan) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	if len(w.data.Faces)+len(w.data.Path) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
		return
	}
	c, gap := look.Of(th), th.Size(theme.SizeNamePadding)
	w.box = w.lay(size)
	height := size.Height - plain(th).height() - gap
	p.pic(0, 0, size.Width, height)
	around := signs{p: p, ink: c.Ink, room: rect{0, 0, size.Width, height}}
	w.paintAround(&around, th)
	sheet := signs{p: p, ink: c.Ink, room: rect{w.box.mid.x - w.box.wide, w.box.mid.y - w.box.high, 2 * w.box.wide, 2 * w.box.high}, inside: w.box.holds,
		clear: func(r rect) bool { return w.box.beside(w.walls, r) }, taken: slices.Clone(around.taken)} // a long word reaches in over the rim
	for _, dots := range [][]bead{w.thread(), w.beads()} {
		for _, dot := range dots {
			sheet.thread = append(sheet.thread, rect{dot.at.x - 3, dot.at.y - 1, 6, 2})
		}
	}
	w.paintWalls(&sheet, th)
	w.paintHours(&sheet, th)
	w.words, w.over = sheet.taken[len(around.taken):], sheet.over
	p.textMid(w.data.Caption, size.Width/2, size.Height-plain(th).height()-gap/2, size.Width-2*gap, plain(th), c.Ink)
}

// holds reports that a place lies on the sheet.
func (b planBox) holds(r rect) bool {
	for _, q := range quad(r.x, r.y, r.x+r.w, r.y+r.h) {
		d := point{q.x - b.mid.x, q.y - b.mid.y}
		bearing := math.Atan2(float64(d.x), float64(-d.y)) * 180 / math.Pi
		if hypot(d.x, d.y) > b.horizon(bearing) {
			return false
		}
	}
	return true
}

// beside reports that a place lies before some wall of the house, and so not on it.
func (b planBox) beside(walls []wall, r rect) bool {
	for _, one := range walls {
		n, nearest := way(one.bearing), float32(math.MaxFloat32)
		for _, q := range quad(r.x, r.y, r.x+r.w, r.y+r.h) {
			nearest = min(nearest, (q.x-b.mid.x)*n.x+(q.y-b.mid.y)*n.y)
		}
		if nearest >= b.house {
			return true
		}
	}
	return len(walls) == 0
}

// paintAround writes N and the obstacles outside the rim.
func (w *HousePlan) paintAround(s *signs, th fyne.Theme) {
	b, f := w.box, small(th)
	outside := func(bearing float64) float32 { return b.edge(bearing, skylineAt(w.data.Skyline, bearing)) + 3 }
	s.put("N", f.bold(), b.mid, outside(0), way(0))
	for _, m := range w.data.Obstacles {
		if finite(m.Bearing) {
			s.put(m.Name, f, b.mid, outside(m.Bearing), way(m.Bearing))
		}
	}
}

// paintWalls writes the faces' names before their walls.
func (w *HousePlan) paintWalls(s *signs, th fyne.Theme) {
	b := w.box
	for _, one := range w.walls {
		for k, face := range one.faces {
			out := way(one.bearing)
			foot := b.mid.along(between(one.a, one.b, (float32(k)+0.5)/float32(len(one.faces))), b.house)
			s.put(w.data.Faces[face].Name, plain(th), foot, 3, out)
		}
	}
}

// beadHour is the word of an hour beside its bead: "18", or "6 pm".
func beadHour(hour int) string {
	words := tongue.FullHour(midnight.Add(time.Duration(hour) * time.Hour))
	if strings.HasSuffix(words, ":00") {
		return strconv.Itoa(hour)
	}
	return words
}

// paintHours writes the even hours beside their beads, on the side of the horizon or, where that is too near, of the zenith.
func (w *HousePlan) paintHours(s *signs, th fyne.Theme) {
	for _, one := range w.beads() {
		if one.hour%2 != 0 {
			continue
		}
		out := unit(w.box.mid, one.at)
		if out == (point{}) {
			out = point{0, 1}
		}
		s.put(beadHour(one.hour), small(th), one.at, 4, out, point{-out.x, -out.y})
	}
}
