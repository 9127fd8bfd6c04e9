package store

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/say"

	"gopkg.in/yaml.v3"
)

// Stamp is the identity of a file's content: what a window has read or written last. The zero Stamp is that of no
// file. Stamps compare with Same.
type Stamp struct {
	Size    int64
	ModTime time.Time // to tell the user; a file touched but not changed is the same
	Sum     [sha256.Size]byte
}

// IsZero reports the stamp of no file.
func (s Stamp) IsZero() bool { return s == Stamp{} }

// Same reports whether both are stamps of the same content.
func (s Stamp) Same(t Stamp) bool { return s.Size == t.Size && s.Sum == t.Sum }

// Read reads the plan file at path. What is wrong in the file comes as Faults, all of it at once; a file of a later
// format as *NewerError; anything else is the file system's.
func Read(path string) (plan.Plan, Stamp, error) {
	data, stamp, err := readFile(path, planFile)
	if err != nil {
		return plan.Plan{}, Stamp{}, err
	}
	p, err := Decode(path, data)
	if err != nil {
		return plan.Plan{}, Stamp{}, err
	}
	return p, stamp, nil
}

// readFile reads a regular file of a size that one of ours can have.
func readFile(path string, k fileKind) ([]byte, Stamp, error) {
	info, err := os.Stat(path) // before opening: to open a pipe would wait for its other end
	if errors.Is(err, fs.ErrNotExist) {
		return nil, Stamp{}, say.Error("there is no file %s (%v)", path, fs.ErrNotExist)
	}
	if err != nil {
		return nil, Stamp{}, err
	}
	if !info.Mode().IsRegular() {
		return nil, Stamp{}, Faults{{File: path, Text: say.That("this is %s, not a %s", nature(info.Mode()), k.word)}}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, Stamp{}, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, maxBytes+1))
	if err != nil {
		return nil, Stamp{}, err
	}
	if len(data) > maxBytes {
		return nil, Stamp{}, tooBig(path, k)
	}
	return data, Stamp{Size: int64(len(data)), ModTime: info.ModTime(), Sum: sha256.Sum256(data)}, nil
}

func nature(m fs.FileMode) say.Text {
	if m.IsDir() {
		return say.That("a folder")
	}
	return say.That("a device or a pipe")
}

// fileKind is a kind of file of ours: the key that its first line has, and what it is called.
type fileKind struct {
	key       string
	word, the say.Text
}

var (
	planFile = fileKind{"eavelight", say.That("kind of file|plan file"), say.That("the plan file")}
	cardFile = fileKind{"eavelight-rates", say.That("kind of file|rate card"), say.That("kind of file|the rate card")}
)

// Decode reads a plan from data; name stands for the file in its faults.
func Decode(name string, data []byte) (plan.Plan, error) {
	r, root, err := begin(name, data, planFile)
	if err != nil {
		return plan.Plan{}, err
	}
	p := plan.New()
	r.read(document(&p), "", root)
	if s := &p.Shooting; r.at["shooting.meal-apart"] == nil { // the usual one would contradict meals that are said to come soon
		s.MealApart = min(s.MealApart, max(s.MealWithin, 0))
	}
	if err := r.end(func() plan.Problems { return plan.Validate(p) }); err != nil {
		return plan.Plan{}, err
	}
	return p, nil
}

// begin parses a file of a kind, up to where its keys are read.
func begin(name string, data []byte, k fileKind) (*reader, *yaml.Node, error) {
	root, err := tree(name, data, k)
	if err != nil {
		return nil, nil, err
	}
	if err := checkFormat(name, root, k); err != nil {
		return nil, nil, err
	}
	r := &reader{file: name, at: map[string]*yaml.Node{}}
	if r.tricks(root); len(r.faults) > 0 {
		return nil, nil, r.faults.sorted()
	}
	return r, root, nil
}

// end adds what is Wrong in what was read, unless there is enough to tell: a hostile file would make this long.
func (r *reader) end(check func() plan.Problems) error {
	if len(r.faults) <= maxFaults {
		r.validate(check().At(plan.Wrong))
	}
	if len(r.faults) > 0 {
		return r.faults.sorted()
	}
	return nil
}

// reader walks the tree of a file, keeps where each field stands, and gathers the faults.
type reader struct {
	file    string
	faults  Faults
	at      map[string]*yaml.Node // by path
	guessed []string              // paths whose keys were misspelt, and read as what was likely meant
}

