package plan

// UsualMove is what a move between two spaces takes where the plan does not say: common practice, no published source.
const UsualMove Minutes = 5

// MoveMinutes is how long it takes to move the kit between two spaces, either way round.
func (p *Plan) MoveMinutes(a, b ID) Minutes {
	if a == b {
		return 0
	}
	for _, m := range p.Property.Moves {
		if m.From == a && m.To == b || m.From == b && m.To == a {
			return m.Minutes
		}
	}
	return UsualMove
}

// PinnedOn reports whether the scene's start is fixed by hand on a date.
func (s Scene) PinnedOn(d Date) bool {
	return s.Pin.Start.IsSet() && (s.Pin.Date.IsZero() || s.Pin.Date == d)
}
