package plot

import (
	"math"
	"testing"
)

// curveRecorder keeps the quadratic curves that it is told, in points.
type curveRecorder struct {
	nowhere
	at     point
	curves [][3]point
}

func (c *curveRecorder) MoveTo(x, y int) { c.at = point{float64(x) / Unit, float64(y) / Unit} }
func (c *curveRecorder) QuadCurveTo(cx, cy, x, y int) {
	end := point{float64(x) / Unit, float64(y) / Unit}
	c.curves = append(c.curves, [3]point{c.at, {float64(cx) / Unit, float64(cy) / Unit}, end})
	c.at = end
}

// off is how far the recorded curves leave the curve whose radius at a bearing is
// given, and how far they turn where one goes over into the next, in degrees.
func (c *curveRecorder) off(o point, radius func(deg float64) float64) (most, kink float64) {
	for i, q := range c.curves {
		for step := 0.0; step <= 1; step += 1.0 / 64 {
			u := 1 - step
			x := u*u*q[0].x + 2*u*step*q[1].x + step*step*q[2].x - o.x
			y := u*u*q[0].y + 2*u*step*q[1].y + step*step*q[2].y - o.y
			most = max(most, math.Abs(math.Hypot(x, y)-radius(bearing(math.Atan2(x, -y)*180/math.Pi))))
		}
		if i > 0 {
			p := c.curves[i-1]
			a := math.Atan2(p[2].y-p[1].y, p[2].x-p[1].x) - math.Atan2(q[1].y-q[0].y, q[1].x-q[0].x)
			kink = max(kink, math.Abs(math.Remainder(a, 2*math.Pi))*180/math.Pi)
		}
	}
	return most, kink
}

// TestCurvesAreTrue holds the drawn curves against what they stand for: the circle,
// the spiral of Archimedes and the limaçon by their definitions.
func TestCurvesAreTrue(t *testing.T) {
	o := point{150, 150}
	tilt := func(deg float64) float64 { return 76 + 22*math.Cos((deg-40)*math.Pi/180) }
	for name, c := range map[string]struct {
		radius func(deg float64) float64
		draw   func(p *polarFigure)
		most   float64 // points
	}{
		"circle": {func(float64) float64 { return 100 }, func(p *polarFigure) {
			p.move(o.polar(0, 100))
			p.spiral(0, 100, 90, 100)
		}, 0.07},
		"steep spiral": {func(deg float64) float64 { return 40 + deg/3 }, func(p *polarFigure) {
			p.move(o.polar(0, 40))
			p.spiral(0, 40, 120, 80)
		}, 0.1},
		"fitted plane": {tilt, func(p *polarFigure) {
			p.radial = radial{rBase: 76, s: 22}
			PolarTilt{Fit: &Harmonic{1, 40}}.drawFit(p)
		}, 0.12},
	} {
		r := &curveRecorder{}
		c.draw(&polarFigure{canvas: &canvas{r: r}, o: o})
		if most, kink := r.off(o, c.radius); len(r.curves) == 0 || most > c.most || kink > 0.1 {
			t.Errorf("%s: %.3f points off, %.2f° from piece to piece", name, most, kink)
		}
	}
}
