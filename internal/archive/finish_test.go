package archive

import (
	"bytes"
	"encoding/binary"
	"errors"
	"runtime"
	"strings"
	"testing"

	"asleft/fonts"
)

func TestFinishGivesSameBytes(t *testing.T) {
	a := drawSample().finished(t)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if !bytes.Equal(a, drawSample().finished(t)) {
		t.Error("two runs differ")
	}
}

// Files packed before stand in the document as they would otherwise.
func TestFinishTakesPackedFiles(t *testing.T) {
	s := drawSample()
	for i := range s.doc.Files {
		f := &s.doc.Files[i]
		f.Packed, f.Bytes = Pack(f.Bytes, s.doc.Effort), nil
	}
	if !bytes.Equal(s.finished(t), drawSample().finished(t)) {
		t.Error("differs")
	}
}

func TestFinishKeepsItsArguments(t *testing.T) {
	s := drawSample()
	raw := s.output(t)
	before := bytes.Clone(raw)
	first, err1 := Finish(raw, s.doc)
	second, err2 := Finish(raw, s.doc)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(raw, before) || !bytes.Equal(first, second) {
		t.Error("arguments changed")
	}
}

// The identifier follows the content.
func TestIdentifierFollowsContent(t *testing.T) {
	a, _ := mustOpen(t, drawSample().finished(t)).ID()
	s := drawSample()
	s.find(RoleFigure).Detail.Alt += "."
	b, last := mustOpen(t, s.finished(t)).ID()
	if len(a) != idLength || bytes.Equal(a, b) || !bytes.Equal(b, last) {
		t.Errorf("identifiers %x, %x", a, b)
	}
}

// Ten pages a cell, each with a table of 20 rows by 7 identified values and a
// figure, stay under 100 KB a cell.
func TestSizePerCell(t *testing.T) {
	const cells, pages, limit = 12, 10, 100 * 1024
	one, many := len(drawTables(pages, 20).finished(t)), len(drawTables(cells*pages, 20).finished(t))
	if per := (many - one) / (cells - 1); per > limit {
		t.Errorf("%d bytes per cell, limit %d", per, limit)
	}
}

// The page writer's own compression makes no difference to the result.
func TestFinishUncompressed(t *testing.T) {
	s := drawSample()
	s.pdf.SetCompression(false)
	if !bytes.Equal(s.finished(t), drawSample().finished(t)) {
		t.Error("differs")
	}
}

// Checksums as OpenType defines them, judged on fonts that their makers built.
func TestChecksumOfKnownFonts(t *testing.T) {
	for _, b := range [][]byte{fonts.Sans, fonts.SansCondensed, fonts.Mono} {
		f, err := readFont(b)
		if err != nil {
			t.Fatal(err)
		}
		for i := range int(binary.BigEndian.Uint16(b[4:])) {
			entry := b[12+16*i:]
			name, want := string(entry[:4]), binary.BigEndian.Uint32(entry[4:])
			if got := checksum(f.tables[name]); name != "head" && got != want {
				t.Errorf("%s: %#x, want %#x", name, got, want)
			}
		}
		out := f.program()
		if got := checksum(out); got != 0xB1B0AFBA { // OpenType 1.9, head: checksumAdjustment
			t.Errorf("whole program: %#x", got)
		}
		again, err := readFont(out)
		if err != nil || len(again.tables) != len(programTables) || !bytes.Equal(again.tables["glyf"], f.tables["glyf"]) {
			t.Errorf("program does not read back: %v", err)
		}
	}
}

func TestFontsAreStripped(t *testing.T) {
	r := mustOpen(t, drawSample().finished(t))
	names := 0
	for n := range r.places {
		o, err := r.Object(n)
		d, ok := o.(Dict)
		if err != nil || !ok || d["Type"] != Name("FontDescriptor") {
			continue
		}
		name, _ := d["FontName"].(Name)
		if tag, rest, ok := strings.Cut(string(name), "+"); !ok || len(tag) != subsetTagLength || !strings.HasPrefix(rest, "IBMPlex") {
			t.Errorf("font name %s", name)
		}
		names++
	}
	if names != 4 {
		t.Errorf("%d fonts", names)
	}
}
