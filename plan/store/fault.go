package store

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"eavelight/plan/say"
)

// Fault is one thing wrong in a plan file: where, what, and what to do about it.
type Fault struct {
	File         string
	Line, Column int    // from 1; 0 where there is no such place
	Path         string // of the field, as in plan.Problem: "scenes[3].light.face"; empty for the file as a whole
	Text         say.Text
}

// String prints "FILE:LINE:COLUMN: PATH: text", without the parts that are not known.
func (f Fault) String() string { return f.In(nil) }

// In is String in a tongue.
func (f Fault) In(tongue say.Tongue) string {
	var at strings.Builder
	at.WriteString(f.File)
	for _, n := range []int{f.Line, f.Column} {
		if n > 0 {
			fmt.Fprintf(&at, ":%d", n)
		}
	}
	parts := slices.DeleteFunc([]string{at.String(), f.Path, f.Text.In(tongue)}, func(s string) bool { return s == "" })
	return strings.Join(parts, ": ")
}

// Faults is everything wrong in a plan file, in the order of its lines. It is an error.
type Faults []Fault

// Error prints the faults, one a line.
func (fs Faults) Error() string { return fs.In(nil) }

// In is Error in a tongue.
func (fs Faults) In(tongue say.Tongue) string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.In(tongue)
	}
	return strings.Join(lines, "\n")
}

// maxFaults is how many faults are told of one file. Nobody reads more, and a hostile file has a fault a byte.
const maxFaults = 100

// sorted puts the faults in the order of the file and cuts a list that nobody would read to its end.
func (fs Faults) sorted() Faults {
	slices.SortStableFunc(fs, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column), cmp.Compare(a.Path, b.Path))
	})
	if more := len(fs) - maxFaults; more > 0 {
		fs = append(fs[:maxFaults:maxFaults], Fault{File: fs[0].File, Text: say.Count(more, "and %d more like these", "and %d more like these")})
	}
	return fs
}

// NewerError says that a file was written by a later version of the program. The file is left as it is.
type NewerError struct {
	File   string
	Format string // its number
}

func (e *NewerError) Error() string { return e.In(nil) }

// In is Error in a tongue.
func (e *NewerError) In(tongue say.Tongue) string {
	return say.That("%s: this plan has format %s, which is newer than this program knows (%d); "+
		"update the program to open it. The file was not changed", e.File, e.Format, format).In(tongue)
}

// What Write refuses, for errors.Is. Overwrite goes on all the same, once the user has said so.
var (
	ErrChanged = say.Error("the file is not as this program left it; something else has changed, moved or deleted it")
	ErrExists  = say.Error("there is a file of that name already")
)
