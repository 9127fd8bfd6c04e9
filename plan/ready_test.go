package plan

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestReadyScenesAreWhole: what is offered is told apart, says what a scene needs to be placed, and warns where work can hurt.
func TestReadyScenesAreWhole(t *testing.T) {
	ids, titles := map[ID]bool{}, map[string]bool{}
	for _, r := range ReadyScenes() {
		if r.ID == "" || ids[r.ID] || r.Title == "" || titles[r.Title] || r.Action == "" {
			t.Errorf("%+v has no name of its own, or nothing happens in it", r)
		}
		ids[r.ID], titles[r.Title] = true, true
		if r.Setup < 5 || r.Shoot < 5 || r.Seconds < 3 || len(r.Kit) == 0 || !slices.Contains(SpaceKinds, r.Where) || !slices.Contains(Importances, r.Importance) {
			t.Errorf("%s: something that it takes is not said: %+v", r.Title, r)
		}
		if r.Number != "" || r.Space != "" || len(r.People) > 0 || r.Only && len(r.Rooms) == 0 {
			t.Errorf("%s is about one house", r.Title)
		}
		text := strings.ToLower(r.Title + " " + r.Action + " " + strings.Join(r.Kit, " "))
		for _, danger := range []string{"drone", "swim", "child", "fire", "car ", "pan ", "last sun"} {
			if strings.Contains(text, danger) && r.Notes == "" {
				t.Errorf("%s: nothing is said of what can hurt (%s)", r.Title, danger)
			}
		}
	}
	if n := len(ids); n < 14 {
		t.Errorf("only %d are offered", n)
	}
	p := New()
	p.AddReady(ReadyScenes()...)
	if wrong := Validate(p).At(Wrong); len(wrong) > 0 {
		t.Errorf("in a plan without a house: %v", wrong)
	}
	for _, s := range p.Scenes {
		if s.Space != "" || s.Wish.Face != "" {
			t.Errorf("%s is in %q at %q, and there is no house", s.Title, s.Space, s.Wish.Face)
		}
	}
}

// TestReadySetsAreOfReadyScenes: a set has a name of its own and scenes that there are, in the order of the day, none of them twice.
func TestReadySetsAreOfReadyScenes(t *testing.T) {
	all := ReadyScenes()
	at := func(id ID) int { return slices.IndexFunc(all, func(r ReadyScene) bool { return r.ID == id }) }
	names := map[string]bool{}
	for _, set := range ReadySets() {
		if set.Name == "" || names[set.Name] || len(set.Scenes) < 3 || len(set.Scenes) == len(all) {
			t.Errorf("%+v has no name of its own, or is no choice", set)
		}
		names[set.Name] = true
		for i, id := range set.Scenes {
			if at(id) < 0 || i > 0 && at(id) <= at(set.Scenes[i-1]) {
				t.Errorf("%s: there is no scene %q, or it comes twice, or before one that is earlier in the day", set.Name, id)
			}
		}
	}
	if n := len(names); n < 3 {
		t.Errorf("only %d are offered", n)
	}
}

// TestReadyScenesFindTheirSpace: the sun rises in the east and sets in the west all over the world; at noon it stands in the south
// north of the tropics, and in the north south of them.
func TestReadyScenesFindTheirSpace(t *testing.T) {
	for _, test := range []struct {
		name           string
		lat            float64
		lunchAt        ID // the face
		pools, lunches ID // the spaces
	}{
		{"Oslo", 59.9, "n", "south-pool", "north-terrace"},
		{"Hobart", -42.9, "s", "north-pool", "south-terrace"},
	} {
		p := New()
		p.Property.Position = &Position{Lat: test.lat, Lon: 10}
		p.Property.Faces = []Face{{ID: "n", Bearing: 350}, {ID: "e", Bearing: 80}, {ID: "s", Bearing: 170}, {ID: "w", Bearing: 260}}
		space := func(id ID, name string, kind SpaceKind, faces ...ID) {
			p.Property.Spaces = append(p.Property.Spaces, Space{ID: id, Name: name, Kind: kind, Faces: faces})
		}
		space("hall", "Hall", Indoor, "n")
		space("west-kitchen", "Kitchen", Indoor, "w", "n")
		space("east-deck", "Deck", Outdoor, "e")
		space("west-deck", "Deck", Outdoor, "w")
		space("north-pool", "Pool", Outdoor, "n")
		space("south-pool", "Old POOL", Outdoor, "s")
		space("north-terrace", "Terrace", Outdoor, "n")
		space("south-terrace", "Terrace", Outdoor, "s")
		p.AddReady(ReadyScenes()...)
		got := map[ID]Scene{}
		for _, s := range p.Scenes {
			got[s.ID] = s
		}
		for id, want := range map[ID]ID{
			"morning-coffee": "east-deck", "last-sun": "west-deck", "pool": test.pools, "lunch": test.lunches, "cooking": "west-kitchen",
			"door-opens": "hall", "from-above": "", "arrival": "", "curtains": "",
		} {
			if got[id].Space != want {
				t.Errorf("%s: %s is in %q, want %q", test.name, id, got[id].Space, want)
			}
		}
		if face := got["lunch"].Wish.Face; face != test.lunchAt {
			t.Errorf("%s: lunch has face %q in shade, want %q", test.name, face, test.lunchAt)
		}
	}
}

// TestAddReadyKeepsThePlan: whatever is in a plan already stays as it is, and what comes is right and has a name of its own.
func TestAddReadyKeepsThePlan(t *testing.T) {
	all := ReadyScenes()
	rapid.Check(t, func(t *rapid.T) {
		p := New()
		for i := range rapid.IntRange(0, 4).Draw(t, "faces") {
			p.Property.Faces = append(p.Property.Faces, Face{ID: ID(fmt.Sprint("f", i)), Bearing: Bearing(rapid.Float64Range(0, 360).Draw(t, "bearing"))})
		}
		for i := range rapid.IntRange(0, 6).Draw(t, "spaces") {
			s := Space{ID: ID(fmt.Sprint("s", i)), Kind: rapid.SampledFrom(SpaceKinds).Draw(t, "kind"),
				Name: rapid.SampledFrom([]string{"", "Pool", "kitchen", "Küche", "Terrace", "床"}).Draw(t, "name")}
			for _, f := range p.Property.Faces {
				if rapid.Bool().Draw(t, "looks") {
					s.Faces = append(s.Faces, f.ID)
				}
			}
			p.Property.Spaces = append(p.Property.Spaces, s)
		}
		for _, want := range rapid.SliceOfN(rapid.IntRange(0, 2), 0, 3).Draw(t, "rounds") {
			before := p.Clone().Scenes
			ids := p.AddReady(all[want : want+3]...)
			if n := len(before); len(ids) != 3 || len(p.Scenes) != n+3 || n > 0 && !reflect.DeepEqual(p.Scenes[:n], before) {
				t.Fatalf("%v came to %d scenes, of %d", ids, len(p.Scenes), n)
			}
		}
		if wrong := Validate(p).At(Wrong); len(wrong) > 0 {
			t.Fatal(wrong)
		}
		for i, s := range p.Scenes {
			if s.Number != fmt.Sprint(i+1) {
				t.Errorf("scene %d has the number %q", i, s.Number)
			}
			here := func(r ReadyScene) bool {
				sp, ok := p.Space(s.Space)
				return ok && r.Title == s.Title && r.Where == sp.Kind.Or()
			}
			if s.Space != "" && !slices.ContainsFunc(all, here) {
				t.Errorf("%s is in the space %q", s.Title, s.Space)
			}
		}
	})
}
