package page

import (
	"slices"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// within lists the objects of a kind that are in sight in an object, in their order.
func within[T fyne.CanvasObject](o fyne.CanvasObject) (out []T) {
	if !o.Visible() {
		return nil
	}
	if found, ok := o.(T); ok {
		return []T{found}
	}
	if c, ok := o.(*fyne.Container); ok {
		for _, part := range c.Objects {
			out = append(out, within[T](part)...)
		}
	}
	return out
}

// TestShotsOfAScene are added, typed or picked, moved and taken out under their own names, and those of another scene stay as they are.
func TestShotsOfAScene(t *testing.T) {
	test.NewTempApp(t)
	p := plan.New()
	other := []plan.Shot{{Frame: "overhead"}}
	p.Scenes = []plan.Scene{{ID: "toast", Title: "Toast"}, {ID: "swim", Title: "Swim", Shots: other}}
	var names []string
	var s *Scenes
	s = NewScenes(func(name, _ string, f func(*plan.Plan)) plan.Problems {
		next := p.Clone()
		f(&next)
		if wrong := plan.Validate(next).At(plan.Wrong); len(wrong) > 0 {
			return wrong
		}
		names, p = append(names, name), next
		s.Show(session.State{Plan: p})
		return nil
	}, PictureFiles{})
	test.NewTempWindow(t, s.Object()).Resize(fyne.NewSize(1280, 800))
	s.Show(session.State{Plan: p})
	press := func(what string, i int) {
		t.Helper()
		var buttons []*widget.Button
		for _, b := range within[*widget.Button](s.form.box) {
			if b.Text == what {
				buttons = append(buttons, b)
			}
		}
		if i >= len(buttons) {
			t.Fatalf("%d buttons are called %q", len(buttons), what)
		}
		test.Tap(buttons[i])
	}
	cells := func() []*widget.SelectEntry { return within[*widget.SelectEntry](s.form.box) }

	press("Add shot", 0)
	press("Add shot", 0)
	if n := len(cells()); n != 6 {
		t.Fatalf("two shots have %d cells with words to pick from", n)
	}
	cells()[0].SetText("wide") // as a word that is picked is set
	test.Type(cells()[4], "35 mm")
	press("", 2) // the second shot's way up: a shot has two buttons
	want := []plan.Shot{{Lens: "35 mm"}, {Frame: "wide"}}
	if got := p.Scenes[0].Shots; !slices.Equal(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
	if got := []string{cells()[0].Text, cells()[1].Text, cells()[3].Text}; !slices.Equal(got, []string{"", "35 mm", "wide"}) {
		t.Errorf("the cells show %q", got)
	}
	press("", 1)
	if got := p.Scenes[0].Shots; !slices.Equal(got, want[1:]) {
		t.Errorf("%+v, want %+v", got, want[1:])
	}
	if !slices.Equal(slices.Compact(names), []string{"add shot", "change shot frame", "change shot lens", "move shot", "delete shot"}) {
		t.Errorf("undo would say %q", names)
	}
	s.Select("swim")
	if got := cells()[0].Text; got != "overhead" || !slices.Equal(p.Scenes[1].Shots, other) {
		t.Errorf("another scene shows %q and has %+v", got, p.Scenes[1].Shots)
	}
}
