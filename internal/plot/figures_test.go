package plot

import (
	"fmt"
	"math"
	"strings"
	"testing"
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
		n := 0
		for line := range strings.Lines(record(t, p).log.String()) {
			if strings.Contains(line, fmt.Sprintf("pen=%s/130", hex(Accent.Color()))) {
				n += strings.Count(line, " Q ")
			}
		}
		return n
	}
	// 45° between two readings are two pieces.
	if whole, broken := count(false), count(true); whole != 16 || broken != 12 {
		t.Errorf("%d pieces whole, %d with one reading absent", whole, broken)
	}
}

func TestSameCallsEveryTime(t *testing.T) {
	for name, fig := range gallery() {
		if a, b := record(t, fig).log.String(), record(t, fig).log.String(); a != b {
			t.Errorf("%s differs between two runs", name)
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
