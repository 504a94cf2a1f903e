package archive

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// revise appends a revision that replaces or adds objects, with a classic
// table, as another program would.
func revise(b []byte, trailer string, objects map[int]string) []byte {
	out := slices.Clone(b)
	prev := bytes.LastIndex(b, []byte("startxref\n"))
	var at int
	_, _ = fmt.Sscanf(string(b[prev+len("startxref\n"):]), "%d", &at)
	var numbers []int
	for n := range objects {
		numbers = append(numbers, n)
	}
	slices.Sort(numbers)
	var table strings.Builder
	for _, n := range numbers {
		fmt.Fprintf(&table, "%d 1\n%010d 00000 n \n", n, len(out))
		out = fmt.Appendf(out, "%d 0 obj\n%s\nendobj\n", n, objects[n])
	}
	start := len(out)
	return fmt.Appendf(out, "xref\n%strailer\n<</Size 100000/Root 1 0 R/Info 2 0 R/Prev %d%s>>\nstartxref\n%d\n%%%%EOF\n", table.String(), at, trailer, start)
}

func mustOpen(t *testing.T, b []byte) *Reader {
	t.Helper()
	r, err := Open(b)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// What was declared comes back out of the bytes.
func TestReadBack(t *testing.T) {
	s := drawSample()
	r := mustOpen(t, s.finished(t))
	root, err := r.Structure()
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(s.doc.Root, root, cmpopts.EquateApprox(0, 0.005)); d != "" {
		t.Errorf("structure (-declared +read):\n%s", d)
	}
	files, err := r.Attachments()
	slices.SortFunc(s.doc.Files, func(a, b File) int { return strings.Compare(a.Name, b.Name) })
	if d := cmp.Diff(s.doc.Files, files); err != nil || d != "" {
		t.Errorf("files: %v (-declared +read):\n%s", err, d)
	}
	info, err := r.Info()
	want := map[string]string{"Title": s.doc.Title, "Author": s.doc.Author, "Subject": s.doc.Subject, "Keywords": "tower, fan",
		"Creator": s.doc.Creator, "Producer": s.doc.Creator, "CreationDate": "D:20260304151617-06'00'", "ModDate": "D:20260304151617-06'00'"}
	if d := cmp.Diff(want, info); err != nil || d != "" {
		t.Errorf("information: %v (-declared +read):\n%s", err, d)
	}
	fields, err := r.Fields()
	if err != nil || len(fields) != 2 || fields[1].Name != "sign.owner" || fields[1].Page != 2 || fields[1].Signature != nil {
		t.Errorf("fields: %v %+v", err, fields)
	}
}

func TestValuesAreWhatIsPrinted(t *testing.T) {
	values, err := mustOpen(t, drawSample().finished(t)).Values()
	if err != nil {
		t.Fatal(err)
	}
	byID := map[string]Value{}
	for _, v := range values {
		byID[v.ID] = v
	}
	// As drawn by the sample: row 3, column 2 is (3·37 + 2·11) / 1000.
	want := Value{ID: "cells.1.rounds.1.readings.3.2", Role: RoleCell, Text: "0.133", Page: 1}
	if got := byID[want.ID]; got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	want = Value{ID: "cells.1.verdict", Role: RoleSpan, Actual: "within", Page: 2}
	if got := byID[want.ID]; got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if len(values) != 20*7+1+5*7+1+1 {
		t.Errorf("%d values", len(values))
	}
}

func TestPageLabels(t *testing.T) {
	for _, labels := range [][]string{
		{"1", "2", "3"}, {"i", "ii", "1", "2", "9", "10", "11"}, {"C1-1", "C1-2", "C2-1", "Archive"},
		{"A-09", "A-10", "A-11"}, {"0", "1"}, {"7", "6"}, {"Zelle Ä 1", "Zelle Ä 2"}, {"x00000000000000001", "123456789012"},
	} {
		s := newSample()
		for i := range labels {
			s.addPage()
			s.doc.Pages[i].Label = labels[i]
		}
		pages, err := mustOpen(t, s.finished(t)).Pages()
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, p := range pages {
			got = append(got, p.Label)
		}
		if !slices.Equal(got, labels) {
			t.Errorf("got %q, want %q", got, labels)
		}
	}
}

// Counts as ISO 32000-1, table 153 wants them.
func TestOutlineCounts(t *testing.T) {
	r := mustOpen(t, drawSample().finished(t))
	c, _ := r.Catalog()
	root, _ := r.dict(c["Outlines"], "outlines")
	first, _ := r.dict(root["First"], "bookmark")
	second, _ := r.dict(first["Next"], "bookmark")
	if root["Count"] != int64(3) || first["Count"] != nil || second["Count"] != int64(-2) {
		t.Errorf("counts %v, %v, %v", root["Count"], first["Count"], second["Count"])
	}
	if second["Parent"] != c["Outlines"] || second["Prev"] != root["First"] || text(second["Title"]) != "Cell 1 – within" {
		t.Errorf("bookmark %v", second)
	}
}

func TestRevisions(t *testing.T) {
	b := drawSample().finished(t)
	revised := revise(b, "", map[int]string{2: "<</Title(changed)>>"})
	r := mustOpen(t, revised)
	if ends := r.Revisions(); !slices.Equal(ends, []int64{int64(len(b)), int64(len(revised))}) {
		t.Errorf("ends %d, want %d and %d", ends, len(b), len(revised))
	}
	if info, err := r.Info(); err != nil || info["Title"] != "changed" {
		t.Errorf("%v %v", info, err)
	}
	if _, err := Open(revised[:len(b)]); err != nil {
		t.Errorf("first revision alone: %v", err)
	}
}

func TestSignatureIsFound(t *testing.T) {
	b := drawSample().finished(t)
	fields, err := mustOpen(t, b).Fields()
	if err != nil {
		t.Fatal(err)
	}
	f := fields[0]
	signed := revise(b, "", map[int]string{
		9000: "<</Type/Sig/Filter/Adobe.PPKLite/SubFilter/ETSI.CAdES.detached/ByteRange[0 10 20 30]/Contents<00ff0000>>>",
		f.Object: fmt.Sprintf("<</T(contractor)/FT/Sig/Type/Annot/Subtype/Widget/P %d 0 R/V 9000 0 R/TU(x)/Rect[0 0 1 1]>>",
			mustPage(t, b, f.Page)),
	})
	fields, err = mustOpen(t, signed).Fields()
	if err != nil || fields[0].Signature == nil || fields[1].Signature != nil {
		t.Fatalf("%v %+v", err, fields)
	}
	s := fields[0].Signature
	if !slices.Equal(s.ByteRange, []int64{0, 10, 20, 30}) || !bytes.Equal(s.Contents, []byte{0, 0xFF, 0, 0}) ||
		string(signed[s.Gap[0]:s.Gap[1]]) != "<00ff0000>" || !bytes.HasPrefix(signed[s.Offset:], []byte("9000 0 obj")) {
		t.Errorf("%+v", s)
	}
}

func mustPage(t *testing.T, b []byte, i int) int {
	t.Helper()
	pages, err := mustOpen(t, b).Pages()
	if err != nil {
		t.Fatal(err)
	}
	return pages[i].Object
}

// tinyTable is where the cross-reference table of tiny begins.
const tinyTable = 42

// tiny is the smallest file that opens, with more in its trailer.
func tiny(trailer string) []byte {
	return fmt.Appendf(nil, "%%PDF-1.7\n1 0 obj\n<</Type/Catalog>>\nendobj\nxref\n0 2\n0000000000 65535 f \n0000000009 00000 n \n"+
		"trailer\n<</Size 2/Root 1 0 R%s>>\nstartxref\n%d\n%%%%EOF\n", trailer, tinyTable)
}

func TestOpenRefuses(t *testing.T) {
	b := drawSample().finished(t)
	for _, c := range []struct {
		name string
		b    []byte
		want error
	}{
		{"empty", nil, ErrMalformed},
		{"other format", []byte("PK\x03\x04 and more"), ErrMalformed},
		{"newer version", append([]byte("%PDF-2.0"), b[8:]...), ErrMalformed},
		{"bytes behind", append(slices.Clone(b), "x"...), ErrTrailing},
		{"many bytes behind", append(slices.Clone(b), make([]byte, 4096)...), ErrTrailing},
		{"cut off", b[:len(b)-8], ErrMalformed},
		{"chain to itself", tiny(fmt.Sprint("/Prev ", tinyTable)), ErrMalformed},
		{"chain forward", tiny(fmt.Sprint("/Prev ", tinyTable+9)), ErrMalformed},
		{"chain to nothing", tiny("/Prev 12"), ErrMalformed},
		{"good", tiny(""), nil},
		{"encrypted", tiny("/Encrypt 1 0 R"), ErrForeign},
		{"hybrid", tiny("/XRefStm 9"), ErrForeign},
		{"too deep", tiny("/A " + strings.Repeat("[", maxNesting) + strings.Repeat("]", maxNesting)), ErrLimit},
	} {
		_, err := Open(c.b)
		if !errors.Is(err, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, err, c.want)
		}
	}
	if _, err := Open(tiny("/A " + strings.Repeat("[", maxNesting-1) + strings.Repeat("]", maxNesting-1))); err != nil {
		t.Errorf("deepest allowed: %v", err)
	}
}

