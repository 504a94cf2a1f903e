package assess

import (
	"math"
	"math/big"

	"asleft/internal/field"
	"asleft/internal/fit"
	"asleft/internal/measure"
)

// harmonic is one cycle per turn, mean + cos·cos θ + sin·sin θ, fitted to
// readings by least squares and rounded once to whole nanometers. The amplitude
// and the direction follow from the rounded coefficients, so that they can be
// recomputed from what is printed.
type harmonic struct {
	mean, cos, sin, amplitude int64
	towards                   measure.Angle // of the largest value; to directionStep
	rms, worst                int64         // of the residuals: √(Σr²/n), and the one farthest from zero, with its sign
	worstIndex                int
}

// directionStep is how fine a direction is stated. It is far below what any
// reading can tell, and coarse enough that the last place of an arc tangent,
// which may differ between machines, never shows.
const directionStep = measure.Degree / 1000

// harmonic fits the readings of a round. It notes on the round why it cannot.
func (t *tower) harmonic(found []reading, r *Round) (harmonic, bool) {
	theta, y, ok := t.ring(found)
	if !ok {
		r.Notes = append(r.Notes, code(noteNoAngle))
		return harmonic{}, false
	}
	f, err := fit.FitHarmonic(theta, y, 1)
	if err != nil {
		r.Notes = append(r.Notes, code(noteNoFit))
		return harmonic{}, false
	}
	h := harmonic{mean: nearest(f.Mean), cos: nearest(f.A), sin: nearest(f.B)}
	h.amplitude, h.towards = length(h.cos, h.sin), direction(h.cos, h.sin)
	h.rms = nearest(math.Sqrt(f.RSS / float64(len(found))))
	for i, e := range f.Residuals {
		if n := nearest(e); i == 0 || max(n, -n) > max(h.worst, -h.worst) {
			h.worst, h.worstIndex = n, found[i].index
		}
	}
	return h, true
}

// ring returns the angles in radians and the values in nanometers; false where
// a position has no angle.
func (t *tower) ring(found []reading) (theta, y []float64, ok bool) {
	for _, x := range found {
		degrees, known := t.degrees[x.index]
		if !known {
			return nil, nil, false
		}
		theta = append(theta, degrees.Radians())
		y = append(y, float64(x.value.n))
	}
	return theta, y, true
}

// tangent is the slope of the plane fitted to drops, along the ring at the
// angle at, in the direction of growing degrees, as an angle: the first
// harmonic a quarter turn on, over the radius.
func (t *tower) tangent(drops []reading, at measure.Angle, radius int64) (measure.Angle, bool) {
	theta, y, ok := t.ring(drops)
	if !ok {
		return 0, false
	}
	for i := range theta {
		theta[i] -= (at + 90*measure.Degree).Radians()
	}
	f, err := fit.FitHarmonic(theta, y, 1)
	if err != nil {
		return 0, false
	}
	slope, err := measure.FromRadians(float64(nearest(f.A)) / float64(radius))
	return slope, err == nil
}

// zoneTolerance is how closely the minimum-zone center is found: 1 nm.
const zoneTolerance = 1

// roundness is the width of the narrowest ring that holds all readings, mean
// and center free.
func (t *tower) roundness(found []reading) (int64, bool) {
	theta, c, ok := t.ring(found)
	if !ok {
		return 0, false
	}
	center, err := fit.MinimumZone(theta, c, float64(t.fanRadius), zoneTolerance)
	if err != nil || center.Status == fit.Unbounded {
		return 0, false
	}
	return nearest(2 * center.HalfWidth), true
}

// readInOrder returns those of the readings that were read.
func readInOrder(all []reading) []reading {
	s := series{readings: all}
	return s.found()
}

// nearest rounds a fitted number of nanometers once, halves away from zero.
// Fits of readings that a parser let through are bounded; what is beyond is no
// length, and 0.
func nearest(x float64) int64 {
	n := math.Round(x)
	if !(math.Abs(n) <= float64(measure.MaxLength)) { // also catches NaN
		return 0
	}
	return int64(n)
}

// length is √(a² + b²), rounded once to a whole number.
func length(a, b int64) int64 {
	return roundRoot(new(big.Rat).Add(square(a), square(b)))
}

// direction is the angle of the vector (a, b), clockwise from the motor.
func direction(a, b int64) measure.Angle {
	angle, err := measure.FromRadians(math.Atan2(float64(b), float64(a)))
	if err != nil {
		return 0
	}
	step := measure.Length(directionStep)
	return measure.Angle(measure.Length(angle).RoundTo(step)).Normalize()
}

// fanRadius is half the fan's diameter, 0 where it is not given.
func fanRadius(d field.Length) int64 {
	if !d.Set || d.Value < 0 {
		return 0
	}
	return int64(d.Value) / 2
}
