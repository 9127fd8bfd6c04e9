package main

import (
	"bytes"
	"image/color"
	"image/png"
	"testing"

	"eavelight/assets"
)

// The icon that is built in is the one drawn here.
func TestIconIsDrawnHere(t *testing.T) {
	img, err := png.Decode(bytes.NewReader(assets.Icon))
	if err != nil {
		t.Fatal(err)
	}
	want := draw()
	for y := range size {
		for x := range size {
			if got := color.NRGBAModel.Convert(img.At(x, y)); got != want.NRGBAAt(x, y) {
				t.Fatalf("pixel %d,%d is %v in icon.png, drawn %v; run the command again", x, y, got, want.NRGBAAt(x, y))
			}
		}
	}
}
