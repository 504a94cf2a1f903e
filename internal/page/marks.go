package page

import (
	"math"

	"asleft/internal/plot"
)

// name is for dumps.
func (m Mark) name() string {
	names := [...]string{"none", "within", "near", "outside", "recheck", "missing", "no limit", "not asked", "by others", "box", "ready", "not ready", "accepted", "waits"}
	if int(m) >= len(names) {
		return "unknown"
	}
	return names[m]
}

// markColor: what is wrong stands out, what is not asked steps back; the shape
// alone tells them apart.
func markColor(m Mark) color {
	switch m {
	case MarkOutside, MarkNotReady:
		return plot.Alarm
	case MarkWithin, MarkNear, MarkReady:
		return plot.Accent
	case MarkNotAsked, MarkByOthers:
		return plot.Muted
	}
	return plot.Ink
}

// marker draws marks around the origin at a type size; y up.
type marker struct {
	path
	s float64
	c color
}

// drawMark appends the content that draws a mark around the origin.
func drawMark(buf []byte, m Mark, size float64, c color) []byte {
	k := &marker{path: path{buf: buf}, s: size, c: c}
	k.draw(m)
	return k.buf
}

// markMiddle is where the middle of a mark is from its left end on the base line,
// so that it is as high as a capital and a little more.
func markMiddle(size float64) (x, y float64) { return float64(size * 0.44), float64(size * 0.349) }

func (k *marker) draw(m Mark) {
	switch m {
	case MarkWithin:
		k.disc(0, 0, 0.41)
		k.check()
	case MarkNear:
		k.ring()
		k.halfDisc()
	case MarkOutside:
		k.triangle()
		k.stroke(0.095, 0, -0.07, 0, 0.17)
		k.disc(0, -0.19, 0.055)
	case MarkAccepted:
		k.triangle()
		k.tick()
	case MarkRecheck:
		k.turning()
	case MarkMissing:
		k.square(0.07, 0.16, 0.13)
	case MarkNoLimit:
		k.square(0.075)
		k.question()
	case MarkNotAsked:
		k.stroke(0.1, -0.24, 0, 0.24, 0)
	case MarkByOthers:
		k.disc(-0.22, 0, 0.17)
		k.disc(0.22, 0, 0.17)
	case MarkBox:
		k.square(0.075)
	case MarkReady:
		k.rgb(k.c, "rg")
		k.rect(-0.38*k.s, -0.38*k.s, 0.76*k.s, 0.76*k.s)
		k.op("f")
		k.check()
	case MarkWaits:
		k.square(0.085)
		k.pen(k.c, 0.1*k.s)
		k.move(-0.2*k.s, -0.01*k.s)
		k.line(-0.06*k.s, -0.16*k.s)
		k.line(0.2*k.s, 0.17*k.s)
		k.op("S")
	case MarkNotReady:
		k.square(0.085)
		k.stroke(0.17, -0.38, 0, 0.38, 0)
	}
}

// disc is a filled circle; place and radius in parts of the size.
func (k *marker) disc(dx, dy, r float64) {
	k.dot(k.c, dx*k.s, dy*k.s, r*k.s)
}

// check is cut out of a filled shape: it shows white paper.
func (k *marker) check() {
	k.pen(plot.White, 0.115*k.s)
	k.move(-0.21*k.s, -0.01*k.s)
	k.line(-0.06*k.s, -0.17*k.s)
	k.line(0.21*k.s, 0.18*k.s)
	k.op("S")
}

func (k *marker) ring() {
	k.pen(k.c, 0.075*k.s)
	k.circle(0, 0, 0.37*k.s, false)
	k.op("S")
}

// halfDisc fills the lower half.
func (k *marker) halfDisc() {
	k.rgb(k.c, "rg")
	k.move(-0.37*k.s, 0)
	k.arc(0, 0, 0.37*k.s, 0.37*k.s, math.Pi, math.Pi)
	k.op("f")
}

// triangle is open and heavy.
func (k *marker) triangle() {
	k.pen(k.c, 0.095*k.s)
	k.op("j", 1)
	k.polygon(-0.4*k.s, -0.33*k.s, 0.4*k.s, -0.33*k.s, 0, 0.39*k.s)
	k.op("S")
}

// tick is a check inside an open shape.
func (k *marker) tick() {
	k.pen(k.c, 0.085*k.s)
	k.move(-0.15*k.s, -0.1*k.s)
	k.line(-0.04*k.s, -0.21*k.s)
	k.line(0.14*k.s, 0.05*k.s)
	k.op("S")
}

// turning is most of a circle that ends in an arrow.
func (k *marker) turning() {
	const r, from, turn = 0.33, math.Pi * 0.36, math.Pi * 1.62
	k.pen(k.c, 0.09*k.s)
	k.move(r*k.s*math.Cos(from), r*k.s*math.Sin(from))
	k.arc(0, 0, r*k.s, r*k.s, from, turn)
	k.op("S")
	end := from + turn
	sin, cos := math.Sincos(end)
	ex, ey := r*k.s*cos, r*k.s*sin
	h := 0.21 * k.s
	k.rgb(k.c, "rg")
	// Along the circle is (-sin, cos), across it (cos, sin).
	k.polygon(
		ex-sin*h*1.25, ey+cos*h*1.25,
		ex+cos*h, ey+sin*h,
		ex-cos*h, ey-sin*h)
	k.op("f")
}

// square is open; its stroke, and its dash if any, in parts of the size.
func (k *marker) square(w float64, dash ...float64) {
	for i := range dash {
		dash[i] *= k.s
	}
	k.pen(k.c, w*k.s, dash...)
	k.rect(-0.35*k.s, -0.35*k.s, 0.7*k.s, 0.7*k.s)
	k.op("S")
}

func (k *marker) question() {
	k.pen(k.c, 0.085*k.s)
	k.move(-0.13*k.s, 0.09*k.s)
	k.arc(0, 0.09*k.s, 0.13*k.s, 0.13*k.s, math.Pi, -1.25*math.Pi)
	k.line(0, -0.08*k.s)
	k.op("S")
	k.disc(0, -0.19, 0.055)
}

// stroke is a line; its width and ends in parts of the size.
func (k *marker) stroke(w, x0, y0, x1, y1 float64) {
	k.pen(k.c, w*k.s)
	k.move(x0*k.s, y0*k.s)
	k.line(x1*k.s, y1*k.s)
	k.op("S")
}
