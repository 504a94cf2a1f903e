// Package lookbook tells how far the picture of a page is from the one that
// somebody looked at and kept. Two pictures come in; out go the two distances,
// where they are largest, a picture of the difference and a sheet that shows
// all three side by side. It knows nothing of what is on the pages, of how they
// were made, or of the program that drew them.
package lookbook

import (
	"errors"
	"image"
	"math"
)

// Window is the side, in pixels, of the squares in which two pictures are
// compared; Step is how far they stand apart. At [Resolution] that is 5 mm
// and 2 mm.
const (
	Window = 15
	Step   = 5
)

// Resolution, in dots per inch, is what the limits are meant for.
const Resolution = 72

// Limits of what counts as the same to the eye, in the worst square of a page. Three
// programs that draw the same page are 0.84 and 2.9 apart at most; another word of
// the smallest type of a table comes to 0.71, one missing to 0.11 (measured, see the
// tests).
const (
	LeastSimilarity = 0.78
	MostColor       = 5.0
)

// ErrSize: pictures of two sizes are not compared.
var ErrSize = errors.New("pictures of different size")

// Distance is how far two pictures are from each other.
type Distance struct {
	// Similarity is the least structural similarity of luminance: Z. Wang, A. C. Bovik,
	// H. R. Sheikh, E. P. Simoncelli, "Image Quality Assessment: From Error
	// Visibility to Structural Similarity", IEEE Transactions on Image Processing
	// 13 (2004), equation 13, with even weights. 1 is the same.
	Similarity float64
	Dissimilar image.Rectangle // where

	// Color is the largest difference of the mean color: the distance in CIELAB of 1976
	// (ISO/CIE 11664-4). One can just be told at about 2.3.
	Color      float64
	Discolored image.Rectangle // where
}

// Same tells whether an eye would take the two for one picture.
func (d Distance) Same() bool {
	return d.Similarity >= LeastSimilarity && d.Color <= MostColor
}

// Compare measures the distance of two pictures of one size.
func Compare(a, b image.Image) (Distance, error) {
	d := Distance{Similarity: 1}
	if a.Bounds().Size() != b.Bounds().Size() {
		return d, ErrSize
	}
	left, right := blurred(read(a)), blurred(read(b))
	size := a.Bounds().Size()
	for y := 0; y+Window <= size.Y; y += Step {
		for x := 0; x+Window <= size.X; x += Step {
			r := image.Rect(x, y, x+Window, y+Window)
			if s := nearest(size, r, -d.Similarity, func(to image.Point) float64 { return -similarity(left, right, r, to) }); -s < d.Similarity {
				d.Similarity, d.Dissimilar = -s, r
			}
			if e := nearest(size, r, d.Color, func(to image.Point) float64 { return colorDistance(left.mean(r), right.mean(r.Add(to))) }); e > d.Color {
				d.Color, d.Discolored = e, r
			}
		}
	}
	return d, nil
}

// nearest is the least of a distance of a square to the same one in the other picture and to those
// a pixel beside it: programs place lines and letters half a pixel apart. At
// enough it stops: such a square is not the worst.
func nearest(size image.Point, r image.Rectangle, enough float64, distance func(image.Point) float64) float64 {
	least := distance(image.Point{})
	for i := 0; i < 9 && least > enough; i++ {
		if to := image.Pt(i%3-1, i/3-1); r.Add(to).In(image.Rectangle{Max: size}) {
			least = min(least, distance(to))
		}
	}
	return least
}

// pixels are a picture with its upper left corner at 0, 0: red, green and blue
// of each pixel from 0 to 255.
type pixels struct {
	width int
	of    [][3]float64
}

func read(m image.Image) pixels {
	b := m.Bounds()
	p := pixels{b.Dx(), make([][3]float64, 0, b.Dx()*b.Dy())}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, g, b, _ := m.At(x, y).RGBA()
			p.of = append(p.of, [3]float64{float64(r) / 257, float64(g) / 257, float64(b) / 257})
		}
	}
	return p
}

