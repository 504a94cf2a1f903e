//go:build outside

package page

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// tool runs a program that is not ours and gives its output.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

// written is a book as a file.
func written(t *testing.T, b Book) string {
	t.Helper()
	out, err := Write(b)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "book.pdf")
	if err := os.WriteFile(file, out, 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// TestRowsByPoppler: every row of a table over several pages is in the text
// that poppler reads from the file, once.
func TestRowsByPoppler(t *testing.T) {
	const n = 200
	b := oneSection(rowsOf(n))
	text := tool(t, "pdftotext", "-layout", written(t, b), "-")
	for i := range n {
		if got := strings.Count(text, fmt.Sprintf("row %d.", i)); got != 1 {
			t.Errorf("row %d is in the text %d times", i, got)
		}
	}
}

// TestTextByPoppler: all runs of the book with every kind of block are in the
// text that poppler reads, words apart.
func TestTextByPoppler(t *testing.T) {
	b := testBook()
	b.Draft = ""
	text := strings.Join(strings.Fields(tool(t, "pdftotext", "-raw", written(t, b), "-")), " ")
	for _, r := range gather(&b) {
		if want := strings.Join(strings.Fields(r.Text), " "); !strings.Contains(text, want) && r.Face != Mono {
			t.Errorf("%q is not in the text", want)
		}
	}
}

// TestRendered: poppler and mupdf draw every page without a word of complaint.
func TestRendered(t *testing.T) {
	file := written(t, testBook())
	dir := t.TempDir()
	if *outDir != "" {
		dir = *outDir
	}
	if out := tool(t, "pdftoppm", "-r", "80", "-png", file, filepath.Join(dir, "page")); out != "" {
		t.Errorf("pdftoppm: %s", out)
	}
	pages, err := filepath.Glob(filepath.Join(dir, "page-*.png"))
	if err != nil || len(pages) != placed(t, testBook()).Pages() {
		t.Errorf("%d pages rendered, %v", len(pages), err)
	}
	out := tool(t, "mutool", "draw", "-q", "-r", "40", "-o", filepath.Join(dir, "m-%d.png"), file)
	// Some builds of mupdf are without color management, and say so each time.
	out = strings.ReplaceAll(out, "warning: ICC support is not available\n", "")
	if out != "" {
		t.Errorf("mutool: %s", out)
	}
	tool(t, "qpdf", "--check", file)
}

// TestStructureByPoppler: the summary makes sense to somebody who hears it.
func TestStructureByPoppler(t *testing.T) {
	text := tool(t, "pdfinfo", "-struct-text", written(t, testBook()))
	for _, want := range []string{"H1", "TOCI", "Table", "TH", "Figure", "Form", "Caption", `"re-check needed"`} {
		if !strings.Contains(text, want) {
			t.Errorf("%s is not in the structure as poppler reads it", want)
		}
	}
}
