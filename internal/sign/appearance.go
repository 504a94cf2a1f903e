package sign

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"strings"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"

	"asleft/fonts"
)

// Line is a paragraph of the appearance.
type Line struct {
	Text string
	Bold bool
}

// Type sizes of the appearance in points: the largest that fits is taken.
const (
	largest  = 9.0
	smallest = 5.0
	sizeStep = 0.25
	leading  = 1.22 // of the size, from base line to base line
	margin   = 3.0  // points, on all sides
	ascent   = 0.80 // of the size, from the top of a line to its base line
	gap      = 0.18 // of the size, between paragraphs
)

// face is a font whose outlines are drawn.
type face struct {
	font *truetype.Font
	name string
}

// faces are the condensed cuts, plain and bold: a field is narrow.
func faces() (plain, bold face, err error) {
	p, err := truetype.Parse(fonts.SansCondensed)
	if err != nil {
		return face{}, face{}, err
	}
	b, err := truetype.Parse(fonts.SansCondensedSemiBold)
	return face{p, "plain"}, face{b, "bold"}, err
}

// unit scales a glyph so that 26.6 fixed numbers are thousandths of an em.
const unit = 1000

// advance is the width of a character in thousandths of the size.
func (f face) advance(r rune) (int, error) {
	i := f.font.Index(r)
	if i == 0 {
		return 0, fmt.Errorf("%w: %q", ErrGlyph, r)
	}
	return int(f.font.HMetric(unit, i).AdvanceWidth), nil
}

// width is that of a text, in thousandths of the size.
func (f face) width(s string) (int, error) {
	sum := 0
	for _, r := range s {
		w, err := f.advance(r)
		if err != nil {
			return 0, err
		}
		sum += w
	}
	return sum, nil
}

// wrap breaks a text into lines no wider than most, in thousandths of the size. A
// word wider than that is broken anywhere.
func (f face) wrap(text string, most int) ([]string, error) {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		longer := strings.TrimLeft(line+" "+word, " ")
		w, err := f.width(longer)
		if err != nil {
			return nil, err
		}
		if w <= most {
			line = longer
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		head, rest, err := f.split(word, most)
		if err != nil {
			return nil, err
		}
		lines, line = append(lines, head...), rest
	}
	return append(lines, line), nil
}

// split cuts a word into pieces that are as wide as they may be, and the rest.
func (f face) split(word string, most int) (pieces []string, rest string, err error) {
	sum := 0
	for _, r := range word {
		w, err := f.advance(r)
		if err != nil {
			return nil, "", err
		}
		if sum+w > most && rest != "" {
			pieces, rest, sum = append(pieces, rest), "", 0
		}
		rest, sum = rest+string(r), sum+w
	}
	return pieces, rest, nil
}

// setLine is a line in its place: base line in points below the top of the field.
type setLine struct {
	text string
	face face
	down float64
}

// draw makes the content of the appearance: the lines as filled outlines, in
// black, from the upper left corner. Outlines need no font in the file, and an
// appearance has no place for one that PDF/A would take.
func draw(lines []Line, width, height float64) ([]byte, error) {
	plain, bold, err := faces()
	if err != nil {
		return nil, err
	}
	for size := largest; size >= smallest; size -= sizeStep {
		set, used, err := arrange(lines, plain, bold, size, width)
		if err != nil {
			return nil, err
		}
		if used <= height {
			return paint(set, size, height)
		}
	}
	return nil, fmt.Errorf("%w: %.0f by %.0f points", ErrNoRoom, width, height)
}

// arrange breaks the paragraphs at a size and says what height they take.
func arrange(lines []Line, plain, bold face, size, width float64) (set []setLine, height float64, err error) {
	most := int((width - 2*margin) / size * unit)
	y := margin
	for i, l := range lines {
		f := plain
		if l.Bold {
			f = bold
		}
		if i > 0 {
			y += gap * size
		}
		broken, err := f.wrap(l.Text, most)
		if err != nil {
			return nil, 0, err
		}
		for _, text := range broken {
			set = append(set, setLine{text, f, y + ascent*size})
			y += leading * size
		}
	}
	return set, y + margin, nil
}

