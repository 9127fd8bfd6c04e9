package people

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// What a scene needs signed, and what falls away without it, is the project's own rule (design, section 2, "cleared"); these
// tests are that rule by hand.

// picture prints a clearance: a line a scene, a word a permission, "-" where it is not needed.
func picture(c Clearance) string {
	var out strings.Builder
	for _, n := range c.Permissions {
		fmt.Fprintf(&out, "%s:%s%s ", n.Kind, n.Person, n.Release)
	}
	for _, s := range c.Scenes {
		fmt.Fprintf(&out, "\n%s:", s.Scene)
		for _, st := range s.Standings {
			switch {
			case !st.Needed:
				out.WriteString(" -")
			case st.Doubt != nil:
				out.WriteString(" doubt")
			default:
				out.WriteString(" " + string(st.Status))
			}
		}
		if s.Clear() {
			out.WriteString(" clear")
		}
	}
	return out.String()
}

func TestCleared(t *testing.T) {
	const all = "model:grete model:amara minor:mia property:house music:song artwork:mural neighbour:next pet:dog drone:flight "
	for _, c := range []struct {
		name   string
		change func(*plan.Plan)
		on     plan.Date
		doubts Doubts
		want   string
	}{
		{"one never signed", func(*plan.Plan) {}, day(16), nil, all + `
rise: - - - signed - - - signed signed clear
swim: signed - signed signed signed signed - signed - clear
toast: signed needed - signed signed - signed signed -`},
		{"the house declined, the song lapsed", func(p *plan.Plan) { p.Releases[2].Status, p.Releases[3].Until = plan.Declined, day(15) }, day(16), nil, all + `
rise: - - - declined - - - signed signed
swim: signed - signed declined lapsed signed - signed -
toast: signed needed - declined lapsed - signed signed -`},
		{"the day before the song lapses", func(p *plan.Plan) { p.Releases[3].Until = day(16) }, day(16), nil, all + `
rise: - - - signed - - - signed signed clear
swim: signed - signed signed signed signed - signed - clear
toast: signed needed - signed signed - signed signed -`},
		{"doubts", func(*plan.Plan) {}, day(16), Doubts{"m-mia": {Code: plan.TextChanged}, "flight": {Code: plan.ScanMissing}}, all + `
rise: - - - signed - - - signed doubt
swim: signed - doubt signed signed signed - signed -
toast: signed needed - signed signed - signed signed -`},
		{"a doubt about what is not signed anyway", func(p *plan.Plan) { p.Releases[1].Status = plan.Sent }, day(16), Doubts{"m-mia": {Code: plan.TextChanged}}, all + `
rise: - - - signed - - - signed signed clear
swim: signed - sent signed signed signed - signed -
toast: signed needed - signed signed - signed signed -`},
		{"of age since, and signed for as a minor", func(p *plan.Plan) { p.People[2].Born = plan.Date{Year: 2009, Month: 10, Day: 16} }, day(16), nil, strings.Replace(all, "minor:mia", "model:mia", 1) + `
rise: - - - signed - - - signed signed clear
swim: signed - needed signed signed signed - signed -
toast: signed needed - signed signed - signed signed -`},
		{"no release of the flights", func(p *plan.Plan) { p.Releases = p.Releases[:3] }, day(16), nil, `model:grete model:amara minor:mia property:house drone: 
rise: - - - signed needed
swim: signed - signed signed - clear
toast: signed needed - signed -`},
		{"flights over the toast, none of the air", func(p *plan.Plan) {
			p.Releases = p.Releases[7:]
			p.Releases[0].Scenes = []plan.ID{"toast"}
			p.People = p.People[3:]
			p.Scenes[1].People, p.Scenes[2].People = nil, nil
		}, day(16), nil, `drone:flight drone: 
rise: - needed
swim: - - clear
toast: signed - clear`},
		{"a second release of one person, for one scene", func(p *plan.Plan) {
			p.Releases = append(p.Releases[:2:2], plan.Release{ID: "anew", Kind: plan.ModelRelease, Party: "grete", Scenes: []plan.ID{"swim"}, Status: plan.Signed})
			p.Scenes = p.Scenes[1:]
		}, day(16), Doubts{"m-grete": {Code: plan.TextChanged}}, `model:grete model:amara minor:mia 
swim: signed - signed clear
toast: doubt needed -`},
		{"a release of nobody, and one of nobody on camera", func(p *plan.Plan) {
			p.Releases = []plan.Release{{ID: "a", Kind: plan.ModelRelease}, {ID: "b", Kind: plan.ModelRelease, Party: "ines"}}
			p.Scenes = p.Scenes[1:2]
		}, day(16), nil, `model:grete minor:mia 
swim: needed needed`},
		{"nothing at all", func(p *plan.Plan) { *p = plan.New() }, plan.Date{}, nil, ""},
	} {
		p := film()
		c.change(&p)
		if got := picture(Cleared(&p, c.on, c.doubts)); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}

// TestCovers: which scenes a release is for.
func TestCovers(t *testing.T) {
	p := film()
	for _, c := range []struct {
		name string
		r    plan.Release
		want string
	}{
		{"a person's, all", plan.Release{Kind: plan.ModelRelease, Party: "grete"}, "swim toast"},
		{"a person's, by name", plan.Release{Kind: plan.ModelRelease, Party: "grete", Scenes: []plan.ID{"swim"}}, "swim"},
		{"a person's, in a scene without them", plan.Release{Kind: plan.MinorRelease, Party: "mia", Scenes: []plan.ID{"swim", "toast"}}, "swim"},
		{"nobody's", plan.Release{Kind: plan.ModelRelease}, ""},
		{"the flights", plan.Release{Kind: plan.DroneRelease, Party: "ines"}, "rise"},
		{"a flight by name", plan.Release{Kind: plan.DroneRelease, Scenes: []plan.ID{"toast"}}, "toast"},
		{"the house, given by somebody in the film", plan.Release{Kind: plan.PropertyRelease, Party: "amara"}, "rise swim toast"},
		{"the song of one scene", plan.Release{Kind: plan.MusicRelease, Scenes: []plan.ID{"rise"}}, "rise"},
		{"of no kind", plan.Release{}, "rise swim toast"},
	} {
		var got []string
		for _, s := range p.Scenes {
			if Covers(&p, c.r, s) {
				got = append(got, string(s.ID))
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %v, want %s", c.name, got, c.want)
		}
	}
}

// TestDeliveries: the film waits, the cut does not, and a signature that two scenes wait for counts once.
func TestDeliveries(t *testing.T) {
	p := film()
	p.Releases[2].Status = plan.Sent // the house, for all
	p.Releases[4].Status = plan.Sent // the mural, for the swim
	c := Cleared(&p, day(16), nil)
	want := []Delivery{{0, []plan.ID{"rise", "swim", "toast"}, 3}, {1, []plan.ID{"swim"}, 2}, {2, []plan.ID{"rise", "swim", "toast"}, 3}}
	if !reflect.DeepEqual(c.Deliverables, want) {
		t.Errorf("%v, want %v", c.Deliverables, want)
	}
	p.Releases[2].Status, p.Releases[4].Status = plan.Signed, plan.Signed
	c = Cleared(&p, day(16), nil)
	if c.Deliverables[0].Clear() || !c.Deliverables[1].Clear() || c.Deliverables[2].Clear() || c.Clear() {
		t.Errorf("%v", c.Deliverables)
	}
	p.Releases = append(p.Releases, plan.Release{ID: "m-amara", Kind: plan.ModelRelease, Party: "amara", Status: plan.Signed})
	if c = Cleared(&p, day(16), nil); !c.Clear() || len(c.Open()) > 0 {
		t.Errorf("%v", c.Open())
	}
}

func TestOpen(t *testing.T) {
	p := film()
	p.Releases[0].Status, p.Releases[0].Scenes = plan.Sent, []plan.ID{"toast"} // grete: toast sent, swim nothing
	p.Releases[7].Status = plan.Signed
	open := Cleared(&p, day(16), Doubts{"flight": {Code: plan.ScanChanged, Path: "releases[7].scan"}}).Open()
	if len(open) != 3 {
		t.Fatalf("%v", open)
	}
	if o := open[0]; o.Person != "grete" || o.Status != plan.Needed || o.By != "" || o.Column != 0 || !slices.Equal(o.Scenes, []plan.ID{"swim", "toast"}) {
		t.Errorf("%+v", o)
	}
	if o := open[1]; o.Person != "amara" || o.Kind != plan.ModelRelease || !slices.Equal(o.Scenes, []plan.ID{"toast"}) {
		t.Errorf("%+v", o)
	}
	if o := open[2]; o.Release != "flight" || o.Doubt == nil || o.Doubt.Code != plan.ScanChanged || o.Column != 8 {
		t.Errorf("%+v", o)
	}
}

// TestCut: seconds on screen are 8, 14 and 9.
func TestCut(t *testing.T) {
	for _, c := range []struct {
		name    string
		decline int // of the releases
		column  int
		want    Cut
	}{
		{"Mia", 1, 2, Cut{[]plan.ID{"swim"}, []Loss{{0, []plan.ID{"swim"}, 14, 17}, {1, []plan.ID{"swim"}, 14, 0}, {2, []plan.ID{"swim"}, 14, 17}}}},
		{"the pilot", 7, 8, Cut{[]plan.ID{"rise"}, []Loss{{0, []plan.ID{"rise"}, 8, 23}, {2, []plan.ID{"rise"}, 8, 23}}}},
		{"the song", 3, 4, Cut{[]plan.ID{"swim", "toast"}, []Loss{{0, []plan.ID{"swim", "toast"}, 23, 8}, {1, []plan.ID{"swim"}, 14, 0}, {2, []plan.ID{"swim", "toast"}, 23, 8}}}},
		{"nobody", 0, 5, Cut{}},
	} {
		p := film()
		p.Releases[c.decline].Status = plan.Declined
		if got := Cleared(&p, day(16), nil).Cut(&p, c.column); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// anyFilm draws a film with releases of all kinds and states.
func anyFilm(t *rapid.T) (plan.Plan, Doubts) {
	pick := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "pick") }
	p := plan.New()
	p.Property.Spaces = []plan.Space{{ID: "pool", Kind: plan.Outdoor}, {ID: "air", Kind: plan.Aerial}}
	people := []plan.ID{"a", "b", "c"}
	for _, id := range people {
		p.People = append(p.People, plan.Person{ID: id, Minor: pick(3) == 0, Born: plan.Date{Year: 2009, Month: 10, Day: 14 + pick(4)}})
	}
	if pick(3) > 0 { // else the papers of the flights are missing
		certify(&p)
	}
	scenes := []plan.ID{"1", "2", "3", "4"}
	for _, id := range scenes {
		p.Scenes = append(p.Scenes, plan.Scene{ID: id, Space: []plan.ID{"pool", "pool", "air", ""}[pick(4)], Seconds: pick(20),
			People: rapid.SliceOfNDistinct(rapid.SampledFrom(people), 0, 3, rapid.ID[plan.ID]).Draw(t, "people")})
	}
	some := func() []plan.ID {
		return rapid.SliceOfNDistinct(rapid.SampledFrom(scenes), 0, 2, rapid.ID[plan.ID]).Draw(t, "scenes")
	}
	doubts := Doubts{}
	for i := range pick(9) {
		r := plan.Release{ID: plan.ID(fmt.Sprint("r", i)), Kind: plan.ReleaseKinds[pick(8)], Party: []plan.ID{"a", "b", "c", ""}[pick(4)], Scenes: some(),
			Status: []plan.ReleaseStatus{plan.Signed, plan.Signed, plan.Signed, plan.Sent, plan.Declined, ""}[pick(6)]}
		if pick(3) == 0 {
			r.Until = day(14 + pick(4))
		}
		if pick(5) == 0 {
			doubts[r.ID] = plan.Problem{Code: plan.ScanMissing}
		}
		p.Releases = append(p.Releases, r)
	}
	p.Brief.Deliverables = []plan.Deliverable{{}, {Scenes: some()}}
	return p, doubts
}

// certify fills in the papers of the flights.
func certify(p *plan.Plan) {
	p.People = append(p.People, plan.Person{ID: "pilot", Role: plan.Crew, Certificate: plan.Certificate{Number: "1"}})
	p.Shooting.Flying = plan.Flying{Read: day(1), ReadBy: "pilot"}
}

// missing is the rule once more, a scene at a time and in the plainest way: what a scene waits for, in words.
func missing(p plan.Plan, s plan.Scene, on plan.Date, doubts Doubts) map[string]bool {
	out := map[string]bool{}
	holds := func(r plan.Release) bool {
		_, doubted := doubts[r.ID]
		grounded := r.Kind == plan.DroneRelease && p.Shooting.Flying.ReadBy == ""
		return r.Status == plan.Signed && !doubted && !grounded && (r.Until.IsZero() || !r.Until.Before(on))
	}
	for _, id := range s.People {
		who, _ := p.Person(id)
		kind := plan.ModelRelease
		if who.MinorOn(on) {
			kind = plan.MinorRelease
		}
		out["person "+string(id)] = true
		for _, r := range p.Releases {
			if r.Kind == kind && r.Party == id && (len(r.Scenes) == 0 || slices.Contains(r.Scenes, s.ID)) && holds(r) {
				delete(out, "person "+string(id))
			}
		}
	}
	flown, inAir := false, s.Space == "air"
	for _, r := range p.Releases {
		if r.Kind == plan.ModelRelease || r.Kind == plan.MinorRelease {
			continue
		}
		covers := slices.Contains(r.Scenes, s.ID) || len(r.Scenes) == 0 && (r.Kind != plan.DroneRelease || inAir)
		flown = flown || covers && r.Kind == plan.DroneRelease
		if covers && !holds(r) {
			out["release "+string(r.ID)] = true
		}
	}
	if inAir && !flown {
		out["release "] = true
	}
	return out
}

// TestClearedIsNothingMissing: a scene is cleared exactly when nothing is missing, and what is missing is listed; a deliverable is
// when its scenes are; signing all that is open clears all.
func TestClearedIsNothingMissing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, doubts := anyFilm(t)
		on := day(16)
		c := Cleared(&p, on, doubts)
		for i, s := range p.Scenes {
			want := missing(p, s, on, doubts)
			if c.Scenes[i].Clear() != (len(want) == 0) {
				t.Fatalf("scene %s: clear %v, missing %v", s.ID, c.Scenes[i].Clear(), want)
			}
			got := map[string]bool{}
			for _, o := range c.Open() {
				if slices.Contains(o.Scenes, s.ID) {
					if o.Person != "" {
						got["person "+string(o.Person)] = true
					} else {
						got["release "+string(o.Release)] = true
					}
				}
			}
			if !reflect.DeepEqual(got, want) {
				t.Fatalf("scene %s: open %v, missing %v", s.ID, got, want)
			}
		}
		for i, d := range p.Brief.Deliverables {
			waits := map[string]bool{}
			for _, s := range p.Scenes {
				if len(d.Scenes) == 0 || slices.Contains(d.Scenes, s.ID) {
					for what := range missing(p, s, on, doubts) {
						waits[what] = true
					}
				}
			}
			if got := c.Deliverables[i]; got.Clear() != (len(waits) == 0) || got.Signatures != len(waits) {
				t.Fatalf("deliverable %d: %+v, waits for %v", i, got, waits)
			}
		}
		signAll(&p, c)
		if p.Shooting.Flying.ReadBy == "" {
			certify(&p)
		}
		if after := Cleared(&p, on, nil); !after.Clear() {
			t.Fatalf("all is signed, and open is %v", after.Open())
		}
	})
}

