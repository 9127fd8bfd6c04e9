package draw

import (
	"cmp"
	"fmt"
	"image/color"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"eavelight/app/look"
	"eavelight/app/tongue"
	"eavelight/plan/say"
)

// paintTitle writes the title, and at its right what the grounds of the plot mean.
func (w *YearMap) paintTitle(p *pieces, size fyne.Size) {
	th := w.Theme()
	c, f, gap := look.Of(th), small(th), th.Size(theme.SizeNamePadding)
	y, x := gap/2+(plain(th).height()-f.height())/2, size.Width-gap
	for _, key := range []struct {
		word       string
		area, edge color.NRGBA
	}{{tongue.Say("sun down"), c.Night, c.Muted}, {tongue.Say("sun up"), c.Daylight, c.Muted}, {tongue.Say("legend|it holds"), c.Sun.Area, c.Sun.Edge}} {
		x -= f.measure(key.word).Width
		p.text(key.word, x, y, size.Width, f, c.Muted)
		x -= f.size + gap
		p.box(x, y+(f.height()-f.size)/2, f.size, f.size, key.area, key.edge, 1, 0)
		x -= 2.5 * gap
	}
	p.text(w.data.Title, gap, gap/2, x-gap, plain(th).bold(), c.Ink)
}

// paintAxes writes the hours at the left and the months below, their names as short as their room asks for.
func (w *YearMap) paintAxes(p *pieces) {
	th := w.Theme()
	c, f, gap, b := look.Of(th), small(th), th.Size(theme.SizeNamePadding), w.box
	for _, minute := range hourSteps(b.height, f.height()) {
		p.line(b.x-gap, b.y(minute), b.x, b.y(minute), 1, c.Muted)
		p.textRight(fullHour(minute), b.x-1.5*gap, b.y(minute)-f.height()/2, b.x, f, c.Muted)
	}
	bottom := b.top + b.height
	var names [12]string
	narrow := false
	for month := range names {
		from, to := w.month(month)
		names[month] = tongue.Of(say.ShortMonth(time.Month(month + 1)))
		narrow = narrow || f.measure(names[month]).Width+gap > b.dayX(to)-b.dayX(from)
	}
	for month, name := range names {
		if narrow {
			name = strings.ToUpper(name[:1])
		}
		from, to := w.month(month)
		x := b.dayX(from)
		p.line(x, bottom, x, bottom+gap, 1, c.Muted)
		p.textMid(name, (x+b.dayX(to))/2, bottom+1, b.width, f, c.Muted)
	}
}

// month returns the first day of a month, 0 for January, and of the next one.
func (w *YearMap) month(month int) (from, to int) {
	for day := range w.days() {
		switch at := int(w.date(day).Month()) - 1; {
		case at < month:
			from = day + 1
		case at > month:
			return from, day
		}
	}
	return from, w.days()
}

// hourSteps returns the minutes of the hours that get a label in a height: every third, sixth or twelfth.
func hourSteps(height, line float32) (minutes []int) {
	every := 3
	for every < 12 && height*float32(every)/24 < 1.2*line {
		every *= 2
	}
	for h := 0; h <= 24; h += every {
		minutes = append(minutes, h*60)
	}
	return minutes
}

// paintMarks draws a line through each marked date, the chosen one's thicker, and writes their words over the plot.
func (w *YearMap) paintMarks(p *pieces) {
	th := w.Theme()
	c, f, b := look.Of(th), small(th), w.box
	var labels []label
	var words []string
	for _, m := range w.data.Marks {
		if m.Day < 0 || m.Day >= b.days {
			continue
		}
		x, width, line, rank := b.mid(m.Day), float32(1), c.Ink, 1
		if m.Chosen {
			width, line, rank = 2, c.Accent, 0
		}
		p.line(x, b.top-3, x, b.top+b.height, width, line)
		word := f.fit(m.Label, b.width/3)
		labels = append(labels, label{mid: x, width: f.measure(word).Width, rank: rank})
		words = append(words, word)
	}
	x, placed := spread(labels, b.x, b.x+b.width, f.size/2)
	for i, word := range words {
		if placed[i] {
			p.text(word, x[i], b.top-3-f.height(), labels[i].width+1, f, c.Ink)
		}
	}
}

