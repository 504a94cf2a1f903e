package page

import (
	"fmt"
	"io"
	"math"

	"asleft/internal/plot"

	"github.com/golang/freetype/truetype"
	"github.com/wcharczuk/go-chart/v2"
	"github.com/wcharczuk/go-chart/v2/drawing"
)

// renderer draws a figure on the page: paths as page content, text as text in
// the embedded faces. The canvas has plot.Unit units to the point; x, y is the
// upper left corner of the figure from that of the page. It is drawn around an
// origin of its own, in whole tenths of a point, which is finer than the eye sees
// on paper: figures of a kind are then much the same bytes, and few. All lengths
// here are in tenths.
type renderer struct {
	w      *writer
	x, y   float64
	ox, oy float64 // origin, from the lower left corner of the page
	scale  float64 // tenths per canvas unit
	dpi    float64

	stroke, fill, text drawing.Color
	width              float64
	dash               []float64
	font               *truetype.Font
	size               float64
	turn               float64 // of text, clockwise
	path               path
	rings              rings
	began              bool
	goes               bool    // the path has more than its beginning
	atX, atY           float64 // where the path stands, from the origin
	err                error
}

// tenths is how many there are in a point.
const tenths = 10

var _ chart.Renderer = (*renderer)(nil)

// draw puts a figure on the page.
func (w *writer) draw(k *ink) error {
	f := k.fig
	if f.photo != nil {
		return w.photograph(k)
	}
	r := &renderer{w: w, x: k.x.points() * tenths, y: k.y.points() * tenths, scale: float64(f.permil) / 1000 / plot.Unit * tenths, dpi: plot.DPI}
	r.path.whole = true
	r.ResetStyle()
	r.ox, r.oy = r.px(0), r.py(0)
	var p path
	p.op("cm", 1.0/tenths, 0, 0, 1.0/tenths, r.ox/tenths, r.oy/tenths)
	w.raw("q\n" + string(p.buf[:len(p.buf)-1]))
	err := f.picture.Figure.Draw(r, w.metrics.plot)
	w.raw("Q")
	w.unset() // the page goes back to what was before, the library does not
	if err == nil {
		err = r.err
	}
	if err != nil {
		return fmt.Errorf("section %s: figure %q: %w", f.section, f.picture.Alt, err)
	}
	return nil
}

// Around moves the origin to a place of the canvas: what a figure draws around
// it is then the same numbers on all sides.
func (r *renderer) Around(x, y int) {
	px, py := r.px(float64(x)), r.py(float64(y))
	var p path
	p.op("cm", 1, 0, 0, 1, px, py)
	r.w.raw(string(p.buf[:len(p.buf)-1]))
	r.ox, r.oy = r.ox+px, r.oy+py
}

// px and py are a place of the canvas from the origin.
func (r *renderer) px(x float64) float64 { return whole(r.x + float64(x*r.scale) - r.ox) }
func (r *renderer) py(y float64) float64 {
	return whole(r.w.height*tenths - r.y - float64(y*r.scale) - r.oy)
}

func (r *renderer) ResetStyle() {
	r.stroke, r.fill, r.text = drawing.Color{}, drawing.Color{}, drawing.Color{}
	r.width, r.dash, r.turn = 0, nil, 0
}

func (r *renderer) GetDPI() float64                { return r.dpi }
func (r *renderer) SetDPI(dpi float64)             { r.dpi = dpi }
func (r *renderer) SetClassName(string)            {}
func (r *renderer) SetStrokeColor(c drawing.Color) { r.stroke = c }
func (r *renderer) SetFillColor(c drawing.Color)   { r.fill = c }
func (r *renderer) SetStrokeWidth(w float64)       { r.width = w }
func (r *renderer) SetStrokeDashArray(d []float64) { r.dash = d }

func (r *renderer) MoveTo(x, y int) {
	r.atX, r.atY = r.px(float64(x)), r.py(float64(y))
	r.path.move(r.atX, r.atY)
	r.began = true
}

func (r *renderer) LineTo(x, y int) {
	r.rings.mixed = true
	r.lineTo(r.px(float64(x)), r.py(float64(y)))
}

// samePlace is how near two points are of which a line to the other is not worth
// drawing.
const samePlace = 0.95

// lineTo goes on to a point of the page, or begins there.
func (r *renderer) lineTo(x, y float64) {
	switch {
	case !r.began:
		r.path.move(x, y)
	case math.Abs(x-r.atX) >= samePlace || math.Abs(y-r.atY) >= samePlace:
		r.rings.mixed, r.goes = true, true
		r.path.line(x, y)
	}
	r.atX, r.atY, r.began = x, y, true
}

// QuadCurveTo is the cubic curve of the same shape: its handles stand two
// thirds of the way to the control point.
func (r *renderer) QuadCurveTo(cx, cy, x, y int) {
	r.rings.mixed, r.goes = true, true
	if !r.began {
		r.MoveTo(cx, cy)
	}
	qx, qy := r.px(float64(cx)), r.py(float64(cy))
	ex, ey := r.px(float64(x)), r.py(float64(y))
	toward := func(from, q float64) float64 { return from + float64(2*(q-from)/3) }
	r.path.op("c", toward(r.atX, qx), toward(r.atY, qy), toward(ex, qx), toward(ey, qy), ex, ey)
	r.atX, r.atY = ex, ey
}

