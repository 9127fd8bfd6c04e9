//go:build cgo && linux

package main

import (
	"bufio"
	"bytes"
	"fmt"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// patience is how long a condition is waited for before the test gives up. A machine without a graphics card, busy with other
// things, needs seconds where a desk needs none.
const patience = 2 * time.Minute

// tools are the programs that stand in for a desk and the person at it.
var tools = []string{"Xvfb", "openbox", "xdotool", "wmctrl", "xprop", "import"}

// desk is a display that nobody sees, with a window manager, and a home of its own for what the program remembers.
type desk struct {
	*testing.T
	program string
	home    string
	env     []string
}

// newDesk starts a display of a size. Everything it starts ends with the test.
func newDesk(t *testing.T, program string, width, height int) *desk {
	t.Helper()
	home := t.TempDir()
	d := &desk{T: t, program: program, home: home, env: []string{
		"PATH=" + os.Getenv("PATH"), "HOME=" + home, "TMPDIR=" + home,
		"XDG_CONFIG_HOME=" + home, "XDG_CACHE_HOME=" + home, "XDG_RUNTIME_DIR=" + home,
		"DBUS_SESSION_BUS_ADDRESS=disabled:", "LANG=en_US.UTF-8", "FYNE_SCALE=1",
	}}
	d.env = append(d.env, "DISPLAY=:"+d.display(width, height))
	d.start("openbox")
	d.until("the window manager works", func() bool {
		out, err := d.ask("xprop", "-root", "_NET_SUPPORTING_WM_CHECK")
		return err == nil && strings.Contains(out, "window id")
	})
	return d
}

// display starts an X server, which looks for a free number itself and tells it.
func (d *desk) display(width, height int) string {
	d.Helper()
	number, tell, err := os.Pipe()
	if err != nil {
		d.Fatal(err)
	}
	defer number.Close()
	server := d.command("Xvfb", "-displayfd", "3", "-screen", "0", fmt.Sprintf("%dx%dx24", width, height), "-nolisten", "tcp")
	server.ExtraFiles = []*os.File{tell}
	d.begin(server)
	tell.Close()
	line, err := bufio.NewReader(number).ReadString('\n')
	if err != nil {
		d.Fatalf("Xvfb told no display: %v", err)
	}
	return strings.TrimSpace(line)
}

func (d *desk) command(name string, args ...string) *exec.Cmd {
	c := exec.Command(name, args...)
	c.Env, c.Dir = d.env, d.home
	c.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL} // also when the test itself is killed
	return c
}

func (d *desk) start(name string, args ...string) *process {
	d.Helper()
	return d.begin(d.command(name, args...))
}

// process is a program that was started, and its end.
type process struct {
	*exec.Cmd
	said  bytes.Buffer // read it when ended is closed
	ended chan struct{}
}

func (d *desk) begin(c *exec.Cmd) *process {
	d.Helper()
	p := &process{Cmd: c, ended: make(chan struct{})}
	c.Stdout, c.Stderr = &p.said, &p.said
	if err := c.Start(); err != nil {
		d.Fatal(err)
	}
	go func() {
		c.Wait()
		close(p.ended)
	}()
	d.Cleanup(func() {
		c.Process.Kill()
		<-p.ended
		if d.Failed() {
			d.Logf("%s said: %s", filepath.Base(c.Path), p.said.String())
		}
	})
	return p
}

func (p *process) running() bool {
	select {
	case <-p.ended:
		return false
	default:
		return true
	}
}

// ask runs a tool and returns what it prints.
func (d *desk) ask(name string, args ...string) (string, error) {
	out, err := d.command(name, args...).Output()
	return strings.TrimSpace(string(out)), err
}

// do runs a tool that has to work.
func (d *desk) do(name string, args ...string) string {
	d.Helper()
	out, err := d.ask(name, args...)
	if err != nil {
		d.Fatalf("%s %s: %v", name, strings.Join(args, " "), err)
	}
	return out
}

// until waits for a condition.
func (d *desk) until(what string, ok func() bool) {
	d.Helper()
	for end := time.Now().Add(patience); !ok(); time.Sleep(50 * time.Millisecond) {
		if time.Now().After(end) {
			d.keep("failed", d.screen())
			d.Fatalf("waited %s in vain until %s", patience, what)
		}
	}
}

// screen takes a screenshot.
func (d *desk) screen() *shot {
	d.Helper()
	c := d.command("import", "-window", "root", "png:-")
	data, err := c.Output()
	if err != nil {
		d.Fatalf("import: %v", err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		d.Fatal(err)
	}
	return &shot{newScreen(img), data}
}

// shot is a screenshot, to look at and to keep.
type shot struct {
	*screen
	png []byte
}

// shots is the folder that the caller of the test wants the screenshots in, or nothing.
var shots = os.Getenv("EAVELIGHT_SHOTS")

// keep writes a screenshot where somebody may want to look at it.
func (d *desk) keep(name string, s *shot) {
	d.Helper()
	if shots == "" {
		return
	}
	path := filepath.Join(shots, strings.ReplaceAll(strings.TrimPrefix(d.Name(), "TestWindow/"), "/", "-")+"-"+name+".png")
	if err := os.WriteFile(path, s.png, 0o644); err != nil {
		d.Fatal(err)
	}
}

// copyDemo puts the demo plan, under a name, into the home of the desk.
func (d *desk) copyDemo() string {
	d.Helper()
	path := filepath.Join(d.home, "tarn-ledge.eavelight")
	if err := os.WriteFile(path, read(d.T, "../../testdata/tarn-ledge.eavelight"), 0o600); err != nil {
		d.Fatal(err)
	}
	return path
}

func read(t *testing.T, path string) []byte {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	data, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
