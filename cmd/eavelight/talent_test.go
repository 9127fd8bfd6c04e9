package main

import (
	"encoding/json"
	"testing"
)

// TestTalentScheduling: a published instance can be written as a plan, and the program proves its published optimum. CSPLib
// problem 039; see testdata/talent/README.md.
func TestTalentScheduling(t *testing.T) {
	for name, waiting := range map[string]float64{"rehearsal": 17, "film1": 146, "film2": 87} {
		code, out, _ := eavelight("place", "../../testdata/talent/"+name+".eavelight", "--json")
		var r placeReport
		if err := json.Unmarshal([]byte(out), &r); err != nil || code != 0 {
			t.Fatalf("%s: code %d, %v\n%s", name, code, err, out)
		}
		if r.Status != "proven" || r.Loss.Waiting != waiting || r.Loss.Total != waiting {
			t.Errorf("%s: %s, %+v; published waiting cost %v", name, r.Status, r.Loss, waiting)
		}
	}
}
