package page

import (
	"slices"
	"strconv"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/price"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// packages is the part of the page of the price with several things offered from one plan: the list, what is in the selected one, and
// what each comes to.
type packages struct {
	*listPane
	form   *form
	detail *container.Scroll
	forget *widget.Button
	cases  *worked
	priced view.Priced
	object fyne.CanvasObject
}

func newPackages(edit Editor, async Async) *packages {
	s := &packages{cases: newWorked(async, true, view.Packages)}
	s.listPane = newListPane(tongue.Say("package"), tongue.Say("No package yet: offer the client two or three, each with some of the scenes and deliverables."), edit, listOps{
		id:        func(_ *plan.Plan, i int) plan.ID { return view.PackageID(i) },
		add:       s.add,
		duplicate: s.duplicate,
		shift: func(p *plan.Plan, i, by int) {
			plan.Shift(p.Pricing.Packages, i, by)
			s.selected = view.PackageID(i + by) // its place is its id
		},
		remove: func(p *plan.Plan, i int) { p.Pricing.Packages = removed(p.Pricing.Packages, i) },
	}, func() {
		s.detail.ScrollToTop()
		s.showDetail()
	})
	s.form = newForm(edit, func() string { return string(s.selected) })
	s.fields()
	s.forget = widget.NewButton(tongue.Say("Take out what is gone"), func() {
		edit(tongue.Say("take out what is gone"), "", func(p *plan.Plan) {
			if k := s.at(p); k != nil {
				*k, _ = view.ForgetGone(p, *k)
			}
		})
	})
	s.detail = container.NewVScroll(container.NewVBox(measure(s.form.box), container.NewHBox(s.forget)))
	top := newTurning(s.listPane.object, s.detail, 0.32, 0.3, 30)
	below := container.NewScroll(s.cases.object)
	s.cases.onFill = below.Refresh
	split := container.NewVSplit(top, below)
	split.Offset = 0.5
	s.object = split
	return s
}

func (s *packages) fields() {
	f := s.form
	f.text(tongue.Say("Name"), tongue.Say("what the client reads"), func(p *plan.Plan) *string {
		if k := s.at(p); k != nil {
			return &k.Name
		}
		return nil
	})
	s.first = f.newest()
	f.says("", func(p *plan.Plan) string {
		if k := s.at(p); k != nil {
			return view.PackageHolds(p, *k)
		}
		return ""
	})
	f.ticks(tongue.Say("Scenes"), tongue.Say("No scene yet."), 2, briefly(sceneOptions), func(p *plan.Plan) *[]plan.ID {
		if k := s.at(p); k != nil {
			return &k.Scenes
		}
		return nil
	})
	f.ticksOf(tongue.Say("Deliverables"), tongue.Say("No deliverable with a name yet."), 2, briefly(deliverableOptions), func(p *plan.Plan, name plan.ID) bool {
		k := s.at(p)
		return k != nil && slices.Contains(k.Deliverables, string(name))
	}, func(p *plan.Plan, name plan.ID, on bool) {
		if k := s.at(p); k != nil {
			k.Deliverables = slices.DeleteFunc(k.Deliverables, func(n string) bool { return n == string(name) })
			if on {
				k.Deliverables = append(k.Deliverables, string(name))
			}
		}
	})
}

// deliverableOptions are the deliverables by name, as a package names them; each name once.
func deliverableOptions(p *plan.Plan) []option {
	var out []option
	for _, d := range p.Brief.Deliverables {
		if o := (option{d.Name, d.Name}); d.Name != "" && !slices.Contains(out, o) {
			out = append(out, o)
		}
	}
	return out
}

// briefly keeps options short enough that two stand side by side.
func briefly(options func(*plan.Plan) []option) func(*plan.Plan) []option {
	const widest = 185 // of letters of 13
	return func(p *plan.Plan) []option {
		out := options(p)
		for i, o := range out {
			out[i].name = cutOff(o.name, func(s string) bool { return fyne.MeasureText(s, 13, fyne.TextStyle{}).Width <= widest })
		}
		return out
	}
}

// at is the selected package in a plan, nil where there is none.
func (s *packages) at(p *plan.Plan) *plan.Package {
	i, err := strconv.Atoi(string(s.selected))
	if err != nil || i >= len(p.Pricing.Packages) {
		return nil
	}
	return &p.Pricing.Packages[i]
}

func (s *packages) add(p *plan.Plan, at int) int {
	p.Pricing.Packages = slices.Insert(p.Pricing.Packages, at, plan.Package{Name: tongue.Say("Package %d", len(p.Pricing.Packages)+1)})
	return at
}

func (s *packages) duplicate(p *plan.Plan, i int, in say.Tongue) int {
	k := p.Pricing.Packages[i]
	k.Name = say.That("%s (copy)", k.Name).In(in)
	k.Scenes, k.Deliverables = slices.Clone(k.Scenes), slices.Clone(k.Deliverables)
	p.Pricing.Packages = slices.Insert(p.Pricing.Packages, i+1, k)
	return i + 1
}

// Object is pricePart's.
func (s *packages) Object() fyne.CanvasObject { return s.object }

// Revert is Reverter's.
func (s *packages) Revert() bool { return s.form.Revert() }

func (s *packages) show(p view.Priced) {
	s.priced = p
	s.listPane.show(view.PackageRows(&p.Plan))
	s.showDetail()
	var keys []string
	var cases []price.Case
	for i, k := range p.Plan.Pricing.Packages {
		keys, cases = append(keys, string(view.PackageID(i))), append(cases, price.PackageCase(&p.Plan, k))
	}
	s.cases.want(p, keys, cases)
}

// showDetail brings the right side up to the selected package.
func (s *packages) showDetail() {
	k := s.at(&s.priced.Plan)
	setVisible(s.detail, k != nil)
	s.form.show(&s.priced.Plan)
	if k != nil {
		_, ok := view.ForgetGone(&s.priced.Plan, *k)
		setVisible(s.forget, ok)
	}
	s.detail.Refresh() // the ticks take as many lines as their words
}
