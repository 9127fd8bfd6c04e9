// Package papers writes the documents of a job: plain content first, then its print.
//
// A paper is made in two steps. A function such as CallSheet, ScenePlan or ShotList turns a plan and a day into a Sheet: every text ready, no
// measure, nothing drawn. Then Sheet.PDF lays any Sheet out by one small page grammar, Sheet.Text says it for a preview
// or a message, and Write puts it into a folder. Drafts are the letters that go with them: pieces
// first, of which both text and HTML are printed, then a mail that nobody has sent. Message is a day for a chat, Contacts are the people
// for a phone. Calendars are the days as events, which move when they are sent again: the plan remembers what they said. It remembers
// what the call sheets said too, so that the next ones have their number and mark what has changed.
//
// A quote is for the client, and a Budget, which it is made beside, for the owner alone: what the one may not say is the other's
// whole matter. Every amount on either is the sum of those printed before it, or rounded once.
//
// Books are for those who work on with the figures: rows and columns, written as a workbook (XLSX) whose figures are formulas where they
// follow from others, and as plain rows (CSV). What a user typed is words in both, whatever it begins with.
//
// Traps of the field: a sheet for all is read by all, so no minor's phone or mail, nobody's fee and nobody's private
// notes may get into it; a time is what the wall clock at the property shows, and one after midnight must say so ("+1");
// a name has any letters at all, and what the built-in fonts lack is printed as a visible box and listed by Unprintable,
// because a box can be asked about and a wrong letter can't.
//
// Which fields a call sheet has is common practice, no published source.
//
// Invariants: asks no clock, touches no network; only Write and its kin open files. The same Sheet, draft or Book, and making
// time give the same bytes.
package papers
