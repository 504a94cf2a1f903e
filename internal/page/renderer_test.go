package page

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"asleft/internal/plot"

	"github.com/golang/freetype/truetype"
	"github.com/wcharczuk/go-chart/v2"
	"github.com/wcharczuk/go-chart/v2/drawing"
)

// figureFunc is a figure of 100 by 50 points.
type figureFunc func(r chart.Renderer, f *plot.Fonts) error

func (f figureFunc) Size() (float64, float64)                       { return 100, 50 }
func (f figureFunc) Draw(r chart.Renderer, fonts *plot.Fonts) error { return f(r, fonts) }

// drawn is the content of a figure whose upper left corner is at 72, 72 of a
// page 500 points high.
func drawn(t *testing.T, permil int64, f figureFunc) (string, error) {
	t.Helper()
	w := newWriter(Paper{"", 400, 500}, metrics(t), time.Unix(0, 0))
	w.page()
	err := w.draw(&ink{x: 72_000, y: 72_000, fig: &figure{picture: Picture{Figure: f, Alt: "alt"}, permil: permil, section: "s"}})
	if err != nil {
		return "", err
	}
	raw, err := w.bytes()
	if err != nil {
		t.Fatal(err)
	}
	c := contents(t, raw)[0]
	if at := bytes.Index(c, []byte("q\n")); at >= 0 {
		c = c[at:]
	}
	return strings.Join(strings.Fields(string(c)), " "), nil
}

func stroked(r chart.Renderer) {
	r.ResetStyle()
	r.SetStrokeColor(drawing.Color{R: 255, A: 255})
	r.SetStrokeWidth(50)
}

func TestRendererPaths(t *testing.T) {
	pen := "1 0 0 RG 5 w 0 J 0 j 10 M [] 0 d"
	for name, c := range map[string]struct {
		draw func(chart.Renderer)
		want string
	}{
		// One canvas unit is a hundredth of a point, y down on the canvas and up
		// on the page: the figure's corner is at 72, 428, the origin; the page has tenths of a
		// point there.
		"line":            {func(r chart.Renderer) { r.MoveTo(0, 0); r.LineTo(1000, 250); r.Stroke() }, pen + " 0 0 m 100 -25 l S"},
		"line from there": {func(r chart.Renderer) { r.LineTo(100, 0); r.LineTo(100, 100); r.Close(); r.Stroke() }, pen + " 10 0 m 10 -10 l h S"},
		"tenths":          {func(r chart.Renderer) { r.MoveTo(104, -106); r.LineTo(996, 254); r.Stroke() }, pen + " 10 11 m 100 -25 l S"},
		"another origin": {func(r chart.Renderer) {
			r.(interface{ Around(x, y int) }).Around(1003, 2000)
			r.MoveTo(1103, 2000)
			r.LineTo(903, 2000)
			r.Stroke()
		}, "1 0 0 1 100 -200 cm q " + pen + " 10 0 m -10 0 l S"},
		// An eighth turn clockwise on the canvas, from the right: it ends lower.
		"arc": {func(r chart.Renderer) { r.ArcTo(0, 0, 1000, 1000, 0, math.Pi/4); r.Stroke() }, pen + " 100 0 m 100 -27 89 -52 71 -71 c S"},
		// Handles two thirds of the way to the control point.
		"quadratic": {func(r chart.Renderer) { r.MoveTo(0, 0); r.QuadCurveTo(300, 0, 300, 300); r.Stroke() }, pen + " 0 0 m 20 0 30 -10 30 -30 c S"},
		"fill":      {func(r chart.Renderer) { r.SetFillColor(drawing.Color{A: 128}); r.LineTo(0, 0); r.Fill() }, "0.498 0.498 0.498 rg 0 0 m f"},
		"both":      {func(r chart.Renderer) { r.SetFillColor(drawing.Color{A: 255}); r.LineTo(0, 0); r.FillStroke() }, "0 0 0 rg " + pen + " 0 0 m B"},
		"dashes": {func(r chart.Renderer) {
			r.SetStrokeDashArray([]float64{300, 150})
			r.LineTo(0, 0)
			r.LineTo(100, 0)
			r.Stroke()
		}, "[30 15 ] 0 d 0 0 m 10 0 l S"},
		// A filled circle is a line without length that has round ends.
		"dot": {func(r chart.Renderer) {
			r.SetFillColor(drawing.Color{A: 255})
			r.MoveTo(690, 500)
			r.ArcTo(500, 500, 190, 190, 0, math.Pi)
			r.ArcTo(500, 500, 190, 190, math.Pi, math.Pi)
			r.Close()
			r.Fill()
		}, "q 0 0 0 RG 38 w 0 J 0 j 10 M [] 0 d 1 J 50 -50 m 50 -49.9 l S"},
	} {
		got, err := drawn(t, 1000, func(r chart.Renderer, _ *plot.Fonts) error { stroked(r); c.draw(r); return nil })
		if err != nil || !strings.HasSuffix(got, c.want+" Q Q") {
			t.Errorf("%s: %q, %v, expected %q", name, got, err, c.want)
		}
	}
}

func TestRendererPaintsNothing(t *testing.T) {
	got, err := drawn(t, 1000, func(r chart.Renderer, _ *plot.Fonts) error {
		r.ResetStyle()
		r.LineTo(0, 0)
		r.FillStroke() // neither color is set
		r.Stroke()     // no path is left
		stroked(r)
		r.MoveTo(0, 0)
		r.LineTo(0, 4) // no length
		r.Stroke()
		return nil
	})
	if err != nil || strings.Contains(got, " m ") {
		t.Errorf("%q, %v, expected nothing", got, err)
	}
}

