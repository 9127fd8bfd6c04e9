package media

import (
	"fmt"
	"math/big"

	"eavelight/plan/say"
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
	Words     say.Text
}

func stills(s Stills) (Exposures, error) {
	got := Exposures{Name: s.Name, Selects: s.Selects}
	for _, c := range []struct {
		name         say.Text
		v, low, high int
	}{
		{say.That("the number of pictures"), s.Frames, 0, maxCount},
		{say.That("the number of exposures of a picture"), s.Brackets, 1, 99},
		{say.That("the number of bits"), s.Bits, 1, maxBits},
		{say.That("the number of pictures to deliver"), s.Selects, 0, s.Frames},
	} {
		if err := counted(c.name, c.v, c.low, c.high); err != nil {
			return got, err
		}
	}
	pixels, err := exact(say.That("the number of megapixels"), s.Megapixels, 0, maxMpx)
	if err == nil && s.Megapixels == 0 {
		err = say.Error("say how many megapixels the camera has")
	}
	if err != nil {
		return got, err
	}
	whole := new(big.Rat).Mul(pixels, big.NewRat(int64(s.Bits)*1_000_000, 8))
	got.Exposures = int64(s.Frames) * int64(s.Brackets)
	if s.Compressed {
		whole.Quo(whole, big.NewRat(2, 1))
	}
	each, err := up(whole)
	if err != nil {
		return got, err
	}
	got.Each = Bytes(each)
	if got.Data, err = times(got.Each, got.Exposures); err != nil {
		return got, err
	}
	got.Words = s.words(got)
	return got, nil
}

// words say how an Exposures came about.
func (s Stills) words(got Exposures) say.Text {
	files := say.That("%s x %s = %s", say.Count(s.Frames, "%d picture", "%d pictures"),
		say.Count(s.Brackets, "%d exposure", "%d exposures"), say.Count(int(got.Exposures), "%d file", "%d files"))
	each := say.That("%s Mpx x %d bit / 8 = %s each", said(s.Megapixels), s.Bits, got.Each)
	if s.Compressed {
		each = say.That("%s Mpx x %d bit / 8, about half of it when compressed, = %s each", said(s.Megapixels), s.Bits, got.Each)
	}
	data := say.Number(fmt.Sprintf("%d x %s = %s (%s)", got.Exposures, got.Each, got.Data, got.Data.GiB()))
	return say.Join("; ", files, each, data, say.That("%d to deliver", s.Selects))
}
