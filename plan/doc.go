// Package plan holds the document: one property, one client, one film and its by-products.
//
// A Plan is a plain value, made by New or read from a file. Fields not said yet are empty, which is never an error.
// An edit works on a Clone, so a snapshot that somebody holds never changes under them.
//
// Traps of the field, once and for all:
//   - bearings are clockwise from TRUE north, not from what a phone's compass shows, and not from south as some
//     astronomers count;
//   - a Clock is what the wall clock at the property shows; it becomes an instant only with a date and a zone (Instant);
//   - a Clock of 24:00 and later is the small hours of the next date, still the same shooting day.
//
// Invariants: this package imports nothing of ours, opens no file, asks no clock, knows no window. User data yields
// values and Problems, not errors.
package plan
