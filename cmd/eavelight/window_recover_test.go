//go:build cgo && linux

package main

import (
	"bytes"
	"path/filepath"
	"testing"

	"eavelight/plan/store"
)

// testRecover kills the program over changes that are not saved, and brings them back when it starts again; others it throws away
// when it opens their plan.
func testRecover(t *testing.T, program string) {
	const changed = "• " + demoTitle
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	original := read(t, file)
	kept := func() []string {
		files, _ := filepath.Glob(filepath.Join(d.home, "eavelight", "unsaved", "*.eavelight"))
		return files
	}
	killed := func(w *window) {
		w.until("the changes are kept aside", func() bool { return len(kept()) == 1 })
		w.Process.Kill() // SIGKILL
		<-w.ended
	}
	w := d.open(file, demoTitle)
	w.click("Client", 60)
	w.press("End")
	w.write(" and sons")
	w.untilTitle(changed)
	killed(w)
	if !bytes.Equal(read(t, file), original) {
		t.Fatal("the file was written although nobody saved")
	}

	w = d.open("", "Untitled plan – Eavelight")
	w.see("Changes that were not saved")
	w.keep("question", w.still())
	w.click("Bring them back", 0)
	w.untilTitle(changed)
	w.press("ctrl+s")
	w.untilTitle(demoTitle)
	w.until("nothing is kept aside", func() bool { return len(kept()) == 0 })
	if p, _, err := store.Read(file); err != nil || p.Brief.Client != "Harrow Lane Estates and sons" {
		t.Errorf("the client in the file is %q, %v", p.Brief.Client, err)
	}
	w.click("Client", 60)
	w.press("End")
	w.write(" Ltd")
	w.untilTitle(changed)
	killed(w)

	w = d.open(file, demoTitle)
	w.click("Throw them away", 0)
	w.until("nothing is kept aside", func() bool { return len(kept()) == 0 })
	w.press("ctrl+q")
	w.untilEnded()
}
