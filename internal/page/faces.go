package page

import (
	"fmt"

	"asleft/fonts"
	"asleft/internal/plot"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"
)

// face is one cut of the type.
type face uint8

const (
	sans face = iota
	sansBold
	condensed
	condensedBold
	mono
	faceCount
)

// faceFile is how a face is registered with the writer below, and its
// PostScript name.
type faceFile struct {
	family, style string
	name          string
	bytes         []byte
}

// file is where a face comes from.
func (f face) file() faceFile {
	switch f {
	case sansBold:
		return faceFile{"sans", "B", "IBMPlexSans-SemiBold", fonts.SansSemiBold}
	case condensed:
		return faceFile{"condensed", "", "IBMPlexSansCondensed-Regular", fonts.SansCondensed}
	case condensedBold:
		return faceFile{"condensed", "B", "IBMPlexSansCondensed-SemiBold", fonts.SansCondensedSemiBold}
	case mono:
		return faceFile{"mono", "", "IBMPlexMono-Regular", fonts.Mono}
	}
	return faceFile{"sans", "", "IBMPlexSans-Regular", fonts.Sans}
}

// Typefaces are the typefaces of all pages, by the names they have in a file.
func Typefaces() map[string][]byte {
	out := map[string][]byte{}
	for f := range faceCount {
		file := f.file()
		out[file.name] = file.bytes
	}
	return out
}

// next is the face that lends a glyph that f does not have.
func (f face) next() (face, bool) {
	switch f {
	case condensed, mono:
		return sans, true
	case condensedBold:
		return sansBold, true
	}
	return f, false
}

// em is the design size of all faces; NewMetrics refuses others.
const em = 1000

// lowRunes is how far the advance tables go: Latin, Greek and Cyrillic.
const lowRunes = 0x530

// Metrics are the widths of the embedded faces. Read only once made: one may
// serve any number of goroutines.
type Metrics struct {
	fonts [faceCount]*truetype.Font
	low   [faceCount][lowRunes]int16 // advances in em/1000; -1 is no glyph
	plot  *plot.Fonts
}

// NewMetrics parses the embedded faces.
func NewMetrics() (*Metrics, error) {
	m := &Metrics{}
	var err error
	if m.plot, err = plot.EmbeddedFonts(); err != nil {
		return nil, err
	}
	m.fonts[condensed], m.fonts[condensedBold] = m.plot.Regular, m.plot.SemiBold
	for f := range faceCount {
		if m.fonts[f] == nil {
			if m.fonts[f], err = truetype.Parse(f.file().bytes); err != nil {
				return nil, fmt.Errorf("font %s: %w", f.file().name, err)
			}
		}
		if m.fonts[f].FUnitsPerEm() != em {
			return nil, fmt.Errorf("font %s has %d units to the em, expected %d", f.file().name, m.fonts[f].FUnitsPerEm(), em)
		}
		for r := range rune(lowRunes) {
			m.low[f][r] = int16(m.look(f, r))
		}
	}
	return m, nil
}

// look reads an advance from the font file, -1 for no glyph.
func (m *Metrics) look(f face, r rune) int {
	i := m.fonts[f].Index(r)
	if i == 0 {
		return -1
	}
	return int(m.fonts[f].HMetric(fixed.Int26_6(em), i).AdvanceWidth)
}

// glyph finds r in f or in the faces that lend to it: the face that has it and
// its advance in thousandths of the type size.
func (m *Metrics) glyph(f face, r rune) (face, int, bool) {
	for more := true; more; f, more = f.next() {
		adv := -1
		if r < lowRunes {
			adv = int(m.low[f][r])
		} else {
			adv = m.look(f, r)
		}
		if adv >= 0 {
			return f, adv, true
		}
	}
	return f, 0, false
}

// advance is an advance at a type size. No kerning: the writer below does not
// kern, and digits stay in columns.
func advance(units int, size mp) mp { return mp(units) * size / em }
