package plan

import (
	"cmp"

	"eavelight/plan/say"

	"github.com/shopspring/decimal"
)

// New returns an empty plan with the usual shooting rules filled in. A zero in them is a zero that somebody said, so a
// plan is made by New or read from a file, never by Plan{}.
func New() Plan {
	return Plan{Shooting: UsualShooting()}
}

// UsualShooting returns the usual rules of a shooting day. All of them are common practice, no published source, but for
// the meal: within six hours of the call (IWC Wage Order 12-2001, 8 CCR 11120, section 11); local law decides.
func UsualShooting() Shooting {
	return Shooting{
		EarliestCall: ClockAt(4 * 60),
		LatestWrap:   ClockAt(24 * 60),
		Longest:      14 * 60,
		Prepare:      30,
		Ready:        20,
		PackUp:       20,
		MealWithin:   6 * 60,
		MealLength:   45,
		MealApart:    3 * 60,
		Rest:         11 * 60,
		Days:         1,
		Grid:         5,
		Weights:      Weights{Light: 1, Waiting: 0.2, Minor: 3, Moving: 0.1, Length: 2, LeftOut: 100, Again: 60, Day: 150},
		Light:        LightLimits{GoldenLow: -4, GoldenHigh: 6, BlueLow: -6, BlueHigh: -4},
	}
}

// NewPerson returns somebody of whom nothing is said yet, with the usual figures (common practice, no published source).
func NewPerson() Person { return Person{Weight: 1, Change: 15} }

// DayCount is the number of shooting days, 1 where none was said.
func (s Shooting) DayCount() int { return cmp.Or(s.Days, 1) }

// OrUsual returns the figure, or the usual one where none was said.
func OrUsual(v *Angle, usual Angle) Angle {
	if v == nil {
		return usual
	}
	return *v
}

// Or returns the importance, Should where none was said.
func (i Importance) Or() Importance { return cmp.Or(i, Should) }

// Or returns the kind, Any where none was said.
func (k WishKind) Or() WishKind { return cmp.Or(k, Any) }

// Or returns the status, Needed where none was said.
func (s ReleaseStatus) Or() ReleaseStatus { return cmp.Or(s, Needed) }

// Or returns the size, Letter where none was said.
func (s PaperSize) Or() PaperSize { return cmp.Or(s, Letter) }

// Or is the language itself, or the usual one where none is said.
func (w DateWords) Or() DateWords { return cmp.Or(w, English) }

// Or is the clock itself, or the usual one where none is said.
func (c HourClock) Or() HourClock { return cmp.Or(c, Clock24) }

// Or returns the role, Talent where none was said.
func (r Role) Or() Role { return cmp.Or(r, Talent) }

// Or returns where the guardian is, Present where none was said.
func (g GuardianThere) Or() GuardianThere { return cmp.Or(g, Present) }

// Or returns the kind, Indoor where none was said.
func (k SpaceKind) Or() SpaceKind { return cmp.Or(k, Indoor) }

// IsZero reports "not said".
func (m Money) IsZero() bool { return m.Currency == "" && m.Amount.Equal(decimal.Zero) }

// UsualRecording returns how a film is often recorded and kept, with its batteries named in a tongue: common practice, no published
// source.
func UsualRecording(in say.Tongue) Recording {
	return Recording{
		Ratio:      12,
		Bitrate:    150,
		Megapixels: 24,
		Bits:       14,
		Packed:     true,
		Card:       128,
		Drive:      2000,
		Offload:    200,
		Copies:     3,
		OnDrives:   2,
		Elsewhere:  1,
		Batteries: []Battery{
			{Name: say.That("Camera battery").In(in), Lasts: 100, Spare: 30},
			{Name: say.That("Drone battery").In(in), Lasts: 25, Spare: 50, Flying: true},
		},
	}
}
