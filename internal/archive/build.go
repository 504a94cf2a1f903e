package archive

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"unicode/utf16"
)

// builder lays out the objects of a file. Objects without data of their own are
// gathered into object streams; streams are handed over with their data ready.
type builder struct {
	bundler
	streams []ready
	last    int // highest object number given out
	crew    crew
}

// ready is a stream object.
type ready struct {
	number int
	dict   string // entries other than Length
	data   []byte
}

// reserve gives out n object numbers in a row and returns the first.
func (b *builder) reserve(n int) int {
	first := b.last + 1
	b.last += n
	return first
}

func (b *builder) stream(n int, dict string, data []byte) {
	b.streams = append(b.streams, ready{n, dict, data})
}

// header is the first line of a PDF 1.7 and the comment that tells transports
// that the file is binary (ISO 19005-3, 6.1.2).
const header = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n"

// idLength is the length of a file identifier in bytes.
const idLength = 16

// file writes everything: streams, object streams, cross-reference stream.
func (b *builder) file(root, info int) []byte {
	bundles := b.bundles()
	first := b.reserve(len(bundles))
	for i, s := range bundles {
		b.stream(first+i, s.dict, s.data)
	}
	size := len(header)
	for _, s := range b.streams {
		size += len(s.data) + len(s.dict) + 64
	}
	out := append(make([]byte, 0, size+size/8+1024), header...)
	xref := b.reserve(1)
	entries := make([]place, xref+1)
	for _, s := range b.streams {
		entries[s.number] = place{offset: int64(len(out))}
		out = appendStream(out, s)
	}
	for i, n := range b.numbers {
		entries[n] = place{stream: first + i/packet, index: i % packet}
	}
	// The identifier stands for the content, so the body is all it depends on.
	sum := sha256.Sum256(out)
	start := len(out)
	entries[xref] = place{offset: int64(start)}
	id := hex.EncodeToString(sum[:idLength])
	rows := entryRows(entries)
	out = appendStream(out, ready{xref, fmt.Sprintf(
		"/Type/XRef/Size %d/W[1 4 2]/Root %d 0 R/Info %d 0 R/ID[<%s><%s>]/Filter/FlateDecode/DecodeParms<</Predictor 12/Columns %d>>",
		xref+1, root, info, id, id, entryWidth), b.crew[0].deflate(rows)})
	return fmt.Appendf(out, "startxref\n%d\n%%%%EOF\n", start)
}

// entryWidth is the sum of the field widths of the cross-reference stream.
const entryWidth = 1 + 4 + 2

// entryRows are the cross-reference entries, each as the difference from the
// row above (PNG filter 2), which packs them to almost nothing.
func entryRows(entries []place) []byte {
	rows := make([]byte, 0, len(entries)*(entryWidth+1))
	var above, row [entryWidth]byte
	for i, e := range entries {
		kind, a, c := 1, int(e.offset), 0
		switch {
		case i == 0 || e == place{}:
			kind, a, c = 0, 0, 0xFFFF
		case e.stream > 0:
			kind, a, c = 2, e.stream, e.index
		}
		row = [entryWidth]byte{byte(kind), byte(a >> 24), byte(a >> 16), byte(a >> 8), byte(a), byte(c >> 8), byte(c)}
		rows = append(rows, 2)
		for k := range row {
			rows = append(rows, row[k]-above[k])
		}
		above = row
	}
	return rows
}

func appendStream(out []byte, s ready) []byte {
	out = fmt.Appendf(out, "%d 0 obj\n<<%s/Length %d>>\nstream\n", s.number, s.dict, len(s.data))
	out = append(out, s.data...)
	return append(out, "\nendstream\nendobj\n"...)
}

// text appends plain source.
func (b *builder) text(s string) { b.arena = append(b.arena, s...) }

func (b *builder) int(n int) { b.arena = strconv.AppendInt(b.arena, int64(n), 10) }

func (b *builder) ref(n int) {
	b.int(n)
	b.text(" 0 R")
}

// textString appends a text string: as it is where it is plain ASCII, else as
// UTF-16 with its byte-order mark (ISO 32000-1, 7.9.2.2).
func (b *builder) textString(s string) { b.arena = appendTextString(b.arena, s) }

func appendTextString(dst []byte, s string) []byte {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			wide := []byte{0xFE, 0xFF}
			for _, u := range utf16.Encode([]rune(s)) {
				wide = append(wide, byte(u>>8), byte(u))
			}
			return appendLiteral(dst, wide)
		}
	}
	return appendLiteral(dst, s)
}

// appendLiteral appends bytes as a literal string.
func appendLiteral[S string | []byte](dst []byte, s S) []byte {
	dst = append(dst, '(')
	for i := range len(s) {
		switch c := s[i]; c {
		case '(', ')', '\\':
			dst = append(dst, '\\', c)
		case '\r':
			dst = append(dst, '\\', 'r')
		default:
			dst = append(dst, c)
		}
	}
	return append(dst, ')')
}

// appendName appends a name with its slash; other than regular ASCII is
// written as #xx.
func appendName(dst []byte, s string) []byte {
	dst = append(dst, '/')
	for i := range len(s) {
		c := s[i]
		if c <= ' ' || c > '~' || c == '#' || classOf(c) != classRegular {
			dst = fmt.Appendf(dst, "#%02X", c)
			continue
		}
		dst = append(dst, c)
	}
	return dst
}

// points appends a length in points, rounded to a hundredth: the grid on which
// the page writer draws.
func (b *builder) points(v float64) { b.arena = appendPoints(b.arena, v) }

func appendPoints(dst []byte, v float64) []byte {
	dst = strconv.AppendFloat(dst, v, 'f', 2, 64)
	for dst[len(dst)-1] == '0' {
		dst = dst[:len(dst)-1]
	}
	if dst[len(dst)-1] == '.' {
		dst = dst[:len(dst)-1]
	}
	return dst
}

func (b *builder) rect(r Rect) {
	separator := byte('[')
	for _, v := range [4]float64{r.X0, r.Y0, r.X1, r.Y1} {
		b.arena = append(b.arena, separator)
		b.points(v)
		separator = ' '
	}
	b.text("]")
}
