package view

import (
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/people"
)

// PersonDrop says which scenes suffer if somebody can't come, and who could stand in.
func PersonDrop(st session.State, id plan.ID) string {
	d := people.Drop(&st.Plan, id, slots(st))
	var alone, shared, standIns []string
	for _, s := range d.Scenes {
		sc, _ := st.Plan.Scene(s.Scene)
		if len(s.Others) == 0 {
			alone = append(alone, sc.Name())
		} else {
			shared = append(shared, sc.Name())
		}
		for _, in := range s.StandIns {
			who, _ := st.Plan.Person(in.Person)
			if name := who.Called(); in.SameRole && !slices.Contains(standIns, name) {
				standIns = append(standIns, name)
			}
		}
	}
	var out []string
	if len(alone) > 0 {
		out = append(out, tongue.Count(len(alone), "Scene %[2]s has nobody else.", "Scenes %[2]s have nobody else.", tongue.List(alone)))
	}
	if len(shared) > 0 {
		out = append(out, tongue.Count(len(shared), "Scene %[2]s goes on with the others.", "Scenes %[2]s go on with the others.", tongue.List(shared)))
	}
	for _, ward := range d.Wards {
		who, _ := st.Plan.Person(ward)
		out = append(out, tongue.Say("%s needs another guardian.", who.Called()))
	}
	if n := len(d.Flown); n > 0 {
		out = append(out, tongue.Count(n, "Scene %[2]s has no other pilot.", "Scenes %[2]s have no other pilot.", tongue.List(sceneNames(st.Plan, d.Flown))))
	}
	switch {
	case len(d.Scenes) == 0 && len(out) == 0:
		return ""
	case len(standIns) > 0:
		out = append(out, tongue.Say("Free then and of the same role: %s.", tongue.List(standIns)))
	case len(d.Scenes) > 0:
		out = append(out, tongue.Say("Nobody of the same role is free then."))
	}
	return strings.Join(out, " ")
}

// slots are when the scenes of the day shown are shot.
func slots(st session.State) map[plan.ID]people.Slot {
	d := st.Results.Chosen
	out := map[plan.ID]people.Slot{}
	for _, s := range d.Scenes {
		at := func(minute int) plan.Clock { return d.Sky.Clock(minute) }
		out[s.Scene] = people.Slot{Date: d.Date, Stretch: people.Stretch{From: at(d.Sky.MinuteOf(s.Start)), To: at(d.Sky.MinuteOf(s.End))}}
	}
	return out
}
