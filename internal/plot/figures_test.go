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

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"
)

func record(t testing.TB, fig Figure) *recorder {
	t.Helper()
	f := loadFonts(t)
	r := newRecorder(f)
	if err := fig.Draw(r, f); err != nil {
		t.Fatal(err)
	}
	return r
}

// TestGoldenCalls keeps the drawing calls of one figure of each kind as text.
func TestGoldenCalls(t *testing.T) {
	all := gallery()
	for _, name := range []string{"clearance_outside", "tilt_12", "tip_radius_8", "plan_12"} {
		golden(t, name+".calls.txt", []byte(record(t, all[name]).log.String()))
	}
}

func TestNothingOutsideSize(t *testing.T) {
	for name, fig := range gallery() {
		w, h := fig.Size()
		if r := record(t, fig).reach; !r.inside(box{0, 0, w, h}) {
			t.Errorf("%s reaches %.2f, size %.0f by %.0f", name, r, w, h)
		}
	}
}

// everyFigure is each kind of figure with n positions or columns.
func everyFigure(n int) map[string]Figure {
	return map[string]Figure{
		"clearance": clearanceOf(n), "tilt": tiltOf(n), "bars": barsOf(n), "plan": planOf(n, min(n, 24)),
	}
}

func TestLabelsDoNotOverlap(t *testing.T) {
	for _, n := range []int{6, 8, 12, 16, 24, 36} {
		figs := everyFigure(n)
		for name, fig := range gallery() {
			figs[name] = fig
		}
		for name, fig := range figs {
			labels := record(t, fig).labels
			for i, a := range labels {
				for _, b := range labels[:i] {
					if a.box.overlaps(b.box) {
						t.Errorf("%s of %d: %q and %q overlap", name, n, a.text, b.text)
					}
				}
			}
		}
	}
}

// TestCrowdedLabelsDoNotOverlap: readings that all must be labeled, and positions
// a few degrees apart, lose labels rather than cover each other.
func TestCrowdedLabelsDoNotOverlap(t *testing.T) {
	loud := clearanceOf(36)
	for i := range loud.Series[1].Readings {
		loud.Series[1].Readings[i].Mark = Outside
		loud.Series[1].Readings[i].Label = "1-13/32"
	}
	close := planOf(12, 8)
	for i := range close.Positions {
		close.Positions[i].At = 8 * float64(i)
	}
	many := barsOf(60)
	for name, fig := range map[string]Figure{"all outside": loud, "close together": close, "60 columns": many} {
		labels := record(t, fig).labels
		for i, a := range labels {
			for _, b := range labels[:i] {
				if a.box.overlaps(b.box) {
					t.Errorf("%s: %q and %q overlap", name, a.text, b.text)
				}
			}
		}
	}
}

// TestNotesEndInARow: any number of notes, on any columns, is placed or refused.
func TestNotesEndInARow(t *testing.T) {
	f := loadFonts(t)
	for n := 1; n <= 12; n++ {
		b := barsOf(12)
		b.Notes = nil
		b.Height = 400
		for i := range n {
			b.Notes = append(b.Notes, ColumnNote{Column: i * 7 % 12, Text: fmt.Sprintf("a note for blade number %d", i*7%12+1)})
		}
		r := newRecorder(f)
		if err := b.Draw(r, f); err != nil {
			t.Fatal(err)
		}
		for _, note := range b.Notes {
			if _, ok := r.find(note.Text); !ok {
				t.Errorf("%d notes: %q is lost", n, note.Text)
			}
		}
		for i, p := range r.labels {
			for _, q := range r.labels[:i] {
				if p.box.overlaps(q.box) {
					t.Errorf("%d notes: %q and %q overlap", n, p.text, q.text)
				}
			}
		}
	}
}

// TestEdgeLabelsPrintInFull: the room at the right is made for the longest label,
// so none is cut, whatever the size of the chart.
func TestEdgeLabelsPrintInFull(t *testing.T) {
	for i := range 400 {
		b := barsOf(8)
		b.Width = 200 + 0.7*float64(i)
		b.Band.LoLabel, b.Band.HiLabel = fmt.Sprintf("%.3f", 8+0.013*float64(i)), fmt.Sprintf("%.3f", 9+0.017*float64(i))
		b.Nominal = nil
		found := 0
		for _, l := range record(t, b).labels {
			if l.text == b.Band.LoLabel || l.text == b.Band.HiLabel {
				found++
			}
		}
		if found < 2 {
			t.Fatalf("width %.1f: %q or %q is not printed in full", b.Width, b.Band.LoLabel, b.Band.HiLabel)
		}
	}
}

func TestTextIsLargeEnoughAndDark(t *testing.T) {
	for name, fig := range gallery() {
		for _, l := range record(t, fig).labels {
			if l.size < 6.5 {
				t.Errorf("%s: %q is %.1f pt", name, l.text, l.size)
			}
			if c := contrast(l.ink.R, l.ink.G, l.ink.B); c < 4.5 {
				t.Errorf("%s: %q has contrast %.1f", name, l.text, c)
			}
		}
	}
}