// A stream that grows beyond its limit when decoded stops there.
func TestDecodeLimit(t *testing.T) {
	var d deflater
	s := &Stream{Dict: Dict{"Filter": Name("FlateDecode")}, Raw: d.deflate(make([]byte, 10_000))}
	if b, err := decode(s, 10_000); err != nil || len(b) != 10_000 {
		t.Errorf("at the limit: %d bytes, %v", len(b), err)
	}
	if _, err := decode(s, 9_999); !errors.Is(err, ErrLimit) {
		t.Errorf("over the limit: %v", err)
	}
}

func TestRevisionLimit(t *testing.T) {
	b := drawSample().finished(t)
	for range maxRevisions - 1 {
		b = revise(b, "", map[int]string{2: "<<>>"})
	}
	if _, err := Open(b); err != nil {
		t.Errorf("at the limit: %v", err)
	}
	if _, err := Open(revise(b, "", map[int]string{2: "<<>>"})); !errors.Is(err, ErrLimit) {
		t.Errorf("over the limit: %v", err)
	}
}

// Damage is an error or a violation, never a panic, and never goes unseen: the
// identifier is a hash of everything before the cross-reference stream.
func TestDamageIsFound(t *testing.T) {
	b := drawSample().finished(t)
	random := rand.New(rand.NewPCG(1, 2))
	flips := 300
	if testing.Short() {
		flips = 50
	}
	for range flips {
		damaged := slices.Clone(b)
		at, by := random.IntN(len(b)), byte(1+random.IntN(255))
		damaged[at] ^= by
		readAll(damaged)
		if r, err := Inspect(damaged); err == nil && len(r.Violations) == 0 {
			t.Errorf("byte %d changed by %#x: not found", at, by)
		}
	}
	for range 100 {
		at := random.IntN(len(b))
		readAll(b[:at])
		if _, err := Open(b[:at]); err == nil {
			t.Errorf("cut off at %d: not found", at)
		}
	}
}

// readAll calls everything that reads.
func readAll(b []byte) {
	_, _ = Inspect(b)
	r, err := Open(b)
	if err != nil {
		return
	}
	_, _ = r.Values()
	_, _ = r.Attachments()
	_, _ = r.Fields()
	_, _ = r.Metadata()
}
