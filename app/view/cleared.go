package view

import (
	"cmp"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/say"
)

// NothingToClear is said where no scene needs a permission.
func NothingToClear() string {
	return tongue.Say("Nothing to be signed yet: put people into scenes, or add the releases of the house and the music.")
}

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
	if d := st.Results.Chosen.Date; !d.IsZero() {
		return tongue.Count(len(c.Scenes), "%[2]d of %[1]d scene is cleared, judged by %[3]s.", "%[2]d of %[1]d scenes are cleared, judged by %[3]s.",
			n, d.SaidShort())
	}
	return tongue.Count(len(c.Scenes), "%[2]d of %[1]d scene is cleared.", "%[2]d of %[1]d scenes are cleared.", n)
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
		return tongue.Say("cleared")
	}
	return tongue.Count(n, "waits for %d", "waits for %d")
}

// PermissionClearance says what a permission is, and how many scenes wait for it.
func PermissionClearance(c people.Clearance, column int) string {
	waits := len(waiters(c, column))
	text := releaseKind(c.Permissions[column].Kind)
	if waits == 0 {
		return tongue.Say("%s, cleared", text)
	}
	return text + ", " + tongue.Count(waits, "%d scene waits for it", "%d scenes wait for it")
}

func releaseKind(k plan.ReleaseKind) string {
	if k == "" {
		return tongue.Say("unspecified release")
	}
	return tongue.Say("%s release", k)
}

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
		return tongue.Say("not needed")
	case s.Doubt != nil:
		return tongue.Say("signed, in doubt")
	case s.Status == plan.Needed:
		return tongue.Say("not sent yet")
	case s.Status == plan.Sent:
		return tongue.Say("sent, not signed yet")
	}
	return tongue.Of(s.Status)
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
	standing := columnStanding(c, column)
	is := tongue.Say("The %s is %s.", releaseKind(need.Kind), standingSentence(standing))
	if row >= 0 {
		scene, _ := st.Plan.Scene(c.Scenes[row].Scene)
		if own := c.Scenes[row].Standings[column]; own.Needed {
			standing = own
			is = tongue.Say("The %s for scene %s is %s.", releaseKind(need.Kind), SceneName(scene), standingSentence(standing))
		} else {
			out.tell(tongue.Say("Scene %s does not need it.", SceneName(scene)))
		}
	}
	out.tell(is)
	out.Release = standing.By
	if standing.Doubt != nil {
		out.tell(tongue.Say("Why it does not count: %s.", standing.Doubt))
	}
	for _, r := range st.Plan.Releases {
		if r.ID == standing.By {
			out.dates(r, standing)
		}
	}
	waits := waiters(c, column)
	if len(waits) == 0 {
		out.tell(tongue.Say("Every scene that needs it has it."))
		return out
	}
	out.tell(sceneNumbers(st.Plan, waits, say.Mark("Scene %s waits for it."), say.Mark("Scenes %s wait for it.")))
	out.Lines = append(out.Lines, cutLine(st.Plan, c.Cut(&st.Plan, column)))
	return out
}

func (p *Permission) tell(line string) { p.Lines = append(p.Lines, line) }

// dates says who signed, since when it stands so, and until when.
func (p *Permission) dates(r plan.Release, s people.Standing) {
	if r.SignedBy != "" && s.Status == plan.Signed {
		by := r.SignedBy
		if r.Relation != "" {
			by += " (" + r.Relation + ")"
		}
		p.tell(tongue.Say("Signed by %s.", by))
	}
	if !r.Changed.IsZero() {
		p.tell(tongue.Say("It stands so since %s.", r.Changed.SaidLong()))
	}
	if !r.Until.IsZero() {
		p.tell(tongue.Say("It lapses after %s.", r.Until.SaidLong()))
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
		return tongue.Say("not written down yet")
	case s.Doubt != nil:
		return tongue.Say("signed, but does not count")
	}
	return StandingWord(s)
}

// cutLine says what falls away when a permission is not given, in scenes and in seconds.
func cutLine(p plan.Plan, cut people.Cut) string {
	text := sceneNumbers(p, cut.Scenes, say.Mark("If it is not given, scene %s falls away"), say.Mark("If it is not given, scenes %s fall away"))
	for _, l := range cut.Losses {
		d := p.Brief.Deliverables[l.Deliverable]
		if d.Seconds > 0 {
			text += "; " + tongue.Say("%s loses %d s, which leaves %d s for its %d s", DeliverableName(d), l.Lost, l.Left, d.Seconds)
		}
	}
	return text + "."
}

// DeliverableName is what a deliverable is called.
func DeliverableName(d plan.Deliverable) string {
	return cmp.Or(d.Name, tongue.Say("unnamed deliverable"))
}

// mostScenes is how many scenes are named in a sentence; the column of the picture has them all.
const mostScenes = 24

// sceneNumbers says in a form what one scene does, or in another what many do: "scene 7 waits", "scenes 3 and 7 wait".
func sceneNumbers(p plan.Plan, ids []plan.ID, one, many string) string {
	var names []string
	for i, id := range ids {
		if rest := len(ids) - i; i == mostScenes && rest > 1 {
			names = append(names, tongue.Count(rest, "%d more", "%d more"))
			break
		}
		s, _ := p.Scene(id)
		names = append(names, clipped(s.Name(), 30))
	}
	if len(names) == 1 {
		return tongue.Of(say.Marked(one, names[0]))
	}
	return tongue.Of(say.Marked(many, tongue.List(names)))
}

func capital(s string) string { return strings.TrimSuffix(sentence(s), ".") }

// CutFrom says which scenes a deliverable is cut from.
func CutFrom(p plan.Plan, d plan.Deliverable) string {
	if len(d.Scenes) == 0 {
		return DeliverableName(d) + ": " + tongue.Say("all scenes")
	}
	return DeliverableName(d) + ": " + tongue.Count(len(p.Scenes), "%[2]d of %[1]d scene", "%[2]d of %[1]d scenes", len(d.Scenes))
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
		return tongue.Say("scenes give %d s", gives)
	case gives < d.Seconds:
		return tongue.Say("scenes give %d s of %d s, %d s too few", gives, d.Seconds, d.Seconds-gives)
	}
	return tongue.Say("scenes give %d s of %d s", gives, d.Seconds)
}