func signAll(p *plan.Plan, c Clearance) {
	for _, o := range c.Open() {
		r := plan.Release{ID: plan.ID(fmt.Sprint("new", o.Column)), Kind: o.Kind, Party: o.Person, Status: plan.Signed}
		if o.Release == "" {
			p.Releases = append(p.Releases, r)
			continue
		}
		i := slices.IndexFunc(p.Releases, func(r plan.Release) bool { return r.ID == o.Release })
		p.Releases[i].Status, p.Releases[i].Until = plan.Signed, plan.Date{}
	}
}

// TestCutScenesLeaveWhatIsCleared: without the scenes that fall away, the permission is not open any more; seconds add up.
func TestCutScenesLeaveWhatIsCleared(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, doubts := anyFilm(t)
		c := Cleared(&p, day(16), doubts)
		for _, o := range c.Open() {
			cut := c.Cut(&p, o.Column)
			if !slices.Equal(cut.Scenes, o.Scenes) {
				t.Fatalf("%v falls away, %v is open", cut.Scenes, o.Scenes)
			}
			for _, l := range cut.Losses {
				sum := 0
				for _, s := range p.Scenes {
					if from := p.Brief.Deliverables[l.Deliverable].Scenes; len(from) == 0 || slices.Contains(from, s.ID) {
						sum += s.Seconds
					}
				}
				if l.Lost+l.Left != sum {
					t.Fatalf("%+v of %d seconds", l, sum)
				}
			}
			rest := p.Clone()
			rest.Scenes = slices.DeleteFunc(rest.Scenes, func(s plan.Scene) bool { return slices.Contains(cut.Scenes, s.ID) })
			for _, still := range Cleared(&rest, day(16), doubts).Open() {
				if still.Permission == o.Permission {
					t.Fatalf("without %v, %+v is still open", cut.Scenes, still)
				}
			}
		}
	})
}

