package page

import (
	"cmp"
	"slices"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// People is the page of everybody with a name in the job: the list at the left, the selected person at the right. Its other
// halves are their releases with those about things, and what is cleared by them.
type People struct {
	*items[plan.Person]
	today     func() plan.Date
	state     session.State
	releases  *releases
	reminders *reminders
	contacts  *Contacts
	cleared   *cleared
	halves    *halves // everybody, the releases, what is cleared, and the reminders
}

// NewPeople builds the page. now is the clock by which releases change and are signed, write makes papers of them and mail drafts,
// pick and scan ask for a file of contacts and for one of a signed paper, and book is the path of the address book.
func NewPeople(edit Editor, now func() time.Time, write ReleaseWriter, mail DraftWriter, async Async, pick, scan func(chosen func(path string)), book string) *People {
	s := &People{releases: newReleases(edit, now, write, async, scan)}
	s.today = s.releases.today
	s.reminders = newReminders(edit, s.today, mail)
	s.items = newItems(tongue.Say("person"), tongue.Say("Nobody yet: add the people in the film, the crew, the client and the owner."), edit,
		func(p *plan.Plan) []plan.Person { return p.People },
		func(q *plan.Person) plan.ID { return q.ID },
		listOps{add: (*plan.Plan).AddPerson, duplicate: (*plan.Plan).DuplicatePerson, remove: (*plan.Plan).RemovePerson})
	s.personFields()
	s.timeFields()
	s.long(tongue.Say("Notes"), tongue.Say("for you; not printed on the sheet for all"), 3, func(q *plan.Person) *string { return &q.Notes })
	s.contacts = NewContacts(edit, async, pick, s.today, book, func() plan.ID { return s.selected })
	split := newTurning(container.NewBorder(nil, s.contacts.Bar(), nil, nil, s.listPane.object), s.detail, 0.34, 0.4, 40)
	s.contacts.OnOpen = func(open bool) { setVisible(split, !open) }
	s.cleared = newCleared(edit, s.today, func(release plan.ID) {
		s.halves.turn(releasesHalf)
		s.releases.open(release)
	})
	s.halves = newHalves([]string{tongue.Say("Everybody"), tongue.Say("Releases"), tongue.Say("Cleared"), tongue.Say("Reminders")},
		container.NewStack(split, s.contacts.Object()), s.releases.object, s.cleared.object, s.reminders.object)
	s.halves.onTurn = s.showFront
	return s
}

// The halves by their places.
const (
	everybodyHalf = 0
	releasesHalf  = 1
	clearedHalf   = 2
	remindersHalf = 3
)

// onList does something with the list in sight; nothing while contacts are being imported over it.
func (s *People) onList(do func(*listPane)) {
	switch {
	case s.halves.front == releasesHalf:
		do(s.releases.listPane)
	case s.halves.front == everybodyHalf && !s.contacts.Object().Visible():
		do(s.listPane)
	}
}

// Add, Duplicate, Shift and Delete are Lister's.
func (s *People) Add()         { s.onList((*listPane).Add) }
func (s *People) Duplicate()   { s.onList((*listPane).Duplicate) }
func (s *People) Shift(by int) { s.onList(func(l *listPane) { l.Shift(by) }) }
func (s *People) Delete()      { s.onList((*listPane).Delete) }

// Revert is Reverter's.
func (s *People) Revert() bool {
	return s.items.Revert() || s.releases.Revert() || s.halves.front == 1 && s.releases.revertDraft()
}

// Drop is Dropper's: a file dropped on an open release is the scan of its paper.
func (s *People) Drop(path string) bool { return s.halves.front == 1 && s.releases.drop(path) }

// Object is the page.
func (s *People) Object() fyne.CanvasObject { return s.halves.object }

// Show brings the page up to the state.
func (s *People) Show(st session.State) {
	s.state = st
	s.showItems(&st.Plan, view.PersonRows(st))
	s.releases.show(st)
	s.contacts.Show(st)
	s.showFront()
}

// showFront shows what is made only while it is in sight.
func (s *People) showFront() {
	switch s.halves.front {
	case clearedHalf:
		s.cleared.show(s.state)
	case remindersHalf:
		s.reminders.show(s.state)
	}
}

func (s *People) personFields() {
	s.form.says(tongue.Say("On the day"), func(*plan.Plan) string { return view.PersonDay(s.state, s.selected) })
	s.form.says(tongue.Say("If they drop out"), func(*plan.Plan) string { return view.PersonDrop(s.state, s.selected) })
	s.text(tongue.Say("Name"), tongue.Say("as it stands on the papers"), func(q *plan.Person) *string { return &q.Name })
	s.first = s.form.newest()
	s.choice(tongue.Say("Role"), words(plan.Roles), func(q *plan.Person) string { return string(q.Role.Or()) },
		func(q *plan.Person, v string) { q.Role = plan.Role(v) })
	s.text(tongue.Say("Part or job"), tongue.Say("the grandmother, camera, drone pilot"), func(q *plan.Person) *string { return &q.Job })
	s.certificateFields()
	s.text(tongue.Say("Pronouns"), tongue.Say("she/her, or how to address them"), func(q *plan.Person) *string { return &q.Pronouns })
	s.text(tongue.Say("Phone"), "", func(q *plan.Person) *string { return &q.Phone })
	s.text(tongue.Say("Email"), "", func(q *plan.Person) *string { return &q.Email })
	s.check(tongue.Say("Paid"), tongue.Say("gets a fee"), func(q *plan.Person) *bool { return &q.Paid })
	s.form.only(func(p *plan.Plan) bool {
		q := s.at(p)
		return q != nil && (q.Role.Or() == plan.Crew || q.Paid || q.Rate != "")
	}, func() {
		s.choice(tongue.Say("Rate"), rateOptions(tongue.Say("none yet")), func(q *plan.Person) string { return string(q.Rate) },
			func(q *plan.Person, v string) { q.Rate = plan.ID(v) })
	})
	s.text(tongue.Say("Sizes"), tongue.Say("wardrobe sizes; printed on no sheet for all"), func(q *plan.Person) *string { return &q.Sizes })
	s.text(tongue.Say("Diet"), tongue.Say("allergies and diet, for the catering; printed on no sheet for all"), func(q *plan.Person) *string { return &q.Diet })
	s.parsed(tongue.Say("Born"), tongue.Say("2021-05-03; printed on no sheet"), func(q *plan.Person) string { return q.Born.String() }, func(text string) (func(*plan.Person), error) {
		d, err := parseDate(text)
		return func(q *plan.Person) { q.Born = d }, err
	})
	s.check(tongue.Say("Minor"), tongue.Say("under age at the place of the shoot"), func(q *plan.Person) *bool { return &q.Minor })
	minor := func(p *plan.Plan) bool {
		q := s.at(p)
		return q != nil && people.Minor(p, *q, plan.Date{})
	}
	s.form.only(minor, func() {
		s.choice(tongue.Say("Guardian"), s.guardians, func(q *plan.Person) string { return string(q.Guardian) },
			func(q *plan.Person, v string) { q.Guardian = plan.ID(v) })
		s.choice(tongue.Say("Guardian is"), words(plan.GuardiansThere), func(q *plan.Person) string { return string(cmp.Or(q.GuardianThere, plan.Present)) },
			func(q *plan.Person, v string) { q.GuardianThere = plan.GuardianThere(v) })
	})
	s.minutes(tongue.Say("At most there"), tongue.Say("minutes a day, call to release; empty: no limit"), func(q *plan.Person) *plan.Minutes { return &q.Longest })
	s.minutes(tongue.Say("At most filmed"), tongue.Say("minutes a day; empty: no limit"), func(q *plan.Person) *plan.Minutes { return &q.Work })
	s.form.only(minor, func() {
		s.form.says("", func(*plan.Plan) string { return view.MinorCaution() })
	})
	s.form.choice(tongue.Say("Own release"), words(plan.ReleaseStatuses), func(p *plan.Plan) string {
		return read(s.items, func(q *plan.Person) string { return ownStatus(p, q) })(p)
	}, func(p *plan.Plan, v string) {
		if q := s.at(p); q != nil {
			p.SetOwnRelease(q.ID, people.OwnKind(p, *q, plan.Date{}), plan.ReleaseStatus(v), s.today())
		}
	})
}

// certificateFields are those of the crew: who flies a drone is one of them.
func (s *People) certificateFields() {
	crew := func(p *plan.Plan) bool {
		q := s.at(p)
		return q != nil && q.Role == plan.Crew
	}
	date := func(label, hint string, at func(*plan.Certificate) *plan.Date) {
		s.parsed(label, hint, func(q *plan.Person) string { return at(&q.Certificate).String() }, func(text string) (func(*plan.Person), error) {
			d, err := parseDate(text)
			return func(q *plan.Person) { *at(&q.Certificate) = d }, err
		})
	}
	s.form.only(crew, func() {
		s.text(tongue.Say("Drone certificate"), tongue.Say("its number, of a drone's pilot; printed on no sheet"), func(q *plan.Person) *string { return &q.Certificate.Number })
	})
	pilot := func(p *plan.Plan) bool { return crew(p) && s.at(p).Certificate.Number != "" }
	s.form.only(pilot, func() {
		date(tongue.Say("Trained for it"), tongue.Say("2027-05-12; the last test or training"), func(c *plan.Certificate) *plan.Date { return &c.Trained })
		date(tongue.Say("Holds until"), tongue.Say("2031-05-12; empty where no day stands on it"), func(c *plan.Certificate) *plan.Date { return &c.Until })
		s.form.says("", func(*plan.Plan) string { return tongue.Marked(people.DroneCaution) })
	})
}

func (s *People) timeFields() {
	times := read(s.items, func(q *plan.Person) []plan.Availability { return q.Availability })
	s.form.table(tongue.Say("Free"), table{
		item:  tongue.Say("time"),
		count: func(p *plan.Plan) int { return len(times(p)) },
		add:   s.addTime,
		remove: func(p *plan.Plan, i int) {
			s.edited(func(q *plan.Person) { q.Availability = removed(q.Availability, i) })(p)
		},
		columns: []column{
			dateColumn(tongue.Say("Date"), 4, func(p *plan.Plan, i int) *plan.Date { return &times(p)[i].Date }),
			clockColumn(tongue.Say("From"), clockHint(9, 0), 3, func(p *plan.Plan, i int) *plan.Clock { return &times(p)[i].From }),
			clockColumn(tongue.Say("To"), clockHint(17, 0), 3, func(p *plan.Plan, i int) *plan.Clock { return &times(p)[i].To }),
		},
	})
	s.form.says("", func(p *plan.Plan) string {
		if len(times(p)) == 0 {
			return tongue.Say("No times are given: free all day, on every date.")
		}
		return tongue.Say("Free only at these times. A row without a date holds on every date.")
	})
	s.form.ticksOf(tongue.Say("In scenes"), tongue.Say("No scene yet."), 1, sceneOptions, func(p *plan.Plan, scene plan.ID) bool {
		sc, _ := p.Scene(scene)
		return slices.Contains(sc.People, s.selected)
	}, func(p *plan.Plan, scene plan.ID, on bool) {
		i := slices.IndexFunc(p.Scenes, func(sc plan.Scene) bool { return sc.ID == scene })
		p.Scenes[i].SetIn(s.selected, on)
	})
	s.minutes(tongue.Say("Travel minutes"), tongue.Say("from their door"), func(q *plan.Person) *plan.Minutes { return &q.Travel })
	s.minutes(tongue.Say("Change minutes"), tongue.Say("that another look takes; empty: none"), func(q *plan.Person) *plan.Minutes { return &q.Change })
	s.parsed(tongue.Say("Waiting weighs"), tongue.Say("1 is usual; 2 counts a waiting minute twice"), func(q *plan.Person) string { return printNumber(q.Weight) },
		func(text string) (func(*plan.Person), error) {
			v, err := parseNumber(text)
			return func(q *plan.Person) { q.Weight = v }, err
		})
}

// addTime proposes the first candidate date that the person has no time on, or the day being planned.
func (s *People) addTime(p *plan.Plan) {
	s.edited(func(q *plan.Person) {
		taken := func(d plan.Date) bool {
			return slices.ContainsFunc(q.Availability, func(a plan.Availability) bool { return a.Date == d })
		}
		date := s.state.Results.Chosen.Date
		if i := slices.IndexFunc(p.Shooting.Dates, func(d plan.Date) bool { return !taken(d) }); i >= 0 {
			date = p.Shooting.Dates[i]
		}
		q.Availability = append(q.Availability, plan.Availability{Date: date, From: plan.ClockAt(9 * 60), To: plan.ClockAt(18 * 60)})
	})(p)
}

// guardians are all grown-ups but the selected person.
func (s *People) guardians(p *plan.Plan) []option {
	out := []option{{"", tongue.Say("not named yet")}}
	for _, q := range p.People {
		if q.ID != s.selected && !q.Minor {
			out = append(out, option{string(q.ID), q.Called()})
		}
	}
	return out
}
