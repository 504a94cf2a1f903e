package plot

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/golang/freetype/truetype"
	"github.com/wcharczuk/go-chart/v2"
	"github.com/wcharczuk/go-chart/v2/drawing"
)

// recorder is a renderer that keeps what it is told: a readable log, the labels
// with their boxes, the full circles, and how far the drawing reaches.
type recorder struct {
	fonts  *Fonts
	log    strings.Builder
	labels []label
	rings  []ringSeen
	reach  box

	path              strings.Builder
	stroke, fill, ink drawing.Color
	width, size, dpi  float64
	dash              []float64
	font              *truetype.Font
	pending           []ringSeen
	at                point
}

type label struct {
	text string
	box  box
	size float64
	bold bool
	ink  drawing.Color
}

type ringSeen struct {
	center       point
	radius       float64
	stroke, fill drawing.Color
}

var _ chart.Renderer = (*recorder)(nil)

func newRecorder(f *Fonts) *recorder {
	return &recorder{fonts: f, reach: box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}}
}

func (r *recorder) include(x, y, pad float64) {
	r.reach.x0, r.reach.y0 = min(r.reach.x0, x-pad), min(r.reach.y0, y-pad)
	r.reach.x1, r.reach.y1 = max(r.reach.x1, x+pad), max(r.reach.y1, y+pad)
}

func (r *recorder) ResetStyle() {
	r.stroke, r.fill, r.ink = drawing.Color{}, drawing.Color{}, drawing.Color{}
	r.width, r.size, r.dash, r.font = 0, 0, nil, nil
}
func (r *recorder) GetDPI() float64                { return r.dpi }
func (r *recorder) SetDPI(dpi float64)             { r.dpi = dpi }
func (r *recorder) SetClassName(string)            {}
func (r *recorder) SetStrokeColor(c drawing.Color) { r.stroke = c }
func (r *recorder) SetFillColor(c drawing.Color)   { r.fill = c }
func (r *recorder) SetStrokeWidth(w float64)       { r.width = w }
func (r *recorder) SetStrokeDashArray(d []float64) { r.dash = d }
func (r *recorder) MoveTo(x, y int)                { r.step("M", x, y) }
func (r *recorder) LineTo(x, y int)                { r.step("L", x, y) }
func (r *recorder) QuadCurveTo(cx, cy, x, y int) {
	fmt.Fprintf(&r.path, " Q %d,%d", cx, cy)
	r.step("", x, y)
}

func (r *recorder) step(op string, x, y int) {
	fmt.Fprintf(&r.path, " %s %d,%d", op, x, y)
	r.at = point{float64(x) / Unit, float64(y) / Unit}
	r.include(r.at.x, r.at.y, r.width/2/Unit)
}

func (r *recorder) ArcTo(cx, cy int, rx, ry, start, delta float64) {
	fmt.Fprintf(&r.path, " A %d,%d r %.0f from %.1f° by %.1f°", cx, cy, rx, start*180/math.Pi, delta*180/math.Pi)
	c := point{float64(cx) / Unit, float64(cy) / Unit}
	for i := range 33 {
		a := start + delta*float64(i)/32
		r.include(c.x+rx/Unit*math.Cos(a), c.y+ry/Unit*math.Sin(a), r.width/2/Unit)
	}
	r.pending = append(r.pending, ringSeen{center: c, radius: rx / Unit})
}

func (r *recorder) Close()      { r.path.WriteString(" Z") }
func (r *recorder) Stroke()     { r.paint("stroke", true, false) }
func (r *recorder) Fill()       { r.paint("fill", false, true) }
func (r *recorder) FillStroke() { r.paint("fill+stroke", true, true) }

func (r *recorder) paint(what string, stroke, fill bool) {
	r.log.WriteString(what)
	if fill {
		fmt.Fprintf(&r.log, " fill=%s", hex(r.fill))
	}
	if stroke {
		fmt.Fprintf(&r.log, " pen=%s/%.0f", hex(r.stroke), r.width)
		if len(r.dash) > 0 {
			fmt.Fprintf(&r.log, " dash=%.0f", r.dash)
		}
	}
	fmt.Fprintf(&r.log, "%s\n", r.path.String())
	r.path.Reset()
	for _, p := range r.pending {
		if stroke {
			p.stroke = r.stroke
		}
		if fill {
			p.fill = r.fill
		}
		r.rings = append(r.rings, p)
	}
	r.pending = nil
}

func hex(c drawing.Color) string { return fmt.Sprintf("%02X%02X%02X", c.R, c.G, c.B) }

func (r *recorder) Circle(float64, int, int) {
	panic("figures do not use Circle: renderers disagree on it")
}
func (r *recorder) SetFont(f *truetype.Font)     { r.font = f }
func (r *recorder) SetFontColor(c drawing.Color) { r.ink = c }
func (r *recorder) SetFontSize(s float64)        { r.size = s }
func (r *recorder) MeasureText(string) chart.Box { panic("figures measure by font metrics alone") }
func (r *recorder) SetTextRotation(float64)      {}
func (r *recorder) ClearTextRotation()           {}
func (r *recorder) Save(io.Writer) error         { return nil }

func (r *recorder) Text(body string, x, y int) {
	px, py := float64(x)/Unit, float64(y)/Unit
	l := label{text: body, size: r.size, bold: r.font == r.fonts.SemiBold, ink: r.ink}
	l.box = box{px, py - capHeight*r.size, px + width(r.font, r.size, body), py}
	r.labels = append(r.labels, l)
	r.include(l.box.x0, l.box.y0, 0)
	r.include(l.box.x1, l.box.y1+descent*r.size, 0)
	bold := ""
	if l.bold {
		bold = " semibold"
	}
	fmt.Fprintf(&r.log, "text %d,%d size=%.1f%s ink=%s %q\n", x, y, r.size, bold, hex(r.ink), body)
}

// find is the label with that text.
func (r *recorder) find(text string) (label, bool) {
	for _, l := range r.labels {
		if l.text == text {
			return l, true
		}
	}
	return label{}, false
}

// marks are the centers of the filled dots of the standing round; two arcs make a
// ring, so every second one.
func (r *recorder) marks() []point {
	var out []point
	for i := 0; i+1 < len(r.rings); i += 2 {
		if q := r.rings[i]; math.Abs(q.radius-dotRadius) < 0.01 && q.fill == Accent.Color() {
			out = append(out, q.center)
		}
	}
	return out
}
