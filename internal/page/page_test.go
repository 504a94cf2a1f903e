package page

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
)

var (
	update = flag.Bool("update", false, "write the golden files anew")
	outDir = flag.String("out", "", "directory to leave written books in, to look at")
)

func metrics(t testing.TB) *Metrics {
	t.Helper()
	m, err := NewMetrics()
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func placed(t testing.TB, b Book) *Placed {
	t.Helper()
	p, err := Place(b, metrics(t))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestGolden compares the placed boxes of a book with every kind of block with
// what was looked at on paper.
func TestGolden(t *testing.T) {
	p := placed(t, testBook())
	got := p.Dump()
	file := filepath.Join("testdata", "book.txt")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("placed boxes differ from %s; run with -update and look at the difference", file)
	}
	raw, _, err := Emit(p)
	if err != nil {
		t.Fatal(err)
	}
	if *outDir != "" {
		if err := os.WriteFile(filepath.Join(*outDir, "raw.pdf"), raw, 0o644); err != nil {
			t.Fatal(err)
		}
		fin, err := Write(testBook())
		if err != nil {
			t.Error(err)
		}
		if err := os.WriteFile(filepath.Join(*outDir, "book.pdf"), fin, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
