package plot

import (
	"fmt"
	"sync"

	"asleft/fonts"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"
)

// Fonts are the two cuts used in figures. A renderer tells them apart by
// pointer. Read only once parsed: safe for use by several goroutines.
type Fonts struct {
	Regular, SemiBold *truetype.Font
}

// ParseFonts parses two TrueType files.
func ParseFonts(regular, semiBold []byte) (*Fonts, error) {
	r, err := truetype.Parse(regular)
	if err != nil {
		return nil, fmt.Errorf("figure font, regular: %w", err)
	}
	s, err := truetype.Parse(semiBold)
	if err != nil {
		return nil, fmt.Errorf("figure font, semibold: %w", err)
	}
	return &Fonts{Regular: r, SemiBold: s}, nil
}

// EmbeddedFonts are the condensed cuts that the program carries, parsed at the
// first call; every call returns the same pointers.
func EmbeddedFonts() (*Fonts, error) { return parseEmbedded() }

var parseEmbedded = sync.OnceValues(func() (*Fonts, error) {
	return ParseFonts(fonts.SansCondensed, fonts.SansCondensedSemiBold)
})

// width is the advance of s in points at a size in points, summed in font units
// so that it does not depend on rounding per character. No kerning: the page
// does not kern either.
func width(f *truetype.Font, size float64, s string) float64 {
	em := f.FUnitsPerEm()
	sum := 0
	for _, r := range s {
		// At a scale of one em the metric comes back in font units.
		sum += int(f.HMetric(fixed.Int26_6(em), f.Index(r)).AdvanceWidth)
	}
	return float64(sum) / float64(em) * size
}

// missing is the first character of s that f has no glyph for.
func missing(f *truetype.Font, s string) (rune, bool) {
	for _, r := range s {
		if f.Index(r) == 0 {
			return r, true
		}
	}
	return 0, false
}
