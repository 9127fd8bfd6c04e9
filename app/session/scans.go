package session

import (
	"context"
	"path/filepath"
	"reflect"

	"eavelight/plan"
	"eavelight/plan/people"
)

// CheckScans looks in the background whether the scans of releases are there and are what they were. It is done after edits of
// them; files change behind the window too. What was found before stands until then, and what comes late is dropped.
func (s *Session) CheckScans() {
	s.unread()
	ctx, cancel := context.WithCancel(context.Background())
	s.unread = cancel
	p, dir := s.snapshots[s.at].plan, filepath.Dir(s.path)
	s.read = p.Releases
	s.work.Go(func() {
		scans, err := people.Scans(ctx, dir, &p)
		if err != nil { // another reading began
			return
		}
		s.post(func() {
			if ctx.Err() == nil && !(len(scans) == 0 && len(s.results.Scans) == 0) && !reflect.DeepEqual(scans, s.results.Scans) {
				s.results.Scans = scans
				s.changed()
			}
		})
	})
}

// sameScans reports whether two lists of releases have the same scans to be read.
func sameScans(a, b []plan.Release) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].ID != b[i].ID || a[i].Status != b[i].Status || !reflect.DeepEqual(a[i].Scan, b[i].Scan) {
			return false
		}
	}
	return true
}
