package light

import (
	"cmp"
	"slices"
	"time"

	"eavelight/plan"
)

// FrameKind is a fault that the sun can put into a picture.
type FrameKind string

// The faults. Never look at the sun through a lens, nor leave one pointed at it.
const (
	SunInFrame FrameKind = "sun in frame"
	OwnShadow  FrameKind = "own shadow in frame"
)

// A person's shadow reaches into the picture when it is this long: common practice, no published source.
const (
	personHeight  plan.Metres = 1.8
	longestShadow plan.Metres = 3
)

// Frame tells what a sun that is not hidden does to the picture of a level lens that looks toward a bearing and sees that
// many degrees across, of a picture of 16 to 9: the disc stands in the picture, or the shadow of whoever holds the camera
// falls into it.
func Frame(s Sun, camera plan.Bearing, view plan.Angle) (sun, shadow bool) {
	if view <= 0 || s.Apparent <= -SunRadius {
		return false, false
	}
	half := view / 2
	ahead := s.Azimuth.Apart(camera)
	sun = ahead <= half && s.Apparent <= half*9/16
	shadow = 180-ahead <= half && Shadow(personHeight, s) > longestShadow
	return sun, shadow
}

// LitFrom tells from where a sun lights what a lens sees that looks toward a bearing, by the wish that it keeps: Backlit within 45
// degrees ahead of the lens, FrontLit within 45 behind it, SideLit else.
func LitFrom(s Sun, camera plan.Bearing) plan.WishKind {
	switch ahead := s.Azimuth.Apart(camera); {
	case ahead <= cameraCone:
		return plan.Backlit
	case ahead >= 180-cameraCone:
		return plan.FrontLit
	}
	return plan.SideLit
}

// Shadow is the length on level ground of the shadow of something that high. The sun on the horizon would throw it without
// end: it counts as half a degree up.
func Shadow(height plan.Metres, s Sun) plan.Metres { return s.Reach(s.Azimuth, height) }

// FrameWarning is a stretch in which the picture has a fault.
type FrameWarning struct {
	Kind FrameKind
	plan.Span
}

// FrameWarnings are the faults that the sun puts into a scene's picture between two moments, in order of time. A scene
// without a camera bearing or without a view is not judged.
func (s *Sky) FrameWarnings(sc plan.Scene, from, to time.Time) []FrameWarning {
	if sc.Wish.Camera == nil || sc.View <= 0 {
		return nil
	}
	at := s.spot(sc.Space)
	first, last := max(s.MinuteOf(from), 0), min(s.MinuteOf(to), len(s.Minutes))
	fault := func(kind FrameKind) func(int) bool {
		return func(i int) bool {
			if i < first || i >= last || !at.direct(i) {
				return false
			}
			sun, shadow := Frame(s.Minutes[i].Sun, *sc.Wish.Camera, sc.View)
			return kind == SunInFrame && sun || kind == OwnShadow && shadow && at.sunlit(i)
		}
	}
	var out []FrameWarning
	for _, kind := range []FrameKind{SunInFrame, OwnShadow} {
		for _, span := range s.spans(fault(kind)) {
			out = append(out, FrameWarning{kind, span})
		}
	}
	slices.SortStableFunc(out, func(a, b FrameWarning) int { return cmp.Compare(a.From.Unix(), b.From.Unix()) })
	return out
}
