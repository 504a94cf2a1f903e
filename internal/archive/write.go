package archive

import (
	"crypto/md5"
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"
	"time"
)

// writer turns the checked parts into objects. The order of reserving numbers
// is the order of the methods called by write; it decides the bytes.
type writer struct {
	builder
	doc   *Document
	raw   *rawFile
	drawn []drawnPage
	tree  *tree

	catalog, info, pageTree, resources int
	firstPage                          int // page i is object firstPage+i
	firstNode                          int // element i is object firstNode+i
	firstAnnot                         int // annotation i is object firstAnnot+i
	structRoot, outlines, form         int
	files                              []int // file specifications
}

func (w *writer) write() []byte {
	w.catalog, w.info = w.reserve(1), w.reserve(1)
	w.pageTree, w.resources = w.reserve(1), w.reserve(1)
	w.firstPage = w.reserve(len(w.doc.Pages))
	w.structRoot = w.reserve(1)
	w.firstAnnot = w.reserve(len(w.tree.annots))
	w.firstNode = w.reserve(len(w.tree.nodes))
	w.writePages()
	w.writeResources()
	w.writeAnnots()
	w.writeTree()
	w.writeOutlines()
	w.writeFiles()
	w.writeCatalog()
	w.writeInfo()
	return w.file(w.catalog, w.info)
}

func (w *writer) writeCatalog() {
	metadata, intent, profile := w.reserve(1), w.reserve(1), w.reserve(1)
	w.stream(metadata, "/Type/Metadata/Subtype/XML", metadataXML(w.doc))
	w.stream(profile, "/N 3/Filter/FlateDecode", w.crew[0].deflate(w.doc.ColorProfile))
	w.begin(intent)
	w.text("<</Type/OutputIntent/S/GTS_PDFA1/OutputConditionIdentifier(sRGB)/Info(sRGB IEC61966-2.1)/DestOutputProfile ")
	w.ref(profile)
	w.text(">>")
	w.end()

	w.begin(w.catalog)
	w.text("<</Type/Catalog/Pages ")
	w.ref(w.pageTree)
	w.text("/Lang")
	w.textString(w.doc.Lang)
	w.text("/MarkInfo<</Marked true>>/ViewerPreferences<</DisplayDocTitle true>>/Metadata ")
	w.ref(metadata)
	w.text("/OutputIntents[")
	w.ref(intent)
	w.text("]/StructTreeRoot ")
	w.ref(w.structRoot)
	w.labels()
	if w.outlines > 0 {
		w.text("/PageMode/UseOutlines/Outlines ")
		w.ref(w.outlines)
	}
	if w.form > 0 {
		w.text("/AcroForm ")
		w.ref(w.form)
	}
	w.fileEntries()
	w.text(">>")
	w.end()
}

// fileEntries are the catalog's two lists of attached files.
func (w *writer) fileEntries() {
	if len(w.files) == 0 {
		return
	}
	w.text("/AF[")
	for _, n := range w.files {
		w.ref(n)
		w.text(" ")
	}
	w.text("]/Names<</EmbeddedFiles<</Names[")
	order := make([]int, len(w.files))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return strings.Compare(w.doc.Files[a].Name, w.doc.Files[b].Name) })
	for _, i := range order {
		w.textString(w.doc.Files[i].Name)
		w.ref(w.files[i])
		w.text(" ")
	}
	w.text("]>>>>")
}

// labels writes the page labels as a number tree, one range for as many pages
// as count on: a prefix and the number behind it.
func (w *writer) labels() {
	w.text("/PageLabels<</Nums[")
	prefix, next := "", -1
	for i, p := range w.doc.Pages {
		head, n := splitLabel(p.Label)
		if n >= 0 && n == next && head == prefix {
			next++
			continue
		}
		w.int(i)
		w.text("<<")
		if n >= 0 {
			w.text("/S/D/St ")
			w.int(n)
		}
		if head != "" {
			w.text("/P")
			w.textString(head)
		}
		w.text(">>")
		prefix, next = head, n+1
		if n < 0 {
			next = -1
		}
	}
	w.text("]>>")
}

// maxLabelDigits keeps the counted part of a label small.
const maxLabelDigits = 8

// splitLabel cuts a label into a prefix and the number at its end, which has
// no leading zero; -1 if there is none.
func splitLabel(label string) (prefix string, n int) {
	at := len(label)
	for at > 0 && len(label)-at < maxLabelDigits && label[at-1] >= '0' && label[at-1] <= '9' {
		at--
	}
	for at < len(label) && label[at] == '0' {
		at++
	}
	if at == len(label) {
		return label, -1
	}
	for _, c := range label[at:] {
		n = 10*n + int(c-'0')
	}
	return label[:at], n
}

func (w *writer) writeInfo() {
	w.begin(w.info)
	w.text("<</Title")
	w.textString(w.doc.Title)
	for _, e := range []struct{ key, value string }{
		{"/Author", w.doc.Author}, {"/Subject", w.doc.Subject}, {"/Keywords", keywords(w.doc)},
		{"/Creator", w.doc.Creator}, {"/Producer", w.doc.Creator},
	} {
		if e.value != "" {
			w.text(e.key)
			w.textString(e.value)
		}
	}
	date := pdfDate(w.doc.Issued)
	w.text("/CreationDate(" + date + ")/ModDate(" + date + ")>>")
	w.end()
}

func keywords(d *Document) string { return strings.Join(d.Keywords, ", ") }

