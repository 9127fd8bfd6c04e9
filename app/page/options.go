package page

import (
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"
)

// What drop-downs and ticks offer.

func spaceOptions(p *plan.Plan) []option {
	out := []option{{"", tongue.Say("not said yet")}}
	for _, sp := range p.Property.Spaces {
		out = append(out, option{string(sp.ID), view.SpaceName(sp)})
	}
	return out
}

func faceOptions(p *plan.Plan) []option {
	var out []option
	for _, f := range p.Property.Faces {
		out = append(out, option{string(f.ID), view.FaceName(f)})
	}
	return out
}

// hourTables offers the plan's own tables of minors' hours, and those that come with the program.
func hourTables(p *plan.Plan) []option {
	out := []option{{"", tongue.Say("what people say of themselves")}}
	for _, t := range p.Hours {
		out = append(out, option{string(t.ID), tongue.Say("%s (in this plan)", t.Name)})
	}
	for _, t := range people.HourTables() {
		out = append(out, option{string(t.ID), t.Name})
	}
	return out
}

// flightRules offers the rules for drones that come with the program, or those of the place.
func flightRules(*plan.Plan) []option {
	out := []option{{"", tongue.Of(people.FlightRulesName(""))}}
	for _, r := range plan.FlightRuleNames {
		out = append(out, option{string(r), tongue.Of(people.FlightRulesName(r))})
	}
	return out
}

// readers are the grown-ups, who may answer for having read rules.
func readers(p *plan.Plan) []option {
	out := []option{{"", tongue.Say("nobody yet")}}
	for _, q := range p.People {
		if !people.Minor(p, q, plan.Date{}) {
			out = append(out, option{string(q.ID), q.Called()})
		}
	}
	return out
}

func personOptions(p *plan.Plan) []option {
	var out []option
	for _, q := range p.People {
		out = append(out, option{string(q.ID), q.Called()})
	}
	return out
}

func sceneOptions(p *plan.Plan) []option {
	var out []option
	for _, sc := range p.Scenes {
		out = append(out, option{string(sc.ID), view.SceneName(sc)})
	}
	return out
}

// said are words that a field suggests, in the reader's tongue: what is taken of them is the user's own text.
func said(suggested []string) []string {
	out := make([]string, len(suggested))
	for i, w := range suggested {
		out[i] = tongue.Marked(w)
	}
	return out
}
