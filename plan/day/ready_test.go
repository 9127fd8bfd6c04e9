package day

import (
	"testing"

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
			longest := 0
			for _, w := range d.Windows[s.ID] {
				longest = max(longest, int(w.To.Sub(w.From).Minutes()))
			}
			if s.Space != "" && longest < int(s.Shoot) {
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
