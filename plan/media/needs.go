package media

import (
	"errors"
	"fmt"
	"math/big"
)

// Shoot is what is to be recorded and what it is to be kept on.
type Shoot struct {
	Films  []Film
	Stills []Stills
	Card   Store
	Drive  Store
	Backup Backup
	// Offload is how fast cards are read, in MB (10^6 bytes) a second, by the slowest of card, cable and drive. 0: not said.
	Offload   float64
	Batteries []Battery
}

// UsualFill is how far a card or drive is filled, in percent (common practice, no published source).
const UsualFill = 90

// Store is a kind of card or drive. The zero Store means "not said", and none are counted.
type Store struct {
	Capacity Bytes // as sold: 128 * GB
	Fill     int   // how far it may be filled, percent
}

// usable is what may be put on it.
func (s Store) usable() (Bytes, error) {
	if s == (Store{}) {
		return 0, nil
	}
	if s.Capacity < MB || s.Capacity > MaxBytes {
		return 0, fmt.Errorf("it holds %d bytes; it must be %s to %s", int64(s.Capacity), MB, MaxBytes)
	}
	if err := counted("how far it is filled, in percent,", s.Fill, 1, 100); err != nil {
		return 0, err
	}
	return s.Capacity/100*Bytes(s.Fill) + s.Capacity%100*Bytes(s.Fill)/100, nil
}

// Backup is how many copies are kept, and where.
type Backup struct {
	Copies    int // in all, 1 or more
	OnDrives  int // of them; the others are on another kind of media (rented storage, tape), which is not counted here
	Elsewhere int // of them, kept at another place
}

// ThreeTwoOne is the common rule for copies: 3 copies, on 2 kinds of media, 1 of them elsewhere (common practice, no
// published source); so that no one fault, theft or fire takes all.
var ThreeTwoOne = Backup{Copies: 3, OnDrives: 2, Elsewhere: 1}

// Battery is one kind of battery and what it has to carry. Charging in between is left out: on a shooting day it is luck.
type Battery struct {
	Name  string
	Lasts float64 // minutes, of running or of flight
	Hours float64 // to be carried: of the day, or in the air
	Spare int     // percent on top, for cold, age and what is forgotten
}

// Needs is what a Shoot comes to. Words say how each figure came about.
type Needs struct {
	Films     []Footage
	Stills    []Exposures
	Data      Amount // all that is recorded, one copy
	Stored    Amount // in all copies
	Cards     Count
	Drives    Count
	Offload   Time // reading all cards once
	Batteries []Count
	Warnings  []string // where the copies fall short of 3-2-1
}

// Amount is an amount of data and how it came about.
type Amount struct {
	Bytes Bytes
	Words string
}

// Count is a number of things and how it came about.
type Count struct {
	Name  string
	Count int64
	Words string
}

// Time is a length of time and how it came about.
type Time struct {
	Seconds Seconds
	Words   string
}

// Reckon works out what a shoot needs. Its error names the film, the stills, the store or the battery that is at fault.
func Reckon(s Shoot) (Needs, error) {
	var n Needs
	card, err := s.Card.usable()
	if err != nil {
		return Needs{}, fmt.Errorf("card: %w", err)
	}
	drive, err := s.Drive.usable()
	if err != nil {
		return Needs{}, fmt.Errorf("drive: %w", err)
	}
	if err := n.record(s, card); err != nil {
		return Needs{}, err
	}
	if err := n.keep(s, card, drive); err != nil {
		return Needs{}, err
	}
	for _, b := range s.Batteries {
		count, err := batteries(b)
		if err != nil {
			return Needs{}, fmt.Errorf("%s: %w", b.Name, err)
		}
		n.Batteries = append(n.Batteries, count)
	}
	return n, nil
}

// record reckons all that is recorded, and its sum.
func (n *Needs) record(s Shoot, card Bytes) error {
	parts := ""
	sum := func(name string, b Bytes) (err error) {
		if b == 0 {
			return nil
		}
		if parts != "" {
			parts += " + "
		}
		parts += b.String()
		if n.Data.Bytes, err = add(n.Data.Bytes, b); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		return nil
	}
	for _, f := range s.Films {
		got, err := film(f, card)
		if err != nil {
			return fmt.Errorf("%s: %w", f.Name, err)
		}
		n.Films = append(n.Films, got)
		if err := sum(f.Name, got.Data); err != nil {
			return err
		}
	}
	for _, p := range s.Stills {
		got, err := stills(p)
		if err != nil {
			return fmt.Errorf("%s: %w", p.Name, err)
		}
		n.Stills = append(n.Stills, got)
		if err := sum(p.Name, got.Data); err != nil {
			return err
		}
	}
	n.Data.Words = "nothing is recorded"
	if parts != "" {
		n.Data.Words = fmt.Sprintf("%s = %s (%s)", parts, n.Data.Bytes, n.Data.Bytes.GiB())
	}
	return nil
}

