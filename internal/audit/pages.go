package audit

import (
	"fmt"
	"slices"
	"strings"

	"asleft/internal/archive"
)

// comparePages names everything in which a file differs from what it should be:
// the one made anew, or the one before a change. Where a field was signed, too, the
// fields differ rightly.
func (a *audit) comparePages(is, should *archive.Reader, signed bool) {
	if a.comparePageCount(is, should) {
		return
	}
	g := differences(is, should)
	drawn := map[int]bool{} // pages whose drawing differs
	for _, p := range g.found {
		keys := p.keys()
		c := classify(keys)
		if c == CodeField && signed {
			continue
		}
		if c == CodePainting && p.page > 0 && slices.Contains(keys, "Contents") {
			drawn[p.page] = true
			continue
		}
		a.place(c, p.page, strings.Join(keys, "/"))
	}
	if !g.whole {
		a.add(Differs, CodeDocument, text("place", ""))
	}
	a.compareTexts(is, should, drawn)
	if n := g.unused(); n > 0 && len(g.found) == 0 {
		a.add(Differs, CodeUnused, text("n", fmt.Sprint(n)))
	}
}

// place tells of a difference once for each page.
func (a *audit) place(c Code, page int, where string) {
	if slices.ContainsFunc(a.out.Findings, func(f Finding) bool { return f.Code == c && f.Page == page }) {
		return
	}
	a.addFinding(Finding{Severity: Differs, Code: c, Page: page, Args: []Arg{text("place", where)}})
}

// comparePageCount tells of pages that were taken out or put in.
func (a *audit) comparePageCount(is, should *archive.Reader) bool {
	x, err1 := is.Pages()
	y, err2 := should.Pages()
	if err1 != nil {
		a.add(Differs, CodeUnread, text("what", "pages"), text("fact", err1.Error()))
		return true
	}
	if err2 != nil || len(x) == len(y) {
		return err2 != nil
	}
	n := 0
	for n < min(len(x), len(y)) && samePage(is, should, n) {
		n++
	}
	a.addFinding(Finding{Severity: Differs, Code: CodePages, Page: n + 1,
		Args: []Arg{text("n", fmt.Sprint(len(x))), text("expected", fmt.Sprint(len(y)))}})
	return true
}

func samePage(is, should *archive.Reader, n int) bool {
	x, err1 := is.PageText(n)
	y, err2 := should.PageText(n)
	if err1 != nil || err2 != nil || len(x) != len(y) {
		return false
	}
	for id, t := range x {
		if y[id] != t {
			return false
		}
	}
	return true
}

// classes are the codes for what stands under a key, looked for from the top of
// the file down; the first key that is here decides.
var classes = map[string]Code{
	"OCProperties": CodeLayer, "OpenAction": CodeAction, "AA": CodeAction, "A": CodeAction, "JavaScript": CodeAction,
	"AcroForm": CodeField, "Names": CodeAttached, "AF": CodeAttached,
	"StructTreeRoot": CodeReading, "MarkInfo": CodeReading, "Lang": CodeReading, "StructParents": CodeReading, "Tabs": CodeReading,
	"Outlines": CodeOutline, "PageLabels": CodeOutline, "ViewerPreferences": CodeOutline, "PageMode": CodeOutline,
	"Metadata": CodeMetadata, "Info": CodeMetadata, "ID": CodeMetadata,
	"Annots": CodeAnnotation, "Contents": CodePainting, "XObject": CodePainting, "ExtGState": CodePainting,
	"Properties": CodeLayer, "ToUnicode": CodeMeaning, "Font": CodeGlyphs,
	"MediaBox": CodeSheet, "CropBox": CodeSheet, "Rotate": CodeSheet, "Parent": CodeSheet,
}

// classify names what stands at a place. Within a font the meaning of its codes is
// told from their shapes; an action or a layer is one wherever it hangs.
func classify(keys []string) Code {
	for _, k := range keys {
		switch k {
		case "JavaScript", "OpenAction", "AA":
			return CodeAction
		case "OC", "OCProperties", "Properties":
			return CodeLayer
		case "ToUnicode":
			return CodeMeaning
		}
	}
	for _, k := range keys {
		if c, ok := classes[k]; ok {
			return c
		}
	}
	if len(keys) > 1 && keys[1] == "Pages" {
		return CodeSheet
	}
	return CodeDocument
}

