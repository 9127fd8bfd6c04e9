package page

import (
	"slices"
	"testing"

	"eavelight/app/tongue"
	"eavelight/plan/contacts"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// inSpanish has the window speak Spanish for the rest of a test.
func inSpanish(t *testing.T) {
	t.Helper()
	t.Cleanup(func() { tongue.Use("en") })
	if err := tongue.Use("es"); err != nil {
		t.Fatal(err)
	}
}

// TestSigningInSpanish: who signed, for whom, when and where stands in Spanish sentences, which have their words in another order.
func TestSigningInSpanish(t *testing.T) {
	inSpanish(t)
	s := newSigning(t)
	s.show(1)
	if s.who.Text != "La firma Amara Sandoval, en nombre de Jon Sandoval." {
		t.Errorf("says %q", s.who.Text)
	}
	s.fill("Amara Sandoval", "madre")
	test.Tap(s.done)
	if want := "Firmada por Amara Sandoval (madre), en nombre de Jon Sandoval, el sábado, 6 de marzo de 2027, 10:05 PST, en Lower Marl. Aceptó firmar electrónicamente."; s.who.Text != want {
		t.Errorf("says %q, want %q", s.who.Text, want)
	}
}

// TestImportMatchInSpanish: what a column holds, and the order of dates, is chosen by its Spanish word and kept as the file's own.
func TestImportMatchInSpanish(t *testing.T) {
	inSpanish(t)
	d := newDesk(t)
	d.read("list.csv", "Name;Shoe;Born;Fax\nIvo Lunt;39;03/04/1990;\n")
	s := d.importing
	sizes := s.columns.cells.Objects[1].(*fyne.Container).Objects[0].(*fyne.Container).Objects[1].(*fyne.Container).Objects[0].(*widget.Select)
	if name := sizes.Options[slices.Index(contacts.Fields, contacts.FieldNotes)]; sizes.Selected != name {
		t.Errorf("an unknown column is %q, not %q", sizes.Selected, name)
	}
	sizes.SetSelected(sizes.Options[slices.Index(contacts.Fields, contacts.FieldSizes)])
	d.settle()
	if s.columns.order.Selected != "según el archivo" {
		t.Errorf("the order of dates is %q", s.columns.order.Selected)
	}
	s.columns.order.SetSelected(s.columns.order.Options[1])
	d.settle()
	test.Tap(s.take)
	if q := d.state.Plan.People[2]; q.Sizes != "39" || q.Born.String() != "1990-04-03" {
		t.Errorf("%+v", q)
	}
}
