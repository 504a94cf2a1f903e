package archive

import (
	"encoding/binary"
	"slices"
)

// hintTables are the tables of a font program that only fit shapes to the dots of a
// coarse screen (OpenType 1.9).
var hintTables = []string{"cvt ", "fpgm", "prep"}

// hinted tells whether a program fits its shapes to a screen.
func (f *sfnt) hinted() bool {
	return slices.ContainsFunc(hintTables, func(n string) bool { return len(f.tables[n]) > 0 })
}

// unhinted is the program without what fits shapes to a screen: half of its size.
// Readers of PDF draw outlines as they are and so does paper; shapes are the same.
func (f *sfnt) unhinted() (*sfnt, error) {
	out := *f
	out.tables = map[string][]byte{}
	for n, t := range f.tables {
		if !slices.Contains(hintTables, n) {
			out.tables[n] = t
		}
	}
	long := binary.BigEndian.Uint16(f.tables["head"][50:]) == 1
	var glyf, loca []byte
	for g := range f.glyphs {
		loca = appendPlace(loca, len(glyf), long)
		b, err := f.record(g)
		if err != nil {
			return nil, err
		}
		if glyf, err = appendUnhinted(glyf, b); err != nil {
			return nil, err
		}
	}
	out.tables["glyf"], out.tables["loca"] = glyf, appendPlace(loca, len(glyf), long)
	if maxp := slices.Clone(f.tables["maxp"]); len(maxp) >= maxpTrueType {
		// From maxTwilightPoints to maxSizeOfInstructions.
		clear(maxp[16:28])
		out.tables["maxp"] = maxp
	}
	return &out, nil
}

// maxpTrueType is the length of the table maxp of a font with outlines as ours.
const maxpTrueType = 32

// appendPlace appends a place in glyf to loca, in half as many bytes where that is
// the font's way.
func appendPlace(loca []byte, at int, long bool) []byte {
	if long {
		return binary.BigEndian.AppendUint32(loca, uint32(at))
	}
	return binary.BigEndian.AppendUint16(loca, uint16(at/2))
}

// appendUnhinted appends an entry of glyf without its instructions, to an even length.
func appendUnhinted(dst, b []byte) ([]byte, error) {
	if len(b) == 0 {
		return dst, nil
	}
	start := len(dst)
	r := glyphReader{b: b}
	if contours := int(int16(r.word())); contours >= 0 {
		before := 10 + 2*contours
		if before+2 > len(b) {
			return dst, errGlyph
		}
		n := int(binary.BigEndian.Uint16(b[before:]))
		if before+2+n > len(b) {
			return dst, errGlyph
		}
		dst = append(append(append(dst, b[:before]...), 0, 0), b[before+2+n:]...)
	} else {
		r.bytes(boundsLength)
		for flags := uint16(partMore); flags&partMore != 0 && !r.short; {
			at := len(b) - len(r.b)
			flags = r.word()
			r.bytes(2 + partLength(flags))
			if !r.short && flags&partInstructions != 0 {
				b = slices.Clone(b)
				binary.BigEndian.PutUint16(b[at:], flags&^partInstructions)
			}
		}
		if r.short {
			return dst, errGlyph
		}
		dst = append(dst, b[:len(b)-len(r.b)]...)
	}
	if (len(dst)-start)%2 != 0 {
		dst = append(dst, 0)
	}
	return dst, nil
}
