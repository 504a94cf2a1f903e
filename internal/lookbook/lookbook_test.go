package lookbook

import (
	"errors"
	"image"
	"image/color"
	"image/draw"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"

	"asleft/fonts"
)

// sketch is a page with big type, a table and marks, drawn from scratch.
type sketch struct {
	title   string
	word    string      // in a row of the table
	table   image.Point // where it begins
	missing bool        // the mark of the third row
	bar     color.Color
	right   float64 // of everything, in pixels
	hinting font.Hinting
	gray    uint8 // of text
}

var plain = sketch{title: "NOT READY", word: "within", table: image.Pt(40, 90), bar: color.RGBA{R: 180, G: 60, B: 40, A: 255}, gray: 30}

// drawn draws at twice the resolution, as pages are, and halves.
func (s sketch) drawn(t *testing.T) image.Image {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 600, 500))
	draw.Draw(m, m.Bounds(), image.White, image.Point{}, draw.Src)
	s.text(t, m, fonts.SansSemiBold, 40, 30, 40, s.title)
	draw.Draw(m, image.Rect(60, 100, 460, 112), image.NewUniform(s.bar), image.Point{}, draw.Src)
	for row := range 6 {
		x, y := 2*s.table.X, 2*s.table.Y+30*row
		draw.Draw(m, image.Rect(x, y, x+440, y+2), image.NewUniform(color.Gray{Y: 120}), image.Point{}, draw.Src)
		if row != 2 || !s.missing {
			draw.Draw(m, image.Rect(x+300, y+8, x+316, y+24), image.Black, image.Point{}, draw.Src)
		}
		word := "within"
		if row == 3 {
			word = s.word
		}
		s.text(t, m, fonts.SansCondensed, 17, float64(x), float64(y+22), "Fan tilt, distance to the blade")
		s.text(t, m, fonts.SansCondensed, 17, float64(x+330), float64(y+22), word)
	}
	return Reduce(Halve(m), nil)
}

func (s sketch) text(t *testing.T, m draw.Image, face []byte, size, x, y float64, text string) {
	t.Helper()
	f, err := truetype.Parse(face)
	if err != nil {
		t.Fatal(err)
	}
	d := font.Drawer{Dst: m, Src: image.NewUniform(color.Gray{Y: s.gray}), Dot: fixed.Point26_6{X: fixed.Int26_6(64 * (x + 2*s.right)), Y: fixed.I(int(y))},
		Face: truetype.NewFace(f, &truetype.Options{Size: size, DPI: 72, Hinting: s.hinting, SubPixelsX: 8})}
	d.DrawString(text)
}

func TestWhatAnEyeTellsApart(t *testing.T) {
	for _, c := range []struct {
		name  string
		alter func(*sketch)
		same  bool
	}{
		{"nothing", func(*sketch) {}, true},
		{"letters half a pixel on", func(s *sketch) { s.right = 0.5 }, true},
		{"letters fitted to pixels", func(s *sketch) { s.hinting = font.HintingFull }, true},
		{"letters a little bolder", func(s *sketch) { s.gray = 0 }, true},
		{"another shade of a bar", func(s *sketch) { s.bar = color.RGBA{R: 184, G: 62, B: 43, A: 255} }, true},
		{"big word gone", func(s *sketch) { s.title = "READY" }, false},
		{"big letter", func(s *sketch) { s.title = "NOW READY" }, false},
		{"word of the table", func(s *sketch) { s.word = "outside" }, false},
		{"no word in the table", func(s *sketch) { s.word = "" }, false},
		{"table one millimeter down", func(s *sketch) { s.table.Y += 3 }, false},
		{"table one millimeter right", func(s *sketch) { s.table.X += 3 }, false},
		{"mark missing", func(s *sketch) { s.missing = true }, false},
		{"bar as bright, of another color", func(s *sketch) { s.bar = color.RGBA{R: 60, G: 111, B: 84, A: 255} }, false},
	} {
		altered := plain
		c.alter(&altered)
		d, err := Compare(plain.drawn(t), altered.drawn(t))
		if err != nil {
			t.Fatal(err)
		}
		if d.Same() != c.same {
			t.Errorf("%s: same is %v: %+v", c.name, d.Same(), d)
		}
		t.Logf("%s: %+v", c.name, d)
	}
}

