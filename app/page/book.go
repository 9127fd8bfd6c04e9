package page

import (
	"cmp"
	"errors"
	"reflect"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/contacts"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// booking is the address book beside the plan: people of the one are ticked to go into the other, under the same rules as an
// import. Reading, comparing and writing are done off the UI goroutine.
type booking struct {
	sides view.Sides
	edit  Editor
	async Async
	path  string
	plan  []plan.Person // the people in the plan
	who   plan.ID       // the one selected in the plan
	book  *contacts.Book
	was   *contacts.Book // before the last change to it that was made here
	all   []view.Incoming
	asked int // counts what is asked for, so that a late answer is dropped
	busy  bool
	over  bool   // more are ticked than there is room for, and that is said
	told  string // to be said once what was done is compared anew

	says   *widget.Label
	people *incomings
	wrong  *widget.Label
	faults *fyne.Container
	take   *widget.Button
	forget *widget.Button
	undo   *widget.Button
	object *fyne.Container
}

func newBooking(sides view.Sides, edit Editor, async Async, path string) *booking {
	s := &booking{sides: sides, edit: edit, async: async, path: path, says: wrapped(), wrong: wrapped()}
	s.people = newIncomings(s.refresh)
	s.people.any = sides == view.BookToPlan // who is in the plan already can be forgotten too
	s.take = widget.NewButtonWithIcon("", theme.ConfirmIcon(), s.takeThem)
	s.take.Importance = widget.HighImportance
	s.forget = widget.NewButtonWithIcon("", theme.DeleteIcon(), s.forgetThem)
	s.undo = widget.NewButtonWithIcon(tongue.Say("Put the book back as it was"), theme.ContentUndoIcon(), s.putBack)
	setVisible(s.forget, sides == view.BookToPlan)
	caution := wrapped()
	caution.Importance = widget.LowImportance
	caution.SetText(view.BookCaution() + " " + tongue.Say("The file stays on this computer, and only you can read it: %s.", cmp.Or(path, tongue.Say("there is none yet"))))
	s.faults = newFaults(tongue.Say("What the book keeps in its notes"), s.wrong)
	list := container.New(asideThird{}, s.people.object, s.faults)
	foot := container.NewBorder(nil, nil, s.people.bar, container.NewHBox(s.undo, s.forget, s.take))
	s.object = container.NewBorder(container.NewVBox(caution, s.says), foot, nil, nil, list)
	s.drop()
	return s
}

// newFaults is a list of what could not be taken as it stands, for the side.
func newFaults(heading string, lines *widget.Label) *fyne.Container {
	head := widget.NewLabelWithStyle(heading, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	return container.NewBorder(nil, nil, widget.NewSeparator(), nil, container.NewBorder(head, nil, nil, nil, container.NewVScroll(lines)))
}

// open reads the book, and shows it beside the plan.
func (s *booking) open(selected plan.ID) {
	s.drop()
	s.who = selected
	s.read("")
}

// drop forgets what was read.
func (s *booking) drop() {
	s.asked++
	s.book, s.was, s.all, s.busy, s.told = nil, nil, nil, false, ""
	s.people.clear()
	s.faults.Hide()
	s.undo.Hide()
	s.refresh()
}

// show brings the panel up to a state: who is in the plan by now is asked anew.
func (s *booking) show(st session.State) {
	if reflect.DeepEqual(st.Plan.People, s.plan) {
		return
	}
	s.plan = st.Plan.People
	if s.book != nil {
		s.compare(*s.book)
	}
}

func (s *booking) tell(words string, importance widget.Importance) {
	s.says.Importance = importance
	s.says.SetText(words)
}

// ask does something with the book off the UI goroutine; a late answer is dropped.
func (s *booking) ask(work func() func()) {
	s.asked++
	mine := s.asked
	s.busy = true
	s.refresh()
	s.async(func() func() {
		done := work()
		return func() {
			if mine == s.asked {
				s.busy = false
				done()
			}
		}
	})
}

// read reads the book; said stands before what is told of it.
func (s *booking) read(said string) {
	path := s.path
	s.tell(tongue.Say("Reading the address book…"), widget.LowImportance)
	s.ask(func() func() {
		b, err := contacts.ReadBook(path)
		return func() {
			if err != nil {
				s.drop()
				s.tell(tongue.Error(err)+".", widget.DangerImportance)
				return
			}
			s.told = said
			s.compare(b)
		}
	})
}

// compare shows the book beside the plan.
func (s *booking) compare(b contacts.Book) {
	people, sides, who := s.plan, s.sides, s.who
	s.ask(func() func() {
		var all []view.Incoming
		var odd []contacts.Problem
		if sides == view.PlanToBook {
			all, odd = view.IntoBook(b, people, who)
		} else {
			all = view.FromBook(b, people)
		}
		return func() { s.got(b, all, odd) }
	})
}

func (s *booking) got(b contacts.Book, all []view.Incoming, odd []contacts.Problem) {
	s.book, s.all, s.who, s.over = &b, all, "", false
	s.people.show(all)
	for i := range all {
		if all[i].On {
			s.people.list.ScrollTo(i)
			break
		}
	}
	s.wrong.SetText(view.ProblemLines(odd))
	setVisible(s.faults, len(odd) > 0)
	s.summary()
	s.refresh()
	s.object.Refresh()
}

// summary tells what was done last, or else who is there.
func (s *booking) summary() {
	switch {
	case s.told != "":
		s.tell(s.told, widget.SuccessImportance)
		s.told = ""
	case len(s.book.Problems) > 0:
		s.tell(tongue.Say("The book can be read, but not changed: writing it would lose something in it.")+"\n"+view.ProblemLines(s.book.Problems), widget.WarningImportance)
	case len(s.all) == 0 && s.sides == view.BookToPlan:
		s.tell(tongue.Say("There is nobody in the address book yet. Keep people of this plan in it, and they are found again in the next."), widget.MediumImportance)
	default:
		s.tell(view.IncomingSummary(s.sides, s.all), widget.MediumImportance)
	}
}

// refresh names what the buttons do now.
func (s *booking) refresh() {
	n, ticked := len(view.Proposed(s.all)), len(view.Ticked(s.all))
	s.take.SetText(view.TakeWords(s.sides, n))
	s.forget.SetText(view.ForgetWords(ticked))
	closed := s.busy || s.book == nil
	fixed := closed || len(s.book.Problems) > 0
	setEnabled(s.take, n > 0 && !closed && s.tooMany() == "" && (s.sides == view.BookToPlan || !fixed))
	setEnabled(s.forget, ticked > 0 && !fixed)
	setEnabled(s.undo, !fixed)
	switch {
	case closed:
	case s.tooMany() != "":
		s.over = true
		s.tell(s.tooMany(), widget.WarningImportance)
	case s.over:
		s.over = false
		s.summary()
	}
}

// tooMany says that more are ticked than there is room for.
func (s *booking) tooMany() string {
	have := len(s.plan)
	if s.sides == view.PlanToBook && s.book != nil {
		have = len(s.book.People)
	}
	return view.TooMany(s.sides, have, s.all)
}

func setEnabled(b *widget.Button, on bool) {
	if on {
		b.Enable()
	} else {
		b.Disable()
	}
}

func (s *booking) takeThem() {
	chosen := view.Proposed(s.all)
	if s.sides == view.PlanToBook {
		s.change(view.Kept(chosen), func(b contacts.Book) contacts.Book { return b.With(chosen) })
		return
	}
	s.told = view.Imported(chosen) + " " + tongue.Say("Undo takes it back.")
	wrong := s.edit(view.ImportName(len(chosen)), "", func(p *plan.Plan) { contacts.Apply(p, chosen) })
	if len(wrong) > 0 {
		s.told = ""
		s.tell(tongue.Say("Nobody was taken: %s", tongue.Of(wrong[0])), widget.DangerImportance)
	}
}

func (s *booking) forgetThem() {
	uids := view.Ticked(s.all)
	s.change(view.Forgotten(len(uids)), func(b contacts.Book) contacts.Book { return b.Without(uids) })
}

// putBack undoes the last change to the book that was made here.
func (s *booking) putBack() {
	was := s.was.People
	s.change(tongue.Say("The address book is as it was."), func(b contacts.Book) contacts.Book {
		b.People = was
		return b
	})
}

// change writes the book anew.
func (s *booking) change(done string, f func(contacts.Book) contacts.Book) {
	before := *s.book
	s.tell(tongue.Say("Writing the address book…"), widget.LowImportance)
	s.ask(func() func() {
		after, err := f(before).Write()
		return func() {
			switch {
			case errors.Is(err, contacts.ErrBookChanged):
				s.was = nil
				s.undo.Hide()
				s.read(tongue.Say("Nothing was written: %s.", tongue.Error(err)))
			case err != nil:
				s.refresh()
				s.tell(tongue.Error(err)+".", widget.DangerImportance)
			default:
				s.was, s.told = &before, done
				s.undo.Show()
				s.compare(after)
			}
		}
	})
}
