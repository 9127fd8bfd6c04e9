package draw

import (
	"image/color"
	"math"
	"slices"
	"sort"

	"eavelight/app/look"
)

// byBearing returns the indices of the faces in the order of their bearings.
func byBearing(faces []HouseFace) []int {
	order := make([]int, len(faces))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return faces[order[a]].Bearing < faces[order[b]].Bearing })
	return order
}

// drawSheet draws what stays while the sun moves: the torn rim, the sheet, the sun's path.
func (w *HousePlan) drawSheet(p *pen) {
	c, b := look.Of(w.Theme()), w.box
	rim, horizon := b.torn(w.data.Skyline), b.outline()
	for depth := float32(3); depth > 0; depth-- { // the rim lies a little above the page
		p.fill(look.Alpha(c.Casing, 0.08), shift(rim, point{0, depth}))
	}
	p.fill(c.Ground, rim)
	p.stroke(append(rim, rim[0], rim[1]), 1, c.Ridge)
	p.fill(c.Daylight, horizon)
	p.stroke(append(horizon, horizon[0], horizon[1]), 1, c.Ridge)
	for _, altitude := range []float64{30, 60} {
		var round []point
		for bearing := 0.0; bearing <= 360; bearing += 3 {
			round = append(round, b.at(bearing, altitude))
		}
		p.dash(round, 1, 1.5, 6, look.Alpha(c.Muted, 0.55))
	}
	w.drawNorth(p, c)
}

// drawNorth cuts a notch into the rim where true north is.
func (w *HousePlan) drawNorth(p *pen, c *look.Palette) {
	b := w.box
	base := b.mid.y - b.horizon(0)
	p.fill(c.Curve, []point{{b.mid.x - 4, base}, {b.mid.x + 4, base}, {b.mid.x, base - 7}})
}

// outline is the horizon as a polygon.
func (b planBox) outline() (shape []point) {
	for bearing := 0.0; bearing < 360; bearing += 2 {
		shape = append(shape, b.mid.along(way(bearing), b.horizon(bearing)))
	}
	return shape
}

// torn is the rim's outer edge as a polygon: the skyline, roughened by less than a degree as torn paper is.
func (b planBox) torn(skyline []float64) (shape []point) {
	const steps = 360
	for i := range steps {
		bearing := float64(i) * 360 / steps
		rough := 0.6 * float32(math.Sin(float64(i*i%97)))
		shape = append(shape, b.mid.along(way(bearing), b.edge(bearing, skylineAt(skyline, bearing))+rough))
	}
	return shape
}

// skylineAt interpolates a skyline; a value that is no number is a free horizon.
func skylineAt(skyline []float64, bearing float64) float64 {
	n := len(skyline)
	if n == 0 {
		return 0
	}
	whole, share := math.Modf(turn(bearing) / 360 * float64(n))
	a, b := skyline[int(whole)%n], skyline[(int(whole)+1)%n]
	if v := a + (b-a)*share; finite(v) {
		return v
	}
	return 0
}

// drawMoment draws the light of the moment, the house in it, the path over it, and the sun.
func (w *HousePlan) drawMoment(p *pen) {
	c, now := look.Of(w.Theme()), w.data.Now
	sheet := c.Daylight
	if !now.At.IsZero() && now.Altitude < 0 {
		sheet = c.Night
		p.fill(look.Alpha(sheet, 0.85), w.box.outline())
	}
	plain := func(places []rect) {
		for _, r := range places {
			p.rect(r.x-1, r.y+2, r.w+2, r.h-4, look.Alpha(sheet, 0.8))
		}
	}
	direct := !now.At.IsZero() && finite(now.Azimuth+now.Altitude) && now.Altitude > 0 && !now.Hidden
	if direct && len(w.walls) > 0 {
		w.drawLight(p, c)
	}
	plain(w.words)
	w.drawHouse(p, c, direct)
	w.drawPath(p, c)
	plain(w.over)
	w.drawSun(p, c)
}

// drawLight draws the house's shadow and the rays that meet its lit side.
func (w *HousePlan) drawLight(p *pen, c *look.Palette) {
	b, now := w.box, w.data.Now
	toward := way(now.Azimuth)
	p.fill(c.Shade, b.shadow(w.walls, now))
	const rays, pieces = 7, 12
	half := b.house * halfWidth(w.walls, toward)
	across := point{-toward.y, toward.x}
	for i := range rays {
		offset := half * (2*float32(i) + 1 - rays) / rays
		from := b.house * front(w.walls, toward, offset/b.house)
		length := (0.8*b.horizon(now.Azimuth) - from) * float32(math.Cos(now.Altitude*math.Pi/180))
		start := b.mid.along(across, offset).along(toward, from)
		for k := range pieces { // fading away from the house
			a, z := start.along(toward, length*float32(k)/pieces), start.along(toward, length*float32(k+1)/pieces)
			share := 1 - float64(k)/pieces
			p.stroke([]point{a, z}, 1.1*half/rays, look.Alpha(c.Sun.Area, 0.75*share))
		}
	}
}

// shadow is the shape the house's shadow has: the house drawn out away from the sun, the longer the lower it stands, and
// never off the sheet.
func (b planBox) shadow(walls []wall, now PathPoint) []point {
	const height = 0.7 // of the house, where the distance from its middle to a wall is 1
	away := way(now.Azimuth + 180)
	room := 0.9*b.horizon(now.Azimuth+180) - b.house*reach(walls)
	length := min(room, b.house*height/float32(math.Tan(max(1, now.Altitude)*math.Pi/180)))
	var points []point
	for _, one := range walls {
		corner := b.mid.along(one.a, b.house)
		points = append(points, corner, corner.along(away, length))
	}
	return hull(points)
}

