package plot

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/golang/freetype/truetype"
	"github.com/wcharczuk/go-chart/v2"
	"github.com/wcharczuk/go-chart/v2/drawing"
)

// family is the font list of an SVG text: ours, then what is narrow and common.
const family = `'IBM Plex Sans Condensed', 'Arial Narrow', sans-serif`

// SVG draws the figure as an SVG file, with title and desc as its accessible
// name and description. Same figure, same bytes. Fonts are named, not embedded;
// every text carries its length by our metrics, so that another font is squeezed
// to the same room.
func SVG(fig Figure, f *Fonts, title, desc string) ([]byte, error) {
	r := &svgRenderer{fonts: f, dpi: DPI}
	if err := fig.Draw(r, f); err != nil {
		return nil, err
	}
	if r.err != nil {
		return nil, r.err
	}
	w, h := fig.Size()
	var out bytes.Buffer
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" width="%spt" height="%spt" viewBox="0 0 %s %s" role="img" aria-labelledby="title desc">`+"\n",
		decimal(w*Unit), decimal(h*Unit), decimal(w*Unit), decimal(h*Unit))
	fmt.Fprintf(&out, "<title id=\"title\">%s</title>\n<desc id=\"desc\">%s</desc>\n", escaped(title), escaped(desc))
	fmt.Fprintf(&out, "<g font-family=\"%s\" stroke-linejoin=\"round\">\n", family)
	out.Write(r.body.Bytes())
	out.WriteString("</g>\n</svg>\n")
	return out.Bytes(), nil
}

// decimal prints canvas units in points, shortest form.
func decimal(units float64) string {
	return strconv.FormatFloat(math.Round(units)/Unit, 'f', -1, 64)
}

// escaped is s as XML text or attribute; characters that XML cannot hold become
// U+FFFD.
func escaped(s string) string {
	var b strings.Builder
	// The only error is the writer's, and a Builder has none.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}

// svgRenderer implements chart.Renderer. It differs from the library's own in
// what that one gets wrong: widths below a point, escaping, full circles,
// negative arcs, and fills left over from the last shape.
type svgRenderer struct {
	body  bytes.Buffer
	path  strings.Builder
	fonts *Fonts
	dpi   float64
	err   error

	stroke, fill, fontColor drawing.Color
	strokeWidth, fontSize   float64
	dash                    []float64
	font                    *truetype.Font
	rotation                float64
}

var _ chart.Renderer = (*svgRenderer)(nil)

func (s *svgRenderer) ResetStyle() {
	s.stroke, s.fill, s.fontColor = drawing.Color{}, drawing.Color{}, drawing.Color{}
	s.strokeWidth, s.fontSize, s.rotation = 0, 0, 0
	s.dash, s.font = nil, nil
}

func (s *svgRenderer) GetDPI() float64                { return s.dpi }
func (s *svgRenderer) SetDPI(dpi float64)             { s.dpi = dpi }
func (s *svgRenderer) SetClassName(string)            {}
func (s *svgRenderer) SetStrokeColor(c drawing.Color) { s.stroke = c }
func (s *svgRenderer) SetFillColor(c drawing.Color)   { s.fill = c }
func (s *svgRenderer) SetStrokeWidth(w float64)       { s.strokeWidth = w }
func (s *svgRenderer) SetStrokeDashArray(d []float64) { s.dash = d }

func (s *svgRenderer) MoveTo(x, y int) { s.op("M", float64(x), float64(y)) }
func (s *svgRenderer) LineTo(x, y int) { s.op("L", float64(x), float64(y)) }

func (s *svgRenderer) QuadCurveTo(cx, cy, x, y int) {
	s.op("Q", float64(cx), float64(cy), float64(x), float64(y))
}

// ArcTo continues the path, or starts one, along an ellipse; angles in radians,
// clockwise from the x axis. SVG arcs are kept under half a turn.
func (s *svgRenderer) ArcTo(cx, cy int, rx, ry, start, delta float64) {
	at := func(a float64) (x, y float64) {
		return float64(cx) + float64(rx*math.Cos(a)), float64(cy) + float64(ry*math.Sin(a))
	}
	x, y := at(start)
	if s.path.Len() == 0 {
		s.op("M", x, y)
	}
	const quarter = math.Pi / 2
	n := max(int(math.Ceil(math.Abs(delta)/quarter-1e-9)), 1)
	sweep := "1"
	if delta < 0 {
		sweep = "0"
	}
	for i := 1; i <= n; i++ {
		x, y = at(start + delta*float64(i)/float64(n))
		fmt.Fprintf(&s.path, "A%s %s 0 0 %s %s %s", decimal(rx), decimal(ry), sweep, decimal(snap(x)), decimal(snap(y)))
	}
}

// snap drops the last bits of a computed coordinate, so that halves round alike
// on every machine.
func snap(v float64) float64 { return math.Round(v*1e6) / 1e6 }

func (s *svgRenderer) Close() { s.path.WriteByte('Z') }

// Circle adds a circle to the path; like every shape it is painted by Stroke,
// Fill or FillStroke.
func (s *svgRenderer) Circle(radius float64, x, y int) {
	s.op("M", float64(x)+radius, float64(y))
	s.ArcTo(x, y, radius, radius, 0, 2*math.Pi)
	s.Close()
}

func (s *svgRenderer) op(letter string, coords ...float64) {
	s.path.WriteString(letter)
	for i, c := range coords {
		if i > 0 {
			s.path.WriteByte(' ')
		}
		s.path.WriteString(decimal(snap(c)))
	}
}

func (s *svgRenderer) Stroke()     { s.paint(true, false) }
func (s *svgRenderer) Fill()       { s.paint(false, true) }
func (s *svgRenderer) FillStroke() { s.paint(true, true) }

func (s *svgRenderer) paint(stroke, fill bool) {
	fmt.Fprintf(&s.body, `<path d="%s" fill="%s"`, s.path.String(), paintOf(s.fill, fill))
	if stroke {
		fmt.Fprintf(&s.body, ` stroke="%s" stroke-width="%s"`, paintOf(s.stroke, true), decimal(s.strokeWidth))
		if len(s.dash) > 0 {
			d := make([]string, len(s.dash))
			for i, v := range s.dash {
				d[i] = decimal(v)
			}
			fmt.Fprintf(&s.body, ` stroke-dasharray="%s"`, strings.Join(d, " "))
		}
	}
	s.body.WriteString("/>\n")
	s.path.Reset()
}

// paintOf is a color as SVG has it. Half-transparent colors do not occur in our
// figures and are drawn opaque.
func paintOf(c drawing.Color, on bool) string {
	if !on || c.A == 0 {
		return "none"
	}
	return fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B)
}

