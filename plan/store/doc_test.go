package store

import (
	"go/parser"
	"go/token"
	"os"
	"strings"
	"testing"
)

// example is the annotated plan in the package comment.
func example(t testing.TB) []byte {
	t.Helper()
	src, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	f, err := parser.ParseFile(token.NewFileSet(), "doc.go", src, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	_, text, found := strings.Cut(f.Doc.Text(), "\teavelight: 1\n")
	if !found {
		t.Fatal("the package comment shows no plan")
	}
	var out strings.Builder
	out.WriteString("eavelight: 1\n")
	for line := range strings.Lines(text) {
		if line != "\n" && line[0] != '\t' {
			break
		}
		out.WriteString(strings.TrimPrefix(line, "\t"))
	}
	return []byte(out.String())
}

func TestExampleInPackageCommentIsAPlan(t *testing.T) {
	p, err := Decode("doc.go", example(t))
	if err != nil {
		t.Fatal(err)
	}
	data, err := Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%s", data)
}
