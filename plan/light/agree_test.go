package light

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"eavelight/plan"

	"github.com/sixdouglas/suncalc"
	"pgregory.net/rapid"
)

// skyApart is the angle on the sky between two places of the sun, in degrees.
func skyApart(a, b Sun) float64 {
	dAlt := float64(a.Altitude - b.Altitude)
	dAz := float64(a.Azimuth.Apart(b.Azimuth)) * math.Cos(float64(a.Altitude)/deg)
	return math.Hypot(dAlt, dAz)
}

// TestSunAgainstSuncalc holds the sun against a second, independent way of computing it, at 1000 places and moments. That
// library's own error was measured as up to 0.28 degrees in 2024-2040, so 0.3 is all that can be asked; it would show a
// wrong sign, a wrong zone or a wrong date at once.
func TestSunAgainstSuncalc(t *testing.T) {
	const seed = 20260321
	r := rand.New(rand.NewPCG(seed, 1))
	from := utc(t, "2024-01-01T00:00:00Z")
	worst := 0.0
	for range 1000 {
		pos := plan.Position{Lat: math.Asin(2*r.Float64()-1) * deg, Lon: 360*r.Float64() - 180}
		at := from.Add(time.Duration(r.Float64() * 16 * 365.25 * 24 * float64(time.Hour)))
		theirs := suncalc.GetPosition(at, pos.Lat, pos.Lon)
		them := Sun{Altitude: plan.Angle(theirs.Altitude * deg), Azimuth: plan.Bearing(theirs.Azimuth*deg + 180).Norm()}
		us := SunAt(pos, at)
		d := skyApart(us, them)
		worst = max(worst, d)
		if !(d <= 0.3) {
			t.Errorf("seed %d, %v at %v: ours %.4f %.4f, theirs %.4f %.4f", seed, pos, at, us.Altitude, us.Azimuth, them.Altitude, them.Azimuth)
		}
	}
	t.Logf("worst %.4f degrees", worst)
}

// TestFortyYears holds sun and moon against a second ephemeris from 2020 to 2060, all over the Earth
// (testdata/tables/sun-moon-2020-2060.tsv): the sun within 0.01 degrees, the moon within 0.05, its lit share within 0.005,
// sunrise and sunset within 15 seconds and within 5 at middle latitudes.
func TestFortyYears(t *testing.T) {
	var worstSun, worstMoon, worstEvent float64
	for _, r := range table(t, "sun-moon-2020-2060.tsv") {
		pos, when := plan.Position{Lat: number(t, r[0]), Lon: number(t, r[1])}, utc(t, r[2])
		them := func(c int) Sun {
			return Sun{Altitude: plan.Angle(number(t, r[c])), Azimuth: plan.Bearing(number(t, r[c+1]))}
		}
		moon := MoonAt(pos, when)
		sunOff := skyApart(them(3), SunAt(pos, when))
		moonOff := skyApart(them(5), Sun{Altitude: moon.Altitude, Azimuth: moon.Azimuth})
		worstSun, worstMoon = max(worstSun, sunOff), max(worstMoon, moonOff)
		if !(sunOff <= 0.01 && moonOff <= 0.05) {
			t.Errorf("%v %v: the sun is %.4f degrees off, the moon %.4f", pos, when, sunOff, moonOff)
		}
		close(t, r[2]+" moon lit", moon.Lit, number(t, r[7]), 0.005)
		for c, down := range map[int]bool{8: false, 9: true} {
			if r[c] == "none" {
				continue
			}
			want, limit := utc(t, r[c]), 15.0
			if math.Abs(pos.Lat) < 50 {
				limit = 5
			}
			off := math.Abs(nearestEvent(pos, want, down).Sub(want).Seconds())
			worstEvent = max(worstEvent, off)
			if !(off <= limit) {
				t.Errorf("%v %v: event %.1f s off", pos, want, off)
			}
		}
	}
	t.Logf("worst: sun %.4f degrees, moon %.4f degrees, rise and set %.1f s", worstSun, worstMoon, worstEvent)
}

// nearestEvent is the sunrise or sunset that comes nearest to a moment, of the dates around it.
func nearestEvent(pos plan.Position, to time.Time, down bool) (best time.Time) {
	for days := -1; days <= 1; days++ {
		e := EventsOf(under(pos), time.UTC, plan.DateOf(to).AddDays(days), usual)
		at := e.Rise.Up
		if down {
			at = e.Rise.Down
		}
		if at.Sub(to).Abs() < best.Sub(to).Abs() {
			best = at
		}
	}
	return best
}

// TestMinutesAgainstSunAt: going through the minutes leads to the same suns.
func TestMinutesAgainstSunAt(t *testing.T) {
	from := utc(t, "2027-03-19T11:17:00Z")
	seen := 0
	for i, sun := range NewTrack(under(spaPlace), from, from.AddDate(0, 0, 4)).Minutes(from, 4*24*60) {
		if d := skyApart(SunAt(spaPlace, from.Add(time.Duration(i)*time.Minute)), sun); !(d < 0.000005) {
			t.Fatalf("minute %d: %.7f degrees off", i, d)
		}
		seen++
	}
	if seen != 4*24*60 {
		t.Errorf("%d minutes", seen)
	}
}

