package app

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// sight is a page after some buttons were pressed there.
type sight struct {
	page    view.Page
	presses []string
}

// sights are everything that a page can show: the buttons to be pressed, one after the other, after the one before was looked at.
var sights = []sight{
	{view.Brief, nil}, {view.Property, nil}, {view.Scenes, nil},
	{view.People, nil}, {view.People, []string{"Import contacts…"}}, {view.People, []string{"Close", "Releases"}},
	{view.People, []string{"Read and sign"}}, {view.People, []string{"Cleared"}}, {view.People, []string{"Reminders"}},
	{view.Day, nil}, {view.Day, []string{"Dates and rules"}}, {view.Day, []string{"Year"}}, {view.Day, []string{"Why this day"}}, {view.Day, []string{"Compare"}},
	{view.Price, nil}, {view.Price, []string{"Quote"}}, {view.Price, []string{"Rate card"}}, {view.Price, []string{"Overtime"}},
	{view.Price, []string{"How sure"}}, {view.Price, []string{"What if"}}, {view.Price, []string{"Packages"}}, {view.Price, []string{"Local market"}},
	{view.Price, []string{"Recording"}}, {view.Papers, nil}, {view.Papers, []string{"What they say"}},
	{view.Start, nil}, {view.Start, []string{"New plan"}}, {view.Start, []string{"Next"}}, {view.Start, []string{"Next"}},
}

// ring is what Tab comes by, in its order.
func (d *desk) ring() (out []fyne.Focusable) {
	d.t.Helper()
	c := d.win.Canvas()
	c.Unfocus()
	for range 10_000 {
		c.FocusNext()
		at := c.Focused()
		if at == nil || len(out) > 0 && at == out[0] {
			c.Unfocus()
			return out
		}
		out = append(out, at)
	}
	d.t.Fatal("Tab never comes round")
	return nil
}

// acts tells whether a mouse does something with an object.
func acts(o fyne.CanvasObject) bool {
	switch o.(type) {
	case fyne.Tappable, fyne.SecondaryTappable, fyne.DoubleTappable, fyne.Draggable, desktop.Mouseable:
		return true
	}
	return false
}

// roomOnly are parts that only part the room or show more of it. What lies there is reached without them, and the board's keys zoom
// and go through the day as the wheel over its rows does.
func roomOnly(o fyne.CanvasObject) bool {
	name := fmt.Sprintf("%T", o)
	return slices.Contains([]string{"*container.divider", "*widget.scrollBarArea", "*widget.scrollBar", "*widget.Scroll", "*page.wheelScroll"}, name)
}

// unreached lists what a mouse can work and Tab does not come to: neither to it nor to what it is a part of.
func (d *desk) unreached(ring []fyne.Focusable) (out []string) {
	var into func(o fyne.CanvasObject, within bool)
	into = func(o fyne.CanvasObject, within bool) {
		if o == nil || !o.Visible() {
			return
		}
		f, focusable := o.(fyne.Focusable)
		off, can := o.(fyne.Disableable)
		in := focusable && slices.Contains(ring, f)
		if acts(o) && !roomOnly(o) && !in && !(can && off.Disabled()) && (focusable || !within) {
			out = append(out, fmt.Sprintf("%T at %v", o, o.Position()))
		}
		switch v := o.(type) {
		case *fyne.Container:
			for _, c := range v.Objects {
				into(c, within || in)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(v).Objects() {
				into(c, within || in)
			}
		}
	}
	into(d.win.Content(), false)
	return out
}

// part finds the widget of a kind that an object is, or that its type is made of.
func part[T any](o any) *T {
	if v, ok := o.(*T); ok {
		return v
	}
	v := reflect.ValueOf(o).Elem()
	for v.Kind() == reflect.Struct && v.NumField() > 0 && v.Field(0).CanInterface() {
		if p, ok := v.Field(0).Addr().Interface().(*T); ok {
			return p
		}
		v = v.Field(0)
	}
	return nil
}

// byMouse are the callbacks of our widgets that tell of the mouse itself, and the one by which a key does the same.
var byMouse = map[string]string{"Board.OnGrab": "OnNudge", "Board.OnDrop": "OnNudge", "Board.OnCancel": "OnNudge"}

// mute are those that tell of no action, and the drag of a row, which stands in the Edit menu: "Move up" and "Move down".
var mute = []string{"OnPoint", "OnFocus", "Board.OnReach", "Grid.OnMoved", "Grid.OnDrop"}

// keyboard sends every key that a widget of ours may know.
func keyboard(f fyne.Focusable) {
	for _, r := range "+-0 " {
		f.TypedRune(r)
	}
	keys := []fyne.KeyName{fyne.KeyDown, fyne.KeyRight, fyne.KeyLeft, fyne.KeyUp, fyne.KeyHome, fyne.KeyEnd, fyne.KeyPageDown, fyne.KeyPageUp,
		fyne.KeyInsert, fyne.KeySpace, fyne.KeyReturn, fyne.KeyDelete, fyne.KeyBackspace}
	for _, k := range keys {
		f.TypedKey(&fyne.KeyEvent{Name: k})
	}
	if s, ok := f.(fyne.Shortcutable); ok {
		s.TypedShortcut(&fyne.ShortcutSelectAll{})
		s.TypedShortcut(&fyne.ShortcutPaste{})
		s.TypedShortcut(&fyne.ShortcutCopy{})
		for _, k := range keys {
			s.TypedShortcut(&desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierControl})
		}
	}
}

