package page

import (
	"math"
	"strconv"
)

// path builds a piece of page content: paths and paint of ISO 32000-1, 8.5, in
// points from the lower left corner. Colors are device RGB throughout.
type path struct {
	buf   []byte
	whole bool // places are whole numbers
}

// num appends a number with two decimals, or whole, and a space. It rounds twice,
// so that a value that is a half but for its last bits prints alike on machines
// that fuse multiply and add and on those that do not.
func (p *path) num(v float64) *path {
	if p.whole {
		v = whole(v)
	}
	n := int64(math.Round(math.Round(v*1e8) / 1e6))
	if n < 0 {
		p.buf = append(p.buf, '-')
		n = -n
	}
	p.buf = strconv.AppendInt(p.buf, n/100, 10)
	if n %= 100; n != 0 {
		p.buf = append(p.buf, '.', byte('0'+n/10))
		if n %= 10; n != 0 {
			p.buf = append(p.buf, byte('0'+n))
		}
	}
	p.buf = append(p.buf, ' ')
	return p
}

// whole is the whole number next to v; see num.
func whole(v float64) float64 { return math.Round(math.Round(v*1e6) / 1e6) }

// tenth is a length in whole tenths of a point, the grid that is drawn on: finer than
// the eye sees on paper.
func tenth(v float64) float64 { return whole(v*10) / 10 }

// op appends operands and an operator.
func (p *path) op(op string, operands ...float64) *path {
	for _, v := range operands {
		p.num(v)
	}
	p.buf = append(p.buf, op...)
	p.buf = append(p.buf, '\n')
	return p
}

func (p *path) move(x, y float64)       { p.op("m", x, y) }
func (p *path) line(x, y float64)       { p.op("l", x, y) }
func (p *path) rect(x, y, w, h float64) { p.op("re", x, y, w, h) }

// rgb appends a color by an operator: rg fills, RG strokes.
func (p *path) rgb(c color, op string) *path {
	r, g, b := c.RGB()
	for _, v := range []uint8{r, g, b} {
		// Three decimals tell all 256 steps apart.
		p.buf = strconv.AppendFloat(p.buf, math.Round(float64(v)/255*1000)/1000, 'f', -1, 64)
		p.buf = append(p.buf, ' ')
	}
	p.buf = append(p.buf, op...)
	p.buf = append(p.buf, '\n')
	return p
}

// pen sets all that a stroke depends on.
func (p *path) pen(c color, w float64, dash ...float64) {
	p.rgb(c, "RG")
	p.op("w", w)
	p.op("J", 0)
	p.op("j", 0)
	p.op("M", 10)
	p.buf = append(p.buf, '[')
	for _, d := range dash {
		p.num(d)
	}
	p.buf = append(p.buf, "] 0 d\n"...)
}

// arc goes along an ellipse around x, y from angle a by d (radians, counter-
// clockwise, y up), in pieces of at most a quarter turn: the Bézier curve with
// handles of 4/3·tan(d/4) is then off by 1/3600 of the radius, which for the
// largest circle of a figure is a hundredth of a millimeter. The caller has moved
// to its beginning.
func (p *path) arc(x, y, rx, ry, a, d float64) {
	n := max(int(math.Ceil(math.Abs(d)/(math.Pi/2)-1e-9)), 1)
	step := d / float64(n)
	k := 4.0 / 3 * math.Tan(step/4)
	for i := range n {
		s0, c0 := math.Sincos(a + float64(float64(i)*step))
		s1, c1 := math.Sincos(a + float64(float64(i+1)*step))
		p.op("c",
			x+float64(rx*(c0-float64(k*s0))), y+float64(ry*(s0+float64(k*c0))),
			x+float64(rx*(c1+float64(k*s1))), y+float64(ry*(s1-float64(k*c1))),
			x+float64(rx*c1), y+float64(ry*s1))
	}
}

// dot is a filled circle in the fewest bytes: a line of hardly any length with
// round ends (ISO 32000-1, 8.4.3.3). One of no length at all is left out by some
// programs that show pages.
func (p *path) dot(c color, x, y, r float64) {
	length := 0.01
	if r >= 10 {
		length = 0.1
	}
	p.pen(c, 2*r)
	p.op("J", 1)
	p.move(x, y)
	p.line(x, y+length)
	p.op("S")
}

// circle is a full circle, counter-clockwise; the other way round it cuts a
// hole into one around it.
func (p *path) circle(x, y, r float64, hole bool) {
	turn := 2 * math.Pi
	if hole {
		turn = -turn
	}
	p.move(x+r, y)
	p.arc(x, y, r, r, 0, turn)
	p.op("h")
}

// polygon is a closed path through x, y pairs.
func (p *path) polygon(xy ...float64) {
	p.move(xy[0], xy[1])
	for i := 2; i+1 < len(xy); i += 2 {
		p.line(xy[i], xy[i+1])
	}
	p.op("h")
}
