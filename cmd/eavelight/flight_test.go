package main

import (
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
)

// TestReleasesFlights: a film whose releases are all signed is not cleared while the pilot's certificate or the reading of the rules
// is missing, and says what is; where a drone release is signed it says so only once.
func TestReleasesFlights(t *testing.T) {
	const pilot, read = "scenes 1 and 14 are flown, and nobody of the crew has a drone pilot's certificate", "scenes 1 and 14 are flown, and nobody has said by then"
	for _, c := range []struct {
		name   string
		change func(*plan.Plan)
		args   []string
		want   []string
	}{
		{"all there", func(*plan.Plan) {}, nil, nil},
		{"no certificate", func(p *plan.Plan) { p.People[7].Certificate = plan.Certificate{} }, nil, []string{pilot}},
		{"not read", func(p *plan.Plan) { p.Shooting.Flying.ReadBy = "" }, nil, []string{read}},
		{"neither", func(p *plan.Plan) { p.People[7].Certificate, p.Shooting.Flying = plan.Certificate{}, plan.Flying{} }, nil, []string{pilot, read}},
		{"trained too long ago by that day", func(*plan.Plan) {}, []string{"--date", "2028-12-01"}, []string{"holds only to Thursday 30 November 2028"}},
		{"no flights", func(p *plan.Plan) {
			p.People[7].Certificate, p.Shooting.Flying = plan.Certificate{}, plan.Flying{}
			p.Scenes[0].Space, p.Releases = "deck", p.Releases[:6]
		}, nil, nil},
	} {
		change := func(_ string, p *plan.Plan) {
			sign(p)
			c.change(p)
		}
		code, out := releases(t, change, append([]string{"releases", "--json"}, c.args...)...)
		r := fromJSON[releasesReport](t, out)
		clear := len(c.want) == 0
		if (code == 0) != clear || r.Cleared != clear || len(r.Flights) != len(c.want) || r.Deliverables[0].Cleared != clear || !r.Deliverables[1].Cleared {
			t.Errorf("%s: exit %d, %s", c.name, code, out)
		}
		code, text := releases(t, change, append([]string{"releases"}, c.args...)...)
		flat := strings.Join(strings.Fields(text), " ")
		for i, want := range c.want {
			if (code == 0) != clear || strings.Count(flat, want) != 1 || !strings.Contains(r.Flights[i], want) {
				t.Errorf("%s: exit %d, %q is not there once: %s", c.name, code, want, text)
			}
		}
	}
}

// TestPlaceFlights: the light of each flight stands by its scene, the caution below; check finds the papers that are missing.
func TestPlaceFlights(t *testing.T) {
	_, out := releases(t, func(string, *plan.Plan) {}, "place", "--date", "2027-10-16")
	if !strings.Contains(out, "\n               flight in civil twilight until 18:53: anti-collision light\n") || strings.Count(out, "pilot's certificate decide.") != 1 {
		t.Errorf("%s", out)
	}
	_, out = releases(t, func(string, *plan.Plan) {}, "place", "--json", "--date", "2027-10-16")
	scenes := fromJSON[placeReport](t, out).Scenes
	i := slices.IndexFunc(scenes, func(s sceneReport) bool { return s.ID == "dusk" })
	if f := scenes[i].Flight; f == nil || f.Light != "twilight" || f.Words != "in civil twilight until 18:53: anti-collision light" {
		t.Errorf("%+v", f)
	}
	if i := slices.IndexFunc(scenes, func(s sceneReport) bool { return s.ID == "coffee" }); scenes[i].Flight != nil {
		t.Errorf("on the ground: %+v", scenes[i].Flight)
	}
	code, out := releases(t, func(_ string, p *plan.Plan) { p.Shooting.Flying.Light = false }, "check")
	if code != 1 || !strings.Contains(out, "scenes[13]: scene 14 is flown in civil twilight until 18:53") {
		t.Errorf("exit %d, %s", code, out)
	}
}
