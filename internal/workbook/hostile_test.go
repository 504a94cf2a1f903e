package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"
	"time"
)

// partsOf unpacks a workbook.
func partsOf(t testing.TB, b []byte) (names []string, parts map[string][]byte) {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		t.Fatal(err)
	}
	parts = map[string][]byte{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		names, parts[f.Name] = append(names, f.Name), content
	}
	return names, parts
}

func packed(t testing.TB, names []string, parts map[string][]byte) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, name := range names {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write(parts[name]); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// patch changes one part of a workbook.
func patch(t testing.TB, b []byte, part string, change func([]byte) []byte) []byte {
	t.Helper()
	names, parts := partsOf(t, b)
	if parts[part] == nil {
		names = append(names, part)
	}
	before := string(parts[part])
	parts[part] = change(parts[part])
	if string(parts[part]) == before {
		t.Fatalf("nothing changed in %s", part)
	}
	return packed(t, names, parts)
}

// partWith is the part that holds a text.
func partWith(t testing.TB, b []byte, text string) string {
	t.Helper()
	names, parts := partsOf(t, b)
	for _, name := range names {
		if bytes.Contains(parts[name], []byte(text)) {
			return name
		}
	}
	t.Fatalf("no part holds %s", text)
	return ""
}

func add(part, content string) func(testing.TB, []byte) []byte {
	return func(t testing.TB, b []byte) []byte {
		return patch(t, b, part, func([]byte) []byte { return []byte(content) })
	}
}

func replace(part, old, new string) func(testing.TB, []byte) []byte {
	return func(t testing.TB, b []byte) []byte {
		return patch(t, b, part, func(xml []byte) []byte { return bytes.Replace(xml, []byte(old), []byte(new), 1) })
	}
}

// firstCell is a sheet of the form that is read.
const firstCell = "xl/worksheets/sheet10.xml"

// TestHostileFiles hands over what must be refused whole: quickly, with little
// memory and a reason.
func TestHostileFiles(t *testing.T) {
	form := blankSmall(t)
	for _, c := range []struct {
		what   string
		change func(testing.TB, []byte) []byte
		kind   error
	}{
		{"nothing", func(testing.TB, []byte) []byte { return nil }, ErrNotWorkbook},
		{"a text", func(testing.TB, []byte) []byte { return []byte("cell,gap\n1,9/16\n") }, ErrNotWorkbook},
		{"an encrypted or old workbook", func(testing.TB, []byte) []byte {
			return []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + strings.Repeat("\x00", 600))
		}, ErrEncrypted},
		{"half a file", func(_ testing.TB, b []byte) []byte { return b[:len(b)/2] }, ErrDamaged},
		{"a file of 33 MB", func(testing.TB, []byte) []byte { return make([]byte, MaxFileSize+1) }, ErrTooLarge},
		{"an archive that is no workbook", func(t testing.TB, _ []byte) []byte {
			return packed(t, []string{"a"}, map[string][]byte{"a": nil})
		}, ErrNotWorkbook},
		{"a workbook that is no form", replace("xl/workbook.xml", "form_version", "other_version"), ErrNotForm},
		{"another version of the form", func(t testing.TB, b []byte) []byte {
			return edit(t, b, func(e *sheetEditor) { e.set("form_version", "7") })
		}, ErrVersion},
		{"a form in a language without words", func(t testing.TB, b []byte) []byte {
			return edit(t, b, func(e *sheetEditor) { e.set("form_language", "xx") })
		}, ErrVersion},
		{"macros", add("xl/vbaProject.bin", "x"), ErrMacros},
		{"macros by type", replace("[Content_Types].xml", "spreadsheetml.sheet.main", "x.macroEnabled.main"), ErrMacros},
		{"an old macro sheet", add("xl/macrosheets/sheet1.xml", "x"), ErrMacros},
		{"an embedded object", add("xl/embeddings/oleObject1.bin", "x"), ErrMacros},
		{"a control", add("xl/activeX/activeX1.xml", "x"), ErrMacros},
		{"a link to a workbook", add("xl/externalLinks/externalLink1.xml", "x"), ErrExternal},
		{"a database", add("xl/connections.xml", "x"), ErrExternal},
		{"a picture from elsewhere", replace("xl/_rels/workbook.xml.rels", "</Relationships>",
			`<Relationship Id="x" Type="http://x/image" Target="http://x/" TargetMode="External"/></Relationships>`), ErrExternal},
		{"a million columns in a row", replace(firstCell, "</sheetData>",
			`<row r="999"><c r="XFD999"><v>1</v></c></row></sheetData>`), ErrTooLarge},
		{"the last row", replace(firstCell, "</sheetData>",
			`<row r="1048576"><c r="A1048576"><v>1</v></c></row></sheetData>`), ErrTooLarge},
		{"a row that there is not", replace(firstCell, "</sheetData>", `<row r="9999999999"/></sheetData>`), ErrDamaged},
		{"too many cells", replace(firstCell, "</sheetData>", manyCells(maxCells+10)+"</sheetData>"), ErrTooLarge},
		{"a text of 200 MB", bomb("xl/sharedStrings.xml", 200<<20), ErrTooLarge},
		{"a sheet of 200 MB", bomb(firstCell, 200<<20), ErrTooLarge},
		{"a sheet whose size is a lie", lie(firstCell), ErrDamaged},
		{"a document type", replace(firstCell, "<worksheet", `<!DOCTYPE x [<!ENTITY a "b">]><worksheet`), ErrDamaged},
		{"a sheet without an end", replace(firstCell, "</sheetData>", `<row r="900"><c r="A900"><v>1</v>`), ErrDamaged},
		{"a shared text that there is not", replace(firstCell, "</sheetData>", `<row r="900"><c r="A900" t="s"><v>99999</v></c></row></sheetData>`), ErrDamaged},
		{"not UTF-8", replace(firstCell, "</sheetData>", "\xff\xfe</sheetData>"), ErrDamaged},
		{"too many merges", replace(firstCell, "</sheetData>", "</sheetData>"+strings.Repeat(`<mergeCell ref="A1:A2"/>`, maxMerges+1)), ErrDamaged},
		{"too many names", replace("xl/workbook.xml", "</definedNames>", manyNames(maxNames)+"</definedNames>"), ErrTooLarge},
		{"too many sheets", replace("xl/workbook.xml", "</sheets>", strings.Repeat(`<sheet name="x" sheetId="9" r:id="x"/>`, maxSheets)+"</sheets>"), ErrTooLarge},
	} {
		t.Run(c.what, func(t *testing.T) {
			b := c.change(t, form)
			took, used := measured(func() {
				_, _, err := Read([]Input{{"bad\u202e.xlsx", b}}, nil)
				var refused *FileError
				if !errors.Is(err, c.kind) || !errors.As(err, &refused) || refused.Name != `bad\u202e.xlsx` {
					t.Errorf("got %v, want %v", err, c.kind)
				}
			})
			// Far above what is used, far below what such files take elsewhere.
			if took > 3*time.Second || used > 128<<20 {
				t.Errorf("took %s and %d MB", took, used>>20)
			}
		})
	}
}

