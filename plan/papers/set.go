package papers

import (
	"cmp"
	"context"
	"image"
	"io"
	"slices"
	"strings"
	"sync"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
	"eavelight/plan/price"
	"eavelight/plan/say"
)

// Kind is a kind of paper, by the name it has on the command line.
type Kind string

// The kinds of paper.
const (
	KindCallSheets Kind = "call-sheets"
	KindScenePlan  Kind = "scene-plan"
	KindShotLists  Kind = "shot-lists"
	KindCalendars  Kind = "calendars"
	KindMails      Kind = "mails"
	KindMessages   Kind = "messages"
	KindContacts   Kind = "contacts"
	KindQuote      Kind = "quote"
	KindBudget     Kind = "budget"
	KindReleases   Kind = "releases"
	KindRegister   Kind = "release-register"
	KindPicture    Kind = "day-picture"
	KindTables     Kind = "tables"
)

// Kinds lists them in the order they are offered.
var Kinds = []Kind{KindCallSheets, KindCalendars, KindMails, KindMessages, KindContacts, KindScenePlan, KindShotLists, KindPicture,
	KindQuote, KindBudget, KindReleases, KindRegister, KindTables}

var kindForms = map[Kind]string{
	KindCallSheets: say.Mark("papers|Call sheets"),
	KindScenePlan:  say.Mark("papers|Scene plan"),
	KindShotLists:  say.Mark("papers|Shot lists"),
	KindCalendars:  say.Mark("papers|Calendars"),
	KindMails:      say.Mark("papers|Mails"),
	KindMessages:   say.Mark("papers|Messages"),
	KindContacts:   say.Mark("papers|Contacts"),
	KindQuote:      say.Mark("papers|Quote"),
	KindBudget:     say.Mark("papers|Budget"),
	KindReleases:   say.Mark("papers|Releases"),
	KindRegister:   say.Mark("papers|Release register"),
	KindPicture:    say.Mark("papers|Day picture"),
	KindTables:     say.Mark("papers|Tables"),
}

// Title is the kind's name for people.
func (k Kind) Title() say.Text { return say.Marked(kindForms[k]) }

// Where the papers lie within the folder or the archive that they are written into, so that nobody sends what is for the owner alone by
// sending what lies beside it. What is for all lies at the top.
const (
	peopleFolder  = "people/"
	releaseFolder = "releases/"
	ownerFolder   = "owner-only/"
)

// Job is what papers are made from: a plan, its placed days, and the moment that they say they were made.
type Job struct {
	Plan   *plan.Plan
	Days   []day.Day
	Doubts people.Doubts // about the scans of releases; nil: none were looked at
	Made   time.Time
}

// Paper is one file. It is made when it is written or looked at, and not before.
type Paper struct {
	Kind  Kind
	For   plan.ID   // whose it is; empty: for all
	Name  string    // with its folder, as "people/calendar-ada.ics"
	About say.Text  // what it is, in a line
	On    plan.Date // of the day that it is of; zero: of no day, or of all
	Off   bool      // a calendar that holds nothing but what is called off

	sheet func() Sheet                         // of what is printed; else nil
	read  func() say.Text                      // of what is not, what can be read of it; nil: nothing
	image func(width int) (*image.RGBA, error) // of what is a picture
	write func(io.Writer) error
}

// Sheet is what a printed paper says; other files have none.
func (p Paper) Sheet() (Sheet, bool) {
	if p.sheet == nil {
		return Sheet{}, false
	}
	return p.sheet(), true
}

// Picture is a picture so many pixels wide; other papers give nil.
func (p Paper) Picture(width int) (*image.RGBA, error) {
	if p.image == nil {
		return nil, nil
	}
	return p.image(width)
}

// Words is what can be read of a paper. What it says itself is the same in every tongue.
func (p Paper) Words() say.Text {
	switch {
	case p.sheet != nil:
		return say.Plain(p.sheet().Text())
	case p.read != nil:
		return p.read()
	}
	return say.Text{}
}

// Set is the papers of a job.
type Set struct {
	Papers []Paper
	job    Job
	press  *press
	sent   plan.Calendar // what its calendars say
}

// NewSet lists all papers of a job, in the order of their kinds, those for all before each person's.
func NewSet(j Job) Set {
	s := Set{job: j, press: newPress(j.Plan.Papers.Size.Or(), j.Made)}
	calendars := NewCalendars(j.Plan, j.Days, j.Made)
	s.callSheets()
	s.calendars(calendars)
	s.mails(calendars)
	s.messages()
	s.contacts()
	s.scenes()
	s.pictures()
	s.money()
	s.releases()
	s.books()
	return s
}

// on is the date of a day, as the papers are told apart by it.
func (j Job) on(d day.Day) any {
	if d.Date.IsZero() {
		return say.That("no date")
	}
	return onDate{d.Date, styleOf(j.Plan)}
}

// onDate is a date in what is said of a paper: in the papers themselves it is written as theirs are, and in the window as its are.
type onDate struct {
	date  plan.Date
	style style
}

