package view

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/contacts"
	"eavelight/plan/say"
)

// Sides are where people come from, and where to.
type Sides struct {
	from, into string // forms
	Most       int    // people that there is room for
	found      bool   // those of them alone who were looked for
}

// The sides.
var (
	FileToPlan  = Sides{say.Mark("side|the file"), sidePlan, plan.MaxItems, false}
	BookToPlan  = Sides{sideBook, sidePlan, plan.MaxItems, false}
	FoundInBook = Sides{sideBook, sidePlan, plan.MaxItems, true}
	PlanToBook  = Sides{sidePlan, sideBook, contacts.MaxPeople, false}
)

var sidePlan, sideBook = say.Mark("side|the plan"), say.Mark("side|the address book")

// From is where people come from, in words that stand in a sentence.
func (s Sides) From() string { return tongue.Marked(s.from) }

// Into is where people go to.
func (s Sides) Into() string { return tongue.Marked(s.into) }

// Incoming is one person of a file who may come into the plan: what can be done with them, and what is chosen.
type Incoming struct {
	Line   int             // of the file
	UID    string          // in the address book
	Name   string          // short
	Person plan.Person     // as the file tells of them
	Action contacts.Action // as it was proposed
	Match  plan.ID         // who in the plan it is, or could be; empty where nobody is like them
	Facts  string          // what the file says of them, on a line
	Note   string          // what to look at before a choice; may be empty
	Kind   IncomingKind
	Offers []Offer // none where there is nothing new
	Chosen int     // of the offers
	On     bool    // whether it is to be done
	NoRoom bool    // there are too many without them

	fills    bool   // the first offer writes over nothing
	guardian string // the UID of who signs for them
	find     string // all that is known of them, to be looked through
}

// Offer is one thing that can be done with an incoming person.
type Offer struct {
	Words    string
	Proposal contacts.Proposal
}

// IncomingKind sorts the people of a file by what is proposed.
type IncomingKind string

// The kinds, in the order in which they are counted.
const (
	Newcomer  IncomingKind = "new"
	Known     IncomingKind = "to update"
	Undecided IncomingKind = "to decide"
	Unchanged IncomingKind = "nothing new"
)

// IncomingKinds lists them.
var IncomingKinds = []IncomingKind{Newcomer, Known, Undecided, Unchanged}

// Incomings asks what could be done with each contact, for the user to choose. On is what changes something and is in no doubt,
// as far as there is room.
func Incomings(sides Sides, people []plan.Person, all []contacts.Contact) []Incoming {
	out := compared(sides, people, all)
	fit(sides, len(people), out)
	return out
}

func compared(sides Sides, people []plan.Person, all []contacts.Contact) []Incoming {
	at := make(map[plan.ID]plan.Person, len(people))
	for _, q := range people {
		at[q.ID] = q
	}
	out := make([]Incoming, 0, len(all))
	for _, pr := range contacts.Propose(people, all) {
		out = append(out, incoming(sides, at, pr))
	}
	return out
}

// fit unticks those that there is no room for beside who is there.
func fit(sides Sides, have int, all []Incoming) {
	room := sides.Most - have
	for i := range all {
		if in := &all[i]; in.On && in.Kind == Newcomer {
			if room--; room < 0 {
				in.On, in.NoRoom, in.Note = false, true, tongue.Say("No room: %s holds %d people at most", sides.Into(), sides.Most)
			}
		}
	}
}

func incoming(sides Sides, at map[plan.ID]plan.Person, pr contacts.Proposal) Incoming {
	q := pr.Contact.Person
	facts := contactFacts(q)
	in := Incoming{Line: pr.Contact.Line, UID: pr.Contact.UID, Name: cmp.Or(clipped(q.Name, 80), tongue.Say("No name")), Person: q, Action: pr.Action,
		Match: pr.Match, Facts: clipped(strings.Join(facts, " · "), 160), guardian: pr.Contact.Guardian,
		find: strings.ToLower(strings.Join(append(facts, q.Name, q.Job, q.Notes, q.Diet, q.Sizes), " "))}
	already := tongue.Say("In %s already, by %s", sides.Into(), fieldNames(pr.By))
	switch pr.Action {
	case contacts.Add:
		in.Kind, in.On = Newcomer, true
		in.offer(tongue.Say("offer|add"), pr, contacts.Add)
		return in
	case contacts.Same:
		in.Kind, in.Note = Unchanged, already
		return in
	case contacts.Unsure:
		in.Kind, in.Note = Undecided, doubt(sides, at, pr)
	default:
		in.Kind, in.Note = Known, already
	}
	if who, ok := at[pr.Match]; ok {
		in.updates(who, pr)
		in.fills = slices.ContainsFunc(pr.Changes, func(c contacts.Change) bool { return c.Take })
		in.On = in.Sure()
		if kept := keptWords(sides, pr.Changes); kept != "" {
			in.Note += "; " + kept
		}
	}
	for _, id := range pr.Others {
		in.updates(at[id], againstOne(at[id], pr.Contact))
	}
	if pr.Earlier > 0 {
		in.offer(tongue.Say("add all the same"), pr, contacts.Add)
	} else {
		in.offer(tongue.Say("add as another person"), pr, contacts.Add)
	}
	return in
}

