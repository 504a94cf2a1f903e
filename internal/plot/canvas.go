package plot

import (
	"fmt"
	"math"

	"github.com/wcharczuk/go-chart/v2"
)

// point is a place on the figure in points, y down.
type point struct{ x, y float64 }

// polar is the place at a bearing (degrees clockwise from the top) and a distance
// from c: the one spot where the frame of the figures meets the paper.
func (c point) polar(deg, r float64) point {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return point{c.x + float64(r*sin), c.y - float64(r*cos)}
}

// pen is how a line is drawn; width and dash in points.
type pen struct {
	tone  Tone
	width float64
	dash  []float64
}

// canvas is the set of shapes that figures are made of, over any renderer. It
// sets every style from scratch for each shape: renderers keep leftovers. The
// first error sticks and stops the drawing.
type canvas struct {
	r    chart.Renderer
	f    *Fonts
	w, h float64
	// scale is the size of marks, 1 or less on a small figure.
	scale float64
	err   error
}

// newCanvas checks the size and the fonts and prepares the renderer.
func newCanvas(r chart.Renderer, f *Fonts, w, h float64) (*canvas, error) {
	if f == nil || f.Regular == nil || f.SemiBold == nil {
		return nil, fmt.Errorf("figure fonts are not loaded")
	}
	if err := finite("size of figure", w, h); err != nil {
		return nil, err
	}
	if min(w, h) < minSide || max(w, h) > maxSide {
		return nil, fmt.Errorf("figure of %.0f by %.0f points, each side must be %.0f to %.0f: %w", w, h, minSide, maxSide, ErrNoRoom)
	}
	r.SetDPI(DPI)
	return &canvas{r: r, f: f, w: w, h: h, scale: 1}, nil
}

// grid is a coordinate in whole canvas units. It rounds twice, so that a value
// that is a half but for its last bits (a cosine of 60°) goes the same way on
// machines that fuse multiply and add and on those that do not.
func grid(v float64) int {
	const fine = 1e6
	return int(math.Round(math.Round(v*Unit*fine) / fine))
}

// ready resets the style and sets the pen and the fill; either may be nil.
func (c *canvas) ready(p *pen, fill *Tone) {
	c.r.ResetStyle()
	if p != nil {
		c.r.SetStrokeColor(p.tone.Color())
		c.r.SetStrokeWidth(p.width * Unit)
		if len(p.dash) > 0 {
			dash := make([]float64, len(p.dash))
			for i, d := range p.dash {
				dash[i] = d * Unit
			}
			c.r.SetStrokeDashArray(dash)
		}
	}
	if fill != nil {
		c.r.SetFillColor(fill.Color())
	}
}

// paint ends a path.
func (c *canvas) paint(p *pen, fill *Tone) {
	switch {
	case p != nil && fill != nil:
		c.r.FillStroke()
	case fill != nil:
		c.r.Fill()
	default:
		c.r.Stroke()
	}
}

func (c *canvas) move(p point) { c.r.MoveTo(grid(p.x), grid(p.y)) }
func (c *canvas) to(p point)   { c.r.LineTo(grid(p.x), grid(p.y)) }

// around tells a renderer that can make use of it where the middle of what
// follows is.
func (c *canvas) around(o point) {
	if r, ok := c.r.(interface{ Around(x, y int) }); ok {
		r.Around(grid(o.x), grid(o.y))
	}
}

// line is one straight stroke.
func (c *canvas) line(a, b point, p pen) {
	c.ready(&p, nil)
	c.move(a)
	c.to(b)
	c.r.Stroke()
}

// polygon is a closed shape of straight sides.
func (c *canvas) polygon(pts []point, p *pen, fill *Tone) {
	c.ready(p, fill)
	c.move(pts[0])
	for _, q := range pts[1:] {
		c.to(q)
	}
	c.r.Close()
	c.paint(p, fill)
}

// rect is a box, drawn.
func (c *canvas) rect(b box, p *pen, fill *Tone) {
	c.polygon([]point{{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}}, p, fill)
}

// circle adds a full circle to the path, clockwise or not, as two half turns:
// some renderers draw nothing when an arc ends where it began.
func (c *canvas) circle(o point, radius float64, clockwise bool) {
	half := math.Pi
	if !clockwise {
		half = -half
	}
	x, y, r := grid(o.x), grid(o.y), float64(grid(radius))
	c.r.MoveTo(x+grid(radius), y)
	c.r.ArcTo(x, y, r, r, 0, half)
	c.r.ArcTo(x, y, r, r, half, half)
	c.r.Close()
}

// ring is a full circle.
func (c *canvas) ring(o point, radius float64, p *pen, fill *Tone) {
	c.ready(p, fill)
	c.circle(o, radius, true)
	c.paint(p, fill)
}

// annulus fills between two radii: outer circle, inner one the other way round,
// so that it is a ring by either winding rule.
func (c *canvas) annulus(o point, inner, outer float64, fill Tone) {
	c.ready(nil, &fill)
	c.circle(o, outer, true)
	if inner > 0 {
		c.circle(o, inner, false)
	}
	c.r.Fill()
}

// arc strokes part of a circle, clockwise by turn degrees from a bearing.
func (c *canvas) arc(o point, radius, from, turn float64, p pen) {
	c.ready(&p, nil)
	c.move(o.polar(from, radius))
	r := float64(grid(radius))
	// Renderers count angles clockwise from the x axis, bearings from the top.
	c.r.ArcTo(grid(o.x), grid(o.y), r, r, (from-90)*math.Pi/180, turn*math.Pi/180)
	c.r.Stroke()
}

// arrow is a stroke with a filled head at b, headLen long; shorter than its own
// head, it is the head alone.
func (c *canvas) arrow(a, b point, p pen, headLen float64) {
	dx, dy := b.x-a.x, b.y-a.y
	n := math.Hypot(dx, dy)
	if n == 0 {
		return
	}
	ux, uy := dx/n, dy/n
	foot := point{b.x - headLen*ux, b.y - headLen*uy}
	if n > headLen {
		c.line(a, point{foot.x + ux*headLen/4, foot.y + uy*headLen/4}, p)
	}
	half := headLen * 0.42
	c.polygon([]point{
		b,
		{foot.x - half*uy, foot.y + half*ux},
		{foot.x + half*uy, foot.y - half*ux},
	}, nil, &p.tone)
}
