package papers

import (
	"bytes"
	"slices"

	"eavelight/plan"
	"eavelight/plan/contacts"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

// contactsFile is the name of the file of Contacts.
const contactsFile = "contacts.vcf"

// Contacts are the people of a shoot for the address book of a phone (vCard 4.0): the adults who are called, and the guardians of minors who
// are. It says what the call sheet says of them and no more, for it goes to all who come: name, phone and part. A minor has no card, and is
// named in the guardian's, because whoever looks for the child's number is to find that one. Nothing where nobody can be reached.
func Contacts(p *plan.Plan, days []day.Day) []byte {
	var cards []contacts.Contact
	for _, who := range p.People {
		phone := oneLine(who.Phone)
		wards := wardsOf(p, days, who.ID)
		if phone == "" || minorOn(p, days, who) || !calledOn(days, who.ID) && len(wards) == 0 {
			continue
		}
		note := "For " + filmTitle(p)
		if on := dates(days); len(on) > 0 {
			note += ", " + styleOf(p).long(on[0])
		}
		note += ". Please delete this when the film is done."
		if len(wards) > 0 {
			note = "Guardian of " + joined(wards, "and") + ".\n" + note
		}
		card := contacts.Contact{Person: plan.Person{Name: who.Called(), Phone: phone, Job: who.Job, Role: who.Role.Or(), Notes: note}}
		// Another card than that of the owner's own address book, which holds more and is not to be replaced by this.
		card.UID = contacts.UID(plan.Person{ID: "call sheet\n" + who.ID, Name: who.Name})
		cards = append(cards, card)
	}
	var out bytes.Buffer
	_ = contacts.WriteCards(&out, cards) // a buffer takes everything
	return out.Bytes()
}

func calledOn(days []day.Day, who plan.ID) bool {
	return slices.ContainsFunc(days, func(d day.Day) bool { _, called := d.Presence(who); return called })
}

func minorOn(p *plan.Plan, days []day.Day, who plan.Person) bool {
	return slices.ContainsFunc(days, func(d day.Day) bool { return people.Minor(p, who, d.Date) })
}

// wardsOf are the minors called whose guardian somebody is.
func wardsOf(p *plan.Plan, days []day.Day, guardian plan.ID) []string {
	var out []string
	for _, who := range p.People {
		if who.Guardian == guardian && guardian != "" && calledOn(days, who.ID) && minorOn(p, days, who) {
			out = append(out, oneLine(who.Called()))
		}
	}
	return out
}