// silent lists the callbacks of a drawn widget that no key brings about. What they would do is not done.
func silent(f fyne.Focusable) (out []string) {
	v := reflect.ValueOf(f).Elem()
	heard := map[string]bool{}
	for _, field := range reflect.VisibleFields(v.Type()) {
		if at := v.FieldByIndex(field.Index); strings.HasPrefix(field.Name, "On") && at.Kind() == reflect.Func {
			was := reflect.ValueOf(at.Interface())
			at.Set(reflect.MakeFunc(at.Type(), func([]reflect.Value) []reflect.Value { heard[field.Name] = true; return nil }))
			defer at.Set(was)
		}
	}
	keyboard(f)
	for _, field := range reflect.VisibleFields(v.Type()) {
		name := field.Name
		if other := byMouse[v.Type().Name()+"."+name]; other != "" {
			name = other
		}
		if strings.HasPrefix(name, "On") && !slices.Contains(mute, name) && !slices.Contains(mute, v.Type().Name()+"."+name) && !heard[name] {
			out = append(out, field.Name)
		}
	}
	return out
}

// deaf tells why the keys do not do with a focused widget what a mouse does; nothing if they do. What they would do is not done.
func (d *desk) deaf(f fyne.Focusable) string {
	if tab, ok := f.(fyne.Tabbable); ok && tab.AcceptsTab() {
		return "it keeps Tab"
	}
	done := false
	switch {
	case ours(f):
		if none := silent(f); len(none) > 0 {
			return fmt.Sprintf("no key brings about %v", none)
		}
		return ""
	case part[widget.Button](f) != nil:
		b := part[widget.Button](f)
		was := b.OnTapped
		defer func() { b.OnTapped = was }()
		b.OnTapped = func() { done = true }
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	case part[widget.Check](f) != nil:
		c := part[widget.Check](f)
		was := c.OnChanged
		c.OnChanged = func(bool) { done = true }
		f.TypedRune(' ')
		c.OnChanged = nil
		f.TypedRune(' ')
		c.OnChanged = was
	case part[widget.Entry](f) != nil:
		e := part[widget.Entry](f)
		was, text := e.OnChanged, e.Text
		e.OnChanged = func(string) { done = true }
		f.TypedRune('x')
		e.OnChanged = nil
		e.SetText(text)
		e.OnChanged = was
	case part[widget.Select](f) != nil:
		s := part[widget.Select](f)
		if len(s.Options) == 0 {
			return ""
		}
		was, chosen := s.OnChanged, s.Selected
		s.OnChanged = func(string) { done = true }
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
		menu := d.win.Canvas().Focused() // the list that is open now
		if menu == nil || len(d.win.Canvas().Overlays().List()) == 0 {
			return "no list opens"
		}
		menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
		menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		s.OnChanged = nil
		s.SetSelected(chosen)
		s.OnChanged = was
	case part[widget.List](f) != nil:
		l := part[widget.List](f)
		if l.Length() < 2 || l.OnSelected == nil {
			return ""
		}
		was := l.OnSelected
		defer func() { l.OnSelected = was }()
		l.OnSelected = func(widget.ListItemID) { done = true }
		for _, k := range []fyne.KeyName{fyne.KeyDown, fyne.KeySpace, fyne.KeyUp, fyne.KeySpace} { // one of the two is not selected yet
			f.TypedKey(&fyne.KeyEvent{Name: k})
		}
	default:
		return "it is not known how keys work it"
	}
	if !done {
		return "nothing comes of its keys"
	}
	return ""
}

