package audit_test

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"asleft/internal/archive"
	"asleft/internal/audit"
	"asleft/internal/data"
	"asleft/report"
)

// bomb is a stream that decodes to as many zeros.
func bomb(t testing.TB, size int) *archive.Stream {
	t.Helper()
	var packed bytes.Buffer
	w := zlib.NewWriter(&packed)
	block := make([]byte, 1<<20)
	for ; size > 0; size -= len(block) {
		if _, err := w.Write(block); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return &archive.Stream{Dict: archive.Dict{"Filter": archive.Name("FlateDecode")}, Raw: packed.Bytes()}
}

// smallForm is the package of a blank form, which is small.
func smallForm(t testing.TB) []byte {
	t.Helper()
	b, _ := pack(t, report.Options{}, source("form.xlsx", form(t, 1)))
	return b
}

// most is how much memory a hostile file may take: the reader's own bound for a
// file of this size, and what an audit takes anyway.
const most = 700 << 20

func TestHostileFilesAreBounded(t *testing.T) {
	small := smallForm(t)
	for _, c := range []struct {
		name string
		do   func(*document)
	}{
		{"attached file that swells", func(d *document) {
			ref := d.file(data.ReadingsName)
			b := bomb(t, 200<<20)
			b.Dict["Type"], b.Dict["Params"] = archive.Name("EmbeddedFile"), d.dict(ref)["Params"]
			d.objects[int(ref)] = b
		}},
		{"all attached files swell", func(d *document) {
			b := bomb(t, 100<<20)
			for _, name := range []string{data.ReadingsName, data.DataName, data.ItemsName, data.LimitsName, data.EntriesName, data.ManifestName} {
				d.objects[int(d.file(name))] = b
			}
		}},
		{"page that swells", func(d *document) { d.objects[int(d.ownContent(1))] = bomb(t, 200<<20) }},
		{"all pages are one that swells", func(d *document) {
			n := d.add(bomb(t, 100<<20))
			for i := range 10 {
				d.page(i)["Contents"] = n
			}
		}},
		{"workbook that is a bomb", func(d *document) { d.setFile("form.xlsx", bytes.Repeat([]byte("PK\x03\x04"), 1<<20), true) }},
		{"data file nested deeply", func(d *document) {
			d.setFile(data.DataName, []byte(strings.Repeat(`{"a":`, 100_000)+"1"+strings.Repeat("}", 100_000)), true)
		}},
		{"data file of many values", func(d *document) {
			d.setFile(data.DataName, []byte(`{"files":[`+strings.Repeat(`{"name":"x"},`, 200_000)+`{}],"program":"`+strings.Repeat("x", 1<<20)+`"}`), true)
		}},
		{"manifest of many files", func(d *document) {
			d.setFile(data.ManifestName, []byte(`{"schema":"`+data.ManifestSchema+`","files":[`+strings.Repeat(`{"name":"x"},`, 200_000)+`{"name":"y"}]}`), true)
		}},
		{"page tree in a ring", func(d *document) {
			pages := d.dict(d.catalog()["Pages"])
			pages["Kids"] = append(pages["Kids"].(archive.Array), d.catalog()["Pages"])
		}},
		{"structure in a ring", func(d *document) {
			root := d.dict(d.catalog()["StructTreeRoot"])
			top := d.dict(root["K"])
			top["K"] = archive.Array{root["K"]}
		}},
		{"names in a ring", func(d *document) {
			names := d.dict(d.catalog()["Names"])
			n := d.add(archive.Dict{})
			d.objects[int(n)] = archive.Dict{"Kids": archive.Array{n}}
			names["EmbeddedFiles"] = n
		}},
		{"a chain of a hundred thousand objects", func(d *document) {
			next := archive.Object(nil)
			for n := 20_000; n < 120_000; n++ {
				d.objects[n] = archive.Dict{"Next": next}
				next = archive.Ref(n)
			}
			d.catalog()["Chain"] = next
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := takeApart(t, small)
			c.do(d)
			file := d.whole()
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			r, err := audit.Run(file, audit.Options{Program: own, Make: remake})
			runtime.ReadMemStats(&after)
			if err == nil && r.Agrees {
				t.Error("agrees")
			}
			if took := after.TotalAlloc - before.TotalAlloc; took > 3*most {
				t.Errorf("%d MB taken in all", took>>20)
			}
		})
	}
}

func TestTruncatedFilesAreRefusedOrNamed(t *testing.T) {
	small := smallForm(t)
	for n := range 40 {
		cut := small[:len(small)*n/40]
		r, err := audit.Run(cut, audit.Options{Program: own, Make: remake})
		if err == nil && r.Agrees {
			t.Errorf("%d bytes agree", len(cut))
		}
	}
	if _, err := audit.Run(make([]byte, audit.MaxSize+1), audit.Options{}); !errors.Is(err, audit.ErrTooLarge) {
		t.Errorf("too large: %v", err)
	}
}

// Drawing without end in a package of another version is refused page by page.
func TestEndlessDrawingIsBounded(t *testing.T) {
	for name, content := range map[string]string{
		"long":     strings.Repeat("q Q ", 2<<20),
		"areas":    "/Artifact BMC " + strings.Repeat("0 0 9 9 re f ", 60_000) + "EMC",
		"one path": "/Artifact BMC 0 0 m " + strings.Repeat("1 2 3 4 5 900 c ", 50_000) + "20 w S EMC",
	} {
		d := takeApart(t, released(t))
		d.content(3, func(b []byte) []byte { return append(b, content...) })
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		r, err := audit.Run(d.whole(), audit.Options{Program: own, Typefaces: typefaces(t), Make: func(q audit.Request) (*audit.Made, error) {
			q.Program = own
			return remake(q)
		}})
		runtime.ReadMemStats(&after)
		if err != nil || r.Agrees || name == "long" && !hasCode(r, audit.CodeUnread) {
			t.Errorf("%s: %v\n%s", name, err, codes(r))
		}
		if took := after.TotalAlloc - before.TotalAlloc; took > 3*most {
			t.Errorf("%s: %d MB taken in all", name, took>>20)
		}
	}
}

// tiny is a file of a few objects that the reader takes, as a start for fuzzing.
func tiny(extra string) []byte {
	var b bytes.Buffer
	var at []int
	b.WriteString("%PDF-1.7\n")
	for i, o := range []string{
		"<</Type/Catalog/Pages 2 0 R/Lang(en)/AcroForm<</Fields[]>>/AF[4 0 R]/Names<</EmbeddedFiles<</Names[(data.json)4 0 R]>>>>" + extra + ">>",
		"<</Type/Pages/Kids[3 0 R]/Count 1>>",
		"<</Type/Page/Parent 2 0 R/MediaBox[0 0 612 792]/Resources<<>>/Contents 6 0 R>>",
		"<</Type/Filespec/F(data.json)/UF(data.json)/AFRelationship/Data/EF<</F 5 0 R/UF 5 0 R>>>>",
		"<</Type/EmbeddedFile/Length 2/Params<</Size 2>>>>\nstream\n{}\nendstream",
		"<</Length 4>>\nstream\nq Q \nendstream",
	} {
		at = append(at, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	x := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(at)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	fmt.Fprintf(&b, "trailer\n<</Size %d/Root 1 0 R/ID[<00><00>]>>\nstartxref\n%d\n%%%%EOF\n", len(at)+1, x)
	return b.Bytes()
}

func FuzzAudit(f *testing.F) {
	f.Add(tiny(""), []byte("{}"))
	f.Add(tiny("/OpenAction<</S/JavaScript>>/Outlines 2 0 R/Metadata 6 0 R"), []byte(`{"limits":{}}`))
	f.Add(tiny("/StructTreeRoot<</K 3 0 R/ParentTree<</Nums[0[]]>>>>"), tiny(""))
	f.Add(append(tiny(""), "more"...), []byte(nil))
	f.Add([]byte("%PDF-1.7"), []byte("%PDF-1.7"))
	f.Fuzz(func(t *testing.T, file, previous []byte) {
		rebuilt := tiny("/Lang(de)")
		r, err := audit.Run(file, audit.Options{Program: own, Previous: previous, Fingerprint: "01234567",
			Beside: map[string][]byte{"a.xlsx": file, data.ManifestName: previous},
			Make: func(audit.Request) (*audit.Made, error) {
				return &audit.Made{PDF: rebuilt, Files: []data.Part{{Name: data.DataName, Bytes: []byte("{}")}}}, nil
			}})
		if err == nil && r.Agrees && !bytes.Equal(file, rebuilt) {
			t.Errorf("agrees: %q", file)
		}
	})
}

// Seeds that the reader refuses would fuzz nothing.
func TestSeedsAreTaken(t *testing.T) {
	for _, extra := range []string{"", "/OpenAction<</S/JavaScript>>/Outlines 2 0 R/Metadata 6 0 R", "/StructTreeRoot<</K 3 0 R/ParentTree<</Nums[0[]]>>>>"} {
		if _, err := audit.Run(tiny(extra), audit.Options{}); err != nil {
			t.Errorf("%q: %v", extra, err)
		}
	}
}
