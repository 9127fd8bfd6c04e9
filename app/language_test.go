package app

import (
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/store"
	"eavelight/testdata"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/widget"
)

// TestLanguageClockAndWeek: what is chosen in the settings holds at once, for the menu, the page and what a calendar and Fyne's own
// dialogs say; the next window has it too, and English comes back whole.
func TestLanguageClockAndWeek(t *testing.T) {
	d, _ := openDemo(t)
	t.Cleanup(func() { tongue.Use("en"); tongue.UseClock12(false); tongue.UseWeekStart(time.Monday) })
	d.goTo(view.Scenes)
	d.menuItem("Settings…").Action()
	d.turnTo("Español")
	d.settle()
	if d.menu.main.Items[0].Label != "Archivo" || d.current != view.Scenes || !d.says("Ajustes") || !d.says("Idioma") {
		t.Errorf("the menu begins with %q, the page is %q", d.menu.main.Items[0].Label, d.current)
	}
	if got := d.lacking[view.Property]; got != "7 espacios" {
		t.Errorf("beside the pages stands %q", got)
	}
	d.turnTo("12 horas")
	d.turnTo("domingo")
	if got := tongue.Hour(time.Date(2027, 10, 16, 18, 5, 0, 0, time.UTC)); got != "6:05\u00a0pm" || tongue.WeekStart() != time.Sunday {
		t.Errorf("five past six is %q, the week begins on %v", got, tongue.WeekStart())
	}
	tongue.Use("en")
	next := New(Config{App: d.app, Post: func(func()) {}, Now: d.Window.now})
	if next.menu.main.Items[0].Label != "Archivo" || next.menu.theme.Label != "Oscuro" {
		t.Errorf("the next window says %q", next.menu.main.Items[0].Label)
	}
	d.turnTo("English")
	d.settle()
	if d.menu.main.Items[0].Label != "File" || !d.says("Settings") || d.says("Ajustes") {
		t.Error("English does not come back whole")
	}
	d.asking.Hide()
	d.app.Preferences().SetString(prefLanguage, "xx")
	d.takeTongue()
	if tongue.Code() != tongue.System() {
		t.Error("nonsense among the preferences is believed")
	}
}

// odd writes ASCII letters as Cyrillic ones, which the font has, so that they can be told from those that nobody translated.
func odd(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'а'
		case r >= 'A' && r <= 'Z':
			return r - 'A' + 'А'
		}
		return r
	}, s)
}

var verbForm = regexp.MustCompile(`%(\[\d+\])?[-+#0]*\d*(\.\d+)?[a-zA-Z]`)

// oddForm is a form with odd letters between its verbs, and without what its meaning is told by.
func oddForm(form string) string {
	if i := strings.IndexByte(form, '|'); i > 0 {
		form = form[i+1:]
	}
	out, last := "", 0
	for _, at := range verbForm.FindAllStringIndex(form, -1) {
		out += odd(form[last:at[0]]) + form[at[0]:at[1]]
		last = at[1]
	}
	return out + odd(form[last:])
}

// speakOdd has every form of the window said in odd letters.
func speakOdd(t *testing.T) {
	t.Helper()
	t.Cleanup(func() { tongue.Use("en") })
	if err := tongue.Use("es"); err != nil {
		t.Fatal(err)
	}
	forms, err := tongue.Forms("es")
	if err != nil {
		t.Fatal(err)
	}
	var messages []map[string]string
	for form := range forms {
		m := map[string]string{"id": form, "other": oddForm(form), "one": oddForm(form)}
		if form == "decimal mark|." || form == "thousands mark|," {
			m["one"], m["other"] = ".", "."
		}
		messages = append(messages, m)
	}
	table, err := json.Marshal(messages)
	if err != nil {
		t.Fatal(err)
	}
	if err := lang.AddTranslationsForLocale(table, lang.SystemLocale()); err != nil {
		t.Fatal(err)
	}
}

// oddPlan is the demo with odd letters in what its user wrote.
func oddPlan(t *testing.T) plan.Plan {
	t.Helper()
	p, err := store.Decode("the demo", testdata.Demo)
	if err != nil {
		t.Fatal(err)
	}
	oddStrings(reflect.ValueOf(&p).Elem(), "")
	return p
}

// notWritten are fields of the plan whose texts are no user's words, but have a form of their own.
var notWritten = []string{"Zone", "Currency", "Key", "Digest", "Country", "Text", "Number", "Rules", "ScanDigest", "File", "Scan", "Lens", "Certificate"}

