package audit_test

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"asleft/internal/archive"
	"asleft/internal/audit"
	"asleft/internal/data"
)

// released is the package of an earlier version, as it was kept.
func released(t testing.TB) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "report", "testdata", "kept", "asleft-1", "open", "package.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

const releasedValue = "cells.2.checks.clearance.rounds.asfound.readings.3.read"

// in is a value in the released package: its page, its run, and where it stands.
func in(d *document) (page, mcid int, at archive.Box) {
	d.t.Helper()
	page, mcid = d.value(releasedValue)
	list, err := d.reader.Paints(page)
	if err != nil {
		d.t.Fatal(err)
	}
	for _, p := range list {
		if p.Kind == archive.PaintText && p.Run == mcid {
			return page, mcid, p.Bounds
		}
	}
	d.t.Fatal("value is not painted")
	return 0, 0, at
}

// artifact is drawing that no reader is told about.
func artifact(format string, args ...any) string {
	return "\n/Artifact<</Type/Layout>>BDC\n" + fmt.Sprintf(format, args...) + "\nEMC\n"
}

// intoRun puts operations into a run, before its text.
func intoRun(t *testing.T, b []byte, mcid int, operations string) []byte {
	t.Helper()
	mark := []byte(fmt.Sprintf("<</MCID %d>>BDC", mcid))
	at := bytes.Index(b, mark)
	if at < 0 {
		t.Fatalf("no run %d", mcid)
	}
	show := at + bytes.IndexByte(b[at:], '(')
	return slices.Concat(b[:show], []byte(" "+operations+" "), b[show:])
}

// noValue is a run with a digit that is no value and in no figure.
func noValue(d *document) (page, mcid int) {
	d.t.Helper()
	root, err := d.reader.Structure()
	if err != nil {
		d.t.Fatal(err)
	}
	page = -1
	var walk func(e *archive.Element)
	walk = func(e *archive.Element) {
		if e.ID != "" || e.Role == archive.RoleFigure || page >= 0 {
			return
		}
		for _, k := range e.Kids {
			if k.Element != nil {
				walk(k.Element)
			}
			if k.Run == nil || page >= 0 {
				continue
			}
			if runs, err := d.reader.PageText(k.Run.Page); err == nil && strings.Contains(runs[k.Run.MCID], "readings are in") {
				page, mcid = k.Run.Page, k.Run.MCID
			}
		}
	}
	walk(root)
	if page < 0 {
		d.t.Fatal("no such text")
	}
	return page, mcid
}

// otherWords are the codes of words that differ, one of which has to be there:
// which one, hangs on what else has changed since that version.
var otherWords = []audit.Code{audit.CodeSaid, audit.CodeSaidExtra, audit.CodeSaidExtraMany}