// TestEveryActionByKeyboard goes by Tab through everything that every page shows. WCAG 2.2, 2.1.1: what a mouse does, keys do;
// 2.1.2: no field keeps the keyboard.
func TestEveryActionByKeyboard(t *testing.T) {
	for _, p := range view.Pages {
		if !slices.ContainsFunc(sights, func(s sight) bool { return s.page == p }) {
			t.Errorf("nobody goes through page %s", p)
		}
	}
	for _, full := range []bool{false, true} {
		d := newDesk(t)
		if full {
			d.Open(demoCopy(t))
			d.settle()
		}
		for _, s := range sights {
			if full && s.page == view.Start { // it is about no plan
				continue
			}
			t.Run(fmt.Sprint(s.page, s.presses, full), func(t *testing.T) { d.byKeys(t, s.page, s.presses, full) })
		}
	}
}

// byKeys goes through what is in sight after some presses. An empty drawing has nothing to work.
func (d *desk) byKeys(t *testing.T, p view.Page, presses []string, full bool) {
	d.goTo(p)
	for _, text := range presses {
		if full || d.buttons(text) > 0 {
			d.press(text)
		}
	}
	d.settle()
	if full {
		d.inSight(t)
	}
	ring := d.ring()
	if len(ring) < 2 {
		t.Fatalf("Tab comes by %d things", len(ring))
	}
	for _, what := range d.unreached(ring) {
		t.Errorf("Tab never comes to %s", what)
	}
	for _, f := range ring {
		if !full && ours(f) {
			continue
		}
		d.win.Canvas().Focus(f)
		if why := d.deaf(f); why != "" {
			t.Errorf("%T at %v: %s", f, f.(fyne.CanvasObject).Position(), why)
		}
	}
}

// inSight goes by Tab, and back by Shift and Tab, through all that is there, and finds that it is to be seen in all the scrolls around
// it; what is larger than one of them fills it. WCAG 2.2, 2.4.11: what has the focus is not hidden.
func (d *desk) inSight(t *testing.T) {
	c := d.win.Canvas()
	for _, turn := range []func(){c.FocusNext, c.FocusPrevious} {
		c.Unfocus()
		seen := map[fyne.Focusable]bool{}
		for turn(); c.Focused() != nil && !seen[c.Focused()]; turn() {
			seen[c.Focused()] = true
			for len(d.queue) > 0 {
				(<-d.queue)()
			}
			if o := c.Focused().(fyne.CanvasObject); o != nil {
				d.seesFocused(t, o)
			}
		}
		c.Unfocus()
	}
}

func (d *desk) seesFocused(t *testing.T, it fyne.CanvasObject) {
	path := pathTo(d.win.Content(), it)
	if path == nil {
		t.Errorf("%T has the focus and is not there", it)
	}
	at := fyne.Position{}
	for i := len(path) - 1; i > 0; i-- {
		at = at.Add(path[i].Position())
		s, ok := path[i-1].(scroller)
		if !ok {
			continue
		}
		for _, line := range [][3]float32{{at.X, it.Size().Width, s.Size().Width}, {at.Y, it.Size().Height, s.Size().Height}} {
			from, to, sight := line[0], line[0]+line[1], line[2]
			if inside, fills := from >= -0.5 && to <= sight+0.5, from <= 0.5 && to >= sight-0.5; !inside && !fills {
				t.Errorf("%T has the focus from %v to %v in a scroll of %v", it, from, to, sight)
			}
		}
	}
}

// ours reports a widget that we draw.
func ours(f fyne.Focusable) bool { return reflect.TypeOf(f).Elem().PkgPath() == "eavelight/app/draw" }
