package store

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"
	"unicode"

	"eavelight/plan/say"

	"github.com/gofrs/flock"
)

// Claim is the right to save one plan file, held by one window at a time. The system takes it back when the process
// ends, however it ends.
type Claim struct{ held *flock.Flock }

// LockedError says that another window holds the plan, and what is known of it.
type LockedError struct {
	Path  string
	PID   int    // 0 where it is not known, as the next two
	Host  string // the computer
	Since time.Time
}

func (e *LockedError) Error() string { return e.In(nil) }

// In is Error in a tongue.
func (e *LockedError) In(tongue say.Tongue) string {
	if e.PID == 0 {
		return say.That("%s is open in another window; close it there first", e.Path).In(tongue)
	}
	since := e.Since.Local()
	return say.That("%s is open in another window (process %d on %s, since %s); close it there first",
		e.Path, e.PID, e.Host, say.That("date and time|%s %s", say.DayMonth(since), since.Format("15:04"))).In(tongue)
}

// Lock claims the plan file at path, which need not exist yet. It returns *LockedError where another window has
// it. The claim is a hidden file beside the plan; that file is taken away by Release, and means nothing if it stays.
func Lock(path string) (*Claim, error) {
	target, err := follow(path)
	if err != nil {
		return nil, say.Error("%s can't be locked: %v", path, err)
	}
	name := filepath.Join(filepath.Dir(target), "."+filepath.Base(target)+".lock")
	for range 100 { // each round but the last lost the file to a window that was just closing
		held := flock.New(name, flock.SetFlag(os.O_CREATE|os.O_RDWR), flock.SetPermissions(0o600))
		ok, err := held.TryLock()
		if err != nil {
			return nil, say.Error("%s can't be locked: %v", path, err)
		}
		if !ok {
			return nil, holder(path, name)
		}
		if stillNamed(held, name) {
			sign(name)
			return &Claim{held}, nil
		}
		if err := held.Unlock(); err != nil {
			return nil, err
		}
	}
	return nil, &LockedError{Path: path}
}

// Release gives the plan free. A second Release does nothing.
func (c *Claim) Release() error {
	if !c.held.Locked() {
		return nil
	}
	// The file goes while it is still ours: else another window could lock it in between, and a third one a new file
	// of the same name. Windows removes no open file, and for the same reason none that another window holds.
	if runtime.GOOS != "windows" {
		os.Remove(c.held.Path())
	}
	err := c.held.Unlock()
	if runtime.GOOS == "windows" {
		os.Remove(c.held.Path())
	}
	return err
}

// stillNamed reports whether the file that was locked is the one that stands under the name, not one just removed.
func stillNamed(held *flock.Flock, name string) bool {
	ours, err := held.Stat()
	if err != nil {
		return false
	}
	theirs, err := os.Stat(name)
	return err == nil && os.SameFile(ours, theirs)
}

// The first byte of the file is what Windows locks, against reading too; what there is to know stands after it.
const signAt = 1

// sign writes who holds the lock. It is only for the message that another window shows, so its failing is no failure.
func sign(name string) {
	f, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return
	}
	defer f.Close()
	host, _ := os.Hostname()
	text := fmt.Sprintf("%d %s %s\n", os.Getpid(), time.Now().UTC().Format(time.RFC3339), cmp.Or(host, "?"))
	f.WriteAt([]byte(text), signAt)
}

// holder tells what the lock file says of its holder. Anything could stand there, so little of it is believed.
func holder(path, name string) *LockedError {
	e := &LockedError{Path: path}
	f, err := os.Open(name)
	if err != nil {
		return e
	}
	defer f.Close()
	text, _ := io.ReadAll(io.NewSectionReader(f, signAt, 300))
	var pid int
	var since, host string
	if n, _ := fmt.Sscan(string(text), &pid, &since, &host); n < 3 || pid < 1 {
		return e
	}
	at, err := time.Parse(time.RFC3339, since)
	if err != nil || strings.ContainsFunc(host, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return e
	}
	return &LockedError{Path: path, PID: pid, Host: host, Since: at}
}
