package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestVersionIsStamped builds the program with the name that cmd/release.sh stamps: the linker says nothing when there is no such
// name.
func TestVersionIsStamped(t *testing.T) {
	script, err := os.ReadFile("../release.sh")
	if err != nil {
		t.Fatal(err)
	}
	name := regexp.MustCompile(`-X (\S+)=\$version`).FindSubmatch(script)
	if name == nil {
		t.Fatal("cmd/release.sh stamps no version")
	}
	program := filepath.Join(t.TempDir(), "eavelight")
	build := exec.Command("go", "build", "-buildvcs=false", "-ldflags", "-X "+string(name[1])+"=9.8.7", "-o", program, ".")
	build.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	if out, err := exec.Command(program, "--version").CombinedOutput(); err != nil || strings.TrimSpace(string(out)) != "9.8.7" {
		t.Errorf("the program says it is %q: %v", out, err)
	}
}

// TestScriptsAreRead has the shell read every script of ours, and those that packages carry, without doing what they say.
func TestScriptsAreRead(t *testing.T) {
	scripts, _ := filepath.Glob("../*.sh")
	more, _ := filepath.Glob("../../assets/desktop/*.sh")
	if scripts = append(scripts, more...); len(scripts) < 5 {
		t.Fatalf("found only %q", scripts)
	}
	for _, s := range scripts {
		if out, err := exec.Command("sh", "-n", s).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", s, err, out)
		}
	}
}
