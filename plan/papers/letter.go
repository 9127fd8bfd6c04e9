package papers

import (
	"fmt"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

// letter words a draft. Of anybody but the reader and the minors they answer for, it tells nothing but the maker's name and phone;
// of the reader, no fee, no date of birth, no health note, for mails are passed on.
type letter struct {
	*plan.Plan
	style
	draft  Draft
	days   []day.Day
	maker  plan.Person
	today  plan.Date
	coming []plan.Person // of the reader and their minors, those who are called
	over   bool          // the shoot is
}

// piece is what a letter says in one go, in the order of its fields. Both its forms, the text and the HTML, are printed from it, so that
// they can't say two things.
type piece struct {
	head  string
	facts []fact
	list  []string // one point each
	lines []string
}

// fact is a name and what it stands for; where a phone can do something with it, it has a link.
type fact struct {
	name, text string
	link       string // a tel: or geo: URI, or empty
	large      bool   // what everybody looks for
}

func newLetter(p *plan.Plan, days []day.Day, today plan.Date, d Draft, maker plan.Person) letter {
	w := letter{Plan: p, style: styleOf(p), draft: d, days: days, maker: maker, today: today}
	for _, who := range p.People {
		if slices.ContainsFunc(d.Reminders, func(r people.Reminder) bool { return comes(r) && r.About == who.ID }) {
			w.coming = append(w.coming, who)
		}
	}
	if on := dates(days); len(on) > 0 {
		w.over = on[len(on)-1].Before(today)
	}
	return w
}

func (w letter) subject() string {
	out := filmTitle(w.Plan)
	if on := dates(w.days); len(on) > 0 {
		out += ", " + w.long(on[0])
	}
	switch {
	case len(w.draft.releases) > 0:
		return out + ": please sign"
	case len(w.draft.sheets) > 0:
		return out + ": call sheet"
	}
	return out + ": please confirm"
}

// pieces are the letter, in reading order.
func (w letter) pieces() []piece {
	all := append([]piece{{lines: []string{"Hello " + w.draft.Name + ","}}, w.opening(), w.calls(), w.place(), w.signing(),
		{head: "Please tell us", list: w.asking()}, w.wearing(), {head: "Good to know", list: w.cautions()}}, w.answer()...)
	return slices.DeleteFunc(all, func(p piece) bool { return len(p.facts)+len(p.list)+len(p.lines) == 0 })
}

// letterText is a letter in plain text: a paragraph on a line, so that a phone wraps it as it likes.
func letterText(pieces []piece) string {
	var out []string
	for _, p := range pieces {
		out = append(out, p.text())
	}
	return spaces.Replace(strings.Join(out, "\n\n")) + "\n"
}

func (p piece) text() string {
	var out []string
	if p.head != "" {
		out = append(out, p.head)
	}
	for _, f := range p.facts {
		out = append(out, f.name+": "+strings.ReplaceAll(f.text, "\n", "\n  "))
	}
	for _, item := range p.list {
		out = append(out, "- "+item)
	}
	return strings.Join(append(out, p.lines...), "\n")
}

// opening says what it is about, where and when.
func (w letter) opening() piece {
	film := "our film"
	if title := oneLine(w.Title); title != "" {
		film = "“" + title + "”"
	}
	var on []string
	for _, d := range dates(w.days) {
		on = append(on, w.long(d))
	}
	if at := w.where(); at != "" {
		film += " at " + at
		if strings.Contains(at, ",") && len(on) > 0 {
			film += ","
		}
	}
	if len(on) > 0 {
		film += " on " + joined(on, "and")
	}
	if w.over {
		return piece{lines: []string{"We filmed " + film + ". One thing is still missing before anybody may see it, and it is in your hands."}}
	}
	out := "We film " + film + ", and " + w.part()
	if !dateIsFinal(w.Plan, len(dates(w.days))) {
		out += " The date is not final yet; you hear from us as soon as it is."
	}
	return piece{lines: []string{out}}
}

// part is what the reader has to do with the film.
func (w letter) part() string {
	switch names := w.party("and"); {
	case len(w.coming) == 0:
		return "there is something in it that only you can allow."
	case len(w.coming) == 1 && !w.comes(w.draft.To):
		return "we are glad that " + names + " is part of it."
	default:
		return "we are glad that " + names + " are part of it."
	}
}

func (w letter) where() string {
	way := len(w.coming) > 0 && len(w.draft.sheets) == 0 // who does not come needs none, and place tells it
	if name := oneLine(w.Property.Name); !way && name != "" {
		return name
	}
	return fullAddress(w.Plan)
}

func (w letter) comes(id plan.ID) bool {
	return slices.ContainsFunc(w.coming, func(q plan.Person) bool { return q.ID == id })
}

// party names those who come: "you, Ivy and Jon".
func (w letter) party(and string) string {
	var out []string
	for _, who := range w.coming {
		if who.ID == w.draft.To {
			out = slices.Insert(out, 0, "you")
		} else {
			out = append(out, oneLine(who.Called()))
		}
	}
	return joined(out, and)
}

// joined joins words for a sentence: "Ivy, Jon and Mia".
func joined(words []string, and string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " " + and + " " + words[n-1]
	}
	return strings.Join(words, "")
}

