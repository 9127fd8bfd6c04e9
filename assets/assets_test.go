package assets

import (
	"bytes"
	"image/png"
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"
)

// The letters that names are printed with: Latin with Polish and Vietnamese marks, Greek, Cyrillic, and the signs we use.
const printed = "ÅåÄäÖöÜüßÆæØøÉéÈèÊêÇçÑñÍíÐðÞþŁłŚśĆćŻżŹźŃńĄąĘęÓóČčŘřŠšŽžĎďŤťŮůĐđŐőŰűĂăȘșȚțĞğİı" +
	"ẮắẤấẨẩẫậếềểễệốồổỗộớờởỡợứừửữựỳỵỷỹ" +
	"ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩαβγδεζηθικλμνξοπρστυφχψωςάέήίόύώϊΐΰ" +
	"АБВГДЕЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯабвгдежзийклмнопрстуфхцчшщъыьэюяЁёЄєІіЇїҐґЂђЈјЉљЊњЋћЏџ" +
	"°′″–—‘’“”„…€£×½·•§©"

func TestFontsHaveTheLettersOfNames(t *testing.T) {
	for name, font := range map[string][]byte{"SansRegular": SansRegular, "SansBold": SansBold} {
		f, err := sfnt.Parse(font)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		var b sfnt.Buffer
		for _, r := range printed {
			if i, err := f.GlyphIndex(&b, r); err != nil || i == 0 {
				t.Errorf("%s has no %c", name, r)
			}
		}
	}
	if !strings.Contains(SansLicense, "SIL OPEN FONT LICENSE") || !strings.Contains(SansLicense, "Google") {
		t.Error("the fonts' licence or their copyright line is missing")
	}
}

// The papers draw these as shapes, because the fonts lack them. If a later font has them, that can go.
func TestFontsLackTheseSigns(t *testing.T) {
	f, err := sfnt.Parse(SansRegular)
	if err != nil {
		t.Fatal(err)
	}
	var b sfnt.Buffer
	for _, r := range "−≥≤→←↑↓✓☐" {
		if i, _ := f.GlyphIndex(&b, r); i != 0 {
			t.Errorf("the font now has %c: the package comment and what draws it as a shape can change", r)
		}
	}
}

func TestIconIsASquareThatAWindowTakes(t *testing.T) {
	img, err := png.Decode(bytes.NewReader(Icon))
	if err != nil {
		t.Fatal(err)
	}
	if b := img.Bounds(); b.Dx() != 512 || b.Dy() != 512 {
		t.Errorf("the icon is %v, not 512 x 512", b)
	}
	if _, _, _, a := img.At(0, 0).RGBA(); a != 0 {
		t.Error("the icon's corner is not see-through")
	}
}

func TestEveryWordingIsHeadedByTheCaution(t *testing.T) {
	files, err := releases.ReadDir("releases")
	if err != nil || len(files) != 8 {
		t.Fatalf("%d wordings, %v", len(files), err)
	}
	for _, f := range files {
		kind := strings.TrimSuffix(f.Name(), ".txt")
		head, _, _ := strings.Cut(ReleaseWording(kind), "\n")
		if want := "A template, not legal advice. Have a licensed lawyer check it for your place."; head != want {
			t.Errorf("%s is headed %q", kind, head)
		}
	}
	for _, kind := range []string{"", "dog", "../icon", "model.txt"} {
		if got := ReleaseWording(kind); got != "" {
			t.Errorf("%q has the wording %q", kind, got)
		}
	}
}
