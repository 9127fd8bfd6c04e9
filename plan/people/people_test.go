package people

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// What a release must cover and when it lapses is the project's own rule (design, section 2, "cleared"); these tests are that
// rule by hand.

func day(d int) plan.Date { return plan.Date{Year: 2027, Month: 10, Day: d} }

func clock(t testing.TB, s string) plan.Clock {
	t.Helper()
	if s == "" {
		return plan.NoClock
	}
	c, err := plan.ParseClock(s)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestFree(t *testing.T) {
	type row struct {
		day      int // 0: no date, every date
		from, to string
	}
	for _, c := range []struct {
		name  string
		times []row
		want  []string // from and to, in turn
		whole bool
	}{
		{"said nothing: free all day", nil, nil, true},
		{"one stretch", []row{{16, "8:30", "17:00"}}, []string{"8:30", "17:00"}, false},
		{"another date only: not free", []row{{9, "8:30", "17:00"}}, nil, false},
		{"no date: every date", []row{{0, "8:30", "17:00"}}, []string{"8:30", "17:00"}, false},
		{"touching", []row{{16, "8:00", "12:00"}, {16, "12:00", "17:00"}}, []string{"8:00", "17:00"}, false},
		{"overlapping", []row{{16, "8:00", "13:00"}, {16, "12:00", "17:00"}}, []string{"8:00", "17:00"}, false},
		{"one within the other", []row{{16, "8:00", "17:00"}, {16, "9:00", "10:00"}}, []string{"8:00", "17:00"}, false},
		{"apart, out of order", []row{{16, "15:00", "17:00"}, {16, "8:00", "9:00"}}, []string{"8:00", "9:00", "15:00", "17:00"}, false},
		{"a minute apart", []row{{16, "8:00", "9:00"}, {16, "9:01", "10:00"}}, []string{"8:00", "9:00", "9:01", "10:00"}, false},
		{"every date and this one", []row{{0, "8:00", "9:00"}, {16, "8:30", "11:00"}, {17, "7:00", "23:00"}}, []string{"8:00", "11:00"}, false},
		{"from some time on", []row{{16, "15:30", ""}}, []string{"15:30", "36:00"}, false},
		{"until some time", []row{{16, "", "9:00"}}, []string{"0:00", "9:00"}, false},
		{"a date without times: all of it", []row{{16, "", ""}}, []string{"0:00", "36:00"}, false},
		{"past midnight", []row{{16, "20:00", "26:30"}}, []string{"20:00", "26:30"}, false},
	} {
		var p plan.Person
		for _, r := range c.times {
			a := plan.Availability{From: clock(t, r.from), To: clock(t, r.to)}
			if r.day > 0 {
				a.Date = day(r.day)
			}
			p.Availability = append(p.Availability, a)
		}
		var want []Stretch
		for i := 0; i < len(c.want); i += 2 {
			want = append(want, Stretch{clock(t, c.want[i]), clock(t, c.want[i+1])})
		}
		if got, whole := Free(p, day(16)); !reflect.DeepEqual(got, want) || whole != c.whole {
			t.Errorf("%s: %v %v, want %v %v", c.name, got, whole, want, c.whole)
		}
	}
}

// TestFreeJoinsMinutes: a minute is in one of the stretches exactly when some availability of the date has it, and the
// stretches come in order with a gap between.
func TestFreeJoinsMinutes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p plan.Person
		has := make([]bool, plan.LastClock+1)
		for range rapid.IntRange(1, 6).Draw(t, "count") {
			from := rapid.IntRange(0, plan.LastClock-1).Draw(t, "from")
			to := rapid.IntRange(from+1, plan.LastClock).Draw(t, "to")
			on := rapid.SampledFrom([]plan.Date{day(16), {}, day(17)}).Draw(t, "date")
			p.Availability = append(p.Availability, plan.Availability{Date: on, From: plan.ClockAt(from), To: plan.ClockAt(to)})
			for m := from; m < to && on != day(17); m++ {
				has[m] = true
			}
		}
		stretches, whole := Free(p, day(16))
		if whole {
			t.Fatal("free all day, with times of their own")
		}
		last := -1
		for _, s := range stretches {
			if s.From.Minutes() <= last || s.To.Minutes() <= s.From.Minutes() {
				t.Fatalf("%v are not apart and in order", stretches)
			}
			last = s.To.Minutes()
		}
		for m := range has {
			in := slices.ContainsFunc(stretches, func(s Stretch) bool { return s.From.Minutes() <= m && m < s.To.Minutes() })
			if in != has[m] {
				t.Fatalf("%v: in a stretch %v, available %v; %v", plan.ClockAt(m), in, has[m], stretches)
			}
		}
	})
}

