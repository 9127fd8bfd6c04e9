package store

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// The test binary started again with this in its environment is another window: it saves or locks the named plan.
const childTask, childPath = "STORE_TEST_TASK", "STORE_TEST_PATH"

func TestMain(m *testing.M) {
	switch path := os.Getenv(childPath); os.Getenv(childTask) {
	case "save":
		saveForever(path)
	case "lock":
		lockUntilTold(path)
	default:
		os.Exit(m.Run())
	}
}

// saveForever saves two plans in turn until it is killed.
func saveForever(path string) {
	_, stamp, err := Read(path)
	fmt.Println("saving", err)
	for i := 0; err == nil; i++ {
		stamp, err = Write(path, titled([]string{"short", "a good deal longer"}[i%2]), stamp)
	}
	fmt.Println(err)
	os.Exit(1)
}

func lockUntilTold(path string) {
	claim, err := Lock(path)
	fmt.Println("locked", err)
	io.ReadAll(os.Stdin)
	claim.Release()
	os.Exit(0)
}

// child starts another window and waits until it says that it is at work.
func child(t *testing.T, task, path, ready string) (*exec.Cmd, io.Closer) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), childTask+"="+task, childPath+"="+path)
	in, err := c.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Process.Kill(); c.Wait() })
	line, err := bufio.NewReader(out).ReadString('\n')
	if line != ready+"\n" {
		t.Fatalf("the other window says %q, %v", line, err)
	}
	return c, in
}

// TestKilledWhileSaving kills a saving process at random moments, two hundred times: the file is always the one plan
// or the other, whole, and its owner's alone; the backup too, once there is one.
func TestKilledWhileSaving(t *testing.T) {
	times := 200
	if testing.Short() {
		times = 20
	}
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	dir := t.TempDir()
	path := filepath.Join(dir, "day.plan.yaml")
	short, long := encoded(t, titled("short")), encoded(t, titled("a good deal longer"))
	must1[Stamp](t)(Write(path, titled("short"), Stamp{}))
	versions, left := map[int]int{}, 0
	for i := range times {
		c, _ := child(t, "save", path, "saving <nil>")
		time.Sleep(time.Duration(random.IntN(20_000)) * time.Microsecond)
		c.Process.Kill()
		c.Wait()
		for _, name := range []string{path, Backup(path)} {
			data, err := os.ReadFile(name)
			if name != path && errors.Is(err, fs.ErrNotExist) {
				continue
			}
			if err != nil || !bytes.Equal(data, short) && !bytes.Equal(data, long) {
				t.Fatalf("kill %d of seed %d left in %s %d bytes, %v", i, seed, filepath.Base(name), len(data), err)
			}
			onlyOwners(t, name)
			versions[len(data)]++
		}
		entries, _ := os.ReadDir(dir)
		left += len(entries) - 2
	}
	t.Logf("versions found, by length: %v; half-written temporary files left and taken away: %d", versions, left)
	_, stamp, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	must1[Stamp](t)(Write(path, titled("the last"), stamp))
	if got := names(t, dir); got != "day.plan.yaml day.plan.yaml~" {
		t.Errorf("the folder holds %s", got)
	}
}