// luminance is that of ITU-R BT.601.
func (p pixels) luminance(x, y int) float64 {
	c := p.of[y*p.width+x]
	return 0.299*c[0] + 0.587*c[1] + 0.114*c[2]
}

// blur is the standard deviation, in pixels, of the Gauss curve that each picture is
// weighed with first. It takes edges away, which every program draws its own
// way, and leaves letters.
const blur = 1.0

func blurred(p pixels) pixels {
	reach := int(math.Ceil(3 * blur))
	weights, sum := make([]float64, 2*reach+1), 0.0
	for i := range weights {
		d := float64(i-reach) / blur
		weights[i] = math.Exp(-d * d / 2)
		sum += weights[i]
	}
	for i := range weights {
		weights[i] /= sum
	}
	return weighed(weighed(p, weights, 1, 0), weights, 0, 1)
}

// weighed is the weighted mean of the pixels beside each, or above and below it.
// Beyond the edge the picture goes on as it ends there.
func weighed(p pixels, weights []float64, right, down int) pixels {
	height, reach := len(p.of)/p.width, len(weights)/2
	out := pixels{p.width, make([][3]float64, len(p.of))}
	for i := range p.of {
		x, y := i%p.width, i/p.width
		for k, w := range weights {
			u := min(max(x+right*(k-reach), 0), p.width-1)
			v := min(max(y+down*(k-reach), 0), height-1)
			c := p.of[v*p.width+u]
			out.of[i][0] += w * c[0]
			out.of[i][1] += w * c[1]
			out.of[i][2] += w * c[2]
		}
	}
	return out
}

func (p pixels) mean(r image.Rectangle) (sum [3]float64) {
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			for i, v := range p.of[y*p.width+x] {
				sum[i] += v
			}
		}
	}
	for i := range sum {
		sum[i] /= float64(r.Dx() * r.Dy())
	}
	return sum
}

// The paper's constants, for 256 levels.
const (
	c1 = (0.01 * 255) * (0.01 * 255)
	c2 = (0.03 * 255) * (0.03 * 255)
)

func similarity(a, b pixels, r image.Rectangle, to image.Point) float64 {
	var sa, sb, saa, sbb, sab float64
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			u, v := a.luminance(x, y), b.luminance(x+to.X, y+to.Y)
			sa, sb = sa+u, sb+v
			saa, sbb, sab = saa+u*u, sbb+v*v, sab+u*v
		}
	}
	n := float64(r.Dx() * r.Dy())
	ma, mb := sa/n, sb/n
	va, vb, cov := (saa-n*ma*ma)/(n-1), (sbb-n*mb*mb)/(n-1), (sab-n*ma*mb)/(n-1)
	return (2*ma*mb + c1) * (2*cov + c2) / ((ma*ma + mb*mb + c1) * (va + vb + c2))
}

func colorDistance(a, b [3]float64) float64 {
	if a == b {
		return 0
	}
	p, q := lab(a), lab(b)
	return math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
}

// lab is the CIELAB color of an sRGB color (IEC 61966-2-1), with the white of D65.
func lab(c [3]float64) [3]float64 {
	for i, v := range c {
		if v /= 255; v <= 0.04045 {
			c[i] = v / 12.92
		} else {
			c[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	x := root((0.4124564*c[0] + 0.3575761*c[1] + 0.1804375*c[2]) / 0.95047)
	y := root(0.2126729*c[0] + 0.7151522*c[1] + 0.0721750*c[2])
	z := root((0.0193339*c[0] + 0.1191920*c[1] + 0.9503041*c[2]) / 1.08883)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

func root(t float64) float64 {
	const d = 6.0 / 29
	if t > d*d*d {
		return math.Cbrt(t)
	}
	return t/(3*d*d) + 4.0/29
}
