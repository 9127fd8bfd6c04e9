package media

import (
	"fmt"
	"math"
	"math/big"

	"eavelight/plan/say"
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
		return 0, say.Error("it holds %d bytes; it must be %s to %s", int64(s.Capacity), MB, MaxBytes)
	}
	if err := counted(say.That("how far it is filled, in percent,"), s.Fill, 1, 100); err != nil {
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
	Warnings  []say.Text // where the copies fall short of 3-2-1
}

// Amount is an amount of data and how it came about.
type Amount struct {
	Bytes Bytes
	Words say.Text
}

// Count is a number of things and how it came about.
type Count struct {
	Name  string
	Count int64
	Words say.Text
}

// Time is a length of time and how it came about.
type Time struct {
	Seconds Seconds
	Words   say.Text
}

// Reckon works out what a shoot needs. Its error names the film, the stills, the store or the battery that is at fault.
func Reckon(s Shoot) (Needs, error) {
	var n Needs
	card, err := s.Card.usable()
	if err != nil {
		return Needs{}, say.Error("card: %v", err)
	}
	drive, err := s.Drive.usable()
	if err != nil {
		return Needs{}, say.Error("drive: %v", err)
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
			return Needs{}, say.Error("%s: %v", b.Name, err)
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
			return say.Error("%s: %v", name, err)
		}
		return nil
	}
	for _, f := range s.Films {
		got, err := film(f, card)
		if err != nil {
			return say.Error("%s: %v", f.Name, err)
		}
		n.Films = append(n.Films, got)
		if err := sum(f.Name, got.Data); err != nil {
			return err
		}
	}
	for _, p := range s.Stills {
		got, err := stills(p)
		if err != nil {
			return say.Error("%s: %v", p.Name, err)
		}
		n.Stills = append(n.Stills, got)
		if err := sum(p.Name, got.Data); err != nil {
			return err
		}
	}
	n.Data.Words = say.That("nothing is recorded")
	if parts != "" {
		n.Data.Words = say.Number(fmt.Sprintf("%s = %s (%s)", parts, n.Data.Bytes, n.Data.Bytes.GiB()))
	}
	return nil
}

// keep reckons what the data is kept on.
func (n *Needs) keep(s Shoot, card, drive Bytes) (err error) {
	b := s.Backup
	if err := counted(say.That("the number of copies"), b.Copies, 1, 99); err != nil {
		return err
	}
	if err := counted(say.That("the number of copies on drives"), b.OnDrives, 0, b.Copies); err != nil {
		return err
	}
	if err := counted(say.That("the number of copies elsewhere"), b.Elsewhere, 0, b.Copies); err != nil {
		return err
	}
	data := n.Data.Bytes
	if n.Stored.Bytes, err = times(data, int64(b.Copies)); err != nil {
		return say.Error("all copies: %v", err)
	}
	n.Stored.Words = say.That("%s x %s = %s", data, copies(b.Copies), n.Stored.Bytes)
	n.Cards = Count{Name: "Cards", Words: say.That("say how much a card holds, and they are counted")}
	if s.Card != (Store{}) {
		n.Cards.Count = filled(data, card)
		n.Cards.Words = filling(data, s.Card, card, say.Count(int(n.Cards.Count), "%d card", "%d cards"))
	}
	n.Drives = Count{Name: "Drives", Words: say.That("say how much a drive holds, and they are counted")}
	if s.Drive != (Store{}) {
		each := filled(data, drive)
		n.Drives.Count = each * int64(b.OnDrives)
		n.Drives.Words = say.Join("; ", filling(data, s.Drive, drive, drives(each)),
			say.That("x %s on drives = %s", copies(b.OnDrives), drives(n.Drives.Count)))
	}
	n.Warnings = b.warnings()
	n.Offload, err = offload(data, s.Offload)
	return err
}

func copies(n int) say.Text { return say.Count(n, "%d copy", "%d copies") }

func drives(n int64) say.Text { return say.Count(int(n), "%d drive", "%d drives") }

