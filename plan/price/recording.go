package price

import (
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/media"
)

// Recorded is what a plan's days record and what that is kept on. ok is false where the plan says nothing of how it records.
func Recorded(p *plan.Plan, days []day.Day) (n media.Needs, ok bool, err error) {
	r := p.Pricing.Recording
	if r.Ratio == 0 && r.Bitrate == 0 && r.Megapixels == 0 && r.Copies == 0 && len(r.Batteries) == 0 {
		return media.Needs{}, false, nil
	}
	n, err = media.Reckon(shootOf(p, days))
	return n, true, err
}

func shootOf(p *plan.Plan, days []day.Day) media.Shoot {
	r := p.Pricing.Recording
	gb := func(n int) media.Store {
		if n == 0 {
			return media.Store{}
		}
		return media.Store{Capacity: media.Bytes(n) * media.GB, Fill: media.UsualFill}
	}
	s := media.Shoot{Card: gb(r.Card), Drive: gb(r.Drive), Offload: float64(r.Offload),
		Backup: media.Backup{Copies: max(r.Copies, 1), OnDrives: r.OnDrives, Elsewhere: r.Elsewhere}}
	for _, d := range p.Brief.Deliverables {
		size, rate := media.FindFormat(d.Format)
		switch kind := d.KindOr(); {
		case kind == plan.Stills:
			if r.Megapixels > 0 && r.Bits > 0 {
				s.Stills = append(s.Stills, media.Stills{Name: d.Name, Frames: d.Stills, Brackets: max(d.Exposures, 1),
					Megapixels: r.Megapixels, Bits: r.Bits, Compressed: r.Packed, Selects: d.Stills})
			}
		case d.Seconds > 0 && rate.Den > 0:
			f := media.Film{Name: d.Name, Seconds: d.Seconds, Size: size, Rate: rate}
			if kind == plan.Film && r.Bitrate > 0 {
				f.Ratio, f.Bitrate = r.Ratio, r.Bitrate
			}
			s.Films = append(s.Films, f)
		}
	}
	present, flying := hoursOfShoot(p, days)
	for _, b := range r.Batteries {
		hours := present
		if b.Flying {
			hours = flying
		}
		s.Batteries = append(s.Batteries, media.Battery{Name: b.Name, Lasts: float64(b.Lasts), Hours: hours, Spare: b.Spare})
	}
	return s
}

// hoursOfShoot are the hours from call to wrap, and those of scenes shot from the air, of the day with the most: batteries are
// charged overnight.
func hoursOfShoot(p *plan.Plan, days []day.Day) (present, flying float64) {
	for _, d := range days {
		present = max(present, float64(d.Length())/60)
		air := 0.0
		for _, at := range d.Scenes {
			if aerial(p, at.Scene) {
				air += at.End.Sub(at.Start).Hours()
			}
		}
		flying = max(flying, air)
	}
	return present, flying
}

// kept counts the cards, drives or batteries that a rate is for. What can't be reckoned is none; the page says why.
func kept(p *plan.Plan, days []day.Day, r plan.Rate) exact {
	n, ok, err := Recorded(p, days)
	if !ok || err != nil {
		return whole(0)
	}
	switch r.Per {
	case plan.PerCard:
		return whole(int(n.Cards.Count))
	case plan.PerDrive:
		return whole(int(n.Drives.Count))
	}
	total := 0
	for _, b := range n.Batteries {
		total += int(b.Count)
	}
	return whole(total)
}

func aerial(p *plan.Plan, id plan.ID) bool {
	scene, _ := p.Scene(id)
	space, _ := p.Space(scene.Space)
	return space.Kind == plan.Aerial
}
