package enclosure

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/big"
	"os"
	"testing"

	"asleft/internal/field"
)

// striped is a picture in which every pixel is another color.
func striped(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			img.SetRGBA(x, y, color.RGBA{uint8(x * 37), uint8(y * 59), uint8(x*y + 11), 255})
		}
	}
	return img
}

// TestShrinkIsTheMean compares with fractions: every new pixel is the mean of the
// area of the old picture that it covers, parts of pixels by their part.
func TestShrinkIsTheMean(t *testing.T) {
	for _, size := range [][3]int{{7, 5, 3}, {5, 7, 3}, {8, 4, 4}, {13, 13, 12}, {9, 2, 9}, {31, 1, 4}, {6, 6, 1}} {
		img := striped(size[0], size[1])
		got := shrink(img, size[2])
		w, h := got.Rect.Dx(), got.Rect.Dy()
		if max(w, h) != size[2] {
			t.Fatalf("%v: %d by %d", size, w, h)
		}
		for y := range h {
			for x := range w {
				for c := range 3 {
					want := meanOf(img, x, y, w, h, c)
					if have := int(got.Pix[got.PixOffset(x, y)+c]); have != want {
						t.Errorf("%v: pixel %d,%d color %d is %d, want %d", size, x, y, c, have, want)
					}
				}
			}
		}
	}
}

func meanOf(img *image.RGBA, x, y, w, h, c int) int {
	sum, area := new(big.Rat), new(big.Rat)
	part := func(from, i, n, m int) *big.Rat { // of old pixel from, of n, in new pixel i, of m
		lo, hi := big.NewRat(int64(i*n), int64(m)), big.NewRat(int64((i+1)*n), int64(m))
		a, b := big.NewRat(int64(from), 1), big.NewRat(int64(from+1), 1)
		if a.Cmp(lo) < 0 {
			a = lo
		}
		if b.Cmp(hi) > 0 {
			b = hi
		}
		if d := new(big.Rat).Sub(b, a); d.Sign() > 0 {
			return d
		}
		return new(big.Rat)
	}
	W, H := img.Rect.Dx(), img.Rect.Dy()
	for j := range H {
		for i := range W {
			share := new(big.Rat).Mul(part(i, x, W, w), part(j, y, H, h))
			area.Add(area, share)
			sum.Add(sum, share.Mul(share, big.NewRat(int64(img.Pix[img.PixOffset(i, j)+c]), 1)))
		}
	}
	mean := sum.Quo(sum, area)
	mean.Add(mean, big.NewRat(1, 2))
	return int(new(big.Int).Quo(mean.Num(), mean.Denom()).Int64())
}

func TestTransparentIsWhite(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 2, 1))
	img.SetNRGBA(0, 0, color.NRGBA{200, 10, 10, 0})
	img.SetNRGBA(1, 0, color.NRGBA{0, 0, 0, 128})
	got := shrink(img, 10)
	if c := got.RGBAAt(0, 0); c != (color.RGBA{255, 255, 255, 255}) {
		t.Errorf("clear: %v", c)
	}
	if c := got.RGBAAt(1, 0); c.R < 125 || c.R > 129 || c.R != c.G {
		t.Errorf("half clear black: %v", c)
	}
}

// TestEightWays: where the upper left and upper right of the picture end up, as
// the Exif standard names them: "the 0th row is at the visual … of the image, and
// the 0th column is the visual …" (values from memory).
func TestEightWays(t *testing.T) {
	stored := image.NewRGBA(image.Rect(0, 0, 3, 2))
	first, right, below := color.RGBA{255, 0, 0, 255}, color.RGBA{0, 255, 0, 255}, color.RGBA{0, 0, 255, 255}
	stored.SetRGBA(0, 0, first)
	stored.SetRGBA(2, 0, right)
	stored.SetRGBA(0, 1, below)
	corner := map[string]func(*image.RGBA) color.RGBA{
		"top left":     func(i *image.RGBA) color.RGBA { return i.RGBAAt(0, 0) },
		"top right":    func(i *image.RGBA) color.RGBA { return i.RGBAAt(i.Rect.Dx()-1, 0) },
		"bottom left":  func(i *image.RGBA) color.RGBA { return i.RGBAAt(0, i.Rect.Dy()-1) },
		"bottom right": func(i *image.RGBA) color.RGBA { return i.RGBAAt(i.Rect.Dx()-1, i.Rect.Dy()-1) },
	}
	for way, at := range map[int][3]string{ // of first, right, below
		0: {"top left", "top right", "bottom left"}, 1: {"top left", "top right", "bottom left"},
		2: {"top right", "top left", "bottom right"}, 3: {"bottom right", "bottom left", "top right"},
		4: {"bottom left", "bottom right", "top left"}, 5: {"top left", "bottom left", "top right"},
		6: {"top right", "bottom right", "top left"}, 7: {"bottom right", "top right", "bottom left"},
		8: {"bottom left", "top left", "bottom right"}, 9: {"top left", "top right", "bottom left"},
	} {
		got := turn(stored, way)
		for i, want := range []color.RGBA{first, right, below} {
			if c := corner[at[i]](got); c != want {
				t.Errorf("way %d: %s is %v, want %v", way, at[i], c, want)
			}
		}
	}
}

