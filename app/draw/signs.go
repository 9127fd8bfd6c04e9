package draw

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
)

// signs puts words where there is room for them: none over another, and if it can be none over a thread.
type signs struct {
	p      *pieces
	room   rect
	inside func(rect) bool // a closer limit than room; nil for none
	clear  func(rect) bool // where words should lie; nil for anywhere
	thread []rect          // what words should not lie on
	ink    color.Color
	taken  []rect // where words lie
	over   []rect // those of them that are not clear, or on the thread
}

// put writes words near a place, in the first of some directions and as near to a distance as there is room: rather whole than
// cut, and rather clear than over things. Words that find no place are left out.
func (s *signs) put(words string, f font, from point, distance float32, ways ...point) {
	if words == "" {
		return
	}
	for _, try := range []struct{ cut, over bool }{{false, false}, {false, true}, {true, false}, {true, true}} {
		for _, out := range ways {
			for more := float32(0); more <= 3*f.size; more += 4 {
				at := from.along(out, distance+more)
				shown := f.fit(words, s.between(at, out))
				box := s.box(f.measure(shown), at, out)
				if shown == "" || shown != words && !try.cut || !s.free(box, try.over) {
					continue
				}
				s.taken = append(s.taken, box)
				if try.over {
					s.over = append(s.over, box)
				}
				s.p.text(shown, box.x, box.y, box.w+1, f, s.ink)
				return
			}
		}
	}
}

// box is the place of words of a size that leave a point in a direction.
func (s *signs) box(size fyne.Size, at, out point) rect {
	return rect{at.x - (1-out.x)*size.Width/2, at.y - (1-out.y)*size.Height/2, size.Width, size.Height}
}

// between is the width that words leaving a point in a direction have between the ends of the room, and at most most of it.
func (s *signs) between(at, out point) float32 {
	const share, least = 0.6, 1e-3
	left, right := at.x-s.room.x-1, s.room.x+s.room.w-at.x-1
	return min(share*s.room.w, 2*left/max(least, 1-out.x), 2*right/max(least, 1+out.x))
}

// free reports that a place is inside, not taken and, unless words may lie over things, clear and off the thread.
func (s *signs) free(box rect, over bool) bool {
	if box.y < s.room.y || box.y+box.h > s.room.y+s.room.h || s.inside != nil && !s.inside(box) {
		return false
	}
	meets := func(gap float32) func(rect) bool {
		return func(r rect) bool {
			return box.x < r.x+r.w+gap && r.x < box.x+box.w+gap && box.y < r.y+r.h && r.y < box.y+box.h
		}
	}
	if slices.ContainsFunc(s.taken, meets(2)) {
		return false
	}
	return over || (s.clear == nil || s.clear(box)) && !slices.ContainsFunc(s.thread, meets(0))
}
