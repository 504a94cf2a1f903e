package plot

import (
	"fmt"
	"math"
	"strings"

	"github.com/golang/freetype/truetype"
)

// Font sizes in points. Nothing is smaller than small.
const (
	titleSize = 9.0
	valueSize = 7.5
	small     = 7.0
)

// Proportions of the figure fonts, in parts of the font size: capital and digit
// height, and how far letters reach below the base line.
const (
	capHeight = 0.698
	descent   = 0.22
)

// leading is the distance of base lines in parts of the font size.
const leading = 1.18

// style is how a text is set.
type style struct {
	size float64
	bold bool
	tone Tone
}

func (s style) font(f *Fonts) *truetype.Font {
	if s.bold {
		return f.SemiBold
	}
	return f.Regular
}

// box is an area of the figure in points; x1 and y1 are the far sides.
type box struct{ x0, y0, x1, y1 float64 }

func boxAt(center point, w, h float64) box {
	return box{center.x - w/2, center.y - h/2, center.x + w/2, center.y + h/2}
}

func (b box) overlaps(o box) bool {
	return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1
}

func (b box) hitsAny(others []box) bool {
	for _, o := range others {
		if b.overlaps(o) {
			return true
		}
	}
	return false
}

func (b box) grow(d float64) box { return box{b.x0 - d, b.y0 - d, b.x1 + d, b.y1 + d} }

func (b box) inside(o box) bool {
	return b.x0 >= o.x0 && b.y0 >= o.y0 && b.x1 <= o.x1 && b.y1 <= o.y1
}

func (b box) center() point { return point{(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2} }

// reach is the greatest distance of a corner from o.
func (b box) reach(o point) float64 {
	dx := max(math.Abs(b.x0-o.x), math.Abs(b.x1-o.x))
	dy := max(math.Abs(b.y0-o.y), math.Abs(b.y1-o.y))
	return math.Hypot(dx, dy)
}

// edge is where the line from the middle of b to p leaves b.
func (b box) edge(p point) point {
	m := b.center()
	dx, dy := p.x-m.x, p.y-m.y
	t := 1.0
	if dx != 0 {
		t = min(t, (b.x1-b.x0)/2/math.Abs(dx))
	}
	if dy != 0 {
		t = min(t, (b.y1-b.y0)/2/math.Abs(dy))
	}
	return point{m.x + t*dx, m.y + t*dy}
}

// measure is the width of s in points.
func (c *canvas) measure(s string, st style) float64 {
	return width(st.font(c.f), st.size, s)
}

// text sets s with its base line starting at p. Blank text draws nothing.
func (c *canvas) text(s string, p point, st style) {
	if s == "" || c.err != nil {
		return
	}
	font := st.font(c.f)
	if r, bad := missing(font, s); bad {
		c.err = fmt.Errorf("figure text %q, character %U: %w", s, r, ErrGlyph)
		return
	}
	c.r.ResetStyle()
	c.r.SetFont(font)
	c.r.SetFontSize(st.size)
	c.r.SetFontColor(st.tone.Color())
	c.r.Text(s, grid(p.x), grid(p.y))
}

// centered sets s with the middle of its capitals at p.
func (c *canvas) centered(s string, p point, st style) {
	c.text(s, point{p.x - c.measure(s, st)/2, p.y + st.size*capHeight/2}, st)
}

// block is lines of one style, set centered under each other.
type block struct {
	lines []string
	style style
	w, h  float64
}

func (c *canvas) block(lines []string, st style) block {
	b := block{lines: lines, style: st}
	for _, l := range lines {
		b.w = max(b.w, c.measure(l, st))
	}
	b.h = st.size*(capHeight+descent) + float64(len(lines)-1)*st.size*leading
	return b
}

// box is the area of the block with its middle at m.
func (b block) box(m point) box { return boxAt(m, b.w, b.h) }

// draw sets the block with its middle at m, each line centered; with halo on a
// white ground, so that lines beneath do not cross the letters.
func (c *canvas) drawBlock(b block, m point, halo bool) {
	area := b.box(m)
	if halo {
		white := White
		c.rect(area.grow(1), nil, &white)
	}
	y := area.y0 + b.style.size*capHeight
	for _, l := range b.lines {
		c.text(l, point{m.x - c.measure(l, b.style)/2, y}, b.style)
		y += b.style.size * leading
	}
}

// words are the pieces of s that stay on one line: a number keeps the word after
// it, its unit.
func words(s string) []string {
	var out []string
	for _, w := range strings.Fields(clip(s)) {
		n := len(out) - 1
		if n >= 0 && out[n] != "" && strings.ContainsRune("0123456789", rune(out[n][len(out[n])-1])) {
			out[n] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// breaks are the ways to set s on 1 to n lines, each as even as words allow.
func (c *canvas) breaks(s string, n int, st style) []block {
	words := words(s)
	var out []block
	for k := 1; k <= n && k <= len(words); k++ {
		out = append(out, c.block(c.even(words, k, st), st))
	}
	return out
}

// setWithin is s on as few lines as go into w, and no more than n; cut where even
// those do not. It tells whether there is anything to set.
func (c *canvas) setWithin(s string, w float64, n int, st style) (block, bool) {
	ways := c.breaks(s, n, st)
	if len(ways) == 0 {
		return block{}, false
	}
	for _, b := range ways {
		if b.w <= w {
			return b, true
		}
	}
	b := ways[len(ways)-1]
	for i, l := range b.lines {
		b.lines[i] = c.fit(l, w, st)
	}
	b.w = min(b.w, w)
	return b, true
}

// maxText is the most characters of one text that are looked at; no figure has
// room for more, and breaking lines takes time with the square of it.
const maxText = 240

// evenWords is the most words that are broken evenly; more are filled line by
// line.
const evenWords = 16

// clip is s without what lies beyond maxText.
func clip(s string) string {
	n := 0
	for i := range s {
		if n == maxText {
			return s[:i] + "…"
		}
		n++
	}
	return s
}

// fit is s, or as much of it as goes into w with an ellipsis behind.
func (c *canvas) fit(s string, w float64, st style) string {
	s = clip(s)
	if c.measure(s, st) <= w {
		return s
	}
	runes := []rune(s)
	for n := len(runes) - 1; n > 0; n-- {
		if cut := string(runes[:n]) + "…"; c.measure(cut, st) <= w {
			return cut
		}
	}
	return "…"
}

// wrap sets s on lines no wider than w where words allow.
func (c *canvas) wrap(s string, w float64, st style) block {
	var lines []string
	for _, word := range words(s) {
		if n := len(lines) - 1; n >= 0 && c.measure(lines[n]+" "+word, st) <= w {
			lines[n] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	return c.block(lines, st)
}

// even breaks words into k lines: the narrowest width, of the widths that some
// run of words has, at which filling line by line needs no more than k.
func (c *canvas) even(words []string, k int, st style) []string {
	if len(words) > evenWords {
		all := strings.Join(words, " ")
		return c.wrap(all, c.measure(all, st)/float64(k), st).lines
	}
	best := []string{strings.Join(words, " ")}
	bestW := c.measure(best[0], st)
	for i := range words {
		for j := i + 1; j <= len(words); j++ {
			w := c.measure(strings.Join(words[i:j], " "), st)
			if w >= bestW {
				continue
			}
			if b := c.wrap(strings.Join(words, " "), w, st); len(b.lines) <= k && b.w < bestW {
				best, bestW = b.lines, b.w
			}
		}
	}
	return best
}
