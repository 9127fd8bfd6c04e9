//go:build cgo && linux

package main

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"reflect"
	"slices"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/store"
)

// testTour is a user's evening from end to end: scenes are written and dragged about, all of it is taken back, a person drops out, the
// window turns dark and Spanish, is nearly left with changes unsaved, is killed, and brings them back. After each step the file
// and the screen are looked at.
func testTour(t *testing.T, program string) {
	d := newDesk(t, program, 1280, 800)
	tour := &tour{file: d.copyDemo()}
	original := tour.read(t)
	tour.window = d.open(tour.file, demoTitle)

	tour.writeScenes()
	tour.dragAndPin()
	tour.takeBack(original)
	tour.dropPerson()
	tour.turnDarkAndSpanish()
	tour.leaveAndStay()
	tour.killAndRecover()
}

// tour is the window on its way, and the plan's file.
type tour struct {
	*window
	file string
}

func (w *tour) read(t *testing.T) plan.Plan {
	t.Helper()
	p, _, err := store.Read(w.file)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// save saves by the keys and reads what the file has then.
func (w *tour) save() plan.Plan {
	w.desk.Helper()
	w.press("ctrl+s")
	w.untilTitle(demoTitle)
	return w.read(w.T)
}

func sceneOf(p plan.Plan, is func(plan.Scene) bool) plan.Scene {
	if i := slices.IndexFunc(p.Scenes, is); i >= 0 {
		return p.Scenes[i]
	}
	return plan.Scene{}
}

// writeScenes adds a scene and changes the title of another, by typing alone once the cell is reached.
func (w *tour) writeScenes() {
	w.desk.Helper()
	w.page(3, "Add scene")
	w.press("ctrl+shift+a")
	w.click("untitled scene", 0)
	w.write("Rain on the skylight")
	w.press("Return")
	w.see("Rain on the skylight")
	w.click("The reading nook", 0)
	w.write("The last page")
	w.press("Return")
	w.see("The last page")
	w.unsee("The reading nook")
	w.keep("scenes", w.still())
	p := w.save()
	added := sceneOf(p, func(s plan.Scene) bool { return s.Title == "Rain on the skylight" })
	changed := sceneOf(p, func(s plan.Scene) bool { return s.Number == "5" })
	if len(p.Scenes) != 15 || added.ID == "" || changed.Title != "The last page" {
		w.Errorf("the file has %d scenes, the new one %q, scene 5 %q", len(p.Scenes), added.ID, changed.Title)
	}
}

// dragAndPin drags scene 8 an hour earlier, where it is pinned, nudges it, and then holds it where it is by Space.
func (w *tour) dragAndPin() {
	w.desk.Helper()
	before := w.placed()
	start := slices.IndexFunc(before.Scenes, func(s sceneReport) bool { return s.ID == "piano" })
	if start < 0 {
		w.Fatal("scene 8 has no place")
	}
	w.page(5, "Dates and rules")
	call, wrap, row := w.see("call "+before.Call.Format("15:04")), w.see("wrap "+before.Wrap.Format("15:04")), w.see("Living room")
	left, right := (call.Min.X+call.Max.X)/2, (wrap.Min.X+wrap.Max.X)/2
	pixels := float64(right-left) / before.Wrap.Sub(*before.Call).Hours() // an hour
	at := before.Scenes[start].Start.Add(5 * time.Minute).Sub(*before.Call).Hours()
	hour := int(pixels)
	w.drag(left+int(at*pixels), (row.Min.Y+row.Max.Y)/2, [][2]int{{-hour / 2, 2}, {-hour / 2, -2}})
	w.keep("dragged", w.still())
	pin := func() plan.Pin {
		return sceneOf(w.save(), func(s plan.Scene) bool { return s.ID == "piano" }).Pin
	}
	dragged := pin()
	was := before.Scenes[start].Start.Hour()*60 + before.Scenes[start].Start.Minute()
	if earlier := plan.Minutes(was) - plan.Minutes(dragged.Start.Minutes()); dragged.Held || !dragged.Start.IsSet() || earlier < 50 || earlier > 70 {
		w.Errorf("scene 8 was at %d and is pinned at %v", was, dragged.Start)
	}
	w.press("Left")
	if nudged := pin(); nudged.Start.Minutes() != dragged.Start.Minutes()-5 {
		w.Errorf("a key moves the pin from %v to %v", dragged.Start, nudged.Start)
	}
	w.press("space")
	if held := pin(); !held.Held {
		w.Errorf("Space leaves the pin as %+v", held)
	}
}

// placed is the day of the file, as the program tells it without its window, by the clock of the place.
func (w *tour) placed() placeReport {
	w.desk.Helper()
	out, err := w.command(w.program, "place", "--json", w.file).Output() // ends with 1 where the demo leaves a scene out
	var report placeReport
	if json.Unmarshal(out, &report) != nil || report.Call == nil || report.Wrap == nil {
		w.Fatalf("eavelight place: %v\n%s", err, out)
	}
	zone, err := time.LoadLocation(report.Zone)
	if err != nil {
		w.Fatal(err)
	}
	local := func(t *time.Time) { *t = t.In(zone) } // the window has the clock of the place
	local(report.Call)
	local(report.Wrap)
	for _, s := range report.Scenes {
		local(s.Start)
	}
	return report
}

// takeBack undoes everything, and finds the plan as it was opened.
func (w *tour) takeBack(original plan.Plan) {
	w.desk.Helper()
	for range 12 { // more than there is
		w.press("ctrl+z")
	}
	w.still()
	if p := w.save(); !reflect.DeepEqual(p, original) {
		w.Error("all is undone, and the file is not as it was")
	}
	w.page(3, "Add scene")
	w.see("The reading nook")
	w.unsee("Rain on the skylight")
}

// dropPerson takes a person out of the film.
func (w *tour) dropPerson() {
	w.desk.Helper()
	w.page(4, "Part or job")
	w.click("Ruth Åsgård", 0)
	w.see("If they drop out")
	w.press("ctrl+shift+Delete")
	w.untilTitle("• " + demoTitle)
	if after := w.page(5, "Dates and rules"); len(after.find("Ruth Åsgård")) > 0 {
		w.Error("the day still has the person")
	}
	p := w.save()
	if slices.ContainsFunc(p.People, func(p plan.Person) bool { return p.Name == "Ruth Åsgård" }) {
		w.Error("the file still has the person")
	}
}

// turnDarkAndSpanish goes through the settings.
func (w *tour) turnDarkAndSpanish() {
	w.desk.Helper()
	w.page(1, "To deliver")
	light := brightness(w.still().screen)
	w.press("ctrl+comma")
	w.click("Dark", 0)
	w.until("the window is dark", func() bool { return brightness(w.screen().screen) < light/2 })
	w.click("Español", 0)
	w.see("Ajustes")
	w.keep("settings", w.still())
	w.click("Cerrar", 0)
	w.see("Propiedad") // in the rail
	w.see("7 espacios")
	w.unsee("Property")
	w.keep("spanish", w.still())
}

// brightness is the mean of the picture's greys.
func brightness(s *screen) float64 {
	sum, n := 0.0, 0
	b := s.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y += 4 {
		for x := b.Min.X; x < b.Max.X; x += 4 {
			sum += float64(s.GrayAt(x, y).Y)
			n++
		}
	}
	return sum / float64(n)
}

// leaveAndStay writes something, wants to leave, and stays when asked.
func (w *tour) leaveAndStay() {
	w.desk.Helper()
	w.click("Cliente", 60)
	w.press("End")
	w.write(" y Cia")
	w.untilTitle("• " + demoTitle)
	before := read(w.T, w.file)
	w.press("ctrl+q")
	w.see("¿Guardar los cambios?")
	w.keep("question", w.still())
	w.click("Seguir trabajando", 0)
	w.unsee("¿Guardar los cambios?")
	if !w.running() || !bytes.Equal(read(w.T, w.file), before) {
		w.Fatal("the window closed, or wrote the file, although the user went on working")
	}
}

// killAndRecover kills the program and brings the change back; the window is dark and Spanish again.
func (w *tour) killAndRecover() {
	w.desk.Helper()
	w.until("the change is kept aside", func() bool {
		files, _ := filepath.Glob(filepath.Join(w.home, "eavelight", "unsaved", "*.eavelight"))
		return len(files) == 1
	})
	w.Process.Kill() // SIGKILL
	<-w.ended
	w.window = w.open(w.file, demoTitle)
	w.see("Cambios sin guardar")
	w.keep("recover", w.still())
	w.click("Recuperarlos", 0)
	w.untilTitle("• " + demoTitle)
	if dark := brightness(w.still().screen); dark > 128 {
		w.Errorf("the window is light again: %.0f", dark)
	}
	if p := w.save(); p.Brief.Client != "Harrow Lane Estates y Cia" {
		w.Errorf("the client in the file is %q", p.Brief.Client)
	}
	w.press("ctrl+q")
	w.untilEnded()
}
