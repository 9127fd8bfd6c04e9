package view

import (
	"cmp"
	"fmt"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/people"
)

// NothingToClear is said where no scene needs a permission.
const NothingToClear = "Nothing to be signed yet: put people into scenes, or add the releases of the house and the music."

// ClearedSum says how many scenes are cleared, and by which day that is judged; nothing where there are none.
func ClearedSum(st session.State, c people.Clearance) string {
	if len(c.Scenes) == 0 {
		return ""
	}
	n := 0
	for _, s := range c.Scenes {
		if s.Clear() {
			n++
		}
	}
	text := fmt.Sprintf("%d of %s cleared", n, count(len(c.Scenes), "scene is", "scenes are"))
	if d := st.Results.Chosen.Date; !d.IsZero() {
		text += ", judged by " + d.Short()
	}
	return text + "."
}

// SceneClearance says how a scene stands, in a word or two.
func SceneClearance(s people.SceneClearance) string {
	n := 0
	for _, st := range s.Standings {
		if !st.Clear() {
			n++
		}
	}
	if n == 0 {
		return "cleared"
	}
	return fmt.Sprintf("waits for %d", n)
}

// PermissionClearance says what a permission is, and how many scenes wait for it.
func PermissionClearance(c people.Clearance, column int) string {
	waits := len(waiters(c, column))
	text := releaseKind(c.Permissions[column].Kind)
	if waits == 0 {
		return text + ", cleared"
	}
	return text + ", " + count(waits, "scene waits", "scenes wait") + " for it"
}

func releaseKind(k plan.ReleaseKind) string { return string(cmp.Or(k, "unspecified")) + " release" }

// waiters are the scenes that wait for a permission.
func waiters(c people.Clearance, column int) []plan.ID {
	for _, o := range c.Open() {
		if o.Column == column {
			return o.Scenes
		}
	}
	return nil
}

// StandingWord is a word for how a permission stands for a scene.
func StandingWord(s people.Standing) string {
	switch {
	case !s.Needed:
		return "not needed"
	case s.Doubt != nil:
		return "signed, in doubt"
	case s.Status == plan.Needed:
		return "not sent yet"
	case s.Status == plan.Sent:
		return "sent, not signed yet"
	}
	return string(s.Status)
}

// Permission is what is told of a permission, for one scene or for all.
type Permission struct {
	Head    string
	Lines   []string
	Release plan.ID // the one to look at; "" where none is written down
}

// TellPermission tells of a column of what is cleared, and of one scene's row in it; row -1 leaves the scene out.
func TellPermission(st session.State, c people.Clearance, row, column int) Permission {
	need := c.Permissions[column]
	out := Permission{Head: capital(tongue.Of(need.About(&st.Plan)))}
	standing, where := columnStanding(c, column), ""
	if row >= 0 {
		scene, _ := st.Plan.Scene(c.Scenes[row].Scene)
		if own := c.Scenes[row].Standings[column]; own.Needed {
			standing, where = own, fmt.Sprintf(" for scene %s", SceneName(scene))
		} else {
			out.say("Scene %s does not need it.", SceneName(scene))
		}
	}
	out.say("The %s%s is %s.", releaseKind(need.Kind), where, standingSentence(standing))
	out.Release = standing.By
	if standing.Doubt != nil {
		out.say("Why it does not count: %s.", standing.Doubt)
	}
	for _, r := range st.Plan.Releases {
		if r.ID == standing.By {
			out.dates(r, standing)
		}
	}
	waits := waiters(c, column)
	if len(waits) == 0 {
		out.say("Every scene that needs it has it.")
		return out
	}
	out.say("%s for it.", capital(sceneNumbers(st.Plan, waits, "waits", "wait")))
	out.Lines = append(out.Lines, cutLine(st.Plan, c.Cut(&st.Plan, column)))
	return out
}

