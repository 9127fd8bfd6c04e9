// Package contacts brings people in from the files that address books write, and writes them out again.
//
// It reads vCard 2.1, 3.0 and 4.0 (ReadCards) and CSV (ReadTable, then Table.Contacts once the user has looked at which
// column is what), writes vCard 4.0 after RFC 6350 (WriteCards), and tells who of the people read is in the plan already
// (Propose, Apply). People to be called again go into the address book, a vCard file of our own (Book). The files come from
// everywhere, so every reading follows three rules:
//
//   - Nothing is lost. What fits no field of a person stands in their notes, under the name that it had in the file. Left
//     out are pictures, sounds and keys, and notes beyond what a plan can hold; each time with a Problem that says so.
//   - Nothing is guessed silently. A date that can be read two ways stays in the notes, with a Problem; two people with one
//     phone are put to the user.
//   - No file makes it panic, or take more than a fair multiple of the file's size in time or memory.
//
// Encodings: UTF-8, with or without a byte-order mark; UTF-16 with one; else Windows-1252, told line by line, so that a file
// pasted together from two keeps both. A vCard 2.1 may name any other for a value (CHARSET).
package contacts
