// Command licences collects the licence texts of every module that is part of the program, on any of the systems it is built
// for, into assets/licences/modules.txt. Run it from the root of the repository after go.mod has changed:
//
//	go run ./assets/gen/licences
package main

import (
	"bytes"
	"fmt"
	"log"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

const target = "assets/licences/modules.txt"

// licence matches the names under which modules keep what they ask to be passed on.
var licence = regexp.MustCompile(`^(?i)(licen[cs]e|copying|notice|copyright)(\.(txt|md))?$`)

// isFolder tells where a module carries code in another language.
func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

func main() {
	log.SetFlags(0)
	folders := map[string]string{} // by module and version
	for _, system := range []string{"linux", "windows", "darwin"} {
		list := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}", "./cmd/eavelight")
		list.Env = append(os.Environ(), "GOOS="+system, "GOARCH=amd64", "CGO_ENABLED=1")
		out, err := list.Output()
		if err != nil {
			log.Fatal(err)
		}
		for line := range strings.Lines(string(out)) {
			if module, folder, ok := strings.Cut(strings.TrimSpace(line), "\t"); ok {
				folders[module] = folder
				if own := filepath.Join(folder, "glfw"); strings.Contains(module, "/glfw ") && isFolder(own) {
					folders["GLFW's own C code"] = own
				}
			}
		}
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		log.Fatal(err)
	}
	folders["Go's own library"] = strings.TrimSpace(string(root))
	var all bytes.Buffer
	for _, module := range slices.Sorted(maps.Keys(folders)) {
		entries, err := os.ReadDir(folders[module])
		if err != nil {
			log.Fatal(err)
		}
		found := false
		for _, e := range entries {
			if e.IsDir() || !licence.MatchString(e.Name()) {
				continue
			}
			text, err := os.ReadFile(filepath.Join(folders[module], e.Name()))
			if err != nil {
				log.Fatal(err)
			}
			found = true
			fmt.Fprintf(&all, "## %s, %s\n\n%s\n\n", module, e.Name(), strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n")))
		}
		if !found {
			log.Fatalf("%s has no licence in %s", module, folders[module])
		}
	}
	if err := os.WriteFile(target, all.Bytes(), 0o644); err != nil {
		log.Fatal(err)
	}
}
