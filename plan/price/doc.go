// Package price works out what a job costs and what to ask for it: crew hours from the placed days, budget lines from the
// rate card, the floor below which the job loses money, and the quote.
//
// Every amount that is shown is rounded once, half away from zero, to the minor unit of the currency (ISO 4217), and every
// total is the sum of what is shown under it, so the parts always add up. Until then figures are exact: a part of a line keeps
// its divisor and divides last. What can't be priced (no rate, no billable days) is left at nothing and told in Problems.
//
// Invariants: it knows no window and no file, and asks no clock. The same plan and days give the same sheet.
package price
