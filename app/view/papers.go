package view

import (
	"cmp"
	"context"
	"image"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/papers"
)

// hasDay reports whether there is a day to show; while another one is computed, it is the one from before.
func hasDay(st session.State) bool { return st.Results.Placed && st.Results.Chosen.Sky != nil }

// Shelf is the papers of a plan, as they are offered.
type Shelf struct {
	Kinds   []ShelfKind
	Missing []string // what should be there before they are sent
	set     papers.Set
	made    time.Time
	size    plan.PaperSize
}

// ShelfKind is the papers of a kind.
type ShelfKind struct {
	Kind, Title string
	Papers      []ShelfPaper
}

// ShelfPaper is one file. Its label is short, to stand among others of its kind.
type ShelfPaper struct{ Name, About, Label string }

// shelfLabel tells a paper from others of its kind: by whose it is, and by the day where there are several.
func shelfLabel(p *plan.Plan, paper papers.Paper, several bool) string {
	own := slices.Contains([]papers.Kind{papers.KindCallSheets, papers.KindCalendars, papers.KindMails, papers.KindMessages}, paper.Kind)
	label := tongue.Say("for all")
	switch {
	case !own:
		return upper(tongue.Of(paper.About))
	case paper.For != "":
		who, _ := p.Person(paper.For)
		label = cmp.Or(who.Called(), string(paper.For))
	}
	if several && !paper.On.IsZero() {
		label += ", " + shortDate(paper.On)
	}
	return upper(label)
}

// ShelfOf lists the papers of a state. It reads every sheet, which takes some milliseconds: it is not for the UI goroutine.
func ShelfOf(st session.State, made time.Time) Shelf {
	s := Shelf{made: made, size: st.Plan.Papers.Size.Or(), Missing: unready(st)}
	job := papers.Job{Plan: &st.Plan, Doubts: Doubts(st), Made: made}
	if hasDay(st) {
		job.Days = st.Results.Shoot.Days
	} else {
		s.Missing = append([]string{tongue.Say("There are no call sheets yet.") + " " + NoDay(st)}, s.Missing...)
	}
	s.set = papers.NewSet(job)
	for _, kind := range papers.Kinds {
		k := ShelfKind{Kind: string(kind), Title: tongue.Of(kind.Title())}
		for _, p := range s.set.Papers {
			if p.Kind == kind {
				k.Papers = append(k.Papers, ShelfPaper{p.Name, upper(tongue.Of(p.About)), shelfLabel(&st.Plan, p, len(job.Days) > 1)})
			}
		}
		if len(k.Papers) > 0 {
			s.Kinds = append(s.Kinds, k)
		}
	}
	if lost := s.lost(); lost != "" {
		s.Missing = append(s.Missing, lost)
	}
	return s
}

// lost tells what the type of the papers lacks, over all of them.
func (s Shelf) lost() string {
	var all []rune
	for _, p := range s.set.Papers {
		if sheet, ok := p.Sheet(); ok {
			for _, r := range sheet.Unprintable() {
				if !slices.Contains(all, r) {
					all = append(all, r)
				}
			}
		}
	}
	return boxes(all)
}

// Looked is a paper as it is looked at: a page as a picture, or words where it has no pages.
type Looked struct {
	Name        string
	Page, Pages int // counted from 1
	Shape       float64
	Picture     *image.RGBA
	Words       string
}

// mostRead is how much of a file is shown: a label measures every line of it.
const mostRead = 6000

// Look draws a page of a paper so many pixels wide; a page that is not there is the nearest. It is not for the UI goroutine.
func (s Shelf) Look(name string, page, width int) Looked {
	for _, p := range s.set.Papers {
		if p.Name != name {
			continue
		}
		if picture, err := p.Picture(width); err == nil && picture != nil {
			return Looked{Name: name, Shape: float64(picture.Rect.Dx()) / float64(picture.Rect.Dy()), Picture: picture}
		}
		sheet, ok := p.Sheet()
		if !ok {
			return Looked{Name: name, Words: cmp.Or(clipped(tongue.Of(p.Words()), mostRead), tongue.Say("There is nothing of it to be read here."))}
		}
		pages := sheet.Pages(s.size, s.made)
		page = min(max(page, 1), pages.Len())
		return Looked{Name: name, Page: page, Pages: pages.Len(), Shape: pages.Shape(), Picture: pages.Picture(page-1, width)}
	}
	return Looked{Name: name}
}

// Write writes the papers of some kinds into a folder, or into an archive where the path ends in .zip.
func (s Shelf) Write(ctx context.Context, path string, kinds []string, how papers.Writing) (papers.Written, error) {
	var only []papers.Kind
	for _, k := range kinds {
		only = append(only, papers.Kind(k))
	}
	return s.set.Only(only...).WriteTo(ctx, path, how)
}

// Count is how many papers there are of some kinds.
func (s Shelf) Count(kinds []string) int {
	n := 0
	for _, k := range s.Kinds {
		if slices.Contains(kinds, k.Kind) {
			n += len(k.Papers)
		}
	}
	return n
}

// PapersTold says what was written, and what has to be done with it that nobody would guess.
func PapersTold(wrote papers.Written) string {
	if len(wrote.Paths) == 0 {
		return ""
	}
	into := filepath.Dir(wrote.Paths[0])
	if len(wrote.Paths) == 1 && strings.EqualFold(filepath.Ext(wrote.Paths[0]), ".zip") {
		into = wrote.Paths[0]
	}
	out := tongue.Count(wrote.Papers, "Written: %d paper into %s.", "Written: %d papers into %s.", into)
	if wrote.Remember {
		out += " " + tongue.Say("When you have sent them, say so: then the next call sheets mark what has changed, and the next calendars move these days instead of doubling them.")
	}
	if len(wrote.Off) > 0 {
		var names []string
		for _, path := range wrote.Off {
			names = append(names, filepath.Base(path))
		}
		if more := len(names) - mostNamed; more > 0 {
			names = append(names[:mostNamed], tongue.Count(more, "%d more", "%d more"))
		}
		send := tongue.Say("Send %s too: they take out of a calendar what no longer holds.", tongue.List(names))
		if len(wrote.Off) == 1 {
			send = tongue.Say("Send %s too: it takes out of a calendar what no longer holds.", names[0])
		}
		out += " " + send
	}
	return out
}

// DateExample is a date as the papers write it in a language.
func DateExample(l plan.DateWords) string { return papers.DateExample(l) }

// Unsigned names every release that the film still needs signed, or signed anew.
func Unsigned(st session.State) []string {
	var out []string
	for _, u := range day.Unsigned(&st.Plan, st.Results.Chosen.Date, Doubts(st)) {
		out = append(out, tongue.Of(u))
	}
	return out
}

// unready lists what is missing before the papers should be sent.
func unready(st session.State) []string {
	var out []string
	for _, l := range st.Results.Lacks.Under("papers") {
		out = append(out, sentence(tongue.Of(l)))
	}
	for _, u := range Unsigned(st) {
		out = append(out, sentence(u))
	}
	return out
}
