package store

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the messages of the bad files anew")

// TestBadFiles holds every message about every file in testdata/bad against messages.txt, which is written with
// -update and then read by a person: would the owner, tired, know what to do?
func TestBadFiles(t *testing.T) {
	const golden = "testdata/bad/messages.txt"
	var got bytes.Buffer
	for _, path := range badFiles(t) {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Base(path)
		_, err = Decode(name, data)
		if err == nil {
			t.Errorf("%s is read as a good file", name)
			continue
		}
		got.WriteString(err.Error() + "\n")
		for line := range strings.Lines(err.Error()) {
			if !strings.HasPrefix(line, name) {
				t.Errorf("%s: a message without its file: %q", name, line)
			}
		}
	}
	if *update {
		if err := os.WriteFile(golden, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got.Bytes(), want) {
		t.Errorf("messages differ from %s; got:\n%s", golden, got.Bytes())
	}
}

func badFiles(t testing.TB) []string {
	t.Helper()
	paths, err := filepath.Glob("testdata/bad/*.yaml")
	if err != nil || len(paths) < 40 {
		t.Fatalf("%d bad files, %v", len(paths), err)
	}
	return paths
}
