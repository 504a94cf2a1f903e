package archive

import (
	"bytes"
	"fmt"
	"sort"
	"strconv"
)

// Finish rewrites the page writer's output as an archive file that says what
// doc declares. It changes neither argument. Same arguments give the same bytes.
// What it did not expect, in either, it refuses with a [*RefusedError] that
// holds all violations; output that cannot be read at all gives a [*ReadError].
func Finish(raw []byte, doc Document) ([]byte, error) {
	var out findings
	in, err := readRaw(raw, &out)
	if err != nil {
		return nil, err
	}
	checkDocument(&doc, &out)
	nameFonts(&doc, in)
	crew := newCrew(doc.Effort)
	in.shorten()
	drawn := in.readPages(crew)
	in.letGo()
	tree := buildTree(&doc, &out)
	comparePages(&doc, drawn, &out)
	for _, name := range in.fontNames() {
		in.fonts[name].check(&out)
	}
	if err := out.refusal(); err != nil {
		return nil, err
	}
	w := writer{builder: builder{crew: crew}, doc: &doc, raw: in, drawn: drawn, tree: tree}
	w.effort = doc.Effort
	return w.write(), nil
}

// drawnPage is what scanning a page gave.
type drawnPage struct {
	scan    pageScan
	content []byte    // compressed anew
	shared  [2]string // what other pages draw as well, not compressed
	err     error
}

// readPages scans all pages and compresses them again.
func (raw *rawFile) readPages(c crew) []drawnPage {
	drawn := make([]drawnPage, len(raw.pages))
	var used []map[Name]*cidSet
	c.each(len(drawn), func(d *deflater) func(int) {
		codes := map[Name]*cidSet{}
		used = append(used, codes)
		h := &hand{raw: raw, codes: codes, deflater: d, packer: packer{fonts: raw.short, faces: raw.fonts}}
		return func(i int) { h.readPage(i, &drawn[i]) }
	})
	for _, name := range raw.fontNames() {
		var all cidSet
		for _, codes := range used {
			if set := codes[name]; set != nil {
				all.union(set)
			}
		}
		raw.fonts[name].cids = all.list()
	}
	raw.report(drawn)
	return drawn
}

// letGo lets the page writer's output go once the pages are read: it may be the
// greatest thing in memory. Of the rest only images stand in it still.
func (raw *rawFile) letGo() {
	raw.objects = nil
	for i := range raw.pages {
		raw.pages[i].content = nil
	}
	for _, im := range raw.images {
		im.stream.Raw = bytes.Clone(im.stream.Raw)
	}
}

// shorten gives fonts and images the names that pages call them by: the page
// writer's are hashes of forty letters.
func (raw *rawFile) shorten() {
	raw.short = map[Name]string{}
	for i, name := range raw.fontNames() {
		raw.short[name] = "/F" + strconv.Itoa(i)
	}
	for i, name := range sortedNames(raw.images) {
		raw.short[name] = "/I" + strconv.Itoa(i)
	}
}

// hand is what one worker goes over pages with.
type hand struct {
	raw   *rawFile
	codes map[Name]*cidSet // shown so far, by font
	inflater
	recording
	packer   packer
	deflater *deflater
	seen     map[string]string // what pages share
}

// readPage scans one page, adding the codes that it shows, and packs it.
func (h *hand) readPage(i int, p *drawnPage) {
	s := h.raw.pages[i].content
	data := s.Raw
	if s.Dict["Filter"] != nil {
		if data, p.err = h.inflate(s.Raw, maxStreamDecoded); p.err != nil {
			return
		}
	}
	var font Name
	var set *cidSet
	p.scan.show = func(_ int, name Name, shown []byte) {
		if name != font || set == nil {
			if set = h.codes[name]; set == nil {
				set = new(cidSet)
				h.codes[name] = set
			}
			font = name
		}
		set.add(shown)
	}
	h.ops, h.args = h.ops[:0], h.args[:0]
	p.scan.record = &h.recording
	scan(data, &p.scan)
	p.scan.record = nil
	if len(p.scan.faults) == 0 { // else it is refused
		own, shared := h.packer.pack(data, &h.recording)
		p.content = h.deflater.deflate(own)
		p.shared = [2]string{h.intern(shared[0]), h.intern(shared[1])}
	}
}

// intern is the text, of which there is one for each worker.
func (h *hand) intern(b []byte) string {
	s, known := h.seen[string(b)]
	if !known {
		s = string(b)
		if h.seen == nil {
			h.seen = map[string]string{}
		}
		h.seen[s] = s
	}
	return s
}

// report adds what the pages did wrong to the findings.
func (raw *rawFile) report(drawn []drawnPage) {
	for i := range drawn {
		p := &drawn[i]
		if p.err != nil {
			raw.add(RuleContent, pageName(i), "content: %v", p.err)
		}
		for _, f := range p.scan.faults {
			raw.add(f.Rule, pageName(i), "%s", f.Fact)
		}
		for _, name := range sortedNames(p.scan.fonts) {
			if raw.fonts[name] == nil {
				raw.add(RuleContent, pageName(i), "font /%s is not in the resources", name)
			}
		}
		for _, name := range sortedNames(p.scan.images) {
			if raw.images[name] == nil {
				raw.add(RuleContent, pageName(i), "image /%s is not in the resources", name)
			}
		}
	}
}

func (raw *rawFile) fontNames() []Name { return sortedNames(raw.fonts) }

func sortedNames[V any](m map[Name]V) []Name {
	names := make([]Name, 0, len(m))
	for n := range m {
		names = append(names, n)
	}
	sort.Slice(names, func(i, j int) bool { return names[i] < names[j] })
	return names
}

// comparePages checks the declared pages against those drawn: as many, with
// the marks 0 … Runs-1 on each.
func comparePages(doc *Document, drawn []drawnPage, out *findings) {
	if len(doc.Pages) != len(drawn) {
		out.add(RulePage, "document", "%d pages declared, %d drawn", len(doc.Pages), len(drawn))
		return
	}
	for i := range drawn {
		marks := drawn[i].scan.marks
		if len(marks) != doc.Pages[i].Runs {
			out.add(RuleRun, pageName(i), "%d runs declared, %d drawn", doc.Pages[i].Runs, len(marks))
		}
		// The scan refuses a number used twice, so a range check completes it.
		for _, m := range marks {
			if m.mcid >= len(marks) {
				out.add(RuleRun, pageName(i), "identifier %d of %d runs", m.mcid, len(marks))
			}
		}
	}
}

func mediaBox(p rawPage) string {
	return fmt.Sprintf("[0 0 %s %s]", appendPoints(nil, p.width), appendPoints(nil, p.height))
}
