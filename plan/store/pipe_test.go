//go:build unix

package store

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A pipe would keep a reader waiting for its other end, and a device has no end.
func TestPipesAndDevicesAreRefused(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Skip("this disk holds no pipes: ", err)
	}
	for _, path := range []string{pipe, "/dev/zero"} {
		if _, _, err := Read(path); err == nil || !strings.Contains(err.Error(), "a device or a pipe, not a plan file") {
			t.Errorf("%s gives %v", path, err)
		}
		if _, err := Overwrite(path, titled("one")); err == nil {
			t.Errorf("%s is written over", path)
		}
	}
}
