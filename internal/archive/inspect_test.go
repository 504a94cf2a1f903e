package archive

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"
)

func TestInspectCounts(t *testing.T) {
	r, err := Inspect(drawSample().finished(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range r.Violations {
		t.Error(v)
	}
	// As the sample draws them: tables of 20 and 5 rows, heads of 2 and 7 cells.
	if want := 20*7 + 1 + 5*7 + 1 + 1; r.Identifiers != want {
		t.Errorf("%d identifiers, want %d", r.Identifiers, want)
	}
	r.Identifiers, r.Objects, r.Runs, r.Elements, r.Codes = 0, 0, 0, 0, 0
	if got, want := fmt.Sprintf("%+v", r), fmt.Sprintf("%+v", Report{Revisions: 1, Pages: 3, Artifacts: 3 + 25, Links: 1, Fields: 2, Files: 3, Fonts: 4}); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// A long file is as consistent as a short one.
func TestInspectThousandPages(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	r, err := Inspect(drawTables(1000, 8).finished(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range r.Violations {
		t.Error(v)
	}
	// Per page: heading, caption, 9 head cells, 8 rows of 8, figure and its caption.
	if want := 1000 * (1 + 1 + 9 + 64 + 2); r.Pages != 1000 || r.Runs != want {
		t.Errorf("%d pages, %d runs, want %d", r.Pages, r.Runs, want)
	}
}

// source prints an object the way it may stand in a file; streams do not occur.
func source(o Object) string {
	switch v := o.(type) {
	case nil:
		return "null"
	case Ref:
		return fmt.Sprintf("%d 0 R", v)
	case Name:
		return string(appendName(nil, string(v)))
	case String:
		return string(appendLiteral(nil, string(v)))
	case Array:
		parts := make([]string, len(v))
		for i := range v {
			parts[i] = source(v[i])
		}
		return "[" + strings.Join(parts, " ") + "]"
	case Dict:
		var b strings.Builder
		for _, k := range sortedKeys(v) {
			b.WriteString(source(k) + " " + source(v[k]))
		}
		return "<<" + b.String() + ">>"
	}
	return fmt.Sprint(o)
}

// forge appends a revision in which one object is changed. The way to it begins
// at the catalog: names are keys, numbers are places in an array.
func forge(t *testing.T, b []byte, change func(d Dict), way ...any) []byte {
	t.Helper()
	r := mustOpen(t, b)
	ref := r.trailer["Root"]
	o, err := r.Resolve(ref)
	for _, step := range way {
		if err != nil {
			t.Fatal(err)
		}
		if key, ok := step.(Name); ok {
			o = o.(Dict)[key]
		} else {
			o = o.(Array)[step.(int)]
		}
		if _, ok := o.(Ref); ok {
			ref = o
			o, err = r.Resolve(o)
		}
	}
	d, ok := o.(Dict)
	if !ok {
		t.Fatalf("%v leads to %v", way, o)
	}
	change(d)
	return revise(b, "/ID"+source(r.trailer["ID"]), map[int]string{int(ref.(Ref)): source(d)})
}

func TestInspectFindsForgeries(t *testing.T) {
	b := drawSample().finished(t)
	const root = Name("StructTreeRoot")
	page := []any{Name("Pages"), Name("Kids"), 0}
	for _, c := range []struct {
		name   string
		rule   Rule
		change func(d Dict)
		way    []any
	}{
		{"owner of a run", RuleParents, func(d Dict) { d["Nums"].(Array)[1] = Array{Ref(1)} }, []any{root, Name("ParentTree")}},
		{"entry removed", RuleParents, func(d Dict) { d["Nums"] = d["Nums"].(Array)[2:] }, []any{root, Name("ParentTree")}},
		{"next key", RuleParents, func(d Dict) { d["ParentTreeNextKey"] = int64(1) }, []any{root}},
		{"identifiers not announced", RuleID, func(d Dict) { delete(d["MarkInfo"].(Dict), "UserProperties") }, nil},
		{"identifier outside their tree", RuleID, func(d Dict) { d["ID"] = String("a") }, []any{root, Name("K"), Name("K"), 0}},
		{"tree of identifiers that nothing has", RuleID, func(d Dict) { d["IDTree"] = Dict{"Names": Array{String("a"), Ref(1)}} }, []any{root}},
		{"key of a page", RulePage, func(d Dict) { d["StructParents"] = int64(2) }, page},
		{"tab order", RulePage, func(d Dict) { delete(d, "Tabs") }, page},
		{"annotation added", RuleParents, func(d Dict) { d["Annots"] = append(d["Annots"].(Array), d["Annots"].(Array)[0]) }, page},
		{"annotation removed", RuleParents, func(d Dict) { delete(d, "Annots") }, page},
		{"hidden link", RuleLink, func(d Dict) { d["F"] = int64(6) }, slices.Concat(page, []any{Name("Annots"), 0})},
		{"dangling", RuleReference, func(d Dict) { d["Extra"] = Ref(77_777) }, page},
		{"content of another page", RuleRun, func(d Dict) { d["Contents"] = Ref(int(d["Contents"].(Ref)) + 1) }, page},
		{"no fonts", RuleContent, func(d Dict) { d["Resources"] = Dict{} }, page},
		{"role", RuleHeading, func(d Dict) { d["S"] = Name("H3") }, []any{root, Name("K"), Name("K"), 0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := Inspect(forge(t, b, c.change, c.way...))
			if err != nil {
				t.Fatal(err)
			}
			if !slices.ContainsFunc(r.Violations, func(v Violation) bool { return v.Rule == c.rule }) {
				t.Errorf("no %q among %v", c.rule, r.Violations)
			}
		})
	}
}

// A font that lies about widths or meanings is found.
func TestInspectFindsFontForgeries(t *testing.T) {
	b := drawSample().finished(t)
	r := mustOpen(t, b)
	pages, err := r.Pages()
	if err != nil {
		t.Fatal(err)
	}
	resources, _ := r.dict(pages[0].Dict["Resources"], "resources")
	fonts := resources["Font"].(Dict)
	font, _ := r.dict(fonts[sortedKeys(fonts)[0]], "font")
	descendant := font["DescendantFonts"].(Array)[0].(Ref)
	d, _ := r.dict(descendant, "font")
	widths := d["W"].(Array)[1].(Array)
	id := "/ID" + source(r.trailer["ID"])

	widths[0] = widths[0].(int64) + widthTolerance
	if got := violations(t, revise(b, id, map[int]string{int(descendant): source(d)})); len(got) != 0 {
		t.Errorf("width off by the tolerance: %v", got)
	}
	widths[0] = widths[0].(int64) + 1
	if got := violations(t, revise(b, id, map[int]string{int(descendant): source(d)})); len(got) != 1 || got[0].Rule != RuleWidth {
		t.Errorf("width off by more: %v", got)
	}
	empty := "<</Length 0>>\nstream\n\nendstream"
	if got := violations(t, revise(b, id, map[int]string{int(font["ToUnicode"].(Ref)): empty})); len(got) == 0 || got[0].Rule != RuleGlyph {
		t.Errorf("no meanings: %v", got)
	}
	if got := violations(t, revise(b, id, map[int]string{int(d["CIDToGIDMap"].(Ref)): empty})); len(got) == 0 || got[0].Rule != RuleGlyph {
		t.Errorf("no glyphs: %v", got)
	}
}

func violations(t *testing.T, b []byte) []Violation {
	t.Helper()
	r, err := Inspect(b)
	if err != nil {
		t.Fatal(err)
	}
	return r.Violations
}

func TestStrayBytes(t *testing.T) {
	b := drawSample().finished(t)
	revised := revise(b, "/ID"+source(mustOpen(t, b).trailer["ID"]), map[int]string{2: "<</Title(Tower 7 – fan turnover)>>"})
	if stray, err := mustOpen(t, revised).Stray(); err != nil || stray != nil {
		t.Errorf("%v %v", stray, err)
	}
	// An object that no table knows, before the appended one.
	hidden := bytes.Replace(revised, []byte("%%EOF\n2 0 obj"), []byte("%%EOF\n%idden\n2 0 obj"), 1)
	hidden = bytes.Replace(hidden, fmt.Appendf(nil, "%010d", len(b)), fmt.Appendf(nil, "%010d", len(b)+len("%idden\n")), 1)
	at := bytes.LastIndex(hidden, []byte("xref\n2 1"))
	hidden = fmt.Appendf(hidden[:bytes.LastIndex(hidden, []byte("startxref"))], "startxref\n%d\n%%%%EOF\n", at)
	stray, err := mustOpen(t, hidden).Stray()
	if err != nil || len(stray) != 1 || stray[0] != [2]int64{int64(len(b)), int64(len(b) + 7)} {
		t.Errorf("%v %v, want the bytes from %d", stray, err, len(b))
	}
}
