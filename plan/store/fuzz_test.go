package store

import (
	"errors"
	"os"
	"testing"

	"eavelight/plan"
)

// FuzzDecode asks of any bytes: no panic; a refusal that says something; or a plan that is not Wrong, can be written,
// with its comments or without, and reads back the same.
func FuzzDecode(f *testing.F) {
	f.Add(example(f))
	for _, path := range badFiles(f) {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(handWritten))
	f.Add([]byte("eavelight: 1\ntitle: \"\\0\\x07\\u2028\\r\\n\"\nbrief:\n  notes: >-\n    folded\n\n    text\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := Decode("fuzz", data)
		if err != nil {
			checkRefusal(t, err)
			return
		}
		if wrong := plan.Validate(p).At(plan.Wrong); len(wrong) > 0 {
			t.Fatalf("read a plan that is wrong: %v", wrong)
		}
		out, err := Encode(p)
		if err != nil {
			t.Fatal(err)
		}
		back, err := Decode("written", out)
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		if !same(p, back) {
			t.Fatalf("read %+v\nwritten and read %+v", p, back)
		}
		if back, err := Decode("commented", keepComments(out, data)); err != nil || !same(p, back) {
			t.Fatalf("%v\nread %+v\nwritten with its comments and read %+v", err, p, back)
		}
	})
}

// checkRefusal holds an error of Decode to what the package promises.
func checkRefusal(t *testing.T, err error) {
	t.Helper()
	var faults Faults
	var newer *NewerError
	switch {
	case errors.As(err, &newer):
	case !errors.As(err, &faults) || len(faults) == 0:
		t.Fatalf("%#v is no list of faults", err)
	}
	for i, f := range faults {
		if f.Text.IsZero() || f.File == "" || i > 0 && f.Line > 0 && f.Line < faults[i-1].Line {
			t.Fatalf("fault %d says nothing, or is out of order: %v", i, faults)
		}
	}
}
