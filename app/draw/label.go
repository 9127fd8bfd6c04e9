package draw

import (
	"sort"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// font is a size and a style of the theme's family.
type font struct {
	size  float32
	style fyne.TextStyle
}

func plain(th fyne.Theme) font { return font{size: th.Size(theme.SizeNameText)} }
func small(th fyne.Theme) font { return font{size: th.Size(theme.SizeNameCaptionText)} }

func (f font) bold() font {
	f.style.Bold = true
	return f
}

func (f font) measure(s string) fyne.Size { return fyne.MeasureText(s, f.size, f.style) }

// height is that of one line of text.
func (f font) height() float32 { return f.measure("Ág").Height }

// fit returns s, or as much of its beginning as fits a width with an ellipsis, or nothing. It never parts a letter from
// its accents, nor leaves a lone ellipsis.
func (f font) fit(s string, room float32) string {
	if s == "" || f.measure(s).Width <= room {
		return s
	}
	letters := []rune(s)
	n := sort.Search(len(letters), func(n int) bool { return f.measure(shorten(letters, n+1)).Width > room })
	for n > 0 && unicode.Is(unicode.M, letters[n]) {
		n--
	}
	if cut := shorten(letters, n); cut != "…" {
		return cut
	}
	return ""
}

func shorten(letters []rune, n int) string {
	return strings.TrimRightFunc(string(letters[:n]), unicode.IsSpace) + "…"
}

// label is a text that wants to stand near an x.
type label struct {
	mid, width float32
	rank       int // lower ranks choose first
}

// spread places labels in one line between two ends, each near its middle and none closer than a gap to the next. It
// returns the left ends, and which labels found room within their own width of where they want to be.
func spread(labels []label, left, right, gap float32) (x []float32, placed []bool) {
	x, placed = make([]float32, len(labels)), make([]bool, len(labels))
	order := make([]int, len(labels))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return labels[order[a]].rank < labels[order[b]].rank })
	free := func(at, width float32) bool {
		for i := range labels {
			if placed[i] && at < x[i]+labels[i].width+gap && x[i] < at+width+gap {
				return false
			}
		}
		return at >= left && at+width <= right
	}
	for _, i := range order {
		l := labels[i]
		want := max(left, min(right-l.width, l.mid-l.width/2))
		for shift := float32(0); shift <= l.width && !placed[i]; shift++ {
			for _, at := range []float32{want - shift, want + shift} {
				if free(at, l.width) {
					x[i], placed[i] = at, true
					break
				}
			}
		}
	}
	return x, placed
}
