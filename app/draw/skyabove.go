package draw

import "eavelight/app/look"

// What a sky ribbon shows beside the sun, where it is told: the expected cloud, and the moon.

// paintTags writes the cloud's words at the top of the sky and the moon's beside the highest point of its path.
func (w *SkyRibbon) paintTags(p *pieces, c *look.Palette, f font) {
	b, a := w.sky, w.data.Axis
	width := b.x + b.width + a.Right
	s := signs{p: p, ink: c.Curve, room: rect{b.x + 3, b.top, b.width - 6, b.horizon - b.top}}
	moon := w.moonPath(b)
	s.thread = w.curves(moon)
	for _, cloud := range w.data.Cloud {
		x0, x1, ok := a.shown(cloud.Span, width)
		if ok && cloud.Value > 0 && f.measure(cloud.Label).Width+8 <= x1-x0 {
			s.put(cloud.Label, f, point{(x0 + x1) / 2, b.top}, 2, point{0, 1})
		}
	}
	half := f.measure(w.data.MoonLabel).Width/2 + 2
	if top, ok := highestPoint(moon, s.room.x+half, s.room.x+s.room.w-half); ok {
		s.put(w.data.MoonLabel, f, top, 6, point{0, 1}, point{0, -1}, point{1, 1}, point{-1, 1}, point{1, -1}, point{-1, -1})
	}
	w.tags = s.taken
}

// curves returns small places along the sun's and the moon's path, which words keep off.
func (w *SkyRibbon) curves(moon [][]point) (places []rect) {
	sun, _ := w.trace(skyBox{x: w.sky.x, width: w.sky.width, top: w.sky.top, horizon: w.sky.horizon, highest: w.sky.highest})
	for _, part := range sun {
		for _, q := range part.points {
			places = append(places, rect{q.x + w.sky.x - 2, q.y - 3, 4, 6})
		}
	}
	for _, part := range moon {
		for _, q := range part {
			places = append(places, rect{q.x - 1, q.y - 2, 2, 4})
		}
	}
	return places
}

// highestPoint is the uppermost of some lines' points between two x, or ok is false when there is none.
func highestPoint(lines [][]point, left, right float32) (top point, ok bool) {
	for _, line := range lines {
		for _, q := range line {
			if q.x >= left && q.x <= right && (!ok || q.y < top.y) {
				top, ok = q, true
			}
		}
	}
	return top, ok
}

// moonPath returns the stretches of the moon's path above the horizon, within its samples, in the widget's units.
func (w *SkyRibbon) moonPath(b skyBox) (lines [][]point) {
	moon := w.data.Moon
	if len(moon) == 0 {
		return nil
	}
	up := false
	for x := b.x; x <= b.x+b.width; x++ {
		t := w.data.Axis.Time(x, b.x+b.width+w.data.Axis.Right)
		altitude := sampleAt(moon, t).Altitude
		if altitude <= 0 || t.Before(moon[0].At) || t.After(moon[len(moon)-1].At) {
			up = false
			continue
		}
		if !up {
			lines = append(lines, nil)
		}
		up = true
		last := len(lines) - 1
		lines[last] = append(lines[last], point{x, b.y(altitude)})
	}
	return lines
}

// drawMoon draws the moon's path as a thread of pale dots with a dark rim: one of the two stands out from any sky.
func (w *SkyRibbon) drawMoon(p *pen, c *look.Palette) {
	var rims, dots [][]point
	for _, line := range w.moonPath(w.sky) {
		for _, piece := range dashes(line, 0.5, 5.5) {
			at := point{piece[0].x - w.sky.x, piece[0].y - w.sky.top}
			rims, dots = append(rims, circle(at, 2)), append(dots, circle(at, 1.2))
		}
	}
	p.fill(c.Casing, rims...)
	p.fill(c.Curve, dots...)
}

// drawCloud draws a veil from the top of the sky: the more cloud, the thicker, the further down and the closer its hatch.
func (w *SkyRibbon) drawCloud(p *pen, c *look.Palette, box skyBox) {
	a := w.data.Axis
	width := w.sky.x + w.sky.width + a.Right
	for _, cloud := range w.data.Cloud {
		x0, x1, ok := a.shown(cloud.Span, width)
		if !ok || !(cloud.Value > 0) {
			continue
		}
		value := float32(min(1, cloud.Value))
		x, wide, height := x0-w.sky.x, x1-x0, box.horizon*(0.2+0.4*value)
		rows := int(height * p.scale) // whole pixels: rows that share one would darken it
		for row := range rows {
			left := 1 - float64(row)/float64(rows)
			p.rect(x, float32(row)/p.scale, wide, 1/p.scale, look.Alpha(c.Cloud, (0.3+0.6*float64(value))*min(1, 1.6*left)))
		}
		var lines [][]point
		for at := x - height; at < x+wide; at += 16 - 9*value {
			if from, to, ok := slant(at, x, 0, wide, height); ok {
				lines = append(lines, outline([]point{from, to}, 0.5))
			}
		}
		p.fill(look.Alpha(c.Curve, 0.4), lines...)
	}
}