// paint writes the outlines of all lines.
func paint(set []setLine, size, height float64) ([]byte, error) {
	var b bytes.Buffer
	b.WriteString("0 g\n")
	outlines := map[string][]byte{}
	var buf truetype.GlyphBuf
	for _, l := range set {
		// In a line, a unit is a thousandth of the size.
		fmt.Fprintf(&b, "q %.5f 0 0 %.5f %.2f %.2f cm\n", size/unit, size/unit, margin, height-l.down)
		x := 0
		for _, r := range l.text {
			key := l.face.name + string(r)
			if outlines[key] == nil {
				o, err := l.face.outline(&buf, r)
				if err != nil {
					return nil, err
				}
				outlines[key] = o
			}
			w, err := l.face.advance(r)
			if err != nil {
				return nil, err
			}
			if len(outlines[key]) > 0 {
				fmt.Fprintf(&b, "q 1 0 0 1 %d 0 cm\n%sf Q\n", x, outlines[key])
			}
			x += w
		}
		b.WriteString("Q\n")
	}
	return b.Bytes(), nil
}

// outline is the path of a glyph in thousandths of an em. It is never nil.
func (f face) outline(buf *truetype.GlyphBuf, r rune) ([]byte, error) {
	if err := buf.Load(f.font, fixed.Int26_6(unit), f.font.Index(r), 0); err != nil {
		return nil, err
	}
	out := []byte{}
	start := 0
	for _, end := range buf.Ends {
		out = contour(out, buf.Points[start:end])
		start = end
	}
	return out, nil
}

// point is in thousandths of an em.
type point struct{ x, y float64 }

func middle(a, b point) point { return point{(a.x + b.x) / 2, (a.y + b.y) / 2} }

// contour writes a closed contour of TrueType: quadratic curves whose points on
// the curve may be left out where they lie midway between two control points.
func contour(out []byte, list []truetype.Point) []byte {
	if len(list) == 0 {
		return out
	}
	at := func(i int) (point, bool) {
		p := list[i%len(list)]
		return point{float64(p.X), float64(p.Y)}, p.Flags&1 != 0
	}
	first, on := at(0)
	from := 1
	if !on { // begin at the last point if that is on the curve, else midway to it
		last, lastOn := at(len(list) - 1)
		from = 0
		if first = middle(first, last); lastOn {
			first = last
		}
	}
	out = fmt.Appendf(out, "%.0f %.0f m\n", first.x, first.y)
	here := first
	for i := from; i < from+len(list); i++ {
		p, on := at(i)
		if on {
			out = fmt.Appendf(out, "%.0f %.0f l\n", p.x, p.y)
			here = p
			continue
		}
		next, nextOn := at(i + 1)
		if i+1 >= from+len(list) {
			next, nextOn = first, true
		}
		if !nextOn {
			next = middle(p, next)
		} else {
			i++
		}
		out = curve(out, here, p, next)
		here = next
	}
	return append(out, "h\n"...)
}

// curve writes a quadratic curve as the cubic that it is.
func curve(out []byte, a, control, b point) []byte {
	third := func(p point) point {
		return point{p.x + (control.x-p.x)*2/3, p.y + (control.y-p.y)*2/3}
	}
	c1, c2 := third(a), third(b)
	return fmt.Appendf(out, "%.0f %.0f %.0f %.0f %.0f %.0f c\n", c1.x, c1.y, c2.x, c2.y, b.x, b.y)
}

// deflate compresses for /FlateDecode.
func deflate(b []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := zlib.NewWriterLevel(&out, zlib.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(b); err != nil {
		return nil, err
	}
	err = w.Close()
	return out.Bytes(), err
}