// paintCursor draws the cursor as a column between two feet, and the column under the pointer without.
func (w *YearMap) paintCursor(p *pieces) {
	c, b := look.Of(w.Theme()), w.box
	bottom := b.top + b.height
	if w.hover >= 0 {
		p.line(b.mid(w.hover), b.top, b.mid(w.hover), bottom, 1, c.Muted)
	}
	x, edge := b.mid(w.cursor), c.Ink
	if w.focused {
		edge = c.Accent
	}
	half := max(3.5, b.width/float32(b.days)/2)
	p.line(x-half, b.top, x-half, bottom, 1, edge)
	p.line(x+half, b.top, x+half, bottom, 1, edge)
	p.rect(x-4, b.top-3, 8, 3, edge)
	p.rect(x-4, bottom, 8, 3, edge)
}

// caption tells a day in words: its date, when the wish holds, the daylight, and what is marked.
func (w *YearMap) caption(day int) string {
	var d YearDay
	if day < len(w.data.Days) {
		d = w.data.Days[day]
	}
	date, holds, words := w.date(day), tellSpans(d.Holds), ""
	said := tongue.Say("day of the year|%s %d %s", say.ShortWeekday(date.Weekday()), date.Day(), say.Month(date.Month()))
	switch light := d.Light; {
	case light.To <= light.From:
		words = tongue.Say("%s: %s. The sun stays down", said, holds)
	case light.To-light.From >= dayMinutes:
		words = tongue.Say("%s: %s. The sun stays up", said, holds)
	default:
		words = tongue.Say("%s: %s. Sun %s", said, holds, light.String())
	}
	for _, m := range w.data.Marks { // one that says no more than the date is said already
		if m.Day == day && !strings.Contains(words, m.Label) && m.Label != tongue.Of(say.DayMonth(date)) {
			words += ". " + m.Label
		}
	}
	return words
}

// tellSpans writes the spans and their sum, or the sum alone where they are many.
func tellSpans(spans []MinuteSpan) string {
	const most = 3
	sum := 0
	var words []string
	for _, s := range sorted(spans) {
		sum += s.To - s.From
		words = append(words, s.String())
	}
	switch {
	case sum == 0:
		return tongue.Say("not on this date")
	case sum >= dayMinutes:
		return tongue.Say("light|all day")
	case len(words) > most:
		return tongue.Say("%d times, %s in all, the first %s", len(words), minutes(sum), words[0])
	}
	return strings.Join(words, ", ") + ", " + minutes(sum)
}

// String writes the span on the wall clock: "22:30–01:15".
func (s MinuteSpan) String() string { return clock(s.From) + "–" + clock(s.To) }

// clock writes minutes since midnight; the end of the day is 24:00, where the clock has that.
func clock(minute int) string { return onClock(minute, tongue.Hour) }

// fullHour is clock for minutes that are a full hour.
func fullHour(minute int) string { return onClock(minute, tongue.FullHour) }

func onClock(minute int, write func(time.Time) string) string {
	words := write(midnight.Add(time.Duration(minute) * time.Minute))
	if minute == dayMinutes && words == "00:00" {
		return "24:00"
	}
	return words
}

// minutes writes a duration: "45 min", "3 h 40".
func minutes(n int) string {
	if n < 60 {
		return fmt.Sprintf("%d min", n)
	}
	return fmt.Sprintf("%d h %02d", n/60, n%60)
}

// sorted returns the spans in order, with those that touch or overlap made one, and without the empty ones.
func sorted(spans []MinuteSpan) []MinuteSpan {
	var out []MinuteSpan
	for _, s := range slices.SortedFunc(slices.Values(spans), func(a, b MinuteSpan) int { return cmp.Compare(a.From, b.From) }) {
		switch last := len(out) - 1; {
		case s.To <= s.From:
		case last >= 0 && s.From <= out[last].To:
			out[last].To = max(out[last].To, s.To)
		default:
			out = append(out, s)
		}
	}
	return out
}