// compareTexts compares the texts of the pages whose drawing differs: first what
// stands under a path of the data file, then everything else. Where no text
// differs, something was drawn.
func (a *audit) compareTexts(is, should *archive.Reader, pages map[int]bool) {
	if len(pages) == 0 {
		return
	}
	x, y := printedValues(is), printedValues(should)
	told := map[int]bool{}
	for _, id := range y.order {
		v, w := x.byID[id], y.byID[id]
		if w.page > 0 && pages[w.page] && (v == nil || v.text != w.text) {
			told[w.page] = true
			a.printedValue(id, v, w)
		}
	}
	for _, id := range x.order {
		if v := x.byID[id]; y.byID[id] == nil && pages[v.page] {
			told[v.page] = true
			a.printedValue(id, v, nil)
		}
	}
	for _, page := range sortedInts(pages) {
		told[page] = a.runs(is, should, page, y.runs) || told[page]
		if !told[page] {
			a.place(CodePainting, page, "")
		}
	}
}

// printedValue tells of a value that is not printed as it should be.
func (a *audit) printedValue(id string, is, should *printed) {
	f := Finding{Severity: Differs, Code: CodeValue, Path: id, keys: keysOf(id)}
	switch {
	case is == nil:
		f.Code, f.Page, f.Args = CodeValueMissing, should.page, []Arg{text("recomputed", should.text)}
	case should == nil:
		f.Code, f.Page, f.Args = CodeValueExtra, is.page, []Arg{text("printed", is.text)}
	default:
		f.Page, f.Args = is.page, []Arg{text("printed", is.text), text("recomputed", should.text)}
	}
	a.addFinding(f)
}

// runs compares the texts of a page that stand under no path.
func (a *audit) runs(is, should *archive.Reader, page int, valued map[archive.Run]bool) bool {
	x, err := is.PageText(page - 1)
	if err != nil {
		a.addFinding(Finding{Severity: Differs, Code: CodeUnread, Page: page, Args: []Arg{text("what", "page"), text("fact", err.Error())}})
		return false
	}
	y, err := should.PageText(page - 1)
	if err != nil {
		return false
	}
	told := false
	ids := map[int]bool{}
	for id := range x {
		ids[id] = true
	}
	for id := range y {
		ids[id] = true
	}
	for _, id := range sortedInts(ids) {
		if x[id] != y[id] && !valued[archive.Run{Page: page - 1, MCID: id}] {
			told = true
			a.addFinding(Finding{Severity: Differs, Code: CodeText, Page: page,
				Args: []Arg{text("printed", x[id]), text("recomputed", y[id])}})
		}
	}
	return told
}

func sortedInts(m map[int]bool) []int {
	var out []int
	for n := range m {
		out = append(out, n)
	}
	slices.Sort(out)
	return out
}

// printed is a value as a page shows it.
type printed struct {
	text string
	page int // from 1
}

// values are all printed values of a file.
type values struct {
	byID  map[string]*printed
	order []string
	runs  map[archive.Run]bool // that are or belong to a value
}

// printedValues reads every value that can be read.
func printedValues(r *archive.Reader) *values {
	v := &values{byID: map[string]*printed{}, runs: map[archive.Run]bool{}}
	if root, err := r.Structure(); err == nil {
		v.walk(r, root, false)
	}
	return v
}

func (v *values) walk(r *archive.Reader, e *archive.Element, inside bool) {
	if e.ID != "" {
		inside = true
		p := &printed{}
		if s, err := r.TextOf(e); err == nil {
			p.text = s
		}
		if e.Detail != nil {
			p.text += e.Detail.Actual
		}
		p.page = firstPage(e)
		paths, texts := archive.Several(e.ID, p.text)
		for i, id := range paths {
			if v.byID[id] == nil {
				v.order = append(v.order, id)
			}
			v.byID[id] = &printed{text: texts[i], page: p.page}
		}
	}
	for _, k := range e.Kids {
		if k.Run != nil && inside {
			v.runs[*k.Run] = true
		}
		if k.Element != nil {
			v.walk(r, k.Element, inside)
		}
	}
}

// firstPage is the page of the first run in or under an element, from 1; 0 where
// nothing is drawn.
func firstPage(e *archive.Element) int {
	for _, k := range e.Kids {
		if k.Run != nil {
			return k.Run.Page + 1
		}
		if k.Element != nil {
			if n := firstPage(k.Element); n > 0 {
				return n
			}
		}
	}
	return 0
}

// keysOf are the parts of an ID without the mark of a repeated value.
func keysOf(id string) []string {
	id, _, _ = strings.Cut(id, "~")
	return strings.Split(id, ".")
}