// againstOne is what an update of one certain person would change.
func againstOne(who plan.Person, c contacts.Contact) contacts.Proposal {
	pr := contacts.Propose([]plan.Person{who}, []contacts.Contact{c})[0]
	pr.Match = who.ID
	return pr
}

func (in *Incoming) offer(words string, pr contacts.Proposal, do contacts.Action) {
	pr.Action = do
	in.Offers = append(in.Offers, Offer{words, pr})
}

// updates offers to fill in what the plan does not know of somebody, and to write over what it knows otherwise.
func (in *Incoming) updates(who plan.Person, pr contacts.Proposal) {
	update := tongue.Say("offer|update")
	if who.Name != pr.Contact.Person.Name {
		update = tongue.Say("update %s", clipped(who.Called(), 40))
	}
	fresh := contactFields(pr.Changes, func(c contacts.Change) bool { return c.Take })
	over := contactFields(pr.Changes, func(c contacts.Change) bool { return !c.Take })
	if fresh != "" {
		in.offer(update+": "+fresh, pr, contacts.Update)
	}
	if over != "" {
		pr.Changes = slices.Clone(pr.Changes)
		for i := range pr.Changes {
			pr.Changes[i].Take = true
		}
		words := tongue.Say("%s, writing over %s", update, over)
		if fresh != "" {
			words = tongue.Say("%s: %s; writing over %s", update, fresh, over)
		}
		in.offer(words, pr, contacts.Update)
	}
}

func contactFields(all []contacts.Change, those func(contacts.Change) bool) string {
	var fields []contacts.Field
	for _, c := range all {
		if those(c) {
			fields = append(fields, c.Field)
		}
	}
	return fieldNames(fields)
}

// fieldNames is what some fields are called, one behind the other.
func fieldNames(fields []contacts.Field) string {
	var names []string
	for _, f := range fields {
		names = append(names, tongue.Of(f))
	}
	return strings.Join(names, ", ")
}

// keptWords tells what both sides say differently; the word of the one they come into stays.
func keptWords(sides Sides, all []contacts.Change) string {
	var out []string
	for _, c := range all {
		switch {
		case c.Take:
		case c.Field == contacts.FieldNotes:
			out = append(out, tongue.Say("the notes of %s do not fit beside those of %s", sides.From(), sides.Into()))
		default:
			was, now := c.Said()
			out = append(out, tongue.Say("%s %s in %s, %s in %s", c.Field, clipped(tongue.Of(was), 40), sides.Into(),
				clipped(tongue.Of(now), 40), sides.From()))
		}
	}
	return strings.Join(out, "; ")
}

func doubt(sides Sides, at map[plan.ID]plan.Person, pr contacts.Proposal) string {
	if pr.Match == "" && sides != FileToPlan {
		return tongue.Say("Seems to stand in %s twice", sides.From())
	}
	if pr.Match == "" {
		return tongue.Say("Seems to stand in line %d of the file already", pr.Earlier)
	}
	names := []string{clipped(at[pr.Match].Called(), 40)}
	for _, id := range pr.Others {
		names = append(names, clipped(at[id].Called(), 40))
	}
	last := len(names) - 1
	who := names[last]
	if last > 0 {
		who = tongue.Say("%s or %s", strings.Join(names[:last], ", "), who)
	}
	return tongue.Say("Is this %s? The same %s", who, fieldNames(pr.By))
}

// contactFacts is what a file says of somebody, each thing short.
func contactFacts(q plan.Person) []string {
	var facts []string
	add := func(words string) {
		if words = strings.TrimSpace(words); words != "" {
			facts = append(facts, clipped(words, 60))
		}
	}
	add(tongue.Of(q.Role))
	add(q.Job)
	add(q.Phone)
	add(q.Email)
	add(q.Pronouns)
	if !q.Born.IsZero() {
		add(tongue.Say("born %s", q.Born))
	}
	if q.Minor {
		add(tongue.Say("minor"))
	}
	if q.Paid {
		add(tongue.Say("paid"))
	}
	add(q.Sizes)
	add(q.Diet)
	if q.Travel > 0 {
		add(tongue.Say("%s of travel", q.Travel))
	}
	if q.Notes != "" {
		add(tongue.Say("notes: %s", strings.Join(strings.Fields(q.Notes), " ")))
	}
	if len(facts) == 0 {
		return []string{tongue.Say("nothing but the name")}
	}
	return facts
}