// foreignTamperings change a package that another version wrote.
var foreignTamperings = []tampering{
	{"printed number", func(t *testing.T, d *document) {
		page, mcid, _ := in(d)
		d.content(page, func(b []byte) []byte { return otherDigit(t, b, mcid) })
	}, []audit.Code{audit.CodeValue}},
	{"digit put before a number", func(t *testing.T, d *document) {
		page, mcid, _ := in(d)
		d.content(page, func(b []byte) []byte {
			at := bytes.Index(b, []byte(fmt.Sprintf("<</MCID %d>>BDC", mcid)))
			show := at + bytes.IndexByte(b[at:], '(') + 1
			return slices.Concat(b[:show], []byte("1"), b[show:])
		})
	}, []audit.Code{audit.CodeValue}},
	{"number that is no value", func(t *testing.T, d *document) {
		page, mcid := noValue(d)
		d.content(page, func(b []byte) []byte { return otherDigit(t, b, mcid) })
	}, otherWords},
	{"line at the edge of a page", func(_ *testing.T, d *document) {
		d.content(2, func(b []byte) []byte { return bytes.Replace(b, []byte("(NOT READY)"), []byte("(READY)"), 1) })
	}, otherWords},
	{"heading", func(_ *testing.T, d *document) {
		d.content(0, func(b []byte) []byte { return bytes.Replace(b, []byte("(DRAFT: NOT"), []byte("(FINAL: NOT"), 1) })
	}, otherWords},
	{"text of a figure for those who do not see it", func(t *testing.T, d *document) {
		for _, n := range slices.Sorted(maps.Keys(d.objects)) {
			if e, ok := d.objects[n].(archive.Dict); ok && e["S"] == archive.Name("Figure") {
				alt, _ := e["Alt"].(archive.String)
				d.dict(archive.Ref(n))["Alt"] = "Nothing is outside its limits" + alt[:0]
				return
			}
		}
		t.Fatal("no figure")
	}, otherWords},
	{"bookmark", func(_ *testing.T, d *document) {
		d.dict(d.dict(d.catalog()["Outlines"])["First"])["Title"] = archive.String("READY FOR SIGN-OFF")
	}, otherWords},
	{"title", func(_ *testing.T, d *document) { d.dict(d.trailer["Info"])["Title"] = archive.String("Another") }, []audit.Code{audit.CodeMetadata}},
	{"codes lead to other glyphs", tamperings[2].do, []audit.Code{audit.CodeGlyphsSwapped}},
	{"meaning of a code", tamperings[3].do, []audit.Code{audit.CodeMeaning}},
	{"glyphs swapped in the font program", func(_ *testing.T, d *document) {
		f := d.font(0)
		ref, p := d.program(f)
		list := p.glyphs()
		a, b := d.glyphOf(f, '8'), d.glyphOf(f, '6')
		list[a], list[b] = list[b], list[a]
		p.join(list)
		d.set(ref, p.bytes())
	}, []audit.Code{audit.CodeGlyphsSwapped}},
	{"glyph drawn anew", func(_ *testing.T, d *document) {
		f := d.font(0)
		ref, p := d.program(f)
		redraw(d, f, p, '8')
		d.set(ref, p.bytes())
	}, []audit.Code{audit.CodeGlyphsRedrawn}},
	{"instructions of a font", func(_ *testing.T, d *document) {
		ref, p := d.program(d.font(0))
		p.tables["prep"] = append(p.tables["prep"], 0)
		d.set(ref, p.bytes())
	}, []audit.Code{audit.CodeTypefaceCut}},
	{"another cut", func(_ *testing.T, d *document) {
		f := d.font(0)
		ref, p := d.program(f)
		p.tables["head"][7]++
		redraw(d, f, p, '8')
		d.set(ref, p.bytes())
	}, []audit.Code{audit.CodeTypefaceCut}},
	{"another typeface", func(_ *testing.T, d *document) {
		f := d.font(0)
		child := d.dict(f["DescendantFonts"].(archive.Array)[0])
		f["BaseFont"], child["BaseFont"] = archive.Name("ABCDEF+Other"), archive.Name("ABCDEF+Other")
		d.dict(child["FontDescriptor"])["FontName"] = archive.Name("ABCDEF+Other")
	}, []audit.Code{audit.CodeTypefaceOther}},
	{"codes of text", func(t *testing.T, d *document) {
		ref := d.font(0)["Encoding"]
		d.set(ref, bytes.Replace(d.data(ref), []byte("<20> <7F> 32"), []byte("<20> <7F> 33"), 1))
	}, []audit.Code{audit.CodeGlyphs}},
	{"white over a number", func(_ *testing.T, d *document) {
		page, _, at := in(d)
		d.content(page, func(b []byte) []byte {
			return append(b, artifact("1 g %f %f %f %f re f", at.Left, at.Bottom, at.Right-at.Left, at.Top-at.Bottom)...)
		})
	}, []audit.Code{audit.CodeHiddenCovered}},
	{"the left of a digit covered", func(_ *testing.T, d *document) {
		page, _, at := in(d)
		d.content(page, func(b []byte) []byte {
			return append(b, artifact("1 g %f %f 1 %f re f", at.Left, at.Bottom+1, at.Top-at.Bottom-2)...)
		})
	}, []audit.Code{audit.CodeHiddenCovered}},
	{"a broad white line over a number", func(_ *testing.T, d *document) {
		page, _, at := in(d)
		y := (at.Bottom + at.Top) / 2
		d.content(page, func(b []byte) []byte {
			return append(b, artifact("1 G 9 w %f %f m %f %f l S", at.Left, y, at.Right, y)...)
		})
	}, []audit.Code{audit.CodeHiddenCovered}},
	{"a white dot over a digit", func(_ *testing.T, d *document) {
		page, _, at := in(d)
		y := (at.Bottom + at.Top) / 2
		d.content(page, func(b []byte) []byte {
			return append(b, artifact("1 G 4 w 1 J %f %f m %f %f l S", at.Left+2, y, at.Left+2, y)...)
		})
	}, []audit.Code{audit.CodeHiddenCovered}},
	{"two pieces that run in opposite ways", func(_ *testing.T, d *document) {
		page, _, at := in(d)
		w, h := (at.Right-at.Left)/2, at.Top-at.Bottom
		d.content(page, func(b []byte) []byte {
			return append(b, artifact("1 g %f %f %f %f re %f %f %f %f re f", at.Left, at.Bottom, w, h, at.Right, at.Bottom, -w, h)...)
		})
	}, []audit.Code{audit.CodeHiddenCovered}},
	{"a line under a number", func(_ *testing.T, d *document) {
		page, _, at := in(d)
		y := (at.Bottom + at.Top) / 2
		d.content(page, func(b []byte) []byte {
			return append([]byte(artifact("q 0 G 1 w %f %f m %f %f l S Q", at.Left, y, at.Right, y)), b...)
		})
	}, []audit.Code{audit.CodeHiddenCrossed}},
	{"another number over a number", func(t *testing.T, d *document) {
		page, _, at := in(d)
		fonts := d.dict(d.dict(d.page(page)["Resources"])["Font"])
		name := slices.Sorted(maps.Keys(fonts))[0]
		d.content(page, func(b []byte) []byte {
			return append(b, artifact("q 0 g BT /%s 8 Tf %f %f Td (8) Tj ET Q", name, at.Left, at.Bottom)...)
		})
	}, []audit.Code{audit.CodeHiddenPrinted}},
	{"white number", inRun("1 g"), []audit.Code{audit.CodeHiddenPale}},
	{"tiny number", inRun("1 Tz"), []audit.Code{audit.CodeHiddenSmall}},
	{"number as outlines", inRun("1 Tr"), []audit.Code{audit.CodeHiddenTurned}},
	{"invisible number", inRun("3 Tr"), []audit.Code{audit.CodeShape}},
	{"number beside the page", inRun("5000 0 Td"), []audit.Code{audit.CodeHiddenOutside}},
	{"number cut off", func(_ *testing.T, d *document) {
		page, _, at := in(d)
		d.content(page, func(b []byte) []byte {
			return append([]byte(fmt.Sprintf("0 0 %f %f re W n\n", (at.Left+at.Right)/2, (at.Bottom+at.Top)/2)), b...)
		})
	}, []audit.Code{audit.CodeHiddenCut}},
	{"number in a run that nobody reads", func(_ *testing.T, d *document) {
		page, mcid, _ := in(d)
		d.content(page, func(b []byte) []byte {
			return bytes.Replace(b, []byte(fmt.Sprintf("<</MCID %d>>BDC", mcid)), []byte("<</MCID 9999>>BDC"), 1)
		})
	}, []audit.Code{audit.CodeShape}},
	{"annotation", tamperings[5].do, []audit.Code{audit.CodeAnnotation}},
	{"link with a border", func(t *testing.T, d *document) {
		annotation(t, d, "Link")["Border"] = archive.Array{int64(0), int64(0), int64(20)}
	}, []audit.Code{audit.CodeAnnotation}},
	{"field that shows something", func(t *testing.T, d *document) {
		normal := d.dict(annotation(t, d, "Widget")["AP"])["N"]
		d.set(normal, []byte("0 0 50 50 re f"))
	}, []audit.Code{audit.CodeAnnotation}},
	{"hidden layer", tamperings[6].do, []audit.Code{audit.CodeLayer}},
	{"something to run", tamperings[7].do, []audit.Code{audit.CodeAction}},
	{"page turned", tamperings[11].do, []audit.Code{audit.CodeSheet}},
	{"page cut", func(_ *testing.T, d *document) {
		d.page(3)["CropBox"] = archive.Array{int64(0), int64(0), int64(300), int64(300)}
	}, []audit.Code{audit.CodeSheet}},
	{"corner of a page moved", func(_ *testing.T, d *document) {
		d.page(3)["MediaBox"].(archive.Array)[0] = int64(200)
	}, []audit.Code{audit.CodeSheet}},
	{"table of readings", otherTable(data.ReadingsName), []audit.Code{audit.CodeFileRebuilt}},
	{"table of entries", otherTable(data.EntriesName), []audit.Code{audit.CodeFileRebuilt}},
	{"page taken out", tamperings[12].do, []audit.Code{audit.CodeUnread}},
	{"see-through", func(_ *testing.T, d *document) {
		d.dict(d.page(1)["Resources"])["ExtGState"] = archive.Dict{"G": archive.Dict{"ca": int64(0)}}
	}, []audit.Code{audit.CodePainting}},
	{"name of a value", func(t *testing.T, d *document) {
		for _, n := range slices.Sorted(maps.Keys(d.objects)) {
			if e, ok := d.objects[n].(archive.Dict); ok && e["ID"] == archive.String(releasedValue) {
				delete(d.dict(archive.Ref(n)), "ID")
				return
			}
		}
		t.Fatal("no such value")
	}, []audit.Code{audit.CodeValueMissing}},
}

