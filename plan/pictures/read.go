package pictures

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"eavelight/plan/say"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"
)

// Endings are those of the files that may be pictures, for whoever asks for one.
var Endings = []string{".jpg", ".jpeg", ".png", ".webp", ".gif", ".tif", ".tiff", ".bmp"}

// What is read at most. A picture within maxPixels can still take too much memory: one of 16 bits, or a progressive JPEG, all of
// which must be held before any of it is known.
const (
	maxFile   = 1 << 30
	maxPixels = 100_000_000
	maxSide   = 100_000 // a row of it is held beside it
	maxBytes  = 1_000_000_000
)

// limits are what a picture may take; tests have narrower ones.
type limits struct{ pixels, bytes int }

var usual = limits{maxPixels, maxBytes}

// format is one of the kinds of files that are read. A ? of its magic stands for any byte.
type format struct {
	name, magic string
	config      func(io.Reader) (image.Config, error)
	decode      func(io.Reader) (image.Image, error)
}

// formats are ours alone, and not what package image has been told of by other packages.
var formats = []format{
	{"JPEG", "\xff\xd8\xff", jpeg.DecodeConfig, jpeg.Decode},
	{"PNG", "\x89PNG\r\n\x1a\n", png.DecodeConfig, png.Decode},
	{"WebP", "RIFF????WEBP", webp.DecodeConfig, webp.Decode},
	{"GIF", "GIF8?a", gif.DecodeConfig, gif.Decode}, // of several the first
	{"TIFF", "II*\x00", tiff.DecodeConfig, tiff.Decode},
	{"TIFF", "MM\x00*", tiff.DecodeConfig, tiff.Decode},
	{"BMP", "BM", bmp.DecodeConfig, bmp.Decode},
}

// What can be wrong with what a file holds; said with its name by told.
var (
	errNoPicture = errors.New("no picture")
	errHEIF      = errors.New("HEIF")
	errEmpty     = errors.New("no pixels")
)

// tooMany is a picture of more pixels than are read here.
type tooMany struct{ wide, high int }

func (t tooMany) Error() string { return fmt.Sprintf("%d x %d pixels", t.wide, t.high) }

// Read reads a picture, upright and no longer than longest pixels, from a file of any of the formats.
func Read(ctx context.Context, path string, longest int) (*image.RGBA, error) {
	f, err := open(ctx, path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	img, err := read(ctx, f, longest, usual)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if err != nil {
		return nil, told(filepath.Base(path), err)
	}
	return img, nil
}

// file is an open file that gives nothing more when its context ends.
type file struct {
	context.Context
	*os.File
}

func open(ctx context.Context, path string) (*file, error) {
	name := filepath.Base(path)
	info, err := os.Stat(path) // before opening: to open a pipe would wait for its other end
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, say.Error("%s is not there; it was looked for in %s", name, filepath.Dir(path))
	case err != nil:
		return nil, say.Error("%s can't be read (%v)", name, reason(err))
	case info.IsDir():
		return nil, say.Error("%s is a folder and no picture; choose the pictures in it", name)
	case !info.Mode().IsRegular():
		return nil, say.Error("%s is a device or a pipe and no picture", name)
	case info.Size() > maxFile:
		return nil, say.Error("%s is larger than %d GB; make a smaller copy of it, and add that", name, maxFile>>30)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, say.Error("%s can't be read (%v)", name, reason(err))
	}
	return &file{ctx, f}, nil
}

func (f *file) Read(p []byte) (int, error) {
	if err := f.Err(); err != nil {
		return 0, err
	}
	return f.File.Read(p)
}

// ReadAt is what TIFF is read by.
func (f *file) ReadAt(p []byte, off int64) (int, error) {
	if err := f.Err(); err != nil {
		return 0, err
	}
	return f.File.ReadAt(p, off)
}

// reason is what the system says, without the path, which is named beside it.
func reason(err error) error {
	if of := (*fs.PathError)(nil); errors.As(err, &of) {
		return of.Err
	}
	return err
}

