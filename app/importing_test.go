package app

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"eavelight/app/view"
)

// What an import did stays told when its people have been compared with the plan that has them: the 300 are not counted twice, which would be
// more than a plan holds.
func TestImportStaysTold(t *testing.T) {
	d, _ := openDemo(t)
	var cards strings.Builder
	for i := range 300 {
		fmt.Fprintf(&cards, "BEGIN:VCARD\r\nVERSION:4.0\r\nFN:Person %c%c Orvane\r\nEMAIL:p%d@example.org\r\nEND:VCARD\r\n", 'A'+i/26, 'a'+i%26, i)
	}
	file := filepath.Join(t.TempDir(), "people.vcf")
	if err := os.WriteFile(file, []byte(cards.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	d.goTo(view.People)
	d.press("Import contacts…")
	path := d.entry("the file with its folder")
	path.SetText(file)
	path.OnSubmitted(file)
	d.settle()
	d.press("Take 300 people")
	d.settle()
	if !d.says("300 people added. Undo takes it back.") {
		t.Error("what was taken is no longer told")
	}
}
