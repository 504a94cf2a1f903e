package page

import (
	"fmt"
	"unicode"
	"unicode/utf8"

	"asleft/internal/archive"
)

// glyph is one character of a text on its way to lines, or the mark before a
// run (r is 0 then).
type glyph struct {
	r    rune
	run  int32
	off  int32 // of the character in the run's text
	adv  mp
	face face
	wrap bool // starts a new line
}

// markWidth and markGap are the advance of a mark at a type size.
func markWidth(size mp) mp { return size * 88 / 100 }
func markGap(size mp) mp   { return size * 36 / 100 }

// flatten turns runs into glyphs, appended to gs, and refuses what cannot be
// printed.
func (b *builder) flatten(gs []glyph, runs []Run, s setting) ([]glyph, error) {
	for i := range runs {
		r := &runs[i]
		if r.ID != "" && r.Text == "" {
			return gs, b.textError(r, 0, "a value without text")
		}
		if ids, texts := archive.Several(r.ID, r.Text); len(ids) > 1 && texts[0] == r.Text {
			return gs, b.textError(r, 0, fmt.Sprintf("not the numbers of %d values", len(ids)))
		}
		if r.Link != "" && r.Text == "" {
			return gs, b.textError(r, 0, "a link without text")
		}
		st := s.style(r)
		first := len(gs)
		if r.Mark != NoMark {
			w := markWidth(st.size)
			if r.Text != "" {
				w += markGap(st.size)
			}
			gs = append(gs, glyph{run: int32(i), off: -1, adv: w, face: st.face})
		}
		for off, c := range r.Text {
			if why := unprintable(c, r.Text[off:]); why != "" {
				return gs, b.textError(r, c, why)
			}
			f, units, ok := b.m.glyph(st.face, c)
			if !ok {
				return gs, b.textError(r, c, "no glyph in the typefaces")
			}
			gs = append(gs, glyph{r: c, run: int32(i), off: int32(off), adv: advance(units, st.size), face: f})
		}
		if r.Break && first < len(gs) {
			gs[first].wrap = true
		}
	}
	return gs, nil
}

func (b *builder) textError(r *Run, c rune, why string) error {
	return &TextError{Section: b.key, ID: r.ID, Text: r.Text, Rune: c, Why: why}
}

// unprintable says why a character cannot be set, empty if it can; rest is the
// text from it on.
func unprintable(c rune, rest string) string {
	switch {
	case c < utf8.RuneSelf && c >= ' ' && c != 0x7F:
		return ""
	case c == utf8.RuneError && len(rest) > 0 && rest[0] != "\uFFFD"[0]:
		return "invalid UTF-8"
	case c > 0xFFFF:
		return "beyond U+FFFF, which the page writer cannot write"
	case unicode.IsControl(c) || c == '\u2028' || c == '\u2029':
		return "a control character"
	case unicode.Is(unicode.Cf, c):
		return "an invisible character"
	}
	return ""
}

// width is the advance of glyphs without trailing spaces.
func width(gs []glyph) mp {
	var w, open mp
	for _, g := range gs {
		open += g.adv
		if g.r != ' ' {
			w += open
			open = 0
		}
	}
	return w
}

// widest is the natural width of a text, on one line but for breaks that it asks
// for, and the width of its longest piece that does not break.
func widest(gs []glyph, runs []Run) (natural, piece mp) {
	start, line := 0, 0
	for i := range gs {
		if gs[i].wrap {
			line = i
		}
		end := i+1 == len(gs) || gs[i+1].wrap
		if end {
			natural = max(natural, width(gs[line:i+1]))
		}
		if end || breaksAfter(gs, runs, i) {
			piece = max(piece, width(gs[start:i+1]))
			start = i + 1
		}
	}
	return natural, piece
}

// Printable is the text with every character that cannot be set replaced.
func (m *Metrics) Printable(s string, instead rune) string {
	out := make([]rune, 0, len(s))
	for off, c := range s {
		if _, _, ok := m.glyph(sans, c); !ok || unprintable(c, s[off:]) != "" {
			c = instead
		}
		out = append(out, c)
	}
	return string(out)
}
