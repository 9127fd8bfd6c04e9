// Package media is the arithmetic of what a shoot records: frames, hours of footage, bytes, cards, drives, copies, batteries.
// Reckon takes a Shoot and gives its Needs, every figure with a line of words that shows how it came about.
//
// Units. Data is in bytes and in decimal steps, as cards, drives and bit rates are sold: 1 GB = 10^9 bytes, 1 Mbit/s = 10^6
// bits a second (IEC 80000-13 and SI prefixes). File windows often show GiB = 2^30 bytes under the same name, so words give both.
//
// Exact. Frame rates are fractions; a typed figure (a float64) is read as the shortest decimal that stands for it, so that 0.9
// is nine tenths; all is reckoned in fractions. Times are rounded up to whole seconds and data to whole bytes, and what follows is
// reckoned from the figure shown. Anything over MaxBytes is refused.
//
// Sources: frame rates, picture sizes and data = bit rate x time / 8 are definitions, held against the project's reference
// values, section 7. Shooting ratio, cards filled to nine tenths, raw files compressed to about half, and 3-2-1 are common
// practice, no published source. Numbers of standards are from memory.
//
// Invariants: no clock, no file, no window. Wrong input gives an error in the user's words, never a panic.
package media
