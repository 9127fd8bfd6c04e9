package day

import (
	"context"
	"slices"
	"sort"

	"eavelight/plan"
	"eavelight/plan/place"
)

// OtherKind is what an other day is best at.
type OtherKind string

// The kinds of other days.
const (
	LeastWaiting OtherKind = "least waiting"
	EarliestWrap OtherKind = "earliest wrap"
	MostLight    OtherKind = "most light"
)

// Other is another good day: with all the scenes that the best one has, and better than it in one kind. Its Loss and Gap
// are in the plan's own weights, so the two stand side by side.
type Other struct {
	Kind OtherKind
	Day
	Most bool // no day with these scenes is better in its kind
}

// Others finds up to three days that are good in other ways: of the same scenes, one in which everybody waits least (as the
// plan weighs it), one that wraps earliest, one that keeps most light. What is not better in its kind, or is the same day
// as another, is left out. When the context ends, it returns what it has by then and the context's error.
func (d Day) Others(ctx context.Context) ([]Other, error) {
	if d.made == nil || len(d.Scenes) == 0 {
		return nil, nil
	}
	kinds := []OtherKind{LeastWaiting, EarliestWrap, MostLight}
	found := make([]*Other, len(kinds))
	err := stream(ctx, len(kinds), func(k int) (*Other, error) {
		return d.other(ctx, kinds[k])
	}, func(k int, o *Other) { found[k] = o })
	var out []Other
	for _, o := range found {
		if o != nil && d.beatenBy(*o) && !slices.ContainsFunc(out, func(other Other) bool { return sameStarts(other.Day, o.Day) }) {
			out = append(out, *o)
		}
	}
	return out, err
}

// other finds the best day of a kind, or nil.
func (d Day) other(ctx context.Context, kind OtherKind) (*Other, error) {
	p, certain := d.keeping(), true
	switch kind {
	case LeastWaiting:
		dearWaiting(&p)
	case MostLight:
		dearLight(&p)
	case EarliestWrap:
		p.Latest, certain = d.earliestWrap(ctx, p)
	}
	r, err := look(ctx, p, tellLooks)
	if err != nil || ctx.Err() != nil || slices.ContainsFunc(d.made.result.Order, func(i int) bool { return r.Start[i] < 0 }) {
		return nil, err
	}
	day, err := d.placedBy(r)
	if err != nil {
		return nil, err
	}
	for _, out := range d.LeftOut {
		if _, found := day.Placed(out.Scene); !found {
			day.LeftOut = append(day.LeftOut, out)
		}
	}
	day.Problems = slices.DeleteFunc(day.made.warnings(&day), func(w plan.Problem) bool { return w.Code == plan.NoBound })
	return &Other{kind, day, certain && (kind == EarliestWrap || r.Status == place.Proven)}, nil
}

// dearWaiting makes waiting dearer than all else, the weights of the people among each other kept.
func dearWaiting(p *place.Problem) {
	most := int64(1)
	for _, q := range p.People {
		most = max(most, q.Wait)
	}
	factor := max(1, dear(*p)/most)
	p.People = slices.Clone(p.People)
	for q := range p.People {
		p.People[q].Wait *= factor
	}
}

// dearLight makes light dearer than all else. It leaves room for all scenes without light under the price of one left out.
func dearLight(p *place.Problem) {
	most := int64(1)
	for _, s := range p.Scenes {
		most = max(most, slices.Max(s.Light))
	}
	factor := max(1, place.Never/int64(16*len(p.Scenes))/most)
	for i, s := range p.Scenes {
		p.Scenes[i].Light = slices.Clone(s.Light)
		for t, c := range s.Light {
			if c != place.Forbidden {
				p.Scenes[i].Light[t] = c * factor
			}
		}
	}
}

// earliestWrap is the earliest slot by which a day with all of this one's scenes can wrap, as far as the search can tell; it
// is certain of it or not.
func (d Day) earliestWrap(ctx context.Context, p place.Problem) (latest int, certain bool) {
	certain = true
	order, first := d.made.result.Order, p.Earliest
	n := sort.Search(d.made.result.Wrap-first, func(n int) bool {
		p.Latest = first + n
		c, err := place.Clash(ctx, p, order[0], order[1:])
		certain = certain && err == nil && c.Kind != place.Unknown
		return err == nil && c.Kind == place.None
	})
	return first + n, certain
}

// beatenBy tells whether an other day is better in its kind, by what can be seen.
func (d Day) beatenBy(o Other) bool {
	switch o.Kind {
	case LeastWaiting:
		return o.Loss.Waiting < d.Loss.Waiting
	case EarliestWrap:
		return o.Wrap.Before(d.Wrap)
	}
	return o.Loss.Light < d.Loss.Light && len(Compare(d.Figures(), o.Figures()).Light) > 0
}

// sameStarts tells whether two days shoot the same scenes at the same times.
func sameStarts(a, b Day) bool {
	return slices.EqualFunc(a.Scenes, b.Scenes, func(s, t Placed) bool { return s.Scene == t.Scene && s.Start.Equal(t.Start) })
}