// pdfDate is a date of ISO 32000-1, 7.9.4.
func pdfDate(t time.Time) string {
	_, offset := t.Zone()
	sign := "+"
	if offset < 0 {
		sign, offset = "-", -offset
	}
	return fmt.Sprintf("D:%s%s%02d'%02d'", t.Format("20060102150405"), sign, offset/3600, offset/60%60)
}

func (w *writer) writePages() {
	perPage := make([][]int, len(w.doc.Pages))
	for i, a := range w.tree.annots {
		perPage[a.page] = append(perPage[a.page], w.firstAnnot+i)
	}
	contents := w.reserve(len(w.doc.Pages))
	for i, p := range w.raw.pages {
		w.stream(contents+i, "/Filter/FlateDecode", w.drawn[i].content)
		w.begin(w.firstPage + i)
		w.text("<</Type/Page/Parent ")
		w.ref(w.pageTree)
		w.text("/MediaBox" + mediaBox(p) + "/Resources ")
		w.ref(w.resources)
		w.text("/Contents ")
		w.ref(contents + i)
		w.text("/StructParents ")
		w.int(i)
		w.text("/Tabs/S")
		if len(perPage[i]) > 0 {
			w.text("/Annots")
			w.refs(perPage[i])
		}
		w.text(">>")
		w.end()
	}
	w.begin(w.pageTree)
	w.text("<</Type/Pages/Count ")
	w.int(len(w.doc.Pages))
	w.text("/Kids[")
	for i := range w.doc.Pages {
		w.ref(w.firstPage + i)
		w.text(" ")
	}
	w.text("]>>")
	w.end()
}

// refs appends an array of references.
func (w *writer) refs(list []int) {
	w.text("[")
	for i, n := range list {
		if i > 0 {
			w.text(" ")
		}
		w.ref(n)
	}
	w.text("]")
}

func (w *writer) writeFiles() {
	packed := make([][]byte, len(w.doc.Files))
	w.crew.each(len(packed), func(d *deflater) func(int) {
		return func(i int) { packed[i] = d.deflate(w.doc.Files[i].Bytes) }
	})
	for i, f := range w.doc.Files {
		spec, data := w.reserve(1), w.reserve(1)
		w.files = append(w.files, spec)
		filter, bytes := "/Filter/FlateDecode", packed[i]
		if len(bytes) >= len(f.Bytes) { // a workbook is compressed already
			filter, bytes = "", f.Bytes
		}
		// The checksum is MD5 by the standard (ISO 32000-1, table 46), no security.
		w.stream(data, fmt.Sprintf("/Type/EmbeddedFile/Subtype%s/Params<</Size %d/ModDate(%s)/CheckSum<%x>>>%s",
			appendName(nil, f.MIME), len(f.Bytes), pdfDate(f.Modified), md5.Sum(f.Bytes), filter), bytes)
		w.begin(spec)
		w.text("<</Type/Filespec/F")
		w.textString(f.Name)
		w.text("/UF")
		w.textString(f.Name)
		w.text("/Desc")
		w.textString(f.Description)
		w.text("/AFRelationship/" + string(f.Relationship) + "/EF<</F ")
		w.ref(data)
		w.text("/UF ")
		w.ref(data)
		w.text(">>>>")
		w.end()
	}
}

func (w *writer) writeResources() {
	type entry struct {
		name   Name
		object int
	}
	var fonts, images []entry
	for _, name := range w.raw.fontNames() {
		fonts = append(fonts, entry{name, w.writeFont(w.raw.fonts[name])})
	}
	written := map[int]int{}
	for _, name := range sortedNames(w.raw.images) {
		im := w.raw.images[name]
		if written[im.object] == 0 {
			written[im.object] = w.writeImage(im.stream)
		}
		images = append(images, entry{name, written[im.object]})
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
			w.arena = appendName(w.arena, string(e.name))
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
// widths, meanings and glyph numbers of the codes in use, and nothing else.
func (w *writer) writeFont(f *rawFont) int {
	font, descendant, descriptor, unicode, glyphs, program := w.reserve(1), w.reserve(1), w.reserve(1), w.reserve(1), w.reserve(1), w.reserve(1)
	data := f.program.program()
	sum := sha256.New()
	sum.Write(data)
	sum.Write([]byte(fmt.Sprint(f.cids)))
	name := fontTag(sum.Sum(nil)) + "+" + string(f.name)

	w.begin(font)
	w.text(fmt.Sprintf("<</Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[%d 0 R]/ToUnicode %d 0 R>>", name, descendant, unicode))
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
	w.stream(unicode, "/Filter/FlateDecode", d.deflate(toUnicode(f.cids)))
	w.stream(glyphs, "/Filter/FlateDecode", d.deflate(f.glyphMap()))
	w.stream(program, fmt.Sprintf("/Length1 %d/Filter/FlateDecode", len(data)), d.deflate(data))
	return font
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

// toUnicode maps each code in use to itself: codes are Unicode values. One range
// over everything would cross a change of the first byte, which
// ISO 32000-1, 9.10.3 forbids.
func toUnicode(cids []int) []byte {
	var b strings.Builder
	b.WriteString("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	for block := range slices.Chunk(cids, cmapBlock) {
		fmt.Fprintf(&b, "%d beginbfchar\n", len(block))
		for _, c := range block {
			fmt.Fprintf(&b, "<%04X> <%04X>\n", c, c)
		}
		b.WriteString("endbfchar\n")
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n")
	return []byte(b.String())
}