// contrast on white, WCAG 2.1, definitions of contrast ratio and relative luminance.
func contrast(r, g, b uint8) float64 {
	lin := func(v uint8) float64 {
		c := float64(v) / 255
		if c <= 0.03928 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 1.05 / (0.2126*lin(r) + 0.7152*lin(g) + 0.0722*lin(b) + 0.05)
}

func TestContrastAgainstKnownPairs(t *testing.T) {
	// Black on white is 21:1 by definition; #767676 is the well known lightest
	// gray that passes 4.5:1 (value from memory).
	for _, c := range []struct {
		tone     Tone
		min, max float64
	}{{0x000000, 20.99, 21.01}, {0x767676, 4.5, 4.6}, {0x777777, 4.4, 4.5}} {
		r, g, b := c.tone.RGB()
		if got := contrast(r, g, b); got < c.min || got > c.max {
			t.Errorf("%06X: contrast %.2f", c.tone, got)
		}
	}
}

// TestFrame: 0° at the top, degrees clockwise seen from above.
func TestFrame(t *testing.T) {
	for _, c := range []struct{ at, dx, dy float64 }{
		{0, 0, -1}, {90, 1, 0}, {180, 0, 1}, {270, -1, 0}, {-90, -1, 0}, {450, 1, 0}, {45, math.Sqrt2 / 2, -math.Sqrt2 / 2},
	} {
		p := PolarClearance{
			Nominal: &Level{Value: 0.5},
			Series:  []Series{{Role: Standing, Readings: []Reading{{At: c.at, Value: 0.5, Label: "1/2"}}}},
		}
		r := record(t, p)
		dots := r.marks()
		if len(dots) != 1 {
			t.Fatalf("%v°: %d dots", c.at, len(dots))
		}
		center, radius := nominalRing(t, r)
		got := point{(dots[0].x - center.x) / radius, (dots[0].y - center.y) / radius}
		if math.Hypot(got.x-c.dx, got.y-c.dy) > 0.001 {
			t.Errorf("%v°: dot at %.3f, %.3f of the nominal ring, want %.3f, %.3f", c.at, got.x, got.y, c.dx, c.dy)
		}
	}
}

// nominalRing is the ring drawn with the pen of the nominal value.
func nominalRing(t *testing.T, r *recorder) (point, float64) {
	t.Helper()
	for _, q := range r.rings {
		if q.stroke == nominalPen.tone.Color() && q.radius > minRing/2 && q.radius < 200 && strings.Contains(r.log.String(), "dash") {
			return q.center, q.radius
		}
	}
	t.Fatal("no nominal ring")
	return point{}, 0
}

// TestRadiusGrowsWithGap: the reading on a limit lies on the edge of the band.
func TestRadiusGrowsWithGap(t *testing.T) {
	p := clearanceOf(12)
	p.Series = []Series{{Role: Standing, Readings: []Reading{
		{At: 90, Value: 0.375, Label: "3/8"}, {At: 180, Value: 0.625, Label: "5/8"},
	}}}
	p.Worst, p.Nominal, p.TipPath = nil, nil, ""
	r := record(t, p)
	var edges []ringSeen
	for _, q := range r.rings {
		if q.stroke == bandEdge.tone.Color() {
			edges = append(edges, q)
		}
	}
	dots := r.marks()
	if len(edges) < 4 || len(dots) < 2 {
		t.Fatalf("%d edges, %d dots", len(edges), len(dots))
	}
	o := edges[0].center
	if got := dots[0].x - o.x; math.Abs(got-edges[0].radius) > 0.02 {
		t.Errorf("reading at the lower limit at %.2f, edge at %.2f", got, edges[0].radius)
	}
	if got := dots[1].y - o.y; math.Abs(got-edges[2].radius) > 0.02 {
		t.Errorf("reading at the upper limit at %.2f, edge at %.2f", got, edges[2].radius)
	}
}

func TestTiltBulgesTowardTheLowSide(t *testing.T) {
	p := tiltOf(12)
	p.Series = p.Series[1:]
	dots := record(t, p).marks()
	w, _ := p.Size()
	// The lowest reading is at 60°: to the right of the center and above it.
	far, at := 0.0, point{}
	var sum point
	for _, d := range dots[:12] {
		sum.x, sum.y = sum.x+d.x/12, sum.y+d.y/12
	}
	if sum.x <= w/2 {
		t.Errorf("the readings lie around x %.1f, left of the center %.1f", sum.x, w/2)
	}
	for _, d := range dots[:12] {
		if dist := d.x - w/2; dist > far {
			far, at = dist, d
		}
	}
	if at.y >= sum.y+40 {
		t.Errorf("rightmost reading at %.1f is below the middle %.1f", at.y, sum.y)
	}
}

func TestEveryReadingLabeledUpTo16(t *testing.T) {
	for _, n := range []int{1, 6, 8, 12, 16} {
		for i := range n {
			p := clearanceOf(n)
			rs := p.Series[1].Readings
			for j := range rs {
				rs[j].Label = fmt.Sprintf("1-13/%d", 10+j)
			}
			if _, ok := record(t, p).find(rs[i].Label); !ok {
				t.Errorf("%d positions: reading %d has no label", n, i)
			}
		}
	}
}

func TestCrowdedKeepsWhatMatters(t *testing.T) {
	p := clearanceOf(36)
	rs := p.Series[1].Readings
	rs[9].Mark, rs[9].Label = Outside, "9/16 out"
	rs[27] = Reading{At: 270, Tick: "270°", Label: "blocked", Absent: true}
	rs[19].Label = "worst"
	p.Worst = &Callout{At: rs[19].At, Text: "least here"}
	r := record(t, p)
	for _, want := range []string{"9/16 out", "blocked", "worst", "least here"} {
		if _, ok := r.find(want); !ok {
			t.Errorf("no label %q", want)
		}
	}
	if l, _ := r.find("9/16 out"); !l.bold {
		t.Error("the label of a reading outside is not semibold")
	}
}

func TestMarksDifferInShape(t *testing.T) {
	shape := func(m Mark) string {
		p := PolarClearance{Series: []Series{{Role: Standing, Readings: []Reading{{Value: 1, Label: "1", Mark: m}}}}}
		log := record(t, p).log.String()
		return log[strings.Index(log, "fill"):]
	}
	if a, b, c := shape(Within), shape(Near), shape(Outside); a == b || b == c || a == c {
		t.Error("two marks are drawn alike")
	}
}

func TestExaggerationIsWhatIsDrawn(t *testing.T) {
	p := clearanceOf(12)
	p.Series = p.Series[1:]
	k := p.Exaggeration()
	r := record(t, p)
	dots := r.marks()
	tip := 0.0
	var o point
	for _, q := range r.rings {
		if q.stroke == tipPen.tone.Color() && q.radius > 20 && (tip == 0 || q.radius < tip) {
			tip, o = q.radius, q.center
		}
	}
	// 84 in are drawn as tip points; so a gap g is drawn as k·g·tip/84 beyond it.
	want := tip + float64(k)*p.Series[0].Readings[3].Value*tip/84
	if got := dots[3].x - o.x; k < 2 || math.Abs(got-want) > 0.05 {
		t.Errorf("factor %d: reading at 90° drawn at %.2f, want %.2f", k, got, want)
	}
	if (PolarClearance{}).Exaggeration() != 0 {
		t.Error("a factor without a fan radius")
	}
}

func TestRoundFactor(t *testing.T) {
	for _, c := range []struct {
		f    float64
		want int
	}{{0.9, 0}, {1, 1}, {1.9, 1}, {9.99, 8}, {12, 12}, {152, 150}, {249, 200}, {250, 250}, {1e9, 80000}} {
		if got := roundFactor(c.f); got != c.want {
			t.Errorf("roundFactor(%v) = %d, want %d", c.f, got, c.want)
		}
	}
}

func TestCurveIsBrokenAtAbsentReading(t *testing.T) {
	count := func(absent bool) int {
		p := clearanceOf(8)
		p.Series = p.Series[1:]
		p.Series[0].Readings[2].Absent = absent
		return strings.Count(record(t, p).log.String(), fmt.Sprintf("pen=%s/130", hex(Accent.Color())))
	}
	if whole, broken := count(false), count(true); whole-broken != 2 {
		t.Errorf("%d spans whole, %d with one reading absent", whole, broken)
	}
}

func TestSameCallsEveryTime(t *testing.T) {
	for name, fig := range gallery() {
		if a, b := record(t, fig).log.String(), record(t, fig).log.String(); a != b {
			t.Errorf("%s differs between two runs", name)
		}
	}
}

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

// TestFontProportions: capital height and descent as the layout assumes them are
// those of the embedded fonts.
func TestFontProportions(t *testing.T) {
	f := loadFonts(t)
	for name, font := range map[string]*truetype.Font{"regular": f.Regular, "semibold": f.SemiBold} {
		em := fixed.Int26_6(font.FUnitsPerEm())
		var g truetype.GlyphBuf
		if err := g.Load(font, em, font.Index('H'), 0); err != nil {
			t.Fatal(err)
		}
		if got := float64(g.Bounds.Max.Y) / float64(em); math.Abs(got-capHeight) > 0.003 {
			t.Errorf("%s: capital height %.3f, assumed %.3f", name, got, capHeight)
		}
		if err := g.Load(font, em, font.Index('p'), 0); err != nil {
			t.Fatal(err)
		}
		if got := -float64(g.Bounds.Min.Y) / float64(em); got > descent {
			t.Errorf("%s: letters reach %.3f below the line, assumed %.3f", name, got, descent)
		}
		// Digits of one width: figures line up.
		for _, r := range "0123456789" {
			if width(font, 1000, string(r)) != width(font, 1000, "0") {
				t.Errorf("%s: digit %c is not as wide as 0", name, r)
			}
		}
	}
}

func TestBearing(t *testing.T) {
	for _, c := range []struct{ in, want float64 }{{0, 0}, {360, 0}, {-90, 270}, {725, 5}, {-1e-20, 0}} {
		if got := bearing(c.in); got != c.want {
			t.Errorf("bearing(%v) = %v, want %v", c.in, got, c.want)
		}
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
