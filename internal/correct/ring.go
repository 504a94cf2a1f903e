package correct

import (
	"math"

	"asleft/internal/measure"
)

// Reading is a value at a position round the fan: a drop or a gap.
type Reading struct {
	Position int           // as the crew numbers it
	Degrees  measure.Angle // clockwise from the motor
	Value    measure.Length
}

// Shift is a small displacement in plan: along toward the motor, across toward
// the 90° side.
type Shift struct{ Along, Across measure.Length }

// vec is a vector in plan, in nanometers or, for a slope, dimensionless.
type vec struct{ x, y float64 }

func (a vec) plus(b vec) vec      { return vec{a.x + b.x, a.y + b.y} }
func (a vec) minus(b vec) vec     { return vec{a.x - b.x, a.y - b.y} }
func (a vec) times(f float64) vec { return vec{float64(a.x * f), float64(a.y * f)} }
func (a vec) dot(b vec) float64   { return float64(a.x*b.x) + float64(a.y*b.y) }
func (a vec) length() float64     { return hypot(a.x, a.y) }
func (s Shift) vec() vec          { return vec{float64(s.Along), float64(s.Across)} }
func (s Shift) zero() bool        { return s == Shift{} }
func shiftOf(v vec) Shift         { return Shift{nearest(v.x), nearest(v.y)} }
func (s Shift) negative() Shift   { return Shift{-s.Along, -s.Across} }
func (s Shift) longest() measure.Length {
	return nearest(s.vec().length())
}

// hypot is √(a² + b²) with the same bits on every target, which math.Hypot does
// not promise. Lengths are far from where a square overflows.
func hypot(a, b float64) float64 { return math.Sqrt(float64(a*a) + float64(b*b)) }

// nearest rounds once to a whole nanometer, halves away from zero. What is no
// length (NaN, beyond measure.MaxLength) is 0: it can only come from readings
// that no parser lets through.
func nearest(x float64) measure.Length {
	n := math.Round(x)
	if !(math.Abs(n) <= float64(measure.MaxLength)) {
		return 0
	}
	return measure.Length(n)
}

// direction returns u(θ) = (cos θ, sin θ). The angle is a whole number, so it is
// brought into half a right angle exactly: at 90° the cosine is zero, and the
// same bits come out on every target.
func direction(a measure.Angle) vec {
	const right = 90 * measure.Degree
	a = a.Normalize()
	quarter, rest := a/right, a%right
	var u vec
	if rest <= right/2 {
		u = smallDirection(rest)
	} else {
		u = smallDirection(right - rest)
		u.x, u.y = u.y, u.x
	}
	switch quarter {
	case 1:
		return vec{-u.y, u.x}
	case 2:
		return vec{-u.x, -u.y}
	case 3:
		return vec{u.y, -u.x}
	}
	return u
}

// smallDirection sums the series of sine and cosine for 0 ≤ θ ≤ 45°; what is
// left out after θ¹⁸ is below 1e-18.
func smallDirection(a measure.Angle) vec {
	if a == 0 {
		return vec{1, 0}
	}
	x := a.Radians()
	z := float64(x * x)
	sin, cos := 0.0, 0.0
	for n := 18; n >= 2; n -= 2 {
		cos = float64((1 + cos) * -z / float64(n*(n-1)))
		sin = float64((1 + sin) * -z / float64(n*(n+1)))
	}
	return vec{1 + cos, x + float64(x*sin)}
}

// directions returns u(θ) of each reading.
func directions(in []Reading) []vec {
	out := make([]vec, len(in))
	for i, r := range in {
		out[i] = direction(r.Degrees)
	}
	return out
}

// ring returns angles in radians and values in nanometers, for package fit.
func ring(in []Reading) (theta, value []float64) {
	for _, r := range in {
		theta = append(theta, r.Degrees.Radians())
		value = append(value, float64(r.Value))
	}
	return theta, value
}

// gapAfter is the gap at u once the fan center has moved by m: the exact
// distance from the moved tip circle to the point of the wall that stood at
// radius + gap. A radius that is not known gives the first-order form.
func gapAfter(gap float64, u, m vec, radius float64) float64 {
	if radius <= 0 {
		return gap - m.dot(u)
	}
	// |q·u − m| − radius without the loss of digits of a difference of two
	// nearly equal numbers: (|q·u − m|² − radius²) / (|q·u − m| + radius).
	q := radius + gap
	square := float64(gap*(gap+float64(2*radius))) - float64(2*q*m.dot(u)) + m.dot(m)
	return square / (hypot(float64(q*u.x)-m.x, float64(q*u.y)-m.y) + radius)
}

// gapsAfter returns the readings as they will be after the move m.
func gapsAfter(in []Reading, m vec, radius measure.Length) []Reading {
	out := make([]Reading, len(in))
	for i, r := range in {
		out[i] = r
		out[i].Value = nearest(gapAfter(float64(r.Value), direction(r.Degrees), m, float64(radius)))
	}
	return out
}

// spread is the largest value less the smallest; 0 of nothing.
func spread(in []Reading) measure.Length {
	least, most := extremes(in)
	return most - least
}

func extremes(in []Reading) (least, most measure.Length) {
	for i, r := range in {
		if i == 0 || r.Value < least {
			least = r.Value
		}
		if i == 0 || r.Value > most {
			most = r.Value
		}
	}
	return least, most
}
