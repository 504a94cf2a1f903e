package archive

import (
	"encoding/binary"
	"errors"
)

// Bounds of what one glyph may be made of.
const (
	maxGlyphParts = 64
	maxGlyphDepth = 8
	maxPoints     = 1 << 13
)

var errGlyph = errors.New("damaged glyph")

// outline is a glyph spelled out: its width and bounds, its own points and instructions, or its parts,
// each spelled out with how it is placed. Numbers of glyphs are not in it, so that
// a subset and the typeface it was taken from spell a glyph alike.
type outline struct {
	font  *sfnt
	plain bool // without instructions
	parts int
	spell []byte
}

// boundsLength is how many bytes the bounds of a glyph take.
const boundsLength = 8

// bounds are xMin, yMin, xMax and yMax of a glyph as it states them; false for one
// that draws nothing.
func (f *sfnt) bounds(glyph int) (b [4]int, ok bool) {
	r, err := f.record(glyph)
	if err != nil || len(r) == 0 {
		return b, false
	}
	for i := range b {
		b[i] = int(int16(binary.BigEndian.Uint16(r[2+2*i:])))
	}
	return b, true
}

// record is the entry of a glyph in glyf; empty for one without an outline.
func (f *sfnt) record(glyph int) ([]byte, error) {
	loca, glyf := f.tables["loca"], f.tables["glyf"]
	if glyph < 0 || glyph >= f.glyphs {
		return nil, errGlyph
	}
	var from, to uint32
	if binary.BigEndian.Uint16(f.tables["head"][50:]) == 1 {
		from, to = binary.BigEndian.Uint32(loca[4*glyph:]), binary.BigEndian.Uint32(loca[4*glyph+4:])
	} else {
		from, to = 2*uint32(binary.BigEndian.Uint16(loca[2*glyph:])), 2*uint32(binary.BigEndian.Uint16(loca[2*glyph+2:]))
	}
	if from > to || int(to) > len(glyf) || to > from && to-from < 10 {
		return nil, errGlyph
	}
	return glyf[from:to], nil
}

// metrics are advance and left side bearing of a glyph, in units of the font.
func (f *sfnt) metrics(glyph int) (advance uint16, bearing uint16) {
	m := f.tables["hmtx"]
	advance = binary.BigEndian.Uint16(m[4*min(glyph, f.wide-1):])
	at := 4*glyph + 2
	if glyph >= f.wide {
		at = 4*f.wide + 2*(glyph-f.wide)
	}
	if at+2 > len(m) {
		return advance, 0
	}
	return advance, binary.BigEndian.Uint16(m[at:])
}

// outlineOf spells a glyph out, its instructions left out where plain is asked for.
func (f *sfnt) outlineOf(glyph int, plain bool) (*outline, error) {
	o := &outline{font: f, plain: plain}
	return o, o.glyph(glyph, 0)
}

// metricsLength is how many bytes of a spelled glyph are its width and bearing.
const metricsLength = 4

// glyph spells out a glyph (OpenType 1.9, table glyf).
func (o *outline) glyph(n, depth int) error {
	b, err := o.font.record(n)
	if err != nil {
		return err
	}
	if o.parts++; o.parts > maxGlyphParts || depth > maxGlyphDepth {
		return errGlyph
	}
	advance, bearing := o.font.metrics(n)
	o.add(advance, bearing)
	if len(b) == 0 {
		o.spell = append(o.spell, 'e')
		return nil
	}
	r := glyphReader{b: b}
	contours := int(int16(r.word()))
	for range boundsLength / 2 {
		o.add(r.word())
	}
	if contours >= 0 {
		o.simple(&r, contours)
	} else if err := o.composite(&r, depth); err != nil {
		return err
	}
	if r.short {
		return errGlyph
	}
	return nil
}

func (o *outline) add(words ...uint16) {
	for _, w := range words {
		o.spell = binary.BigEndian.AppendUint16(o.spell, w)
	}
}

// Flags of the points of a simple glyph.
const (
	pointOn      = 0x01
	pointShortX  = 0x02
	pointShortY  = 0x04
	pointRepeat  = 0x08
	pointSameX   = 0x10
	pointSameY   = 0x20
	pointOverlap = 0x40
)

func (o *outline) simple(r *glyphReader, contours int) {
	o.spell = append(o.spell, 's')
	points := 0
	for range contours {
		end := r.word()
		o.add(end)
		points = int(end) + 1
	}
	if points > maxPoints {
		r.short = true
		return
	}
	instructions := r.bytes(int(r.word()))
	if o.plain {
		instructions = nil
	}
	o.spell = append(append(o.spell, 'i'), instructions...)
	flags := make([]byte, 0, points)
	for len(flags) < points && !r.short {
		f := r.byte()
		flags = append(flags, f)
		if f&pointRepeat != 0 {
			for n := r.byte(); n > 0 && len(flags) < points; n-- {
				flags = append(flags, f)
			}
		}
	}
	for _, axis := range []struct{ short, same byte }{{pointShortX, pointSameX}, {pointShortY, pointSameY}} {
		at := uint16(0)
		for _, f := range flags {
			switch {
			case f&axis.short != 0 && f&axis.same != 0:
				at += uint16(r.byte())
			case f&axis.short != 0:
				at -= uint16(r.byte())
			case f&axis.same == 0:
				at += r.word()
			}
			o.add(at)
		}
	}
	for _, f := range flags {
		o.spell = append(o.spell, f&(pointOn|pointOverlap))
	}
}

// Flags of the parts of a composite glyph.
const (
	partWords        = 0x0001
	partScale        = 0x0008
	partMore         = 0x0020
	partTwoScales    = 0x0040
	partTwoByTwo     = 0x0080
	partInstructions = 0x0100
)

func (o *outline) composite(r *glyphReader, depth int) error {
	o.spell = append(o.spell, 'c')
	flags := uint16(partMore)
	for flags&partMore != 0 && !r.short {
		flags = r.word()
		if o.plain {
			flags &^= partInstructions
		}
		n := int(r.word())
		o.add(flags)
		o.spell = append(o.spell, r.bytes(partLength(flags))...)
		if err := o.glyph(n, depth+1); err != nil {
			return err
		}
	}
	if flags&partInstructions != 0 {
		o.spell = append(append(o.spell, 'i'), r.bytes(int(r.word()))...)
	}
	return nil
}

// partLength is how many bytes say where a part stands and how it is scaled.
func partLength(flags uint16) int {
	n := 2
	if flags&partWords != 0 {
		n = 4
	}
	switch {
	case flags&partScale != 0:
		n += 2
	case flags&partTwoScales != 0:
		n += 4
	case flags&partTwoByTwo != 0:
		n += 8
	}
	return n
}

// glyphReader reads an entry of glyf; short is set where it ends too early.
type glyphReader struct {
	b     []byte
	short bool
}

func (r *glyphReader) bytes(n int) []byte {
	if n > len(r.b) {
		r.short = true
		return nil
	}
	b := r.b[:n]
	r.b = r.b[n:]
	return b
}

func (r *glyphReader) byte() byte {
	b := r.bytes(1)
	if b == nil {
		return 0
	}
	return b[0]
}

func (r *glyphReader) word() uint16 {
	b := r.bytes(2)
	if b == nil {
		return 0
	}
	return binary.BigEndian.Uint16(b)
}
