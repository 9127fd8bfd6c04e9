package store

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

func TestAnotherWindowHoldsThePlan(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "day.plan.yaml")
	before := time.Now().Add(-2 * time.Second)
	c, in := child(t, "lock", path, "locked <nil>")

	_, err := Lock(path)
	var locked *LockedError
	if !errors.As(err, &locked) {
		t.Fatalf("got %v", err)
	}
	host, _ := os.Hostname()
	if locked.PID != c.Process.Pid || locked.Host != host || locked.Since.Before(before) || locked.Since.After(time.Now()) {
		t.Errorf("got %+v of process %d", locked, c.Process.Pid)
	}
	if !strings.HasPrefix(err.Error(), path+" is open in another window (process ") {
		t.Errorf("got %v", err)
	}

	in.Close() // told to let go
	if err := c.Wait(); err != nil {
		t.Fatal(err)
	}
	claim, err := Lock(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(claim.Release(), claim.Release()); err != nil {
		t.Error(err)
	}
	if got := names(t, dir); got != "" {
		t.Errorf("the folder holds %s", got)
	}
}

func TestAKilledWindowHoldsNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "day.plan.yaml")
	c, _ := child(t, "lock", path, "locked <nil>")
	if _, err := Lock(path); err == nil {
		t.Fatal("two windows hold one plan")
	}
	c.Process.Kill()
	c.Wait()
	claim, err := Lock(path)
	if err != nil {
		t.Fatal(err)
	}
	claim.Release()
}

func TestLockHoldsByWhateverName(t *testing.T) {
	dir := t.TempDir()
	path, link := filepath.Join(dir, "day.plan.yaml"), filepath.Join(dir, "link.yaml")
	must1[Stamp](t)(Write(path, titled("one"), Stamp{}))
	if err := os.Symlink(path, link); err != nil {
		t.Skip("this system makes no links: ", err)
	}
	claim := must1[*Claim](t)(Lock(path))
	if _, err := Lock(link); err == nil {
		t.Error("the link is free while its plan is not")
	}
	claim.Release()
}

// TestNeverTwoHolders has many windows take and leave one plan, so that lock files come and go under each other.
func TestNeverTwoHolders(t *testing.T) {
	path := filepath.Join(t.TempDir(), "day.plan.yaml")
	var inside, held atomic.Int32
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 200 {
				claim, err := Lock(path)
				var locked *LockedError
				if errors.As(err, &locked) {
					continue
				}
				if err != nil {
					t.Error(err)
					return
				}
				if inside.Add(1) > 1 {
					t.Error("two windows hold one plan")
				}
				held.Add(1)
				time.Sleep(100 * time.Microsecond) // long enough for a second one to come in, if it can
				inside.Add(-1)
				claim.Release()
			}
		})
	}
	all.Wait()
	if held.Load() == 0 {
		t.Error("nobody ever held it")
	}
}

// TestALockFileIsNotBelieved puts into the lock file what somebody else could have left there.
func TestALockFileIsNotBelieved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "day.plan.yaml")
	claim := must1[*Claim](t)(Lock(path))
	defer claim.Release()
	for _, text := range []string{"", " 12", " -4 2027-03-06T10:00:00Z host\n", " 12 yesterday host\n", " 12 2027-03-06T10:00:00Z \x1b[2J\n",
		strings.Repeat("9", 5000)} {
		if err := os.WriteFile(claim.held.Path(), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		_, err := Lock(path)
		var locked *LockedError
		if !errors.As(err, &locked) || locked.PID != 0 || !strings.Contains(err.Error(), "is open in another window; close it") {
			t.Errorf("%.20q gives %v", text, err)
		}
	}
}
