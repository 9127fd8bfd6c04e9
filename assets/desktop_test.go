package assets_test

import (
	"encoding/json"
	"encoding/xml"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/store"

	"github.com/BurntSushi/toml"
)

// suffix is app.Suffix, which is not imported because that would bring the window with it; TestAppIsTrue looks there.
const suffix = ".eavelight"

// app is FyneApp.toml, which says who the program is; what desktops are told must say the same.
type app struct {
	Details struct {
		Icon, Name, ID, Version string
		Build                   int
	}
	CanOpen     struct{ MimeTypes string }
	LinuxAndBSD struct {
		GenericName, Comment string
		Categories, Keywords []string
	}
}

func theApp(t *testing.T) app {
	t.Helper()
	var a app
	read, err := toml.DecodeFile("../FyneApp.toml", &a)
	if err != nil {
		t.Fatal(err)
	}
	if more := read.Undecoded(); len(more) > 0 {
		t.Fatalf("FyneApp.toml has keys that nobody compares: %v", more)
	}
	return a
}

func text(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// finds holds what a pattern finds in a file to what it should find, each time.
func finds(t *testing.T, path, pattern, want string) {
	t.Helper()
	found := regexp.MustCompile(pattern).FindAllStringSubmatch(text(t, path), -1)
	if len(found) == 0 {
		t.Errorf("%s has nothing like %s", path, pattern)
	}
	for _, f := range found {
		if f[1] != want {
			t.Errorf("%s says %q, want %q", path, f[1], want)
		}
	}
}

func TestAppIsTrue(t *testing.T) {
	a := theApp(t)
	icon, err := os.ReadFile(filepath.Join("..", a.Details.Icon))
	if err != nil || string(icon) != string(assets.Icon) {
		t.Errorf("the icon %s is not the one built in: %v", a.Details.Icon, err)
	}
	// Debian Policy 5.6.12 and the four numbers of Windows' VERSIONINFO take this; cmd/release.sh makes both from it.
	if !regexp.MustCompile(`^\d+\.\d+\.\d+$`).MatchString(a.Details.Version) || a.Details.Build < 1 {
		t.Errorf("version %q, build %d", a.Details.Version, a.Details.Build)
	}
	finds(t, "../cmd/eavelight/window.go", `const appID = "(.*)"`, a.Details.ID)
	finds(t, "../app/files.go", `const Suffix = "(.*)"`, suffix)
}

// entry reads a desktop entry: the Desktop Entry Specification, section "Basic format of the file".
func entry(t *testing.T, path string) map[string]string {
	t.Helper()
	lines := strings.Split(strings.TrimSpace(text(t, path)), "\n")
	if lines[0] != "[Desktop Entry]" {
		t.Fatalf("%s begins with %q", path, lines[0])
	}
	keys := map[string]string{}
	for _, line := range lines[1:] {
		key, value, ok := strings.Cut(line, "=")
		if _, twice := keys[key]; !ok || twice {
			t.Fatalf("%s: %q", path, line)
		}
		keys[key] = value
	}
	return keys
}

func TestDesktopEntrySaysWhatTheAppIs(t *testing.T) {
	a := theApp(t)
	got := entry(t, "desktop/"+a.Details.ID+".desktop")
	list := func(words []string) string { return strings.Join(words, ";") + ";" }
	for key, want := range map[string]string{
		"Type": "Application", "Name": a.Details.Name, "Icon": a.Details.ID, "StartupWMClass": a.Details.ID, "MimeType": a.CanOpen.MimeTypes,
		"GenericName": a.LinuxAndBSD.GenericName, "Comment": a.LinuxAndBSD.Comment,
		"Categories": list(a.LinuxAndBSD.Categories), "Keywords": list(a.LinuxAndBSD.Keywords),
		"Exec": "eavelight %f", "TryExec": "eavelight", // what install.sh looks for
	} {
		if got[key] != want {
			t.Errorf("%s is %q, want %q", key, got[key], want)
		}
	}
}

func TestKindOfFileSaysWhatTheAppOpens(t *testing.T) {
	a := theApp(t)
	var info struct {
		XMLName xml.Name `xml:"http://www.freedesktop.org/standards/shared-mime-info mime-info"`
		Types   []struct {
			Type string `xml:"type,attr"`
			Icon struct {
				Name string `xml:"name,attr"`
			} `xml:"icon"`
			Globs []struct {
				Pattern string `xml:"pattern,attr"`
			} `xml:"glob"`
		} `xml:"mime-type"`
	}
	if err := xml.Unmarshal([]byte(text(t, "desktop/"+a.Details.ID+".xml")), &info); err != nil {
		t.Fatal(err)
	}
	if len(info.Types) != 1 || len(info.Types[0].Globs) != 1 {
		t.Fatalf("%d kinds of files", len(info.Types))
	}
	if k := info.Types[0]; k.Type+";" != a.CanOpen.MimeTypes || k.Icon.Name != a.Details.ID || k.Globs[0].Pattern != "*"+suffix {
		t.Errorf("the kind of file is %+v", k)
	}
}

// The reader is Python's plistlib. The keys are those of Apple's "Information Property List Key Reference"; from memory.
func TestPropertyListSaysWhatTheAppIs(t *testing.T) {
	a := theApp(t)
	tool(t, "python3")
	out, err := exec.Command("python3", "-c", "import plistlib,json,sys; print(json.dumps(plistlib.load(open('desktop/Info.plist','rb'))))").CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	type kind struct {
		CFBundleTypeRole   string
		LSItemContentTypes []string
	}
	type declared struct {
		UTTypeIdentifier       string
		UTTypeTagSpecification map[string][]string
	}
	var got struct {
		CFBundleName, CFBundleIdentifier, CFBundleExecutable, CFBundleShortVersionString, CFBundleVersion string
		CFBundleDocumentTypes                                                                             []kind
		UTExportedTypeDeclarations                                                                        []declared
	}
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	if got.CFBundleName != a.Details.Name || got.CFBundleIdentifier != a.Details.ID || got.CFBundleExecutable != "eavelight" ||
		got.CFBundleShortVersionString != "@VERSION@" || got.CFBundleVersion != "@BUILD@" {
		t.Errorf("the property list says %+v", got)
	}
	if len(got.CFBundleDocumentTypes) != 1 || len(got.UTExportedTypeDeclarations) != 1 {
		t.Fatalf("the property list says %+v", got)
	}
	its := got.UTExportedTypeDeclarations[0]
	if its.UTTypeTagSpecification["public.filename-extension"][0] != suffix[1:] ||
		its.UTTypeTagSpecification["public.mime-type"][0]+";" != a.CanOpen.MimeTypes ||
		!slices.Equal(got.CFBundleDocumentTypes[0].LSItemContentTypes, []string{its.UTTypeIdentifier}) {
		t.Errorf("the property list says %+v", got)
	}
}

func TestWindowsIsToldWhatTheAppIs(t *testing.T) {
	a := theApp(t)
	finds(t, "desktop/eavelight.rc", `"ProductName", "(.*)"`, a.Details.Name)
	finds(t, "desktop/eavelight.rc", `"InternalName", "(.*)"`, a.Details.ID)
	finds(t, "desktop/associate.cmd", `%KEY%\\(\.\w+)`, suffix)
	finds(t, "desktop/associate.cmd", `"Content Type" /d "(.*?)"`, strings.TrimSuffix(a.CanOpen.MimeTypes, ";"))
	// What one script puts in, the other takes out.
	for _, key := range regexp.MustCompile(`%KEY%\\([.\w]+)`).FindAllStringSubmatch(text(t, "desktop/associate.cmd"), -1) {
		if !strings.Contains(text(t, "desktop/forget.cmd"), `reg delete "HKCU\Software\Classes\`+key[1]+`" /f`) {
			t.Errorf("forget.cmd leaves %s", key[1])
		}
	}
}

// tool skips a test whose reader is missing, but in CI, which installs them all.
func tool(t *testing.T, names ...string) {
	t.Helper()
	for _, name := range names {
		if _, err := exec.LookPath(name); err == nil {
			continue
		}
		if os.Getenv("CI") == "true" && runtime.GOOS == "linux" {
			t.Fatalf("%s is missing; cmd/need.sh installs it", name)
		}
		t.Skipf("%s is missing; sh cmd/test.sh installs it", name)
	}
}

// desk is a home with a desktop's lists in it.
type desk struct {
	*testing.T
	home, prefix string
}

// newDesk lays out what the archive for Linux holds, with a program that only writes down what it is asked, and installs it with
// the archive's own script into a folder with a space in its name.
func newDesk(t *testing.T) desk {
	t.Helper()
	tool(t, "gio", "update-mime-database", "update-desktop-database")
	home := t.TempDir()
	d := desk{t, home, filepath.Join(home, "my programs")}
	id := theApp(t).Details.ID
	for from, to := range map[string]string{
		"desktop/" + id + ".desktop": "share/applications/" + id + ".desktop",
		"desktop/" + id + ".xml":     "share/mime/packages/" + id + ".xml",
		"desktop/install.sh":         "install.sh",
	} {
		d.write("archive/"+to, text(t, from))
	}
	d.write("archive/bin/eavelight", "#!/bin/sh\nprintf '%s|' \"$@\" >\"$HOME/asked.new\" && mv \"$HOME/asked.new\" \"$HOME/asked\"\n")
	if err := os.Chmod(d.home+"/archive/bin/eavelight", 0o755); err != nil {
		t.Fatal(err)
	}
	d.run("sh", "archive/install.sh")
	return d
}

// write puts a file into the home.
func (d desk) write(name, content string) string {
	d.Helper()
	path := filepath.Join(d.home, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		d.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
		d.Fatal(err)
	}
	return path
}

func (d desk) run(name string, args ...string) string {
	d.Helper()
	c := exec.Command(name, args...)
	c.Dir = d.home
	c.Env = []string{"PATH=" + os.Getenv("PATH"), "HOME=" + d.home, "PREFIX=" + d.prefix, "XDG_DATA_HOME=" + d.prefix + "/share",
		"XDG_CONFIG_HOME=" + d.home + "/config", "DBUS_SESSION_BUS_ADDRESS=disabled:", "LC_ALL=C.UTF-8"}
	out, err := c.CombinedOutput()
	if err != nil {
		d.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return string(out)
}

// asked is what the program was asked, once it was; a desktop does not wait for the programs that it starts.
func (d desk) asked() string {
	d.Helper()
	for end := time.Now().Add(time.Minute); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if b, err := os.ReadFile(d.home + "/asked"); err == nil {
			return string(b)
		}
	}
	d.Fatal("the program was not started")
	return ""
}

// The reader is GLib's gio, with the lists that update-mime-database of shared-mime-info made.
func TestDesktopKnowsAPlan(t *testing.T) {
	d := newDesk(t)
	demo := text(t, "../testdata/tarn-ledge.eavelight")
	empty, err := store.Encode(plan.New())
	if err != nil {
		t.Fatal(err)
	}
	ours := strings.TrimSuffix(theApp(t).CanOpen.MimeTypes, ";")
	for _, c := range []struct {
		what, name, content string
		is                  bool
	}{
		{"the demo", "tarn-ledge.eavelight", demo, true},
		{"an empty plan", "new.eavelight", string(empty), true},
		{"a plan that lost its suffix", "tarn-ledge", demo, true},
		{"an empty plan that lost its suffix", "new", string(empty), true},
		{"a plan after a mark of UTF-8", "mark.eavelight", "\ufeff" + demo, true},
		{"a rate card", "rates", text(t, "rates/starter.yaml"), false},
		{"a letter about a plan", "letter", "Dear Ines,\neavelight: 1 is how it begins.\n", false},
	} {
		out := d.run("gio", "info", "-a", "standard::content-type", d.write(c.name, c.content))
		if is := strings.Contains(out, "content-type: "+ours+"\n"); is != c.is {
			t.Errorf("%s is a plan: %v, want %v\n%s", c.what, is, c.is, out)
		}
	}
}

// A double click on a plan starts the program with the plan's path, however the plan is called and wherever the program is.
func TestDesktopOpensAPlan(t *testing.T) {
	d := newDesk(t)
	a := theApp(t)
	installed := d.prefix + "/share/applications/" + a.Details.ID + ".desktop"
	if out := d.run("gio", "mime", strings.TrimSuffix(a.CanOpen.MimeTypes, ";")); !strings.Contains(out, "Default application") ||
		!strings.Contains(out, a.Details.ID+".desktop") {
		t.Errorf("gio mime: %s", out)
	}
	for _, name := range []string{"plan.eavelight", "Łąka & 'dom' \"x\" %f $HOME 家.eavelight"} {
		os.Remove(d.home + "/asked")
		file := d.write(name, "eavelight: 1\n")
		d.run("gio", "launch", installed, file)
		if got := d.asked(); got != file+"|" {
			t.Errorf("the program was asked for %q, want %q", got, file)
		}
	}
	d.run("sh", "archive/install.sh", "remove")
	if _, err := os.Stat(installed); !os.IsNotExist(err) {
		t.Errorf("the entry stays when the program is taken away: %v", err)
	}
}

// The reader is desktop-file-validate of desktop-file-utils.
func TestDesktopEntryIsValid(t *testing.T) {
	d := newDesk(t)
	tool(t, "desktop-file-validate")
	id := theApp(t).Details.ID
	for _, path := range []string{"desktop/" + id + ".desktop", d.prefix + "/share/applications/" + id + ".desktop"} {
		if out, err := exec.Command("desktop-file-validate", path).CombinedOutput(); err != nil || len(out) > 0 {
			t.Errorf("%v: %s", err, out)
		}
	}
}