// Proposed are the proposals that are to be done.
func Proposed(all []Incoming) []contacts.Proposal {
	var out []contacts.Proposal
	for _, in := range all {
		if in.On && in.Chosen < len(in.Offers) {
			out = append(out, in.Offers[in.Chosen].Proposal)
		}
	}
	return out
}

// Keep carries the user's choices over to the same people asked about again; a choice that is no longer offered falls away.
func Keep(before, now []Incoming) []Incoming {
	was := map[int]Incoming{}
	for _, in := range before {
		was[in.Line] = in
	}
	words := func(a, b Offer) bool { return a.Words == b.Words }
	for i := range now {
		if old, ok := was[now[i].Line]; ok && len(old.Offers) > 0 && slices.EqualFunc(old.Offers, now[i].Offers, words) {
			now[i].Chosen, now[i].On = old.Chosen, old.On
		}
	}
	return now
}

// Has reports whether all of the words stand in what is known of somebody.
func (in Incoming) Has(words string) bool {
	return !slices.ContainsFunc(strings.Fields(strings.ToLower(words)), func(w string) bool { return !strings.Contains(in.find, w) })
}

// TickGuardian ticks the guardian of somebody who is ticked, where that is in no doubt: a child comes with who signs for them.
func TickGuardian(all []Incoming, i int) {
	if all[i].guardian == "" {
		return
	}
	g := slices.IndexFunc(all, func(in Incoming) bool { return in.UID == all[i].guardian })
	if g >= 0 && all[g].Sure() {
		all[g].On = true
	}
}

// TooMany says how many of the ticked ones there is no room for; empty where all fit. have is how many are there already.
func TooMany(sides Sides, have int, all []Incoming) string {
	adds := 0
	for _, pr := range Proposed(all) {
		if pr.Action == contacts.Add {
			adds++
		}
	}
	over := have + adds - sides.Most
	if over <= 0 {
		return ""
	}
	return tongue.Say("%s holds %d people at most, and has %d: untick %d of the %d new ones.",
		upper(sides.Into()), sides.Most, have, over, adds)
}

// IncomingSummary counts the people of a file by what is proposed.
func IncomingSummary(sides Sides, all []Incoming) string {
	n := CountIncoming(all)
	var parts []string
	for _, k := range IncomingKinds {
		if n[k] > 0 {
			parts = append(parts, IncomingCount(k, n[k]))
		}
	}
	who := tongue.Count(len(all), "%d person in %s", "%d people in %s", sides.From())
	if sides.found {
		who = tongue.Count(len(all), "%d person found in %s", "%d people found in %s", sides.From())
	}
	if len(parts) > 0 {
		who += ": " + strings.Join(parts, ", ")
	}
	who += "."
	out := 0
	for _, in := range all {
		if in.NoRoom {
			out++
		}
	}
	if out > 0 {
		who += " " + tongue.Say("%d of the new ones do not fit: %s holds %d people at most.", out, sides.Into(), sides.Most)
	}
	return who
}

// CountIncoming counts the people of each kind.
func CountIncoming(all []Incoming) map[IncomingKind]int {
	n := map[IncomingKind]int{}
	for _, in := range all {
		n[in.Kind]++
	}
	return n
}

// IncomingCount says how many there are of a kind: "3 to decide".
func IncomingCount(k IncomingKind, n int) string {
	switch k {
	case Newcomer:
		return tongue.Count(n, "%d new", "%d new")
	case Known:
		return tongue.Say("%d to update", n)
	case Undecided:
		return tongue.Say("%d to decide", n)
	}
	return tongue.Say("%d with nothing new", n)
}

// ImportName is what an import is called when it can be undone.
func ImportName(n int) string { return tongue.Count(n, "import %d person", "import %d people") }

// Imported tells what an import did.
func Imported(done []contacts.Proposal) string {
	added := 0
	updated := map[plan.ID]bool{}
	for _, pr := range done {
		if pr.Action == contacts.Add {
			added++
		} else {
			updated[pr.Match] = true
		}
	}
	var parts []string
	if added > 0 {
		parts = append(parts, tongue.Count(added, "%d person added", "%d people added"))
	}
	if n := len(updated); n > 0 {
		parts = append(parts, tongue.Count(n, "%d person updated", "%d people updated"))
	}
	if len(parts) == 0 {
		return tongue.Say("Nobody was added or updated.")
	}
	return strings.Join(parts, ", ") + "."
}