// ArcTo counts angles clockwise from the x axis, as y runs down on the canvas.
func (r *renderer) ArcTo(cx, cy int, rx, ry, start, delta float64) {
	x, y := r.px(float64(cx)), r.py(float64(cy))
	rx, ry = rx*r.scale, ry*r.scale
	at := func(angle float64) (float64, float64) {
		sin, cos := math.Sincos(angle)
		return x + float64(rx*cos), y + float64(ry*sin)
	}
	r.lineTo(at(-start))
	r.path.arc(x, y, rx, ry, -start, -delta)
	r.rings.arc(x, y, rx, ry, -start, -delta)
	r.goes = true
	r.atX, r.atY = at(-start - delta)
}

func (r *renderer) Close() { r.path.op("h") }

func (r *renderer) Circle(radius float64, x, y int) {
	px, py := r.px(float64(x)), r.py(float64(y))
	r.path.circle(px, py, radius*r.scale, false)
	r.rings.arc(px, py, radius*r.scale, radius*r.scale, 0, 2*math.Pi)
	r.began, r.goes = true, true
}

func (r *renderer) Stroke()     { r.paint(false, true) }
func (r *renderer) Fill()       { r.paint(true, false) }
func (r *renderer) FillStroke() { r.paint(true, true) }

// paint writes the path as one block with all its state. A color that is not
// there, or a line without width or length, paints nothing.
func (r *renderer) paint(fill, stroke bool) {
	fill = fill && r.fill.A > 0
	stroke = stroke && r.stroke.A > 0 && r.width > 0
	if r.began && (fill || stroke && r.goes) {
		p := path{buf: append(r.w.buf[:0], "q\n"...)}
		if radius, one := r.rings.one(); one && !stroke {
			p.dot(opaque(r.fill), r.rings.x, r.rings.y, radius)
		} else {
			if r.rings.whole() && (r.rings.x != 0 || r.rings.y != 0) {
				p.op("cm", 1, 0, 0, 1, r.rings.x, r.rings.y)
			}
			r.block(&p, fill, stroke)
		}
		r.w.buf = append(p.buf, 'Q')
		r.w.raw(string(r.w.buf))
	}
	r.path.buf = r.path.buf[:0]
	r.rings = rings{list: r.rings.list[:0]}
	r.began, r.goes = false, false
}

// block writes settings, path and operator.
func (r *renderer) block(p *path, fill, stroke bool) {
	if fill {
		p.rgb(opaque(r.fill), "rg")
	}
	if stroke {
		dash := make([]float64, len(r.dash))
		for i, d := range r.dash {
			dash[i] = d * r.scale
		}
		p.pen(opaque(r.stroke), r.width*r.scale, dash...)
	}
	if r.rings.whole() {
		p.whole = true
		r.rings.draw(p)
		p.whole = false
	} else {
		p.buf = append(p.buf, r.path.buf...)
	}
	p.op(map[[2]bool]string{{true, false}: "f", {false, true}: "S", {true, true}: "B"}[[2]bool{fill, stroke}])
}

// opaque is a color flattened on white: no transparency reaches the page.
func opaque(c drawing.Color) color {
	mix := func(v uint8) uint32 { return (uint32(v)*uint32(c.A) + 255*(255-uint32(c.A)) + 127) / 255 }
	return color(mix(c.R)<<16 | mix(c.G)<<8 | mix(c.B))
}

func (r *renderer) SetFont(f *truetype.Font)     { r.font = f }
func (r *renderer) SetFontColor(c drawing.Color) { r.text = c }
func (r *renderer) SetFontSize(size float64)     { r.size = size }
func (r *renderer) SetTextRotation(rad float64)  { r.turn = rad }
func (r *renderer) ClearTextRotation()           { r.turn = 0 }

// Text is real text in the face that the font stands for.
func (r *renderer) Text(body string, x, y int) {
	f, ok := r.face()
	if !ok {
		r.fail(fmt.Errorf("text %q in a font that is not embedded", body))
		return
	}
	for i, c := range body {
		if why := unprintable(c, body[i:]); why != "" {
			r.fail(fmt.Errorf("text %+q, character %U: %s", body, c, why))
			return
		}
		if got, _, ok := r.w.metrics.glyph(f, c); !ok || got != f {
			r.fail(fmt.Errorf("text %q, character %U: %w", body, c, plot.ErrGlyph))
			return
		}
	}
	if body == "" || r.text.A == 0 {
		return
	}
	r.w.fill(opaque(r.text))
	r.w.font(f, pt(r.size*r.dpi/72*r.scale))
	r.w.text(body, r.px(float64(x)), r.py(float64(y)), -r.turn)
}

func (r *renderer) face() (face, bool) {
	switch r.font {
	case r.w.metrics.plot.Regular:
		return condensed, true
	case r.w.metrics.plot.SemiBold:
		return condensedBold, true
	}
	return 0, false
}

// MeasureText is the advance of a text; its height is the type size.
func (r *renderer) MeasureText(body string) chart.Box {
	f, _ := r.face()
	units := 0
	for _, c := range body {
		_, u, _ := r.w.metrics.glyph(f, c)
		units += u
	}
	size := r.size * r.dpi / 72
	return chart.Box{Right: int(math.Round(float64(units) * size / em)), Bottom: int(math.Round(size))}
}

// Save has nothing to save: the figure is on the page.
func (r *renderer) Save(io.Writer) error { return nil }

func (r *renderer) fail(err error) {
	if r.err == nil {
		r.err = err
	}
}
