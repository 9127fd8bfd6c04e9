package view

import (
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

// FlightLines say in what light the drone flies on a day, and who decides about it; nothing where it does not.
func FlightLines(p plan.Plan, d day.Day) []string {
	var known, open []string
	for _, f := range d.Flights {
		sc, _ := p.Scene(f.Scene)
		if f.Light == "" {
			open = append(open, sc.Name())
			continue
		}
		known = append(known, "scene "+sc.Name()+" "+f.Words(d.Zone))
	}
	text := ""
	switch {
	case len(known) > 0:
		text = "Flown: " + strings.Join(known, "; ") + ". "
	case len(open) > 0:
		text = "Flown: " + count(len(open), "scene", "scenes") + " (" + strings.Join(open, ", ") + "). No rules for drones are chosen in Dates and rules, " +
			"so nothing is told of their light. "
	default:
		return nil
	}
	return []string{text + people.DroneCaution}
}

// FlightRules say what the rules chosen for drones ask, in our words, each with its section.
func FlightRules(p *plan.Plan) string {
	if p.Shooting.Flying.Rules == "" {
		return "Ask the local aviation authority, and read its rules. Nothing is told here of the light of flights."
	}
	var out []string
	for _, r := range people.DroneRules {
		line := r.Section + ": " + r.Says
		if !r.Verified {
			line += " (From memory: look it up.)"
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}
