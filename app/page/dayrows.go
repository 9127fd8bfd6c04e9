package page

import (
	"cmp"
	"math"
	"slices"
	"time"

	"eavelight/app/draw"
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
)

// The functions here turn a day into what the drawn widgets show. They are pure.

// dayAxis is the stretch of time that the Day page shows: from the first light or the call to the last light or the wrap,
// with some air.
func dayAxis(d day.Day, left, right float32) draw.Axis {
	a := draw.Axis{Zone: d.Zone, Left: left, Right: right}
	if d.Sky == nil {
		return a
	}
	e := d.Sky.Events
	a.From, a.To = d.Sky.Start, d.Sky.Time(len(d.Sky.Minutes))
	if !e.Civil.Up.IsZero() && !e.Civil.Down.IsZero() {
		a.From, a.To = e.Civil.Up, e.Civil.Down
		if len(d.Scenes) > 0 {
			a.From, a.To = earlier(a.From, d.Call), later(a.To, d.Wrap)
		}
		a.From, a.To = a.From.Add(-20*time.Minute), a.To.Add(20*time.Minute)
	}
	return a
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

func cards(st session.State, beside plan.Date) draw.StripData {
	out := draw.StripData{Empty: tongue.Say("No date is proposed yet. Add one from the calendar.")}
	chosen := st.Results.Chosen.Date
	for _, date := range day.Candidates(&st.Plan) {
		c := draw.Card{ID: date.String(), Date: tongue.Of(date.SaidShort()), Kept: -1, Note: tongue.Say("computing…")}
		if d, ok := view.DatePlaced(st, date); ok {
			c.Note, c.Why = view.DateNote(st, d), view.DateReason(st, d)
			if d.Sky != nil {
				c.Kept = d.LightKept(&st.Plan)
			}
		}
		out.Cards = append(out.Cards, c)
	}
	if !chosen.IsZero() {
		out.Chosen = chosen.String()
	}
	if !beside.IsZero() {
		out.Beside = beside.String()
	}
	return out
}

func skyData(st session.State, d day.Day, a draw.Axis) draw.SkyData {
	out := draw.SkyData{Axis: a, Name: tongue.Say("Sky"), Empty: view.NoDay(st)}
	if d.Sky == nil {
		return out
	}
	for i := 0; i < len(d.Sky.Minutes); i += 5 {
		m := d.Sky.Minutes[i]
		out.Samples = append(out.Samples, draw.SkySample{At: d.Sky.Time(i), Altitude: float64(m.Apparent), Skyline: float64(m.Skyline)})
	}
	for _, w := range view.LightBands(d) {
		out.Windows = append(out.Windows, draw.Span{From: w.From, To: w.To, Label: w.Name})
	}
	for i := 0; i < len(d.Sky.Minutes); i += 20 {
		out.Moon = append(out.Moon, draw.SkySample{At: d.Sky.Time(i), Altitude: float64(d.Sky.Moon(i).Altitude)})
	}
	out.MoonLabel = view.MoonLabel(d)
	for _, c := range view.CloudSpans(d) {
		out.Cloud = append(out.Cloud, draw.SpanValue{Span: draw.Span{From: c.From, To: c.To, Label: view.CloudLabel(c)}, Value: c.Share})
	}
	for _, m := range view.SunMarks(d) {
		out.Marks = append(out.Marks, draw.Mark{At: m.From, Label: m.Name})
	}
	return out
}

// faceStep is how finely the sun on a face is drawn.
const faceStep = 2

func faceData(p plan.Plan, d day.Day, a draw.Axis) draw.FaceData {
	out := draw.FaceData{Axis: a}
	if len(p.Property.Faces) == 0 {
		out.Empty = tongue.Say("No face of the house is described yet.")
	}
	if d.Sky == nil {
		return out
	}
	for _, f := range p.Property.Faces {
		row := draw.FaceRow{Name: view.FaceName(f), Start: d.Sky.Start, Step: faceStep * time.Minute}
		for i := 0; i < len(d.Sky.Minutes); i += faceStep {
			row.Strength = append(row.Strength, strength(d.Sky.Minutes[i], f.Bearing))
		}
		var sum plan.Minutes
		for _, s := range d.Sky.FaceHours(f.Bearing) {
			sum += s.Minutes()
		}
		row.Total = sum.String()
		out.Rows = append(out.Rows, row)
	}
	return out
}

// strength is the cosine of the sun's incidence on a face, 0 where the sun is not on it.
func strength(m light.Minute, face plan.Bearing) float64 {
	if !m.Lit(face) {
		return 0
	}
	return math.Cos(float64(m.Incidence(face)) * math.Pi / 180)
}

var importances = map[plan.Importance]draw.Importance{plan.Nice: draw.Nice, plan.Should: draw.Should, plan.Must: draw.Must}

func boardData(st session.State, a draw.Axis, selected plan.ID, also []plan.ID) draw.BoardData {
	p, d := st.Plan, st.Results.Chosen
	out := draw.BoardData{Axis: a, Selected: string(selected), Empty: tongue.Say("No space is described yet: add them on the Property page."), ShelfName: tongue.Say("No place yet")}
	for _, id := range also {
		out.Also = append(out.Also, string(id))
	}
	if d.Sky != nil {
		out.Grid, out.Origin = boardGrid(st), d.Sky.Start
	}
	if len(p.Property.Spaces) > 0 {
		out.Empty = tongue.Say("No scene is placed.")
	}
	row := map[plan.ID]int{}
	for i, s := range p.Property.Spaces {
		row[s.ID] = i
		out.Rows = append(out.Rows, view.SpaceName(s))
	}
	if slices.ContainsFunc(d.Scenes, func(s day.Placed) bool { sc, _ := p.Scene(s.Scene); return sc.Space == "" }) {
		row[""] = len(out.Rows)
		out.Rows = append(out.Rows, tongue.Say("no space yet"))
	}
	for _, s := range d.Scenes {
		if b, ok := blockOf(p, d, s); ok {
			b.Row, b.Problem = row[b.space], s.Kept < 0.5
			out.Blocks = append(out.Blocks, b.Block)
		}
	}
	if d.Sky != nil {
		for _, s := range view.BoardShelf(st) {
			if b, ok := blockOf(p, d, s); ok {
				b.Kept, b.Note = -1, ""
				out.Shelf = append(out.Shelf, b.Block)
			}
		}
	}
	for _, m := range d.Moves {
		out.Moves = append(out.Moves, draw.Move{From: m.Span.From, To: m.Span.To, FromRow: row[m.From], ToRow: row[m.To]})
	}
	for _, m := range d.Meals {
		out.Meals = append(out.Meals, draw.Span{From: m.From, To: m.To, Label: tongue.Say("meal")})
	}
	if len(d.Scenes) > 0 {
		out.Limits = []draw.Mark{{At: d.Call, Label: tongue.Say("call %s", view.Clock(d, d.Call))}, {At: d.Wrap, Label: tongue.Say("wrap %s", view.Clock(d, d.Wrap))}}
	}
	return out
}

// block is a block of the board and its scene's space.
type block struct {
	draw.Block
	space plan.ID
}

func blockOf(p plan.Plan, d day.Day, s day.Placed) (block, bool) {
	sc, ok := p.Scene(s.Scene)
	b := block{space: sc.Space, Block: draw.Block{
		ID: string(sc.ID), SetUp: s.Setup, Start: s.Start, End: s.End,
		Number: cmp.Or(sc.Number, "–"), Title: sc.Title, Note: tongue.Say("%d %% of its light", day.Percent(s.Kept)),
		Kept: s.Kept, Importance: importances[sc.Importance.Or()], Pinned: s.Pinned, Held: s.Held,
	}}
	if sc.Wish.Kind.Or() == plan.Any {
		b.Kept, b.Note = -1, ""
	}
	for _, w := range d.Windows[sc.ID] {
		b.Windows = append(b.Windows, draw.Span{From: w.From, To: w.To})
	}
	return b, ok
}

func peopleData(p plan.Plan, d day.Day, a draw.Axis) draw.PeopleData {
	out := draw.PeopleData{Axis: a, Empty: tongue.Say("Nobody is called on this day.")}
	for _, pr := range d.People {
		who, _ := p.Person(pr.Person)
		row := draw.PersonRow{
			Name: who.Called(), Call: view.Clock(d, pr.Call), Release: view.Clock(d, pr.Release), Total: view.Waits(pr),
			Present: []draw.Span{{From: pr.Call, To: pr.Release}},
		}
		for _, on := range pr.OnCamera {
			row.OnCamera = append(row.OnCamera, draw.Span{From: on.From, To: on.To})
		}
		for _, w := range pr.Waiting {
			row.Waiting = append(row.Waiting, draw.Span{From: w.From, To: w.To})
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

func lossData(st session.State) draw.LossData {
	d := st.Results.Chosen
	out := draw.LossData{Empty: view.LensCaution()}
	if d.Sky == nil || len(d.Scenes) == 0 {
		return out
	}
	parts, total := view.Losses(d.Loss)
	out.Total = draw.LossPart{Name: tongue.Say("Points lost"), Points: total}
	for _, p := range parts {
		out.Parts = append(out.Parts, draw.LossPart(p))
	}
	out.Notes = []string{view.DayNote(st), view.LensCaution()}
	return out
}
