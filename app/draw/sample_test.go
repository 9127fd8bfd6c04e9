package draw

import (
	"fmt"
	"math"
	"time"
)

// An invented day, 14 May 2027, at an invented house; the sun is a plain sine, which is enough to draw with.

var zone = time.FixedZone("house", -7*3600)

func at(hour, minute int) time.Time { return time.Date(2027, 5, 14, hour, minute, 0, 0, zone) }

func span(h0, m0, h1, m1 int, label string) Span { return Span{at(h0, m0), at(h1, m1), label} }

func sampleAxis() Axis {
	return Axis{From: at(4, 30), To: at(21, 30), Zone: zone, Left: 120, Right: 72}
}

func sampleSky() SkyData {
	d := SkyData{Axis: sampleAxis(), Name: "Sky", Empty: "No sky: the property has no position yet.",
		Windows: []Span{span(5, 21, 5, 32, "Blue"), span(5, 32, 6, 23, "Golden"), span(18, 57, 19, 48, "Golden"), span(19, 48, 19, 59, "Blue")},
		Marks:   []Mark{{at(5, 47), "Sunrise 05:47"}, {at(12, 40), "Noon 12:40, 64°"}, {at(19, 33), "Sunset 19:33"}}}
	for t := at(3, 0); t.Before(at(23, 0)); t = t.Add(5 * time.Minute) {
		phase := t.Sub(at(12, 40)).Hours() / 24 * 2 * math.Pi
		d.Samples = append(d.Samples, SkySample{t, 12 + 52*math.Cos(phase) - 1, hill(t)})
	}
	return d
}

// hill is a skyline with a house in the morning and a ridge in the evening.
func hill(t time.Time) float64 {
	h := t.Sub(at(0, 0)).Hours()
	switch {
	case h > 6.2 && h < 7.4:
		return 17
	case h > 17:
		return 6 + 4*math.Sin((h-17)*1.3)
	}
	return 3 + math.Sin(h*2)
}

func sampleFaces() FaceData {
	d := FaceData{Axis: sampleAxis(), Empty: "No faces: say which way the house looks on the Property page."}
	for i, f := range []struct {
		name, total string
		from, to    float64
	}{{"Front, 122° ESE", "5 h 50", 7.4, 13.2}, {"Right, 212° SSW", "7 h 20", 10.4, 17.8}, {"Back, 302° WNW", "4 h 05", 15, 19.3}, {"Left, 32° NNE", "45 min", 5.6, 6.2}} {
		r := FaceRow{Name: f.name, Total: f.total, Start: at(0, 0), Step: time.Minute, Strength: make([]float64, 1440)}
		for m := range r.Strength {
			if h := float64(m) / 60; h > f.from && h < f.to {
				r.Strength[m] = math.Sin((h-f.from)/(f.to-f.from)*2.6+0.25*float64(i)) * 0.95
			}
		}
		d.Rows = append(d.Rows, r)
	}
	return d
}

func sampleBoard() BoardData {
	return BoardData{Axis: sampleAxis(), Empty: "No scenes placed yet.",
		Rows: []string{"Kitchen", "Terrace", "Pool", "Living room", "Street"},
		Blocks: []Block{
			{ID: "s1", Row: 4, SetUp: at(5, 10), Start: at(5, 40), End: at(6, 15), Number: "1", Title: "First light", Note: "98 % of its light", Kept: 0.98, Importance: Must},
			{ID: "s2", Row: 0, SetUp: at(6, 45), Start: at(7, 30), End: at(8, 30), Number: "2", Title: "Breakfast", Note: "81 % of its light", Kept: 0.81, Importance: Should},
			{ID: "s4", Row: 2, SetUp: at(9, 0), Start: at(9, 30), End: at(11, 0), Number: "4", Title: "Children swim", Note: "100 % of its light", Kept: 1, Importance: Must, Pinned: true},
			{ID: "s3", Row: 0, SetUp: at(11, 20), Start: at(11, 30), End: at(11, 50), Number: "3", Title: "Coffee", Note: "40 % of its light", Kept: 0.4, Problem: true},
			{ID: "s5", Row: 3, SetUp: at(13, 15), Start: at(14, 15), End: at(15, 45), Number: "5", Title: "Piano", Note: "any light", Kept: -1},
			{ID: "s6", Row: 3, SetUp: at(15, 50), Start: at(15, 55), End: at(16, 5), Number: "6", Title: "Window", Note: "any light", Kept: 0.7},
			{ID: "s7", Row: 1, SetUp: at(17, 50), Start: at(18, 50), End: at(19, 50), Number: "7", Title: "Evening toast", Note: "92 % of its light", Kept: 0.92, Importance: Must,
				Windows: []Span{span(18, 30, 20, 5, "Golden evening")}},
		},
		Moves:  []Move{{at(6, 15), at(6, 40), 4, 0}, {at(8, 30), at(8, 45), 0, 2}, {at(11, 0), at(11, 10), 2, 0}, {at(12, 40), at(12, 50), 0, 3}, {at(16, 20), at(16, 35), 3, 1}},
		Meals:  []Span{span(12, 0, 12, 40, "Lunch 12:00"), span(16, 50, 17, 20, "Snack 16:50")},
		Limits: []Mark{{at(5, 0), "Call 05:00"}, {at(20, 20), "Wrap 20:20"}}, Selected: "s7"}
}

