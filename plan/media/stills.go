package media

import (
	"errors"
	"fmt"
	"math/big"
)

// Stills are photographs to be taken.
type Stills struct {
	Name       string
	Frames     int     // pictures composed
	Brackets   int     // exposures of each: 1, or 3 and 5 where windows and room are bracketed
	Megapixels float64 // of the sensor, 10^6
	Bits       int     // of a raw value, 12 to 16
	// Compressed raw files are about half as large (common practice, no published source).
	Compressed bool
	Selects    int // pictures that are worked on and delivered, at most Frames
}

// Exposures is what Stills come to.
type Exposures struct {
	Name      string
	Exposures int64
	Each      Bytes // one raw file
	Data      Bytes // one copy of all
	Selects   int
	Words     string
}

func stills(s Stills) (Exposures, error) {
	got := Exposures{Name: s.Name, Selects: s.Selects}
	for _, c := range []struct {
		name         string
		v, low, high int
	}{
		{"the number of pictures", s.Frames, 0, maxCount},
		{"the number of exposures of a picture", s.Brackets, 1, 99},
		{"the number of bits", s.Bits, 1, maxBits},
		{"the number of pictures to deliver", s.Selects, 0, s.Frames},
	} {
		if err := counted(c.name, c.v, c.low, c.high); err != nil {
			return got, err
		}
	}
	pixels, err := exact("the number of megapixels", s.Megapixels, 0, maxMpx)
	if err == nil && s.Megapixels == 0 {
		err = errors.New("say how many megapixels the camera has")
	}
	if err != nil {
		return got, err
	}
	whole := new(big.Rat).Mul(pixels, big.NewRat(int64(s.Bits)*1_000_000, 8))
	got.Exposures = int64(s.Frames) * int64(s.Brackets)
	got.Words = fmt.Sprintf("%s x %s = %s; %s Mpx x %d bit / 8", one(int64(s.Frames), "picture", "pictures"),
		one(int64(s.Brackets), "exposure", "exposures"), one(got.Exposures, "file", "files"), number(s.Megapixels), s.Bits)
	if s.Compressed {
		whole.Quo(whole, big.NewRat(2, 1))
		got.Words += ", about half of it when compressed,"
	}
	each, err := up(whole)
	if err != nil {
		return got, err
	}
	got.Each = Bytes(each)
	if got.Data, err = times(got.Each, got.Exposures); err != nil {
		return got, err
	}
	got.Words += fmt.Sprintf(" = %s each; %d x %s = %s (%s); %d to deliver", got.Each,
		got.Exposures, got.Each, got.Data, got.Data.GiB(), s.Selects)
	return got, nil
}
