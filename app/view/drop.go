package view

import (
	"slices"
	"strings"

	"eavelight/app/session"
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
		out = append(out, sceneWord(len(alone))+" "+listed(alone)+" "+verb(len(alone), "has", "have")+" nobody else.")
	}
	if len(shared) > 0 {
		out = append(out, sceneWord(len(shared))+" "+listed(shared)+" "+verb(len(shared), "goes", "go")+" on with the others.")
	}
	for _, ward := range d.Wards {
		who, _ := st.Plan.Person(ward)
		out = append(out, who.Called()+" needs another guardian.")
	}
	if n := len(d.Flown); n > 0 {
		var names []string
		for _, id := range d.Flown {
			sc, _ := st.Plan.Scene(id)
			names = append(names, sc.Name())
		}
		out = append(out, sceneWord(n)+" "+listed(names)+" "+verb(n, "has", "have")+" no other pilot.")
	}
	switch {
	case len(d.Scenes) == 0 && len(out) == 0:
		return ""
	case len(standIns) > 0:
		out = append(out, "Free then and of the same role: "+listed(standIns)+".")
	case len(d.Scenes) > 0:
		out = append(out, "Nobody of the same role is free then.")
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

func sceneWord(n int) string { return verb(n, "Scene", "Scenes") }

func verb(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
