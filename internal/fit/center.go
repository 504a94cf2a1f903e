package fit

import (
	"errors"
	"fmt"
	"math"
)

// A Status says how far a center is determined.
type Status uint8

// The statuses.
const (
	Optimal   Status = iota + 1 // the one best center
	Flat                        // others are as good to first order; this one is nearest the old center
	Unbounded                   // no finite best center: the positions do not surround it
)

// String returns an English word.
func (s Status) String() string {
	switch s {
	case Optimal:
		return "optimal"
	case Flat:
		return "flat"
	case Unbounded:
		return "unbounded"
	}
	return "no status"
}

// A Center is the answer of a center problem, in the units of its input.
type Center struct {
	X, Y      float64 // the move m of the center; X toward angle 0
	Mean      float64 // MinimumZone: the middle distance; MinimaxCenter: the nominal; MaximinCenter: the least distance
	HalfWidth float64 // the greatest deviation from Mean after the move; 0 for MaximinCenter
	// Active, Sign and Multipliers are the certificate: the positions that
	// hold the center, whether each is at its high (+1) or low (−1) side, and
	// weights λ ≥ 0 that sum to 1.
	Active      []int
	Sign        []float64
	Multipliers []float64
	Gap         float64 // how much better, at most, another center could be
	Iterations  int     // linearizations
	Status      Status
}

// MaxPositions bounds the positions of one problem.
const MaxPositions = 720

// Errors of the center solvers. Errors of input wrap ErrInput.
var (
	ErrInput         = errors.New("bad input")
	ErrNotConverged  = errors.New("center did not settle")
	ErrUncertified   = errors.New("center failed its optimality check")
	errEmptyOrUneven = fmt.Errorf("%w: need as many distances as angles, at least one", ErrInput)
)

// A goal says which distances a problem drives toward what.
type goal struct {
	nominal  float64 // of minimax
	freeMean bool    // minimum zone: the nominal is an unknown
	lowOnly  bool    // maximin: raise the least distance
}

// MinimaxCenter finds the move m of the center that minimizes the greatest
// deviation
//
//	max_i |d_i(m) − nominal|
//
// where d_i(m) is the distance, beyond radius, from the moved center to the
// point that stands at angle theta[i] and distance radius + c[i] from the old
// one:
//
//	d_i(m) = |(radius + c_i)·u(theta_i) − m| − radius ≈ c_i − m·u(theta_i)
//
// A radius that is not positive, or is infinite, selects the linear form on the
// right. The exact form is linearized again until the center moves less than
// tol. tol also bounds the certificate's Gap: 1 nm, in the units of c.
//
// Where two opposite positions decide alone, the center is free sideways to
// first order. The answer is then the nearest such center, with status Flat;
// leaving it could gain |m|²/radius at most, a second-order amount.
func MinimaxCenter(theta, c []float64, nominal, radius, tol float64) (Center, error) {
	return solveCenter(theta, c, goal{nominal: nominal}, radius, tol)
}

// MinimumZone finds the center of the narrowest ring that holds all points, the
// minimum zone of ISO 12181-1: it minimizes max_i |d_i(m) − mean| over both m
// and mean. Twice HalfWidth is the roundness RONt about the minimum zone
// center. See [MinimaxCenter] for the arguments. Fewer than three distinct
// positions are refused: any ring holds them.
func MinimumZone(theta, c []float64, radius, tol float64) (Center, error) {
	if n := distinct(theta); n < 3 && len(theta) > 0 {
		return Center{}, fmt.Errorf("%w: %d distinct positions, a ring needs 3", ErrInput, n)
	}
	return solveCenter(theta, c, goal{freeMean: true}, radius, tol)
}

// MaximinCenter finds the center of the largest circle that fits inside: it
// maximizes min_i d_i(m), which is returned as Mean. See [MinimaxCenter] for
// the arguments. If the positions do not surround the center the status is
// Unbounded.
func MaximinCenter(theta, c []float64, radius, tol float64) (Center, error) {
	return solveCenter(theta, c, goal{lowOnly: true}, radius, tol)
}

// Bounds of the linearization loop.
const (
	maxLinearizations = 100
	// reach is the largest move considered, in multiples of the spread of the
	// distances. A best move is below about twice the spread unless the
	// positions are nearly all on one side.
	reach = 1000
	// shrink is how a step that made things worse shortens the next one.
	shrink = 0.5
	// settled is the part of the tolerance below which a step is no longer
	// taken, so that what is left of it cannot fail the certificate.
	settled = 1.0 / 64
	// noise is the relative rounding error of a distance, with room.
	noise = 16 * 0x1p-53
)

// solveCenter checks the input and solves. If the curvature of the distances
// keeps the center from settling, the answer to first order is given instead,
// as Flat.
func solveCenter(theta, c []float64, g goal, radius, tol float64) (Center, error) {
	p, err := newPoints(theta, c, radius)
	if err != nil {
		return Center{}, err
	}
	if !finite(g.nominal) || !(tol > 0) || math.IsInf(tol, 0) {
		return Center{}, fmt.Errorf("%w: nominal and tolerance must be finite, tolerance positive", ErrInput)
	}
	out, err := p.settle(g, tol)
	if err != nil && !p.linear {
		p.frozen = true
		out, err = p.settle(g, tol)
	}
	return out, err
}

// settle runs the linearizations: from the present center, the problem with
// straight distances is solved within a box; a step that lowers the true
// objective is taken, another one shortens the box. With frozen gradients every
// step is taken: they bring the center closer by the factor |m|/radius each, and
// sideways too, where the objective says nothing. (With a free mean only two
// readings at one position leave a freedom, and any center will do.)
func (p points) settle(g goal, tol float64) (Center, error) {
	scale := p.scale(g)
	box := reach * scale
	floor := noise * (scale + p.radius + math.Abs(p.c[0]))
	m := [2]float64{}
	for n := 1; n <= maxLinearizations; n++ {
		s, err := p.step(m, g, box, scale)
		if err != nil {
			return Center{}, err
		}
		if n == 1 {
			if s.onBox {
				return Center{Status: Unbounded, Iterations: n}, nil
			}
			p.frozen = p.frozen || s.flat && !p.linear
		}
		next := [2]float64{m[0] + s.move[0], m[1] + s.move[1]}
		before, after := p.objective(m, g), p.objective(next, g)
		length := math.Max(math.Abs(s.move[0]), math.Abs(s.move[1]))
		switch {
		case length < settled*tol || before-s.h <= floor && (!p.frozen || g.freeMean):
			return p.certified(m, g, s, n, tol)
		case after < before || p.frozen:
			m = next
		default:
			box = shrink * length
		}
	}
	return Center{}, ErrNotConverged
}

// certified builds the answer and lets nothing out that does not check.
func (p points) certified(m [2]float64, g goal, s step, n int, tol float64) (Center, error) {
	out := Center{X: m[0], Y: m[1], Iterations: n, Status: Optimal,
		Active: s.active, Sign: s.sign, Multipliers: s.lambda}
	out.Mean, out.HalfWidth = p.middle(m, g)
	if p.frozen || s.flat {
		out.Status = Flat
	}
	out.Gap = p.gap(out, g)
	if !(out.Gap <= tol) {
		return Center{}, fmt.Errorf("%w: another center may be better by %g", ErrUncertified, out.Gap)
	}
	return out, nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
