package archive

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"
)

// plainPDF is the least file with a page, its table written by hand.
func plainPDF(objects ...string) string {
	var s strings.Builder
	s.WriteString("%PDF-1.4\n")
	var at []int
	for i, o := range objects {
		at = append(at, s.Len())
		fmt.Fprintf(&s, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	start := s.Len()
	fmt.Fprintf(&s, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, a := range at {
		fmt.Fprintf(&s, "%010d 00000 n \n", a)
	}
	fmt.Fprintf(&s, "trailer\n<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, start)
	return s.String()
}

const (
	aCatalog = "<</Type/Catalog/Pages 2 0 R>>"
	aTree    = "<</Type/Pages/Kids[3 0 R]/Count 1>>"
	aPage    = "<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]>>"
)

// TestOtherPeoplesFiles: files as they come from scanners and offices open,
// though our own reader would refuse them; those that nobody can open do not.
func TestOtherPeoplesFiles(t *testing.T) {
	plain := plainPDF(aCatalog, aTree, aPage)
	if err := Readable([]byte(plain)); err != nil {
		t.Fatal(err)
	}
	start := strings.LastIndex(plain, "startxref")
	for name, c := range map[string]struct {
		file string
		want error // nil: it opens
	}{
		"later version":          {strings.Replace(plain, "1.4", "2.0", 1), nil},
		"bytes behind the end":   {plain + "\r\n\x00\x00scanner", nil},
		"bytes before the head":  {"junk\n" + plain, nil},
		"line ends of one byte":  {strings.ReplaceAll(plain, " \n0", "\n0"), nil},
		"empty":                  {"", ErrNotPDF},
		"text":                   {"Certificate", ErrNotPDF},
		"cut off":                {plain[:start], ErrMalformed},
		"head only":              {"%PDF-1.4\n", ErrMalformed},
		"no such place":          {plain[:start] + "startxref\n99999\n%%EOF\n", ErrMalformed},
		"no pages":               {plainPDF(aCatalog, "<</Type/Pages/Kids[]/Count 0>>"), ErrMalformed},
		"pages in a circle":      {plainPDF(aCatalog, "<</Type/Pages/Kids[2 0 R 2 0 R]/Count 2>>"), ErrMalformed},
		"page that is not there": {plainPDF(aCatalog, aTree), ErrMalformed},
		"encrypted":              {strings.Replace(plain, "/Root", "/Encrypt<</Filter/Standard/V 4>>/Root", 1), ErrEncrypted},
	} {
		err := Readable([]byte(c.file))
		if c.want == nil && err != nil || c.want != nil && !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
	}
}

// TestPackedFilesAreReadable: made by qpdf 11.3 from one blank page, with
// --object-streams=generate, and with --encrypt for 256 bits.
func TestPackedFilesAreReadable(t *testing.T) {
	for name, want := range map[string]error{"packed.pdf": nil, "encrypted.pdf": ErrEncrypted} {
		b, err := os.ReadFile("testdata/foreign/" + name)
		if err != nil {
			t.Fatal(err)
		}
		if err := Readable(b); !errors.Is(err, want) {
			t.Errorf("%s: %v, want %v", name, err, want)
		}
	}
}

func FuzzReadable(f *testing.F) {
	f.Add([]byte(plainPDF(aCatalog, aTree, aPage)))
	for _, name := range []string{"packed.pdf", "encrypted.pdf"} {
		b, err := os.ReadFile("testdata/foreign/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		if err := Readable(b); err == nil && !bytes.Contains(b, []byte("%PDF-")) {
			t.Error("opens without a head")
		}
	})
}
