package audit_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"testing"

	"github.com/xuri/excelize/v2"

	"asleft/internal/archive"
	"asleft/internal/audit"
	"asleft/internal/data"
	"asleft/report"
)

// shownValue is a reading of the package that the tampering starts from.
const shownValue = "cells.1.checks.clearance.rounds.asfound.readings.3.read"

// tampering is one thing done to a file, and the codes that have to name it.
type tampering struct {
	name string
	do   func(*testing.T, *document)
	want []audit.Code
}

// tamperings change a package in one place or two; each is tried on the file
// written anew, and behind a signature.
var tamperings = []tampering{
	{"printed number", func(t *testing.T, d *document) {
		page, mcid := d.value(shownValue)
		d.content(page, func(b []byte) []byte { return otherDigit(t, b, mcid) })
	}, []audit.Code{audit.CodeValue}},
	{"text that is no value", func(t *testing.T, d *document) {
		d.content(0, func(b []byte) []byte {
			return bytes.Replace(b, []byte("Plant"), []byte("Plane"), 1)
		})
	}, []audit.Code{audit.CodeText}},
	{"glyphs swapped", func(_ *testing.T, d *document) {
		child := d.dict(d.dict(d.font(0)["DescendantFonts"].(archive.Array)[0]))
		m := bytes.Clone(d.data(child["CIDToGIDMap"]))
		five, six := m[2*'5':2*'5'+2], m[2*'6':2*'6'+2]
		a, b := binary.BigEndian.Uint16(five), binary.BigEndian.Uint16(six)
		binary.BigEndian.PutUint16(five, b)
		binary.BigEndian.PutUint16(six, a)
		d.set(child["CIDToGIDMap"], m)
	}, []audit.Code{audit.CodeGlyphs}},
	{"meaning of a code", func(_ *testing.T, d *document) {
		ref := d.font(0)["ToUnicode"]
		d.set(ref, bytes.Replace(d.data(ref), []byte("<35> <0035>"), []byte("<35> <0036>"), 1))
	}, []audit.Code{audit.CodeMeaning}},
	{"white over the page", func(_ *testing.T, d *document) {
		d.content(3, func(b []byte) []byte {
			return append(b, "\n/Artifact<</Type/Layout>>BDC\nq 1 1 1 rg 100 100 200 200 re f Q\nEMC\n"...)
		})
	}, []audit.Code{audit.CodePainting}},
	{"annotation", func(_ *testing.T, d *document) {
		note := d.add(archive.Dict{"Type": archive.Name("Annot"), "Subtype": archive.Name("Square"), "F": int64(4),
			"Rect": archive.Array{int64(100), int64(100), int64(300), int64(120)}, "IC": archive.Array{int64(1), int64(1), int64(1)}})
		p := d.page(2)
		list, _ := p["Annots"].(archive.Array)
		p["Annots"] = append(slices.Clone(list), note)
	}, []audit.Code{audit.CodeAnnotation}},
	{"hidden layer", func(_ *testing.T, d *document) {
		layer := d.add(archive.Dict{"Type": archive.Name("OCG"), "Name": archive.String("x")})
		d.catalog()["OCProperties"] = archive.Dict{"OCGs": archive.Array{layer},
			"D": archive.Dict{"BaseState": archive.Name("OFF"), "Order": archive.Array{}, "ON": archive.Array{layer}}}
		resources := d.dict(d.page(2)["Resources"])
		resources["Properties"] = archive.Dict{"L": layer}
		d.content(2, func(b []byte) []byte { return append(b, "\n/OC/L BDC\n0 0 0 rg 10 10 50 50 re f\nEMC\n"...) })
	}, []audit.Code{audit.CodeLayer}},
	{"something to run", func(_ *testing.T, d *document) {
		d.catalog()["OpenAction"] = d.add(archive.Dict{"S": archive.Name("JavaScript"), "JS": archive.String("app.alert(1)")})
	}, []audit.Code{audit.CodeAction}},
	{"title", func(_ *testing.T, d *document) {
		d.dict(d.trailer["Info"])["Title"] = archive.String("Another")
	}, []audit.Code{audit.CodeMetadata}},
	{"bookmark", func(_ *testing.T, d *document) {
		d.dict(d.dict(d.catalog()["Outlines"])["First"])["Title"] = archive.String("READY FOR SIGN-OFF")
	}, []audit.Code{audit.CodeOutline}},
	{"name of a value", func(t *testing.T, d *document) {
		for _, n := range slices.Sorted(maps.Keys(d.objects)) {
			if p := pathOf(d.objects[n]); p != nil && p["V"] == archive.String(shownValue) {
				pathOf(d.dict(archive.Ref(n)))["V"] = archive.String(shownValue + "x")
				return
			}
		}
		t.Fatal("no such value")
	}, []audit.Code{audit.CodeReading}},
	{"page turned", func(_ *testing.T, d *document) { d.page(1)["Rotate"] = int64(180) }, []audit.Code{audit.CodeSheet}},
	{"page taken out", func(_ *testing.T, d *document) {
		pages := d.dict(d.catalog()["Pages"])
		for {
			kids := pages["Kids"].(archive.Array)
			first := d.dict(kids[0])
			if first["Type"] == archive.Name("Page") {
				pages["Kids"] = slices.Delete(slices.Clone(kids), 1, 2)
				return
			}
			pages = first
		}
	}, []audit.Code{audit.CodePages}},
	{"one number of two", func(t *testing.T, d *document) {
		const round = "cells.1.checks.couplinggear.rounds.asfound."
		page, mcid := d.value(round + "found " + round + "expected")
		d.content(page, func(b []byte) []byte { return otherDigit(t, b, mcid) })
	}, []audit.Code{audit.CodeValue}},
}