// In is the date in a tongue.
func (d onDate) In(tongue say.Tongue) string {
	if tongue == nil {
		return d.style.long(d.date)
	}
	return d.date.SaidLong().In(tongue)
}

// callSheets are those for all, and those of each who is called: a minor's is for the guardian.
func (s *Set) callSheets() {
	j := s.job
	for _, d := range j.Days {
		s.print(Paper{Kind: KindCallSheets, On: d.Date, Name: sheetFile(d), About: say.That("call sheet for all, %s", j.on(d))}, func() Sheet { return CallSheet(j.Plan, d, j.Days...) })
	}
	for _, d := range j.Days {
		for _, called := range d.People {
			call := toCall{d, called.Person}
			sheet := func() Sheet { return PersonSheet(j.Plan, d, called.Person, j.Days...) }
			p := Paper{Kind: KindCallSheets, On: d.Date, For: called.Person, Name: peopleFolder + personSheetFile(call), About: say.That("call sheet of %s, %s", calledOr(j.Plan, called.Person), j.on(d))}
			p.sheet, p.write = sheet, content(func() ([]byte, error) { return s.press.hold(call.key(), sheet()) })
			s.add(p)
		}
	}
}

func (s *Set) contacts() {
	if cards := Contacts(s.job.Plan, s.job.Days); len(cards) > 0 {
		s.hold(Paper{Kind: KindContacts, Name: contactsFile, About: say.That("contacts of all who come, for a phone")}, cards)
	}
}

// scenes are the film for the client, and for the camera.
func (s *Set) scenes() {
	j := s.job
	s.print(Paper{Kind: KindScenePlan, Name: "scene-plan.pdf", About: say.That("the film scene by scene, for the client")}, func() Sheet { return ScenePlan(j.Plan, j.Days) })
	for _, d := range j.Days {
		s.print(Paper{Kind: KindShotLists, On: d.Date, Name: shotListFile(d), About: say.That("shot list for the camera, %s", j.on(d))}, func() Sheet { return ShotList(j.Plan, d) })
	}
}

// releases are each of them, to be signed or as it was signed, and the list of all.
func (s *Set) releases() {
	j := s.job
	for _, r := range j.Plan.Releases {
		s.print(Paper{Kind: KindReleases, For: r.Party, Name: releaseFolder + releaseFile(r), About: releaseAbout(j.Plan, r)},
			func() Sheet { return Release(j.Plan, r, j.firstDate()) })
	}
	s.print(Paper{Kind: KindRegister, Name: ownerFolder + RegisterFile, About: say.That("register of all releases, for the owner")},
		func() Sheet { return ReleaseRegister(j.Plan, j.Days, j.Doubts) })
}

// books are what can be worked on with: the schedule, the people, and for the owner the budget.
func (s *Set) books() {
	j := s.job
	add := func(folder string, about say.Text, book func() Book) {
		name := book().Name
		s.add(Paper{Kind: KindTables, Name: folder + name + ".xlsx", About: say.That("%s, as a workbook", about),
			read: func() say.Text {
				return say.Join("\n\n", say.That("A workbook opens in a spreadsheet program. The same rows, without its formulas:"), rowsToRead(book()))
			},
			write: func(w io.Writer) error { return book().XLSX(w, j.Plan.Papers.Size.Or(), j.Made) }})
		s.add(Paper{Kind: KindTables, Name: folder + name + ".csv", About: say.That("%s, as plain rows (CSV)", about),
			read: func() say.Text { return rowsToRead(book()) }, write: func(w io.Writer) error { return book().CSV(w) }})
	}
	if len(j.Days) > 0 {
		add("", say.That("schedule"), func() Book { return ScheduleBook(j.Plan, j.Days) })
		add("", say.That("people and their times"), func() Book { return PeopleBook(j.Plan, j.Days) })
	}
	if !j.Plan.Pricing.Card.Empty() {
		add(ownerFolder, say.That("budget with its formulas, for the owner"), func() Book {
			sheet := price.Of(j.Plan, j.Days)
			return BudgetBook(j.Plan, j.Days, &sheet)
		})
	}
}

// rowsToRead are the plain rows of a book, to be read.
func rowsToRead(b Book) say.Text {
	var out strings.Builder
	_ = b.CSV(&out) // a builder takes everything
	return say.Plain(strings.TrimPrefix(strings.ReplaceAll(out.String(), "\r\n", "\n"), "\ufeff"))
}

// pictureWidth, in pixels, is what a phone held upright shows and a little more, to be zoomed into.
const pictureWidth = 1280

func (s *Set) pictures() {
	for _, d := range s.job.Days {
		if d.Sky == nil {
			continue
		}
		p := Paper{Kind: KindPicture, On: d.Date, Name: "day-" + cmp.Or(d.Date.String(), "no-date") + ".png", About: say.That("picture of the day, %s", s.job.on(d))}
		p.image = func(width int) (*image.RGBA, error) { return dayImage(s.job.Plan, d, width) }
		p.write = func(w io.Writer) error { return DayPNG(w, s.job.Plan, d, pictureWidth) }
		s.add(p)
	}
}