func samplePeople() PeopleData {
	return PeopleData{Axis: sampleAxis(), Empty: "Nobody is in the placed scenes.", Rows: []PersonRow{
		{Name: "Ines Marlow", Total: "2 h 10", Call: "06:30", Release: "11:50", Present: []Span{span(6, 45, 11, 50, "")},
			OnCamera: []Span{span(7, 30, 8, 30, ""), span(11, 30, 11, 50, "")}, Waiting: []Span{span(8, 30, 11, 30, "")}},
		{Name: "Tom (9)", Total: "0 min", Call: "09:15", Release: "11:00", Present: []Span{span(9, 15, 11, 0, "")}, OnCamera: []Span{span(9, 30, 11, 0, "")}},
		{Name: "Olga and Per Sandvik", Total: "55 min", Call: "13:45", Release: "19:50", Present: []Span{span(13, 45, 19, 50, "")},
			OnCamera: []Span{span(14, 15, 15, 45, ""), span(18, 50, 19, 50, "")}, Waiting: []Span{span(15, 45, 16, 40, "")}},
	}}
}

func sampleStrip() StripData {
	return StripData{Empty: "No dates to compare: add candidate dates to the brief.", Chosen: "2", Beside: "4", Cards: []Card{
		{"1", "Wed 12 May", 0.87, "no. 3 of 4", "without 7"}, {"2", "Fri 14 May", 0.94, "the best of 4", "38 min more light"},
		{"3", "Sat 15 May", -1, "computing…", ""}, {"4", "Tue 18 May", 0.91, "no. 2 of 4", "1 h 05 more waiting"},
		{"5", "Thu 20 May", 0.62, "no. 4 of 4", "without 7, 9, 11a and the pool from above"}}}
}

// sunAt is the sun at a latitude, on a day since 1 January and an hour of solar time: a textbook sphere, good to a degree,
// which is enough to draw with.
func sunAt(latitude float64, day int, hour float64) (altitude, azimuth float64) {
	const rad = math.Pi / 180
	decl := -23.44 * math.Cos(2*math.Pi*float64(day+11)/365) * rad
	lat, angle := latitude*rad, (hour-12)*15*rad
	up := math.Sin(lat)*math.Sin(decl) + math.Cos(lat)*math.Cos(decl)*math.Cos(angle)
	east := -math.Cos(decl) * math.Sin(angle)
	north := math.Cos(lat)*math.Sin(decl) - math.Sin(lat)*math.Cos(decl)*math.Cos(angle)
	return math.Asin(up) / rad, math.Mod(math.Atan2(east, north)/rad+360, 360)
}

// sampleYear is the golden evening of 2027 at a latitude, its clock an hour ahead from 28 March to 30 October.
func sampleYear(latitude float64) YearData {
	d := YearData{Year: 2027, Title: "Golden evening, Terrace", Empty: "No wish is chosen.",
		Marks: []YearMark{{133, "14 May", true}, {137, "18 May", false}, {250, "8 September, Olga away", false}}}
	for day := range 365 {
		ahead := 0
		if day >= 86 && day < 303 {
			ahead = 60
		}
		var one YearDay
		up, gold := -1, -1
		for m := 0; m <= dayMinutes; m++ {
			altitude, _ := sunAt(latitude, day, float64(m-ahead)/60)
			if isUp := altitude > -0.8 && m < dayMinutes; isUp && up < 0 {
				up, one.Light = m, MinuteSpan{m, dayMinutes}
			} else if !isUp && up >= 0 && one.Light.To == dayMinutes {
				one.Light.To = m
			}
			isGold := altitude > -4 && altitude < 6 && m > 12*60+ahead && m < dayMinutes
			if isGold && gold < 0 {
				gold = m
			} else if !isGold && gold >= 0 {
				one.Holds = append(one.Holds, MinuteSpan{gold, m})
				gold = -1
			}
		}
		d.Days = append(d.Days, one)
	}
	return d
}

