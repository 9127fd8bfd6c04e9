package pictures

import (
	"bytes"
	"context"
	"image/gif"
	"image/png"
	"io"
	"runtime"
	"testing"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

// FuzzPicture: no file makes the reader panic, take much more memory than its limits say, or give a picture larger than asked for.
func FuzzPicture(f *testing.F) {
	img := quarters(30, 20)
	f.Add(asJPEG(f, img))
	f.Add(turned(asJPEG(f, img), 6, "words"))
	f.Add(encoded(f, func(w io.Writer) error { return png.Encode(w, img) }))
	f.Add(encoded(f, func(w io.Writer) error { return gif.Encode(w, img, nil) }))
	f.Add(encoded(f, func(w io.Writer) error { return bmp.Encode(w, img) }))
	f.Add(encoded(f, func(w io.Writer) error { return tiff.Encode(w, img, nil) }))
	f.Add(encoded(f, func(w io.Writer) error {
		return tiff.Encode(w, img, &tiff.Options{Compression: tiff.Deflate, Predictor: true})
	}))
	f.Add(aWebP(f))
	f.Add(bigJPEG(0xc0, 65_535, 65_535))
	f.Add(bigJPEG(0xc2, 700, 700))
	f.Add(bigPNG(f, 1<<31-1, 1<<31-1, 16, 1))
	f.Add([]byte("II*\x00\x08\x00\x00\x00\xff\xff"))
	f.Add([]byte("BM"))
	f.Add([]byte(nil))
	most := limits{pixels: 1_000_000, bytes: 8_000_000}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<20 {
			return
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		small, err := read(context.Background(), bytes.NewReader(data), 64, most)
		runtime.ReadMemStats(&after)
		const room = 64 << 20 // for what a decoder builds that goes by the length of the file and not by the picture
		if took := after.TotalAlloc - before.TotalAlloc; took > uint64(most.bytes)*2+room {
			t.Errorf("%d bytes of memory for a file of %d", took, len(data))
		}
		if err == nil && (small.Rect.Dx() > 64 || small.Rect.Dy() > 64 || small.Rect.Empty()) {
			t.Errorf("it is %v", small.Rect)
		}
		if err != nil && told("a.jpg", err).Error() == "" {
			t.Error("nothing is told")
		}
	})
}
