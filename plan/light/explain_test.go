package light

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/say"

	"pgregory.net/rapid"
)

// longestEvening is the evening of 2026-06-21 in Los Angeles with trees in the north-west. By testdata/tables/sun-events.tsv the sun passes 6
// degrees at 19:30:41, sets at 20:07:39 and passes -4 degrees at 20:25:25; it rose at 05:42:04.
func longestEvening(t *testing.T) *Sky {
	p, zone := at(t, "LAX")
	p.Property.Obstacles = []plan.Obstacle{{Name: "Spruce row", Height: 7, Distance: 200, From: 280, To: 320}} // 2.005 degrees
	p.Property.Faces = []plan.Face{{ID: "tarn", Name: "Tarn side", Bearing: 290}, {ID: "south", Bearing: 180}}
	p.Property.Spaces = []plan.Space{
		{ID: "room", Faces: []plan.ID{"tarn"}, Head: 2.2}, {ID: "cellar"},
		{ID: "court", Kind: plan.Outdoor, Wings: []plan.Wing{{From: 90, To: 320, Altitude: 30}}},
	}
	p.Shooting.Weather = []plan.Weather{{From: plan.ClockAt(19 * 60), Cloud: 60, Rain: 30}}
	return NewSky(p, zone, date(t, "2026-06-21"))
}

// goes is the first minute of that evening at which the sun's apparent centre is under an altitude, by SunAt alone.
func goes(t *testing.T, h plan.Angle) time.Time {
	la := places(t)["LAX"]
	at := utc(t, "2026-06-22T02:00:00Z")
	for SunAt(la.Position, at).Apparent >= h {
		at = at.Add(time.Minute)
	}
	return at.In(la.zone)
}

