package day

import (
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
)

// TestReadyScenesMakeADay: each ready-made scene that finds a space in the demo's house finds its light there too, for as long as
// it takes, in summer and in autumn; in autumn a day made of nothing else leaves none of these out.
func TestReadyScenesMakeADay(t *testing.T) {
	p := demo(t)
	p.Scenes, p.Releases, p.Log, p.Shooting.Weather, p.Shooting.Kit = nil, nil, nil, nil, nil
	p.Brief.Deliverables = nil
	p.AddReady(plan.ReadyScenes()...)
	const summer, autumn = "2027-06-19", "2027-10-16"
	for _, when := range []string{summer, autumn} {
		d := placed(t, p, date(t, when))
		for _, s := range p.Scenes {
			if longest := longestLight(d, s.ID); s.Space != "" && longest < int(s.Shoot) {
				t.Errorf("%s: %s in %s has %d minutes of light, and takes %v", when, s.Title, s.Space, longest, s.Shoot)
			}
		}
		for _, out := range d.LeftOut { // a summer's day is longer than the crew's
			if s, _ := p.Scene(out.Scene); s.Space != "" && when == autumn {
				t.Errorf("%s: %s is left out: %s", when, s.Title, out.Why)
			}
		}
	}
}

// longestLight is how many minutes a scene's light lasts at most on a day.
func longestLight(d Day, scene plan.ID) (minutes int) {
	for _, w := range d.Windows[scene] {
		minutes = max(minutes, int(w.To.Sub(w.From).Minutes()))
	}
	return minutes
}

// TestReadySetsMakeADay: at a house in the middle latitudes, with a space for everything, every scene of a set has its light on some
// day of the year, for as long as it takes; and there is a month in whose middle the whole set is shot in one day.
func TestReadySetsMakeADay(t *testing.T) {
	for _, set := range plan.ReadySets() {
		p := houseWithAll(45)
		for _, r := range plan.ReadyScenes() {
			if slices.Contains(set.Scenes, r.ID) {
				p.AddReady(r)
			}
		}
		lit, whole := map[plan.ID]bool{}, false
		for month := time.January; month <= time.December; month++ {
			d := placed(t, &p, plan.Date{Year: 2027, Month: month, Day: 15})
			for _, s := range p.Scenes {
				lit[s.ID] = lit[s.ID] || longestLight(d, s.ID) >= int(s.Shoot)
			}
			whole = whole || len(d.Scenes) == len(p.Scenes)
		}
		for _, s := range p.Scenes {
			if s.Space == "" || !lit[s.ID] {
				t.Errorf("%s: %s in %q never has its light", set.Name, s.Title, s.Space)
			}
		}
		if !whole {
			t.Errorf("%s is never shot in one day", set.Name)
		}
	}
}

// houseWithAll is a house at a latitude that looks to all four sides and has a space for every ready-made scene.
func houseWithAll(lat float64) plan.Plan {
	p := plan.New()
	h := &p.Property
	h.Position, h.Zone = &plan.Position{Lat: lat, Lon: 10}, "Europe/Rome"
	h.Faces = []plan.Face{{ID: "n", Bearing: 0}, {ID: "e", Bearing: 90}, {ID: "s", Bearing: 180}, {ID: "w", Bearing: 270}}
	space := func(name string, kind plan.SpaceKind, faces ...plan.ID) {
		s := plan.Space{ID: plan.ID(strings.ToLower(name)), Name: name, Kind: kind, Faces: faces}
		if kind == plan.Indoor {
			s.Sill, s.Head = 0.9, 2.4
		}
		h.Spaces = append(h.Spaces, s)
	}
	space("Bedroom", plan.Indoor, "e")
	space("Kitchen", plan.Indoor, "e")
	space("Study", plan.Indoor, "n")
	space("Living", plan.Indoor, "w")
	space("Hall", plan.Indoor, "s")
	space("Deck", plan.Outdoor, "e")
	space("Terrace", plan.Outdoor, "w")
	space("Courtyard", plan.Outdoor, "n")
	space("Pool", plan.Outdoor, "s")
	space("Garden", plan.Outdoor, "w")
	space("Air", plan.Aerial)
	return p
}