// exif is the data of a camera that says how to turn the picture, and where it
// was taken.
func exif(order binary.ByteOrder, way uint16) []byte {
	b := []byte("MM\x00*")
	if order == binary.LittleEndian {
		b = []byte("II*\x00")
	}
	put := func(v any) {
		var out bytes.Buffer
		_ = binary.Write(&out, order, v)
		b = append(b, out.Bytes()...)
	}
	put(uint32(8))
	put(uint16(2))
	put([]uint16{0x010f, 2})
	put([]uint32{4, 0x41424300}) // maker
	put([]uint16{0x0112, 3})
	put(uint32(1))
	put([]uint16{way, 0})
	put(uint32(0))
	return append(b, "SECRET PLACE"...)
}

func withExif(t testing.TB, img image.Image, data []byte) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, nil); err != nil {
		t.Fatal(err)
	}
	b := out.Bytes()
	body := append([]byte("Exif\x00\x00"), data...)
	segment := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(body)+2))
	return bytes.Join([][]byte{b[:2], segment, body, b[2:]}, nil)
}

func TestCameraTurnsAndKeepsItsSecrets(t *testing.T) {
	for _, order := range []binary.ByteOrder{binary.BigEndian, binary.LittleEndian} {
		file := withExif(t, striped(30, 20), exif(order, 6))
		if got := orientation(file); got != 6 {
			t.Fatalf("%v: way %d", order, got)
		}
		l := loader{}
		stored, w, h, ok := l.picture(&field.Attachment{}, file)
		if !ok || w != 20 || h != 30 {
			t.Errorf("%v: %d by %d, %v", order, w, h, l.faults)
		}
		if bytes.Contains(stored, []byte("SECRET")) || bytes.Contains(stored, []byte("Exif")) {
			t.Errorf("%v: the camera's data is still there", order)
		}
	}
}

func TestOrientationOfPNG(t *testing.T) {
	var out bytes.Buffer
	if err := png.Encode(&out, striped(3, 2)); err != nil {
		t.Fatal(err)
	}
	b := out.Bytes()
	const afterHead = 8 + 25
	data := exif(binary.BigEndian, 8)
	chunk := append(binary.BigEndian.AppendUint32(nil, uint32(len(data))), "eXIf"...)
	chunk = append(append(chunk, data...), 0, 0, 0, 0)
	if got := orientation(bytes.Join([][]byte{b[:afterHead], chunk, b[afterHead:]}, nil)); got != 8 {
		t.Errorf("way %d", got)
	}
}

// TestFourColors: the file was made by ImageMagick 6.9 from a plain field of
// sRGB (200, 60, 30), converted to CMYK and written as an Adobe JPEG.
func TestFourColors(t *testing.T) {
	file, err := os.ReadFile("testdata/cmyk.jpg")
	if err != nil {
		t.Fatal(err)
	}
	config, _, err := image.DecodeConfig(bytes.NewReader(file))
	if err != nil || config.ColorModel != color.CMYKModel {
		t.Fatalf("the file is not of four colors: %v", err)
	}
	l := loader{}
	stored, _, _, ok := l.picture(&field.Attachment{}, file)
	if !ok {
		t.Fatal(l.faults)
	}
	img, err := jpeg.Decode(bytes.NewReader(stored))
	if err != nil || img.ColorModel() != color.YCbCrModel {
		t.Fatalf("not stored in three colors: %v", err)
	}
	r, g, b, _ := img.At(8, 8).RGBA()
	for i, x := range [][2]int{{int(r >> 8), 200}, {int(g >> 8), 60}, {int(b >> 8), 30}} {
		if d := x[0] - x[1]; d < -6 || d > 6 {
			t.Errorf("color %d is %d, want about %d", i, x[0], x[1])
		}
	}
}

func FuzzOrientation(f *testing.F) {
	f.Add(withExif(f, striped(2, 2), exif(binary.BigEndian, 3)))
	f.Add([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x00eXIf"))
	f.Fuzz(func(t *testing.T, b []byte) {
		if known(b) {
			orientation(b)
		}
	})
}
