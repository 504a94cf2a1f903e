package archive

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"slices"
)

// Report is what Inspect counted, and everything that it found wrong.
type Report struct {
	Revisions, Objects, Pages int
	Runs, Artifacts           int // marked content on all pages
	Elements, Identifiers     int // of the structure tree
	Links, Fields, Files      int
	Fonts, Codes              int // fonts, and different codes shown in them
	Violations                []Violation
}

// Inspect checks a finished file, signed or not, from its bytes: marked content
// balanced and nothing painted outside it, parent tree and structure in
// agreement, structure as the standards want it, identifiers unique and all in
// their tree, no missing glyph, widths those of the fonts, no dangling reference,
// nothing between the objects, metadata telling the same twice. An error means that the file cannot be read
// far enough to say.
func Inspect(b []byte) (Report, error) {
	r, err := Open(b)
	if err != nil {
		return Report{}, err
	}
	in := inspection{r: r, used: map[Ref]*cidSet{}}
	for _, step := range []func() error{in.layout, in.references, in.pageContents, in.structure, in.fonts, in.metadata} {
		if err := step(); err != nil {
			return in.report, err
		}
	}
	in.report.Revisions = len(r.sections)
	in.report.Violations = in.list
	return in.report, nil
}

// inspection collects what the steps of Inspect find.
type inspection struct {
	findings
	r      *Reader
	report Report
	runs   []int // marks on each page
	used   map[Ref]*cidSet
}

// layout looks for bytes between the objects.
func (in *inspection) layout() error {
	stray, err := in.r.Stray()
	for _, s := range stray {
		in.add(RuleShape, fmt.Sprintf("bytes %d to %d", s[0], s[1]), "they belong to no object")
	}
	return err
}

// references looks at every object for references to objects that are not there.
func (in *inspection) references() error {
	in.missing(in.r.trailer, "trailer of revision ", len(in.r.sections))
	for n := 1; n <= maxObjects && in.report.Objects < len(in.r.places); n++ {
		if _, ok := in.r.places[n]; !ok {
			continue
		}
		in.report.Objects++
		o, err := in.r.Object(n)
		if err != nil {
			return err
		}
		in.missing(o, "object ", n)
	}
	return nil
}

// missing reports what an object points to in vain.
func (in *inspection) missing(o Object, place string, number int) {
	list := in.r.dangling(o, nil)
	slices.Sort(list) // dictionaries come in no order
	for _, ref := range list {
		in.add(RuleReference, fmt.Sprint(place, number), "object %d is not there", ref)
	}
}

// dangling appends the references in o that lead nowhere.
func (r *Reader) dangling(o Object, list []Ref) []Ref {
	switch v := o.(type) {
	case Ref:
		if _, ok := r.places[int(v)]; !ok {
			list = append(list, v)
		}
	case Array:
		for _, e := range v {
			list = r.dangling(e, list)
		}
	case Dict:
		for _, e := range v {
			list = r.dangling(e, list)
		}
	case *Stream:
		list = r.dangling(v.Dict, list)
	}
	return list
}

// pageContents scans every page.
func (in *inspection) pageContents() error {
	pages, err := in.r.Pages()
	if err != nil {
		return err
	}
	in.report.Pages = len(pages)
	for i, p := range pages {
		if p.Dict["Tabs"] != Name("S") || p.Dict["StructParents"] != int64(i) {
			in.add(RulePage, pageName(i), "tab order or key of the parent tree")
		}
		if err := in.page(i, p); err != nil {
			return err
		}
	}
	return nil
}

func (in *inspection) page(i int, p PageObject) error {
	content, err := in.r.content(p)
	if err != nil {
		return err
	}
	resources, err := in.r.dict(p.Dict["Resources"], "resources")
	if err != nil {
		return err
	}
	fonts, err := in.r.dict(resources["Font"], "fonts")
	if err != nil {
		return err
	}
	images, err := in.r.dict(resources["XObject"], "images")
	if err != nil {
		return err
	}
	short, err := in.r.codesOf(fonts)
	if err != nil {
		return err
	}
	s := pageScan{short: short, show: func(_ int, font Name, codes []byte) {
		ref, ok := fonts[font].(Ref)
		if !ok {
			return // reported below
		}
		if in.used[ref] == nil {
			in.used[ref] = new(cidSet)
		}
		in.used[ref].add(codes)
	}}
	scan(content, &s)
	for _, f := range s.faults {
		in.add(f.Rule, pageName(i), "%s", f.Fact)
	}
	for _, name := range sortedNames(s.fonts) {
		if fonts[name] == nil {
			in.add(RuleContent, pageName(i), "no font /%s", name)
		}
	}
	for _, name := range sortedNames(s.images) {
		if images[name] == nil {
			in.add(RuleContent, pageName(i), "no image /%s", name)
		}
	}
	in.runs = append(in.runs, len(s.marks))
	in.report.Runs += len(s.marks)
	in.report.Artifacts += s.artifacts
	return nil
}