// TestMissingAgrees: the people who wait to sign are those of Missing.
func TestMissingAgrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, doubts := anyFilm(t)
		on := rapid.SampledFrom([]plan.Date{{}, day(15), day(16)}).Draw(t, "date")
		var got []Unsigned
		for _, o := range Cleared(&p, on, doubts).Open() {
			if o.Person != "" {
				got = append(got, Unsigned{o.Person, o.Kind, o.Status, o.Doubt, o.Scenes})
			}
		}
		if want := Missing(&p, on, doubts); !reflect.DeepEqual(got, want) {
			t.Fatalf("%v, want %v", got, want)
		}
	})
}

// BenchmarkCleared: a large film, 300 people in 40 scenes, a release each.
func BenchmarkCleared(b *testing.B) {
	p := plan.New()
	for i := range 300 {
		id := plan.ID(fmt.Sprint("p", i))
		p.People = append(p.People, plan.Person{ID: id})
		p.Releases = append(p.Releases, plan.Release{ID: id, Kind: plan.ModelRelease, Party: id, Status: plan.Sent})
	}
	for i := range 40 {
		s := plan.Scene{ID: plan.ID(fmt.Sprint("s", i))}
		for j := range 30 {
			s.People = append(s.People, p.People[(i*7+j*11)%300].ID)
		}
		p.Scenes = append(p.Scenes, s)
	}
	for b.Loop() {
		Cleared(&p, day(16), nil)
	}
}
