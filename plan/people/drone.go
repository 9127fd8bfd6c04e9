package people

import (
	"time"

	"eavelight/plan/say"
)

// DroneCaution stands wherever a drone is planned for. It is a form.
var DroneCaution = say.Mark("The local aviation authority and the pilot's certificate decide.")

// Twilight is how long, before official sunrise and after official sunset, 14 CFR 107.29(c) calls civil twilight everywhere in the
// United States but Alaska. It is a length of time and not a place of the sun: -6 degrees may come earlier or later.
const Twilight = 30 * time.Minute

// FlightLight is what light a flight is in, by 14 CFR part 107.
type FlightLight string

// The kinds of light. By day a small drone needs no light; in twilight it needs an anti-collision light (107.29(b)); at night that
// and a pilot who was trained or tested for it (107.29(a)). LightUnknown: the sun does not rise or set.
const (
	FlightDay      FlightLight = "day"
	FlightTwilight FlightLight = "twilight"
	FlightNight    FlightLight = "night"
	LightUnknown   FlightLight = "unknown"
)

// DroneLight tells the darkest light of a flight from one time to another, on the day of an official sunrise and sunset: those of
// a free sea-level horizon, never the skyline's. It holds in the United States but not in Alaska: see DroneLightBetween. A flight
// that ends at sunset to the second is by day; one that is no longer than an instant counts as that instant.
//
// Official times are published in whole minutes. With exact ones, what is told here may change up to half a minute earlier.
func DroneLight(rise, set, from, to time.Time) FlightLight {
	return DroneLightBetween(rise.Add(-Twilight), rise, set, set.Add(Twilight), from, to)
}

// DroneLightBetween is DroneLight with the civil twilight given. In Alaska it is that of the Air Almanac, from and to -6 degrees.
func DroneLightBetween(dawn, rise, set, dusk, from, to time.Time) FlightLight {
	if rise.IsZero() || set.IsZero() || !rise.Before(set) {
		return LightUnknown
	}
	within := func(begin, end time.Time) bool {
		return !from.Before(begin) && from.Before(end) && !to.After(end)
	}
	switch {
	case within(rise, set):
		return FlightDay
	case within(dawn, dusk):
		return FlightTwilight
	}
	return FlightNight
}

// DroneRule is a rule of 14 CFR part 107 that a drone scene has to keep, in our words.
type DroneRule struct {
	Section  string
	Says     string // a form
	Verified bool   // against a copy of the section; otherwise from memory
}

// DroneRules are those that a day with a small drone in the United States meets, in the order of their sections. Not all of them:
// DroneCaution.
var DroneRules = []DroneRule{
	{"107.12", say.Mark("The pilot holds a remote pilot certificate."), false},
	{"107.29(a)", say.Mark("At night the pilot was tested or trained for it after 6 April 2021, and an anti-collision light that flashes is seen " +
		"for 3 statute miles; it may be dimmed, but not put out."), true},
	{"107.29(b), (c)", say.Mark("The same light in civil twilight: the 30 minutes before official sunrise and after official sunset; in Alaska as " +
		"in the Air Almanac."), true},
	{"107.31", say.Mark("The drone stays in sight, with no help but glasses."), true},
	{"107.39", say.Mark("Not over people, unless they take part in the flight, or are under a roof or in a vehicle that stands and protects " +
		"them, or the drone is of a category that may."), true},
	{"107.41", say.Mark("In controlled airspace only with the authority's permission."), false},
	{"107.51", say.Mark("At most 87 knots; at most 400 ft above the ground, or above a structure that is within 400 ft; visibility 3 statute " +
		"miles; 500 ft below clouds and 2,000 ft beside them."), true},
	{"107.65", say.Mark("The pilot was tested or trained for it within the last 24 calendar months."), true},
	{"107.110", say.Mark("Over a crowd in the open air only with remote identification, even with the lightest drones."), true},
}
