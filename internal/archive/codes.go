package archive

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
)

// Codes of text in a finished file. The page writer's have two bytes and are
// Unicode values. A finished file has one byte for those of Latin-1 that print,
// and zero with the two bytes behind it for all others: half the text, and it
// compresses better. What a code stands for in the font (CID) stays its Unicode
// value.

// short tells whether a CID has a code of one byte.
func short(cid int) bool { return cid >= ' ' && cid < 0x80 || cid >= 0xA0 && cid <= 0xFF }

// appendCode appends the code of a CID.
func appendCode(dst []byte, cid int) []byte {
	if short(cid) {
		return append(dst, byte(cid))
	}
	return append(dst, 0, byte(cid>>8), byte(cid))
}

// appendCIDs appends the CIDs, two bytes each, of codes; false is half a code, one
// that [appendCode] does not give, or one outside of [planes].
func appendCIDs(dst, codes []byte) ([]byte, bool) {
	for len(codes) > 0 {
		if c := codes[0]; short(int(c)) {
			dst, codes = append(dst, 0, c), codes[1:]
			continue
		}
		if codes[0] != 0 || len(codes) < 3 || short(int(codes[1])<<8|int(codes[2])) || !slices.Contains(planes, int(codes[1])) {
			return dst, false
		}
		dst, codes = append(dst, codes[1], codes[2]), codes[3:]
	}
	return dst, true
}

// codeSpace is the part of a CMap that says how long codes are.
const codeSpace = "3 begincodespacerange\n<20> <7F>\n<A0> <FF>\n<000000> <00FFFF>\nendcodespacerange\n"

// codeMapName is the name of the CMap from codes to CIDs.
const codeMapName = "Latin-Unicode"

// planes are the first bytes of the CIDs that our typefaces have a character for. A
// CID of another is refused: it has no glyph.
var planes = []int{0x00, 0x01, 0x02, 0x03, 0x04, 0x05, 0x0E, 0x1E, 0x20, 0x21, 0x22, 0x24, 0x25, 0x27, 0x2B, 0x30, 0xEC, 0xEF, 0xF6, 0xFB, 0xFE, 0xFF}

// earlierPlanes are those of the files of 0.1.0.
func earlierPlanes() (all []int) {
	for high := range 256 {
		all = append(all, high)
	}
	return all
}

// codeMap is that CMap (ISO 32000-1, 9.7.5.4). A range stays below one second
// byte.
func codeMap(planes []int) []byte {
	lines := []string{"<20> <7F> 32", "<A0> <FF> 160"}
	for _, high := range planes {
		lines = append(lines, fmt.Sprintf("<00%02X00> <00%02XFF> %d", high, high, high<<8))
	}
	var b strings.Builder
	b.WriteString("%!PS-Adobe-3.0 Resource-CMap\n/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (Identity) /Supplement 0>> def\n" +
		"/CMapName /" + codeMapName + " def\n/CMapType 1 def\n/WMode 0 def\n" + codeSpace)
	for block := range slices.Chunk(lines, cmapBlock) {
		fmt.Fprintf(&b, "%d begincidrange\n%s\nendcidrange\n", len(block), strings.Join(block, "\n"))
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n")
	return []byte(b.String())
}

// writeCodeMap writes the CMap that all fonts share.
func (w *writer) writeCodeMap() int {
	n := w.reserve(1)
	w.stream(n, "/Type/CMap/CMapName/"+codeMapName+"/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/WMode 0/Filter/FlateDecode",
		w.crew[0].deflate(codeMap(planes)))
	return n
}

// shortCodes tells whether a font has the codes of codeMap; else they are CIDs.
func (r *Reader) shortCodes(font Ref) (bool, error) {
	if known, ok := r.codes[font]; ok {
		return known, nil
	}
	d, err := r.dict(font, "font")
	if err != nil {
		return false, err
	}
	isShort := d["Encoding"] != Name("Identity-H")
	if isShort {
		_, b, err := r.stream(d["Encoding"], "CMap")
		if err != nil {
			return false, err
		}
		if !bytes.Equal(b, codeMap(planes)) && !bytes.Equal(b, codeMap(earlierPlanes())) {
			return false, inObject(int(font), &ReadError{Fact: "CMap", Err: ErrCodes})
		}
	}
	if r.codes == nil {
		r.codes = map[Ref]bool{}
	}
	r.codes[font] = isShort
	return isShort, nil
}

// codesOf tells for each font of a page whether it has short codes.
func (r *Reader) codesOf(fonts Dict) (map[Name]bool, error) {
	out := map[Name]bool{}
	for name, o := range fonts {
		ref, ok := o.(Ref)
		if !ok {
			continue // reported where it is used
		}
		var err error
		if out[name], err = r.shortCodes(ref); err != nil {
			return nil, err
		}
	}
	return out, nil
}