// TestExplanations are whole explanations; their times are those of the tables, or of the moment the sun goes behind 2.005
// degrees, found minute by minute.
func TestExplanations(t *testing.T) {
	s := longestEvening(t)
	behind, down := goes(t, ObstacleAltitude(7, 200)), goes(t, 0)
	trees, taken := behind.Format("15:04"), int(down.Sub(behind).Minutes())
	south, north := plan.Bearing(180), plan.Bearing(0)
	for _, c := range []struct {
		name  string
		scene plan.Scene
		want  []string
	}{
		{"gold", plan.Scene{Wish: plan.Wish{Kind: plan.GoldenEvening}}, []string{
			"It holds from 19:31 (the sun sinks to 6°) to 20:26 (the sun sinks to -4°).",
			fmt.Sprintf("The sun leaves at %s: the Spruce row takes the last %d minutes of gold; the glow stays.", trees, taken),
			"Cloud over 60\u00a0% of the sky is expected then; this light does not need the sun itself.",
			"The chance of rain then is 30\u00a0%."}},
		{"direct gold", plan.Scene{Wish: plan.Wish{Kind: plan.GoldenEvening, Direct: true}}, []string{
			"It holds from 19:31 (the sun sinks to 6°) to " + trees + " (the sun goes behind the Spruce row).",
			fmt.Sprintf("The Spruce row takes the last %d minutes of gold.", taken),
			"Cloud over 60\u00a0% of the sky is expected then, which leaves 40\u00a0% of its value.",
			"The chance of rain then is 30\u00a0%."}},
		{"with clock limits", plan.Scene{From: plan.ClockAt(18 * 60), To: plan.ClockAt(19*60 + 40), Wish: plan.Wish{Kind: plan.BlueEvening}}, []string{
			"It holds from 20:26 (the sun sinks to -4°) to 20:37 (the sun sinks to -6°).",
			"The scene's clock limits leave nothing of it."}},
		{"with limits that cut", plan.Scene{From: plan.ClockAt(18 * 60), To: plan.ClockAt(18*60 + 40), Wish: plan.Wish{Kind: plan.Daylight}}, []string{
			"It holds from 05:43 (sunrise) to 20:08 (sunset).",
			"The scene's clock limits leave 18:00 to 18:40."}},
		{"any", plan.Scene{}, []string{"It holds at any time."}},
		{"no camera", plan.Scene{Wish: plan.Wish{Kind: plan.Backlit}}, []string{"It is not known when it holds: the camera's bearing is not said."}},
		{"no face", plan.Scene{Wish: plan.Wish{Kind: plan.FaceLit}}, []string{"It is not known when it holds: the face is not said."}},
		{"no windows", plan.Scene{Space: "cellar", Wish: plan.Wish{Kind: plan.SunPatch}}, []string{"It is not known when it holds: the space's windows look toward no face."}},
		{"never together", plan.Scene{Wish: plan.Wish{Kind: plan.FrontLit, Camera: &north}}, []string{
			"It does not hold on Sunday 21 June 2026: there are never at once the sun itself over the skyline, the sun behind the lens and the sun below 35°."}},
		{"never at all", plan.Scene{Wish: plan.Wish{Kind: plan.HighSun, MinAltitude: new(plan.Angle(85))}}, []string{
			"It does not hold on Sunday 21 June 2026: there is never the sun above 85°."}},
		{"never so low in the south", plan.Scene{Wish: plan.Wish{Kind: plan.Backlit, Camera: &south}}, []string{
			"It does not hold on Sunday 21 June 2026: there are never at once the sun itself over the skyline, the sun ahead of the lens and the sun below 35°."}},
	} {
		if got := english(s.Explain(c.scene)); !slices.Equal(got, c.want) {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
}

func english(texts []say.Text) []string {
	var out []string
	for _, t := range texts {
		out = append(out, t.String())
	}
	return out
}

// TestExplanationNames: what hides the sun is called by its name, and faces by theirs.
func TestExplanationNames(t *testing.T) {
	s := longestEvening(t)
	for _, c := range []struct {
		scene plan.Scene
		says  []string
	}{
		{plan.Scene{Wish: plan.Wish{Kind: plan.FaceLit, Face: "tarn"}}, []string{"(the sun comes onto the Tarn side)", "(the sun goes behind the Spruce row)", "of the sun on the Tarn side."}},
		{plan.Scene{Wish: plan.Wish{Kind: plan.FaceShade, Face: "tarn"}}, []string{"(sunrise)", "(the sun comes onto the Tarn side)", "(the sun goes behind the Spruce row)", "(sunset)"}},
		{plan.Scene{Wish: plan.Wish{Kind: plan.FaceLit, Face: "south"}}, []string{"(the sun comes onto the south)", "(the sun leaves the south)"}},
		{plan.Scene{Space: "court", Wish: plan.Wish{Kind: plan.HighSun, MinAltitude: new(plan.Angle(10))}}, []string{"(the sun goes behind a wing of the house)", "A wing of the house takes the last"}},
		{plan.Scene{Space: "room", Wish: plan.Wish{Kind: plan.SunPatch}}, []string{"(the sun reaches 0.5 m into the room)", "(the sun goes behind the Spruce row)"}},
		{plan.Scene{Space: "room", Wish: plan.Wish{Kind: plan.SoftWindow}}, []string{"(the sun comes onto the Tarn side)"}},
		{plan.Scene{Wish: plan.Wish{Kind: plan.Dark}}, []string{"from 00:00 to", "(the sun climbs to -6°)", "(the sun sinks to -6°)"}},
		{plan.Scene{Wish: plan.Wish{Kind: plan.Sunset}}, []string{"(the sun is a degree over the skyline)", "(the sun is a degree under the skyline)"}},
	} {
		got := strings.Join(english(s.Explain(c.scene)), " ")
		for _, want := range c.says {
			if !strings.Contains(got, want) {
				t.Errorf("%s does not say %q: %s", c.scene.Wish.Kind, want, got)
			}
		}
	}
	for name, want := range map[string]string{"": "an obstacle", "Spruce row": "the Spruce row", "The barn": "The barn"} {
		if got := called(name, say.That("an obstacle")).String(); got != want {
			t.Errorf("%q is called %q", name, got)
		}
	}
}

// TestNoonParts: in Reykjavik's midwinter the sun is golden from 10:30:09 to 16:21:35 without a break (highest 2.414 degrees, at
// 13:25:52; testdata/tables/sun-events.tsv), and the day's noon parts morning from evening, softly: a quarter of an hour early
// is half an evening. In midsummer the golden morning begins with the sun at its lowest, 12 hours before 13:29:36, and ends at
// 6 degrees, 04:52:21.
func TestNoonParts(t *testing.T) {
	morning, evening := plan.Scene{Wish: plan.Wish{Kind: plan.GoldenMorning}}, plan.Scene{Wish: plan.Wish{Kind: plan.GoldenEvening}}
	p, zone := at(t, "REK")
	winter, summer := NewSky(p, zone, date(t, "2026-12-21")), NewSky(p, zone, date(t, "2026-06-21"))
	for _, c := range []struct {
		sky   *Sky
		scene plan.Scene
		want  string
	}{
		{winter, morning, "It holds from 10:31 (the sun climbs to -4°) to 13:26 (solar noon)."},
		{winter, evening, "It holds from 13:26 (solar noon) to 16:22 (the sun sinks to -4°)."},
		{summer, morning, "It holds from 01:30 (the sun is at its lowest) to 04:53 (the sun climbs to 6°)."},
	} {
		if got := c.sky.Explain(c.scene)[0].String(); got != c.want {
			t.Errorf("%s\nwant %s", got, c.want)
		}
	}
	early := winter.MinuteOf(winter.Events.Noon.Add(-15 * time.Minute))
	close(t, "a quarter of an hour early", winter.Score(evening).Value[early], 0.5, 0.02)
}

// TestEveryWishIsExplained: any wish on any day is explained by whole sentences that tell every window's beginning and end.
func TestEveryWishIsExplained(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := cabin(t)
		s := NewSky(&p, time.UTC, anyDate(t))
		for _, sc := range wishes(plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "camera"))) {
			sc.Space = rapid.SampledFrom([]plan.ID{"room", "cellar", "terrace", "lawn", "air"}).Draw(t, "space")
			got := english(s.Explain(sc))
			for _, line := range got {
				if !strings.HasSuffix(line, ".") || strings.Contains(line, "%!") || strings.Contains(line, "  ") || strings.Contains(line, "()") {
					t.Fatalf("%s: %q", sc.ID, line)
				}
			}
			for _, w := range s.Windows(s.Score(sc)) {
				if sc.Wish.Kind != plan.Any && (!strings.Contains(got[0], "from "+s.shown(w.From)) || !strings.Contains(got[0], "to "+s.shown(w.To))) {
					t.Fatalf("%s holds at %v: %q", sc.ID, w, got[0])
				}
			}
		}
	})
}
