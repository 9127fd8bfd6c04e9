package main

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/store"
)

type releasesCommand struct {
	Plan      string `arg:"" help:"The plan."`
	Date      string `help:"The date to judge by, as in 2027-10-16; otherwise the plan's chosen one, or the last of its candidates." placeholder:"DATE"`
	Reminders bool   `help:"Place the day and tell instead what must be sent to whom by when; --date is the day."`
	Out       string `short:"o" help:"With --reminders: write mail drafts into this folder, made if it is not there. Nothing is sent." placeholder:"DIR"`
	Overwrite bool   `help:"With --out: replace drafts that are there already."`
	Sent      bool   `help:"With --out: have the plan remember what the papers in the drafts say, so that later ones tell what has changed."`
	JSON      bool   `help:"Print JSON for machines."`
}

// releasesReport is what releases --json prints.
type releasesReport struct {
	Date         string           `json:"date"` // empty where the plan has none
	Cleared      bool             `json:"cleared"`
	Missing      []missingReport  `json:"missing"`
	Flights      []string         `json:"flights"` // what is missing for the drone's flights beside releases
	Deliverables []deliveryReport `json:"deliverables"`
}

type missingReport struct {
	Kind    string             `json:"kind"`
	About   string             `json:"about"`
	Person  plan.ID            `json:"person,omitempty"` // of a model's or a minor's
	Release plan.ID            `json:"release,omitempty"`
	Status  plan.ReleaseStatus `json:"status"`
	Reason  string             `json:"reason,omitempty"` // why one that is signed does not count
	Scenes  []plan.ID          `json:"scenes"`           // that wait for it, and fall away without it
	Losses  []lostReport       `json:"losses"`
}

type lostReport struct {
	Deliverable string `json:"deliverable"`
	Seconds     int    `json:"seconds"` // on screen, of the scenes that fall away
	Left        int    `json:"left"`    // of the others
}

type deliveryReport struct {
	Name       string    `json:"name"`
	Cleared    bool      `json:"cleared"`
	Signatures int       `json:"signatures"` // that it waits for
	Waiting    []plan.ID `json:"waiting"`    // the scenes that are not cleared
}

// Run is kong's.
func (c releasesCommand) Run(w world) error {
	switch {
	case c.Reminders && (c.Out != "" || !c.Sent):
		return c.remind(w)
	case c.Out != "":
		return errors.New("--out goes with --reminders")
	case c.Sent:
		return errors.New("--sent goes with --reminders and --out DIR")
	}
	p, _, err := store.Read(c.Plan)
	if err != nil {
		return err
	}
	date := p.Shooting.LastDate()
	if c.Date != "" {
		if date, err = plan.ParseDate(c.Date); err != nil {
			return err
		}
	}
	doubts, err := people.Evidence(w.ctx, filepath.Dir(c.Plan), &p, date)
	if err != nil {
		return err
	}
	cleared, flights := people.Cleared(&p, date, doubts), people.FlightPapers(&p, date)
	if c.JSON {
		err = printJSON(w, newReleasesReport(&p, date, cleared, flights))
	} else {
		printReleases(w, &p, date, cleared, flights)
	}
	if err == nil && (!cleared.Clear() || len(flights) > 0) {
		return errProblems
	}
	return err
}