func TestTamperingIsNamed(t *testing.T) {
	plain := metricPackage(t)
	for _, c := range tamperings {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := takeApart(t, plain)
			c.do(t, d)
			r := run(t, d.whole(), audit.Options{})
			if r.Agrees || r.Strength != audit.StrengthNone {
				t.Errorf("agrees %t, strength %s", r.Agrees, r.Strength)
			}
			for _, want := range c.want {
				if !hasCode(r, want) {
					t.Errorf("no %s among\n%s", want, codes(r))
				}
			}
		})
	}
}

// The same as a revision behind a signed file: the signature holds for what it
// covers, and what came after is named.
func TestTamperingBehindASignatureIsNamed(t *testing.T) {
	once := signed(t, metricPackage(t), "2", newSigner(t, "Example Lead", nil), true)
	for _, c := range tamperings {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := takeApart(t, once)
			c.do(t, d)
			r := run(t, d.behind(once), audit.Options{})
			for _, want := range append([]audit.Code{audit.CodeLater, audit.CodeCertification}, c.want...) {
				if !hasCode(r, want) {
					t.Errorf("no %s among\n%s", want, codes(r))
				}
			}
			if r.Strength != audit.StrengthSignatures {
				t.Errorf("strength %s", r.Strength)
			}
		})
	}
}

// A package only written anew, by another library, agrees in everything but its
// bytes: in other numbers, too, with what was referred to in its place, and with
// another second identifier.
func TestWrittenOtherwiseIsNamedSo(t *testing.T) {
	for name, change := range map[string]func(*document){
		"as it is": func(*document) {},
		"numbers": func(d *document) {
			box := d.page(1)["MediaBox"].(archive.Array)
			box[0], box[1] = archive.Real("0.0"), archive.Real("-.00")
		},
		"in its place": func(d *document) {
			p := d.page(1)
			p["Tabs"], p["Resources"] = d.add(p["Tabs"]), d.objects[int(p["Resources"].(archive.Ref))]
		},
		"identifier": func(d *document) {
			d.trailer["ID"] = archive.Array{d.trailer["ID"].(archive.Array)[0], archive.String("another")}
		},
	} {
		d := takeApart(t, metricPackage(t))
		change(d)
		r := run(t, d.whole(), audit.Options{})
		if r.Agrees || r.Strength != audit.StrengthValues || !hasCode(r, audit.CodeBytes) {
			t.Errorf("%s: agrees %t, strength %s\n%s", name, r.Agrees, r.Strength, codes(r))
		}
		for _, f := range r.Findings {
			if f.Severity != audit.Note && f.Code != audit.CodeBytes {
				t.Errorf("%s: found %s", name, f.Code)
			}
		}
	}
}