// otherTable changes a number in a table.
func otherTable(name string) func(*testing.T, *document) {
	return func(_ *testing.T, d *document) {
		d.setFile(name, bytes.Replace(d.data(d.file(name)), []byte("1"), []byte("2"), 1), true)
	}
}

// inRun puts operations before the text of the value.
func inRun(operations string) func(*testing.T, *document) {
	return func(t *testing.T, d *document) {
		page, mcid, _ := in(d)
		d.content(page, func(b []byte) []byte { return intoRun(t, b, mcid, operations) })
	}
}

// annotation is the first of its kind.
func annotation(t *testing.T, d *document, kind archive.Name) archive.Dict {
	t.Helper()
	for _, n := range slices.Sorted(maps.Keys(d.objects)) {
		if a, ok := d.objects[n].(archive.Dict); ok && a["Subtype"] == kind {
			return d.dict(archive.Ref(n))
		}
	}
	t.Fatalf("no %s", kind)
	return nil
}

// news tells whether there is a finding of the given codes that was not there.
func news(is, was *audit.Result, want []audit.Code) bool {
	old := strings.Split(codes(was), "\n")
	return slices.ContainsFunc(is.Findings, func(f audit.Finding) bool {
		return slices.Contains(want, f.Code) && !slices.Contains(old, codes(&audit.Result{Findings: []audit.Finding{f}}))
	})
}

