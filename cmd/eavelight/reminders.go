package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"eavelight/plan"
	"eavelight/plan/papers"
	"eavelight/plan/people"
)

// remindersReport is what releases --reminders --json prints.
type remindersReport struct {
	Reminders []reminderReport `json:"reminders"` // the first that is due first
	Drafts    []draftReport    `json:"drafts"`
	Written   []string         `json:"written"` // with --out
}

type reminderReport struct {
	Task    people.Task `json:"task"`
	What    string      `json:"what"`
	To      plan.ID     `json:"to,omitempty"`
	About   plan.ID     `json:"about,omitempty"`
	Release plan.ID     `json:"release,omitempty"`
	Due     string      `json:"due"` // empty where no date is set
	Late    bool        `json:"late"`
	Why     string      `json:"why"`
	First   string      `json:"first,omitempty"` // what is to be done before anybody can be written to
}

type draftReport struct {
	To       plan.ID  `json:"to"`
	Name     string   `json:"name"`
	Email    string   `json:"email,omitempty"`
	Phone    string   `json:"phone,omitempty"`
	Subject  string   `json:"subject"`
	Text     string   `json:"text"`
	Attached []string `json:"attached"`
	NoMail   string   `json:"noMail,omitempty"` // why it can't be a mail
}

// remind is releases --reminders. Like all that finds something to look at, it ends with 1: when anything is late.
func (c releasesCommand) remind(w world) error {
	p, s, err := dated{Plan: c.Plan, Date: c.Date}.shoot(w.ctx, w)
	if err != nil {
		return err
	}
	today := plan.DateOf(w.now())
	all, drafts := papers.Reminders(&p, s.Days, today), papers.Drafts(&p, s.Days, today)
	var written []string
	if c.Out != "" {
		var wrote papers.Written
		wrote, err = papers.WriteDrafts(c.Out, &p, s.Days, drafts, w.now(), c.Overwrite)
		written = wrote.Paths
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("%w; add --overwrite to replace it", err)
		}
		if err == nil && c.Sent && wrote.Remember {
			err = remember(c.Plan, wrote)
		}
		if err != nil {
			return err
		}
	}
	if c.JSON {
		err = printJSON(w, newRemindersReport(&p, all, drafts, written))
	} else {
		printReminders(w, &p, all)
		if c.Out != "" {
			printWritten(w, drafts, written)
		}
	}
	if err == nil && slices.ContainsFunc(all, func(r people.Reminder) bool { return r.Late }) {
		return errProblems
	}
	return err
}

func newRemindersReport(p *plan.Plan, all []people.Reminder, drafts []papers.Draft, written []string) remindersReport {
	out := remindersReport{Reminders: []reminderReport{}, Drafts: []draftReport{}, Written: append([]string{}, written...)}
	for _, r := range all {
		out.Reminders = append(out.Reminders, reminderReport{Task: r.Task, What: r.What(p).String(), To: r.To, About: r.About, Release: r.Release,
			Due: r.Due.String(), Late: r.Late, Why: r.Why.String(), First: r.Stop.String()})
	}
	for _, d := range drafts {
		report := draftReport{To: d.To, Name: d.Name, Email: d.Email, Phone: d.Phone, Subject: d.Subject, Text: d.Text,
			Attached: append([]string{}, d.Attached()...)}
		if d.Stop != nil {
			report.NoMail = d.Stop.Error()
		}
		out.Drafts = append(out.Drafts, report)
	}
	return out
}

func printReminders(w world, p *plan.Plan, all []people.Reminder) {
	late := 0
	for _, r := range all {
		if r.Late {
			late++
		}
	}
	state := "nothing is to be sent"
	if len(all) > 0 {
		state = fmt.Sprintf("%s to send, ask or settle, %d late", counted(len(all), "thing", "things"), late)
	}
	paragraph(w.out, "", cmp.Or(p.Title, "Untitled plan")+": "+state+". The days are common practice.")
	for i, r := range all {
		if i == 0 || r.Due != all[i-1].Due {
			fmt.Fprintln(w.out)
			when := r.Why.String()
			if !r.Due.IsZero() {
				when = r.Due.Long()
			}
			paragraph(w.out, "", when)
		}
		who, _ := p.Person(r.To)
		mark := " "
		if r.Late {
			mark = "!"
		}
		words := r.What(p).String()
		if !r.Stop.IsZero() {
			words += "; first " + r.Stop.String()
		}
		paragraph(w.out, fmt.Sprintf("  %s %s ", mark, cell(cmp.Or(who.Called(), "yours to settle"), 28)), words)
	}
}

func printWritten(w world, drafts []papers.Draft, written []string) {
	fmt.Fprintln(w.out)
	for _, d := range drafts {
		if d.Stop != nil {
			paragraph(w.out, "! ", "no mail for "+d.Name+": "+d.Stop.Error())
		}
	}
	for _, path := range written {
		fmt.Fprintln(w.out, path)
	}
}
