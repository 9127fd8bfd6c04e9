package media

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"eavelight/plan/say"
)

// Size is a picture in pixels. The zero Size means "not said".
type Size struct {
	Width, Height int
}

// The usual sizes: UHD and HD as broadcasters have them (ITU-R BT.2020 and BT.709), 4K as cinemas have it (DCI), and HD on its side.
var (
	UHD      = Size{3840, 2160}
	HD       = Size{1920, 1080}
	DCI4K    = Size{4096, 2160}
	Vertical = Size{1080, 1920}
)

var named = map[string]Size{"uhd": UHD, "hd": HD, "dci 4k": DCI4K, "vertical": Vertical}

// widest is more pixels on a side than any camera has.
const widest = 65536

var sizeForm = regexp.MustCompile(`([0-9]{1,6})\s*[xX×]\s*([0-9]{1,6})`)

// ParseSize reads "3840x2160", "3840 × 2160", or a name: UHD, HD, DCI 4K, vertical.
func ParseSize(text string) (Size, error) {
	t := strings.TrimSpace(text)
	if s, found := named[strings.ToLower(t)]; found {
		return s, nil
	}
	if m := sizeForm.FindStringSubmatch(t); m != nil && m[0] == t {
		w, _ := strconv.Atoi(m[1])
		h, _ := strconv.Atoi(m[2])
		s := Size{w, h}
		if err := s.check(); err != nil {
			return Size{}, say.Error("%q: %v", text, err)
		}
		return s, nil
	}
	return Size{}, say.Error("%q is not a picture size; write width x height, as in 3840x2160", text)
}

func (s Size) check() error {
	if s.Width < 1 || s.Height < 1 || s.Width > widest || s.Height > widest {
		return say.Error("a picture must be 1 to %d pixels wide and high", widest)
	}
	return nil
}

// String prints what ParseSize reads back: "3840x2160"; nothing for the zero Size.
func (s Size) String() string {
	if s == (Size{}) {
		return ""
	}
	return fmt.Sprintf("%dx%d", s.Width, s.Height)
}

var rateForm = regexp.MustCompile(`(?i)([0-9]+(?:\.[0-9]+|/[0-9]+)?)\s*(?:fps|frames a second|frames per second)\b`)

// FindFormat takes picture size and frame rate from what a user wrote of a deliverable, "UHD 3840x2160, 24 fps". What it does not
// say, or does not say once and plainly, is zero.
func FindFormat(text string) (Size, Rate) {
	var s Size
	var r Rate
	if m := sizeForm.FindAllString(text, 2); len(m) == 1 {
		s, _ = ParseSize(m[0])
	} else if len(m) == 0 {
		for part := range strings.SplitSeq(text, ",") {
			if found, err := ParseSize(part); err == nil {
				s = found
			}
		}
	}
	if m := rateForm.FindAllString(text, 2); len(m) == 1 {
		r, _ = ParseRate(m[0])
	}
	return s, r
}