// sampleHouse is a house at a latitude on a day since 1 January, at an hour of solar time.
func sampleHouse(latitude float64, day int, hour float64) HouseData {
	d := HouseData{Zone: zone, Empty: "Neither faces nor a position are known yet.",
		Faces:     []HouseFace{{Name: "Front", Bearing: 122}, {Name: "Lake front", Bearing: 212}, {Name: "Back", Bearing: 302}, {Name: "Left", Bearing: 32}},
		Obstacles: []HouseMark{{"Spruce row", 285}, {"Boat house", 160}, {"Neighbour", 60}}}
	for bearing := range 360 {
		b := float64(bearing)
		altitude := 3 + 2*math.Sin(b/14)
		for _, o := range []struct{ from, to, altitude float64 }{{262, 305, 22}, {150, 170, 9}, {45, 78, 16}} {
			if b > o.from && b < o.to {
				altitude = o.altitude + math.Sin(b)
			}
		}
		d.Skyline = append(d.Skyline, altitude)
	}
	point := func(h float64) PathPoint {
		altitude, azimuth := sunAt(latitude, day, h)
		return PathPoint{At: at(0, 0).Add(time.Duration(h * float64(time.Hour))), Azimuth: azimuth, Altitude: altitude,
			Hidden: altitude < d.Skyline[int(azimuth)%360]}
	}
	for m := 0; m <= dayMinutes; m += 5 {
		d.Path = append(d.Path, point(float64(m)/60))
	}
	d.Now = point(hour)
	for i, f := range d.Faces {
		d.Faces[i].Strength = strength(d.Now, f.Bearing)
	}
	d.Caption = fmt.Sprintf("%s: the sun is %.0f° high at %.0f°", d.Now.At.Format("Mon 2 Jan 15:04"), d.Now.Altitude, d.Now.Azimuth)
	return d
}

// strength is the cosine of the angle of incidence on a wall, 0 in the shade.
func strength(s PathPoint, bearing float64) float64 {
	const rad = math.Pi / 180
	if s.Altitude < 0 || s.Hidden {
		return 0
	}
	return max(0, math.Cos(s.Altitude*rad)*math.Cos((s.Azimuth-bearing)*rad))
}

// sampleCloudySky is the sample sky with a moon that sets in the morning and rises in the evening, and a cloudy noon.
func sampleCloudySky() SkyData {
	d := sampleSky()
	d.MoonLabel = "moon 62 %"
	for _, s := range d.Samples {
		phase := s.At.Sub(at(23, 10)).Hours() / 24.8 * 2 * math.Pi
		d.Moon = append(d.Moon, SkySample{At: s.At, Altitude: 10 + 38*math.Cos(phase)})
	}
	d.Cloud = []SpanValue{{span(5, 0, 8, 0, "10 % cloud"), 0.1}, {span(9, 0, 12, 0, "70 % cloud"), 0.7}, {span(12, 0, 15, 0, "100 % cloud"), 1},
		{span(19, 0, 21, 0, "40 % cloud"), 0.4}}
	return d
}

func sampleLoss() LossData {
	return LossData{
		Total: LossPart{Name: "Points lost", Points: "340"},
		Parts: []LossPart{
			{"Light", "20", 0.06}, {"Waiting", "288", 0.85}, {"Moves", "6.5", 0.02}, {"Length", "26", 0.07}, {"Overtime", "0", 0}, {"Left out", "0", 0},
		},
		Notes: []string{"stopped early: within 12 points of the best possible", "Never look at the sun through a lens."},
	}
}

// sampleClearance is an invented film: scenes against the people in it, the house and a song.
func sampleClearance() ClearanceData {
	d := ClearanceData{Row: 2, Column: 3, Empty: "Nothing is needed.",
		Words: map[Standing]string{NotNeeded: "not needed", Signed: "signed", Sent: "sent, not signed yet", Needed: "not sent yet", Doubted: "signed, in doubt", Lapsed: "lapsed", Declined: "declined"}}
	for i, name := range []string{"Ines Marlow", "Tom (9)", "Olga Sandvik", "Per Sandvik", "Maximiliane Hohenstein-Wittgenreuth", "Åsa", "The house, inside and outside",
		"The piano piece"} {
		d.Columns = append(d.Columns, ClearanceHead{name, []string{"signed", "two scenes wait"}[i%2]})
	}
	for i, name := range []string{"1  First light", "2  Breakfast", "3  Coffee", "4  Children swim", "5  Piano", "6  The window over the stairs"} {
		row := []Standing{}
		for j := range d.Columns {
			row = append(row, []Standing{Signed, NotNeeded, Sent, Signed, Needed, NotNeeded, Doubted, Signed, Lapsed, Declined, NotNeeded}[(3*i+5*j+i*j)%11])
		}
		d.Rows = append(d.Rows, ClearanceHead{name, []string{"cleared", "waits for 2"}[i%2]})
		d.Cells = append(d.Cells, row)
	}
	return d
}

// largeClearance has many rows and columns, every cell with a mark.
func largeClearance(rows, columns int) ClearanceData {
	d := sampleClearance()
	heads := func(n int, word string) (out []ClearanceHead) {
		for i := range n {
			out = append(out, ClearanceHead{fmt.Sprint(word, " ", i), "waits"})
		}
		return out
	}
	d.Rows, d.Columns, d.Cells = heads(rows, "Scene"), heads(columns, "Somebody with a long name"), nil
	for i := range rows {
		d.Cells = append(d.Cells, make([]Standing, columns))
		for j := range columns {
			d.Cells[i][j] = standings[(i+j)%len(standings)]
		}
	}
	return d
}