func TestExchangedFilesAreNamed(t *testing.T) {
	plain := metricPackage(t)
	for _, c := range []struct {
		name string
		do   func(*document)
		want []audit.Code
	}{
		{"its own checksum is left", func(d *document) { d.setFile(data.ReadingsName, []byte("cell,check\n"), false) },
			[]audit.Code{audit.CodeFileBroken, audit.CodeFileHash}},
		{"its own checksum is mended", func(d *document) { d.setFile(data.ReadingsName, []byte("cell,check\n"), true) },
			[]audit.Code{audit.CodeFileHash, audit.CodeFilePrinted, audit.CodeFileRebuilt}},
		{"the manifest is mended, too", func(d *document) {
			was := data.Part{Bytes: d.data(d.file(data.ReadingsName))}
			is := data.Part{Bytes: bytes.Replace(was.Bytes, []byte("1"), []byte("2"), 1)}
			d.setFile(data.ReadingsName, is.Bytes, true)
			m := bytes.Replace(d.data(d.file(data.ManifestName)), []byte(was.SHA256()), []byte(is.SHA256()), 1)
			d.setFile(data.ManifestName, m, true)
		}, []audit.Code{audit.CodeFilePrinted, audit.CodeManifestPrinted, audit.CodeFileRebuilt}},
		{"only the manifest is changed", func(d *document) {
			m := bytes.Replace(d.data(d.file(data.ManifestName)), []byte(`"sha256": "`), []byte(`"sha256": "0`), 1)
			d.setFile(data.ManifestName, m, true)
		}, []audit.Code{audit.CodeFileHash, audit.CodeManifestPrinted}},
		{"two are swapped", func(d *document) {
			a, b := d.data(d.file(data.ReadingsName)), d.data(d.file(data.LimitsName))
			d.setFile(data.ReadingsName, b, true)
			d.setFile(data.LimitsName, a, true)
		}, []audit.Code{audit.CodeFileSwapped}},
		{"one is another", func(d *document) { d.setFile("metric.xlsx", []byte("PK\x03\x04"), true) },
			[]audit.Code{audit.CodeFileHash, audit.CodeWorkbook}},
		{"the manifest is garbage", func(d *document) { d.setFile(data.ManifestName, []byte("{"), true) },
			[]audit.Code{audit.CodeManifest, audit.CodeManifestPrinted}},
		{"the data file is garbage", func(d *document) { d.setFile(data.DataName, []byte("{"), true) },
			[]audit.Code{audit.CodeDataFile, audit.CodeFileHash}},
		{"all are taken out of the list", func(d *document) { d.catalog()["Names"] = archive.Dict{} },
			[]audit.Code{audit.CodeFileBroken}},
		{"a verdict in the data file", func(d *document) {
			b := d.data(d.file(data.DataName))
			d.setFile(data.DataName, bytes.Replace(b, []byte(`"verdict":"within"`), []byte(`"verdict":"outside"`), 1), true)
		}, []audit.Code{audit.CodeData + "verdict", audit.CodeFileHash, audit.CodeFilePrinted}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := takeApart(t, plain)
			c.do(d)
			r := run(t, d.whole(), audit.Options{})
			for _, want := range c.want {
				if !hasCode(r, want) {
					t.Errorf("no %s among\n%s", want, codes(r))
				}
			}
			if r.Strength != audit.StrengthNone {
				t.Errorf("strength %s", r.Strength)
			}
		})
	}
}

// loosened is the workbook with a wider limit of tip clearance.
func loosened(t *testing.T, b []byte) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	const sheet, check, plusMinus = "Limits", "Tip clearance", "G"
	rows, err := f.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(rows, func(row []string) bool { return len(row) > 0 && row[0] == check })
	if err := f.SetCellValue(sheet, fmt.Sprint(plusMinus, i+1), "25"); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

const limitPath = "limits.clearance.tolerance"

func TestLoosenedLimitIsNamed(t *testing.T) {
	plain := metricPackage(t)
	wide := loosened(t, book(t, "metric.xlsx"))
	d := takeApart(t, plain)
	d.setFile("metric.xlsx", wide, true)
	r := run(t, d.whole(), audit.Options{})
	for _, want := range []audit.Code{audit.CodeData + "limit", audit.CodeFileHash, audit.CodeFilePrinted} {
		if !hasCode(r, want) {
			t.Errorf("no %s among\n%s", want, codes(r))
		}
	}
	if !slices.ContainsFunc(r.Findings, func(f audit.Finding) bool { return f.Path == limitPath }) {
		t.Errorf("the limit is not named\n%s", codes(r))
	}
}