// Nothing in a released package differs; where words have changed since, that is
// asked.
func TestReleasedPackageIsFollowed(t *testing.T) {
	r := audited(t, released(t))
	if r.Strength != audit.StrengthValues || !slices.Contains(r.NotProved, audit.NotProvedDrawn) || slices.Contains(r.NotProved, audit.NotProvedShapes) {
		t.Errorf("strength %s, not proved %v", r.Strength, r.NotProved)
	}
	for _, f := range r.Findings {
		if f.Severity == audit.Differs || f.Severity == audit.Question && !strings.HasPrefix(string(f.Code), "said.") {
			t.Errorf("%s %s %s %v", f.Severity, f.Code, f.Path, f.Args)
		}
	}
}

func TestTamperingWithAnotherVersionIsNamed(t *testing.T) {
	plain := released(t)
	// The pages made anew name this version; that is the same for all.
	follow := func(file []byte) *audit.Result {
		r, err := audit.Run(file, audit.Options{Program: own, Typefaces: typefaces(t), Make: func(q audit.Request) (*audit.Made, error) {
			q.Program = own
			return remake(q)
		}})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	was := follow(plain)
	for _, c := range foreignTamperings {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := takeApart(t, plain)
			c.do(t, d)
			r := follow(d.whole())
			if r.Agrees {
				t.Error("agrees")
			}
			if !news(r, was, c.want) {
				t.Errorf("no %v more than in the package as it was\n%s", c.want, codes(r))
			}
		})
	}
}