// filled is how many of a store the data fills.
func filled(data, usable Bytes) int64 {
	return int64((data + usable - 1) / usable) // both at most MaxBytes: the sum fits
}

// filling says how filled came to so many.
func filling(data Bytes, s Store, usable Bytes, many say.Text) say.Text {
	if data%usable == 0 {
		return say.That("%s / %s (%s filled to %d %%) = %s", data, usable, s.Capacity, s.Fill, many)
	}
	return say.That("%s / %s (%s filled to %d %%) = %s, rounded up", data, usable, s.Capacity, s.Fill, many)
}

// warnings say where the copies fall short of ThreeTwoOne.
func (b Backup) warnings() []say.Text {
	var short []say.Text
	if b.Copies < ThreeTwoOne.Copies {
		short = append(short, say.Count(b.Copies, "Only %d copy: three are safer.", "Only %d copies: three are safer."))
	}
	if b.OnDrives == 0 || b.OnDrives == b.Copies {
		short = append(short, say.That("All copies are on one kind of media: two kinds are safer."))
	}
	if b.Elsewhere < ThreeTwoOne.Elsewhere {
		short = append(short, say.That("No copy is kept elsewhere: one at another place is safer."))
	}
	return short
}

// offload is how long reading the data takes at so many MB a second.
func offload(data Bytes, speed float64) (Time, error) {
	if speed == 0 {
		return Time{Words: say.That("say how fast cards are copied, and the time is reckoned")}, nil
	}
	mb, err := exact(say.That("the speed of copying, in MB a second,"), speed, 0.001, maxMbits)
	if err != nil {
		return Time{}, err
	}
	bytesASecond := new(big.Rat).Mul(mb, big.NewRat(int64(MB), 1))
	seconds, err := up(new(big.Rat).Quo(big.NewRat(int64(data), 1), bytesASecond))
	if err != nil {
		return Time{}, err
	}
	return Time{Seconds(seconds), say.That("%s / %s MB a second = %s for one copy", data, said(speed), Seconds(seconds))}, nil
}

// batteries counts those of one kind.
func batteries(b Battery) (Count, error) {
	c := Count{Name: b.Name}
	lasts, err := exact(say.That("how long a battery lasts, in minutes,"), b.Lasts, 0, maxCount)
	if err == nil && b.Lasts == 0 {
		err = say.Error("say how long a battery lasts, in minutes")
	}
	if err != nil {
		return c, err
	}
	hours, err := exact(say.That("the time to be carried, in hours,"), b.Hours, 0, 1000)
	if err != nil {
		return c, err
	}
	if err := counted(say.That("what is to spare, in percent,"), b.Spare, 0, 1000); err != nil {
		return c, err
	}
	carry, time := new(big.Rat).Mul(hours, big.NewRat(60, 1)), number(b.Hours)+" h"
	if whole := math.Round(b.Hours * 60); math.Abs(b.Hours*60-whole) < 1e-6 && math.Round(b.Hours*100)/100 != b.Hours {
		carry, time = big.NewRat(int64(whole), 1), number(whole)+" min" // whole minutes that no short decimal of an hour tells
	}
	need := new(big.Rat).Mul(carry, big.NewRat(int64(100+b.Spare), 100)) // minutes
	quotient := new(big.Rat).Quo(need, lasts)
	if c.Count, err = up(quotient); err != nil {
		return c, err
	}
	spare := ""
	if b.Spare > 0 {
		spare = fmt.Sprintf(" + %d %%", b.Spare)
	}
	minutes, _ := need.Float64()
	carried, sum := number(minutes)+" min", ""
	if time != carried {
		sum = fmt.Sprintf("%s%s = %s; ", time, spare, carried)
	}
	division := say.Number(fmt.Sprintf("%s%s / %s min", sum, carried, number(b.Lasts)))
	many := say.Count(int(c.Count), "%d battery", "%d batteries")
	c.Words = say.Join(" = ", division, many)
	if !quotient.IsInt() {
		c.Words = say.That("%s = %s, rounded up", division, many)
	}
	return c, nil
}
