package fit

import (
	"fmt"
	"math"
)

// points are the places that distances are taken to.
type points struct {
	c        []float64
	sin, cos []float64
	radius   float64
	linear   bool // distances to first order only; radius is 0
	// frozen takes every gradient at the old center, −u, though distances stay
	// exact. Where a pair of opposite points decides, the sideways direction is
	// free to first order; the tilt of the true gradients, |m|/radius, would
	// then send the center a long way for a gain of |m|²/radius.
	frozen bool
}

func newPoints(theta, c []float64, radius float64) (points, error) {
	if len(theta) != len(c) || len(c) == 0 {
		return points{}, errEmptyOrUneven
	}
	if len(c) > MaxPositions {
		return points{}, fmt.Errorf("%w: more than %d positions", ErrInput, MaxPositions)
	}
	p := points{c: c, radius: radius}
	if math.IsNaN(radius) {
		return points{}, fmt.Errorf("%w: radius is not a number", ErrInput)
	}
	if radius <= 0 || math.IsInf(radius, 0) {
		p.radius, p.linear = 0, true
	}
	for i := range c {
		if !finite(c[i]) || !(math.Abs(theta[i]) < maxAngle) {
			return points{}, fmt.Errorf("%w: position %d is not finite or turns too often", ErrInput, i)
		}
		if !p.linear && radius+c[i] <= 0 {
			return points{}, fmt.Errorf("%w: position %d lies at or behind the center", ErrInput, i)
		}
		sin, cos := sincos(theta[i])
		p.sin, p.cos = append(p.sin, sin), append(p.cos, cos)
	}
	return p, nil
}

// distance returns d_i(m) and its gradient in m.
func (p points) distance(i int, m [2]float64) (d float64, gradient [2]float64) {
	if p.linear {
		d = p.c[i] - float64(m[0]*p.cos[i]) - float64(m[1]*p.sin[i])
		return d, [2]float64{-p.cos[i], -p.sin[i]}
	}
	r := p.radius + p.c[i]
	x := float64(r*p.cos[i]) - m[0]
	y := float64(r*p.sin[i]) - m[1]
	length := math.Sqrt(float64(x*x) + float64(y*y))
	if length == 0 { // the center has reached a point; any direction leads away
		return -p.radius, [2]float64{-p.cos[i], -p.sin[i]}
	}
	if p.frozen {
		return length - p.radius, [2]float64{-p.cos[i], -p.sin[i]}
	}
	return length - p.radius, [2]float64{-x / length, -y / length}
}

// extremes returns the least and the greatest distance.
func (p points) extremes(m [2]float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range p.c {
		d, _ := p.distance(i, m)
		low, high = math.Min(low, d), math.Max(high, d)
	}
	return low, high
}

// objective is what the goal minimizes.
func (p points) objective(m [2]float64, g goal) float64 {
	low, high := p.extremes(m)
	switch {
	case g.lowOnly:
		return -low
	case g.freeMean:
		return (high - low) / 2
	}
	return math.Max(high-g.nominal, g.nominal-low)
}

// middle returns the Mean and HalfWidth of a Center at m.
func (p points) middle(m [2]float64, g goal) (mean, halfWidth float64) {
	low, high := p.extremes(m)
	switch {
	case g.lowOnly:
		return low, 0
	case g.freeMean:
		return low + (high-low)/2, (high - low) / 2
	}
	return g.nominal, p.objective(m, g)
}

// scale is the size of the distances to be balanced, never zero.
func (p points) scale(g goal) float64 {
	low, high := p.extremes([2]float64{})
	size := high - low
	if !g.freeMean && !g.lowOnly {
		size = math.Max(size, p.objective([2]float64{}, g))
	}
	switch {
	case size > 0:
		return size
	case high != 0:
		return math.Abs(high)
	}
	return 1
}
