package lookbook

import (
	"image"
	"image/color"
	"image/draw"
)

// levels is how many of red, green and blue are kept: pictures of pages are
// then small files, and a level is less than the eye can tell.
const levels = 16

// covered is what stands for text that no eye compares.
var covered = color.RGBA{R: 221, G: 221, B: 221, A: 255}

// Reduce makes a picture that is worth keeping: few levels, with a palette where that
// is enough, and the places in hidden covered.
func Reduce(m image.Image, hidden []image.Rectangle) image.Image {
	size := image.Rectangle{Max: m.Bounds().Size()}
	out := image.NewRGBA(size)
	draw.Draw(out, size, m, m.Bounds().Min, draw.Src)
	for _, r := range hidden {
		draw.Draw(out, r, image.NewUniform(covered), image.Point{}, draw.Src)
	}
	seen, palette := map[color.RGBA]uint8{}, color.Palette{}
	for i, v := range out.Pix {
		const step = 255 / (levels - 1)
		out.Pix[i] = uint8((int(v) + step/2) / step * step)
		if i%4 == 3 {
			c := color.RGBA{out.Pix[i-3], out.Pix[i-2], out.Pix[i-1], out.Pix[i]}
			if _, known := seen[c]; !known && len(seen) <= 256 {
				seen[c] = uint8(len(palette))
				palette = append(palette, c)
			}
		}
	}
	if len(palette) > 256 {
		return out
	}
	small := image.NewPaletted(size, palette)
	for i := range small.Pix {
		small.Pix[i] = seen[color.RGBA{out.Pix[4*i], out.Pix[4*i+1], out.Pix[4*i+2], out.Pix[4*i+3]}]
	}
	return small
}

// Halve makes one pixel of four, as their mean. Drawn at twice the resolution and halved, a
// page looks much the same whichever program drew it: edges are then where
// they belong and not where the nearest pixel was.
func Halve(m image.Image) image.Image {
	b := m.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dx()/2, b.Dy()/2))
	for y := range out.Rect.Max.Y {
		for x := range out.Rect.Max.X {
			var sum [3]uint32
			for i := range 4 {
				r, g, b, _ := m.At(b.Min.X+2*x+i%2, b.Min.Y+2*y+i/2).RGBA()
				sum[0], sum[1], sum[2] = sum[0]+r, sum[1]+g, sum[2]+b
			}
			const four = 4 * 257
			out.SetRGBA(x, y, color.RGBA{R: uint8((sum[0] + four/2) / four), G: uint8((sum[1] + four/2) / four), B: uint8((sum[2] + four/2) / four), A: 255})
		}
	}
	return out
}

// Difference shows what is in both pictures in light gray, what is gone in red,
// and what is new in blue.
func Difference(before, after image.Image) image.Image {
	a, b := before.Bounds(), after.Bounds()
	out := image.NewRGBA(image.Rectangle{Max: image.Pt(max(a.Dx(), b.Dx()), max(a.Dy(), b.Dy()))})
	for y := range out.Rect.Max.Y {
		for x := range out.Rect.Max.X {
			u, v := gray(before, x, y), gray(after, x, y)
			out.SetRGBA(x, y, color.RGBA{R: v, G: min(u, v), B: u, A: 255})
			if u == v {
				pale := 200 + u/5
				out.SetRGBA(x, y, color.RGBA{R: pale, G: pale, B: pale, A: 255})
			}
		}
	}
	return out
}

func gray(m image.Image, x, y int) uint8 {
	p := m.Bounds().Min.Add(image.Pt(x, y))
	if !p.In(m.Bounds()) {
		return 255
	}
	return color.GrayModel.Convert(m.At(p.X, p.Y)).(color.Gray).Y
}
