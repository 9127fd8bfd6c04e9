//go:build cgo && linux

package main

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// longest is how long a condition is waited for before the test gives up. A machine without a graphics card, busy with other
// things, needs seconds where a desk needs none.
const longest = 2 * time.Minute

// tools are the programs that stand in for a desk and the person at it.
var tools = []string{"Xvfb", "openbox", "xdotool", "wmctrl", "xprop"}

// desk is a display that nobody sees, with a window manager, and a home of its own for what the program remembers.
type desk struct {
	*testing.T
	program string
	home    string
	env     []string
	picture *os.File // what the display shows, as the X server keeps it
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
	kept := d.TempDir()
	server := d.command("Xvfb", "-displayfd", "3", "-screen", "0", fmt.Sprintf("%dx%dx24", width, height), "-nolisten", "tcp",
		"-nocursor", "-fbdir", kept)
	server.ExtraFiles = []*os.File{tell}
	d.begin(server)
	tell.Close()
	line, err := bufio.NewReader(number).ReadString('\n')
	if err != nil {
		d.Fatalf("Xvfb told no display: %v", err)
	}
	if d.picture, err = os.Open(filepath.Join(kept, "Xvfb_screen0")); err != nil {
		d.Fatal(err)
	}
	d.Cleanup(func() { d.picture.Close() })
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
	for end := time.Now().Add(longest); !ok(); time.Sleep(50 * time.Millisecond) {
		if time.Now().After(end) {
			d.keep("failed", d.screen())
			d.Fatalf("waited %s in vain until %s", longest, what)
		}
	}
}

// screen takes a screenshot.
func (d *desk) screen() *shot {
	d.Helper()
	img := d.part(image.Rect(0, 0, math.MaxInt, math.MaxInt))
	return &shot{newScreen(img), img}
}

// part is what the display shows in an area, as far as there is a display.
func (d *desk) part(area image.Rectangle) *image.RGBA {
	d.Helper()
	img, err := readXWD(d.picture, area)
	if err != nil {
		d.Fatal(err)
	}
	return img
}

// readXWD reads an area of an X window dump of 32 bits a pixel, blue first, as Xvfb keeps its screen in a file: a head of 25 numbers, the
// name, a table of colours, the pixels (X11/XWDFile.h of xorgproto).
func readXWD(f io.ReaderAt, area image.Rectangle) (*image.RGBA, error) {
	var head [25]uint32
	if err := binary.Read(io.NewSectionReader(f, 0, int64(binary.Size(head))), binary.BigEndian, &head); err != nil {
		return nil, err
	}
	size, version, bits, line, colours := head[0], head[1], head[11], int(head[12]), head[19]
	if version != 7 || bits != 32 {
		return nil, fmt.Errorf("an X window dump of version %d with %d bits a pixel", version, bits)
	}
	area = area.Intersect(image.Rect(0, 0, int(head[4]), int(head[5])))
	data := make([]byte, line*area.Dy())
	if _, err := f.ReadAt(data, int64(size+12*colours)+int64(line*area.Min.Y)); err != nil {
		return nil, err
	}
	img := image.NewRGBA(area)
	for y := range area.Dy() {
		from, to := data[y*line+4*area.Min.X:], img.Pix[y*img.Stride:]
		for x := 0; x < 4*area.Dx(); x += 4 {
			to[x], to[x+1], to[x+2], to[x+3] = from[x+2], from[x+1], from[x], 0xff
		}
	}
	return img, nil
}

// shot is a screenshot, to look at and to keep.
type shot struct {
	*screen
	picture image.Image
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
	var data bytes.Buffer
	if err := png.Encode(&data, s.picture); err != nil {
		d.Fatal(err)
	}
	if err := os.WriteFile(path, data.Bytes(), 0o644); err != nil {
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