// measured runs f and returns its time and what it allocated in all.
func measured(f func()) (time.Duration, uint64) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	start := time.Now()
	f()
	took := time.Since(start)
	runtime.ReadMemStats(&after)
	return took, after.TotalAlloc - before.TotalAlloc
}

// bomb makes a part of size bytes that packs to almost nothing.
func bomb(part string, size int) func(testing.TB, []byte) []byte {
	return func(t testing.TB, b []byte) []byte {
		return patch(t, b, part, func([]byte) []byte { return bytes.Repeat([]byte(" "), size) })
	}
}

// lie states a small size for a large part.
func lie(part string) func(testing.TB, []byte) []byte {
	return func(t testing.TB, b []byte) []byte {
		b = patch(t, b, part, func([]byte) []byte { return bytes.Repeat([]byte(" "), 1<<20) })
		z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		w := zip.NewWriter(&out)
		for _, f := range z.File {
			raw, err := f.OpenRaw()
			if err != nil {
				t.Fatal(err)
			}
			h := f.FileHeader
			if h.Name == part {
				h.UncompressedSize64 = 100
			}
			p, err := w.CreateRaw(&h)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := io.Copy(p, raw); err != nil {
				t.Fatal(err)
			}
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
}

func manyCells(n int) string {
	var out strings.Builder
	for i := range n/3 + 1 {
		fmt.Fprintf(&out, `<row r="%d"><c r="A%d"><v>1</v></c><c r="B%d"><v>1</v></c><c r="C%d"><v>1</v></c></row>`, 1000+i, 1000+i, 1000+i, 1000+i)
	}
	return out.String()
}

func manyNames(n int) string {
	var out strings.Builder
	for i := range n {
		fmt.Fprintf(&out, `<definedName name="x%d">Project!$A$1</definedName>`, i)
	}
	return out.String()
}

// Spreadsheets leave rows and cells without contents far out; they do no harm.
func TestFarBlankCells(t *testing.T) {
	clean(t, patch(t, blankSmall(t), firstCell, func(xml []byte) []byte {
		return bytes.Replace(xml, []byte("</sheetData>"),
			[]byte(`<row r="1048576"><c r="XFD1048576" s="1"/></row></sheetData>`), 1)
	}))
}

// A spreadsheet makes a link of a mail address by itself.
func TestHyperlinkIsNoLink(t *testing.T) {
	clean(t, edit(t, blankSmall(t), func(e *sheetEditor) {
		e.must(e.SetCellHyperLink("Project", "B8", "mailto:nobody@example.com", "External"))
	}))
}

func TestReadRefusesNoneAndTooMany(t *testing.T) {
	if _, _, err := Read(nil, nil); !errors.Is(err, ErrNotForm) {
		t.Errorf("no file: %v", err)
	}
	if _, _, err := Read(make([]Input, MaxFiles+1), nil); !errors.Is(err, ErrSeveral) {
		t.Errorf("too many files: %v", err)
	}
}
