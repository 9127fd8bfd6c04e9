package papers

import (
	"cmp"
	"fmt"
	"net/mail"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
	"eavelight/plan/say"
)

// Draft is all that one person is to be written, in one letter. Nothing here sends it.
type Draft struct {
	To           plan.ID
	Name         string
	Email, Phone string
	Reminders    []people.Reminder // by the day they are due
	Subject      string
	Text         string // its lines ended by LF
	HTML         string // the same, for a mail program that shows more
	Stop         error  // why it can't be a mail, and is to be copied; nil: it can

	file     string    // the start of its file's name
	shoot    []day.Day // the days of the shoot
	releases []toSign  // that go with it
	sheets   []toCall  // the call sheets that go with it
	early    bool      // their times may still move
	calendar bool      // theirs goes with it
}

// toSign is a release to be signed for a shooting day.
type toSign struct {
	plan.Release
	on plan.Date
}

// toCall is a person's call sheet of a shooting day.
type toCall struct {
	day.Day
	who plan.ID
}

// Due is the day that the first of it is due.
func (d Draft) Due() plan.Date { return d.Reminders[0].Due }

// Late reports whether anything of it is late.
func (d Draft) Late() bool {
	return slices.ContainsFunc(d.Reminders, func(r people.Reminder) bool { return r.Late })
}

// Reminders lists what must be sent and asked for the days of a shoot.
func Reminders(p *plan.Plan, days []day.Day, today plan.Date) []people.Reminder {
	return people.Reminders(p, calls(days), today)
}

func calls(days []day.Day) people.Calls {
	c := people.Calls{Dates: dates(days)}
	for _, d := range days {
		for _, called := range d.People {
			if c.People == nil {
				c.People = map[plan.ID][]plan.Date{}
			}
			c.People[called.Person] = append(c.People[called.Person], d.Date)
		}
	}
	return c
}

func dates(days []day.Day) []plan.Date {
	var out []plan.Date
	for _, d := range days {
		if !d.Date.IsZero() {
			out = append(out, d.Date)
		}
	}
	return out
}

// Drafts writes a letter to everybody who is to be reminded of anything, those first for whom something is due first. A call
// sheet is in it from the evening before.
func Drafts(p *plan.Plan, days []day.Day, today plan.Date) []Draft {
	return write(p, days, today, "mail-", func(r people.Reminder) bool { return r.Task != people.SendSheet || !today.Before(r.Due) })
}

// SheetDrafts writes a letter with their call sheet to everybody who is called on a day that is not over, at any time: a minor's goes to
// the guardian.
func SheetDrafts(p *plan.Plan, days []day.Day, today plan.Date) []Draft {
	placed := func(r people.Reminder) bool {
		return slices.ContainsFunc(days, func(on day.Day) bool { return on.Date == r.On && !on.Call.IsZero() })
	}
	return write(p, days, today, "mail-call-sheet-", func(r people.Reminder) bool { return r.Task == people.SendSheet && placed(r) })
}

// write puts the reminders that are about something into a letter to each who is to be written to. The maker writes none to themselves.
func write(p *plan.Plan, days []day.Day, today plan.Date, file string, about func(people.Reminder) bool) []Draft {
	maker, _ := people.Maker(p)
	var out []Draft
	for _, r := range Reminders(p, days, today) {
		if r.To == "" || r.To == maker.ID || !about(r) {
			continue
		}
		i := slices.IndexFunc(out, func(d Draft) bool { return d.To == r.To })
		if i < 0 {
			who, _ := p.Person(r.To)
			i, out = len(out), append(out, Draft{To: r.To, Name: oneLine(who.Called()), Email: who.Email, Phone: who.Phone, file: file})
		}
		out[i].Reminders = append(out[i].Reminders, r)
	}
	for i := range out {
		out[i].attach(p, days, today)
		out[i].calendar = out[i].called(days)
	}
	out = slices.DeleteFunc(out, Draft.idle)
	for i := range out {
		d := &out[i]
		w := newLetter(p, days, today, *d, maker)
		d.Subject = w.subject()
		pieces := w.pieces()
		d.Text, d.HTML = letterText(pieces), letterHTML(d.Subject, pieces)
		if address, err := mailAddress(d.Email); err != nil {
			d.Stop = err
		} else {
			d.Email = address
		}
	}
	return out
}

// comes reports whether a reminder is about somebody who comes.
func comes(r people.Reminder) bool { return r.Task == people.Confirm || r.Task == people.SendSheet }

// attach finds the papers that go with a draft.
func (d *Draft) attach(p *plan.Plan, days []day.Day, today plan.Date) {
	d.shoot = days
	for _, r := range d.Reminders {
		switch {
		case r.Task == people.SendSheet:
			for _, on := range days {
				if on.Date == r.On {
					d.sheets = append(d.sheets, toCall{on, r.About})
					d.early = d.early || today.Before(r.Due)
				}
			}
		case r.Task == people.Confirm, len(r.Open) > 0:
		case r.Release == "":
			d.releases = append(d.releases, toSign{plan.Release{ID: plan.ID(r.Kind) + "-" + r.About, Kind: r.Kind, Party: r.About}, r.On})
		default:
			for _, w := range p.Releases {
				if w.ID == r.Release {
					w.Status, w.Signature, w.Scan, w.SignedBy, w.Relation = plan.Needed, nil, nil, "", "" // to be signed anew
					d.releases = append(d.releases, toSign{w, r.On})
				}
			}
		}
	}
}

