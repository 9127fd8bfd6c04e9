package plan

import (
	"fmt"
	"strings"

	"eavelight/plan/say"
)

// Code names a kind of problem. Its wording stands in one place, wordings.
type Code string

// Severity tells a problem that makes the document wrong from one that only leaves the work undone.
type Severity int

// Lack: something still to be said or done. Warning: it will hurt on the day. Wrong: the document contradicts itself.
const (
	Lack Severity = iota
	Warning
	Wrong
)

// Problem is something about the document that its user should know: what, where, and the facts.
type Problem struct {
	Code  Code
	Level Severity
	Path  string // where in the document: "scenes[3].light.face"
	Facts []any  // fill the wording, in order
}

// String is the problem in the user's words.
func (p Problem) String() string { return p.Said().String() }

// Said is what the problem says.
func (p Problem) Said() say.Text {
	form, ok := wordings[p.Code]
	if !ok {
		return say.Plain(fmt.Sprintf("%s %v", p.Code, p.Facts))
	}
	return say.Marked(form, p.Facts...)
}

// In is what the problem says, in a tongue.
func (p Problem) In(tongue say.Tongue) string { return p.Said().In(tongue) }

// Problems is a list with a few questions to ask of it.
type Problems []Problem

// At returns the problems of one level or worse.
func (ps Problems) At(least Severity) Problems {
	var out Problems
	for _, p := range ps {
		if p.Level >= least {
			out = append(out, p)
		}
	}
	return out
}

// Lacks returns what is only still to be said or done.
func (ps Problems) Lacks() Problems {
	var out Problems
	for _, p := range ps {
		if p.Level == Lack {
			out = append(out, p)
		}
	}
	return out
}

// Under returns the problems whose path is path or lies below it.
func (ps Problems) Under(path string) Problems {
	var out Problems
	for _, p := range ps {
		rest, ok := strings.CutPrefix(p.Path, path)
		if ok && (rest == "" || rest[0] == '.' || rest[0] == '[') {
			out = append(out, p)
		}
	}
	return out
}
