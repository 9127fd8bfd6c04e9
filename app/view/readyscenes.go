package view

import (
	"slices"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan"
)

// ReadyRow is a ready-made scene as it is offered.
type ReadyRow struct {
	Scene plan.ReadyScene
	Title string
	Sub   string // where it would be, its light, what it takes
	There bool   // the plan has one called so
}

// ReadyScenes are the ready-made scenes in the words of the window: a scene that is added is the user's from then on.
func ReadyScenes() []plan.ReadyScene { return plan.ReadyScenesIn(tongue.Marked) }

// ReadyRows offer the ready-made scenes for a plan, each as it would be added.
func ReadyRows(p *plan.Plan) []ReadyRow {
	var rows []ReadyRow
	english := plan.ReadyScenes()
	for i, r := range ReadyScenes() {
		alone := plan.Plan{Property: p.Property}
		alone.AddReady(r)
		s := alone.Scenes[0]
		where := tongue.Say("no space of yours suits it")
		if sp, ok := p.Space(s.Space); ok {
			where = SpaceName(sp)
		}
		rows = append(rows, ReadyRow{Scene: r, Title: s.Title,
			Sub: strings.Join([]string{where, lightName(s), tongue.Say("set-up %s, shooting %s", s.Setup, s.Shoot),
				tongue.Count(s.Seconds, "%d second", "%d seconds"), tongue.Of(s.Importance)}, " · "),
			There: slices.ContainsFunc(p.Scenes, func(o plan.Scene) bool { return o.Title == s.Title || o.Title == english[i].Title })})
	}
	return rows
}

// AddScenesWords is what a button does that adds so many scenes, and AddScenesName how undo calls it.
func AddScenesWords(n int) string {
	if n == 0 {
		return tongue.Say("Add scenes")
	}
	return upper(AddScenesName(n))
}

// AddScenesName is how undo calls it.
func AddScenesName(n int) string { return tongue.Count(n, "add %d scene", "add %d scenes") }