// halfWidth is how far the house reaches to either side of its middle, seen along a direction.
func halfWidth(walls []wall, toward point) (half float32) {
	for _, one := range walls {
		half = max(half, float32(math.Abs(float64(one.a.x*toward.y-one.a.y*toward.x))))
	}
	return half
}

// front is how far from the middle's line across the house begins, for a ray that comes from a direction at an offset to its side.
func front(walls []wall, toward point, offset float32) float32 {
	near := float32(math.MaxFloat32)
	for _, one := range walls {
		n := way(one.bearing)
		if facing := n.x*toward.x + n.y*toward.y; facing > 1e-3 {
			near = min(near, (1-offset*(n.y*toward.x-n.x*toward.y))/facing)
		}
	}
	return near
}

// hull is the convex hull of some points.
func hull(points []point) []point {
	points = slices.Clone(points)
	sort.Slice(points, func(i, j int) bool {
		return points[i].x < points[j].x || points[i].x == points[j].x && points[i].y < points[j].y
	})
	chain := func(points []point) (side []point) {
		for _, q := range points {
			for n := len(side); n > 1 && cross(side[n-2], side[n-1], q) <= 0; n = len(side) {
				side = side[:n-1]
			}
			side = append(side, q)
		}
		return side[:max(0, len(side)-1)]
	}
	lower := chain(points)
	slices.Reverse(points)
	return append(lower, chain(points)...)
}

// cross is positive when a, b, c turn clockwise on the screen.
func cross(a, b, c point) float32 { return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x) }

func shift(shape []point, by point) []point {
	moved := make([]point, len(shape))
	for i, q := range shape {
		moved[i] = point{q.x + by.x, q.y + by.y}
	}
	return moved
}

// drawHouse draws a roof of one facet a wall, and along each wall a strip for each of its faces: dark and thin in the
// shade, bright and the deeper the more squarely the sun meets it.
func (w *HousePlan) drawHouse(p *pen, c *look.Palette, direct bool) {
	b := w.box
	corner := func(q point, share float32) point { return b.mid.along(q, b.house*share) }
	for _, one := range w.walls {
		facet := []point{b.mid, corner(one.a, 1), corner(one.b, 1)}
		p.fill(c.Roof, facet)
		p.fill(look.Alpha(c.Casing, w.shade(one, direct)), facet)
	}
	for _, one := range w.walls {
		p.stroke([]point{b.mid, corner(one.a, 1)}, 1, c.Present)
		if len(one.faces) == 0 {
			p.dash([]point{corner(one.a, 1), corner(one.b, 1)}, 1.5, 4, 3, c.Present)
		}
		for k, face := range one.faces {
			n := float32(len(one.faces))
			a, z := between(one.a, one.b, float32(k)/n), between(one.a, one.b, float32(k+1)/n)
			strength, fill, edge := float32(max(0, min(1, w.data.Faces[face].Strength))), c.Present, c.Present
			if strength > 0 {
				fill, edge = c.Glow.Area, c.Glow.Edge
			}
			inner := 1 - 0.07 - 0.28*strength
			strip := []point{corner(a, 1), corner(z, 1), corner(z, inner), corner(a, inner)}
			p.fill(fill, strip)
			p.stroke(append(strip, strip[0], strip[1]), 1.25, edge)
		}
	}
}

// shade is how dark a roof's facet is: more on the side away from the sun.
func (w *HousePlan) shade(one wall, direct bool) float64 {
	if !direct {
		return 0.1
	}
	return 0.09 - 0.09*math.Cos((w.data.Now.Azimuth-one.bearing)*math.Pi/180)
}

func between(a, b point, share float32) point {
	return point{a.x + (b.x-a.x)*share, a.y + (b.y-a.y)*share}
}

// drawPath draws the sun's path above the horizon: dots, fainter where the skyline hides it, and a bead at each full hour.
func (w *HousePlan) drawPath(p *pen, c *look.Palette) {
	var seen, hidden [][]point
	for _, dot := range w.thread() {
		if dot.hidden {
			hidden = append(hidden, circle(dot.at, 0.9))
		} else {
			seen = append(seen, circle(dot.at, 1.3))
		}
	}
	p.fill(c.Muted, hidden...)
	p.fill(c.Ink, seen...)
	for _, bead := range w.beads() {
		fill := c.Glow.Area
		if bead.hidden {
			fill = c.Daylight
		}
		p.disc(bead.at, 3.6, c.Ink)
		p.disc(bead.at, 2.6, fill)
	}
}

// drawSun draws the sun: full in the open, hollow behind the skyline, and a ring on the rim when it is down.
func (w *HousePlan) drawSun(p *pen, c *look.Palette) {
	now, b := w.data.Now, w.box
	if now.At.IsZero() || !finite(now.Azimuth+now.Altitude) {
		return
	}
	at := b.at(now.Azimuth, now.Altitude)
	fill, edge := c.Glow.Area, c.Glow.Edge
	switch {
	case now.Altitude < 0:
		at, fill, edge = b.mid.along(way(now.Azimuth), b.horizon(now.Azimuth)+b.rim*0.08), c.Ground, c.Curve
	case now.Hidden:
		fill = c.Daylight
	default:
		for r := float32(16); r > 8; r -= 2 {
			p.disc(at, r, look.Alpha(c.Glow.Area, 0.16))
		}
	}
	ring(p, at, 8, fill, edge)
}

func ring(p *pen, at point, radius float32, fill, edge color.NRGBA) {
	p.disc(at, radius, edge)
	p.disc(at, radius-1.75, fill)
}
