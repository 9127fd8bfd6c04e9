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

func newLetter(p *plan.Plan, days []day.Day, today plan.Date, d Draft, maker plan.Person) letter {
	w := letter{Plan: p, style: styleOf(p), draft: d, days: days, maker: maker, today: today}
	for _, who := range p.People {
		comes := func(r people.Reminder) bool { return r.Task == people.Confirm && r.About == who.ID }
		if slices.ContainsFunc(d.Reminders, comes) {
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

// text is the letter: a paragraph on a line, so that a phone wraps it as it likes.
func (w letter) text() string {
	parts := []string{
		"Hello " + w.draft.Name + ",",
		w.opening(),
		w.calls(),
		w.signing(),
		list("Please tell us", w.asking()),
		w.wearing(),
		list("Good to know", w.cautions()),
		w.answer(),
	}
	parts = slices.DeleteFunc(parts, func(s string) bool { return s == "" })
	return strings.Join(parts, "\n\n") + "\n"
}

func list(heading string, items []string) string {
	if len(items) == 0 {
		return ""
	}
	return heading + "\n- " + strings.Join(items, "\n- ")
}

// opening says what it is about, where and when.
func (w letter) opening() string {
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
		return "We filmed " + film + ". One thing is still missing before anybody may see it, and it is in your hands."
	}
	out := "We film " + film + ", and " + w.part()
	if !dateIsFinal(w.Plan, w.days) {
		out += " The date is not final yet; you hear from us as soon as it is."
	}
	return out
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
	if name := oneLine(w.Property.Name); len(w.coming) == 0 && name != "" { // who does not come needs no way
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
func (w letter) calls() string {
	var out []string
	for _, d := range w.days {
		at := wall{w.style, d.Date, d.Zone}
		if at.zone == nil {
			at.zone = zoneOf(w.Plan)
		}
		for _, who := range w.coming {
			called, ok := d.Presence(who.ID)
			if !ok {
				continue
			}
			whose := "Your call"
			if who.ID != w.draft.To {
				whose = "The call of " + oneLine(who.Called())
			}
			out = append(out, fmt.Sprintf("%s on %s: %s, until about %s.", whose, at.long(d.Date), at.clock(called.Call), at.clock(called.Release)))
		}
	}
	switch {
	case len(out) == 0:
		return ""
	case len(w.draft.sheets) > 0:
		out = append(out, "The call sheet comes with this; its times hold.")
	default:
		out = append(out, "The times may still move a little; the call sheet, which comes the evening before, has those that hold.")
	}
	if w.draft.calendar {
		out = append(out, "A calendar file comes with this: open it, and the day is in your calendar. A later one moves it.")
	}
	return strings.ReplaceAll(strings.Join(out, "\n"), "\u00a0", " ")
}

// signing names the papers, and how they come back.
func (w letter) signing() string {
	var out []string
	var by plan.Date
	attached := false
	for _, r := range w.draft.Reminders {
		if r.Task == people.Confirm || r.Task == people.SendSheet {
			continue
		}
		out = append(out, w.paper(r))
		if len(r.Open) > 0 {
			continue
		}
		attached = true
		if day := r.On.AddDays(-3); !r.On.IsZero() && (by.IsZero() || day.Before(by)) {
			by = day
		}
	}
	text := list("To sign", out)
	if !attached {
		return text
	}
	when := "as soon as you can"
	if w.today.Before(by) {
		when = "by " + w.long(by)
	}
	text += "\nPlease read it in peace, ask whatever is not clear, and sign only if you agree. Send it back as a scan or a photo, " + when + "."
	if len(w.coming) > 0 {
		text += " If that is not easy, sign it with us when you arrive, before the first scene."
	}
	return text
}

// paper names one release, in the reader's eyes.
func (w letter) paper(r people.Reminder) string {
	kind, about := people.KindWords(r.Kind), ""
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
	if len(w.coming) == 0 {
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
func (w letter) wearing() string {
	var out []string
	for _, who := range w.coming {
		if looks := looks(w.Scenes, who.ID); len(looks) > 0 {
			line := strings.Join(looks, "; ")
			if who.ID != w.draft.To {
				line = oneLine(who.Called()) + ": " + line
			}
			out = append(out, line)
		}
	}
	switch {
	case len(out) > 0:
		return list("What to wear", out) + "\nPlease bring what of it is yours, and tell us what you don't have."
	case slices.ContainsFunc(w.coming, func(q plan.Person) bool { return q.Role.Or() == plan.Talent }):
		return "What to wear\nWhat you like and can move in, plain, without brand names or large letters; a second set to choose from is good to have."
	}
	return ""
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
func (w letter) answer() string {
	out := "A short answer to this is enough"
	if phone := oneLine(w.maker.Phone); phone != "" {
		out += ", or a call: " + phone
	}
	out += ".\n\nThank you, and all the best"
	if name := oneLine(w.Papers.Producer); name != "" {
		return out + "\n" + name
	}
	return out
}
