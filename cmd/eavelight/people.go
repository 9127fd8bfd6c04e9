package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/contacts"
	"eavelight/plan/store"
)

type peopleCommand struct {
	Plan      string             `arg:"" help:"The plan."`
	Import    string             `help:"Tell who of a vCard, CSV or TSV file would come into the plan, and how." placeholder:"FILE" xor:"do"`
	Export    string             `help:"Write everybody into a vCard file." placeholder:"FILE.vcf" xor:"do"`
	Find      *string            `help:"Tell who of the address book has all these words, and how they would come into the plan; no words find everybody." placeholder:"WORDS" xor:"do"`
	Keep      bool               `help:"Keep everybody in the address book, beside what it knows already." xor:"do"`
	Book      string             `help:"With --find and --keep: the address book, where it is another than that of the window." placeholder:"FILE.vcf"`
	Yes       bool               `help:"With --import and --find: do it, and save the plan."`
	Column    []string           `help:"With --import: what a column holds, as in --column 'Mobile=phone'; its number will do for its heading. May be given several times." placeholder:"HEADING=FIELD" sep:"none"`
	Dates     contacts.DateOrder `help:"With --import: which comes first in dates such as 03/04/2015, 'day first' or 'month first'." placeholder:"ORDER"`
	Overwrite bool               `help:"With --export: replace a file that is there already."`
	JSON      bool               `help:"Print JSON for machines."`
}

// personReport is one person of people --json.
type personReport struct {
	ID     plan.ID   `json:"id"`
	Name   string    `json:"name"`
	Role   plan.Role `json:"role"`
	Job    string    `json:"job,omitempty"`
	Phone  string    `json:"phone,omitempty"`
	Email  string    `json:"email,omitempty"`
	Minor  bool      `json:"minor,omitempty"` // by today
	Scenes []plan.ID `json:"scenes"`
}

// importReport is what people --import --json prints; so do --find and --keep, without columns.
type importReport struct {
	Columns  []columnReport  `json:"columns"` // of a table; those that hold something
	People   []contactReport `json:"people"`
	Problems []problemReport `json:"problems"`
	Saved    bool            `json:"saved"`
}

type columnReport struct {
	Number  int            `json:"number"`
	Heading string         `json:"heading"`
	Field   contacts.Field `json:"field"`
}

type contactReport struct {
	Line   int             `json:"line,omitempty"` // of the file, or of the address book's
	Name   string          `json:"name"`
	Role   plan.Role       `json:"role,omitempty"`
	Job    string          `json:"job,omitempty"`
	Phone  string          `json:"phone,omitempty"`
	Email  string          `json:"email,omitempty"`
	Action contacts.Action `json:"action"`
	Match  plan.ID         `json:"match,omitempty"` // who it is, or could be, where they would go; in the address book, by UID
	Fields []string        `json:"fields,omitempty"`
	Note   string          `json:"note,omitempty"`
}

type problemReport struct {
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
	Text   string `json:"text"`
}

// Run is kong's.
func (c peopleCommand) Run(w world) error {
	switch {
	case c.Import == "" && (len(c.Column) > 0 || c.Dates != ""):
		return errors.New("--column and --dates go with --import FILE")
	case c.Import == "" && c.Find == nil && c.Yes:
		return errors.New("--yes goes with --import FILE or --find WORDS")
	case c.Find == nil && !c.Keep && c.Book != "":
		return errors.New("--book goes with --find WORDS or --keep")
	case c.Export == "" && c.Overwrite:
		return errors.New("--overwrite goes with --export FILE")
	case c.Dates != "" && c.Dates != contacts.DayFirst && c.Dates != contacts.MonthFirst:
		return fmt.Errorf("--dates %q: say '%s' or '%s'", c.Dates, contacts.DayFirst, contacts.MonthFirst)
	}
	p, stamp, err := store.Read(c.Plan)
	if err != nil {
		return err
	}
	switch {
	case c.Import != "":
		return c.take(w, p, stamp)
	case c.Export != "":
		return c.write(w, p)
	case c.Find != nil:
		return c.find(w, p, stamp)
	case c.Keep:
		return c.keep(w, p)
	}
	return c.list(w, &p)
}

