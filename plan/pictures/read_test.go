package pictures

import (
	"bytes"
	"context"
	"encoding/base64"
	"encoding/binary"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

var (
	red   = color.NRGBA{200, 20, 20, 255}
	green = color.NRGBA{20, 180, 20, 255}
	blue  = color.NRGBA{20, 20, 200, 255}
	grey  = color.NRGBA{120, 120, 120, 255}
)

// quarters is a picture of four colours: red and green above, blue and grey below.
func quarters(wide, high int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, wide, high))
	for y := range high {
		for x := range wide {
			c := red
			switch {
			case 2*x >= wide && 2*y >= high:
				c = grey
			case 2*x >= wide:
				c = green
			case 2*y >= high:
				c = blue
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}

func encoded(t testing.TB, encode func(io.Writer) error) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := encode(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func asJPEG(t testing.TB, img image.Image) []byte {
	return encoded(t, func(w io.Writer) error { return jpeg.Encode(w, img, &jpeg.Options{Quality: 95}) })
}

// aWebP is one white pixel. There is no encoder at hand; VP8L as RFC 9649 has it, made by hand.
func aWebP(t testing.TB) []byte {
	data, err := base64.StdEncoding.DecodeString("UklGRhoAAABXRUJQVlA4TA0AAAAvAAAAEAcQERGIiP4HAA==")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// turned puts an EXIF segment in front of a JPEG: one field that says how it is to be turned, and one of words.
func turned(data []byte, turn uint16, words string) []byte {
	field := func(tag, kind uint16, count, value uint32) []byte {
		var out []byte
		out = binary.BigEndian.AppendUint16(out, tag)
		out = binary.BigEndian.AppendUint16(out, kind)
		out = binary.BigEndian.AppendUint32(out, count)
		return binary.BigEndian.AppendUint32(out, value)
	}
	exif := []byte("Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x02")
	exif = append(exif, field(270, 2, uint32(len(words)), 38)...)
	exif = append(exif, field(274, 3, 1, uint32(turn)<<16)...)
	exif = append(exif, 0, 0, 0, 0)
	exif = append(exif, words...)
	out := binary.BigEndian.AppendUint16([]byte{0xff, 0xd8, 0xff, 0xe1}, uint16(len(exif)+2))
	return append(append(out, exif...), data[2:]...)
}

func near(a, b color.Color) bool {
	ar, ag, ab, _ := a.RGBA()
	br, bg, bb, _ := b.RGBA()
	apart := func(x, y uint32) bool { return max(x, y)-min(x, y) > 12<<8 }
	return !apart(ar, br) && !apart(ag, bg) && !apart(ab, bb)
}

// corners are the colours near the corners: above at the left and right, below at the left and right.
func corners(img image.Image) [4]color.Color {
	b := img.Bounds()
	x, y := b.Dx()/4, b.Dy()/4
	at := func(x, y int) color.Color { return img.At(b.Min.X+x, b.Min.Y+y) }
	return [4]color.Color{at(x, y), at(b.Dx()-1-x, y), at(x, b.Dy()-1-y), at(b.Dx()-1-x, b.Dy()-1-y)}
}

func readBytes(data []byte, longest int) (*image.RGBA, error) {
	return read(context.Background(), bytes.NewReader(data), longest, usual)
}

func TestEveryFormat(t *testing.T) {
	img := quarters(300, 200)
	paletted := image.NewPaletted(img.Rect, color.Palette{red, green, blue, grey})
	deep := image.NewNRGBA64(img.Rect)
	for y := range 200 {
		for x := range 300 {
			paletted.Set(x, y, img.At(x, y))
			deep.Set(x, y, img.At(x, y))
		}
	}
	for name, data := range map[string][]byte{
		"JPEG":         asJPEG(t, img),
		"PNG":          encoded(t, func(w io.Writer) error { return png.Encode(w, img) }),
		"PNG, deep":    encoded(t, func(w io.Writer) error { return png.Encode(w, deep) }),
		"GIF":          encoded(t, func(w io.Writer) error { return gif.Encode(w, paletted, nil) }),
		"BMP":          encoded(t, func(w io.Writer) error { return bmp.Encode(w, img) }),
		"TIFF":         encoded(t, func(w io.Writer) error { return tiff.Encode(w, img, nil) }),
		"TIFF, packed": encoded(t, func(w io.Writer) error { return tiff.Encode(w, deep, &tiff.Options{Compression: tiff.Deflate}) }),
	} {
		got, err := readBytes(data, 150)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got.Rect != image.Rect(0, 0, 150, 100) {
			t.Errorf("%s is %v", name, got.Rect)
		}
		for i, want := range [4]color.Color{red, green, blue, grey} {
			if c := corners(got)[i]; !near(c, want) {
				t.Errorf("%s: corner %d is %v, not %v", name, i, c, want)
			}
		}
	}
	if got, err := readBytes(aWebP(t), 150); err != nil || got.Rect != image.Rect(0, 0, 1, 1) {
		t.Errorf("WebP: %v, %v", got, err)
	}
}

// TestUpright holds every orientation against TIFF 6.0, field 274: "The 0th row represents the visual top of the image, and the 0th
// column represents the visual left-hand side", and so on for 2 to 8. Red is at the 0th row and column, green at the 0th row's end.
func TestUpright(t *testing.T) {
	data := asJPEG(t, quarters(80, 40))
	for turn, want := range map[uint16][4]color.Color{
		0: {red, green, blue, grey}, // says nothing
		1: {red, green, blue, grey},
		2: {green, red, grey, blue},
		3: {grey, blue, green, red},
		4: {blue, grey, red, green},
		5: {red, blue, green, grey},
		6: {blue, red, grey, green},
		7: {grey, green, blue, red},
		8: {green, grey, red, blue},
		9: {red, green, blue, grey}, // there is none
	} {
		got, err := readBytes(turned(data, turn, "words"), 1000)
		if err != nil {
			t.Fatalf("%d: %v", turn, err)
		}
		size := image.Rect(0, 0, 80, 40)
		if turn >= 5 && turn <= 8 {
			size = image.Rect(0, 0, 40, 80)
		}
		if got.Rect != size {
			t.Errorf("%d is %v", turn, got.Rect)
		}
		for i, c := range corners(got) {
			if !near(c, want[i]) {
				t.Errorf("%d: corner %d is %v, not %v", turn, i, c, want[i])
			}
		}
	}
}

// bigJPEG is the head of a JPEG of some size and nothing else: ITU-T T.81, annex B. kind is c0 for a baseline one and c2 for a
// progressive one.
func bigJPEG(kind byte, wide, high uint16) []byte {
	out := []byte{0xff, 0xd8, 0xff, kind, 0, 17, 8}
	out = binary.BigEndian.AppendUint16(out, high)
	out = binary.BigEndian.AppendUint16(out, wide)
	out = append(out, 3, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0)
	return append(out, 0xff, 0xda, 0, 12, 3, 1, 0, 2, 0, 3, 0, 0, 63, 0) // here its pixels would begin
}

// bigPNG is the head of a PNG of some size: PNG (third edition), 11.2.1.
func bigPNG(t testing.TB, wide, high uint32, depth, interlaced byte) []byte {
	data := encoded(t, func(w io.Writer) error { return png.Encode(w, quarters(2, 2)) })
	head := binary.BigEndian.AppendUint32([]byte("IHDR"), wide)
	head = append(binary.BigEndian.AppendUint32(head, high), depth, 6, 0, 0, interlaced)
	out := append(bytes.Clone(data[:12]), head...)
	return binary.BigEndian.AppendUint32(out, crc(head))
}

func TestBadFiles(t *testing.T) {
	dir := t.TempDir()
	whole := asJPEG(t, quarters(300, 200))
	if err := os.Mkdir(filepath.Join(dir, "album.jpg"), 0o700); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		data []byte
		says string
	}{
		"letter.txt": {[]byte("Dear Ada"), "letter.txt is no picture that can be read here; JPEG, PNG, WebP, GIF, TIFF and BMP can"},
		"empty.jpg":  {nil, "empty.jpg is no picture that can be read here"},
		"phone.heic": {[]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"), "phone.heic is a HEIF picture, as some telephones make them, and can't be read here; save it as JPEG, and add that"},
		"cut.jpg":    {whole[:len(whole)/2], "cut.jpg is damaged or not complete"},
		"head.png":   {[]byte("\x89PNG\r\n\x1a\n"), "head.png is damaged or not complete"},
		"wide.jpg":   {bigJPEG(0xc0, 20_000, 20_000), "wide.jpg has 20000 × 20000 pixels, which would take too much memory; make a smaller copy of it, and add that"},
		"slow.jpg":   {bigJPEG(0xc2, 12_000, 8_000), "slow.jpg has 12000 × 8000 pixels"},
		"deep.png":   {bigPNG(t, 10_000, 9_999, 16, 1), "deep.png has 10000 × 9999 pixels"},
		"bomb.png":   {bigPNG(t, 1<<31-1, 1, 8, 0), "bomb.png has 2147483647 × 1 pixels"},
		"album.jpg":  {nil, "album.jpg is a folder and no picture; choose the pictures in it"},
		"gone.jpg":   {nil, "gone.jpg is not there; it was looked for in " + dir},
	} {
		path := filepath.Join(dir, name)
		if name != "gone.jpg" && name != "album.jpg" {
			if err := os.WriteFile(path, c.data, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		_, err := Read(context.Background(), path, Longest)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: it says %q, not %q", name, err, c.says)
		}
	}
	path := filepath.Join(dir, "locked.jpg")
	if err := os.WriteFile(path, whole, 0); err != nil {
		t.Fatal(err)
	}
	if _, err := os.ReadFile(path); err != nil { // root may read everything
		if _, err := Read(context.Background(), path, Longest); err == nil || !strings.Contains(err.Error(), "can't be read (permission denied)") {
			t.Errorf("locked: %v", err)
		}
	}
}

func TestReadEndsWithItsContext(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.jpg")
	if err := os.WriteFile(path, asJPEG(t, quarters(300, 200)), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Read(ctx, path, Longest); err != context.Canceled {
		t.Errorf("%v", err)
	}
}
