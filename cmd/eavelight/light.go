package main

import (
	"fmt"
	"regexp"
	"strconv"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
	"eavelight/plan/locate"
	"eavelight/plan/store"
)

type lightCommand struct {
	Plan    string `arg:"" optional:"" help:"The plan whose property it is."`
	At      string `help:"A position in place of a plan: latitude,longitude in degrees, or anything the window takes." placeholder:"LAT,LON"`
	Date    string `help:"The date, as in 2027-10-16; otherwise the plan's dates, or today." placeholder:"DATE"`
	Instant string `help:"Tell the sun's place at a moment too, as in 2027-10-16T18:00:00Z." placeholder:"TIME"`
	JSON    bool   `help:"Print JSON for machines."`
}

// lightReport is what light --json prints. Times are UTC, null where they do not happen; angles are degrees.
type lightReport struct {
	Position position    `json:"position"`
	Zone     string      `json:"zone"`
	Days     []dayLight  `json:"days"`
	Instant  *sunMoment  `json:"instant,omitempty"`
	Limits   lightLimits `json:"limits"`
}

type position struct {
	Lat float64 `json:"lat"`
	Lon float64 `json:"lon"`
}

type lightLimits struct {
	GoldenLow  plan.Angle `json:"goldenLow"`
	GoldenHigh plan.Angle `json:"goldenHigh"`
	BlueLow    plan.Angle `json:"blueLow"`
	BlueHigh   plan.Angle `json:"blueHigh"`
}

type dayLight struct {
	Date             string     `json:"date"`
	AstronomicalDawn *time.Time `json:"astronomicalDawn"`
	NauticalDawn     *time.Time `json:"nauticalDawn"`
	CivilDawn        *time.Time `json:"civilDawn"`
	BlueMorning      limits     `json:"blueMorning"`
	GoldenMorning    limits     `json:"goldenMorning"`
	Sunrise          *time.Time `json:"sunrise"`
	Noon             *time.Time `json:"noon"`
	NoonAltitude     plan.Angle `json:"noonAltitude"`
	Sunset           *time.Time `json:"sunset"`
	GoldenEvening    limits     `json:"goldenEvening"`
	BlueEvening      limits     `json:"blueEvening"`
	CivilDusk        *time.Time `json:"civilDusk"`
	NauticalDusk     *time.Time `json:"nauticalDusk"`
	AstronomicalDusk *time.Time `json:"astronomicalDusk"`
	Moonrise         *time.Time `json:"moonrise"` // within the civil day
	Moonset          *time.Time `json:"moonset"`
	MoonLit          float64    `json:"moonLit"` // share of the disc at 21:00, 0 to 1
}

// limits are when the sun passes the two altitudes that bound a light.
type limits struct {
	Start *time.Time `json:"start"`
	End   *time.Time `json:"end"`
}

type sunMoment struct {
	Time             time.Time    `json:"time"`
	TrueAltitude     plan.Angle   `json:"trueAltitude"`
	ApparentAltitude plan.Angle   `json:"apparentAltitude"`
	Azimuth          plan.Bearing `json:"azimuth"`
}

// Run is kong's.
func (c lightCommand) Run(w world) error {
	p, err := c.plan()
	if err != nil {
		return err
	}
	if p.Property.Position == nil {
		return fmt.Errorf("%s has no position; set it in the window, or name one with --at", c.Plan)
	}
	zone, err := time.LoadLocation(p.Property.Zone)
	if err != nil {
		return err
	}
	var instant *time.Time
	if c.Instant != "" {
		t, err := time.Parse(time.RFC3339, c.Instant)
		if err != nil {
			return fmt.Errorf("--instant %q is not a moment; write it as in 2027-10-16T18:00:00Z or 2027-10-16T11:00:00-07:00", c.Instant)
		}
		instant = &t
	}
	dates, err := c.dates(p, zone, instant, w.now())
	if err != nil {
		return err
	}
	report := newLightReport(p, zone, dates, instant)
	if c.JSON {
		return printJSON(w, report)
	}
	report.print(w, zone)
	return nil
}

// plan reads the plan, or makes one of the position.
func (c lightCommand) plan() (plan.Plan, error) {
	switch {
	case c.Plan != "" && c.At != "":
		return plan.Plan{}, fmt.Errorf("name a plan or a position with --at, not both")
	case c.Plan != "":
		p, _, err := store.Read(c.Plan)
		if err == nil && p.Property.Zone == "" && p.Property.Position != nil {
			p.Property.Zone, err = locate.Zone(*p.Property.Position)
		}
		return p, err
	case c.At == "":
		return plan.Plan{}, fmt.Errorf("name a plan, or a position with --at")
	}
	at, err := positionOf(c.At)
	if err != nil {
		return plan.Plan{}, err
	}
	p := plan.New()
	p.Property.Position = &at
	p.Property.Zone, err = locate.Zone(at)
	return p, err
}

// twoFigures is LAT,LON as programs write it, which leaves no doubt about the comma.
var twoFigures = regexp.MustCompile(`^(-?\d+(?:\.\d+)?),\s*(-?\d+(?:\.\d+)?)$`)

// positionOf reads --at: two figures, or anything that means one place.
func positionOf(text string) (plan.Position, error) {
	if m := twoFigures.FindStringSubmatch(text); m != nil {
		lat, _ := strconv.ParseFloat(m[1], 64)
		lon, _ := strconv.ParseFloat(m[2], 64)
		if at := (plan.Position{Lat: lat, Lon: lon}); at.Valid() {
			return at, nil
		}
	}
	found, err := locate.Parse(text)
	if err != nil {
		return plan.Position{}, err
	}
	if len(found) > 1 {
		return plan.Position{}, fmt.Errorf("%d places are called %q, the largest %s and %s; add the state or country", len(found), text, found[0].Name, found[1].Name)
	}
	return found[0].Position, nil
}

