package day

import (
	"cmp"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/people"
	"eavelight/plan/place"
	"eavelight/plan/say"
)

// warnings are the problems of a placed day that will hurt if nobody looks at them.
func (m *model) warnings(d *Day) plan.Problems {
	var out plan.Problems
	warn := func(path string, code plan.Code, facts ...any) {
		out = append(out, plan.Problem{Code: code, Level: plan.Warning, Path: path, Facts: facts})
	}
	for _, s := range d.Scenes {
		sc, _ := m.plan.Scene(s.Scene)
		if s.Kept < poorLight {
			warn(m.path(s.Scene), plan.LightPoor, sc.Name(), Percent(s.Kept))
		}
		out = append(out, m.weatherWarnings(sc, s, d.Windows[sc.ID])...)
		for _, f := range m.sky.FrameWarnings(sc, s.Start, s.End) {
			code := plan.SunInFrame
			if f.Kind == light.OwnShadow {
				code = plan.ShadowInFrame
			}
			warn(m.path(s.Scene), code, sc.Name(), m.span(f.Span))
		}
	}
	if d.Length() > longDay {
		warn("shooting", plan.LongDay, d.Length())
	}
	for _, pr := range d.People {
		who, _ := m.plan.Person(pr.Person)
		if pr.Waits >= longWait {
			warn("people", plan.WaitsLong, who.Called(), pr.Waits)
		}
		if g, ok := m.plan.Person(who.Guardian); who.MinorOn(m.date) && who.GuardianThere.Or() == plan.Present && ok {
			if there, _ := d.Presence(g.ID); there.Call.IsZero() || there.Call.After(pr.Call) || there.Release.Before(pr.Release) {
				warn("people", plan.GuardianAbsent, who.Called(), g.Called())
			}
		}
	}
	out = append(out, m.hourWarnings(d)...)
	out = append(out, m.flightWarnings(d)...)
	if d.Status != place.Proven {
		warn("shooting", plan.NoBound)
	}
	return out
}

// hourWarnings tell of a table of minors' hours that can't be asked.
func (m *model) hourWarnings(d *Day) plan.Problems {
	id := m.plan.Shooting.Minors
	if id == "" {
		return nil
	}
	if _, ok := people.HourTableOf(m.plan, id); !ok {
		var known []string
		for _, t := range slices.Concat(m.plan.Hours, people.HourTables()) {
			known = append(known, string(t.ID))
		}
		return plan.Problems{{Code: plan.NoHourTable, Level: plan.Warning, Path: "shooting.minors", Facts: []any{string(id), strings.Join(known, ", ")}}}
	}
	var out plan.Problems
	for _, pr := range d.People {
		if who, _ := m.plan.Person(pr.Person); who.MinorOn(m.date) && who.Born.IsZero() {
			out = append(out, plan.Problem{Code: plan.NoBirth, Level: plan.Warning, Path: "people", Facts: []any{who.Called()}})
		}
	}
	return out
}

// weatherWarnings call for the cover scene where the expected weather takes a scene's light, or wets it. Where its light
// does not come anyway, no cloud takes it.
func (m *model) weatherWarnings(sc plan.Scene, s Placed, windows []plan.Span) plan.Problems {
	cloud, rain := m.sky.Expect(s.Start, s.End)
	space, _ := m.plan.Space(sc.Space)
	instead := say.That("it has no cover scene")
	if cover, ok := m.plan.Scene(sc.Cover); ok {
		instead = say.That("its cover is scene %s", cover.Name())
	}
	var out plan.Problems
	add := func(code plan.Code, share float64) {
		out = append(out, plan.Problem{Code: code, Level: plan.Warning, Path: m.path(sc.ID), Facts: []any{sc.Name(), Percent(share), instead}})
	}
	comes := slices.ContainsFunc(windows, func(w plan.Span) bool { return w.From.Before(s.End) && w.To.After(s.Start) })
	if cloud >= muchCloud && comes && light.NeedsSun(sc.Wish) {
		add(plan.CloudExpected, cloud)
	}
	if rain >= muchRain && sc.Space != "" && space.Kind.Or() != plan.Indoor {
		add(plan.RainExpected, rain)
	}
	return out
}

// What is worth a warning: common practice, no published source.
const (
	poorLight              = 0.5
	longDay   plan.Minutes = 12 * 60
	longWait  plan.Minutes = 90
	muchCloud              = 0.5
	muchRain               = 0.3
)

// Percent is a share of 0..1 in whole hundredths. Only what is whole says 100.
func Percent(share float64) int {
	if share >= 1 {
		return 100
	}
	return min(int(share*100+0.5), 99)
}

// Unsigned are the releases that the film still needs signed: those of the people on camera, then those about anything else.
// What is signed and in doubt counts as unsigned.
func Unsigned(p *plan.Plan, d plan.Date, doubts people.Doubts) plan.Problems {
	var out plan.Problems
	add := func(about string, kind any, status plan.ReleaseStatus, doubt *plan.Problem) {
		unsigned := plan.Problem{Code: plan.NotSigned, Level: plan.Warning, Path: "releases", Facts: []any{about, kind, status}}
		if doubt != nil {
			unsigned.Code, unsigned.Facts[2] = plan.NotHolding, *doubt
		}
		out = append(out, unsigned)
	}
	for _, u := range people.Missing(p, d, doubts) {
		who, _ := p.Person(u.Person)
		add(who.Called(), u.Kind, u.Status, u.Doubt)
	}
	for _, r := range people.Pending(p, d, doubts) {
		about := r.Subject
		if who, ok := p.Person(r.Party); ok && about == "" {
			about = who.Called()
		}
		var doubt *plan.Problem
		if why, doubted := doubts[r.ID]; doubted && r.Status == plan.Signed {
			doubt = &why
		}
		var kind any = r.Kind
		if r.Kind == "" {
			kind = say.That("release|unspecified")
		}
		add(cmp.Or(about, string(r.ID)), kind, r.Status, doubt)
	}
	return out
}
