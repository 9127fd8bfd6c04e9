package contacts

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"eavelight/plan"
)

func file(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

const cards = "BEGIN:VCARD\r\nVERSION:4.0\r\nFN:Pell Orrin\r\nTEL:+1 555 010 0001\r\nEND:VCARD\r\n"

// TestReadFile: a file is told by what is in it, whatever it is called, and one that can't be read in words.
func TestReadFile(t *testing.T) {
	for _, c := range []struct {
		name, text string
		people     int
		table      bool
		says       string
	}{
		{"book.vcf", cards, 1, false, ""},
		{"book.txt", cards, 1, false, ""},
		{"book.csv", "\ufeff" + cards, 1, false, ""},
		{"list.csv", "Name,Phone\nPell Orrin,555 010 0001\nSuri Vane,555 010 0002\n", 2, true, ""},
		{"list", "Name\tPhone\nPell Orrin\t555 010 0001\n", 1, true, ""},
		{"list.vcf", "Name,Phone\nPell Orrin,555 010 0001\n", 0, false, "nobody"},
		{"empty.csv", "", 0, false, "nobody"},
		{"book.xlsx", "PK\x03\x04\x14\x00\x06\x00", 0, false, "save the list as CSV"},
		{"large.csv", "Name\n" + strings.Repeat("x", MaxBytes), 0, false, "10 MB"},
		{"wide16.csv", "\xff\xfeN\x00a\x00m\x00e\x00,\x00P\x00h\x00o\x00n\x00e\x00\n\x00P\x00e\x00l\x00,\x005\x005\x005\x000\x001\x000\x000\x00", 1, true, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := ReadFile(file(t, c.name, c.text), today)
			if c.says != "" {
				if err == nil || !strings.Contains(err.Error(), c.says) || !strings.HasPrefix(err.Error(), c.name) {
					t.Fatalf("%v, want %q", err, c.says)
				}
				return
			}
			if err != nil || len(f.Contacts) != c.people || (f.Table != nil) != c.table {
				t.Errorf("%d people, a table: %v, %v", len(f.Contacts), f.Table != nil, err)
			}
		})
	}
	for path, says := range map[string]string{t.TempDir(): "is a folder", filepath.Join(t.TempDir(), "gone.csv"): "there is no file"} {
		if _, err := ReadFile(path, today); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// TestWriteFile: what is written is read again as it was, only its owner may read it, and nothing is written over unasked.
func TestWriteFile(t *testing.T) {
	people := []plan.Person{person("suri", "Suri Väne", "+1 555 010 0002", "suri@example.com"), person("ruth", "רות", "", "")}
	path := filepath.Join(t.TempDir(), "people.vcf")
	if err := WriteFile(path, people, false); err != nil {
		t.Fatal(err)
	}
	f, err := ReadFile(path, today)
	if err != nil {
		t.Fatal(err)
	}
	for _, pr := range Propose(people, f.Contacts) {
		if pr.Action != Same {
			t.Errorf("read again, %s is %s", pr.Contact.Person.Name, pr.Action)
		}
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	before, _ := os.ReadFile(path)
	if err := WriteFile(path, people[:1], false); !errors.Is(err, fs.ErrExist) || !strings.HasSuffix(err.Error(), "is there already") {
		t.Errorf("over a file: %v", err)
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) {
		t.Error("the file was changed all the same")
	}
	if err := WriteFile(path, people[:1], true); err != nil {
		t.Error(err)
	}
	if after, _ := os.ReadFile(path); len(after) >= len(before) {
		t.Error("the file was not replaced")
	}
	if err := WriteFile(filepath.Join(path, "x.vcf"), people, false); err == nil || !strings.Contains(err.Error(), "was not written") {
		t.Errorf("into a file: %v", err)
	}
	if left, _ := os.ReadDir(filepath.Dir(path)); len(left) != 1 {
		t.Errorf("%d files are left behind", len(left)-1)
	}
}