// calls are the times, where the days are placed.
func (w letter) calls() piece {
	var out piece
	for _, d := range w.days {
		at := wall{w.style, d.Date, d.Zone}
		if at.zone == nil {
			at.zone = zoneOf(w.Plan)
		}
		for _, who := range w.coming {
			called, ok := d.Presence(who.ID)
			if !ok || d.Date.Before(w.today) {
				continue
			}
			whose := "Your call"
			if who.ID != w.draft.To {
				whose = "The call of " + oneLine(who.Called())
			}
			times := fmt.Sprintf("%s, until about %s", at.clock(called.Call), at.clock(called.Release))
			out.facts = append(out.facts, fact{name: whose + " on " + at.long(d.Date), text: times, large: true})
		}
	}
	switch {
	case len(out.facts) == 0:
		return out
	case w.draft.early:
		out.lines = append(out.lines, "The call sheet as it stands comes with this. If the times still move, you get a new one.")
	case len(w.draft.sheets) > 0:
		out.lines = append(out.lines, "The call sheet comes with this; its times hold.")
	default:
		out.lines = append(out.lines, "The times may still move a little; the call sheet, which comes the evening before, has those that hold.")
	}
	if w.draft.calendar {
		out.lines = append(out.lines, "A calendar file comes with this: open it, and the day is in your calendar. A later one moves it.")
	}
	return out
}

// place says how to get there, to those who get their call sheet: it has the same, but a phone can open this.
func (w letter) place() piece {
	out := piece{head: "Where"}
	if len(w.draft.sheets) == 0 {
		return out
	}
	add := func(name, text, link string) {
		if text = manyLines(text); text != "" {
			out.facts = append(out.facts, fact{name: name, text: text, link: link})
		}
	}
	position, geo := "", ""
	if at := w.Property.Position; at != nil && at.Valid() {
		position, geo = at.String(), at.GeoURI()
	}
	add("Address", fullAddress(w.Plan), geo)
	add("Position", position, geo)
	add("Getting there", w.Papers.Access, "")
	add("Parking", w.Papers.Parking, "")
	add("Nearest hospital", w.Papers.Hospital, "")
	return out
}

// signing names the papers, and how they come back.
func (w letter) signing() piece {
	out := piece{head: "To sign"}
	var by plan.Date
	attached := false
	for _, r := range w.draft.Reminders {
		if comes(r) {
			continue
		}
		out.list = append(out.list, w.paper(r))
		if len(r.Open) > 0 {
			continue
		}
		attached = true
		if day := r.On.AddDays(-3); !r.On.IsZero() && (by.IsZero() || day.Before(by)) {
			by = day
		}
	}
	if !attached {
		return out
	}
	when := "as soon as you can"
	if w.today.Before(by) {
		when = "by " + w.long(by)
	}
	text := "Please read it in peace, ask whatever is not clear, and sign only if you agree. Send it back as a scan or a photo, " + when + "."
	if len(w.coming) > 0 {
		text += " If that is not easy, sign it with us when you arrive, before the first scene."
	}
	out.lines = []string{text}
	return out
}

// paper names one release, in the reader's eyes.
func (w letter) paper(r people.Reminder) string {
	kind, about := people.KindWords(r.Kind).String(), ""
	written := plan.Release{}
	for _, x := range w.Releases {
		if x.ID == r.Release {
			written = x
		}
	}
	who, _ := w.Person(r.About)
	switch {
	case r.Kind.Own() && r.About == w.draft.To:
		about = "Your " + kind
	case r.Kind.Own():
		about = "The " + kind + " for " + oneLine(who.Called()) + ", which you sign as the guardian"
	default:
		about = "The " + kind
		if subject := oneLine(written.Subject); subject != "" {
			about += ": " + subject
		}
	}
	switch {
	case len(r.Open) > 0:
		return about + ". It is not ready yet, and comes in a mail of its own."
	case r.Changed:
		return about + ". Its text has changed since it was signed, so we ask you for it once more; it comes with this."
	case r.Status == plan.Lapsed:
		return about + ". The one that we have no longer holds; the new one comes with this."
	case r.Status == plan.Sent && !written.Changed.IsZero():
		return about + ". You have had it since " + w.long(written.Changed) + "; here it is once more."
	case r.Status == plan.Sent:
		return about + ". You have had it before; here it is once more."
	}
	return about + ". It comes with this."
}

