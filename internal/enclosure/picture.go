package enclosure

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	_ "image/png" // pictures come as PNG, too

	"asleft/internal/field"
)

// picture makes a stored picture of a file.
func (l *loader) picture(a *field.Attachment, original []byte) (stored []byte, width, height int, ok bool) {
	config, _, err := image.DecodeConfig(bytes.NewReader(original))
	switch {
	case !known(original): // others may be read because other packages can
		l.fault(NoPicture, a, "")
		return nil, 0, 0, false
	case err != nil || config.Width < 1 || config.Height < 1:
		l.fault(BadPicture, a, "")
		return nil, 0, 0, false
	case config.Width > MaxPixels/config.Height:
		l.fault(PixelsMany, a, "")
		return nil, 0, 0, false
	}
	img, _, err := image.Decode(bytes.NewReader(original))
	if err != nil {
		l.fault(BadPicture, a, "")
		return nil, 0, 0, false
	}
	small := turn(shrink(img, MaxSide), orientation(original))
	var out bytes.Buffer
	if err := jpeg.Encode(&out, small, &jpeg.Options{Quality: quality}); err != nil {
		l.fault(BadPicture, a, "")
		return nil, 0, 0, false
	}
	return out.Bytes(), small.Rect.Dx(), small.Rect.Dy(), true
}

// known tells whether a file begins as a JPEG or PNG does.
func known(b []byte) bool {
	return bytes.HasPrefix(b, []byte("\xff\xd8\xff")) || bytes.HasPrefix(b, []byte("\x89PNG\r\n\x1a\n"))
}

// shrink scales a picture down so that no side is longer than most, each new
// pixel the mean of the area that it stands for. It counts in whole numbers: with
// floating point, processors that fuse operations would make other bytes. What
// is transparent becomes white.
func shrink(img image.Image, most int) *image.RGBA {
	b := img.Bounds()
	w, h := scaled(b.Dx(), b.Dy(), most)
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	line := image.NewRGBA(image.Rect(0, 0, b.Dx(), 1))
	across := weights(b.Dx(), w)
	down := weights(b.Dy(), h)
	sums := make([]uint64, 3*w)
	row := make([]uint64, 3*w)
	y := 0
	for i, share := range down {
		if i == 0 || share.from != down[i-1].from {
			flatten(line, img, b.Min.Y+share.from)
			gather(row, line.Pix, across)
		}
		for j := range row {
			sums[j] += row[j] * share.weight
		}
		if i+1 == len(down) || down[i+1].to != share.to {
			settle(out, y, sums, uint64(b.Dx())*uint64(b.Dy()))
			y++
		}
	}
	return out
}

// scaled is the size that fits, in the same proportions.
func scaled(w, h, most int) (int, int) {
	switch {
	case max(w, h) <= most:
		return w, h
	case w >= h:
		return most, max(1, (h*most+w/2)/w)
	}
	return max(1, (w*most+h/2)/h), most
}

// share is what of an old pixel goes into a new one.
type share struct {
	from, to int
	weight   uint64
}

// weights are the shares of n old pixels in m new ones, m ≤ n, in order. Those of
// a new pixel sum up to n.
func weights(n, m int) []share {
	out := make([]share, 0, n+m)
	for from, to := 0, 0; from < n && to < m; {
		// In units of 1/(n·m), old pixels end at m·(from+1), new ones at n·(to+1).
		start := max(from*m, to*n)
		oldEnd, newEnd := (from+1)*m, (to+1)*n
		out = append(out, share{from, to, uint64(min(oldEnd, newEnd) - start)})
		if oldEnd <= newEnd {
			from++
		}
		if newEnd <= oldEnd {
			to++
		}
	}
	return out
}

// flatten takes a line of a picture on white.
func flatten(line *image.RGBA, img image.Image, y int) {
	draw.Draw(line, line.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(line, line.Rect, img, image.Pt(img.Bounds().Min.X, y), draw.Over)
}

func gather(row []uint64, pix []uint8, across []share) {
	clear(row)
	for _, s := range across {
		for c := range 3 {
			row[3*s.to+c] += uint64(pix[4*s.from+c]) * s.weight
		}
	}
}

// settle writes a line of means and begins the next.
func settle(out *image.RGBA, y int, sums []uint64, whole uint64) {
	for x := range out.Rect.Dx() {
		at := out.PixOffset(x, y)
		for c := range 3 {
			out.Pix[at+c] = uint8((sums[3*x+c] + whole/2) / whole)
		}
		out.Pix[at+3] = 0xff
	}
	clear(sums)
}
