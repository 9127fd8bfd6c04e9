package papers

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// recalculating makes LibreOffice reckon every formula of a workbook anew when it opens it, whatever figures it finds in the file.
const recalculating = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`

// office opens files in LibreOffice, all at once, and saves them with a filter into a folder of their own.
func office(t testing.TB, to string, files map[string][]byte) string {
	t.Helper()
	tool, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("LibreOffice is not installed (Debian: apt install libreoffice-calc-nogui): workbooks are not opened by another program")
	}
	home, in, out := t.TempDir(), t.TempDir(), t.TempDir()
	if err := os.MkdirAll(filepath.Join(home, "user"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(home, "user", "registrymodifications.xcu"), []byte(recalculating), 0o600); err != nil {
		t.Fatal(err)
	}
	args := []string{"-env:UserInstallation=file://" + filepath.ToSlash(home), "--headless", "--convert-to", to, "--outdir", out}
	for name, content := range files {
		path := filepath.Join(in, name)
		if err := os.WriteFile(path, content, 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, path)
	}
	run := exec.Command(tool, args...)
	run.Env = append(os.Environ(), "HOME="+home, "LC_ALL=C.UTF-8")
	if said, err := run.CombinedOutput(); err != nil {
		t.Fatalf("soffice: %v\n%s", err, said)
	}
	return out
}

// The tokens of LibreOffice's filter for comma-separated values: comma, double quote, UTF-8, from line 1, all columns, in English of the
// United States, words quoted, as shown or as they are, no formulas, blanks kept, every sheet a file.
const (
	asShown = "csv:Text - txt - csv (StarCalc):44,34,76,1,,1033,true,true,true,false,false,-1"
	asIs    = "csv:Text - txt - csv (StarCalc):44,34,76,1,,1033,true,true,false,false,false,-1"
)

// opened are the rows of a leaf of a workbook that office has saved.
func opened(t testing.TB, dir, name, leaf string) [][]string {
	t.Helper()
	content, err := os.ReadFile(filepath.Join(dir, name+"-"+leaf+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(bytes.NewReader(content))
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// reread opens a workbook by the library that wrote it.
func reread(t testing.TB, content []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Close() })
	return f
}

// pythonRows reads comma-separated values with Python's csv module: another program's idea of RFC 4180 and of the byte order mark.
func pythonRows(t testing.TB, content []byte) [][]string {
	t.Helper()
	tool, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("python3 is not installed: plain rows are read back by Go alone")
	}
	run := exec.Command(tool, "-c", `
import csv, io, sys
rows = csv.reader(io.StringIO(sys.stdin.buffer.read().decode("utf-8-sig"), newline=""), strict=True)
sys.stdout.buffer.write("\x1e".join("\x1f".join(r) for r in rows).encode())`)
	run.Stdin = bytes.NewReader(content)
	out, err := run.CombinedOutput()
	if err != nil {
		t.Fatalf("python3: %v\n%s", err, out)
	}
	var rows [][]string
	for line := range strings.SplitSeq(string(out), "\x1e") {
		rows = append(rows, strings.Split(line, "\x1f"))
	}
	return rows
}

func cellName(col, row int) string { return fmt.Sprintf("%s%d", column(col), row) }
