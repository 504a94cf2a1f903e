package plot

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
)

// update rewrites the files under testdata; look at the pictures afterwards.
var update = flag.Bool("update", false, "rewrite the golden files")

func loadFonts(t testing.TB) *Fonts {
	t.Helper()
	f, err := EmbeddedFonts()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Errorf("%s differs from the golden file; run with -update and look at it", name)
	}
}

// TestGoldenSVG keeps the picture of each figure, to be looked at after a change.
func TestGoldenSVG(t *testing.T) {
	f := loadFonts(t)
	for name, fig := range gallery() {
		t.Run(name, func(t *testing.T) {
			svg, err := SVG(fig, f, "Title <"+name+">", "Finding & reason.")
			if err != nil {
				t.Fatal(err)
			}
			golden(t, name+".svg", svg)
		})
	}
}
