package view

import (
	"slices"
	"strings"
	"testing"

	"eavelight/app/tongue"
	"eavelight/plan"
)

// spanish has the window speak Spanish for a test.
func spanish(t *testing.T) {
	t.Helper()
	if err := tongue.Use("es"); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { tongue.Use("en") })
}

// TestPasteInSpanish: a table of a Spanish window, one with its accents left out, and one from an English film are read alike.
func TestPasteInSpanish(t *testing.T) {
	spanish(t)
	for _, text := range []string{
		"N.º\tTítulo\tEspacio\tLuz\tPrep.\tRodaje\tSegundos\tImportancia\n7\tCafé\tKitchen\tdorada vespertina\t10 minutos\t1 h 05\t8 segundos\timprescindible\n",
		"numero;titulo;habitacion;deseo de luz;preparacion (min);Minutos de rodaje;seg;PRIORIDAD\n7;Café;kitchen;Dorada v;10;65;8;impr\n",
		"No.,Title,Space,Light,Set-up,Shooting,Seconds,Importance\n7,Café,Kitchen,golden evening,10,65,8,must\n",
	} {
		p := pastePlan()
		got, err := ReadScenes(&p, text)
		if err != nil || len(got.Rows) != 1 || len(got.Rows[0].Refused) > 0 || len(got.Told) > 0 {
			t.Errorf("%q: %v, %+v", text, err, got)
			continue
		}
		want := plan.Scene{ID: "pasted", Number: "7", Title: "Café", Space: "kitchen", Setup: 10, Shoot: 65, Seconds: 8, Importance: plan.Must}
		want.SetWishKind(plan.GoldenEvening)
		if s := got.Rows[0].Scene; s.Number != want.Number || s.Title != want.Title || s.Space != want.Space || s.Wish.Kind != want.Wish.Kind ||
			s.Setup != want.Setup || s.Shoot != want.Shoot || s.Seconds != want.Seconds || s.Importance != want.Importance {
			t.Errorf("%q gives %+v", text, s)
		}
	}
	p := pastePlan()
	got, _ := ReadScenes(&p, "Título\tEspacio\nCafé\tsauna\n")
	if want := "Se añadiría 1 escena, con título, espacio. Sin tomar: 1 celda, indicada a la derecha; las escenas se añaden sin ella."; got.Summary() != want {
		t.Errorf("%q, want %q", got.Summary(), want)
	}
	if want := `espacio: ningún espacio se llama "sauna"; hay Kitchen, Garden deck, Tarn deck o Old, the kitchen`; got.Rows[0].Refused[0] != want {
		t.Errorf("%q, want %q", got.Rows[0].Refused[0], want)
	}
}

// TestHeadingsAreToldApart: in each language a heading stands for one column.
func TestHeadingsAreToldApart(t *testing.T) {
	for _, l := range tongue.Languages {
		if err := tongue.Use(l.Code); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { tongue.Use("en") })
		of := map[string]string{}
		for i, c := range SceneColumns {
			for _, name := range append(strings.Split(tongue.Marked(c.Called), ", "), c.Heading(), c.Name()) {
				if other, ok := of[heading(name)]; ok && other != c.Field {
					t.Errorf("%s: %q stands for %s and for %s", l.Code, name, other, c.Field)
				}
				of[heading(name)] = c.Field
				if got := headed(name); got != &SceneColumns[i] {
					t.Errorf("%s: %q is not taken for %s", l.Code, name, c.Field)
				}
			}
		}
	}
}

// TestCellsInSpanish: what a cell shows, it reads again.
func TestCellsInSpanish(t *testing.T) {
	spanish(t)
	p := plan.New()
	for _, kind := range plan.WishKinds {
		for _, c := range SceneColumns {
			s := plan.Scene{Importance: plan.Nice}
			s.SetWishKind(kind)
			if c.Offer == nil || c.Field == "space" {
				continue
			}
			text := c.Text(&p, &s)
			change, err := c.Read(&p, text)
			if err != nil || !slices.Contains(c.Offer(&p), text) {
				t.Fatalf("%q: %v; on offer are %q", text, err, c.Offer(&p))
			}
			if change(&s); s.Wish.Kind.Or() != kind || s.Importance != plan.Nice {
				t.Errorf("%q makes %+v", text, s)
			}
		}
	}
}

// TestReadyScenesInSpanish: a house whose spaces have Spanish names gets the scenes that want such a room, in Spanish words; one
// with English names does too.
func TestReadyScenesInSpanish(t *testing.T) {
	spanish(t)
	for _, names := range [][]string{{"Cocina", "Piscina", "Dormitorio"}, {"Kitchen", "Pool", "Bedroom"}} {
		p := plan.New()
		for i, kind := range []plan.SpaceKind{plan.Indoor, plan.Outdoor, plan.Indoor} {
			p.Property.Spaces = append(p.Property.Spaces, plan.Space{ID: plan.ID("abc"[i : i+1]), Name: names[i], Kind: kind})
		}
		p.AddReady(ReadyScenes()...)
		for id, want := range map[plan.ID]struct {
			space plan.ID
			title string
		}{"cooking": {"a", "Se prepara la cena"}, "pool": {"b", "Un baño en la piscina"}, "curtains": {"c", "Se abren las cortinas"}} {
			if s, _ := p.Scene(id); s.Space != want.space || s.Title != want.title {
				t.Errorf("%s: %q in %q, want %q in %q", id, s.Title, s.Space, want.title, want.space)
			}
		}
		if wrong := plan.Validate(p).At(plan.Wrong); len(wrong) > 0 {
			t.Error(wrong)
		}
		for _, row := range ReadyRows(&p) {
			if !row.There {
				t.Errorf("%q is there, and is offered as if it were not", row.Title)
			}
		}
	}
}

// TestCompassInSpanish: west is oeste.
func TestCompassInSpanish(t *testing.T) {
	spanish(t)
	if got := FaceName(plan.Face{Name: "Calle", Bearing: 248}); got != "Calle (248° OSO)" {
		t.Errorf("%q", got)
	}
}
