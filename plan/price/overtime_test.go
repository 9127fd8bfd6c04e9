package price

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"eavelight/plan"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

var (
	california = plan.OvertimeRule{ // California Labor Code 510(a)
		Daily:   []plan.OvertimeStep{{After: 8 * 60, Times: dec("1.5")}, {After: 12 * 60, Times: dec("2")}},
		Seventh: []plan.OvertimeStep{{After: 0, Times: dec("1.5")}, {After: 8 * 60, Times: dec("2")}},
		Weekly:  40 * 60, WeeklyTimes: dec("1.5"),
	}
	federal = plan.OvertimeRule{Weekly: 40 * 60, WeeklyTimes: dec("1.5")}                                // 29 USC 207(a)(1)
	byDay   = plan.OvertimeRule{Daily: []plan.OvertimeStep{{After: 0, Times: dec("1.5")}}, Beyond: true} // common practice, no published source
)

// week is days of so many hours, from a Sunday on.
func week(hours ...float64) []Worked {
	var out []Worked
	for i, h := range hours {
		if h > 0 {
			out = append(out, Worked{plan.Date{Year: 2027, Month: time.October, Day: 10}.AddDays(i), plan.Minutes(h * 60)})
		}
	}
	return out
}

// pay is what the hours earn at an hourly rate.
func pay(paid [][]Paid, rate string) decimal.Decimal {
	sum := decimal.Zero
	for _, day := range paid {
		for _, p := range day {
			sum = sum.Add(dec(rate).Mul(p.Times).Mul(decimal.NewFromInt(int64(p.Minutes))))
		}
	}
	return sum.DivRound(decimal.NewFromInt(60), 2)
}

// TestOvertimePay holds wages against published examples.
func TestOvertimePay(t *testing.T) {
	for _, c := range []struct {
		source, rate string
		rule         plan.OvertimeRule
		days         []Worked
		want         string
	}{
		{"29 CFR 778.110(a): $12 an hour, 46 hours", "12", federal, week(0, 10, 10, 10, 10, 6), "588"},
		{"29 CFR 778.110(a) before 2011: $6, 46 hours", "6", federal, week(0, 8, 8, 8, 8, 14), "294"},
		{"a textbook publisher's overtime page, example 1: $20, 45 hours", "20", federal, week(0, 9, 9, 9, 9, 9), "950"},
		{"the same, example 2: California, $30, 12 hours in a day", "30", california, week(0, 12), "420"},
		{"by the same rule, arithmetic: 14 hours in a day", "30", california, week(0, 14), "540"},
		{"29 USC 207 has no daily rule", "30", federal, week(0, 14), "420"},
		{"no rule", "30", plan.OvertimeRule{}, week(0, 14), "420"},
		{"a course on California wages: 6 days of 9 hours, the greater of 6 and 14 hours of overtime", "10", california,
			week(9, 9, 9, 9, 9, 9), "610"}, // 40 x 10 + 14 x 15
		{"California Labor Code 510(a), seventh day of 10 hours after six of 4", "30", california, week(4, 4, 4, 4, 4, 4, 10),
			"1200"}, // 24 x 30, and 8 x 45 + 2 x 60
		{"California Labor Code 510(a), a workweek of its own", "30", california, append(week(0, 0, 0, 0, 8, 8, 8), []Worked{
			{plan.Date{Year: 2027, Month: time.October, Day: 17}, 480}, {plan.Date{Year: 2027, Month: time.October, Day: 18}, 480},
			{plan.Date{Year: 2027, Month: time.October, Day: 19}, 480}, {plan.Date{Year: 2027, Month: time.October, Day: 20}, 480}}...), "1680"},
	} {
		got := pay(Overtime(c.rule, c.days, make([]plan.Minutes, len(c.days))), c.rate)
		if !got.Equal(dec(c.want)) {
			t.Errorf("%s: %s, want %s", c.source, got, c.want)
		}
	}
}

// TestDayRates: a rate for ten hours, then one and a half times (common practice, no published source).
func TestDayRates(t *testing.T) {
	for _, c := range []struct {
		rate   plan.CrewRate
		rule   plan.OvertimeRule
		worked plan.Minutes
		want   string
	}{
		{plan.CrewRate{Basis: plan.ByDay, Hours: 600}, byDay, 480, "1 of 8 h x1"},
		{plan.CrewRate{Basis: plan.ByDay, Hours: 600}, byDay, 690, "1 of 10 h x1, 1 h 30 x1.5"},
		{plan.CrewRate{Basis: plan.ByDay, Hours: 600}, plan.OvertimeRule{}, 690, "1 of 11 h 30 x1"},
		{plan.CrewRate{Basis: plan.ByDay, Hours: 600}, california, 780, "1 of 10 h x1, 2 h x1.5, 1 h x2"},
		{plan.CrewRate{Basis: plan.ByHalfDay, Hours: 300}, byDay, 270, "1 of 4 h 30 x1"},
		{plan.CrewRate{Basis: plan.ByHalfDay, Hours: 300}, byDay, 330, "2 of 5 h 30 x1"},
		{plan.CrewRate{Basis: plan.ByHalfDay, Hours: 300}, byDay, 720, "2 of 10 h x1, 2 h x1.5"},
		{plan.CrewRate{Basis: plan.ByHour, Hours: 600}, california, 540, "0 of 8 h x1, 1 h x1.5"},
		{plan.CrewRate{Basis: plan.ByDay, Hours: 600}, byDay, 0, "0 of "},
	} {
		units, covers := covered(c.rate, c.worked)
		var parts []string
		for _, p := range Overtime(c.rule, []Worked{{plan.Date{Year: 2027, Month: 10, Day: 16}, c.worked}}, []plan.Minutes{covers})[0] {
			parts = append(parts, fmt.Sprintf("%s x%s", p.Minutes, p.Times))
		}
		if got := fmt.Sprintf("%d of %s", units, strings.Join(parts, ", ")); got != c.want {
			t.Errorf("%s, %s worked: %s, want %s", c.rate.Basis, c.worked, got, c.want)
		}
	}
}

// TestOvertimeKeepsEveryMinute: under any rule nothing is lost, nothing is counted twice, and a longer day never earns less.
func TestOvertimeKeepsEveryMinute(t *testing.T) {
	rules := []plan.OvertimeRule{california, federal, byDay, {}}
	rapid.Check(t, func(t *rapid.T) {
		rule := rapid.SampledFrom(rules).Draw(t, "rule")
		cover := plan.Minutes(rapid.SampledFrom([]int{0, 300, 600}).Draw(t, "cover"))
		var days []Worked
		var covers []plan.Minutes
		for i := range rapid.IntRange(1, 7).Draw(t, "days") {
			days = append(days, Worked{plan.Date{Year: 2027, Month: 10, Day: 10}.AddDays(i), plan.Minutes(rapid.IntRange(0, 1440).Draw(t, "minutes"))})
			covers = append(covers, cover)
		}
		paid := Overtime(rule, days, covers)
		for i, d := range days {
			var sum plan.Minutes
			for _, p := range paid[i] {
				sum += p.Minutes
			}
			if sum != d.Minutes {
				t.Fatalf("%d of %d minutes paid", sum, d.Minutes)
			}
		}
		before := pay(paid, "60")
		k := rapid.IntRange(0, len(days)-1).Draw(t, "longer")
		days[k].Minutes += plan.Minutes(rapid.IntRange(1, 120).Draw(t, "by"))
		if after := pay(Overtime(rule, days, covers), "60"); after.LessThan(before) {
			t.Fatalf("longer, and %s after %s", after, before)
		}
	})
}
