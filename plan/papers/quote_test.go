package papers

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/price"
	"eavelight/plan/store"
)

// tarn is the demo plan that comes with the program, placed, and its packages answered.
func tarn(t testing.TB) (plan.Plan, []day.Day, []price.Answer) {
	t.Helper()
	p, _, err := store.Read("../../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	shoot, err := day.ChosenShoot(context.Background(), &p)
	if err != nil {
		t.Fatal(err)
	}
	packages, err := price.Packages(context.Background(), &p, shoot.Days)
	if err != nil {
		t.Fatal(err)
	}
	return p, shoot.Days, packages
}

// ours is tarn with a card that is not the starter's, quoted on a day.
func ours(t testing.TB) (plan.Plan, []day.Day, []price.Answer) {
	p, days, packages := tarn(t)
	p.Pricing.Card.Starter = false
	p.Pricing.Quoted = plan.Date{Year: 2027, Month: 9, Day: 1}
	return p, days, packages
}

// golden holds a sheet's text against a file that was looked at.
func golden(t *testing.T, name string, s Sheet) {
	t.Helper()
	got, path := s.Text(), filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s has changed; look at it, then run with -update. Now:\n%s", name, got)
	}
}

func TestQuoteGoldenText(t *testing.T) {
	p, days, packages := ours(t)
	golden(t, "quote.txt", Quote(&p, days, packages...))
	golden(t, "budget.txt", Budget(&p, days))
	golden(t, "register.txt", ReleaseRegister(&p, days, nil))
}
