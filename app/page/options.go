package page

import (
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"
)

// What drop-downs and ticks offer.

func spaceOptions(p *plan.Plan) []option {
	out := []option{{"", "not said yet"}}
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

// hourTables offers the tables of minors' hours that come with the program.
func hourTables(*plan.Plan) []option {
	out := []option{{"", "what people say of themselves"}}
	for _, t := range people.HourTables() {
		out = append(out, option{string(t.ID), t.Name})
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
