package archive

import (
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"
)

func (w *writer) writeResources() {
	type entry struct {
		name   string
		object int
	}
	var fonts, images []entry
	codes, meanings := w.writeCodeMap(), w.writeMeanings()
	for _, name := range w.raw.fontNames() {
		fonts = append(fonts, entry{w.raw.short[name], w.writeFont(w.raw.fonts[name], codes, meanings)})
	}
	written := map[int]int{}
	for _, name := range sortedNames(w.raw.images) {
		im := w.raw.images[name]
		if written[im.object] == 0 {
			written[im.object] = w.writeImage(im.stream)
		}
		images = append(images, entry{w.raw.short[name], written[im.object]})
	}
	w.begin(w.resources)
	w.text("<<")
	for _, group := range []struct {
		key  string
		list []entry
	}{{"/Font<<", fonts}, {"/XObject<<", images}} {
		if len(group.list) == 0 {
			continue
		}
		w.text(group.key)
		for _, e := range group.list {
			w.text(e.name)
			w.text(" ")
			w.ref(e.object)
		}
		w.text(">>")
	}
	w.text(">>")
	w.end()
}

// writeImage hands an image on, with the keys that readRaw has allowed.
func (w *writer) writeImage(s *Stream) int {
	n := w.reserve(1)
	dict := fmt.Sprintf("/Type/XObject/Subtype/Image/Width %d/Height %d/ColorSpace/%s/BitsPerComponent 8/Filter/%s",
		s.Dict["Width"], s.Dict["Height"], s.Dict["ColorSpace"], s.Dict["Filter"])
	if parms, ok := s.Dict["DecodeParms"].(Dict); ok {
		dict += "/DecodeParms<<"
		for _, k := range sortedKeys(parms) {
			dict += fmt.Sprintf("/%s %d", k, parms[k])
		}
		dict += ">>"
	}
	w.stream(n, dict, s.Raw)
	return n
}

// writeFont writes a font under its declared name with a subset tag, with
// widths and glyph numbers of the codes in use, and nothing else.
func (w *writer) writeFont(f *rawFont, codes, meanings int) int {
	font, descendant, descriptor, glyphs, program := w.reserve(1), w.reserve(1), w.reserve(1), w.reserve(1), w.reserve(1)
	data := f.program.program()
	sum := sha256.New()
	sum.Write(data)
	sum.Write([]byte(fmt.Sprint(f.cids)))
	name := fontTag(sum.Sum(nil)) + "+" + string(f.name)

	w.begin(font)
	w.text(fmt.Sprintf("<</Type/Font/Subtype/Type0/BaseFont/%s/Encoding %d 0 R/DescendantFonts[%d 0 R]/ToUnicode %d 0 R>>", name, codes, descendant, meanings))
	w.end()
	w.begin(descendant)
	w.text(fmt.Sprintf("<</Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor %d 0 R/CIDToGIDMap %d 0 R/DW 0/W[", name, descriptor, glyphs))
	w.widths(f)
	w.text("]>>")
	w.end()
	w.begin(descriptor)
	w.text("<</Type/FontDescriptor/FontName/" + name)
	for _, k := range []Name{"Ascent", "Descent", "CapHeight", "Flags", "ItalicAngle", "StemV"} {
		w.text(fmt.Sprintf("/%s %d", k, intOr(f.desc[k], 0)))
	}
	w.text("/FontBBox[")
	box, _ := f.desc["FontBBox"].(Array)
	for _, v := range box {
		w.int(int(intOr(v, 0)))
		w.text(" ")
	}
	w.text(fmt.Sprintf("]/FontFile2 %d 0 R>>", program))
	w.end()

	d := &w.crew[0]
	w.stream(glyphs, "/Filter/FlateDecode", d.deflate(f.glyphMap()))
	w.stream(program, fmt.Sprintf("/Length1 %d/Filter/FlateDecode", len(data)), d.deflate(data))
	return font
}

// writeMeanings writes what the codes in use mean, of all fonts together: a code is
// the same character in each.
func (w *writer) writeMeanings() int {
	var cids []int
	for _, f := range w.raw.fonts {
		cids = append(cids, f.cids...)
	}
	slices.Sort(cids)
	n := w.reserve(1)
	w.stream(n, "/Filter/FlateDecode", w.crew[0].deflate(toUnicode(slices.Compact(cids))))
	return n
}

// widths writes the width of every code in use, neighbors in one list.
func (w *writer) widths(f *rawFont) {
	for i, cid := range f.cids {
		if i == 0 || f.cids[i-1] != cid-1 {
			if i > 0 {
				w.text("]")
			}
			w.int(cid)
			w.text("[")
		} else {
			w.text(" ")
		}
		w.int(f.width(cid))
	}
	if len(f.cids) > 0 {
		w.text("]")
	}
}

// glyphMap is the stream from code to glyph for codes in use.
func (f *rawFont) glyphMap() []byte {
	if len(f.cids) == 0 {
		return []byte{0, 0}
	}
	out := make([]byte, 2*(f.cids[len(f.cids)-1]+1))
	for _, cid := range f.cids {
		g := f.glyph(cid)
		out[2*cid], out[2*cid+1] = byte(g>>8), byte(g)
	}
	return out
}

// cmapBlock is how many entries a block of a CMap may have (Adobe technical
// note 5014; value from memory).
const cmapBlock = 100

// toUnicode maps each code in use to its CID, which is a Unicode value. One range
// over everything would cross a change of the first byte, which
// ISO 32000-1, 9.10.3 forbids.
func toUnicode(cids []int) []byte {
	var b strings.Builder
	b.WriteString("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		codeSpace)
	for block := range slices.Chunk(cids, cmapBlock) {
		fmt.Fprintf(&b, "%d beginbfchar\n", len(block))
		for _, c := range block {
			fmt.Fprintf(&b, "<%X> <%04X>\n", appendCode(nil, c), c)
		}
		b.WriteString("endbfchar\n")
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n")
	return []byte(b.String())
}

// subsetTagLength is the number of capitals in front of a subset's name.
const subsetTagLength = 6

// fontTag is the subset tag of ISO 32000-1, 9.6.4: six capitals, here from a
// hash of the subset, so that equal subsets have equal names.
func fontTag(sum []byte) string {
	tag := make([]byte, subsetTagLength)
	for i := range tag {
		tag[i] = 'A' + sum[i]%26
	}
	return string(tag)
}
