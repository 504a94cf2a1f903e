package enclosure

import (
	"bytes"
	"encoding/binary"
	"image"
)

// turn sets a picture upright that was stored in one of the eight ways of a
// camera (Exif 2.32, tag 0x0112; values from memory).
func turn(img *image.RGBA, orientation int) *image.RGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	if orientation < 2 || orientation > 8 {
		return img
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if orientation >= 5 { // on its side
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			to := [...]image.Point{
				2: {w - 1 - x, y}, 3: {w - 1 - x, h - 1 - y}, 4: {x, h - 1 - y},
				5: {y, x}, 6: {h - 1 - y, x}, 7: {h - 1 - y, w - 1 - x}, 8: {y, w - 1 - x},
			}[orientation]
			copy(out.Pix[out.PixOffset(to.X, to.Y):][:4], img.Pix[img.PixOffset(x, y):][:4])
		}
	}
	return out
}

// orientation is how a camera says that the picture is to be turned, 0 where it
// does not.
func orientation(file []byte) int {
	if bytes.HasPrefix(file, []byte("\x89PNG")) {
		return tiffOrientation(pngChunk(file[8:], "eXIf"))
	}
	return tiffOrientation(exifSegment(file))
}

// exifSegment finds the Exif data of a JPEG among the segments before its first
// scan.
func exifSegment(file []byte) []byte {
	const app1, scan = 0xe1, 0xda
	head := []byte("Exif\x00\x00")
	for at := 2; at+4 <= len(file) && file[at] == 0xff; {
		marker := file[at+1]
		if marker == 0xff { // filling
			at++
			continue
		}
		size := int(binary.BigEndian.Uint16(file[at+2:]))
		if marker == scan || size < 2 || at+2+size > len(file) {
			return nil
		}
		body := file[at+4 : at+2+size]
		if marker == app1 && bytes.HasPrefix(body, head) {
			return body[len(head):]
		}
		at += 2 + size
	}
	return nil
}

// pngChunk finds a chunk of a PNG.
func pngChunk(b []byte, name string) []byte {
	const frame = 12 // length, name, checksum
	for len(b) >= frame {
		n := int64(binary.BigEndian.Uint32(b))
		if n > int64(len(b)-frame) {
			return nil
		}
		if string(b[4:8]) == name {
			return b[8 : 8+n]
		}
		b = b[frame+n:]
	}
	return nil
}

// tiffOrientation reads the tag in the first directory of TIFF data.
func tiffOrientation(b []byte) int {
	const entry, tag, short = 12, 0x0112, 3
	if len(b) < 8 {
		return 0
	}
	var order binary.ByteOrder = binary.BigEndian
	switch string(b[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
	default:
		return 0
	}
	at := int64(order.Uint32(b[4:]))
	if at+2 > int64(len(b)) {
		return 0
	}
	entries := int(order.Uint16(b[at:]))
	b = b[at+2:]
	for range entries {
		if len(b) < entry {
			return 0
		}
		if order.Uint16(b) == tag && order.Uint16(b[2:]) == short {
			return int(order.Uint16(b[8:]))
		}
		b = b[entry:]
	}
	return 0
}
