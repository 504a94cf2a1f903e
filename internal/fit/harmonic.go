package fit

import (
	"fmt"
	"math"
	"sort"
)

// MaxOrder bounds the harmonics of one fit.
const MaxOrder = 32

// A Wave is one harmonic, a·cos kθ + b·sin kθ.
type Wave struct {
	A, B float64
}

// Amplitude returns √(a² + b²).
func (w Wave) Amplitude() float64 { return math.Hypot(w.A, w.B) }

// Phase returns the angle φ, in (−π, π], with a·cos kθ + b·sin kθ =
// amplitude·cos(kθ − φ). For k = 1 it is the direction of the high side.
func (w Wave) Phase() float64 { return math.Atan2(w.B, w.A) }

// A Harmonic is a least-squares fit
//
//	y(θ) ≈ mean + Σ_{k=1..order} (a_k cos kθ + b_k sin kθ)
type Harmonic struct {
	Mean      float64
	A, B      float64   // the first harmonic
	Higher    []Wave    // harmonics 2, 3, … order
	Residuals []float64 // y − fit, one per position
	RSS       float64   // sum of squared residuals
	DOF       int       // positions less coefficients
	// Cov is the block of (XᵀX)⁻¹ for mean, A and B. Times the variance of a
	// single y it is their covariance; over n even positions it is diagonal,
	// 1/n, 2/n, 2/n.
	Cov  [3][3]float64
	Cond float64 // condition number with columns scaled to length 1
}

// First returns the first harmonic as a Wave.
func (h Harmonic) First() Wave { return Wave{h.A, h.B} }

// ResidualSD returns √(RSS/DOF), the scatter about the fit, or 0 if there are
// no degrees of freedom.
func (h Harmonic) ResidualSD() float64 {
	if h.DOF <= 0 {
		return 0
	}
	return math.Sqrt(h.RSS / float64(h.DOF))
}

// samePlace is the angle, in radians, below which two positions are one: a
// thousandth of a degree, far under what a crew can mark.
const samePlace = 1.75e-5

// maxHarmonicCondition is where the positions stop deciding the coefficients:
// errors in the readings are blown up a hundredfold. Even positions give
// about 2 in the norm used, positions over half a turn about 4 for order 1.
const maxHarmonicCondition = 100

// FitHarmonic fits harmonics up to order, at least 1, to y over the positions
// theta in radians. It needs 2·order + 1 distinct positions, and refuses
// positions so crowded to one side that the answer would only magnify errors of
// reading ([IllConditioned]).
func FitHarmonic(theta, y []float64, order int) (Harmonic, error) {
	if len(theta) != len(y) || order < 1 || order > MaxOrder {
		return Harmonic{}, fmt.Errorf("%w: %d angles, %d values, order %d", ErrInput, len(theta), len(y), order)
	}
	for i, t := range theta {
		if !(math.Abs(t)*float64(order) < maxAngle) {
			return Harmonic{}, fmt.Errorf("%w: angle %d is not finite or turns too often", ErrInput, i)
		}
	}
	if n := distinct(theta); n < 2*order+1 {
		return Harmonic{}, fmt.Errorf("%w: %d distinct positions, order %d needs %d", ErrInput, n, order, 2*order+1)
	}
	rows := make([][]float64, len(theta))
	for i, t := range theta {
		rows[i] = harmonicRow(t, order)
	}
	f, err := LeastSquares(rows, y)
	if err != nil {
		return Harmonic{}, err
	}
	if f.Cond > maxHarmonicCondition {
		return Harmonic{}, IllConditioned(f.Cond)
	}
	return newHarmonic(f, order), nil
}

// harmonicRow is 1, cos θ, sin θ, cos 2θ, sin 2θ, …
func harmonicRow(theta float64, order int) []float64 {
	row := []float64{1}
	for k := 1; k <= order; k++ {
		sin, cos := sincos(float64(float64(k) * theta))
		row = append(row, cos, sin)
	}
	return row
}

func newHarmonic(f Linear, order int) Harmonic {
	h := Harmonic{Mean: f.Coef[0], A: f.Coef[1], B: f.Coef[2],
		Residuals: f.Residuals, RSS: f.RSS, DOF: f.DOF, Cond: f.Cond}
	for k := 2; k <= order; k++ {
		h.Higher = append(h.Higher, Wave{f.Coef[2*k-1], f.Coef[2*k]})
	}
	for i := range h.Cov {
		copy(h.Cov[i][:], f.Unscaled[i][:3])
	}
	return h
}

// distinct counts the positions that differ by more than samePlace around the
// turn.
func distinct(theta []float64) int {
	const turn = 2 * math.Pi
	around := make([]float64, len(theta))
	for i, t := range theta {
		around[i] = t - turn*math.Floor(t/turn)
	}
	sort.Float64s(around)
	n := 0
	for i, t := range around {
		before := around[(i+len(around)-1)%len(around)]
		if i == 0 {
			before -= turn
		}
		if t-before > samePlace {
			n++
		}
	}
	if n == 0 && len(theta) > 0 {
		return 1
	}
	return n
}