// TestQuickTrigonometry holds the tabled sines and arc tangents against package math.
func TestQuickTrigonometry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(-1e5, 1e5).Draw(t, "angle")
		s, c := sincosOf(angle)
		if ws, wc := math.Sincos(math.Remainder(angle, 360) * rad); !(math.Abs(s-ws) < 1e-11 && math.Abs(c-wc) < 1e-11) {
			t.Fatalf("%v: sine %v cosine %v, want %v %v", angle, s, c, ws, wc)
		}
		y, x := rapid.Float64Range(-1, 1).Draw(t, "y"), rapid.Float64Range(-1, 1).Draw(t, "x")
		if got, want := arcOf(y, x), math.Atan2(y, x)*deg; x != 0 && y != 0 && !(math.Abs(got-want) < 1e-9) {
			t.Fatalf("direction of %v, %v: %v, want %v", y, x, got, want)
		}
	})
	for _, c := range []struct{ y, x, want float64 }{{0, 0, 0}, {1, 0, 90}, {-1, 0, -90}, {0, 1, 0}, {0, -1, 180}, {1, 1, 45}, {-1, -1, -135}} {
		close(t, "direction", arcOf(c.y, c.x), c.want, 1e-9)
	}
}

// TestTrackAgainstSunAt: interpolating is worth less than 0.000005 degrees anywhere on a track, also at its ends.
func TestTrackAgainstSunAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pos := anyPosition(t)
		from := time.Unix(rapid.Int64Range(-631152000, 4102444800).Draw(t, "from"), 0) // 1950 to 2100
		length := time.Duration(rapid.Int64Range(0, int64(400*24*time.Hour)).Draw(t, "length"))
		track := NewTrack(under(pos), from, from.Add(length))
		at := from.Add(time.Duration(rapid.Float64Range(0, 1).Draw(t, "share") * float64(length)))
		for _, at := range []time.Time{at, from, from.Add(length)} {
			if d := skyApart(SunAt(pos, at), track.At(at)); !(d < 0.000005) {
				t.Fatalf("at %v: %.7f degrees off", at, d)
			}
		}
	})
}

// TestTrackAllocatesNothing: a year is half a million minutes.
func TestTrackAllocatesNothing(t *testing.T) {
	from := utc(t, "2027-01-01T00:00:00Z")
	track := NewTrack(under(spaPlace), from, from.AddDate(0, 0, 10))
	var sum plan.Angle
	minute := from
	if n := testing.AllocsPerRun(1000, func() { minute = minute.Add(time.Minute); sum += track.At(minute).Altitude }); n != 0 {
		t.Errorf("%v allocations a minute", n)
	}
}

// TestMoonAgainstLibraries: at moonrise and moonset (testdata/tables/sun-moon-positions.tsv) the moon's upper limb stands
// 34' under the horizon without an atmosphere, its centre a semidiameter lower, which is 0.245 to 0.28 degrees with its
// distance (Meeus ch. 55).
func TestMoonAgainstLibraries(t *testing.T) {
	all := places(t)
	worst, limbs := 0.0, 34.0/60+0.2625
	for _, r := range table(t, "sun-moon-positions.tsv") {
		for _, cell := range r[10:12] {
			if cell == "none" {
				continue
			}
			when, _ := moment(t, date(t, r[1]), cell)
			d := math.Abs(float64(MoonAt(all[r[0]].Position, when).Altitude) + limbs)
			worst = max(worst, d)
			if !(d <= 0.05) {
				t.Errorf("%s %s: the moon is %.3f degrees off at %v", r[0], r[1], d, when)
			}
		}
	}
	t.Logf("worst %.3f degrees", worst)
}

// TestMeeusExample48a: p. 347, 1992 April 12 at 0h TD: 0.6786 of the moon is lit (phase angle 69.0756 degrees).
func TestMeeusExample48a(t *testing.T) {
	// TD is 59 s ahead of UT then (Meeus ch. 10, table 10.A)
	close(t, "lit", MoonAt(plan.Position{}, utc(t, "1992-04-11T23:59:01Z")).Lit, 0.6786, 0.0005)
}

// anyPosition draws a place on the Earth, the poles and the date line among them.
func anyPosition(t *rapid.T) plan.Position {
	return plan.Position{
		Lat: rapid.Float64Range(-90, 90).Draw(t, "lat"),
		Lon: rapid.Float64Range(-180, 180).Draw(t, "lon"),
	}
}

// BenchmarkYear computes the sun of a year by the minute, four ways, so that the ratios can be read in one run.
func BenchmarkYear(b *testing.B) {
	from := utc(b, "2027-01-01T00:00:00Z")
	const minutes = 365 * 24 * 60
	sum := 0.0
	each := func(name string, year func()) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				year()
			}
		})
	}
	by := func(altitude func(time.Time) float64) {
		for i := range minutes {
			sum += altitude(from.Add(time.Duration(i) * time.Minute))
		}
	}
	each("Minutes", func() {
		for _, sun := range NewTrack(under(spaPlace), from, from.Add(minutes*time.Minute)).Minutes(from, minutes) {
			sum += float64(sun.Altitude)
		}
	})
	each("At", func() {
		track := NewTrack(under(spaPlace), from, from.Add(minutes*time.Minute))
		by(func(at time.Time) float64 { return float64(track.At(at).Altitude) })
	})
	each("suncalc", func() {
		by(func(at time.Time) float64 { return suncalc.GetPosition(at, spaPlace.Lat, spaPlace.Lon).Altitude })
	})
	each("SunAt", func() {
		by(func(at time.Time) float64 { return float64(SunAt(spaPlace, at).Altitude) })
	})
	if math.IsNaN(sum) {
		b.Fatal("no sum")
	}
}