func TestStatusOn(t *testing.T) {
	signed := plan.Release{Status: plan.Signed, Until: day(16)}
	for _, c := range []struct {
		name string
		r    plan.Release
		on   plan.Date
		want plan.ReleaseStatus
	}{
		{"the day before its last", signed, day(15), plan.Signed},
		{"its last day", signed, day(16), plan.Signed},
		{"the day after", signed, day(17), plan.Lapsed},
		{"no date yet", signed, plan.Date{}, plan.Signed},
		{"without an end", plan.Release{Status: plan.Signed}, day(17), plan.Signed},
		{"never signed does not lapse", plan.Release{Status: plan.Sent, Until: day(1)}, day(17), plan.Sent},
		{"nothing said", plan.Release{}, day(17), plan.Needed},
		{"across the new year", plan.Release{Status: plan.Signed, Until: plan.Date{Year: 2026, Month: 12, Day: 31}}, plan.Date{Year: 2027, Month: 1, Day: 1}, plan.Lapsed},
	} {
		if got := StatusOn(c.r, c.on); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

func TestOwnRelease(t *testing.T) {
	nina, ivy := plan.Person{ID: "nina"}, plan.Person{ID: "ivy", Minor: true}
	release := func(kind plan.ReleaseKind, party plan.ID, status plan.ReleaseStatus, scenes ...plan.ID) plan.Release {
		return plan.Release{Kind: kind, Party: party, Status: status, Scenes: scenes}
	}
	born18 := plan.Date{Year: 2009, Month: 10, Day: 16} // 18 on the day
	lapsed := release(plan.ModelRelease, "nina", plan.Signed)
	lapsed.Until = day(1)
	for _, c := range []struct {
		name     string
		who      plan.Person
		releases []plan.Release
		want     plan.ReleaseStatus
	}{
		{"none", nina, nil, plan.Needed},
		{"signed for every scene", nina, []plan.Release{release(plan.ModelRelease, "nina", plan.Signed)}, plan.Signed},
		{"somebody else's", nina, []plan.Release{release(plan.ModelRelease, "theo", plan.Signed)}, plan.Needed},
		{"of another kind", nina, []plan.Release{release(plan.PropertyRelease, "nina", plan.Signed)}, plan.Needed},
		{"for this scene", nina, []plan.Release{release(plan.ModelRelease, "nina", plan.Signed, "toast", "pool")}, plan.Signed},
		{"for another scene", nina, []plan.Release{release(plan.ModelRelease, "nina", plan.Signed, "toast")}, plan.Needed},
		{"a minor signs no model release", ivy, []plan.Release{release(plan.ModelRelease, "ivy", plan.Signed)}, plan.Needed},
		{"a minor's", ivy, []plan.Release{release(plan.MinorRelease, "ivy", plan.Signed)}, plan.Signed},
		{"a grown-up needs no minor's", nina, []plan.Release{release(plan.MinorRelease, "nina", plan.Signed)}, plan.Needed},
		{"signed beside needed", nina, []plan.Release{release(plan.ModelRelease, "nina", plan.Needed), release(plan.ModelRelease, "nina", plan.Signed, "pool")}, plan.Signed},
		{"lapsed", nina, []plan.Release{lapsed}, plan.Lapsed},
		{"lapsed, and sent anew", nina, []plan.Release{lapsed, release(plan.ModelRelease, "nina", plan.Sent)}, plan.Sent},
		{"lapsed, and signed anew", nina, []plan.Release{lapsed, release(plan.ModelRelease, "nina", plan.Signed)}, plan.Signed},
		{"18 on the day signs for herself", plan.Person{ID: "may", Born: born18}, []plan.Release{release(plan.ModelRelease, "may", plan.Signed)}, plan.Signed},
		{"18 the day after does not", plan.Person{ID: "may", Born: born18.AddDays(1)}, []plan.Release{release(plan.ModelRelease, "may", plan.Signed)}, plan.Needed},
		{"18 the day after: a minor's", plan.Person{ID: "may", Born: born18.AddDays(1)}, []plan.Release{release(plan.MinorRelease, "may", plan.Signed)}, plan.Signed},
		{"declined, and a new one noted", nina, []plan.Release{release(plan.ModelRelease, "nina", plan.Declined), release(plan.ModelRelease, "nina", plan.Needed)}, plan.Declined},
	} {
		p := plan.Plan{Releases: c.releases}
		for range 4 { // the order of the list says nothing
			if got := OwnRelease(&p, c.who, "pool", day(16)); got != c.want {
				t.Errorf("%s: %s, want %s (%v)", c.name, got, c.want, p.Releases)
			}
			rand.Shuffle(len(p.Releases), func(i, j int) { p.Releases[i], p.Releases[j] = p.Releases[j], p.Releases[i] })
		}
	}
}

// TestMinorWithoutADate goes by the day that the plan may be shot on last.
func TestMinorWithoutADate(t *testing.T) {
	may := plan.Person{ID: "may", Born: plan.Date{Year: 2009, Month: 10, Day: 16}}
	for _, c := range []struct {
		name     string
		shooting plan.Shooting
		want     plan.ReleaseKind
	}{
		{"no date at all", plan.Shooting{}, plan.ModelRelease},
		{"of age on the last", plan.Shooting{Dates: []plan.Date{day(16), day(9)}}, plan.ModelRelease},
		{"a minor on all", plan.Shooting{Dates: []plan.Date{day(9), day(15)}}, plan.MinorRelease},
		{"a minor on the chosen one", plan.Shooting{Date: day(9), Dates: []plan.Date{day(9), day(16)}}, plan.MinorRelease},
	} {
		if got := OwnKind(&plan.Plan{Shooting: c.shooting}, may, plan.Date{}); got != c.want {
			t.Errorf("%s: %s", c.name, got)
		}
	}
}

func TestMissing(t *testing.T) {
	p := plan.Plan{
		People: []plan.Person{{ID: "ruth"}, {ID: "ivy", Minor: true}, {ID: "nina"}, {ID: "theo"}, {ID: "jo", Role: plan.Crew}},
		Scenes: []plan.Scene{
			{ID: "lunch", People: []plan.ID{"nina", "ivy", "theo"}},
			{ID: "pool", People: []plan.ID{"theo", "nina"}},
			{ID: "dusk"},
			{ID: "path", People: []plan.ID{"ivy", "theo"}},
		},
		Releases: []plan.Release{
			{Kind: plan.ModelRelease, Party: "nina", Status: plan.Signed, Until: day(16)},
			{Kind: plan.ModelRelease, Party: "theo", Status: plan.Sent, Scenes: []plan.ID{"lunch"}},
			{Kind: plan.ModelRelease, Party: "theo", Status: plan.Signed, Scenes: []plan.ID{"path"}},
			{Kind: plan.MinorRelease, Party: "ivy", Status: plan.Declined},
		},
	}
	ivy := Unsigned{"ivy", plan.MinorRelease, plan.Declined, nil, []plan.ID{"lunch", "path"}}
	theo := Unsigned{"theo", plan.ModelRelease, plan.Needed, nil, []plan.ID{"lunch", "pool"}} // the pool has none at all
	nina := Unsigned{"nina", plan.ModelRelease, plan.Lapsed, nil, []plan.ID{"lunch", "pool"}}
	for _, c := range []struct {
		name string
		on   plan.Date
		want []Unsigned
	}{
		{"no date yet", plan.Date{}, []Unsigned{ivy, theo}},
		{"her last day", day(16), []Unsigned{ivy, theo}},
		{"the day after, in the plan's order", day(17), []Unsigned{ivy, nina, theo}},
	} {
		if got := Missing(&p, c.on, nil); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s:\n got %v\nwant %v", c.name, got, c.want)
		}
	}
}

// TestDoubtedCountsAsMissing: what is signed, and in doubt, is missing for a person on camera and pending for a thing.
func TestDoubtedCountsAsMissing(t *testing.T) {
	p := plan.Plan{
		People: []plan.Person{{ID: "nina"}, {ID: "jo", Role: plan.Crew}},
		Scenes: []plan.Scene{{ID: "lunch", People: []plan.ID{"nina"}}, {ID: "pool", People: []plan.ID{"nina"}}},
		Releases: []plan.Release{
			{ID: "hers", Kind: plan.ModelRelease, Party: "nina", Status: plan.Signed},
			{ID: "house", Kind: plan.PropertyRelease, Status: plan.Signed},
			{ID: "song", Kind: plan.MusicRelease, Status: plan.Signed},
		},
	}
	if m, q := Missing(&p, day(16), nil), Pending(&p, day(16), nil); len(m)+len(q) > 0 {
		t.Fatalf("nothing is in doubt, and %v and %v are missing", m, q)
	}
	gone := plan.Problem{Code: plan.ScanMissing, Facts: []any{"nina.pdf"}}
	doubts := Doubts{"hers": gone, "song": {Code: plan.ScanChanged}}
	want := []Unsigned{{"nina", plan.ModelRelease, plan.Signed, &gone, []plan.ID{"lunch", "pool"}}}
	if got := Missing(&p, day(16), doubts); !reflect.DeepEqual(got, want) {
		t.Errorf("missing %v, want %v", got, want)
	}
	if got := Pending(&p, day(16), doubts); len(got) != 1 || got[0].ID != "song" {
		t.Errorf("pending %v, want the song", got)
	}
	p.Releases = append(p.Releases, plan.Release{ID: "anew", Kind: plan.ModelRelease, Party: "nina", Status: plan.Signed, Scenes: []plan.ID{"pool"}})
	want[0].Scenes = []plan.ID{"lunch"} // another paper holds for the pool
	if got := Missing(&p, day(16), doubts); !reflect.DeepEqual(got, want) {
		t.Errorf("with another paper, missing %v, want %v", got, want)
	}
}
