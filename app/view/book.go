package view

import (
	"slices"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/contacts"
)

// BookCaution stands with the address book wherever it is shown.
func BookCaution() string {
	return tongue.Say("These are other people's details: keep only who has agreed to it, and forget whoever asks you to.")
}

// FromBook are the people of the address book in the order of their names, none of them ticked yet.
func FromBook(b contacts.Book, people []plan.Person) []Incoming {
	out := compared(BookToPlan, people, byName(b.People))
	for i := range out {
		out[i].On = false
	}
	return out
}

// Found are those of the address book who have all of the words, with their guardians; who is in no doubt is ticked.
func Found(b contacts.Book, people []plan.Person, words string) []Incoming {
	all := FromBook(b, people)
	for i := range all {
		if all[i].Has(words) {
			all[i].On = all[i].Sure()
			TickGuardian(all, i)
		}
	}
	all = slices.DeleteFunc(all, func(in Incoming) bool { return !in.On && !in.Has(words) })
	fit(BookToPlan, len(people), all)
	return all
}

func byName(people []contacts.Contact) []contacts.Contact {
	all := slices.Clone(people)
	slices.SortStableFunc(all, func(x, y contacts.Contact) int {
		return strings.Compare(strings.ToLower(x.Person.Name), strings.ToLower(y.Person.Name))
	})
	return all
}

// IntoBook are the people of a plan, as they would go into the address book; the one selected is ticked, where that is in no doubt.
// The problems tell what the book can keep in its notes only.
func IntoBook(b contacts.Book, people []plan.Person, selected plan.ID) ([]Incoming, []contacts.Problem) {
	all, odd := contacts.ForBook(people)
	out := Incomings(PlanToBook, b.Persons(), all)
	for i := range out {
		out[i].On = out[i].Sure() && people[out[i].Line-1].ID == selected
	}
	for i := range out {
		if out[i].On {
			TickGuardian(out, i)
		}
	}
	return out, odd
}

// Ticked are the UIDs of those who are ticked, whether anything can be done with them or not.
func Ticked(all []Incoming) []string {
	var out []string
	for _, in := range all {
		if in.On {
			out = append(out, in.UID)
		}
	}
	return out
}

// ForgetWords is what the button says that takes people out of the book.
func ForgetWords(n int) string {
	if n == 0 {
		return tongue.Say("Forget nobody")
	}
	return tongue.Count(n, "Forget %d person", "Forget %d people")
}

// Forgotten tells that it was done.
func Forgotten(n int) string {
	return tongue.Count(n, "%d person is out of the address book. The plans they are in still have them.",
		"%d people are out of the address book. The plans they are in still have them.")
}

// Kept tells who went into the book.
func Kept(done []contacts.Proposal) string {
	return tongue.Say("In the address book: %s", Imported(done))
}
