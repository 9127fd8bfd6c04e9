package media

import (
	"fmt"
	"math/big"

	"eavelight/plan/say"
)

// Limits far above any shoot, so that a slip of the finger is told and not reckoned.
const (
	maxSeconds = 100 * 3600
	maxRatio   = 1000
	maxMbits   = 1_000_000
	maxCount   = 1_000_000
	maxBits    = 32
	maxMpx     = 10_000
)

// Film is moving picture to be recorded for one deliverable, or for those of its shots that are recorded alike.
type Film struct {
	Name    string
	Seconds int  // on screen
	Size    Size // zero: not said
	Rate    Rate // that it plays at
	// Recorded is the rate of slow-motion shots, at least Rate; zero: as it plays. The camera is taken to run as long as for any
	// other shot and to write a file for playing, so that footage and data grow with the slowness, which is the
	// careful side. Leave it zero where Bitrate is that of the fast recording itself.
	Recorded Rate
	// Ratio is the shooting ratio: seconds recorded for one on screen, all cameras together; 12 for 12:1 (common practice, no
	// published source). 0: it is cut from what others bring home, and nothing is recorded for it.
	Ratio   float64
	Bitrate float64 // of the recording, Mbit/s; not needed where Ratio is 0
}

// Footage is what a Film comes to.
type Footage struct {
	Name     string
	Frames   int64   // on screen, the nearest whole number
	Running  Seconds // that cameras run
	Footage  Seconds // to look through, played at Rate
	Data     Bytes   // one copy
	CardTime Seconds // that one card lasts, filled as far as it may be; 0 where the card is not said
	Words    say.Text
}

// film reckons one film; usable is what a card takes, 0 if not said.
func film(f Film, usable Bytes) (Footage, error) {
	got := Footage{Name: f.Name}
	if err := counted(say.That("the time on screen, in seconds,"), f.Seconds, 0, maxSeconds); err != nil {
		return got, err
	}
	if f.Size != (Size{}) {
		if err := f.Size.check(); err != nil {
			return got, err
		}
	}
	screen := Seconds(f.Seconds)
	frames, err := f.Rate.Frames(screen)
	if err != nil {
		return got, err
	}
	got.Frames = nearest(frames)
	ratio, err := exact(say.That("the shooting ratio"), f.Ratio, 0, maxRatio)
	if err != nil {
		return got, err
	}
	got.Words = say.That("%s on screen at %s frames a second = %s", screen, f.Rate, about(frames))
	if f.Size != (Size{}) {
		got.Words = say.That("%s on screen at %s frames a second = %s of %s", screen, f.Rate, about(frames), f.Size)
	}
	if f.Ratio == 0 {
		got.Words = say.Join("; ", got.Words, say.That("cut from other footage, nothing is recorded for it"))
		return got, nil
	}
	return got, got.record(f, ratio, usable)
}

// record adds what is recorded for the film.
func (got *Footage) record(f Film, ratio *big.Rat, usable Bytes) error {
	if f.Bitrate == 0 {
		return say.Error("say its bit rate, in Mbit/s")
	}
	bits, err := exact(say.That("the bit rate, in Mbit/s,"), f.Bitrate, 0.001, maxMbits)
	if err != nil {
		return err
	}
	running, err := up(new(big.Rat).Mul(big.NewRat(int64(f.Seconds), 1), ratio))
	if err != nil {
		return err
	}
	got.Running, got.Footage = Seconds(running), Seconds(running)
	runs := say.Number(fmt.Sprintf("%s x %s = %s", Seconds(f.Seconds), number(f.Ratio), got.Running))
	if f.Recorded != (Rate{}) && f.Recorded != f.Rate {
		slower, err := f.Recorded.Slower(f.Rate)
		if err != nil {
			return err
		}
		footage, err := up(slower.Mul(slower, big.NewRat(running, 1)))
		if err != nil {
			return err
		}
		got.Footage = Seconds(footage)
		runs = say.That("%s, x %s / %s slow motion = %s", runs, f.Recorded, f.Rate, got.Footage)
	}
	bytesASecond := new(big.Rat).Mul(bits, big.NewRat(1_000_000, 8))
	data, err := up(new(big.Rat).Mul(bytesASecond, big.NewRat(int64(got.Footage), 1)))
	if err != nil {
		return err
	}
	got.Data = Bytes(data)
	got.CardTime = lasts(usable, bytesASecond)
	written := say.Number(fmt.Sprintf("%s Mbit/s x %s / 8 = %s (%s)", number(f.Bitrate), got.Footage, got.Data, got.Data.GiB()))
	got.Words = say.Join("; ", got.Words, runs, written)
	return nil
}

// lasts is how long a card takes a bit rate, in whole seconds.
func lasts(usable Bytes, bytesASecond *big.Rat) Seconds {
	time := new(big.Rat).Quo(big.NewRat(int64(usable), 1), bytesASecond)
	return Seconds(new(big.Int).Quo(time.Num(), time.Denom()).Int64()) // at most MaxBytes / 125: it fits
}

// nearest rounds a positive fraction to a whole number, halves up.
func nearest(r *big.Rat) int64 {
	doubled := new(big.Int).Mul(r.Num(), big.NewInt(2))
	doubled.Add(doubled, r.Denom())
	return doubled.Quo(doubled, new(big.Int).Mul(r.Denom(), big.NewInt(2))).Int64() // frames of maxSeconds: far below its limits
}

// about words a number of frames.
func about(frames *big.Rat) say.Text {
	text := say.Count(int(nearest(frames)), "%d frame", "%d frames")
	if !frames.IsInt() {
		text = say.That("about %s", text)
	}
	return text
}
