package people

import (
	"fmt"
	"slices"
	"time"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Flies reports whether a scene is shot from a drone: in a space of the air, or because a drone release names it.
func Flies(p *plan.Plan, s plan.Scene) bool {
	return aerial(p, s) || slices.ContainsFunc(p.Releases, func(r plan.Release) bool {
		return r.Kind == plan.DroneRelease && slices.Contains(r.Scenes, s.ID)
	})
}

// FlightRulesName is what rules are called where they are chosen.
func FlightRulesName(r plan.FlightRules) say.Text {
	switch r {
	case plan.USPart107:
		return say.That("United States (14 CFR part 107)")
	case plan.USPart107Alaska:
		return say.That("Alaska (14 CFR part 107)")
	}
	return say.That("the local authority's, not known here")
}

// nightTrained is the day after which a test or training counts for flights at night, by 14 CFR 107.29(a)(1).
var nightTrained = plan.Date{Year: 2021, Month: time.April, Day: 6}

// TrainedForNight reports whether a pilot may fly at night by 14 CFR 107.29(a)(1). Since every test and training after that day
// covers the night, no mark of its own is asked for.
func TrainedForNight(c plan.Certificate) bool { return nightTrained.Before(c.Trained) }

// CurrentUntil is the last day on which a test or training counts, by 14 CFR 107.65: 24 calendar months, so the end of the month.
func CurrentUntil(trained plan.Date) plan.Date {
	return plan.DateOf(time.Date(trained.Year+2, trained.Month+1, 0, 0, 0, 0, 0, time.UTC))
}

// Pilot is who flies on a date: of the crew with a certificate, the first whose certificate holds, or else the first, and then
// why says what is wrong with it. ok is false where nobody has one.
//
// It is not asked who of them flies which scene: whoever stands in a scene is in the picture and needs a release, and a pilot may
// watch over another's flight (14 CFR 107.12, from memory).
func Pilot(p *plan.Plan, d plan.Date) (pilot plan.Person, why *plan.Problem, ok bool) {
	for i, who := range p.People {
		if who.Role != plan.Crew || who.Certificate.Number == "" {
			continue
		}
		fault := certificateFault(p, i, d)
		if fault == nil {
			return who, nil, true
		}
		if !ok {
			pilot, why, ok = who, fault, true
		}
	}
	return pilot, why, ok
}

// certificateFault tells why the certificate of a person, by their place in the plan, does not count on a date. Without a date
// nothing lapses.
func certificateFault(p *plan.Plan, i int, d plan.Date) *plan.Problem {
	who := p.People[i]
	fault := func(code plan.Code, facts ...any) *plan.Problem {
		return paper(p, code, fmt.Sprintf("people[%d].certificate", i), append([]any{who.Called()}, facts...)...)
	}
	c := who.Certificate
	switch last := CurrentUntil(c.Trained); {
	case !d.IsZero() && !c.Until.IsZero() && c.Until.Before(d):
		return fault(plan.FlightCertEnds, c.Until.SaidLong())
	case p.Shooting.Flying.Rules == "":
		return nil
	case c.Trained.IsZero() || !d.IsZero() && d.Before(c.Trained):
		return fault(plan.FlightUntrained)
	case !d.IsZero() && last.Before(d):
		return fault(plan.FlightLapsed, last.SaidLong())
	}
	return nil
}

// paper is a problem of the film's flights, all of them.
func paper(p *plan.Plan, code plan.Code, path string, facts ...any) *plan.Problem {
	return &plan.Problem{Code: code, Level: plan.Warning, Path: path, Facts: append([]any{flownWords(flown(p))}, facts...)}
}

// flownWords begin a sentence: "scenes 1 and 14 are flown".
func flownWords(scenes []plan.Scene) say.Text {
	var names []string
	for _, s := range scenes {
		names = append(names, s.Name())
	}
	if len(names) == 1 {
		return say.That("scene %s is flown", names[0])
	}
	return say.That("scenes %s are flown", say.Names(names))
}

// flown are the scenes that fly.
func flown(p *plan.Plan) []plan.Scene {
	named := map[plan.ID]bool{}
	for _, r := range p.Releases {
		for _, s := range r.Scenes {
			named[s] = named[s] || r.Kind == plan.DroneRelease
		}
	}
	var out []plan.Scene
	for _, s := range p.Scenes {
		if named[s.ID] || aerial(p, s) {
			out = append(out, s)
		}
	}
	return out
}

// FlightPapers are the papers of the film's drone flights that are missing on a date, beside the releases: the pilot's certificate,
// and that somebody read the rules of the authority. A film without flights misses none.
func FlightPapers(p *plan.Plan, d plan.Date) plan.Problems {
	if len(flown(p)) == 0 {
		return nil
	}
	var out plan.Problems
	switch _, why, ok := Pilot(p, d); {
	case !ok:
		out = append(out, *paper(p, plan.FlightNoPilot, "people"))
	case why != nil:
		out = append(out, *why)
	}
	f := p.Shooting.Flying
	if f.Read.IsZero() || f.ReadBy == "" || !d.IsZero() && d.Before(f.Read) {
		out = append(out, *paper(p, plan.FlightUnread, "shooting.flying"))
	}
	return out
}

// FlightsUnwritten are the flights among the scenes that no drone release covers, as a problem; nil where there are none.
func FlightsUnwritten(p *plan.Plan) *plan.Problem {
	var open []plan.Scene
	for _, s := range p.Scenes {
		if flightUnwritten(p, s) {
			open = append(open, s)
		}
	}
	if len(open) == 0 {
		return nil
	}
	return &plan.Problem{Code: plan.FlightUnwritten, Level: plan.Warning, Path: "releases", Facts: []any{flownWords(open)}}
}
