package day

import (
	"slices"
	"time"

	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/people"
	"eavelight/plan/say"
)

// Flight is a placed scene that is shot from a drone: its shooting minutes. Its set-up is on the ground.
type Flight struct {
	Scene plan.ID
	plan.Span
	Light people.FlightLight // empty where the plan names no rules to tell it by

	sun official
}

// official is the sun by which flights are told: on a free horizon at the height of the sea, whatever stands around the property.
// A zero rise or set does not happen.
type official struct {
	dawn, rise, noon, set, dusk time.Time
	end                         time.Time // the lowest sun after set, when the next one begins
	known, up                   bool      // whether the position is known; whether the sun stays up where it does not rise or set
}

// flights are the placed scenes that are flown.
func (m *model) flights(d *Day) []Flight {
	var out []Flight
	for _, s := range d.Scenes {
		if sc, _ := m.plan.Scene(s.Scene); people.Flies(m.plan, sc) {
			f := Flight{Scene: s.Scene, Span: plan.Span{From: s.Start, To: s.End}}
			if m.plan.Shooting.Flying.Rules != "" {
				f.Light, f.sun = m.flightLight(f.Span)
			}
			out = append(out, f)
		}
	}
	return out
}

// flightLight is the darkest light of a stretch, and the sun of the day it begins on. Where it goes on past the lowest sun, the rest
// is told by the sun of the next day.
func (m *model) flightLight(s plan.Span) (people.FlightLight, official) {
	o := m.official(s.From)
	if !o.known {
		return people.LightUnknown, o
	}
	light := people.DroneLightBetween(o.dawn, o.rise, o.set, o.dusk, s.From, earlier(s.To, o.end))
	if s.To.After(o.end) {
		rest, next := m.flightLight(plan.Span{From: o.end, To: s.To})
		if light = darker(light, rest); light == people.LightUnknown && rest == light {
			o = next // which says why
		}
	}
	return light, o
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// darker is the light that asks for more; not knowing asks for most.
func darker(a, b people.FlightLight) people.FlightLight {
	order := []people.FlightLight{people.FlightDay, people.FlightTwilight, people.FlightNight, people.LightUnknown}
	return order[max(slices.Index(order, a), slices.Index(order, b))]
}

// official is the sun of the solar day, from lowest to lowest, that a moment lies in.
func (m *model) official(at time.Time) official {
	around := m.sky.Official()
	i := slices.IndexFunc(around, func(e light.Events) bool { return at.Before(e.After) })
	if i < 0 { // no position
		return official{}
	}
	e := around[i]
	o := official{rise: e.Rise.Up, noon: e.Noon, set: e.Rise.Down, end: e.After, known: true, up: e.Rise.Above}
	o.dawn, o.dusk = o.rise.Add(-people.Twilight), o.set.Add(people.Twilight)
	if m.plan.Shooting.Flying.Rules == plan.USPart107Alaska {
		o.dawn, o.dusk = e.Civil.Up, e.Civil.Down
		if o.dawn.IsZero() { // where the sun rises and yet never is so low, twilight lasts all night
			o.dawn = e.Before.Add(-time.Minute)
		}
		if o.dusk.IsZero() {
			o.dusk = e.After.Add(time.Minute)
		}
	}
	return o
}

// Flight returns the flight of a scene.
func (d Day) Flight(scene plan.ID) (Flight, bool) {
	for _, f := range d.Flights {
		if f.Scene == scene {
			return f, true
		}
	}
	return Flight{}, false
}

// Words say what light a flight is in, and what that asks for: "by day", "in civil twilight until 18:52: anti-collision light".
// Where the plan names no rules they are empty.
func (f Flight) Words(zone *time.Location) say.Text {
	switch f.Light {
	case people.FlightDay:
		return say.That("flown|by day")
	case people.FlightTwilight:
		return say.That("%s: anti-collision light", f.twilight(zone))
	case people.FlightNight:
		return say.That("at night: anti-collision light, and a pilot trained for it")
	case people.LightUnknown:
		return say.That("light not known: %s", f.sun.unknown())
	}
	return say.Text{}
}

// twilight names the civil twilight of a flight by the end that matters.
func (f Flight) twilight(zone *time.Location) say.Text {
	if f.morning() {
		return say.That("in civil twilight, by day from %s", clockUp(f.sun.rise, zone))
	}
	return say.That("in civil twilight until %s", clockDown(f.sun.dusk, zone))
}

func (f Flight) morning() bool { return f.From.Before(f.sun.noon) }

// unknown says why the light of a flight is not known.
func (o official) unknown() say.Text {
	switch {
	case !o.known:
		return say.That("the position is not set")
	case o.up:
		return say.That("the sun does not set that day")
	}
	return say.That("the sun does not rise that day")
}

// clockUp and clockDown are the wall clock in whole minutes, on the safe side of a moment.
func clockUp(t time.Time, zone *time.Location) string {
	return clockDown(t.Add(time.Minute-time.Nanosecond), zone)
}

func clockDown(t time.Time, zone *time.Location) string {
	return t.Truncate(time.Minute).In(zone).Format("15:04")
}

// flightWarnings are the problems of the day's flights: the papers first, then each flight's own.
func (m *model) flightWarnings(d *Day) plan.Problems {
	if len(d.Flights) == 0 {
		return nil
	}
	out := people.FlightPapers(m.plan, m.date)
	if open := people.FlightsUnwritten(m.plan); open != nil {
		out = append(out, *open)
	}
	for _, f := range d.Flights {
		sc, _ := m.plan.Scene(f.Scene)
		warn := func(code plan.Code, facts ...any) {
			out = append(out, plan.Problem{Code: code, Level: plan.Warning, Path: m.path(f.Scene), Facts: append([]any{sc.Name()}, facts...)})
		}
		switch missing, help := m.missing(f, d.Zone); {
		case f.Light == people.LightUnknown:
			warn(plan.FlightUnknown, f.sun.unknown())
		case !missing.IsZero():
			when := say.That("flown|at night")
			if f.Light == people.FlightTwilight {
				when = f.twilight(d.Zone)
			}
			warn(plan.FlightDark, when, missing, help)
		}
		if len(sc.People) > 0 {
			var names []string
			for _, id := range sc.People {
				names = append(names, called(m.plan, id))
			}
			section := ""
			if m.plan.Shooting.Flying.Rules != "" {
				section = " (107.39)"
			}
			warn(plan.FlightOverPeople, say.Names(names), section)
		}
	}
	return out
}

// missing says what a flight in the dark lacks by 14 CFR 107.29, and which start would do without it; empty where nothing is missing.
// A pilot without a certificate, or with one that lapsed, is told of for the whole film.
func (m *model) missing(f Flight, zone *time.Location) (what, help say.Text) {
	if f.Light != people.FlightTwilight && f.Light != people.FlightNight {
		return what, help
	}
	var lacks []say.Text
	first, last := f.sun.dawn, f.sun.dusk
	sooner, later := say.Mark("start it at %s or earlier to fly in twilight"), say.Mark("start it at %s or later to fly in twilight")
	if pilot, _, ok := people.Pilot(m.plan, m.date); ok && f.Light == people.FlightNight {
		if c := pilot.Certificate; !c.Trained.IsZero() && !people.TrainedForNight(c) {
			lacks = append(lacks, say.That("%s was not tested or trained after 6 April 2021", pilot.Called()))
		}
	}
	if !m.plan.Shooting.Flying.Light {
		lacks = append(lacks, say.That("the drone has no anti-collision light filled in that is seen for 3 statute miles"))
		first, last = f.sun.rise, f.sun.set
		sooner, later = say.Mark("start it at %s or earlier to fly by day"), say.Mark("start it at %s or later to fly by day")
	}
	help = say.Marked(sooner, clockDown(last.Add(-f.To.Sub(f.From)), zone))
	if f.morning() {
		help = say.Marked(later, clockUp(first, zone))
	}
	return eachAnd(lacks), help
}
