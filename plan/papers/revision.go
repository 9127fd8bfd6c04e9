package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// sheetPart names a row of a sheet, so that it is known again when the sheet is written anew.
type sheetPart struct {
	key  string // "scene s3"
	name string // what its readers call it; empty: what its first cells say
	at   plan.Span
}

// SentSheets is what the call sheets of the days of a shoot say, for the plan to remember once they are sent. Days that the
// shoot has no more are forgotten, those that are not among these are kept.
func SentSheets(p *plan.Plan, days []day.Day) []plan.SentSheet {
	var out []plan.SentSheet
	of := 0
	for _, d := range days {
		of = max(of, d.Of, d.Number, 1)
		if !d.Call.IsZero() {
			out = append(out, revision(p, d))
		}
	}
	for _, s := range p.Papers.Sheets {
		if (s.Day <= of || len(days) == 0) && !slices.ContainsFunc(out, func(o plan.SentSheet) bool { return o.Day == s.Day }) {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, func(a, b plan.SentSheet) int { return cmp.Compare(a.Day, b.Day) })
	return out
}

// revision is the call sheet of a day as the plan would remember it: that which was sent last where it says the same, and
// otherwise the next, with what has become of each part of it since.
func revision(p *plan.Plan, d day.Day) plan.SentSheet {
	now := plan.SentSheet{Day: max(1, d.Number), Revision: 1, Date: d.Date, Items: itemsOf(p, d)}
	i := slices.IndexFunc(p.Papers.Sheets, func(s plan.SentSheet) bool { return s.Day == now.Day })
	if i < 0 {
		return now
	}
	last := p.Papers.Sheets[i]
	before := map[string]plan.SentItem{}
	for _, item := range last.Items {
		if item.Change != plan.ItemGone {
			before[item.Key] = item
		}
	}
	same := last.Date == now.Date && len(before) == len(now.Items)
	for _, item := range now.Items {
		same = same && before[item.Key].Digest == item.Digest
	}
	if same {
		return last
	}
	now.Revision, now.Before = last.Revision+1, last.Date
	c := newCaller(p, d)
	then := c.wall
	then.date = last.Date
	for i := range now.Items {
		item := &now.Items[i]
		old, known := before[item.Key]
		switch delete(before, item.Key); {
		case !known:
			item.Change = plan.ItemNew
		case then.clock(old.From) != c.clock(item.From) || then.clock(old.To) != c.clock(item.To):
			item.Change, item.Was = plan.ItemChanged, plan.Span{From: old.From, To: old.To}
		case old.Digest != item.Digest:
			item.Change = plan.ItemChanged
		}
	}
	for _, old := range last.Items { // in their order
		if _, gone := before[old.Key]; gone && len(now.Items) < plan.MaxItems {
			now.Items = append(now.Items, plan.SentItem{Key: old.Key, Name: old.Name, Digest: old.Digest, Change: plan.ItemGone})
		}
	}
	return now
}

// itemsOf are the parts of a day's call sheet. What they say is taken from the sheet itself, so that nothing on it can change
// without a revision; the language of its dates and its clock make no difference.
func itemsOf(p *plan.Plan, d day.Day) []plan.SentItem {
	plain := *p
	plain.Papers.Dates, plain.Papers.Clock = "", ""
	c := newCaller(&plain, d)
	s := c.callSheet()
	var out []plan.SentItem
	add := func(it sheetPart, text string) {
		name := []rune(spaces.Replace(oneLine(it.name)))
		item := plan.SentItem{Key: it.key, Name: string(name[:min(len(name), 200)]), Digest: digestOf([]string{text})}
		item.From, item.To = toMinute(it.at.From), toMinute(it.at.To)
		out = append(out, item)
	}
	add(sheetPart{key: "title", name: "Title"}, s.Title)
	add(sheetPart{key: "property", name: "Property"}, p.Property.Name)
	add(sheetPart{key: dateKey, name: "Date"}, c.long(d.Date))
	add(sheetPart{key: "days", name: "Number of days"}, fmt.Sprint(max(1, d.Of)))
	add(sheetPart{key: "zone", name: "Time zone"}, c.foot())
	for i := range s.Sections {
		s.Sections[i].parts(func(it sheetPart, text string, _ func(string)) { add(it, text) })
	}
	return out[:min(len(out), plan.MaxItems)]
}

const dateKey = "date"

func toMinute(t time.Time) time.Time {
	if t.IsZero() {
		return t
	}
	return t.Round(time.Minute).UTC()
}

// parts visits what changes by itself in a section: its facts, its rows that have a key, and the rest as one. mark marks it.
func (s *Section) parts(visit func(it sheetPart, text string, mark func(string))) {
	marker := func(name string) func(string) {
		return func(mark string) {
			if s.Marks == nil {
				s.Marks = map[string]string{}
			}
			s.Marks[name] = mark
		}
	}
	rest := slices.Concat(s.Text, s.List, s.Small)
	for _, f := range s.Strip {
		rest = append(rest, f.Name, f.Text)
	}
	for _, f := range s.Facts {
		visit(sheetPart{key: s.Heading + "/" + f.Name, name: f.Name}, f.Text, marker(f.Name))
	}
	for i := range s.Table.Rows {
		r := &s.Table.Rows[i]
		texts := []string{r.Note}
		for _, c := range r.Cells {
			texts = append(texts, c.Strong, c.Text)
		}
		if r.key == "" {
			rest = append(rest, texts...)
			continue
		}
		visit(r.sheetPart, strings.Join(texts, "\x00"), func(mark string) { r.Mark = mark })
	}
	if len(rest) > 0 {
		visit(sheetPart{key: s.Heading, name: s.Heading}, strings.Join(rest, "\x00"), marker(""))
	}
}

// mark marks what has changed on a sheet since the revision before.
func (c caller) mark(s *Sheet, sent plan.SentSheet) {
	marks := map[string]string{}
	for _, item := range sent.Items {
		if words := c.changed(item, sent.Before); words != "" && item.Change != plan.ItemGone {
			marks[item.Key] = words
		}
	}
	s.KeyMark = marks[s.key]
	for i := range s.Sections {
		s.Sections[i].parts(func(it sheetPart, _ string, mark func(string)) {
			if words := marks[it.key]; words != "" {
				mark(words)
			}
		})
	}
}

// changed says in a word or two what has become of a part, or nothing. before is the date of the revision before.
func (c caller) changed(item plan.SentItem, before plan.Date) string {
	then := c.wall
	then.date = before
	switch {
	case item.Was == plan.Span{}:
		return string(item.Change)
	case then.clock(item.Was.From) != c.clock(item.From):
		return "was\u00a0" + then.clock(item.Was.From)
	}
	return "was until\u00a0" + then.clock(item.Was.To)
}

// mostChanges is how many changes are listed. Where there are more, the sheet is read as a new one.
const mostChanges = 20

// changes lists what has changed since the revision before and concerns a reader: the day itself, then what fell away, which is marked
// nowhere else, then the rest.
func (c caller) changes(sent plan.SentSheet, concerns func(plan.SentItem) bool) Section {
	if sent.Revision < 2 {
		return Section{}
	}
	s := Section{Heading: fmt.Sprintf("Changed since revision %d", sent.Revision-1)}
	var first, gone, rest []string
	for _, item := range sent.Items {
		switch line := c.change(item, sent.Before); {
		case line == "" || !concerns(item):
		case item.Key == dateKey || item.Key == callKey:
			first = append(first, line)
		case item.Change == plan.ItemGone:
			gone = append(gone, line)
		default:
			rest = append(rest, line)
		}
	}
	s.List = slices.Concat(first, gone, rest)
	if more := len(s.List) - mostChanges; more > 0 {
		s.List = append(s.List[:mostChanges:mostChanges], fmt.Sprintf("and %d more, marked below; please read it all", more))
	}
	if len(s.List) == 0 {
		s.Text = []string{"Nothing that is on this sheet."}
	}
	return s
}

// change is one line of the changes, or empty.
func (c caller) change(item plan.SentItem, before plan.Date) string {
	words := c.changed(item, before)
	switch {
	case words == "":
		return ""
	case item.Change == plan.ItemGone:
		words = goneWords(item)
	case item.Key == dateKey && before != c.date:
		words = cmp.Or(c.long(c.date), "not set") + ", was " + cmp.Or(c.long(before), "not set")
	case strings.HasPrefix(words, "was until"):
		words = "until " + c.clock(item.To) + ", " + strings.Replace(words, " until", "", 1)
	case !item.From.IsZero():
		words = c.clock(item.From) + ", " + words
	}
	return item.Name + ": " + words
}

// goneWords says that a part of the sheet is none any more.
func goneWords(item plan.SentItem) string {
	switch {
	case strings.HasPrefix(item.Key, personKey):
		return "not called any more"
	case strings.HasPrefix(item.Key, sceneKey):
		return "not on this day any more"
	}
	return "not any more"
}