// fonts checks every code shown on any page against its font.
func (in *inspection) fonts() error {
	refs := make([]Ref, 0, len(in.used))
	for ref := range in.used {
		refs = append(refs, ref)
	}
	slices.Sort(refs)
	in.report.Fonts = len(refs)
	for _, ref := range refs {
		if err := in.font(ref, in.used[ref].list()); err != nil {
			return err
		}
	}
	return nil
}

func (in *inspection) font(ref Ref, cids []int) error {
	d, err := in.r.dict(ref, "font")
	if err != nil {
		return err
	}
	meaning, err := in.r.meanings(ref)
	if err != nil {
		return err
	}
	f, err := in.r.embeddedFont(d)
	if err != nil {
		return inObject(int(ref), err)
	}
	f.cids = cids
	f.check(&in.findings)
	in.report.Codes += len(cids)
	for _, c := range cids {
		if meaning[c] == "" {
			in.add(RuleGlyph, string(f.written), "code %04X has no Unicode meaning", c)
		}
	}
	return nil
}

// embeddedFont reads a font back from a finished file.
func (r *Reader) embeddedFont(d Dict) (*rawFont, error) {
	f := &rawFont{}
	f.written, _ = d["BaseFont"].(Name)
	kids, err := r.array(d["DescendantFonts"], "descendant fonts")
	if err != nil || len(kids) != 1 || d["Subtype"] != Name("Type0") {
		return nil, foreign("font %s", f.written)
	}
	c, err := r.dict(kids[0], "descendant font")
	if err != nil {
		return nil, err
	}
	f.initial = int(intOr(c["DW"], 1000))
	if f.widths, err = readWidths(c["W"]); err != nil {
		return nil, foreign("font %s: %v", f.written, err)
	}
	if _, f.toGlyph, err = r.stream(c["CIDToGIDMap"], "glyph map"); err != nil {
		return nil, err
	}
	if f.desc, err = r.dict(c["FontDescriptor"], "font descriptor"); err != nil {
		return nil, err
	}
	_, b, err := r.stream(f.desc["FontFile2"], "font program")
	if err != nil {
		return nil, err
	}
	if f.program, err = readFont(b); err != nil {
		return nil, foreign("font %s: %v", f.written, err)
	}
	if c["BaseFont"] != f.written || f.desc["FontName"] != f.written {
		return nil, foreign("font %s has several names", f.written)
	}
	return f, nil
}

// metadata checks the claims, that document information and XMP packet tell the
// same, and that the identifier is the one of the first revision's content.
func (in *inspection) metadata() error {
	xmp, err := in.r.Metadata()
	if err != nil {
		return err
	}
	info, err := in.r.Info()
	if err != nil {
		return err
	}
	if info["Title"] == "" {
		in.add(RuleMetadata, "metadata", "no title in the document information")
	}
	for _, key := range []string{"Title", "Author", "Subject", "Keywords", "Creator", "Producer"} {
		if !bytes.Contains(xmp, []byte(">"+escapeXML(info[key])+"<")) && info[key] != "" {
			in.add(RuleMetadata, "metadata", "%s is not %q", key, info[key])
		}
	}
	for _, claim := range []string{"<pdfaid:conformance>A<", "<pdfuaid:part>1<"} {
		if !bytes.Contains(xmp, []byte(claim)) {
			in.add(RuleMetadata, "metadata", "no %s", claim)
		}
	}
	oldest := in.r.sections[len(in.r.sections)-1]
	sum := sha256.Sum256(in.r.src[:oldest.start])
	first, last := in.r.ID()
	if !bytes.Equal(first, sum[:idLength]) || len(in.r.sections) == 1 && !bytes.Equal(first, last) {
		in.add(RuleMetadata, "identifier", "not that of the content")
	}
	files, err := in.r.Attachments()
	in.report.Files = len(files)
	return err
}
