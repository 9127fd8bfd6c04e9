package view

import (
	"path/filepath"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
)

// Start is the page that one sees before a plan is open. It is none of Pages.
const Start Page = "start"

// FirstLight says when the sun is over the skyline on the day shown.
func FirstLight(st session.State) string {
	d := st.Results.Chosen
	if d.Sky == nil {
		return tongue.Say("With a position and a date, the light of the day can be told.")
	}
	var spans []string
	for _, s := range d.Sky.SunOver() {
		spans = append(spans, clock(d, s.From)+"–"+clock(d, s.To))
	}
	if len(spans) == 0 {
		return tongue.Say("The sun stays under the skyline on %s.", d.Date.SaidShort())
	}
	return tongue.Say("%s: the sun is over the skyline %s.", d.Date.SaidShort(), strings.Join(spans, ", "))
}

// RecentNames are a recent plan's name, and the words for its folder, in one line of bearable length: of a long path the end tells more.
func RecentNames(path string) (file, where string) {
	name, folder := []rune(filepath.Base(path)), []rune(filepath.Dir(path))
	if len(name) > 40 {
		name = append(name[:39:39], '…')
	}
	if len(folder) > 50 {
		folder = append([]rune("…"), folder[len(folder)-49:]...)
	}
	return string(name), tongue.Say("in %s", string(folder))
}

// ReadySets are the sets of ready-made scenes in the words of the window, and after them what a film hardly does without.
func ReadySets() []plan.ReadySet {
	usual := plan.ReadySet{Name: tongue.Say("set|The usual ones")}
	for _, r := range plan.ReadyScenes() {
		if r.Importance == plan.Must {
			usual.Scenes = append(usual.Scenes, r.ID)
		}
	}
	return append(plan.ReadySetsIn(tongue.Marked), usual)
}

// ReadySum says how many scenes are chosen, and how long they take.
func ReadySum(chosen []plan.ReadyScene) string {
	if len(chosen) == 0 {
		return tongue.Say("No scene is ticked.")
	}
	var takes plan.Minutes
	for _, r := range chosen {
		takes += r.Setup + r.Shoot
	}
	return tongue.Count(len(chosen), "%d scene: set-up and shooting take %s.", "%d scenes: set-up and shooting take %s.", takes)
}

// ReadyLine is a ready-made scene where it is offered.
func ReadyLine(r plan.ReadyScene) string { return r.Title + " (" + lightName(r.Scene) + ")" }
