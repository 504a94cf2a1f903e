package page

import (
	"bytes"
	"image"
	"image/jpeg"
	"strings"
	"testing"

	"asleft/internal/archive"
)

func jpegOf(t *testing.T, img image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, nil); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// photoBook has two photos of one width side by side, and the first again.
func photoBook(t *testing.T) Book {
	t.Helper()
	wide, gray := image.NewRGBA(image.Rect(0, 0, 40, 30)), image.NewGray(image.Rect(0, 0, 40, 20))
	photo := func(img image.Image, alt string) Photo {
		return Photo{JPEG: jpegOf(t, img), Width: img.Bounds().Dx(), Height: img.Bounds().Dy(), MaxHeight: 120, Alt: alt,
			Caption: runs(run("Caption of " + alt))}
	}
	b := testBook()
	b.Sections = []Section{{Key: "photos", Head: b.Sections[0].Head, Blocks: []Block{
		Heading{Level: 1, Runs: runs(run("Photos"))},
		Columns{Widths: []float64{1, 1}, Blocks: [][]Block{{photo(wide, "first")}, {photo(gray, "second")}}},
		photo(wide, "first again"),
	}}}
	return b
}

func TestPhotosAreInTheFileOnceAndInTheStructure(t *testing.T) {
	b := photoBook(t)
	out, err := Write(b)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Write(b)
	if err != nil || !bytes.Equal(out, again) {
		t.Errorf("two runs gave different bytes: %v", err)
	}
	if n := bytes.Count(out, b.Sections[0].Blocks[2].(Photo).JPEG); n != 1 {
		t.Errorf("the first photo's own bytes are %d times in the file, want once", n)
	}
	m, err := NewMetrics()
	if err != nil {
		t.Fatal(err)
	}
	p, err := Place(b, m)
	if err != nil {
		t.Fatal(err)
	}
	_, doc, err := Emit(p)
	if err != nil {
		t.Fatal(err)
	}
	var alts []string
	var walk func(e *archive.Element)
	walk = func(e *archive.Element) {
		if e.Role == archive.RoleFigure {
			alts = append(alts, e.Detail.Alt)
			if w, h := e.Detail.BBox.X1-e.Detail.BBox.X0, e.Detail.BBox.Y1-e.Detail.BBox.Y0; h > 120.01 || w <= 0 || e.Detail.Alt != "second" && w*30/40-h > 0.01 {
				t.Errorf("%s is %g by %g points", e.Detail.Alt, w, h)
			}
		}
		for _, k := range e.Kids {
			if k.Element != nil {
				walk(k.Element)
			}
		}
	}
	walk(doc.Root)
	if got := strings.Join(alts, ","); got != "first,second,first again" {
		t.Errorf("figures %q", got)
	}
}

func TestPhotoThatIsNotWhatItSays(t *testing.T) {
	for what, change := range map[string]func(*Photo){
		"no alternative text": func(p *Photo) { p.Alt = "" },
		"other pixels":        func(p *Photo) { p.Width++ },
		"no JPEG":             func(p *Photo) { p.JPEG = []byte("text") },
		"no room":             func(p *Photo) { p.MaxHeight = 0 },
	} {
		b := photoBook(t)
		p := b.Sections[0].Blocks[2].(Photo)
		change(&p)
		b.Sections[0].Blocks[2] = p
		if _, err := Write(b); err == nil {
			t.Errorf("%s: no error", what)
		}
	}
}
