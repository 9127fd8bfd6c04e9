package light_test

import (
	"fmt"
	"time"

	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/say"
)

// The worked example of Reda & Andreas, Solar Position Algorithm, NREL/TP-560-34302, appendix A.5: azimuth 194.34024.
func ExampleSunAt_nrelSPA() {
	golden := plan.Position{Lat: 39.742476, Lon: -105.1786}
	sun := light.SunAt(golden, time.Date(2003, 10, 17, 19, 30, 30, 0, time.UTC))
	fmt.Printf("azimuth %.2f, altitude %.2f without an atmosphere\n", sun.Azimuth, sun.Altitude)
	// Output: azimuth 194.34, altitude 39.87 without an atmosphere
}

// A scene that wants the evening's golden light, on the longest day in Los Angeles. The window's ends agree to the minute
// with testdata/tables/sun-events.tsv: 6 degrees at 02:30:41 UTC, -4 degrees at 03:25:25 UTC.
func ExampleSky_Windows() {
	p := plan.New()
	p.Property.Position = &plan.Position{Lat: 34.0522, Lon: -118.2437}
	zone, _ := time.LoadLocation("America/Los_Angeles")
	sky := light.NewSky(&p, zone, plan.Date{Year: 2026, Month: time.June, Day: 21})
	toast := plan.Scene{Wish: plan.Wish{Kind: plan.GoldenEvening}}
	for _, w := range sky.Windows(sky.Score(toast)) {
		fmt.Println(sky.Clock(sky.MinuteOf(w.From)), "to", sky.Clock(sky.MinuteOf(w.To)))
	}
	// Output: 19:31 to 20:26
}

// What a row of trees takes of the evening's gold.
func ExampleSky_Explain() {
	p := plan.New()
	p.Property.Position = &plan.Position{Lat: 34.0522, Lon: -118.2437}
	p.Property.Obstacles = []plan.Obstacle{{Name: "Spruce row", Height: 14, Distance: 200, From: 280, To: 320}}
	zone, _ := time.LoadLocation("America/Los_Angeles")
	sky := light.NewSky(&p, zone, plan.Date{Year: 2026, Month: time.June, Day: 21})
	for _, line := range sky.Explain(plan.Scene{Wish: plan.Wish{Kind: plan.GoldenEvening, Direct: true}}) {
		fmt.Println(line)
	}
	// Output:
	// It holds from 19:31 (the sun sinks to 6°) to 19:43 (the sun goes behind the Spruce row).
	// The Spruce row takes the last 24 minutes of gold.
}

// A small lamp against the light of a window: inverse squares, and a stop for each halving.
func ExampleLampHolds() {
	lamp := plan.Lamp{Lux: 7000, Rated: 1, Loss: 1, Subject: 2.5}
	fmt.Println(light.LampHolds(lamp, 900, say.That("the window light")))
	// Output: the lamp gives 560 lux at 2.5 m, the window light 900 lux: 0.7 stops under
}
