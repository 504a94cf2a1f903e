package plot

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
)

func TestRefusals(t *testing.T) {
	f := loadFonts(t)
	bad := func(v float64) PolarClearance {
		return PolarClearance{Series: []Series{{Role: Standing, Readings: []Reading{{Value: v, Label: "1"}}}}}
	}
	tilt, bars, plan := tiltOf(8), barsOf(8), planOf(8, 8)
	tilt.Fit.At = math.NaN()
	bars.Band.Hi = math.Inf(1)
	plan.Positions[0].At = math.Inf(-1)
	narrow := clearanceOf(12)
	narrow.Width, narrow.Height = 61, 61
	foreign := clearanceOf(12)
	foreign.Title = "清洁"
	twice := clearanceOf(8)
	twice.Series[0].Role = Standing
	for name, c := range map[string]struct {
		fig  Figure
		want error
	}{
		"NaN": {bad(math.NaN()), ErrNotFinite}, "Inf": {bad(math.Inf(1)), ErrNotFinite}, "too large": {bad(1e13), ErrNotFinite},
		"tilt": {tilt, ErrNotFinite}, "bars": {bars, ErrNotFinite}, "plan": {plan, ErrNotFinite},
		"narrow": {narrow, ErrNoRoom}, "negative": {PolarTilt{Frame: Frame{Width: -1}}, ErrNoRoom},
		"size":    {Bars{Frame: Frame{Height: math.NaN()}}, ErrNotFinite},
		"foreign": {foreign, ErrGlyph}, "two standing": {twice, ErrTooMany},
		"many": {PolarTilt{Series: make([]Series, maxSeries+1)}, ErrTooMany},
	} {
		if err := c.fig.Draw(newRecorder(f), f); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
	}
	for name, fig := range map[string]Figure{
		"columns": Bars{Columns: []string{"1"}, Series: []BarSeries{{}}},
		"note":    Bars{Notes: []ColumnNote{{Column: 0, Text: "x"}}},
		"blades":  PlanSketch{Blades: 1},
	} {
		if err := fig.Draw(newRecorder(f), f); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if err := clearanceOf(8).Draw(newRecorder(f), nil); err == nil {
		t.Error("drawn without fonts")
	}
}

// TestOddInput: what is rare must still be drawn.
func TestOddInput(t *testing.T) {
	one := func(vs ...float64) []Series {
		s := Series{Role: Standing}
		for i, v := range vs {
			s.Readings = append(s.Readings, reading(float64(i)*360/float64(len(vs)), v))
		}
		return []Series{s}
	}
	for name, fig := range map[string]Figure{
		"empty": PolarClearance{}, "no readings": PolarTilt{}, "no columns": Bars{},
		"single": PolarClearance{Series: one(0.5)}, "zero": PolarClearance{Series: one(0, 0, 0)},
		"equal": PolarClearance{Series: one(3, 3, 3, 3)}, "close": PolarClearance{Series: one(12, 12.001, 12, 12.002)},
		"negative": PolarClearance{Series: one(-1, 2, 3), FanRadius: 84}, "spread": PolarClearance{Series: one(1e-9, 1e12, 1), FanRadius: 1e-3},
		"flat": PolarTilt{Series: one(0, 0, 0), Fit: &Harmonic{}}, "two": PolarTilt{Series: one(-1, 1), Fit: &Harmonic{Amplitude: -1, At: 90}},
		"band inside out": PolarClearance{Band: &Band{Lo: 5, Hi: 1}, Series: one(2, 3, 4)},
		"open band":       PolarClearance{Band: &Band{Lo: 1, OpenHi: true}, Series: one(2, 3, 4)},
		"bar":             Bars{Columns: []string{"1"}, Series: []BarSeries{{Role: Standing, Values: []BarValue{{Value: -1e12, Label: "x"}}}}},
	} {
		w, h := fig.Size()
		if r := record(t, fig).reach; r.x0 < r.x1 && !r.inside(box{0, 0, w, h}) {
			t.Errorf("%s reaches %.1f, size %.0f by %.0f", name, r, w, h)
		}
	}
}

func TestSVGIsWellFormed(t *testing.T) {
	f := loadFonts(t)
	p := clearanceOf(8)
	p.Title = `a<b & "c" 'd'`
	svg, err := SVG(p, f, "x<y\x01", "1 & 2")
	if err != nil {
		t.Fatal(err)
	}
	var text []string
	var size string
	for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch v := tok.(type) {
		case xml.CharData:
			text = append(text, string(v))
		case xml.StartElement:
			if v.Name.Local == "svg" {
				size = fmt.Sprint(v.Attr)
			}
		}
	}
	all := strings.Join(text, "|")
	for _, want := range []string{p.Title, "x<y\uFFFD", "1 & 2"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in the text", want)
		}
	}
	for _, want := range []string{"252pt", "290pt", "0 0 252 290"} {
		if !strings.Contains(size, want) {
			t.Errorf("%q is not in %s", want, size)
		}
	}
	if bytes.Contains(svg, []byte("NaN")) || bytes.Contains(svg, []byte(`stroke-width="0"`)) {
		t.Error("a number went wrong")
	}
}

func FuzzFigures(f *testing.F) {
	fonts := loadFonts(f)
	f.Add(uint8(12), 0.5, 0.1, 210.0, "1/2")
	f.Add(uint8(0), 0.0, 0.0, 0.0, "")
	f.Add(uint8(255), -1e12, 1e12, -1e9, "a very long label that cannot fit anywhere")
	f.Add(uint8(8), 0.5, 0.1, 45.0, strings.Repeat("word ", 5000))
	f.Add(uint8(12), 0.1, 0.1, 21.0, " ")
	f.Add(uint8(3), math.NaN(), 1.0, math.Inf(1), "x")
	f.Fuzz(func(t *testing.T, n uint8, mean, swing, at float64, word string) {
		n = max(n, 1)
		clearance, tilt, bars, plan := clearanceOf(int(n)), tiltOf(int(n)), barsOf(int(n)), planOf(int(n), 2+int(n)%22)
		for i := range clearance.Series[1].Readings {
			v := mean + swing*math.Sin(float64(i))
			clearance.Series[1].Readings[i] = Reading{At: at * float64(i), Value: v, Label: word, Mark: Mark(i % 3)}
			tilt.Series[1].Readings[i] = Reading{At: at * float64(i), Value: v - mean, Label: word, Tick: word}
			bars.Series[1].Values[i] = BarValue{Value: v, Label: word}
		}
		clearance.Move = &Arrow{Dx: mean, Dy: swing, Label: word}
		bars.Notes, tilt.Low, plan.Turn, plan.Side90 = nil, word, word, word
		for _, fig := range []Figure{clearance, tilt, bars, plan} {
			r := newRecorder(fonts)
			w, h := fig.Size()
			if err := fig.Draw(r, fonts); err == nil && !r.reach.inside(box{0, 0, w, h}) {
				t.Errorf("%T reaches %.1f, size %.0f by %.0f", fig, r.reach, w, h)
			}
		}
	})
}