// A package made anew from a changed workbook agrees with itself; it is found only
// from outside.
func TestRemadePackageIsFoundFromOutside(t *testing.T) {
	plain := metricPackage(t)
	other, _ := pack(t, report.Options{}, source("metric.xlsx", loosened(t, book(t, "metric.xlsx"))))
	r := run(t, other, audit.Options{})
	if !r.Agrees || !slices.Contains(r.NotProved, audit.NotProvedRemade) {
		t.Errorf("agrees %t, not proved %v\n%s", r.Agrees, r.NotProved, codes(r))
	}
	r = run(t, other, audit.Options{Fingerprint: run(t, plain, audit.Options{}).Package.Fingerprint})
	if !hasCode(r, audit.CodeFingerprintGiven) {
		t.Errorf("fingerprint\n%s", codes(r))
	}
	was := signed(t, plain, "2", newSigner(t, "Example Lead", nil), false)
	r = run(t, other, audit.Options{Previous: was})
	if !hasCode(r, audit.CodePrevious+"limit") || !hasCode(r, audit.CodePrevious+"signature") {
		t.Errorf("previous\n%s", codes(r))
	}
	if !slices.ContainsFunc(r.Changes, func(c audit.Change) bool { return c.Path == limitPath && c.Was && c.Is }) {
		t.Errorf("the limit is not among the changes: %v", r.Changes)
	}
}

// The signature of one package does not do for another one.
func TestMovedSignatureIsNamed(t *testing.T) {
	lead := newSigner(t, "Example Lead", nil)
	mine := signed(t, metricPackage(t), "2", lead, false)
	other, _ := pack(t, report.Options{Units: "in"}, source("metric.xlsx", book(t, "metric.xlsx")))
	theirs := signed(t, other, "2", lead, false)
	value := regexp.MustCompile(`/Contents<[0-9a-f]+>`)
	moved := value.ReplaceAllLiteral(theirs, value.Find(mine))
	if bytes.Equal(moved, theirs) || len(moved) != len(theirs) {
		t.Fatal("nothing was moved")
	}
	r := run(t, moved, audit.Options{})
	if !hasCode(r, "signature.digest") || r.Origin != audit.OriginNone {
		t.Errorf("origin %s\n%s", r.Origin, codes(r))
	}
}

func TestBytesThatBelongToNothingAreNamed(t *testing.T) {
	plain := metricPackage(t)
	if r := run(t, append(bytes.Clone(plain), "more\n"...), audit.Options{}); !hasCode(r, audit.CodeTrailing) {
		t.Errorf("behind the end\n%s", codes(r))
	}
	d := takeApart(t, plain)
	d.junk = "hidden\n"
	if r := run(t, d.whole(), audit.Options{}); !hasCode(r, audit.CodeStray) {
		t.Errorf("between objects\n%s", codes(r))
	}
	d = takeApart(t, plain)
	d.touched = map[int]bool{}
	d.add(archive.String("hidden"))
	if r := run(t, d.behind(plain), audit.Options{}); !hasCode(r, audit.CodeLater) {
		t.Errorf("an object that nothing refers to\n%s", codes(r))
	}
}

// flips tries n single changed bits of a file; every one has to be found.
func flips(t *testing.T, file []byte, n int, seed uint64) {
	t.Helper()
	size := uint64(len(file))
	for range n {
		seed = seed*6364136223846793005 + 1442695040888963407 // Knuth, MMIX
		at, bit := int(seed>>11%size), byte(1)<<(seed>>8&7)
		b := bytes.Clone(file)
		b[at] ^= bit
		r, err := audit.Run(b, audit.Options{Program: own, Make: remake})
		if err == nil && r.Agrees {
			t.Errorf("byte %d, bit %#x: not found (%s)", at, bit, fmt.Sprintf("%q", b[max(0, at-20):min(len(b), at+20)]))
		}
	}
}

func TestFlippedBitsAreFound(t *testing.T) {
	small, _ := pack(t, report.Options{}, source("form.xlsx", form(t, 1)))
	flips(t, small, 15, 1)
	once := signed(t, small, "1", newSigner(t, "Example Lead", nil), false)
	tail := len(once) - len(small)
	flips(t, once, 5, 2)
	// The revision of the signature is short; it gets flips of its own.
	seed := uint64(3)
	for range 40 {
		seed = seed*6364136223846793005 + 1442695040888963407
		at := len(small) + int(seed>>11%uint64(tail))
		b := bytes.Clone(once)
		b[at] ^= 1 << (seed >> 8 & 7)
		r, err := audit.Run(b, audit.Options{Program: own, Make: remake})
		if err == nil && r.Agrees {
			t.Errorf("byte %d: not found (%q)", at, b[max(0, at-20):min(len(b), at+20)])
		}
	}
}