// ContactColumn is one column of a table that holds something.
type ContactColumn struct {
	At      int // in the table
	Heading string
	Samples []string
}

// Columns are those of the table that hold something.
func Columns(f contacts.File) []ContactColumn {
	var out []ContactColumn
	if f.Table == nil {
		return nil
	}
	for i := range f.Table.Headings {
		samples := f.Table.Samples(i, 2)
		if len(samples) == 0 {
			continue
		}
		for j, s := range samples {
			samples[j] = clipped(strings.Join(strings.Fields(s), " "), 40)
		}
		out = append(out, ContactColumn{i, tongue.Of(f.Table.Heading(i)), samples})
	}
	return out
}

// TableWords tells how a table was read.
func TableWords(f contacts.File) string {
	if f.Table == nil {
		return ""
	}
	between := map[rune]string{',': tongue.Say("commas"), ';': tongue.Say("semicolons"), '\t': tongue.Say("tabs")}
	heads := tongue.Say("with headings")
	if !f.Table.HasHeader {
		heads = tongue.Say("without headings")
	}
	if HasBirths(f) && f.Match.Dates != contacts.NotSaid {
		heads = tongue.Say("%s, dates with the %s", heads, f.Match.Dates)
	}
	return tongue.Say("Read as %s, divided by %s, %s.", f.Table.Encoding, between[f.Table.Delimiter], heads)
}

// HasBirths reports a column of dates of birth, whose order the user may have to say.
func HasBirths(f contacts.File) bool {
	return f.Table != nil && slices.Contains(f.Match.Fields, contacts.FieldBorn)
}

// ProblemLines are what could not be taken as it stands, a line each; what is the same of several lines of the file is said once.
func ProblemLines(all []contacts.Problem) string {
	type place struct {
		column int
		text   string
	}
	var order []place
	at, first := map[place][]int{}, map[place]contacts.Problem{}
	for _, p := range all {
		k := place{p.Column, p.Text.String()}
		if at[k] == nil {
			order = append(order, k)
			first[k] = p
		}
		at[k] = append(at[k], p.Line)
	}
	var out []string
	for _, k := range order {
		p, lines := first[k], at[k]
		switch {
		case len(lines) == 1 || p.Line == 0:
			out = append(out, tongue.Of(p))
		case p.Column == 0:
			out = append(out, tongue.Say("lines %s: %s", lineWords(lines), tongue.Of(p.Text)))
		default:
			out = append(out, tongue.Say("lines %s, column %d: %s", lineWords(lines), p.Column, tongue.Of(p.Text)))
		}
	}
	return strings.Join(out, "\n")
}

// lineWords names some lines, the first ones only where there are many: "2, 3, 4 and 297 more".
func lineWords(lines []int) string {
	const most = 5
	var words []string
	for _, n := range lines[:min(len(lines), most)] {
		words = append(words, fmt.Sprint(n))
	}
	if more := len(lines) - most; more > 0 {
		words = append(words, tongue.Count(more, "%d more", "%d more"))
	}
	return tongue.List(words)
}

// WritingWords tells whose contacts go into a file. today tells who is a minor.
func WritingWords(people []plan.Person, today plan.Date) string {
	minors := 0
	for _, q := range people {
		if q.MinorOn(today) {
			minors++
		}
	}
	if len(people) == 0 {
		return tongue.Say("There is nobody in the plan to write.")
	}
	text := tongue.Count(len(people),
		"Name, phone, email, job, role, pronouns, date of birth and notes of %d person go into a vCard file, which address books read.",
		"Name, phone, email, job, role, pronouns, date of birth and notes of %d people go into a vCard file, which address books read.")
	if minors > 0 {
		text += " " + tongue.Count(minors, "%d of them is a minor; think of whom you give it to.", "%d of them are minors; think of whom you give it to.")
	}
	return text
}

// Sure reports that what is proposed changes something and is in no doubt.
func (in Incoming) Sure() bool {
	return len(in.Offers) > 0 && !in.NoRoom && (in.Kind == Newcomer || in.Kind == Known && in.fills)
}

// TakeWords is what the button says that takes people.
func TakeWords(sides Sides, n int) string {
	switch {
	case sides == PlanToBook && n == 0:
		return tongue.Say("Keep nobody")
	case sides == PlanToBook:
		return tongue.Count(n, "Keep %d person", "Keep %d people")
	case n == 0:
		return tongue.Say("Take nobody")
	}
	return tongue.Count(n, "Take %d person", "Take %d people")
}

// ContactsPath proposes where the people of a plan are written to: beside it.
func ContactsPath(st session.State) string {
	if st.Path == "" {
		return ""
	}
	return strings.TrimSuffix(st.Path, filepath.Ext(st.Path)) + "-people.vcf"
}
