package view

import (
	"strings"

	"eavelight/app/tongue"
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
		known = append(known, tongue.Say("scene %s %s", sc.Name(), tongue.Of(f.Words(d.Zone))))
	}
	text := ""
	switch {
	case len(known) > 0:
		text = tongue.Say("Flown: %s.", strings.Join(known, "; "))
	case len(open) > 0:
		text = tongue.Count(len(open),
			"Flown: %d scene (%s). No rules for drones are chosen in Dates and rules, so nothing is told of their light.",
			"Flown: %d scenes (%s). No rules for drones are chosen in Dates and rules, so nothing is told of their light.",
			strings.Join(open, ", "))
	default:
		return nil
	}
	return []string{text + " " + tongue.Marked(people.DroneCaution)}
}

// FlightRules say what the rules chosen for drones ask, in our words, each with its section.
func FlightRules(p *plan.Plan) string {
	if p.Shooting.Flying.Rules == "" {
		return tongue.Say("Ask the local aviation authority, and read its rules. Nothing is told here of the light of flights.")
	}
	var out []string
	for _, r := range people.DroneRules {
		line := r.Section + ": " + tongue.Marked(r.Says)
		if !r.Verified {
			line += " " + tongue.Say("(From memory: look it up.)")
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}
