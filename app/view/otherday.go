package view

import (
	"slices"
	"strings"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
)

// MovedTo is the shoot as it would be with scenes of the day shown on another of its days.
type MovedTo struct {
	Arranged
	Days []day.Day // the two that change: the one that is left, and the other
}

// MoveToDay takes scenes from the day shown to another day of the shoot: to the same time of day if it has their light there, else
// to where their light begins. There they are pinned, and what they meet makes way; the rest of both days is held.
func MoveToDay(st session.State, scenes []plan.ID, to day.Day) MovedTo {
	from, p := st.Results.Chosen, st.Plan.Clone()
	out := MovedTo{Arranged: Arranged{State: st, Name: tongue.Say("move %s to %s", someScenes(st.Plan, scenes), tongue.Of(to.Date.SaidDayMonth()))}}
	keepDate(&p, from)
	for _, d := range st.Results.Shoot.Days {
		if d.Date != to.Date {
			d.Hold(&p)
		}
	}
	for _, id := range scenes {
		if sc := p.SceneAt(id); sc != nil {
			sc.Pin = plan.Pin{Date: to.Date, Start: plan.ClockOn(to.Date, startOn(st, *sc, to), to.Zone)}
		}
	}
	kept, there, why := to.ByHand(&p, scenes...)
	if why == nil {
		var here day.Day
		if kept, here, why = from.ByHand(&kept); why == nil {
			out.Days = []day.Day{here, there}
		}
	}
	if why != nil {
		out.Cannot = sentence(handWords(*why))
		return out
	}
	out.Plan = kept
	out.Results.Shoot.Days = slices.Clone(st.Results.Shoot.Days)
	for i, d := range out.Results.Shoot.Days {
		for _, changed := range out.Days {
			if changed.Date == d.Date {
				out.Results.Shoot.Days[i] = changed
			}
		}
	}
	out.Results.Chosen = out.Days[0]
	return out
}

// startOn is where a scene of the day shown would begin on another day.
func startOn(st session.State, sc plan.Scene, to day.Day) time.Time {
	other := st
	other.Results.Chosen = to
	at, placed := st.Results.Chosen.Placed(sc.ID)
	if !placed {
		return shelfStart(other, sc)
	}
	clock := plan.ClockOn(st.Results.Chosen.Date, at.Start, to.Zone)
	same := to.Sky.Start.Add(time.Duration(to.Sky.MinuteAt(clock)) * time.Minute)
	windows := to.Windows[sc.ID]
	if _, ok := light.Window(windows, same); ok || len(windows) == 0 {
		return same
	}
	return shelfStart(other, sc)
}

// MovedLine says what comes of scenes that are held over another day: when they would be there, with how much of their light, and
// what the shoot would lose less or more.
func MovedLine(before session.State, m MovedTo, scenes []plan.ID) string {
	if m.Cannot != "" || len(m.Days) < 2 {
		return m.Cannot
	}
	to := m.Days[1]
	var parts []string
	for _, id := range scenes {
		sc, _ := before.Plan.Scene(id)
		if at, ok := to.Placed(id); ok {
			parts = append(parts, tongue.Say("Scene %s goes to %s, %s, with %d %% of its light", sc.Name(), tongue.Of(to.Date.SaidDayMonth()), clock(to, at.Start), day.Percent(at.Kept)))
		} else {
			parts = append(parts, tongue.Say("Scene %s would find no place there", sc.Name()))
		}
	}
	var out []plan.ID
	for i, d := range m.Results.Shoot.Days {
		out = append(out, newlyOut(before.Results.Shoot.Days[i].Figures(), d.Figures())...)
	}
	out = slices.DeleteFunc(out, func(id plan.ID) bool {
		_, placed := placedIn(m.Results.Shoot, id)
		return placed || slices.Contains(scenes, id)
	})
	if len(out) > 0 {
		parts = append(parts, noPlace(before, sceneNames(before.Plan, out)))
	}
	if by := lossOf(m.Results.Shoot.Days) - lossOf(before.Results.Shoot.Days); by > 0 {
		parts = append(parts, tongue.Say("%s more lost", day.PointWords(by)))
	} else if by < 0 {
		parts = append(parts, tongue.Say("%s less lost", day.PointWords(-by)))
	}
	return strings.Join(parts, " · ")
}

func lossOf(days []day.Day) (sum float64) {
	for _, d := range days {
		sum += d.Loss.Total()
	}
	return sum
}