func (p *Permission) say(format string, facts ...any) {
	p.Lines = append(p.Lines, fmt.Sprintf(format, facts...))
}

// dates says who signed, since when it stands so, and until when.
func (p *Permission) dates(r plan.Release, s people.Standing) {
	if r.SignedBy != "" && s.Status == plan.Signed {
		by := r.SignedBy
		if r.Relation != "" {
			by += " (" + r.Relation + ")"
		}
		p.say("Signed by %s.", by)
	}
	if !r.Changed.IsZero() {
		p.say("It stands so since %s.", r.Changed.Long())
	}
	if !r.Until.IsZero() {
		p.say("It lapses after %s.", r.Until.Long())
	}
}

// columnStanding is the standing that a whole column is told by: the least far of those that are missing, else any.
func columnStanding(c people.Clearance, column int) people.Standing {
	for _, o := range c.Open() {
		if o.Column == column {
			return o.Standing
		}
	}
	for _, s := range c.Scenes {
		if s.Standings[column].Needed {
			return s.Standings[column]
		}
	}
	return people.Standing{}
}

// standingSentence is how a needed permission stands, to end a sentence with.
func standingSentence(s people.Standing) string {
	switch {
	case s.By == "":
		return "not written down yet"
	case s.Doubt != nil:
		return "signed, but does not count"
	}
	return StandingWord(s)
}

// cutLine says what falls away when a permission is not given, in scenes and in seconds.
func cutLine(p plan.Plan, cut people.Cut) string {
	text := "If it is not given, " + sceneNumbers(p, cut.Scenes, "falls", "fall") + " away"
	for _, l := range cut.Losses {
		d := p.Brief.Deliverables[l.Deliverable]
		if d.Seconds > 0 {
			text += fmt.Sprintf("; %s loses %d s, which leaves %d s for its %d s", DeliverableName(d), l.Lost, l.Left, d.Seconds)
		}
	}
	return text + "."
}

// DeliverableName is what a deliverable is called.
func DeliverableName(d plan.Deliverable) string { return cmp.Or(d.Name, "unnamed deliverable") }

// mostScenes is how many scenes are named in a sentence; the column of the picture has them all.
const mostScenes = 24

// sceneNumbers is some scenes with what they do: "scene 7 waits", "scenes 3 and 7 wait".
func sceneNumbers(p plan.Plan, ids []plan.ID, one, many string) string {
	var names []string
	for i, id := range ids {
		if rest := len(ids) - i; i == mostScenes && rest > 1 {
			names = append(names, fmt.Sprintf("%d more", rest))
			break
		}
		s, _ := p.Scene(id)
		names = append(names, clipped(s.Name(), 30))
	}
	if len(names) == 1 {
		return "scene " + names[0] + " " + one
	}
	return "scenes " + listed(names) + " " + many
}

func capital(s string) string { return strings.TrimSuffix(sentence(s), ".") }

// CutFrom says which scenes a deliverable is cut from.
func CutFrom(p plan.Plan, d plan.Deliverable) string {
	if len(d.Scenes) == 0 {
		return DeliverableName(d) + ": all scenes"
	}
	return fmt.Sprintf("%s: %d of %s", DeliverableName(d), len(d.Scenes), count(len(p.Scenes), "scene", "scenes"))
}

// CutSeconds holds the seconds on screen of the scenes that a deliverable is cut from against its running time.
func CutSeconds(p plan.Plan, d plan.Deliverable) string {
	gives := 0
	for _, s := range p.Scenes {
		if people.CutFrom(d, s.ID) {
			gives += s.Seconds
		}
	}
	switch {
	case d.Seconds == 0:
		return fmt.Sprintf("scenes give %d s", gives)
	case gives < d.Seconds:
		return fmt.Sprintf("scenes give %d s of %d s, %d s too few", gives, d.Seconds, d.Seconds-gives)
	}
	return fmt.Sprintf("scenes give %d s of %d s", gives, d.Seconds)
}
