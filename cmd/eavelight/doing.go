package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"
	"unicode/utf8"
)

// patience is how long work may take before it is told of.
const patience = 200 * time.Millisecond

// doing tells on one line, which it writes anew and wipes out in the end, what is being done and for how long. Hear changes what
// that is; end ends it, before anything else is written.
func (w world) doing(what string) (hear func(what string), end func()) {
	steps, ended := make(chan string), make(chan struct{})
	go func() {
		defer close(ended)
		line, since, ticks := "", time.Now(), time.NewTicker(patience)
		defer ticks.Stop()
		for {
			select {
			case <-ticks.C:
				line = over(w.told, line, fmt.Sprintf("%s… %d s (Ctrl+C stops it)", what, int(time.Since(since).Seconds())))
			case next, more := <-steps:
				if !more {
					over(w.told, line, "")
					return
				}
				what = next
			}
		}
	}()
	return func(what string) { steps <- what }, func() { close(steps); <-ended }
}

// over writes a line over the one that stands there, and returns it.
func over(out io.Writer, before, line string) string {
	if gone := utf8.RuneCountInString(before); line != before {
		fmt.Fprintf(out, "\r%s\r%s", strings.Repeat(" ", gone), line)
	}
	return line
}

// onTerminal is where progress is told: a terminal, but no file or pipe, which somebody reads later.
func onTerminal(f *os.File) io.Writer {
	if info, err := f.Stat(); err == nil && info.Mode()&os.ModeCharDevice != 0 {
		return f
	}
	return io.Discard
}