func (r *reader) fault(n *yaml.Node, path string, text say.Text) {
	r.faults = append(r.faults, Fault{r.file, n.Line, n.Column, path, text})
}

func (r *reader) read(v value, path string, n *yaml.Node) {
	r.at[path] = n
	v.read(r, path, n)
}

// node finds where a path stands in the file: there, or at the nearest thing around it.
func (r *reader) node(path string) *yaml.Node {
	for {
		if n := r.at[path]; n != nil {
			return n
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
}

// tricks refuses what YAML offers beyond keys, lists and values. None of it is needed, and a few lines of it
// can stand for gigabytes. One is told a line.
func (r *reader) tricks(n *yaml.Node) {
	told := len(r.faults) > 0 && r.faults[len(r.faults)-1].Line == n.Line
	switch {
	case told:
	case n.Kind == yaml.AliasNode || n.Anchor != "":
		r.fault(n, "", say.That("this takes no references (& and *); write the thing out, or put the text in quotes"))
	case n.Style&yaml.TaggedStyle != 0:
		r.fault(n, "", say.That("this takes no type marks (!); take it out, or put the text in quotes"))
	}
	for _, c := range n.Content {
		r.tricks(c)
	}
}

// validate adds what is Wrong in what was read.
func (r *reader) validate(wrong plan.Problems) {
	misread := r.faults
	for _, problem := range wrong {
		if !r.follows(problem, misread) {
			r.fault(r.node(problem.Path), problem.Path, problem.Said())
		}
	}
}

// follows tells a problem that only follows from what was misread: it lies at or below the place of such a fault, it
// comes of a guess, or it refers into a list that could not all be read.
func (r *reader) follows(p plan.Problem, misread Faults) bool {
	if slices.Contains(r.guessed, p.Path) {
		return true
	}
	var ids *regexp.Regexp
	if table := hourRows.FindString(p.Path); table != "" { // each row is held to the one above
		ids = regexp.MustCompile("^" + regexp.QuoteMeta(table))
	}
	switch p.Code {
	case plan.DanglingID:
		ids = idsOf[fmt.Sprint(p.Facts[0])]
	case plan.NotInScene:
		scene, _, _ := strings.Cut(p.Path, ".looks[")
		ids = regexp.MustCompile("^" + regexp.QuoteMeta(scene) + `\.people(\[\d+\])?$`)
	}
	return slices.ContainsFunc(misread, func(f Fault) bool {
		below := f.Path != "" && len(plan.Problems{p}.Under(f.Path)) > 0
		return below || ids != nil && ids.MatchString(f.Path)
	})
}

// hourRows matches the beginning of the paths of the rows of one table of hours.
var hourRows = regexp.MustCompile(`^hours\[\d+\]\.rows\[`)

// idsOf matches the paths at which a fault makes the ids of a kind of thing unknown.
var idsOf = map[string]*regexp.Regexp{
	"face":   regexp.MustCompile(`^property(\.faces(\[\d+\](\.id)?)?)?$`),
	"space":  regexp.MustCompile(`^property(\.spaces(\[\d+\](\.id)?)?)?$`),
	"scene":  regexp.MustCompile(`^scenes(\[\d+\](\.id)?)?$`),
	"person": regexp.MustCompile(`^people(\[\d+\](\.id)?)?$`),

	"overtime rule":    regexp.MustCompile(`^pricing(\.card)?$|^(pricing\.card\.)?overtime(\[\d+\](\.id)?)?$`),
	"rate of the crew": regexp.MustCompile(`^pricing(\.card)?$|^(pricing\.card\.)?crew(\[\d+\](\.id)?)?$`),
}

// checkFormat finds the number of the format before anything is made of the rest, which a later format may have changed.
func checkFormat(name string, root *yaml.Node, k fileKind) error {
	if root.Kind != yaml.MappingNode || len(root.Content) == 0 || root.Content[0].Value != k.key {
		return Faults{{name, root.Line, root.Column, "", say.That("this is not a %s: its first line must be \"%s: %d\"", k.word, k.key, format)}}
	}
	n := root.Content[1]
	v, err := strconv.Atoi(n.Value)
	switch {
	case err == nil && v > format:
		return &NewerError{File: name, Format: n.Value}
	case err != nil || v != format:
		return Faults{{name, n.Line, n.Column, k.key, say.That("there is no format %s; write %d", clip(n.Value), format)}}
	}
	return nil
}
