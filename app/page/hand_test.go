package page

import (
	"context"
	"testing"
	"time"

	"eavelight/app/draw"
	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/store"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
)

// large is the demo with 20 scenes and 10 people.
func large(t testing.TB) (plan.Plan, day.Day) {
	t.Helper()
	p, _, err := store.Read("../../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	for len(p.People) < 10 {
		p.DuplicatePerson(0)
	}
	p.Shooting.Dates, p.Shooting.EarliestCall, p.Shooting.LatestWrap, p.Shooting.Longest = p.Shooting.Dates[1:2], plan.ClockAt(4*60), plan.ClockAt(24*60), 18*60
	for n := 0; len(p.Scenes) < 21; n++ {
		i := p.AddScene(len(p.Scenes))
		s := &p.Scenes[i]
		s.Setup, s.Shoot, s.People = 5, 10, []plan.ID{p.People[n%10].ID, p.People[(n+5)%10].ID}
	}
	d, err := day.Chosen(context.Background(), &p)
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Scenes) < 20 || len(d.People) < 10 {
		t.Fatalf("%d scenes and %d people on the day", len(d.Scenes), len(d.People))
	}
	return p, d
}

// BenchmarkDrag is a step of a drag on a day of 20 scenes and 10 people: the day as it would be, the words, the price, and the
// pieces of board, people and losses; then painting these by the software painter.
func BenchmarkDrag(b *testing.B) {
	test.NewTempApp(b)
	p, chosen := large(b)
	d := NewDay(nil, func(plan.ID) {}, nil, nil, &clerk{}, nil)
	test.NewTempWindow(b, d.Object()).Resize(fyne.NewSize(1080, 760))
	d.Show(session.State{Plan: p, Results: session.Results{Chosen: chosen, Days: []day.Day{chosen}, Shoot: day.Shoot{Days: []day.Day{chosen}}}})
	id := string(chosen.Scenes[8].Scene)
	step := func(i int) {
		d.hand.grabbed(draw.Grab{IDs: []string{id}, Row: -1, By: time.Duration(5*(i%12)-30) * time.Minute})
	}
	b.Run("step", func(b *testing.B) {
		for i := range b.N {
			step(i)
		}
	})
	for name, w := range map[string]fyne.Widget{"board": d.board, "people": d.people} {
		c := software.NewCanvas()
		c.SetPadded(false)
		c.SetContent(w)
		c.Resize(d.board.Size())
		b.Run("paint "+name, func(b *testing.B) {
			for range b.N {
				c.Capture()
			}
		})
	}
}
