package view

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/papers"
	"eavelight/plan/people"
)

// Reminding is what must be sent to whom by when.
type Reminding struct {
	Head string
	Rows []ReminderRow
	Mail string // what the mail drafts are, and who gets none; "" where there is nobody to write to
	Some bool   // at least one draft can be a mail
}

// ReminderRow is what one person is to be sent by one day, or what has to be decided first.
type ReminderRow struct {
	Row                    // its ID is the same as long as it is about the same
	Text string            // of the draft to that person; "" where none can be written yet
	Lead string            // what stands over the text: to whom, about what, which papers go with it
	Sent func(*plan.Plan)  // notes that the releases in it were sent; nil where there are none
	due  []people.Reminder // that it is made of
}

// Reminders makes what is due ready to show.
func Reminders(st session.State, today plan.Date) Reminding {
	days := st.Results.Shoot.Days
	drafts := papers.Drafts(&st.Plan, days, today)
	var out Reminding
	late := 0
	for _, r := range papers.Reminders(&st.Plan, days, today) {
		if r.Late {
			late++
		}
		same := func(row ReminderRow) bool {
			return r.To != "" && row.due[0].To == r.To && row.due[0].Due == r.Due && row.due[0].Late == r.Late && row.due[0].Stop.String() == r.Stop.String()
		}
		if i := slices.IndexFunc(out.Rows, same); i >= 0 {
			out.Rows[i].due = append(out.Rows[i].due, r)
		} else {
			out.Rows = append(out.Rows, ReminderRow{due: []people.Reminder{r}})
		}
	}
	for i := range out.Rows {
		out.Rows[i].fill(&st.Plan, drafts, today)
	}
	out.Head = remindersHead(len(out.Rows), late, len(days) > 0 && !days[0].Date.IsZero())
	out.Mail, out.Some = mailWords(drafts)
	return out
}

func remindersHead(rows, late int, dated bool) string {
	switch {
	case rows == 0:
		return tongue.Say("Nothing is to be sent: everything that the film needs is signed, and nobody is called.")
	case !dated:
		return tongue.Say("No date is set yet, so nothing is due by a day.")
	case late > 0:
		return tongue.Count(late, "%d thing is late. The days are common practice: go by your own where you know better.",
			"%d things are late. The days are common practice: go by your own where you know better.")
	}
	return tongue.Say("Nothing is late. The days are common practice: go by your own where you know better.")
}

func (row *ReminderRow) fill(p *plan.Plan, drafts []papers.Draft, today plan.Date) {
	first := row.due[0]
	who, _ := p.Person(first.To)
	row.Title = who.Called()
	if first.To == "" {
		row.Title = tongue.Say("Yours to settle")
	}
	row.ID = plan.ID(fmt.Sprint(first.To, first.Due, first.Late, first.Task, first.Kind, first.Release, first.About))
	var what []string
	for i, r := range row.due {
		words := tongue.Of(r.What(p))
		if i > 0 && r.Kind == "" && r.Task == row.due[i-1].Task { // of a guardian's minors
			about, _ := p.Person(r.About)
			words = tongue.Say("the same for %s", about.Called())
		}
		if !r.Stop.IsZero() {
			words += " (" + tongue.Say("first %s", r.Stop) + ")"
		}
		if !slices.Contains(what, words) {
			what = append(what, words)
		}
	}
	row.Sub = sentence(strings.Join(what, "; "))
	row.Mark = dueMark(first, today)
	row.Lead = row.Sub + "\n" + sentence(tongue.Of(first.Why))
	if !first.Due.IsZero() {
		row.Lead = row.Sub + "\n" + tongue.Say("Due %s: %s.", first.Due.SaidLong(), first.Why)
	}
	for _, d := range drafts {
		if d.To == first.To {
			row.draft(d)
		}
	}
	if slices.ContainsFunc(row.due, people.Reminder.Sendable) {
		due := row.due
		row.Sent = func(p *plan.Plan) {
			for _, r := range due {
				r.MarkSent(p, today)
			}
		}
	}
}

// draft shows the draft that the person of a row gets.
func (row *ReminderRow) draft(d papers.Draft) {
	row.Text = d.Text
	to := d.Name
	switch {
	case d.Stop == nil:
		to += ", " + d.Email
	case d.Phone != "":
		to = tongue.Say("%s, phone %s (%v)", d.Name, d.Phone, d.Stop)
	default:
		to += " (" + tongue.Error(d.Stop) + ")"
	}
	row.Lead += "\n" + tongue.Say("mail|To: %s", to) + "\n" + tongue.Say("mail|Subject: %s", d.Subject)
	if files := d.Attached(); len(files) > 0 {
		row.Lead += "\n" + tongue.Say("mail|Goes with it: %s", strings.Join(files, ", "))
	}
}

// dueMark says when a row is due. What the plan can't know of may be done already.
func dueMark(r people.Reminder, today plan.Date) string {
	switch {
	case r.Due.IsZero():
		return tongue.Say("no date yet")
	case r.Late:
		return tongue.Say("late: %s", r.Due.SaidDayMonth())
	case r.Due == today:
		return tongue.Say("today")
	case r.Due.Before(today):
		return tongue.Say("%s, if not done", r.Due.SaidDayMonth())
	}
	return tongue.Of(r.Due.SaidDayMonth())
}

// mailWords says how many mails the drafts are, and who gets none.
func mailWords(drafts []papers.Draft) (words string, some bool) {
	var without []string
	for _, d := range drafts {
		if d.Stop != nil {
			without = append(without, clipped(d.Name, 24))
		}
	}
	n := len(drafts) - len(without)
	switch {
	case len(drafts) == 0:
		return "", false
	case len(without) == 0:
		words = tongue.Count(n, "%d mail draft, one a person. Nothing is sent: open them in your mail program, read them, send them.",
			"%d mail drafts, one a person. Nothing is sent: open them in your mail program, read them, send them.")
	case n == 0:
		words = tongue.Say("No mail: %s", withoutAddress(without))
	default:
		words = tongue.Count(n, "%d mail draft, one a person; nothing is sent. By message or phone: %s",
			"%d mail drafts, one a person; nothing is sent. By message or phone: %s", withoutAddress(without))
	}
	return words, n > 0
}

// mostNamed is how many people without a mail address are named.
const mostNamed = 5

func withoutAddress(names []string) string {
	if more := len(names) - mostNamed; more > 0 {
		names = append(slices.Clone(names[:mostNamed]), tongue.Count(more, "%d more", "%d more"))
	}
	if len(names) == 1 {
		return tongue.Say("%s has no mail address that can be used.", names[0])
	}
	return tongue.Say("%s have no mail address that can be used.", tongue.List(names))
}

// DraftsTold says what became of writing the drafts; exists: files of that name are there.
func DraftsTold(paths []string, err error) (words string, exists bool) {
	switch {
	case errors.Is(err, fs.ErrExist):
		return tongue.Error(err) + ".", true
	case err != nil:
		return tongue.Error(err) + ".", false
	}
	if len(paths) == 0 {
		return tongue.Say("There was nothing to write."), false
	}
	return tongue.Count(len(paths), "Written: %d mail draft into %s.", "Written: %d mail drafts into %s.", filepath.Dir(paths[0])), false
}
