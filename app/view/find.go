package view

import (
	"cmp"
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/say"
)

// Hit is something that can be found by words and gone to: a thing of the plan, a page, or an action.
type Hit struct {
	Kind  HitKind
	Title string
	Sub   string
	Text  string  // more that it is found by
	Page  Page    // where it is
	ID    plan.ID // of the thing on the page
	Do    func()  // in place of the page and the thing
}

// HitKind is what can be found.
type HitKind string

// The kinds of hits. All but pages and actions have an ID; that of a rule of the day is its path in the plan.
const (
	PageHit    HitKind = "page"
	ActionHit  HitKind = "action"
	SceneHit   HitKind = "scene"
	PersonHit  HitKind = "person"
	SpaceHit   HitKind = "space"
	ReleaseHit HitKind = "release"
	RuleHit    HitKind = "rule"
)

var hitKinds = map[HitKind]string{
	PageHit:    say.Mark("found|page"),
	ActionHit:  say.Mark("found|action"),
	SceneHit:   say.Mark("found|scene"),
	PersonHit:  say.Mark("found|person"),
	SpaceHit:   say.Mark("found|space"),
	ReleaseHit: say.Mark("found|release"),
	RuleHit:    say.Mark("found|rule"),
}

// Word is the kind in a word.
func (k HitKind) Word() string { return tongue.Marked(hitKinds[k]) }

// Findable are the pages and the things of the plan.
func Findable(st session.State) []Hit {
	var hits []Hit
	for _, p := range Pages {
		hits = append(hits, Hit{Kind: PageHit, Title: p.Title(), Sub: Lacking(p, st), Page: p})
	}
	add := func(kind HitKind, page Page, rows []Row, text func(i int) string) {
		for i, r := range rows {
			hits = append(hits, Hit{Kind: kind, Title: r.Title, Sub: r.Sub, Text: text(i), Page: page, ID: r.ID})
		}
	}
	p := st.Plan
	add(SceneHit, Scenes, SceneRows(st), func(i int) string { return sceneText(p.Scenes[i]) })
	add(PersonHit, People, PersonRows(st), func(i int) string {
		q := p.People[i]
		return strings.Join([]string{tongue.Of(q.Role), q.Job, q.Phone, q.Email, q.Notes}, "\n")
	})
	add(SpaceHit, Property, SpaceRows(st), func(i int) string { return p.Property.Spaces[i].Safety })
	add(ReleaseHit, People, ReleaseRows(st), func(i int) string { return "" })
	return hits
}

// sceneText is what a scene is found by beside its row.
func sceneText(s plan.Scene) string {
	out := []string{s.Action, s.Notes}
	for _, q := range s.Pictures {
		out = append(out, q.Caption)
	}
	return strings.Join(out, "\n")
}

// Find keeps the hits that hold every one of some words, whatever the case and the accents; those with a word at the beginning
// of a word of their title come first, those that only hold them in a longer text last.
func Find(hits []Hit, words string) []Hit {
	asked := strings.Fields(assets.Plain(words))
	type ranked struct {
		Hit
		rank int
	}
	var found []ranked
	for _, h := range hits {
		if r, ok := rank(h, asked); ok {
			found = append(found, ranked{h, r})
		}
	}
	slices.SortStableFunc(found, func(a, b ranked) int { return cmp.Compare(a.rank, b.rank) })
	out := make([]Hit, len(found))
	for i, f := range found {
		out[i] = f.Hit
	}
	return out
}

// rank tells how far from the beginning of a hit some words stand; the lower the nearer.
func rank(h Hit, asked []string) (sum int, ok bool) {
	title, around, text := " "+assets.Plain(h.Title), " "+assets.Plain(h.Kind.Word()+" "+h.Sub), assets.Plain(h.Text)
	for _, w := range asked {
		switch {
		case strings.HasPrefix(title, " "+w):
		case strings.Contains(title, " "+w):
			sum++
		case strings.Contains(title, w):
			sum += 2
		case strings.Contains(around, w):
			sum += 4
		case strings.Contains(text, w):
			sum += 8
		default:
			return 0, false
		}
	}
	return sum, true
}