func (s *svgRenderer) SetFont(f *truetype.Font)        { s.font = f }
func (s *svgRenderer) SetFontColor(c drawing.Color)    { s.fontColor = c }
func (s *svgRenderer) SetFontSize(size float64)        { s.fontSize = size }
func (s *svgRenderer) SetTextRotation(radians float64) { s.rotation = radians }
func (s *svgRenderer) ClearTextRotation()              { s.rotation = 0 }

// points is the font size in points on the canvas.
func (s *svgRenderer) points() float64 { return s.fontSize * s.dpi / DPI }

// Text sets body with its base line starting at x, y.
func (s *svgRenderer) Text(body string, x, y int) {
	weight := ""
	switch s.font {
	case s.fonts.Regular:
	case s.fonts.SemiBold:
		weight = ` font-weight="600"`
	default:
		s.err = fmt.Errorf("text %q: font is not one of the figure fonts", body)
		return
	}
	px, py := decimal(float64(x)), decimal(float64(y))
	turn := ""
	if s.rotation != 0 {
		turn = fmt.Sprintf(` transform="rotate(%s %s %s)"`, decimal(s.rotation*180/math.Pi*Unit), px, py)
	}
	fmt.Fprintf(&s.body, `<text x="%s" y="%s" font-size="%s"%s fill="%s" textLength="%s" lengthAdjust="spacingAndGlyphs"%s>%s</text>`+"\n",
		px, py, decimal(s.points()*Unit), weight, paintOf(s.fontColor, true),
		decimal(width(s.font, s.points(), body)*Unit), turn, escaped(body))
}

// MeasureText is the advance width, and the font size as height; canvas units.
func (s *svgRenderer) MeasureText(body string) chart.Box {
	if s.font == nil {
		return chart.Box{}
	}
	return chart.Box{Right: grid(width(s.font, s.points(), body)), Bottom: grid(s.points())}
}

func (s *svgRenderer) Save(w io.Writer) error {
	_, err := w.Write(s.body.Bytes())
	return err
}
