package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	imagecolor "image/color"
	"image/jpeg"

	"github.com/go-pdf/fpdf"
)

// photo is a photograph with its caption below. It keeps its proportions.
func (b *builder) photo(col column, owner *node, p Photo) (built, error) {
	if p.Alt == "" {
		return built{}, fmt.Errorf("section %s: photo without alternative text", b.key)
	}
	if err := p.check(); err != nil {
		return built{}, fmt.Errorf("section %s: photo %q: %w", b.key, p.Alt, err)
	}
	most, err := length("height of photo", p.MaxHeight, 10, maxPoints)
	if err != nil {
		return built{}, fmt.Errorf("section %s: %w", b.key, err)
	}
	f := &figure{picture: Picture{Alt: p.Alt, Caption: p.Caption}, photo: &p, section: b.key}
	wide, high := int64(p.Width), int64(p.Height)
	f.w, f.h = col.w, col.w.share(high, wide)
	if f.h > most {
		f.w, f.h = most.share(wide, high), most
	}
	return b.figure(col, owner, f)
}

// check refuses what would make no plain image of the archive file.
func (p *Photo) check() error {
	config, err := jpeg.DecodeConfig(bytes.NewReader(p.JPEG))
	switch {
	case err != nil:
		return err
	case config.Width != p.Width || config.Height != p.Height || p.Width < 1 || p.Height < 1:
		return fmt.Errorf("is %d by %d pixels, not %d by %d", config.Width, config.Height, p.Width, p.Height)
	case config.ColorModel != imagecolor.YCbCrModel && config.ColorModel != imagecolor.GrayModel:
		return fmt.Errorf("is neither gray nor of three colors")
	}
	return nil
}

// photograph puts a photo on the page. One that stands twice is in the file once.
func (w *writer) photograph(k *ink) error {
	sum := sha256.Sum256(k.fig.photo.JPEG)
	name := hex.EncodeToString(sum[:])
	options := fpdf.ImageOptions{ImageType: "JPG"}
	w.pdf.RegisterImageOptionsReader(name, options, bytes.NewReader(k.fig.photo.JPEG))
	w.pdf.ImageOptions(name, k.x.points(), k.y.points(), k.fig.w.points(), k.fig.h.points(), false, options, 0, "")
	if err := w.pdf.Error(); err != nil {
		return fmt.Errorf("section %s: photo %q: %w", k.fig.section, k.fig.picture.Alt, err)
	}
	return nil
}