func (c peopleCommand) list(w world, p *plan.Plan) error {
	all := []personReport{}
	for _, q := range p.People {
		r := personReport{ID: q.ID, Name: q.Name, Role: q.Role.Or(), Job: q.Job, Phone: q.Phone, Email: q.Email,
			Minor: q.MinorOn(plan.DateOf(w.now())), Scenes: []plan.ID{}}
		for _, s := range p.Scenes {
			if slices.Contains(s.People, q.ID) {
				r.Scenes = append(r.Scenes, s.ID)
			}
		}
		all = append(all, r)
	}
	if c.JSON {
		return printJSON(w, all)
	}
	if len(all) == 0 {
		fmt.Fprintln(w.out, "There is nobody in the plan yet.")
	}
	for _, r := range all {
		words := "in no scene"
		if len(r.Scenes) > 0 {
			words = sceneWords(p, r.Scenes)
		}
		mark := fmt.Sprintf("%s %s ", cell(cmp.Or(r.Name, string(r.ID)), 30), cell(cmp.Or(r.Job, string(r.Role)), 24))
		paragraph(w.out, mark, words)
	}
	return nil
}

func (c peopleCommand) write(w world, p plan.Plan) error {
	err := contacts.WriteFile(c.Export, p.People, c.Overwrite)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%w; add --overwrite to replace it", err)
	}
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(w, map[string]string{"written": c.Export})
	}
	fmt.Fprintln(w.out, c.Export)
	return nil
}

// take tells what an import would do, and does it after --yes. Who is in doubt is left to the window.
func (c peopleCommand) take(w world, p plan.Plan, stamp store.Stamp) error {
	today := plan.DateOf(w.now())
	f, err := contacts.ReadFile(c.Import, today)
	if err != nil {
		if lines := view.ProblemLines(f.Problems); lines != "" {
			fmt.Fprintln(w.out, lines)
		}
		return err
	}
	if f, err = c.matched(f, today); err != nil {
		return err
	}
	m := merge{sides: view.FileToPlan, file: f, all: view.Incomings(view.FileToPlan, p.People, f.Contacts)}
	return c.intoPlan(w, m, p, stamp)
}

// merge is people of a file, the address book or the plan, and what becomes of them.
type merge struct {
	sides view.Sides
	file  contacts.File
	all   []view.Incoming
	saved bool
}

// intoPlan does what is proposed, after --yes, and tells it.
func (c peopleCommand) intoPlan(w world, m merge, p plan.Plan, stamp store.Stamp) error {
	if chosen := view.Proposed(m.all); c.Yes && len(chosen) > 0 {
		next := p.Clone()
		contacts.Apply(&next, chosen)
		if wrong := plan.Validate(next).At(plan.Wrong); len(wrong) > 0 {
			return fmt.Errorf("nothing was imported: %s", wrong[0])
		}
		if _, err := store.Write(c.Plan, next, stamp); err != nil {
			return err
		}
		m.saved = true
	}
	return c.tell(w, m)
}

// tell prints what was or would be done; what is left to be looked at makes the exit code 1.
func (c peopleCommand) tell(w world, m merge) error {
	if c.JSON {
		if err := printJSON(w, newImportReport(m)); err != nil {
			return err
		}
	} else {
		printImport(w, m)
	}
	noRoom := slices.ContainsFunc(m.all, func(in view.Incoming) bool { return in.NoRoom })
	if len(m.file.Problems) > 0 || noRoom || view.CountIncoming(m.all)[view.Undecided] > 0 {
		return errProblems
	}
	return nil
}

// book reads the address book.
func (c peopleCommand) book() (contacts.Book, error) {
	path := c.Book
	if path == "" {
		var err error
		if path, err = contacts.BookPath(); err != nil {
			return contacts.Book{}, err
		}
	}
	return contacts.ReadBook(path)
}

// find tells who of the address book would come into the plan.
func (c peopleCommand) find(w world, p plan.Plan, stamp store.Stamp) error {
	b, err := c.book()
	if err != nil {
		return err
	}
	m := merge{sides: view.FoundInBook, file: contacts.File{Problems: b.Problems}, all: view.Found(b, p.People, *c.Find)}
	return c.intoPlan(w, m, p, stamp)
}

// keep puts everybody who is in no doubt into the address book.
func (c peopleCommand) keep(w world, p plan.Plan) error {
	b, err := c.book()
	if err != nil {
		return err
	}
	m := merge{sides: view.PlanToBook}
	all, odd := contacts.ForBook(p.People)
	m.file.Problems = odd
	m.all = view.Incomings(view.PlanToBook, b.Persons(), all)
	if chosen := view.Proposed(m.all); len(chosen) > 0 {
		if _, err := b.With(chosen).Write(); err != nil {
			return err
		}
		m.saved = true
	}
	return c.tell(w, m)
}

