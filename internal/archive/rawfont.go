package archive

import (
	"fmt"
)

// rawFont is a font as the page writer embeds it: Type 0 over CIDFontType2,
// codes of two bytes that are Unicode values, a stream from code to glyph.
type rawFont struct {
	written Name
	name    Name // as declared
	desc    Dict
	toGlyph []byte
	program *sfnt
	widths  map[int]int // by code
	initial int         // width of codes not in widths
	cids    []int       // codes shown anywhere, rising; set by the pages
}

// maxFontProgram bounds one decoded font program.
const maxFontProgram = 32 << 20

func (raw *rawFile) font(resource Name, o Object) {
	where := fmt.Sprintf("font /%.12s", resource)
	d := raw.dict(o, where, 6, "Type", "Subtype", "BaseFont", "Encoding", "DescendantFonts", "ToUnicode")
	f := &rawFont{}
	f.written, _ = d["BaseFont"].(Name)
	where = "font " + string(f.written)
	kids, _ := d["DescendantFonts"].(Array)
	if d["Subtype"] != Name("Type0") || d["Encoding"] != Name("Identity-H") || len(kids) != 1 {
		raw.add(RuleFont, where, "no TrueType font with Unicode codes")
		return
	}
	raw.stream(d["ToUnicode"], where)
	c := raw.dict(kids[0], where, 7, "Type", "Subtype", "BaseFont", "CIDSystemInfo", "FontDescriptor", "W", "CIDToGIDMap", "DW")
	raw.dict(c["CIDSystemInfo"], where, 3, "Registry", "Ordering", "Supplement")
	f.desc = raw.dict(c["FontDescriptor"], where, 10, "Type", "FontName", "Ascent", "Descent", "CapHeight", "Flags",
		"FontBBox", "ItalicAngle", "StemV", "FontFile2", "MissingWidth")
	f.initial = int(intOr(c["DW"], 1000))
	err := f.load(raw, c, where)
	if err == nil {
		f.program, err = f.program.unhinted()
	}
	if err != nil {
		raw.add(RuleFont, where, "%v", err)
		return
	}
	raw.fonts[resource] = f
}

func (f *rawFont) load(raw *rawFile, c Dict, where string) error {
	var err error
	if f.widths, err = readWidths(c["W"]); err != nil {
		return err
	}
	if f.toGlyph, err = decode(raw.stream(c["CIDToGIDMap"], where), 2<<16); err != nil {
		return err
	}
	b, err := decode(raw.stream(f.desc["FontFile2"], where), maxFontProgram)
	if err != nil {
		return err
	}
	f.program, err = readFont(b)
	return err
}

// glyph is the glyph of a code, 0 where there is none.
func (f *rawFont) glyph(cid int) int {
	if 2*cid+1 >= len(f.toGlyph) {
		return 0
	}
	g := int(f.toGlyph[2*cid])<<8 | int(f.toGlyph[2*cid+1])
	if g >= f.program.glyphs {
		return 0
	}
	return g
}

func (f *rawFont) width(cid int) int {
	if w, ok := f.widths[cid]; ok {
		return w
	}
	return f.initial
}

// readWidths reads the /W array of a CID font (ISO 32000-1, 9.7.4.3).
func readWidths(o Object) (map[int]int, error) {
	a, ok := o.(Array)
	if !ok {
		return nil, fmt.Errorf("no widths")
	}
	out := map[int]int{}
	for i := 0; i < len(a); {
		first := intOr(a[i], -1)
		if first < 0 || first > 0xFFFF || i+1 >= len(a) {
			return nil, fmt.Errorf("widths are damaged")
		}
		if list, ok := a[i+1].(Array); ok {
			for k, w := range list {
				out[int(first)+k] = int(intOr(w, -1))
			}
			i += 2
			continue
		}
		last := intOr(a[i+1], -1)
		if last < first || last > 0xFFFF || i+2 >= len(a) {
			return nil, fmt.Errorf("widths are damaged")
		}
		for c := first; c <= last; c++ {
			out[int(c)] = int(intOr(a[i+2], -1))
		}
		i += 3
	}
	return out, nil
}

// widthTolerance is how far the width on the page may be from the width in the
// font, in thousandths of an em (ISO 19005-3, 6.2.11.5; ISO 14289-1, 7.21.5).
const widthTolerance = 1

// check reports codes shown without a glyph, without meaning, or with a width
// that is not the font's.
func (f *rawFont) check(out *findings) {
	where := "font " + string(f.written)
	for _, cid := range f.cids {
		g := f.glyph(cid)
		switch {
		case g == 0:
			out.add(RuleGlyph, where, "no glyph for U+%04X", cid)
		case meaningless(cid):
			out.add(RuleGlyph, where, "U+%04X has no meaning of its own", cid)
		case abs(f.width(cid)-f.program.advance(g)) > widthTolerance:
			out.add(RuleWidth, where, "U+%04X is %d wide on the page, %d in the font", cid, f.width(cid), f.program.advance(g))
		}
	}
}

// meaningless codes may not be what a glyph stands for: zero, byte-order marks
// (ISO 14289-1, 7.21.7), surrogates, private use (ISO 19005-3, 6.2.11.7.3).
func meaningless(c int) bool {
	return c < ' ' || c == 0xFEFF || c == 0xFFFE || c == 0xFFFF || c >= 0xD800 && c <= 0xF8FF
}

func abs(n int) int { return max(n, -n) }
