package view

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/papers"
)

// The days that things are due on are common practice, no published source.

func TestReminderRows(t *testing.T) {
	st := state(t, demo(t))
	st.Results.Shoot.Days = []day.Day{st.Results.Chosen} // Saturday 16 October
	for _, c := range []struct {
		today plan.Date
		head  string
		want  []string // how the first rows begin
	}{
		{plan.Date{Year: 2027, Month: 9, Day: 20}, "Nothing is late.", []string{"Suri Kaanen, 2 Oct: Send the drone authorisation: Flights over the tarn and the house.",
			"Marek Osei-Dahl, 9 Oct: Send the model release of Marek Osei-Dahl; ask whether the day suits, and about sizes and food."}},
		{plan.Date{Year: 2027, Month: 10, Day: 2}, "Nothing is late.", []string{"Suri Kaanen, today: "}},
		{plan.Date{Year: 2027, Month: 10, Day: 14}, "4 things are late.", []string{"Suri Kaanen, late: 2 Oct: ", "Marek Osei-Dahl, late: 9 Oct: Send the model release of Marek Osei-Dahl.",
			"Nina Valdry, 9 Oct, if not done: Ask ", "Theo Marchetti-Lund, 9 Oct, if not done: Ask whether the day suits, and about sizes and food; the same for Ivy Marchetti-Lund."}},
	} {
		got := Reminders(st, c.today)
		if !strings.HasPrefix(got.Head, c.head) || !got.Some || len(got.Rows) < len(c.want) {
			t.Errorf("%s: %q, %d rows", c.today, got.Head, len(got.Rows))
			continue
		}
		for i, want := range c.want {
			row := got.Rows[i]
			if line := row.Title + ", " + row.Mark + ": " + row.Sub; !strings.HasPrefix(line, want) {
				t.Errorf("%s: %q, want %q", c.today, line, want)
			}
		}
		ids := map[plan.ID]bool{}
		for _, row := range got.Rows {
			if ids[row.ID] {
				t.Errorf("%s: two rows are %s", c.today, row.ID)
			}
			ids[row.ID] = true
		}
	}
}

// TestReminderText: what stands over the text, and noting that a release was sent.
func TestReminderText(t *testing.T) {
	p := demo(t)
	st := state(t, p)
	st.Results.Shoot.Days = []day.Day{st.Results.Chosen}
	today := plan.Date{Year: 2027, Month: 10, Day: 4}
	r := Reminders(st, today)
	suri, marek := r.Rows[0], r.Rows[1]
	for _, c := range []struct{ text, want string }{
		{suri.Lead, "To: Suri Kaanen, phone 555 0103 (no mail address)"},
		{suri.Lead, "Due Saturday 2 October 2027: two weeks before: owners"},
		{marek.Lead, "To: Marek Osei-Dahl, marek@example.org\nSubject: A day at Tarn Ledge, Saturday 16 October 2027: please sign\nGoes with it: release-model-marek.pdf"},
		{marek.Text, "Hello Marek Osei-Dahl,"},
		{r.Mail, "3 mail drafts, one a person; nothing is sent. By message or phone: Suri Kaanen, Ruth Åsgård and Pell Aldous have no mail address"},
	} {
		if !strings.Contains(c.text, c.want) {
			t.Errorf("%q is not in %q", c.want, c.text)
		}
	}
	suri.Sent(&p)
	if i := slices.IndexFunc(p.Releases, func(r plan.Release) bool { return r.ID == "flight" }); p.Releases[i].Status != plan.Sent || p.Releases[i].Changed != today {
		t.Errorf("noted: %+v", p.Releases[i])
	}
	for _, row := range r.Rows[2:] {
		if row.Sent != nil {
			t.Errorf("%s: %s offers to note what was not sent", row.Title, row.Sub)
		}
	}
}

func TestRemindersOfLittle(t *testing.T) {
	today := plan.Date{Year: 2027, Month: 10, Day: 4}
	if got := Reminders(session.State{Plan: plan.New()}, today); len(got.Rows) > 0 || got.Some || got.Mail != "" || !strings.HasPrefix(got.Head, "Nothing is to be sent") {
		t.Errorf("an empty plan: %+v", got)
	}
	p := demo(t)
	p.Shooting.Dates, p.People[2].Guardian = nil, ""
	got := Reminders(session.State{Plan: p}, today)
	if row := got.Rows[0]; got.Head != "No date is set yet, so nothing is due by a day." || row.Title != "Yours to settle" || row.Mark != "no date yet" || row.Text != "" ||
		row.Sub != "Ask again for the minor's release of Ivy Marchetti-Lund (first name the guardian of Ivy Marchetti-Lund)." {
		t.Errorf("no date: %q, %+v", got.Head, got.Rows[0].Row)
	}
}

func TestDraftsTold(t *testing.T) {
	file := filepath.Join("papers", "mail-nina.eml")
	for _, c := range []struct {
		paths  []string
		err    error
		want   string
		exists bool
	}{
		{[]string{file, file}, nil, "Written: 2 mail drafts into papers.", false},
		{nil, nil, "There was nothing to write.", false},
		{nil, &papers.ExistsError{Path: file}, file + " is already there; say that it may be replaced, or choose another folder.", true},
		{nil, fmt.Errorf("writing: %w", errors.New("the disk is full")), "writing: the disk is full.", false},
	} {
		if words, exists := DraftsTold(c.paths, c.err); words != c.want || exists != c.exists || exists != errors.Is(c.err, fs.ErrExist) {
			t.Errorf("%v: %q, %v", c.err, words, exists)
		}
	}
}