// told says what is wrong with what a file holds.
func told(name string, err error) error {
	var many tooMany
	switch of := (*fs.PathError)(nil); {
	case errors.Is(err, errNoPicture):
		return say.Error("%s is no picture that can be read here; JPEG, PNG, WebP, GIF, TIFF and BMP can", name)
	case errors.Is(err, errHEIF):
		return say.Error("%s is a HEIF picture, as some telephones make them, and can't be read here; save it as JPEG, and add that", name)
	case errors.As(err, &many):
		return say.Error("%s has %d × %d pixels, which would take too much memory; make a smaller copy of it, and add that", name, many.wide, many.high)
	case errors.As(err, &of):
		return say.Error("%s can't be read (%v)", name, of.Err)
	}
	return say.Error("%s is damaged or not complete (%v)", name, err)
}

// source is what is looked into more than once.
type source interface {
	io.ReadSeeker
	io.ReaderAt
}

// one lets one picture at a time be decoded: a few large ones together would take all memory.
var one = make(chan struct{}, 1)

// read decodes a picture and makes it small and upright.
func read(ctx context.Context, src source, longest int, most limits) (out *image.RGBA, err error) {
	select {
	case one <- struct{}{}:
		defer func() { <-one }()
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	defer func() { // the decoders are others', and the files are anybody's
		if r := recover(); r != nil {
			out, err = nil, fmt.Errorf("%v", r)
		}
	}()
	h, err := lookInto(src)
	if err != nil {
		return nil, err
	}
	wide, high := h.config.Width, h.config.Height
	switch {
	case wide <= 0 || high <= 0:
		return nil, errEmpty
	case max(wide, high) > maxSide || wide > most.pixels/high || h.bytes(wide*high) > most.bytes:
		return nil, tooMany{wide, high}
	}
	if _, err := src.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	img, err := h.decode(buffered(src, h.format))
	if err != nil {
		return nil, err
	}
	if img.Bounds().Empty() {
		return nil, errEmpty
	}
	wide, high = Fit(img.Bounds().Dx(), img.Bounds().Dy(), longest)
	small, err := shrink(ctx, img, wide, high)
	if err != nil {
		return nil, err
	}
	return upright(small, h.turn), nil
}

// buffered spares the system a call for each byte. TIFF is read here and there, and not in order.
func buffered(src source, f format) io.Reader {
	if f.name == "TIFF" {
		return src
	}
	return bufio.NewReaderSize(src, 1<<16)
}

// head is what a file says of its picture before it is decoded.
type head struct {
	format
	config image.Config
	turn   int     // as EXIF says, 1 to 8
	bulk   float64 // bytes a pixel that decoding takes
}

func (h head) bytes(pixels int) int { return int(h.bulk * float64(pixels)) }

func lookInto(src source) (head, error) {
	var magic [40]byte
	n, err := io.ReadFull(src, magic[:])
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) && !errors.Is(err, io.EOF) {
		return head{}, err
	}
	f, err := formatOf(magic[:n])
	if err != nil {
		return head{}, err
	}
	h := head{format: f, turn: 1}
	if _, err := src.Seek(0, io.SeekStart); err != nil {
		return head{}, err
	}
	if h.config, err = f.config(buffered(src, f)); err != nil {
		return head{}, err
	}
	h.bulk = depth(h.config.ColorModel)
	switch f.name {
	case "JPEG":
		if _, err := src.Seek(0, io.SeekStart); err != nil {
			return head{}, err
		}
		j := jpegHead(bufio.NewReader(src))
		h.turn, h.bulk = j.turn, j.bulk()
	case "PNG":
		if magic[28] != 0 { // interlaced: its passes are held beside it
			h.bulk *= 2
		}
	case "TIFF":
		h.turn = orientation(src)
		h.bulk += 8 // what it is unpacked from, at most
	case "WebP":
		h.bulk += 4 // its transparency is a picture of its own
	}
	return h, nil
}

// depth is how many bytes a decoder gives a pixel.
func depth(m color.Model) float64 {
	switch m {
	case color.RGBA64Model, color.NRGBA64Model, color.Alpha16Model, color.Gray16Model:
		return 8
	}
	return 4
}

func formatOf(head []byte) (format, error) {
	for _, f := range formats {
		if like(head, f.magic) {
			return f, nil
		}
	}
	if like(head, "????ftyphei") || like(head, "????ftypmif1") || like(head, "????ftyphevc") {
		return format{}, errHEIF
	}
	return format{}, errNoPicture
}

func like(head []byte, magic string) bool {
	if len(head) < len(magic) {
		return false
	}
	for i := range len(magic) {
		if magic[i] != '?' && magic[i] != head[i] {
			return false
		}
	}
	return true
}