func newReleasesReport(p *plan.Plan, date plan.Date, c people.Clearance, flights plan.Problems) releasesReport {
	r := releasesReport{Date: date.String(), Cleared: c.Clear() && len(flights) == 0, Missing: []missingReport{}, Flights: []string{},
		Deliverables: []deliveryReport{}}
	for _, f := range flights {
		r.Flights = append(r.Flights, f.String())
	}
	for _, o := range c.Open() {
		m := missingReport{Kind: kindWords(o.Kind), About: o.About(p).String(), Person: o.Person, Release: cmp.Or(o.Release, o.By),
			Status: o.Status, Scenes: o.Scenes, Losses: []lostReport{}}
		if o.Doubt != nil {
			m.Reason = o.Doubt.String()
		}
		for _, l := range c.Cut(p, o.Column).Losses {
			m.Losses = append(m.Losses, lostReport{p.Brief.Deliverables[l.Deliverable].Name, l.Lost, l.Left})
		}
		r.Missing = append(r.Missing, m)
	}
	for _, d := range c.Deliverables {
		waiting := append([]plan.ID{}, d.Waiting...)
		r.Deliverables = append(r.Deliverables, deliveryReport{p.Brief.Deliverables[d.Deliverable].Name, d.Clear(), d.Signatures, waiting})
	}
	return r
}

func kindWords(k plan.ReleaseKind) string { return string(cmp.Or(k, "unspecified")) }

func printReleases(w world, p *plan.Plan, date plan.Date, c people.Clearance, flights plan.Problems) {
	open := c.Open()
	state := "everything that the film needs is signed"
	if len(open) > 0 {
		state = counted(len(open), "signature is", "signatures are") + " missing"
	}
	paragraph(w.out, "", cmp.Or(p.Title, "Untitled plan")+": "+state+", "+judged(p, date)+".")
	if len(open) > 0 {
		fmt.Fprintln(w.out)
	}
	told := map[string]bool{}
	for _, o := range open {
		mark := fmt.Sprintf("  %s %s %s ", cell(kindWords(o.Kind), 11), cell(o.About(p).String(), 34), cell(string(o.Status), 8))
		paragraph(w.out, mark, sceneWords(p, o.Scenes))
		if o.Doubt != nil {
			paragraph(w.out, "    ! ", o.Doubt.String())
			told[o.Doubt.String()] = true
		}
		if o.Status == plan.Declined {
			paragraph(w.out, "    ! ", cutWords(p, c.Cut(p, o.Column)))
		}
	}
	for _, f := range flights {
		if !told[f.String()] { // where the drone's own release is signed, it says so already
			paragraph(w.out, "  ! ", f.String())
		}
	}
	if len(c.Deliverables) > 0 {
		fmt.Fprintln(w.out)
	}
	for _, d := range c.Deliverables {
		words := "cleared"
		if !d.Clear() {
			words = "waits for " + counted(d.Signatures, "signature", "signatures") + ", in " + sceneWords(p, d.Waiting)
		}
		paragraph(w.out, "  "+cell(deliverableName(p, d.Deliverable), 24)+" ", words)
	}
}

// judged says by which date it is told what has lapsed and who is a minor.
func judged(p *plan.Plan, date plan.Date) string {
	switch s := p.Shooting; {
	case date.IsZero():
		return "whatever the date"
	case date != s.Date && date == s.LastDate():
		return "judged by " + date.Long() + ", the last date that it may be shot on"
	}
	return "judged by " + date.Long()
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func deliverableName(p *plan.Plan, i int) string {
	return cmp.Or(p.Brief.Deliverables[i].Name, fmt.Sprintf("deliverable %d", i+1))
}

func sceneWords(p *plan.Plan, ids []plan.ID) string {
	var names []string
	for _, id := range ids {
		s, _ := p.Scene(id)
		names = append(names, s.Name())
	}
	if len(names) == 1 {
		return "scene " + names[0]
	}
	return "scenes " + strings.Join(names, ", ")
}

// cutWords says what falls away with a permission that was declined.
func cutWords(p *plan.Plan, cut people.Cut) string {
	out := "if it stays so, " + sceneWords(p, cut.Scenes) + " can't be shown"
	for _, l := range cut.Losses {
		if runs := p.Brief.Deliverables[l.Deliverable].Seconds; runs > 0 {
			out += fmt.Sprintf("; %s loses %d s, which leaves %d s for its %d s", deliverableName(p, l.Deliverable), l.Lost, l.Left, runs)
		}
	}
	return out
}