func TestSizesDiffer(t *testing.T) {
	a, b := image.NewGray(image.Rect(0, 0, 20, 20)), image.NewGray(image.Rect(0, 0, 20, 21))
	if _, err := Compare(a, b); !errors.Is(err, ErrSize) {
		t.Errorf("got %v", err)
	}
}

// TestSimilarity holds one square to another program.
func TestSimilarity(t *testing.T) {
	a, b := image.NewGray(image.Rect(0, 0, Window, Window)), image.NewGray(image.Rect(0, 0, Window, Window))
	for y := range Window {
		for x := range Window {
			a.SetGray(x, y, color.Gray{Y: uint8((x*17 + y*29) % 256)})
			b.SetGray(x, y, color.Gray{Y: uint8((x*23 + y*31) % 256)})
		}
	}
	// scikit-image, 0.26.0: structural_similarity(a, b, win_size=15,
	// data_range=255, full=True)[1][7, 7]
	const want = 0.05334766307511122
	if got := similarity(read(a), read(b), a.Rect, image.Point{}); math.Abs(got-want) > 1e-9 {
		t.Errorf("got %.12f, want %.12f", got, want)
	}
}

// TestLab holds colors to another program: skimage.color.rgb2lab of scikit-image 0.26.0.
func TestLab(t *testing.T) {
	for _, c := range []struct{ rgb, want [3]float64 }{
		{[3]float64{255, 255, 255}, [3]float64{100.00, -0.00, 0.00}},
		{[3]float64{255, 0, 0}, [3]float64{53.24, 80.09, 67.20}},
		{[3]float64{0, 128, 64}, [3]float64{46.72, -45.50, 26.36}},
		{[3]float64{20, 30, 40}, [3]float64{10.78, -1.12, -8.17}},
		{[3]float64{3, 3, 3}, [3]float64{0.82, -0.00, 0.00}},
	} {
		for i, got := range lab(c.rgb) {
			if math.Abs(got-c.want[i]) > 0.02 {
				t.Errorf("%v: got %v, want %v", c.rgb, lab(c.rgb), c.want)
			}
		}
	}
}

func TestReduce(t *testing.T) {
	m := image.NewRGBA(image.Rect(5, 5, 25, 25))
	draw.Draw(m, m.Bounds(), image.White, image.Point{}, draw.Src)
	m.SetRGBA(6, 6, color.RGBA{R: 7, G: 100, B: 250, A: 255})
	r := Reduce(m, []image.Rectangle{image.Rect(10, 10, 12, 12)})
	for at, want := range map[image.Point]color.RGBA{
		{}:             {R: 255, G: 255, B: 255, A: 255},
		{X: 1, Y: 1}:   {R: 0, G: 102, B: 255, A: 255},
		{X: 11, Y: 11}: covered,
		{X: 12, Y: 12}: {R: 255, G: 255, B: 255, A: 255},
	} {
		if got := color.RGBAModel.Convert(r.At(at.X, at.Y)); got != want {
			t.Errorf("%v: got %v, want %v", at, got, want)
		}
	}
}

func TestSheet(t *testing.T) {
	folder := t.TempDir()
	other := plain
	other.title = "READY"
	if err := WriteSheet(folder, []Pair{{Name: "one", Kept: plain.drawn(t), Now: other.drawn(t)}, {Name: "two", Now: plain.drawn(t)}}); err != nil {
		t.Fatal(err)
	}
	page, err := os.ReadFile(filepath.Join(folder, "look-book.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"one: DIFFERS", "two: new", "one-kept.png", "one-now.png", "one-difference.png", "two-now.png"} {
		if !strings.Contains(string(page), want) {
			t.Errorf("no %q", want)
		}
		if strings.HasSuffix(want, ".png") {
			if _, err := ReadPicture(filepath.Join(folder, want)); err != nil {
				t.Error(err)
			}
		}
	}
	if strings.Contains(string(page), "two-kept.png") {
		t.Error("a page that is new was not kept")
	}
}