// asking is what those who come are asked; whatever the plan knows of it already is not quoted.
func (w letter) asking() []string {
	if !slices.ContainsFunc(w.draft.Reminders, func(r people.Reminder) bool { return r.Task == people.Confirm }) {
		return nil
	}
	out := []string{"whether the day and the times suit you, and if only a part of them does, which part"}
	for _, who := range w.coming {
		if who.Role.Or() != plan.Talent {
			continue
		}
		whose := "your sizes"
		if who.ID != w.draft.To {
			whose = "the sizes of " + oneLine(who.Called())
		}
		if strings.TrimSpace(who.Sizes) == "" {
			out = append(out, whose+": clothes and shoes")
		} else {
			out = append(out, "whether "+whose+" have changed since you gave them to us")
		}
	}
	return append(out, "what "+w.party("or")+" should not eat or be near, so that the food is right; we tell nobody but the cook")
}

// wearing are the looks of those who come, and in which scenes.
func (w letter) wearing() piece {
	out := piece{head: "What to wear"}
	for _, who := range w.coming {
		if looks := looks(w.Scenes, who.ID); len(looks) > 0 {
			line := strings.Join(looks, "; ")
			if who.ID != w.draft.To {
				line = oneLine(who.Called()) + ": " + line
			}
			out.list = append(out.list, line)
		}
	}
	switch {
	case len(out.list) > 0:
		out.lines = []string{"Please bring what of it is yours, and tell us what you don't have."}
	case slices.ContainsFunc(w.coming, func(q plan.Person) bool { return q.Role.Or() == plan.Talent }):
		out.lines = []string{"What you like and can move in, plain, without brand names or large letters; a second set to choose from is good to have."}
	}
	return out
}

// looks are what somebody wears in some scenes, each with its own.
func looks(in []plan.Scene, id plan.ID) []string {
	var names []string
	scenes := map[string][]string{}
	for _, s := range in {
		for _, l := range s.Looks {
			if name := oneLine(l.Look); l.Person == id && name != "" && slices.Contains(s.People, id) {
				if scenes[name] == nil {
					names = append(names, name)
				}
				scenes[name] = append(scenes[name], oneLine(s.Name()))
			}
		}
	}
	for i, name := range names {
		word := "scene"
		if len(scenes[name]) > 1 {
			word = "scenes"
		}
		names[i] = fmt.Sprintf("%s (%s %s)", name, word, joined(scenes[name], "and"))
	}
	return names
}

// cautions are what the reader has to know besides.
func (w letter) cautions() []string {
	var out []string
	var stay, reach []string // the minors by where their guardian is meanwhile
	for _, who := range w.coming {
		switch name := oneLine(who.Called()); {
		case who.ID == w.draft.To:
		case who.GuardianThere == plan.Reachable:
			reach = append(reach, name)
		default:
			stay = append(stay, name)
		}
	}
	are := func(names []string) string {
		if len(names) == 1 {
			return names[0] + " is"
		}
		return joined(names, "and") + " are"
	}
	if len(stay) > 0 {
		out = append(out, "Please stay at the house while "+are(stay)+" with us. You may all stop whenever you want.")
	}
	if len(reach) > 0 {
		out = append(out, "Please keep your phone at hand the whole time that "+are(reach)+" with us.")
	}
	if len(stay)+len(reach) > 0 {
		out = append(out, "How long minors may work, and with whose permission, the law of the place decides; tell us if a school or an office has to agree.")
	}
	if slices.ContainsFunc(w.draft.Reminders, func(r people.Reminder) bool { return r.Kind == plan.DroneRelease }) {
		out = append(out, "Flights: please bring your certificate, and look at the notices for the area before each. "+people.DroneCaution)
	}
	return out
}

// answer says how to answer, and to whom.
func (w letter) answer() []piece {
	how := piece{lines: []string{"A short answer to this is enough."}}
	if phone := oneLine(w.maker.Phone); phone != "" {
		how = piece{facts: []fact{{name: "A short answer to this is enough, or a call", text: phone, link: telURI(phone)}}}
	}
	thanks := piece{lines: []string{"Thank you, and all the best"}}
	if name := oneLine(w.Papers.Producer); name != "" {
		thanks.lines = append(thanks.lines, name)
	}
	return []piece{how, thanks}
}