// matched reads the columns as --column and --dates say.
func (c peopleCommand) matched(f contacts.File, today plan.Date) (contacts.File, error) {
	if len(c.Column) == 0 && c.Dates == "" {
		return f, nil
	}
	if f.Table == nil {
		return f, fmt.Errorf("%s is a vCard file; --column and --dates are for tables", f.Name)
	}
	m := f.Match
	m.Fields = slices.Clone(m.Fields)
	m.Dates = cmp.Or(c.Dates, m.Dates)
	for _, said := range c.Column {
		cut := strings.LastIndex(said, "=")
		if cut < 0 {
			return f, fmt.Errorf("--column %q: write it as in 'Mobile=phone'", said)
		}
		heading, field := said[:cut], contacts.Field(said[cut+1:])
		at := slices.Index(f.Table.Headings, heading)
		if n, err := strconv.Atoi(heading); at < 0 && err == nil && n >= 1 && n <= len(m.Fields) {
			at = n - 1
		}
		if at < 0 {
			return f, fmt.Errorf("--column %q: there is no column %q; the headings are %s", said, heading, quoted(f.Table.Headings))
		}
		if !slices.Contains(contacts.Fields, field) {
			return f, fmt.Errorf("--column %q: %q is no field; the fields are %s", said, field, quoted(contacts.Fields))
		}
		m.Fields[at] = field
	}
	return f.Matched(m, today), nil
}

func quoted[T ~string](words []T) string {
	var out []string
	for _, w := range words {
		out = append(out, strconv.Quote(string(w)))
	}
	return strings.Join(out, ", ")
}

func newImportReport(m merge) importReport {
	f := m.file
	r := importReport{Columns: []columnReport{}, People: []contactReport{}, Problems: []problemReport{}, Saved: m.saved}
	for _, c := range view.Columns(f) {
		r.Columns = append(r.Columns, columnReport{c.At + 1, c.Heading, f.Match.Fields[c.At]})
	}
	for _, in := range m.all {
		one := contactReport{Line: in.Line, Name: in.Person.Name, Role: in.Person.Role, Job: in.Person.Job, Phone: in.Person.Phone,
			Email: in.Person.Email, Action: in.Action, Match: in.Match, Note: in.Note}
		if m.sides == view.PlanToBook {
			one.Line = 0
		}
		if in.On {
			for _, change := range in.Offers[in.Chosen].Proposal.Changes {
				if change.Take {
					one.Fields = append(one.Fields, string(change.Field))
				}
			}
		}
		r.People = append(r.People, one)
	}
	for _, p := range f.Problems {
		r.Problems = append(r.Problems, problemReport{p.Line, p.Column, p.Text.String()})
	}
	return r
}

func printImport(w world, m merge) {
	f := m.file
	paragraph(w.out, "", strings.TrimSpace(view.IncomingSummary(m.sides, m.all)+" "+view.TableWords(f)))
	for _, c := range view.Columns(f) {
		paragraph(w.out, fmt.Sprintf("  column %d ", c.At+1), fmt.Sprintf("%q: %s, as in %s", c.Heading, f.Match.Fields[c.At], quoted(c.Samples)))
	}
	fmt.Fprintln(w.out)
	for _, in := range m.all {
		words := "nothing new"
		switch {
		case in.On:
			words = in.Offers[in.Chosen].Words
		case in.Kind != view.Unchanged:
			words = "left as it is"
		}
		if in.Note != "" {
			words += ". " + in.Note
		}
		if m.sides == view.FoundInBook { // to be called at once
			words += ". " + in.Facts
		}
		at := ""
		if m.sides == view.FileToPlan {
			at = "line " + cell(fmt.Sprint(in.Line), 5) + " "
		}
		paragraph(w.out, fmt.Sprintf("  %s%s ", at, cell(in.Name, 28)), words)
	}
	if lines := view.ProblemLines(f.Problems); lines != "" {
		fmt.Fprintln(w.out)
		for line := range strings.SplitSeq(lines, "\n") {
			paragraph(w.out, "  ! ", line)
		}
	}
	fmt.Fprintln(w.out)
	switch chosen := view.Proposed(m.all); {
	case m.saved && m.sides == view.PlanToBook:
		paragraph(w.out, "", view.Kept(chosen)+" "+view.BookCaution())
	case m.saved:
		fmt.Fprintln(w.out, view.Imported(chosen)+" The plan is saved.")
	case len(chosen) > 0:
		fmt.Fprintln(w.out, "Nothing is changed yet; add --yes to take "+counted(len(chosen), "person", "people")+".")
	default:
		fmt.Fprintln(w.out, "There is nothing to take.")
	}
	if view.CountIncoming(m.all)[view.Undecided] > 0 {
		fmt.Fprintln(w.out, "Who is in doubt can be decided in the window.")
	}
}
