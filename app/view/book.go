package view

import (
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/contacts"
)

// BookCaution stands with the address book wherever it is shown.
const BookCaution = "These are other people's details. Keep only who has agreed to it, and forget whoever asks you to. The file stays on this computer, and only you can read it: "

// FromBook are the people of the address book in the order of their names, none of them ticked yet.
func FromBook(b contacts.Book, people []plan.Person) []Incoming {
	all := slices.Clone(b.People)
	slices.SortStableFunc(all, func(x, y contacts.Contact) int {
		return strings.Compare(strings.ToLower(x.Person.Name), strings.ToLower(y.Person.Name))
	})
	out := Incomings(BookToPlan, people, all)
	for i := range out {
		out[i].On = false
	}
	return out
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
		return "Forget nobody"
	}
	return "Forget " + count(n, "person", "people")
}

// Forgotten tells that it was done.
func Forgotten(n int) string {
	return count(n, "person is", "people are") + " out of the address book. The plans they are in still have them."
}

// Kept tells who went into the book.
func Kept(done []contacts.Proposal) string {
	return "In the address book: " + Imported(done)
}
