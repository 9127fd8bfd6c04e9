package page

import (
	"slices"

	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// People is the page of everybody with a name in the job: the list at the left, the selected person at the right.
type People struct {
	*listPane
	form   *form
	detail *container.Scroll
	today  func() plan.Date
	state  session.State
	object fyne.CanvasObject
}

// NewPeople builds the page. today dates a change of a release.
func NewPeople(edit Editor, today func() plan.Date) *People {
	s := &People{today: today}
	s.listPane = newListPane("person", "Nobody yet: add the people in the film, the crew, the client and the owner.", edit, listOps{
		id:        func(p *plan.Plan, i int) plan.ID { return p.People[i].ID },
		add:       (*plan.Plan).AddPerson,
		duplicate: (*plan.Plan).DuplicatePerson,
		shift:     func(p *plan.Plan, i, by int) { plan.Shift(p.People, i, by) },
		remove:    (*plan.Plan).RemovePerson,
	}, func() {
		s.detail.ScrollToTop()
		s.showDetail()
	})
	s.form = newForm(edit, func() string { return string(s.selected) })
	s.fields()
	s.detail = container.NewVScroll(measure(s.form.box))
	split := container.NewHSplit(s.listPane.object, s.detail)
	split.Offset = 0.34
	s.object = split
	return s
}

// Object is the page.
func (s *People) Object() fyne.CanvasObject { return s.object }

// Show brings the page up to the state.
func (s *People) Show(st session.State) {
	s.state = st
	s.listPane.show(view.PersonRows(st))
	s.showDetail()
}

func (s *People) showDetail() {
	setVisible(s.detail, s.selected != "")
	s.form.show(&s.state.Plan)
}

func (s *People) at(p *plan.Plan) *plan.Person {
	i := slices.IndexFunc(p.People, func(q plan.Person) bool { return q.ID == s.selected })
	if i < 0 {
		return nil
	}
	return &p.People[i]
}

func (s *People) fields() {
	f := s.form
	text := func(get func(*plan.Person) *string) func(*plan.Plan) *string {
		return func(p *plan.Plan) *string { return of(s.at(p), get) }
	}
	flag := func(get func(*plan.Person) *bool) func(*plan.Plan) *bool {
		return func(p *plan.Plan) *bool { return of(s.at(p), get) }
	}
	f.says("On the day", func(*plan.Plan) string { return view.PersonDay(s.state, s.selected) })
	f.text("Name", "as it stands on the papers", text(func(q *plan.Person) *string { return &q.Name }))
	f.choice("Role", words(plan.Roles), s.value(func(q *plan.Person) string { return string(q.Role.Or()) }),
		s.set(func(q *plan.Person, v string) { q.Role = plan.Role(v) }))
	f.text("Part or job", "the grandmother, camera, drone pilot", text(func(q *plan.Person) *string { return &q.Job }))
	f.text("Phone", "", text(func(q *plan.Person) *string { return &q.Phone }))
	f.text("Email", "", text(func(q *plan.Person) *string { return &q.Email }))
	f.check("Paid", "gets a fee", flag(func(q *plan.Person) *bool { return &q.Paid }))
	f.check("Minor", "under age at the place of the shoot", flag(func(q *plan.Person) *bool { return &q.Minor }))
	f.only(func(p *plan.Plan) bool { return of(s.at(p), func(q *plan.Person) bool { return q.Minor }) }, func() {
		f.choice("Guardian", s.guardians, s.value(func(q *plan.Person) string { return string(q.Guardian) }),
			s.set(func(q *plan.Person, v string) { q.Guardian = plan.ID(v) }))
		f.says("", func(*plan.Plan) string { return view.MinorCaution })
	})
	f.choice("Own release", words(plan.ReleaseStatuses), func(p *plan.Plan) string {
		return of(s.at(p), func(q *plan.Person) string { return string(people.OwnRelease(p, *q, "", plan.Date{})) })
	}, func(p *plan.Plan, v string) {
		if q := s.at(p); q != nil {
			p.SetOwnRelease(q.ID, people.OwnKind(*q), plan.ReleaseStatus(v), s.today())
		}
	})
	f.table("Free", table{
		item: "time",
		count: func(p *plan.Plan) int {
			return len(of(s.at(p), func(q *plan.Person) []plan.Availability { return q.Availability }))
		},
		add:    s.addTime,
		remove: func(p *plan.Plan, i int) { q := s.at(p); q.Availability = removed(q.Availability, i) },
		columns: []column{
			dateColumn("Date", 4, func(p *plan.Plan, i int) *plan.Date { return &s.at(p).Availability[i].Date }),
			clockColumn("From", "09:00", 3, func(p *plan.Plan, i int) *plan.Clock { return &s.at(p).Availability[i].From }),
			clockColumn("To", "17:00", 3, func(p *plan.Plan, i int) *plan.Clock { return &s.at(p).Availability[i].To }),
		},
	})
	f.says("", func(p *plan.Plan) string {
		if q := s.at(p); q != nil && len(q.Availability) == 0 {
			return "No times are given: free all day, on every date."
		}
		return "Free only at these times, and not on dates that are not named."
	})
	f.ticksOf("In scenes", "No scene yet.", 1, sceneOptions, func(p *plan.Plan, scene plan.ID) bool {
		sc, _ := p.Scene(scene)
		return slices.Contains(sc.People, s.selected)
	}, func(p *plan.Plan, scene plan.ID, on bool) {
		i := slices.IndexFunc(p.Scenes, func(sc plan.Scene) bool { return sc.ID == scene })
		p.Scenes[i].People = switched(p.Scenes[i].People, s.selected, on)
	})
	f.parsed("Travel minutes", "from their door", s.value(func(q *plan.Person) string { return printWhole(int(q.Travel)) }),
		s.parse(func(text string) (func(*plan.Person), error) {
			v, err := parseWhole(text)
			return func(q *plan.Person) { q.Travel = plan.Minutes(v) }, err
		}))
	f.parsed("Waiting weighs", "1 is usual; 2 counts a waiting minute twice", s.value(func(q *plan.Person) string { return printNumber(q.Weight) }),
		s.parse(func(text string) (func(*plan.Person), error) {
			v, err := parseNumber(text)
			return func(q *plan.Person) { q.Weight = v }, err
		}))
	f.long("Notes", "for you; not printed on the sheet for all", 3, text(func(q *plan.Person) *string { return &q.Notes }))
}

// addTime proposes the day being planned, all day.
func (s *People) addTime(p *plan.Plan) {
	q := s.at(p)
	if q == nil {
		return
	}
	date := s.state.Results.Chosen.Date
	for _, d := range p.Shooting.Dates { // the first candidate that has no time yet
		if !slices.ContainsFunc(q.Availability, func(a plan.Availability) bool { return a.Date == d }) {
			date = d
			break
		}
	}
	q.Availability = append(q.Availability, plan.Availability{Date: date, From: plan.ClockAt(9 * 60), To: plan.ClockAt(18 * 60)})
}

func (s *People) value(get func(*plan.Person) string) func(*plan.Plan) string {
	return func(p *plan.Plan) string { return of(s.at(p), get) }
}

func (s *People) set(set func(*plan.Person, string)) func(*plan.Plan, string) {
	return func(p *plan.Plan, v string) {
		if q := s.at(p); q != nil {
			set(q, v)
		}
	}
}

func (s *People) parse(parse func(string) (func(*plan.Person), error)) func(string) (func(*plan.Plan), error) {
	return func(text string) (func(*plan.Plan), error) {
		change, err := parse(text)
		return func(p *plan.Plan) {
			if q := s.at(p); q != nil {
				change(q)
			}
		}, err
	}
}

func (s *People) guardians(p *plan.Plan) []option {
	out := []option{{"", "not named yet"}}
	for _, q := range p.People {
		if q.ID != s.selected && !q.Minor {
			out = append(out, option{string(q.ID), q.Called()})
		}
	}
	return out
}

func sceneOptions(p *plan.Plan) []option {
	var out []option
	for _, sc := range p.Scenes {
		out = append(out, option{string(sc.ID), view.SceneName(sc)})
	}
	return out
}