// keep reckons what the data is kept on.
func (n *Needs) keep(s Shoot, card, drive Bytes) (err error) {
	b := s.Backup
	if err := counted("the number of copies", b.Copies, 1, 99); err != nil {
		return err
	}
	if err := counted("the number of copies on drives", b.OnDrives, 0, b.Copies); err != nil {
		return err
	}
	if err := counted("the number of copies elsewhere", b.Elsewhere, 0, b.Copies); err != nil {
		return err
	}
	data := n.Data.Bytes
	if n.Stored.Bytes, err = times(data, int64(b.Copies)); err != nil {
		return fmt.Errorf("all copies: %w", err)
	}
	n.Stored.Words = fmt.Sprintf("%s x %s = %s", data, one(int64(b.Copies), "copy", "copies"), n.Stored.Bytes)
	n.Cards = fill("Cards", data, s.Card, card, "card", "cards")
	n.Drives = fill("Drives", data, s.Drive, drive, "drive", "drives")
	if s.Drive != (Store{}) {
		n.Drives.Count *= int64(b.OnDrives)
		n.Drives.Words += fmt.Sprintf("; x %s on drives = %s", one(int64(b.OnDrives), "copy", "copies"), one(n.Drives.Count, "drive", "drives"))
	}
	n.Warnings = b.warnings()
	n.Offload, err = offload(data, s.Offload)
	return err
}

// fill counts how many of a store the data fills.
func fill(name string, data Bytes, s Store, usable Bytes, noun, nouns string) Count {
	if s == (Store{}) {
		return Count{Name: name, Words: "say how much a " + noun + " holds, and they are counted"}
	}
	c := Count{Name: name, Count: int64((data + usable - 1) / usable)} // both at most MaxBytes: the sum fits
	c.Words = fmt.Sprintf("%s / %s (%s filled to %d %%) = %s%s", data, usable, s.Capacity, s.Fill, one(c.Count, noun, nouns),
		rounded(data%usable == 0))
	return c
}

// rounded says so where a division did not come out even.
func rounded(even bool) string {
	if even {
		return ""
	}
	return ", rounded up"
}

// warnings say where the copies fall short of ThreeTwoOne.
func (b Backup) warnings() []string {
	var short []string
	if b.Copies < ThreeTwoOne.Copies {
		short = append(short, fmt.Sprintf("Only %s: three are safer.", one(int64(b.Copies), "copy", "copies")))
	}
	if b.OnDrives == 0 || b.OnDrives == b.Copies {
		short = append(short, "All copies are on one kind of media: two kinds are safer.")
	}
	if b.Elsewhere < ThreeTwoOne.Elsewhere {
		short = append(short, "No copy is kept elsewhere: one at another place is safer.")
	}
	return short
}

// offload is how long reading the data takes at so many MB a second.
func offload(data Bytes, speed float64) (Time, error) {
	if speed == 0 {
		return Time{Words: "say how fast cards are copied, and the time is reckoned"}, nil
	}
	mb, err := exact("the speed of copying, in MB a second,", speed, 0.001, maxMbits)
	if err != nil {
		return Time{}, err
	}
	bytesASecond := new(big.Rat).Mul(mb, big.NewRat(int64(MB), 1))
	seconds, err := up(new(big.Rat).Quo(big.NewRat(int64(data), 1), bytesASecond))
	if err != nil {
		return Time{}, err
	}
	return Time{Seconds(seconds), fmt.Sprintf("%s / %s MB a second = %s for one copy", data, number(speed), Seconds(seconds))}, nil
}

// batteries counts those of one kind.
func batteries(b Battery) (Count, error) {
	c := Count{Name: b.Name}
	lasts, err := exact("how long a battery lasts, in minutes,", b.Lasts, 0, maxCount)
	if err == nil && b.Lasts == 0 {
		err = errors.New("say how long a battery lasts, in minutes")
	}
	if err != nil {
		return c, err
	}
	hours, err := exact("the time to be carried, in hours,", b.Hours, 0, 1000)
	if err != nil {
		return c, err
	}
	if err := counted("what is to spare, in percent,", b.Spare, 0, 1000); err != nil {
		return c, err
	}
	need := new(big.Rat).Mul(hours, big.NewRat(60*int64(100+b.Spare), 100)) // minutes
	quotient := new(big.Rat).Quo(need, lasts)
	if c.Count, err = up(quotient); err != nil {
		return c, err
	}
	spare := ""
	if b.Spare > 0 {
		spare = fmt.Sprintf(" + %d %%", b.Spare)
	}
	minutes, _ := need.Float64()
	c.Words = fmt.Sprintf("%s h%s = %s min; %s min / %s min = %s%s", number(b.Hours), spare, number(minutes), number(minutes), number(b.Lasts),
		one(c.Count, "battery", "batteries"), rounded(quotient.IsInt()))
	return c, nil
}
