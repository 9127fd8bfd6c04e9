package tongue

import (
	"io/fs"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"eavelight/plan"
	"eavelight/plan/contacts"
	"eavelight/plan/locate"
	"eavelight/plan/say"
	"eavelight/plan/store"
)

// TestErrorsAreSaid meets errors of other packages in another language, with what they wrap.
func TestErrorsAreSaid(t *testing.T) {
	t.Cleanup(func() { Use("en") })
	if err := Use("es"); err != nil {
		t.Fatal(err)
	}
	missing := filepath.Join(t.TempDir(), "house.eavelight")
	_, _, noFile := store.Read(missing)
	_, badKey := store.Decode("house.eavelight", []byte("eavelight: 1\nscenery: []\nbrief: [1]\n"))
	full := say.Error("%s was not saved: %v", "house", &fs.PathError{Op: "write", Path: "house", Err: syscall.ENOSPC})
	_, unknown := locate.Parse("95, 10")
	_, nobody := contacts.ReadFile(missing, plan.Date{})
	for _, c := range []struct {
		err  error
		want []string
	}{
		{noFile, []string{"no existe el archivo " + missing + " (no existe el archivo)"}},
		{badKey, []string{"house.eavelight:2:1: scenery: aquí no existe esa clave", "brief: aquí van claves, cada una en su línea", "no una lista"}},
		{&store.LockedError{Path: missing}, []string{missing + " está abierto en otra ventana; ciérrelo antes allí"}},
		{unknown, []string{"95 no puede ser una latitud, que va de -90 a 90; primero va la latitud: ¿será 10, 95?"}},
		{nobody, []string{"no existe el archivo " + missing}},
		{full, []string{"house no se ha guardado: write house: no queda espacio en el disco"}},
	} {
		for _, want := range c.want {
			if got := Error(c.err); !strings.Contains(got, want) {
				t.Errorf("%q does not say %q", got, want)
			}
		}
	}
}
