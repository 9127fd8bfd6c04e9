package papers

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"eavelight/plan"
)

// timeline is a stretch of a day that is laid along a width of paper.
type timeline struct {
	wall
	plan.Span
}

// margin is the air at both ends of a timeline, so that no mark stands on its edge.
const margin = 20 * time.Minute

// timeline reaches from the first light or the call to the last light or the wrap; where the sky stays light or dark all night, over the
// whole date.
func (c caller) timeline() timeline {
	s := plan.Span{From: plan.Instant(c.date, plan.ClockAt(0), c.zone), To: plan.Instant(c.date, plan.ClockAt(24*60), c.zone)}
	if civil := c.day.Sky.Events.Civil; !civil.Up.IsZero() && !civil.Down.IsZero() {
		s = plan.Span{From: civil.Up.Add(-margin), To: civil.Down.Add(margin)}
	}
	if d := c.day; !d.Call.IsZero() && d.Wrap.After(d.Call) {
		if from := d.Call.Add(-margin); from.Before(s.From) {
			s.From = from
		}
		if to := d.Wrap.Add(margin); to.After(s.To) {
			s.To = to
		}
	}
	return timeline{c.wall, s.Whole()}
}

// at is where a moment stands on a width; what lies outside stands at the nearer end.
func (l timeline) at(t time.Time, width float64) float64 {
	return width * min(max(t.Sub(l.From).Seconds()/l.To.Sub(l.From).Seconds(), 0), 1)
}

// over is where a span begins and ends on a width. It is empty where the span lies outside.
func (l timeline) over(s plan.Span, width float64) (x0, x1 float64) {
	return l.at(s.From, width), l.at(s.To, width)
}

func (l timeline) holds(t time.Time) bool { return !t.IsZero() && !t.Before(l.From) && !t.After(l.To) }

// hours are the whole hours of the wall clock. Where the clock is set back one comes twice, where it is set forward one is missing,
// as on the wall.
func (l timeline) hours() []time.Time {
	var out []time.Time
	t := l.From.In(l.zone)
	for t = t.Truncate(time.Minute); !t.After(l.To); {
		if t.Minute() == 0 && !t.Before(l.From) {
			out = append(out, t)
		}
		t = t.Add(time.Duration(60-t.Minute()) * time.Minute) // a clock that changes by half an hour may land beside the next
	}
	return out
}

// paintHours draws the scale: a rule with a tick an hour, and under it as many of their times as have room, evenly apart.
func (l timeline) paintHours(on surface, x, y, width float64) {
	f := faceFoot
	rule(on, x, x+width, y, 0.2, soft)
	hours := l.hours()
	wide := 0.0
	for _, h := range hours {
		wide = max(wide, widthOf(l.short(h), f))
	}
	every := 1
	for _, every = range []int{1, 2, 3, 4, 6, 12} {
		if float64(every)*width/l.To.Sub(l.From).Hours() >= wide+tagGap {
			break
		}
	}
	end := 0.0
	for _, h := range hours {
		at := l.at(h, width)
		on.stroke(straight(point{x + at, y}, point{x + at, y + 0.9}), 0.2, soft)
		text := l.short(h)
		w := widthOf(text, f)
		if h.Hour()%every == 0 && at-w/2 >= end && at+w/2 <= width {
			put(on, x+at-w/2, y+0.9, text, f)
			end = at + w/2 + tagGap
		}
	}
}

// short is a whole hour as it stands on a scale: "18:00", or "6\u00a0pm".
func (l timeline) short(t time.Time) string {
	return strings.Replace(l.hour(t), ":00\u00a0", "\u00a0", 1)
}

// hoursTall is the height of the scale.
var hoursTall = 0.9 + faceFoot.lead

// paintGrid draws a hairline an hour through a height.
func (l timeline) paintGrid(on surface, x, y, width, tall float64) {
	for _, h := range l.hours() {
		at := x + l.at(h, width)
		on.stroke(straight(point{at, y}, point{at, y + tall}), 0.1, faint)
	}
}

// put writes a text whose line begins at a height.
func put(on surface, x, y float64, text string, f face) {
	if text != "" {
		on.text(x, y+baseline(f), line{text, f})
	}
}

// tag is a few words that want to stand near a place on a line.
type tag struct {
	mid   float64  // where their middle wants to be
	texts []string // what they may be, the best first
}

// tagGap keeps tags apart.
const tagGap = 1.6

// stood is a tag in its place; where it found none, its text is empty.
type stood struct {
	x, wide float64
	text    string
}

// stand places tags on a line from 0 to a width, the more important ones first, each as near as it can to its place and no farther off
// than its own width. No two come closer than the gap.
func stand(tags []tag, f face, width float64) []stood {
	out := make([]stood, len(tags))
	for i, t := range tags {
		for _, text := range t.texts {
			wide := widthOf(text, f)
			if x, ok := spot(out[:i], t.mid-wide/2, wide, width); ok {
				out[i] = stood{x, wide, text}
				break
			}
		}
	}
	return out
}

// spot finds the free place nearest to the one that is wanted.
func spot(taken []stood, want, wide, width float64) (x float64, ok bool) {
	const hairs = 1e-9 // what rounding may take
	want = max(0, min(want, width-wide))
	spots := []float64{want}
	for _, t := range taken {
		spots = append(spots, t.x-tagGap-wide, t.x+t.wide+tagGap)
	}
	spots = slices.DeleteFunc(spots, func(x float64) bool {
		return x < 0 || x+wide > width+hairs || math.Abs(x-want) > wide || slices.ContainsFunc(taken, func(t stood) bool {
			return t.text != "" && x < t.x+t.wide+tagGap-hairs && t.x < x+wide+tagGap-hairs
		})
	})
	if len(spots) == 0 {
		return 0, false
	}
	return slices.MinFunc(spots, func(a, b float64) int { return cmp.Compare(math.Abs(a-want), math.Abs(b-want)) }), true
}

// cutTo cuts a text to a width, with an ellipsis where something is left out. An accent stays with its letter: it takes no width itself.
func cutTo(text string, f face, width float64) string {
	text = flat(text)
	if widthOf(text, f) <= width {
		return text
	}
	best := ""
	for i := range text {
		cut := strings.TrimRight(text[:i], " \u00a0\u2002,–-") + "…"
		if widthOf(cut, f) > width {
			break
		}
		if cut != "…" {
			best = cut
		}
	}
	return best
}

// flat is a text on one line, as it prints.
func flat(text string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(printable(text), "\u00a0", " ")), " ")
}
