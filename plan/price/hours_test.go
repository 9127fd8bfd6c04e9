package price

import (
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"

	"pgregory.net/rapid"
)

// TestWeekOfASheet holds a whole sheet against the labour department's example, 29 CFR 778.110(a): $12 an hour, 46 hours in a
// workweek, $588.00.
func TestWeekOfASheet(t *testing.T) {
	p := small()
	card := &p.Pricing.Card
	card.Overtime = append(card.Overtime, federal)
	card.Overtime[1].ID = "week"
	card.Crew[1] = plan.CrewRate{ID: "camera", Basis: plan.ByHour, Rate: dec("12"), Overtime: "week"}
	sunday := plan.Date{Year: 2027, Month: time.October, Day: 10}
	var days []day.Day
	for i, hours := range []plan.Minutes{10, 10, 10, 10, 6} {
		days = append(days, dayOf(&p, sunday.AddDays(i+1), hours*60+30, 30))
	}
	s := Of(&p, days)
	if got, want := told(t, &s, "crew/cam"), "588.00 = 40 h x 12.00 + 6 h x 18.00"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestMealsOut: of a meal, what falls between call and release is not paid. By hand: there from 13:00 to 23:00, a meal of an hour.
func TestMealsOut(t *testing.T) {
	p := small()
	for from, want := range map[plan.Minutes]plan.Minutes{-90: 600, -30: 570, 0: 540, 300: 540, 540: 540, 570: 570, 600: 600} {
		d := dayOf(&p, october, 600, 0)
		begins := d.Call.Add(time.Duration(from) * time.Minute)
		d.Meals = []plan.Span{{From: begins, To: begins.Add(time.Hour)}}
		if h, _ := hoursOn(p.People[0], plan.CrewRate{}, d, 1); h.Worked != want || h.Meals != 600-want {
			t.Errorf("a meal %d min after the call: %s paid, %s out; want %s", from, h.Worked, h.Meals, want)
		}
	}
}

// TestPastMidnight: the hours of a night belong to the day of its call. Arithmetic: 13:00 to 03:00 less a meal of 1 h, and 1 h of travel.
func TestPastMidnight(t *testing.T) {
	p := small()
	s := Of(&p, []day.Day{dayOf(&p, october, 840, 60)})
	if h := s.Hours[1]; len(s.Hours) != 2 || h.Date != october || h.Worked != 840 || h.Release.Day() != 17 {
		t.Errorf("%+v", s.Hours)
	}
}

// TestCrewInAScene: somebody of the crew who is also filmed is paid once, and somebody on camera with a rate stands under talent.
func TestCrewInAScene(t *testing.T) {
	p := small()
	p.Scenes[0].People = []plan.ID{"cam", "tal"}
	p.People[2].Role, p.People[2].Rate = plan.Talent, "camera"
	s := Of(&p, []day.Day{dayOf(&p, october, 720, 60)})
	if l, _ := s.line("crew/cam"); !l.Amount.Equal(dec("420")) || l.Group != plan.CrewGroup || len(s.Hours) != 3 {
		t.Errorf("%s in %s, %d with hours", l.Amount, l.Group, len(s.Hours))
	}
	if l, _ := s.line("crew/tal"); !l.Amount.Equal(dec("375")) || l.Group != plan.TalentGroup { // 8 x 30 + 3 x 45, without travel
		t.Errorf("%s in %s", l.Amount, l.Group)
	}
}

// TestMoreHoursNeverCostLess: over shoots of several days, by any basis and rule, with meals wherever they fall, a day that is longer
// leaves floor and price no lower, and nobody's pay.
func TestMoreHoursNeverCostLess(t *testing.T) {
	rules := []plan.OvertimeRule{california, federal, byDay, {}}
	rapid.Check(t, func(t *rapid.T) {
		p := small()
		card := &p.Pricing.Card
		rule := rapid.SampledFrom(rules).Draw(t, "rule")
		rule.ID = "rule"
		card.Overtime, card.TimeStep = []plan.OvertimeRule{rule}, plan.Minutes(rapid.SampledFrom([]int{0, 6, 15}).Draw(t, "step"))
		basis := rapid.SampledFrom(plan.Bases).Draw(t, "basis")
		card.Crew[1] = plan.CrewRate{ID: "camera", Basis: basis, Rate: dec("61.37"), Overtime: "rule", Travel: rapid.Bool().Draw(t, "travel"),
			Hours: plan.Minutes(rapid.SampledFrom([]int{240, 300, 600}).Draw(t, "hours"))}
		from := rapid.IntRange(0, 6).Draw(t, "weekday")
		var days []day.Day
		for i := range rapid.IntRange(1, 9).Draw(t, "days") {
			length, meal := rapid.IntRange(0, 1200).Draw(t, "length"), rapid.SampledFrom([]int{0, 30, 60}).Draw(t, "meal")
			days = append(days, dayOf(&p, october.AddDays(from+i), plan.Minutes(length), plan.Minutes(meal)))
		}
		before := Of(&p, days)
		k := rapid.IntRange(0, len(days)-1).Draw(t, "longer")
		one := shifted(days[k:k+1], plan.Minutes(rapid.IntRange(1, 120).Draw(t, "by")))
		days[k] = one[0]
		after := Of(&p, days)
		a, _ := before.line("crew/cam")
		b, _ := after.line("crew/cam")
		if b.Amount.LessThan(a.Amount) || after.Floor.LessThan(before.Floor) || after.Price().LessThan(before.Price()) {
			t.Fatalf("longer, and %s after %s, a floor of %s after %s", b.Amount, a.Amount, after.Floor, before.Floor)
		}
	})
}