func (c lightCommand) dates(p plan.Plan, zone *time.Location, instant *time.Time, now time.Time) ([]plan.Date, error) {
	if c.Date != "" {
		d, err := plan.ParseDate(c.Date)
		if err == nil && (d.Year < 1900 || d.Year > 2100) {
			err = fmt.Errorf("%s is outside the years 1900 to 2100, in which the sun is known well enough", d)
		}
		return []plan.Date{d}, err
	}
	if instant != nil {
		return []plan.Date{plan.DateOf(instant.In(zone))}, nil
	}
	if dates := day.Candidates(&p); len(dates) > 0 {
		return dates, nil
	}
	return []plan.Date{plan.DateOf(now.In(zone))}, nil
}

func newLightReport(p plan.Plan, zone *time.Location, dates []plan.Date, instant *time.Time) lightReport {
	pos, l := *p.Property.Position, p.Shooting.Light
	r := lightReport{
		Position: position{pos.Lat, pos.Lon},
		Zone:     p.Property.Zone,
		Limits:   lightLimits{l.GoldenLow, l.GoldenHigh, l.BlueLow, l.BlueHigh},
	}
	for _, d := range dates {
		r.Days = append(r.Days, newDayLight(light.EventsOf(p.Property, zone, d, l), light.MoonDayOf(p.Property, zone, d)))
	}
	if instant != nil {
		s := light.NewTrack(p.Property, *instant, *instant).At(*instant)
		r.Instant = &sunMoment{instant.UTC(), s.Altitude, s.Apparent, s.Azimuth}
	}
	return r
}

func newDayLight(e light.Events, moon light.MoonDay) dayLight {
	return dayLight{
		Date:             e.Date.String(),
		AstronomicalDawn: utc(e.Astronomical.Up),
		NauticalDawn:     utc(e.Nautical.Up),
		CivilDawn:        utc(e.Civil.Up),
		BlueMorning:      limits{utc(e.BlueLow.Up), utc(e.BlueHigh.Up)},
		GoldenMorning:    limits{utc(e.GoldenLow.Up), utc(e.GoldenHigh.Up)},
		Sunrise:          utc(e.Rise.Up),
		Noon:             utc(e.Noon),
		NoonAltitude:     e.NoonAltitude,
		Sunset:           utc(e.Rise.Down),
		GoldenEvening:    limits{utc(e.GoldenHigh.Down), utc(e.GoldenLow.Down)},
		BlueEvening:      limits{utc(e.BlueHigh.Down), utc(e.BlueLow.Down)},
		CivilDusk:        utc(e.Civil.Down),
		NauticalDusk:     utc(e.Nautical.Down),
		AstronomicalDusk: utc(e.Astronomical.Down),
		Moonrise:         utc(moon.Rise),
		Moonset:          utc(moon.Set),
		MoonLit:          moon.Lit,
	}
}

// utc is a moment for JSON, to the second; nil where it does not happen.
func utc(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	t = t.UTC().Round(time.Second)
	return &t
}

// whole is a limit of a light as windows are counted, from whole minute to whole minute.
func whole(t *time.Time) *time.Time {
	if t == nil {
		return nil
	}
	w := plan.Span{From: *t}.Whole().From
	return &w
}

func (r lightReport) print(w world, zone *time.Location) {
	fmt.Fprintf(w.out, "%.5f, %.5f  %s\n", r.Position.Lat, r.Position.Lon, r.Zone)
	for _, d := range r.Days {
		date, _ := plan.ParseDate(d.Date)
		at := func(t *time.Time) string {
			if t == nil {
				return "-"
			}
			return clockOn(date, *t, zone)
		}
		fmt.Fprintf(w.out, "\n%s\n", date.Long())
		for _, line := range []struct {
			name     string
			from, to *time.Time
		}{
			{"astronomical twilight", d.AstronomicalDawn, d.AstronomicalDusk},
			{"nautical twilight", d.NauticalDawn, d.NauticalDusk},
			{"civil twilight", d.CivilDawn, d.CivilDusk},
			{"sunrise, sunset", d.Sunrise, d.Sunset},
			{"blue morning", whole(d.BlueMorning.Start), whole(d.BlueMorning.End)},
			{"golden morning", whole(d.GoldenMorning.Start), whole(d.GoldenMorning.End)},
			{"golden evening", whole(d.GoldenEvening.Start), whole(d.GoldenEvening.End)},
			{"blue evening", whole(d.BlueEvening.Start), whole(d.BlueEvening.End)},
			{"moonrise, moonset", d.Moonrise, d.Moonset},
		} {
			fmt.Fprintf(w.out, "  %-22s %8s  %8s\n", line.name, at(line.from), at(line.to))
		}
		fmt.Fprintf(w.out, "  %-22s %8s  at %.1f°\n", "noon", at(d.Noon), d.NoonAltitude)
		fmt.Fprintf(w.out, "  %-22s %6.0f %%  lit at 21:00\n", "moon", 100*d.MoonLit)
	}
	if i := r.Instant; i != nil {
		fmt.Fprintf(w.out, "\n%s: sun %.2f° above the horizontal (%.2f° as seen), bearing %.2f°\n",
			i.Time.In(zone).Format("2006-01-02 15:04:05 -07:00"), i.TrueAltitude, i.ApparentAltitude, i.Azimuth)
	}
	fmt.Fprintln(w.out, "\nNever look at the sun through a lens.")
}