func oddStrings(v reflect.Value, name string) {
	switch v.Kind() {
	case reflect.Struct:
		if v.Type().PkgPath() != "eavelight/plan" {
			return
		}
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				oddStrings(v.Field(i), v.Type().Field(i).Name)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			oddStrings(v.Index(i), name)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			oddStrings(v.Elem(), name)
		}
	case reflect.String:
		if v.Type() == reflect.TypeFor[string]() && !slices.Contains(notWritten, name) {
			v.SetString(odd(v.String()))
		}
	}
}

// sameInAll are words that are the same in every tongue: units, names, what stands on keys, abbreviations of standards and a date as an
// example of each language that papers can have.
var sameInAll = regexp.MustCompile(`^(Eavelight|English|Espa|ol|a|b|c|s|min|h|m|km|mm|lx|cd|EV|ISO|MB|GB|GiB|TB|Mbit|fps|USD|EUR|JPY|PDF|QR|` +
	`N|NNE|NE|ENE|E|ESE|SE|SSE|S|SSW|SW|WSW|W|WNW|NW|NNW|Ctrl|Shift|Alt|Delete|Down|Up|F1|[A-Z]|pm|` +
	`CFR|CCR|SI|IES|NOAA|IANA|WGS|America|Los_Angeles|x)$`)

// notOurs are texts that the window shows and does not say: papers and what stands in them, and files.
var notOurs = regexp.MustCompile(`2027$|^/|\.(pdf|ics)|Flowers and fruit for the table|^drone$`)

// ofHours tells whether the words of a line are of a table of hours, whose names and sources are as their files have them.
func ofHours(text string) bool {
	var all []string
	for _, table := range people.HourTables() {
		all = append(all, table.Name, table.Source, strings.Join(table.Memory, "; "))
	}
	at := asciiWord.FindAllStringIndex(text, -1)
	return len(at) > 0 && strings.Contains(strings.Join(all, "\n"), text[at[0][0]:at[len(at)-1][1]])
}

var asciiWord = regexp.MustCompile(`[A-Za-z_]+`)

// TestNoWordEscapes looks at everything that the window can show of a plan, and finds no word that its language does not have.
func TestNoWordEscapes(t *testing.T) {
	d := newDesk(t)
	speakOdd(t)
	d.build()
	d.session.Fresh(oddPlan(t))
	d.settle()
	escaped := map[string]string{}
	look := func(where string, paper bool) {
		d.walk(func(o fyne.CanvasObject) {
			for _, text := range textsOf(o, paper) {
				if notOurs.MatchString(text) || ofHours(text) {
					continue
				}
				for _, word := range asciiWord.FindAllString(text, -1) {
					if !sameInAll.MatchString(word) && escaped[text] == "" {
						escaped[text] = where
					}
				}
			}
		})
	}
	for _, s := range sights {
		if d.current != s.page {
			d.goTo(s.page)
			d.settle()
		}
		for _, b := range s.presses {
			if len(seen(d, func(w *widget.Button) bool { return w.Text == oddForm(b) })) == 0 {
				t.Errorf("%s: no button says %q in the window's language", s.page, b)
				d.press(b)
			} else {
				d.press(oddForm(b))
			}
			d.settle()
		}
		look(fmt.Sprintf("%s %v", s.page, s.presses), slices.Contains(papersShown, strings.Join(s.presses, "")))
	}
	d.settings()
	look("settings", false)
	d.asking.Hide()
	d.keyboard()
	look("keyboard", false)
	d.asking.Hide()
	for _, m := range d.menu.main.Items {
		for _, i := range m.Items {
			for _, word := range asciiWord.FindAllString(i.Label, -1) {
				if !sameInAll.MatchString(word) {
					escaped[i.Label] = "menu"
				}
			}
		}
	}
	for _, text := range slices.Sorted(maps.Keys(escaped)) {
		t.Errorf("%s: %q is not in the window's language", escaped[text], text)
	}
}

// papersShown are the panels that show papers, which are English; there only what can be pressed is looked at.
var papersShown = []string{"Read and sign", "Reminders"}

// textsOf are the words of one object: those drawn, and those that would be drawn if it were empty or open.
func textsOf(o fyne.CanvasObject, paper bool) []string {
	switch o := o.(type) {
	case *canvas.Text:
		if !paper {
			return []string{o.Text}
		}
	case *widget.Button:
		return []string{o.Text}
	case *widget.Entry:
		return []string{o.PlaceHolder}
	case *widget.Select:
		return append(slices.Clone(o.Options), o.PlaceHolder)
	}
	return nil
}