// clip returns what sorted spans have between midnight and midnight.
func clip(spans []MinuteSpan) []MinuteSpan {
	var out []MinuteSpan
	for _, s := range spans {
		if s = (MinuteSpan{max(0, s.From), min(dayMinutes, s.To)}); s.To > s.From {
			out = append(out, s)
		}
	}
	return out
}

// without returns the parts of a span that none of some sorted spans covers.
func (s MinuteSpan) without(spans []MinuteSpan) []MinuteSpan {
	var out []MinuteSpan
	for _, o := range spans {
		if o.To <= s.From || o.From >= s.To {
			continue
		}
		if o.From > s.From {
			out = append(out, MinuteSpan{s.From, o.From})
		}
		s.From = o.To
	}
	if s.To > s.From {
		out = append(out, s)
	}
	return out
}

// drawYear draws the picture; its upper left corner is the plot's.
func (w *YearMap) drawYear(p *pen) {
	c, b := look.Of(w.Theme()), w.box
	b.x, b.top = 0, 0
	p.rect(0, 0, b.width, b.height, c.Night)
	holds := make([][]MinuteSpan, b.days)
	var light [][]point
	for i, d := range w.data.Days[:min(b.days, len(w.data.Days))] {
		holds[i] = clip(sorted(d.Holds))
		for _, s := range clip([]MinuteSpan{d.Light}) {
			light = append(light, quad(b.dayX(i), b.y(s.From), b.dayX(i+1), b.y(s.To)))
		}
	}
	p.fill(c.Daylight, light...)
	w.drawGrid(p, b, c)
	areas, edges := yearArea(b, holds)
	p.fill(c.Sun.Area, areas...)
	p.fill(c.Sun.Edge, edges...)
}

// drawGrid draws thin lines for months and for every sixth hour.
func (w *YearMap) drawGrid(p *pen, b yearBox, c *look.Palette) {
	for month := 1; month < 12; month++ {
		from, _ := w.month(month)
		p.rect(b.dayX(from)-0.5, 0, 1, b.height, look.Alpha(c.Muted, 0.25))
	}
	for hour := 6; hour < 24; hour += 6 {
		y := b.y(hour * 60)
		p.dash([]point{{0, y}, {b.width, y}}, 1, 2, 4, look.Alpha(c.Muted, 0.7))
	}
}

// yearArea returns the columns of the area where the wish holds, and its edge: above, below, and at the sides wherever the day
// before or after does not hold.
func yearArea(b yearBox, holds [][]MinuteSpan) (areas, edges [][]point) {
	const edge = 1.25
	beside := func(day int) []MinuteSpan {
		if day < 0 || day >= len(holds) {
			return nil
		}
		return holds[day]
	}
	for i, spans := range holds {
		x0, x1 := b.dayX(i), b.dayX(i+1)
		for _, s := range spans {
			y0, y1 := b.y(s.From), b.y(s.To)
			if thin := 2*edge - (y1 - y0); thin > 0 { // a few minutes must still be seen
				y0, y1 = y0-thin/2, y1+thin/2
			}
			areas = append(areas, quad(x0, y0, x1, y1))
			edges = append(edges, quad(x0, y0, x1, y0+edge), quad(x0, y1-edge, x1, y1))
			for _, o := range s.without(beside(i - 1)) {
				edges = append(edges, quad(x0, b.y(o.From), x0+edge, b.y(o.To)))
			}
			for _, o := range s.without(beside(i + 1)) {
				edges = append(edges, quad(x1-edge, b.y(o.From), x1, b.y(o.To)))
			}
		}
	}
	return areas, edges
}

// quad is a rectangle by two of its corners.
func quad(x0, y0, x1, y1 float32) []point { return []point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}} }
