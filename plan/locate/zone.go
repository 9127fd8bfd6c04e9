package locate

import (
	"fmt"
	"math"
	"runtime/debug"
	"sync"

	"github.com/ringsaturn/tzf"

	"eavelight/plan"
	"eavelight/plan/say"
)

var zones = sync.OnceValues(unpackZones)

// unpackZones reads the borders of the time zones, simplified, from OpenStreetMap by way of timezone-boundary-builder (Open
// Database License). It takes 100 MB more than it keeps, which are given back at once.
func unpackZones() (tzf.F, error) {
	finder, err := tzf.NewDefaultFinder()
	debug.FreeOSMemory()
	return finder, err
}

// Zone names the time zone of a position as IANA does: "America/Los_Angeles". At sea it is one of the nautical zones, such
// as Etc/GMT+2, whose sign is against the custom: two hours behind. Borders are true to about a kilometre; where two
// countries claim the land, one of their zones is given.
func Zone(p plan.Position) (string, error) {
	if !p.Valid() {
		return "", say.Error("%s is not on the Earth; latitude goes from -90 to 90, longitude from -180 to 180", p)
	}
	finder, err := zones()
	if err != nil {
		return "", say.Error("the time zones can't be looked up (%v); write the zone by its name, such as Europe/Paris", err)
	}
	if name := finder.GetTimezoneName(p.Lon, p.Lat); name != "" {
		return name, nil
	}
	return nautical(p.Lon), nil
}

// nautical is the zone by longitude alone, for a gap between simplified borders.
func nautical(lon float64) string {
	switch hours := int(math.Round(lon / 15)); {
	case hours > 0:
		return fmt.Sprintf("Etc/GMT-%d", hours)
	case hours < 0:
		return fmt.Sprintf("Etc/GMT+%d", -hours)
	}
	return "Etc/GMT"
}
