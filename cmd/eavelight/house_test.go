package main

import (
	"bytes"
	"encoding/json"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// arrows says which packages of ours each package may import; a trailing slash stands for a whole subtree. What is not
// here may not be there: a new package, or a new arrow, is a decision to be written down.
var arrows = map[string][]string{
	"plan/say":      {},
	"plan":          {"plan/say"},
	"plan/place":    {},
	"plan/chance":   {},
	"plan/media":    {"plan/say"},
	"assets":        {},
	"plan/light":    {"plan", "plan/say"},
	"plan/people":   {"plan", "assets", "plan/say"},
	"plan/contacts": {"plan", "plan/store", "plan/say"},
	"plan/pictures": {"plan", "plan/say"},
	"plan/store":    {"plan", "plan/say"},
	"plan/locate":   {"plan", "assets", "plan/say"},
	"plan/day":      {"plan", "plan/light", "plan/people", "plan/place", "plan/say"},
	"plan/price":    {"plan", "plan/chance", "plan/day", "plan/media", "plan/say"},
	"plan/papers":   {"plan", "plan/contacts", "plan/day", "plan/people", "plan/light", "plan/price", "assets", "plan/say"},
	"app/locale":    {},
	"app/tongue":    {"app/locale", "assets", "plan", "plan/say"},
	"app/look":      {},
	"app/draw":      {"app/look", "app/tongue", "plan/say"},
	"app/session":   {"plan", "plan/store", "plan/day", "plan/people", "plan/pictures", "plan/say"},
	"app/view":      {"app/session", "assets", "plan", "plan/chance", "plan/contacts", "plan/day", "plan/people", "plan/light", "plan/locate", "plan/media", "plan/papers", "plan/price", "plan/say", "app/tongue"},
	"app/page":      {"app/session", "app/view", "app/draw", "app/look", "plan", "plan/contacts", "plan/day", "plan/people", "plan/light", "plan/locate", "plan/pictures", "plan/price", "plan/say", "app/tongue"},
	"app":           {"app/locale", "app/page", "app/session", "app/view", "app/look", "assets", "plan", "plan/store", "plan/papers", "plan/pictures", "testdata", "plan/say", "app/tongue"},
	"cmd/eavelight": {"app", "app/view", "plan", "plan/contacts", "plan/day", "plan/light", "plan/locate", "plan/papers", "plan/people", "plan/price", "plan/store", "plan/say"},
}

// bans are packages from outside that a part of the house may not know, with the reason.
var bans = []struct{ part, banned, why string }{
	{"plan", "fyne.io/fyne/v2", "the heart knows no window"},
	{"app/session", "fyne.io/fyne/v2", "the open plan is tested without a window"},
	{"app/view", "fyne.io/fyne/v2", "the screens' words are tested without a window"},
	{"app", "fyne.io/fyne/v2/app", "only the command links the real driver, which needs cgo"},
	{"plan", "net/http", "nothing leaves this computer"},
	{"app", "net/http", "nothing leaves this computer"},
}

type listed struct {
	ImportPath string
	Doc        string
	Imports    []string
}

func ours(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Doc,Imports", "eavelight/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var all []listed
	for dec := json.NewDecoder(bytes.NewReader(out)); dec.More(); {
		var p listed
		if err := dec.Decode(&p); err != nil {
			t.Fatal(err)
		}
		p.ImportPath = strings.TrimPrefix(p.ImportPath, "eavelight/")
		all = append(all, p)
	}
	return all
}

// TestArrows holds every import of ours to the table above.
func TestArrows(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range ours(t) {
		seen[p.ImportPath] = true
		if strings.HasPrefix(p.ImportPath, "assets/gen/") { // generators, run by hand
			continue
		}
		allowed, known := arrows[p.ImportPath]
		if !known {
			t.Errorf("%s has no row in the table of arrows", p.ImportPath)
			continue
		}
		for _, imported := range p.Imports {
			if short, isOurs := strings.CutPrefix(imported, "eavelight/"); isOurs && !slices.Contains(allowed, short) {
				t.Errorf("%s may not import %s", p.ImportPath, short)
			}
			for _, b := range bans {
				under := p.ImportPath == b.part || strings.HasPrefix(p.ImportPath, b.part+"/")
				if under && (imported == b.banned || strings.HasPrefix(imported, b.banned+"/") && b.banned != "fyne.io/fyne/v2/app") {
					t.Errorf("%s may not import %s: %s", p.ImportPath, imported, b.why)
				}
			}
		}
	}
	for p := range arrows {
		if !seen[p] {
			t.Errorf("the table of arrows names %s, which is not there", p)
		}
	}
}

// TestEveryPackageSaysWhatItIs demands a package comment.
func TestEveryPackageSaysWhatItIs(t *testing.T) {
	for _, p := range ours(t) {
		if p.Doc == "" {
			t.Errorf("%s has no package comment", p.ImportPath)
		}
	}
}
