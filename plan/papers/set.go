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

// Title is the kind's name for people.
func (k Kind) Title() string {
	words := strings.ReplaceAll(string(k), "-", " ")
	return strings.ToUpper(words[:1]) + words[1:]
}

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
	About string    // what it is, in a line
	On    plan.Date // of the day that it is of; zero: of no day, or of all
	Off   bool      // a calendar that holds nothing but what is called off

	sheet func() Sheet                         // of what is printed; else nil
	say   func() string                        // of what is not, what can be read of it; nil: nothing
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

// Words is what can be read of a paper.
func (p Paper) Words() string {
	switch {
	case p.sheet != nil:
		return p.sheet().Text()
	case p.say != nil:
		return p.say()
	}
	return ""
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
func (j Job) on(d day.Day) string { return cmp.Or(styleOf(j.Plan).long(d.Date), "no date") }

// callSheets are those for all, and those of each who is called: a minor's is for the guardian.
func (s *Set) callSheets() {
	j := s.job
	for _, d := range j.Days {
		s.print(Paper{Kind: KindCallSheets, On: d.Date, Name: sheetFile(d), About: "call sheet for all, " + j.on(d)}, func() Sheet { return CallSheet(j.Plan, d, j.Days...) })
	}
	for _, d := range j.Days {
		for _, called := range d.People {
			call := toCall{d, called.Person}
			sheet := func() Sheet { return PersonSheet(j.Plan, d, called.Person, j.Days...) }
			p := Paper{Kind: KindCallSheets, On: d.Date, For: called.Person, Name: peopleFolder + personSheetFile(call), About: "call sheet of " + calledOr(j.Plan, called.Person) + ", " + j.on(d)}
			p.sheet, p.write = sheet, content(func() ([]byte, error) { return s.press.hold(call.key(), sheet()) })
			s.add(p)
		}
	}
}

func (s *Set) contacts() {
	if cards := Contacts(s.job.Plan, s.job.Days); len(cards) > 0 {
		s.hold(Paper{Kind: KindContacts, Name: contactsFile, About: "contacts of all who come, for a phone"}, cards)
	}
}

// scenes are the film for the client, and for the camera.
func (s *Set) scenes() {
	j := s.job
	s.print(Paper{Kind: KindScenePlan, Name: "scene-plan.pdf", About: "the film scene by scene, for the client"}, func() Sheet { return ScenePlan(j.Plan, j.Days) })
	for _, d := range j.Days {
		s.print(Paper{Kind: KindShotLists, On: d.Date, Name: shotListFile(d), About: "shot list for the camera, " + j.on(d)}, func() Sheet { return ShotList(j.Plan, d) })
	}
}

// releases are each of them, to be signed or as it was signed, and the list of all.
func (s *Set) releases() {
	j := s.job
	for _, r := range j.Plan.Releases {
		s.print(Paper{Kind: KindReleases, For: r.Party, Name: releaseFolder + releaseFile(r), About: releaseAbout(j.Plan, r)},
			func() Sheet { return Release(j.Plan, r, j.firstDate()) })
	}
	s.print(Paper{Kind: KindRegister, Name: ownerFolder + RegisterFile, About: "register of all releases, for the owner"},
		func() Sheet { return ReleaseRegister(j.Plan, j.Days, j.Doubts) })
}

// books are what can be worked on with: the schedule, the people, and for the owner the budget.
func (s *Set) books() {
	j := s.job
	add := func(folder, about string, book func() Book) {
		name := book().Name
		s.add(Paper{Kind: KindTables, Name: folder + name + ".xlsx", About: about + ", as a workbook",
			say: func() string {
				return "A workbook opens in a spreadsheet program. The same rows, without its formulas:\n\n" + rowsToRead(book())
			},
			write: func(w io.Writer) error { return book().XLSX(w, j.Plan.Papers.Size.Or(), j.Made) }})
		s.add(Paper{Kind: KindTables, Name: folder + name + ".csv", About: about + ", as plain rows (CSV)",
			say: func() string { return rowsToRead(book()) }, write: func(w io.Writer) error { return book().CSV(w) }})
	}
	if len(j.Days) > 0 {
		add("", "schedule", func() Book { return ScheduleBook(j.Plan, j.Days) })
		add("", "people and their times", func() Book { return PeopleBook(j.Plan, j.Days) })
	}
	if !j.Plan.Pricing.Card.Empty() {
		add(ownerFolder, "budget with its formulas, for the owner", func() Book {
			sheet := price.Of(j.Plan, j.Days)
			return BudgetBook(j.Plan, j.Days, &sheet)
		})
	}
}

// rowsToRead are the plain rows of a book, to be read.
func rowsToRead(b Book) string {
	var out strings.Builder
	_ = b.CSV(&out) // a builder takes everything
	return strings.TrimPrefix(strings.ReplaceAll(out.String(), "\r\n", "\n"), "\ufeff")
}

// pictureWidth, in pixels, is what a phone held upright shows and a little more, to be zoomed into.
const pictureWidth = 1280

func (s *Set) pictures() {
	for _, d := range s.job.Days {
		if d.Sky == nil {
			continue
		}
		p := Paper{Kind: KindPicture, On: d.Date, Name: "day-" + cmp.Or(d.Date.String(), "no-date") + ".png", About: "picture of the day, " + s.job.on(d)}
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
	s.print(Paper{Kind: KindQuote, Name: QuoteFile, About: "quote for the client"}, func() Sheet { return Quote(j.Plan, j.Days, packages()...) })
	s.print(Paper{Kind: KindBudget, Name: ownerFolder + BudgetFile, About: "budget, every line, for the owner"}, func() Sheet { return Budget(j.Plan, j.Days) })
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
	p.say = func() string { return strings.ReplaceAll(string(text), "\r\n", "\n") }
	p.write = func(w io.Writer) error {
		_, err := w.Write(text)
		return err
	}
	s.add(p)
}

func (s *Set) calendars(c Calendars) {
	s.sent = c.Sent
	for _, f := range c.Files {
		p := Paper{Kind: KindCalendars, For: f.Person, Name: f.Name, About: "calendar for all", Off: f.Off}
		if f.Person != "" {
			p.Name, p.About = peopleFolder+f.Name, "calendar of "+calledOr(s.job.Plan, f.Person)
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
		s.add(Paper{Kind: KindMails, For: d.To, Name: peopleFolder + d.fileName(), About: "mail with the call sheet for " + d.Name,
			say: d.words, write: content(func() ([]byte, error) { return d.mail(j.Plan, c, s.press) })})
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
		on := styleOf(s.job.Plan).long(d.Date)
		add(Paper{Name: "message-" + d.Date.String() + ".txt", About: "message to all, " + on})
		for _, who := range s.job.Plan.People {
			one := []day.Day{d}
			if !minorOn(s.job.Plan, one, who) && (calledOn(one, who.ID) || len(wardsOf(s.job.Plan, one, who.ID)) > 0) {
				add(Paper{For: who.ID, Name: peopleFolder + "message-" + d.Date.String() + "-" + fileName(string(who.ID)) + ".txt", About: "message to " + oneLine(who.Called()) + ", " + on})
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
