package tongue

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// sayers are the functions that take forms: which of their arguments are forms, and how many arguments stand in front of
// what fills them; -1: nothing fills them here.
var sayers = map[string]struct {
	forms []int
	more  int
	given int // what fills the forms beside the arguments that follow
}{
	"say.That": {[]int{0}, 1, 0}, "say.Error": {[]int{0}, 1, 0}, "say.Count": {[]int{2, 1}, 3, 1}, "say.Mark": {[]int{0}, -1, 0},
	"tongue.Say": {[]int{0}, 1, 0}, "tongue.Count": {[]int{2, 1}, 3, 1},
}

type found struct {
	at     token.Position
	plural bool
}

// forms finds every form in the sources of the window and the plan, and complains of a call whose form is no literal, or
// has not as many verbs as there are arguments.
func forms(t *testing.T) map[string]found {
	t.Helper()
	all := map[string]found{}
	for _, root := range []string{"../../plan", "../../app"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err == nil && d.IsDir() && d.Name() == "tongue" { // it passes forms on, and so does say.go
				return filepath.SkipDir
			}
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || d.Name() == "say.go" {
				return err
			}
			files := token.NewFileSet()
			file, err := parser.ParseFile(files, path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if call, ok := n.(*ast.CallExpr); ok {
					collect(t, files, call, all)
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return all
}

func collect(t *testing.T, files *token.FileSet, call *ast.CallExpr, all map[string]found) {
	sayer, ok := sayers[name(call.Fun)]
	if !ok || len(call.Args) <= slices.Max(sayer.forms) {
		return
	}
	at := files.Position(call.Pos())
	for i, arg := range sayer.forms {
		form, ok := literal(call.Args[arg])
		if !ok {
			t.Errorf("%s: the form is not a literal; translators would not be told of it (say.Mark it where it is written)", at)
			continue
		}
		if sayer.more >= 0 && call.Ellipsis == token.NoPos && len(sayer.forms) == 1 {
			if filling := len(call.Args) - sayer.more + sayer.given; filling > 0 && verbs(form) != filling {
				t.Errorf("%s: %q takes %d arguments and is given %d", at, form, verbs(form), filling)
			}
		}
		if i == 0 {
			all[form] = found{at, all[form].plural || len(sayer.forms) > 1}
		}
	}
}

// name is a function's with its package; what has none is of package say, where it says dates.
func name(fun ast.Expr) string {
	switch fun := fun.(type) {
	case *ast.Ident:
		return "say." + fun.Name
	case *ast.SelectorExpr:
		if pkg, ok := fun.X.(*ast.Ident); ok {
			return pkg.Name + "." + fun.Sel.Name
		}
	}
	return ""
}

// literal is a string literal, or some of them put together.
func literal(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		s, err := strconv.Unquote(e.Value)
		return s, err == nil
	case *ast.BinaryExpr:
		x, ok := literal(e.X)
		y, ok2 := literal(e.Y)
		return x + y, ok && ok2 && e.Op == token.ADD
	}
	return "", false
}

var verb = regexp.MustCompile(`%(\[(\d+)\])?[-+# 0]*\d*(?:\.\d+)?([a-zA-Z%])`)

// verbs is how many arguments a form takes.
func verbs(form string) int {
	next, most := 0, 0
	for _, m := range verb.FindAllStringSubmatch(form, -1) {
		if m[3] == "%" {
			continue
		}
		if m[2] != "" {
			next, _ = strconv.Atoi(m[2])
			next--
		}
		next++
		most = max(most, next)
	}
	return most
}

// taken lists which argument goes into which verb: "1s 2d".
func taken(form string) []string {
	var out []string
	next := 0
	for _, m := range verb.FindAllStringSubmatch(form, -1) {
		if m[3] == "%" {
			continue
		}
		if m[2] != "" {
			next, _ = strconv.Atoi(m[2])
			next--
		}
		next++
		out = append(out, fmt.Sprintf("%d%s", next, m[3]))
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// TestEveryFormHasItsWords holds every language to the forms that are in the sources: none is missing, none is left over,
// and each takes the same arguments.
func TestEveryFormHasItsWords(t *testing.T) {
	used := forms(t)
	fyne, err := Forms("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range Languages[1:] {
		words, err := Forms(l.Code)
		if err != nil {
			t.Fatal(err)
		}
		for _, form := range slices.Sorted(maps.Keys(used)) {
			if _, ok := words[form]; !ok {
				t.Errorf("%s: %q (%s) has no words", l.Code, form, used[form].at)
			}
		}
		for form, w := range words {
			use, ok := used[form]
			if _, fynes := fyne[form]; !ok && !fynes && !ofFyne[form] {
				t.Errorf("%s: %q is said nowhere", l.Code, form)
			}
			for _, one := range each(t, form, w, use.plural) {
				if verbs(form) > 0 && !slices.Equal(taken(one), taken(form)) {
					t.Errorf("%s: %q takes %v, and %q takes %v", l.Code, form, taken(form), one, taken(one))
				}
				if strings.Contains(one, "{{") || strings.TrimSpace(one) == "" {
					t.Errorf("%s: %q can't stand for %q", l.Code, one, form)
				}
			}
		}
	}
}

// each lists the words for a form.
func each(t *testing.T, form string, w any, plural bool) []string {
	switch w := w.(type) {
	case string:
		if plural {
			t.Errorf("%q goes by a number and needs its plurals", form)
		}
		return []string{w}
	case map[string]any:
		var out []string
		for _, s := range w {
			out = append(out, s.(string))
		}
		if w["one"] == nil || w["other"] == nil {
			t.Errorf("%q needs one and other", form)
		}
		return out
	}
	t.Errorf("%q: %v is neither words nor plurals", form, w)
	return nil
}

// ofFyne are the forms of Fyne that it writes in English in its sources, and those of package say.
var ofFyne = map[string]bool{
	"Advanced": true, "Cancel": true, "Confirm": true, "Copy": true, "Create Folder": true, "Cut": true, "Enter filename": true, "Error": true,
	"Favourites": true, "File": true, "Folder": true, "New Folder": true, "No": true, "OK": true, "Open": true, "Paste": true, "Quit": true,
	"Redo": true, "Save": true, "Select all": true, "Show Hidden Files": true, "Undo": true, "Yes": true,
	"decimal mark|.": true, "thousands mark|,": true, "%s and %s": true, "before the vowel i|%s and %s": true,
}

// TestNoFormIsToldTwice holds the files of a language apart: a form stands in one of them.
func TestNoFormIsToldTwice(t *testing.T) {
	for _, l := range Languages {
		seen := map[string]string{}
		for _, name := range files(t, l.Code) {
			for form := range read(t, name) {
				if first, ok := seen[form]; ok {
					t.Errorf("%q stands in %s and in %s", form, first, name)
				}
				seen[form] = name
			}
		}
	}
}
