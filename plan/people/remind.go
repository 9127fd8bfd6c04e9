package people

import (
	"cmp"
	"slices"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Calls are the dates of a shoot in their order, and on which of them people are called. People is nil while no day is placed:
// then the crew and everybody in a scene count as called on the first.
type Calls struct {
	Dates  []plan.Date
	People map[plan.ID][]plan.Date
}

// Task is what a reminder is for.
type Task string

// The tasks. Whether people have confirmed, and have their call sheet, stands in no plan.
const (
	SendRelease Task = "send the release"
	AskAgain    Task = "ask for the signature again"
	Replace     Task = "choose somebody else or cut"
	Confirm     Task = "ask to confirm"
	SendSheet   Task = "send the call sheet"
)

// Reminder is one thing that somebody must be sent or asked, by a day.
type Reminder struct {
	Task    Task
	To      plan.ID // who is written to, never a minor; empty: nobody, or nobody yet (Stop)
	About   plan.ID // whom it is about: To or a minor; empty for what is about no person
	Kind    plan.ReleaseKind
	Release plan.ID // empty: none is written down yet
	Status  plan.ReleaseStatus
	Changed bool      // the text has changed since it was signed
	Open    []string  // fields of its text that are not filled in
	On      plan.Date // the shooting day that it is for
	Due     plan.Date // zero: no date is set yet
	Late    bool
	Why     say.Text // that day
	Stop    say.Text // what is to be done before anybody can be written to; nothing said: nothing
}

// deadline is how many days before the shooting day something is due, and why, as a form.
type deadline struct {
	days int
	why  string
}

// The deadlines are common practice, no published source.
var (
	personSend  = deadline{7, say.Mark("a week before, so that there is time to read it and to ask")}
	personAgain = deadline{3, say.Mark("three days before, so that a scene can still be changed")}
	thingSend   = deadline{14, say.Mark("two weeks before: owners, offices and publishers take their time")}
	thingAgain  = deadline{7, say.Mark("a week before, so that something else can still be found")}
	toConfirm   = deadline{7, say.Mark("a week before, so that somebody else can still be found and clothes fetched")}
	toSendSheet = deadline{1, say.Mark("the evening before, when times and weather are settled")}
)

// noDate is why nothing is due by a day yet.
var noDate = say.Mark("as soon as a date is set")

// Maker is the person in the plan whose name stands in the releases as the producer's: who the drafts come from.
func Maker(p *plan.Plan) (plan.Person, bool) {
	for _, q := range p.People {
		if sameWords(q.Name, p.Papers.Producer) && !Minor(p, q, plan.Date{}) {
			return q, true
		}
	}
	return plan.Person{}, false
}

// Reminders lists what must be sent and asked for a shoot, by the day that it is due and then in the plan's order. What is signed
// is in order; what was declined is told, for somebody else to be chosen. When the shoot is over, only signatures remain.
func Reminders(p *plan.Plan, calls Calls, today plan.Date) []Reminder {
	out := append(signatures(p, calls, today), attendance(p, calls, today)...)
	slices.SortStableFunc(out, func(a, b Reminder) int {
		switch {
		case a.Due == b.Due:
			return 0
		case b.Due.IsZero() || !a.Due.IsZero() && a.Due.Before(b.Due):
			return -1
		}
		return 1
	})
	return out
}

// signatures are the reminders of the permissions that the film waits for.
func signatures(p *plan.Plan, calls Calls, today plan.Date) []Reminder {
	var last plan.Date
	if n := len(calls.Dates); n > 0 {
		last = calls.Dates[n-1]
	}
	c := Cleared(p, last, Stale(p, last))
	var out []Reminder
	for i, need := range c.Permissions {
		var seen []plan.ID
		for _, s := range c.Scenes {
			if st := s.Standings[i]; st.missing() && !slices.Contains(seen, st.By) {
				seen = append(seen, st.By)
				out = append(out, signature(p, need, st, calls, today))
			}
		}
	}
	return out
}

func signature(p *plan.Plan, need Permission, st Standing, calls Calls, today plan.Date) Reminder {
	r := Reminder{About: need.Person, Kind: need.Kind, Release: st.By, Status: st.Status, Changed: st.Doubt != nil}
	written := plan.Release{Kind: need.Kind, Party: need.Person}
	for _, w := range p.Releases {
		if w.ID == st.By {
			written = w
		}
	}
	r.On = calls.first(cmp.Or(need.Person, written.Party))
	if r.Open = Unfilled(p, written, r.On); st.Status == plan.Declined {
		r.Task, r.Open = Replace, nil
	} else {
		r.address(p, written)
	}
	ofPerson := need.Kind.Own() || need.Kind == plan.PetRelease
	send, again := thingSend, thingAgain
	if ofPerson {
		send, again = personSend, personAgain
	}
	switch {
	case r.Task == Replace:
		r.due(send, today)
	case st.Status == plan.Sent:
		r.Task = AskAgain
		r.due(again, today)
	default:
		r.Task = SendRelease
		r.due(send, today)
	}
	return r
}

// address finds who is to be written to about a release, and what stands in the way.
func (r *Reminder) address(p *plan.Plan, written plan.Release) {
	party, named := p.Person(written.Party)
	switch {
	case r.Release == "" && !r.Kind.Own():
		r.Stop = say.That("write down a release for the flights")
		return
	case !named:
		r.Stop = say.That("say who gives it, as its party")
		return
	}
	r.To, r.Stop = grownUp(p, party, r.On)
	if !r.Kind.Own() && r.To != party.ID {
		r.About = party.ID
	}
	if r.Stop.IsZero() && len(r.Open) > 0 {
		r.Stop = say.That("fill in what its text asks for: %s", plan.FieldsSaid(r.Open))
	}
}

// grownUp is who is written to for somebody: themselves, or a minor's guardian.
func grownUp(p *plan.Plan, who plan.Person, on plan.Date) (to plan.ID, stop say.Text) {
	if !Minor(p, who, on) {
		return who.ID, say.Text{}
	}
	guardian, named := p.Person(who.Guardian)
	switch {
	case !named:
		return "", say.That("name the guardian of %s", who.Called())
	case Minor(p, guardian, on):
		return "", say.That("name a guardian of %s who is of age", who.Called())
	}
	return guardian.ID, say.Text{}
}

// attendance are the reminders of those who come: to confirm, and of their call sheets. A day that is over is left out.
func attendance(p *plan.Plan, calls Calls, today plan.Date) []Reminder {
	var out []Reminder
	maker, _ := Maker(p)
	for _, who := range p.People {
		on := calls.of(p, who)
		if len(on) == 0 || who.ID == maker.ID {
			continue
		}
		to, stop := grownUp(p, who, on[0])
		add := func(task Task, on plan.Date, by deadline) {
			if on.Before(today) {
				return
			}
			r := Reminder{Task: task, To: to, About: who.ID, On: on, Stop: stop}
			r.due(by, today)
			r.Late = false // it may be done: no plan says so
			out = append(out, r)
		}
		add(Confirm, on[0], toConfirm)
		if calls.People == nil { // there is no call sheet yet
			continue
		}
		for _, d := range on {
			add(SendSheet, d, toSendSheet)
		}
	}
	return out
}

func (r *Reminder) due(by deadline, today plan.Date) {
	if r.Why = say.Marked(noDate); r.On.IsZero() {
		return
	}
	r.Due, r.Why = r.On.AddDays(-by.days), say.Marked(by.why)
	r.Late = r.Due.Before(today)
}

// of are the dates that somebody is called on.
func (c Calls) of(p *plan.Plan, who plan.Person) []plan.Date {
	switch {
	case c.People != nil || len(c.Dates) == 0:
		return c.People[who.ID]
	case who.Role == plan.Crew || slices.ContainsFunc(p.Scenes, func(s plan.Scene) bool { return slices.Contains(s.People, who.ID) }):
		return c.Dates[:1]
	}
	return nil
}

// first is the first date that somebody is called on, or else that of the shoot.
func (c Calls) first(who plan.ID) plan.Date {
	if on := c.People[who]; len(on) > 0 {
		return on[0]
	}
	if len(c.Dates) > 0 {
		return c.Dates[0]
	}
	return plan.Date{}
}

// What says in words what is to be sent, asked or decided.
func (r Reminder) What(p *plan.Plan) say.Text {
	about := Permission{Kind: r.Kind, Person: r.About, Release: r.Release}.About(p)
	if !r.Kind.Own() && r.Release != "" {
		about = Permission{Release: r.Release}.About(p)
	}
	paper := say.That("release|%s of %s", KindWords(r.Kind), about)
	if !r.Kind.Own() {
		paper = say.Join(": ", KindWords(r.Kind), about)
	}
	switch {
	case r.Task == Confirm:
		who, _ := p.Person(r.About)
		return r.confirm(who.Role.Or() == plan.Talent, about)
	case r.Task == SendSheet && r.About != r.To:
		return say.That("send the call sheet for %s", about)
	case r.Task == SendSheet:
		return say.That("send the call sheet")
	case r.Task == Replace && r.Kind.Own():
		return say.That("%s was declined: choose somebody else, or cut the scenes", paper)
	case r.Task == Replace:
		return say.That("%s was declined: choose something else, or cut the scenes", paper)
	case r.Changed:
		return say.That("have the %s signed anew: its text has changed", paper)
	case r.Status == plan.Lapsed:
		return say.That("send the %s anew: the one signed has lapsed", paper)
	case r.Task == AskAgain:
		return say.That("ask again for the %s", paper)
	}
	return say.That("send the %s", paper)
}

// confirm says what is to be asked of those who come: of whoever is on camera also what they wear.
func (r Reminder) confirm(dressed bool, about say.Text) say.Text {
	switch ward := r.About != r.To; {
	case dressed && ward:
		return say.That("ask whether the day suits, and about sizes and food for %s", about)
	case dressed:
		return say.That("ask whether the day suits, and about sizes and food")
	case ward:
		return say.That("ask whether the day suits, and about food for %s", about)
	}
	return say.That("ask whether the day suits, and about food")
}

// kindForms name the kinds of release in a sentence.
var kindForms = map[plan.ReleaseKind]string{
	plan.ModelRelease:     say.Mark("model release"),
	plan.MinorRelease:     say.Mark("minor's release"),
	plan.PropertyRelease:  say.Mark("property release"),
	plan.MusicRelease:     say.Mark("music release"),
	plan.ArtworkRelease:   say.Mark("artwork release"),
	plan.NeighbourRelease: say.Mark("neighbour's release"),
	plan.PetRelease:       say.Mark("pet release"),
	plan.DroneRelease:     say.Mark("drone authorisation"),
}

// KindWords names a kind of release in a sentence.
func KindWords(k plan.ReleaseKind) say.Text {
	if form, ok := kindForms[k]; ok {
		return say.Marked(form)
	}
	return say.That("release of no kind|release")
}

// MarkSent notes in a plan that a release was sent on a date, for one that was to be sent and is ready.
func (r Reminder) MarkSent(p *plan.Plan, on plan.Date) {
	switch i := slices.IndexFunc(p.Releases, func(w plan.Release) bool { return w.ID == r.Release }); {
	case !r.Sendable():
	case i >= 0:
		p.Releases[i].Status, p.Releases[i].Changed = plan.Sent, on
	case r.Release == "":
		p.SetOwnRelease(r.About, r.Kind, plan.Sent, on)
	}
}

// Sendable reports whether it is about a release that can be sent as it stands.
func (r Reminder) Sendable() bool { return r.Task == SendRelease && r.To != "" && r.Stop.IsZero() }