// money adds the quote and the budget, where there is a rate card to reckon with. The packages are placed once, when the quote is
// first looked at.
func (s *Set) money() {
	j := s.job
	if j.Plan.Pricing.Card.Empty() {
		return
	}
	packages := sync.OnceValue(func() []price.Answer {
		found, _ := price.Packages(context.Background(), j.Plan, j.Days)
		return found
	})
	s.print(Paper{Kind: KindQuote, Name: QuoteFile, About: say.That("quote for the client")}, func() Sheet { return Quote(j.Plan, j.Days, packages()...) })
	s.print(Paper{Kind: KindBudget, Name: ownerFolder + BudgetFile, About: say.That("budget, every line, for the owner")}, func() Sheet { return Budget(j.Plan, j.Days) })
}

// NewCalledOff lists the papers of a job that is called off: the calendars that cancel what was written before, if anything was.
func NewCalledOff(j Job) Set {
	s := Set{job: j}
	s.calendars(CalledOff(j.Plan, j.Made))
	return s
}

func (j Job) firstDate() plan.Date {
	if on := dates(j.Days); len(on) > 0 {
		return on[0]
	}
	return plan.Date{}
}

// add puts a paper into the set, under a name that no other has.
func (s *Set) add(p Paper) {
	names := make([]string, len(s.Papers))
	for i, other := range s.Papers {
		names[i] = other.Name
	}
	p.Name = besides(names, p.Name)
	s.Papers = append(s.Papers, p)
}

// print adds a paper that is printed.
func (s *Set) print(p Paper, sheet func() Sheet) {
	p.sheet = sheet
	p.write = content(func() ([]byte, error) { return s.press.print(sheet()) })
	s.add(p)
}

// content writes what something makes.
func content(made func() ([]byte, error)) func(io.Writer) error {
	return func(w io.Writer) error {
		out, err := made()
		if err == nil {
			_, err = w.Write(out)
		}
		return err
	}
}

// hold adds a paper whose content is there already, a text in UTF-8.
func (s *Set) hold(p Paper, text []byte) {
	p.read = func() say.Text { return say.Plain(strings.ReplaceAll(string(text), "\r\n", "\n")) }
	p.write = func(w io.Writer) error {
		_, err := w.Write(text)
		return err
	}
	s.add(p)
}

func (s *Set) calendars(c Calendars) {
	s.sent = c.Sent
	for _, f := range c.Files {
		p := Paper{Kind: KindCalendars, For: f.Person, Name: f.Name, About: say.That("calendar for all"), Off: f.Off}
		if f.Person != "" {
			p.Name, p.About = peopleFolder+f.Name, say.That("calendar of %s", calledOr(s.job.Plan, f.Person))
		}
		s.hold(p, f.Content)
	}
}

// mails are the call sheets in mails that nobody has sent, to all who can have one. Each is made when it is written.
func (s *Set) mails(c Calendars) {
	j := s.job
	for _, d := range SheetDrafts(j.Plan, j.Days, plan.DateOf(j.Made.In(zoneOf(j.Plan)))) {
		if d.Stop != nil {
			continue
		}
		s.add(Paper{Kind: KindMails, For: d.To, Name: peopleFolder + d.fileName(), About: say.That("mail with the call sheet for %s", d.Name),
			read: d.words, write: content(func() ([]byte, error) { return d.mail(j.Plan, c, s.press) })})
	}
}

// messages are the days in a few lines, for all and for each adult who comes or answers for a minor who does.
func (s *Set) messages() {
	for _, d := range s.job.Days {
		if d.Call.IsZero() {
			continue
		}
		add := func(p Paper) {
			p.Kind, p.On = KindMessages, d.Date
			s.hold(p, []byte(Message(s.job.Plan, d, p.For)))
		}
		add(Paper{Name: "message-" + d.Date.String() + ".txt", About: say.That("message to all, %s", s.job.on(d))})
		for _, who := range s.job.Plan.People {
			one := []day.Day{d}
			if !minorOn(s.job.Plan, one, who) && (calledOn(one, who.ID) || len(wardsOf(s.job.Plan, one, who.ID)) > 0) {
				add(Paper{For: who.ID, Name: peopleFolder + "message-" + d.Date.String() + "-" + fileName(string(who.ID)) + ".txt", About: say.That("message to %s, %s", oneLine(who.Called()), s.job.on(d))})
			}
		}
	}
}

// calledOr is what somebody is called, or their id where they have left the plan.
func calledOr(p *plan.Plan, id plan.ID) string {
	who, _ := p.Person(id)
	return cmp.Or(oneLine(who.Called()), string(id))
}

// Only is the set with only the papers of some kinds.
func (s Set) Only(kinds ...Kind) Set {
	s.Papers = slices.DeleteFunc(slices.Clone(s.Papers), func(p Paper) bool { return !slices.Contains(kinds, p.Kind) })
	return s
}

// has reports whether there are papers of any of some kinds.
func (s Set) has(kinds ...Kind) bool {
	return slices.ContainsFunc(s.Papers, func(p Paper) bool { return slices.Contains(kinds, p.Kind) })
}