func TestRendererText(t *testing.T) {
	text := func(turn float64) figureFunc {
		return func(r chart.Renderer, f *plot.Fonts) error {
			r.SetDPI(plot.DPI)
			r.ResetStyle()
			r.SetFont(f.Regular)
			r.SetFontSize(8)
			r.SetFontColor(drawing.Color{A: 255})
			r.SetTextRotation(turn)
			if w := r.MeasureText("0.41 in").Right; w < 2000 || w > 2500 {
				return fmt.Errorf("measured %d", w)
			}
			r.Text("A", 1000, 2000)
			return nil
		}
	}
	got, err := drawn(t, 1000, text(0))
	if err != nil || !strings.Contains(got, " 80.00 Tf ET BT 100.00 -200.00 Td") {
		t.Errorf("%q, %v", got, err)
	}
	// Clockwise on the canvas is clockwise on the page: a quarter turn reads
	// downward. Half the scale halves places and type.
	got, err = drawn(t, 500, text(math.Pi/2))
	if err != nil || !strings.Contains(got, "0.000000 -1.000000 1.000000 0.000000 50 -100 cm") || !strings.Contains(got, " 40.00 Tf") {
		t.Errorf("turned: %q, %v", got, err)
	}
}

// TestTextAfterFigure: what a figure sets does not count behind it.
func TestTextAfterFigure(t *testing.T) {
	w := newWriter(Paper{"", 400, 500}, metrics(t), time.Unix(0, 0))
	w.page()
	red := figureFunc(func(r chart.Renderer, f *plot.Fonts) error {
		r.SetDPI(plot.DPI)
		r.SetFont(f.Regular)
		r.SetFontSize(8)
		r.SetFontColor(drawing.Color{R: 255, A: 255})
		r.Text("A", 1000, 2000)
		return nil
	})
	for range 2 {
		if err := w.ink(&ink{x: 72_000, y: 72_000, text: "B", face: condensed, size: 8_000, color: 0xFF0000}); err != nil {
			t.Fatal(err)
		}
		if err := w.draw(&ink{x: 72_000, y: 72_000, fig: &figure{picture: Picture{Figure: red, Alt: "alt"}, permil: 1000, section: "s"}}); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.ink(&ink{x: 72_000, y: 72_000, text: "B", face: condensed, size: 8_000, color: 0xFF0000}); err != nil {
		t.Fatal(err)
	}
	raw, err := w.bytes()
	if err != nil {
		t.Fatal(err)
	}
	c := contents(t, raw)[0]
	// A figure may go on with what is set; text behind one may not.
	for set, want := range map[string]int{"1 0 0 rg": 3, " 8.00 Tf": 3, " 80.00 Tf": 2} {
		if n := bytes.Count(c, []byte(set)); n != want {
			t.Errorf("%q is set %d times for two figures and texts around them", set, n)
		}
	}
}

func TestRendererRefuses(t *testing.T) {
	say := func(f func(r chart.Renderer, fonts *plot.Fonts)) figureFunc {
		return func(r chart.Renderer, fonts *plot.Fonts) error { f(r, fonts); return nil }
	}
	for name, c := range map[string]struct {
		f    figureFunc
		want string
	}{
		"no font":    {say(func(r chart.Renderer, f *plot.Fonts) { r.Text("x", 0, 0) }), "not embedded"},
		"other font": {say(func(r chart.Renderer, f *plot.Fonts) { r.SetFont(&truetype.Font{}); r.Text("x", 0, 0) }), "not embedded"},
		"glyph":      {say(func(r chart.Renderer, f *plot.Fonts) { r.SetFont(f.Regular); r.Text("漢", 0, 0) }), "no glyph"},
		"control":    {say(func(r chart.Renderer, f *plot.Fonts) { r.SetFont(f.Regular); r.Text("a\nb", 0, 0) }), "control"},
		"beyond":     {say(func(r chart.Renderer, f *plot.Fonts) { r.SetFont(f.Regular); r.Text("\U0001F600", 0, 0) }), "beyond"},
		"its own":    {func(chart.Renderer, *plot.Fonts) error { return plot.ErrNoRoom }, plot.ErrNoRoom.Error()},
	} {
		if _, err := drawn(t, 1000, c.f); err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "alt") {
			t.Errorf("%s: %v, expected %q", name, err, c.want)
		}
	}
}

// TestMarksDiffer: each mark has a shape of its own whatever its color.
func TestMarksDiffer(t *testing.T) {
	seen := map[string]Mark{}
	for m := MarkWithin; m <= MarkNotReady; m++ {
		s := string(drawMark(nil, m, 10, inkColor))
		if other, ok := seen[s]; ok || len(s) < 20 {
			t.Errorf("%s looks like %s, or like nothing: %q", m.name(), other.name(), s)
		}
		seen[s] = m
	}
}

func TestNumbers(t *testing.T) {
	for v, want := range map[float64]string{0: "0 ", -0.004: "0 ", 0.005: "0.01 ", 1.1: "1.1 ", -72.456: "-72.46 ", 123: "123 ", 10.05: "10.05 "} {
		var p path
		if got := string(p.num(v).buf); got != want {
			t.Errorf("%v is written %q, expected %q", v, got, want)
		}
	}
}
