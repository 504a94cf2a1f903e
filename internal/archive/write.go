package archive

import (
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
	firstPage                          int   // page i is object firstPage+i
	order                              []int // elements as they are numbered and written
	nodes                              []int // element i is object nodes[i]
	under                              []int // the first element under element i is object under[i]
	firstAnnot                         int   // annotation i is object firstAnnot+i
	structRoot, outlines, form         int
	files                              []int          // file specifications
	shared                             map[string]int // streams that pages share
}

func (w *writer) write() []byte {
	nodes := len(w.tree.nodes) + len(w.tree.annots)
	w.numbers = make([]int, 0, nodes+nodes/16)
	w.catalog, w.info = w.reserve(1), w.reserve(1)
	w.pageTree, w.resources = w.reserve(1), w.reserve(1)
	w.firstPage = w.reserve(len(w.doc.Pages))
	w.structRoot = w.reserve(1)
	w.firstAnnot = w.reserve(len(w.tree.annots))
	w.numberNodes()
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
	w.text("/MarkInfo<</Marked true")
	if len(w.tree.ids) > 0 {
		w.text("/UserProperties true")
	}
	w.text(">>/ViewerPreferences<</DisplayDocTitle true>>/Metadata ")
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
		w.contents(contents+i, w.drawn[i].shared)
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

// contents names the streams of a page. What pages share comes first and leaves the
// graphics state as it was; it is written where the first page needs it.
func (w *writer) contents(own int, shared [2]string) {
	var list []int
	for _, s := range shared {
		if s == "" {
			continue
		}
		n, known := w.shared[s]
		if !known {
			n = w.reserve(1)
			if w.shared == nil {
				w.shared = map[string]int{}
			}
			w.shared[s] = n
			w.stream(n, "/Filter/FlateDecode", w.crew[0].deflate([]byte("q\n"+s+"Q\n")))
		}
		list = append(list, n)
	}
	w.text("/Contents")
	if len(list) == 0 {
		w.text(" ")
		w.ref(own)
		return
	}
	w.refs(append(list, own))
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
	packed := make([]*Packed, len(w.doc.Files))
	w.crew.each(len(packed), func(d *deflater) func(int) {
		return func(i int) {
			if packed[i] = w.doc.Files[i].Packed; packed[i] == nil {
				packed[i] = d.pack(w.doc.Files[i].Bytes)
			}
		}
	})
	for i, f := range w.doc.Files {
		spec, data := w.reserve(1), w.reserve(1)
		w.files = append(w.files, spec)
		p, filter := packed[i], ""
		if p.deflated {
			filter = "/Filter/FlateDecode"
		}
		w.stream(data, fmt.Sprintf("/Type/EmbeddedFile/Subtype%s/Params<</Size %d/ModDate(%s)/CheckSum<%x>>>%s",
			appendName(nil, f.MIME), p.size, pdfDate(f.Modified), p.sum, filter), p.data)
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
