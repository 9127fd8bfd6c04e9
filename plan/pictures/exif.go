package pictures

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"io"
)

// jpegInfo is what the segments before the pixels of a JPEG say.
type jpegInfo struct {
	turn        int     // as EXIF says
	samples     float64 // a pixel: 3 for all of three colours, 1.5 where two of them are coarser
	progressive bool
}

// bulk is how many bytes a pixel takes: progressive ones are held as whole numbers of four bytes until the last of them is read.
func (j jpegInfo) bulk() float64 {
	if j.progressive {
		return 5 * j.samples
	}
	return j.samples
}

// jpegHead reads the segments as far as they make sense. What does not is for the decoder to find.
func jpegHead(r *bufio.Reader) jpegInfo {
	out := jpegInfo{turn: 1, samples: 4}
	if _, err := r.Discard(2); err != nil { // the mark of its beginning
		return out
	}
	for {
		kind, body, err := segment(r)
		switch {
		case err != nil || kind == 0xda: // here the pixels begin
			return out
		case kind == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")):
			out.turn = orientation(bytes.NewReader(body[6:]))
		case kind >= 0xc0 && kind <= 0xc2:
			out.samples, out.progressive = samples(body), kind == 0xc2
		}
	}
}

// segment reads one segment: its kind, and what it holds.
func segment(r *bufio.Reader) (kind byte, body []byte, err error) {
	for kind == 0 || kind == 0xff { // a segment begins with a byte of ones, or some
		if kind, err = r.ReadByte(); err != nil {
			return 0, nil, err
		}
	}
	if kind == 0x01 || kind >= 0xd0 && kind <= 0xd9 { // these hold nothing
		return kind, nil, nil
	}
	var size uint16
	if err := binary.Read(r, binary.BigEndian, &size); err != nil {
		return 0, nil, err
	}
	if size < 2 {
		return 0, nil, io.ErrUnexpectedEOF
	}
	body = make([]byte, size-2)
	_, err = io.ReadFull(r, body)
	return kind, body, err
}

// samples are how many values of all colours together there are a pixel, as the frame's head tells.
func samples(frame []byte) float64 {
	const most = 4
	if len(frame) < 6 || len(frame) < 6+3*int(frame[5]) {
		return most
	}
	var all, wide, high int
	for i := range int(frame[5]) {
		h, v := int(frame[7+3*i]>>4), int(frame[7+3*i]&15)
		all, wide, high = all+h*v, max(wide, h), max(high, v)
	}
	if wide*high == 0 {
		return most
	}
	return float64(all) / float64(wide*high)
}

// orientation finds how a picture is to be turned, 1 to 8, in what EXIF or a TIFF file says of it; 1 where it says nothing.
// TIFF 6.0, section 2 and the field Orientation, 274.
func orientation(r io.ReaderAt) int {
	var head [8]byte
	if _, err := r.ReadAt(head[:], 0); err != nil {
		return 1
	}
	order := binary.ByteOrder(binary.LittleEndian)
	if head[0] == 'M' {
		order = binary.BigEndian
	}
	at := int64(order.Uint32(head[4:]))
	var count [2]byte
	if _, err := r.ReadAt(count[:], at); err != nil {
		return 1
	}
	fields := make([]byte, 12*int(order.Uint16(count[:])))
	n, _ := r.ReadAt(fields, at+2)
	for fields = fields[:n]; len(fields) >= 12; fields = fields[12:] {
		const field, short = 274, 3
		if order.Uint16(fields) == field && order.Uint16(fields[2:]) == short {
			if turn := int(order.Uint16(fields[8:])); turn >= 1 && turn <= 8 {
				return turn
			}
		}
	}
	return 1
}