// called reports whether there are times, of the reader or of a minor, that a calendar can take.
func (d Draft) called(days []day.Day) bool {
	return slices.ContainsFunc(d.Reminders, func(r people.Reminder) bool {
		return comes(r) && slices.ContainsFunc(days, func(on day.Day) bool {
			_, called := on.Presence(r.About)
			return called && !on.Call.IsZero()
		})
	})
}

// idle reports whether there is nothing in a draft yet that its reader could do: its papers are not ready.
func (d Draft) idle() bool {
	return len(d.releases) == 0 && len(d.sheets) == 0 && !slices.ContainsFunc(d.Reminders, comes)
}

// Attached names the papers that go with a draft.
func (d Draft) Attached() []string {
	var out []string
	for _, r := range d.releases {
		out = append(out, releaseFile(r.Release))
	}
	for _, c := range d.sheets {
		out = append(out, personSheetFile(c))
	}
	if d.calendar {
		out = append(out, calendarFile(d.To))
	}
	return out
}

func (d Draft) fileName() string { return d.file + fileName(string(d.To)) + ".eml" }

// words are what can be read of a mail.
func (d Draft) words() say.Text {
	return say.Join("\n", say.That("mail|To: %s", d.Name+", "+d.Email), say.That("mail|Subject: %s", d.Subject),
		say.That("mail|Goes with it: %s", strings.Join(d.Attached(), ", ")), say.Plain("\n"+d.Text))
}

// Mail is a draft as a file that mail programs open for editing: RFC 5322 and MIME, marked as not sent, with its papers. It is
// from the maker where the plan has their address. The same plan and clock give the same octets.
func (d Draft) Mail(p *plan.Plan, calendars Calendars, made time.Time) ([]byte, error) {
	return d.mail(p, calendars, newPress(p.Papers.Size.Or(), made))
}

func (d Draft) mail(p *plan.Plan, calendars Calendars, from *press) ([]byte, error) {
	if d.Stop != nil {
		return nil, say.Error("%s: %v", d.Name, d.Stop)
	}
	m := message{Date: from.made.In(zoneOf(p)), To: mail.Address{Name: d.Name, Address: d.Email}, Subject: d.Subject, Text: d.Text, HTML: d.HTML}
	if maker, ok := people.Maker(p); ok {
		if address, err := mailAddress(maker.Email); err == nil {
			m.From = mail.Address{Name: maker.Name, Address: address}
		}
	}
	add := func(name string, pdf []byte, err error) error {
		m.Files = append(m.Files, attachment{Name: name, Type: "application/pdf", Content: pdf})
		return err
	}
	for _, r := range d.releases {
		pdf, err := from.print(Release(p, r.Release, r.on))
		if err = add(releaseFile(r.Release), pdf, err); err != nil {
			return nil, err
		}
	}
	for _, c := range d.sheets {
		pdf, err := from.take(c.key(), func() Sheet { return PersonSheet(p, c.Day, c.who, d.shoot...) })
		if err = add(personSheetFile(c), pdf, err); err != nil {
			return nil, err
		}
	}
	if f, ok := calendars.of(d.To); ok && d.calendar {
		m.Files = append(m.Files, f.attached())
	}
	return m.bytes(), nil
}

func zoneOf(p *plan.Plan) *time.Location {
	if zone, err := time.LoadLocation(p.Property.Zone); err == nil {
		return zone
	}
	return time.UTC
}

// WriteDrafts writes the drafts that can be mails into a folder, which it makes where there is none; all of them or none, and as Write
// does in all else. The days are those that the drafts are of.
func WriteDrafts(dir string, p *plan.Plan, days []day.Day, drafts []Draft, made time.Time, overwrite bool) (Written, error) {
	var paths []string
	var files []file
	calendars := NewCalendars(p, days, made)
	for _, d := range drafts {
		if d.Stop != nil {
			continue
		}
		content, err := d.Mail(p, calendars, made)
		if err != nil {
			return Written{}, err
		}
		path := besides(paths, filepath.Join(dir, d.fileName()))
		paths, files = append(paths, path), append(files, holding(path, content))
	}
	if len(paths) == 0 {
		return Written{}, nil
	}
	if err := writeAll(dir, files, overwrite); err != nil {
		return Written{}, err
	}
	return Written{Paths: paths, Papers: len(paths), Calendar: calendars.Sent, Sheets: SentSheets(p, attachedDays(drafts, days)), Remember: true}, nil
}

// attachedDays are the days whose call sheets go with drafts.
func attachedDays(drafts []Draft, days []day.Day) []day.Day {
	return slices.DeleteFunc(slices.Clone(days), func(on day.Day) bool {
		return !slices.ContainsFunc(drafts, func(d Draft) bool {
			return d.Stop == nil && slices.ContainsFunc(d.sheets, func(o toCall) bool { return o.Date == on.Date })
		})
	})
}

// besides is a path that none of the others is, for ids that differ only in signs that no file name has.
func besides(others []string, path string) string {
	if !slices.ContainsFunc(others, func(other string) bool { return strings.EqualFold(other, path) }) {
		return path
	}
	ext := filepath.Ext(path)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(path, ext), len(others)+1, ext)
}

func releaseFile(r plan.Release) string { return "release-" + fileName(string(r.ID)) + ".pdf" }

// key tells call sheets apart where their files' names, which are cut and mended, may not.
func (c toCall) key() string { return c.Date.String() + " " + string(c.who) }

func personSheetFile(c toCall) string {
	return strings.TrimSuffix(sheetFile(c.Day), ".pdf") + "-" + fileName(string(c.who)) + ".pdf"
}

func sheetFile(d day.Day) string {
	return "call-sheet-" + cmp.Or(d.Date.String(), "no-date") + ".pdf"
}
