package place

import (
	"context"
	"fmt"
	"slices"
)

// ConflictKind says how a scene stands with others.
type ConflictKind int

// Unknown: the search reached its limits, or the context ended, before it could tell. None: all can be placed together.
// Alone: the scene cannot be placed even on a day of its own. Together: it cannot be placed together with the others named.
const (
	Unknown ConflictKind = iota
	None
	Alone
	Together
)

// Conflict is the answer of Clash.
type Conflict struct {
	Kind   ConflictKind
	Others []int // with Together: the scenes that clash with it, in the order they were named
	Least  bool  // with Together: without any one of Others, the rest can be placed with the scene
}

// Clash finds why a scene cannot be placed together with the scenes of among, whatever is lost: a set of them that
// together with it is too much, and that has no part to spare. It deletes one scene after the other in the order of among
// and keeps out those whose absence changes nothing, so of two sets it finds the one whose scenes are named later. The
// scene itself is ignored in among. Adding a scene can make a day possible, in rare cases: a meal needs two scenes to stand
// between. The error is that of Validate, or tells of an unknown scene.
func Clash(ctx context.Context, p Problem, scene int, among []int) (Conflict, error) {
	if err := p.Validate(); err != nil {
		return Conflict{}, fmt.Errorf("place: %w", err)
	}
	for _, i := range append([]int{scene}, among...) {
		if i < 0 || i >= len(p.Scenes) {
			return Conflict{}, fmt.Errorf("place: there is no scene %d", i)
		}
	}
	others := slices.DeleteFunc(slices.Clone(among), func(i int) bool { return i == scene })
	switch fits(ctx, p, append([]int{scene}, others...)) {
	case unknown:
		return Conflict{Kind: Unknown}, nil
	case yes:
		return Conflict{Kind: None}, nil
	}
	if fits(ctx, p, []int{scene}) == no {
		return Conflict{Kind: Alone}, nil
	}
	c := Conflict{Kind: Together, Least: true}
	for i, kept := range others {
		without := slices.Concat([]int{scene}, c.Others, others[i+1:])
		answer := fits(ctx, p, without)
		if answer != no {
			c.Others = append(c.Others, kept)
		}
		c.Least = c.Least && answer != unknown
	}
	return c, nil
}

type answer int

const (
	unknown answer = iota
	yes
	no
)

// fits tells whether the scenes can all be placed on one day. What they lose does not matter, so it solves the day with
// nothing costing anything but leaving out.
func fits(ctx context.Context, p Problem, scenes []int) answer {
	free := p
	free.Hint = nil
	free.People, free.MoveCost, free.DayCost, free.Overtime, free.Scenes = slices.Clone(p.People), 0, 0, nil, nil
	for q := range free.People {
		free.People[q].Wait = 0
	}
	for _, i := range scenes {
		s := p.Scenes[i]
		s.Light, s.Leave, s.After = slices.Clone(s.Light), Never, nil
		for t, c := range s.Light {
			s.Light[t] = min(c, 0)
		}
		for _, a := range p.Scenes[i].After {
			if at := slices.Index(scenes, a); at >= 0 {
				s.After = append(s.After, at)
			}
		}
		free.Scenes = append(free.Scenes, s)
	}
	r := newRun(ctx, &free)
	r.limit = Never
	if r.m.shut > 0 {
		return no
	}
	firstPlans(ctx, r.m, firstWidth, r.found)
	if r.loss() > 0 {
		r.attempt()
	}
	switch {
	case r.loss() == 0:
		return yes
	case r.bound >= Never:
		return no
	}
	return unknown
}
