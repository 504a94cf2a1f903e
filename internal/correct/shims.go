package correct

import (
	"errors"
	"math"

	"asleft/internal/assess"
	"asleft/internal/fit"
	"asleft/internal/measure"
)

// ShimProblem is a fan that is not level and what can be shimmed under it.
type ShimProblem struct {
	Drops     []Reading        // how far one blade passes below a level plane
	Radius    measure.Length   // of the ring where they were read
	Feet      []Foot           // clockwise from the motor
	Step      measure.Length   // thinnest shim
	MaxPieces int              // in one stack; 0 is no limit
	Stock     []measure.Length // thicknesses at hand; nil are the usual ones
	Level     *OwnLevel        // nil where not known
	builder   builder          // set by SolveShims
}

// ShimPlan is the best change of shims.
type ShimPlan struct {
	Feet         []FootChange
	Taken        Lean           // slope taken out of the drops; the support rises by it toward the low side
	Raised       measure.Length // at the fan's axis
	Drops        []Reading      // predicted
	Before       measure.Length // largest less smallest drop
	After        measure.Length
	Floor        measure.Length // best largest less smallest of any slope at all
	Ideal        Lean           // slope with which the floor is reached
	OutOfPlane   measure.Length // rise or drop of the worst foot out of the others' plane; 0 where coplanar
	OutOfFoot    int
	Binding      []assess.Code // limits without which the plan would be better
	Certificate  Certificate   // of the floor
	taken        vec
	changedAtAll bool
}

// Changes tells whether the plan changes any stack.
func (p *ShimPlan) Changes() bool { return p.changedAtAll }

// Errors of problems that have no answer.
var (
	ErrFeet     = errors.New("feet do not hold a plane")
	ErrStep     = errors.New("no positive shim step")
	ErrReadings = errors.New("readings do not decide a slope or a center")
)

// sameSpread is how far two plans' largest less smallest may differ and still
// count as equal, so that the one that disturbs less is taken: a tenth of a
// thousandth, below all that is read or printed of a tilt. Common practice, no
// source.
const sameSpread = measure.Thou / 10

// Bounds on input and on the search.
const (
	MaxReadings = fit.MaxPositions
	maxWindow   = 400  // steps each way from the ideal
	maxLifts    = 4000 // lifts tried for one pair of slopes
	maxExtra    = 100  // and those that raise all feet
	maxStep     = measure.Meter
)

// SolveShims finds the stacks that level the fan. Drops h0 + a·cos θ + b·sin θ
// fall by R·g·u(θ) + c when the support rises by g·p + c at p, so the best
// slope takes out the center of the narrowest ring that holds the drops: that
// is the minimum zone of the drops, to first order. Around it all pairs of whole
// steps are tried that could be better than the best so far.
func SolveShims(p ShimProblem) (ShimPlan, error) {
	if err := p.check(); err != nil {
		return ShimPlan{}, err
	}
	p.builder = newBuilder(p.Step, p.Stock)
	ideal, zone, err := p.ideal()
	if err != nil {
		return ShimPlan{}, err
	}
	var out ShimPlan
	if l, ok := newLattice(p.Feet, p.Step); ok {
		out = p.search(l, ideal, float64(2*zone.HalfWidth))
	} else {
		out = p.irregular(ideal)
	}
	out.Before = spread(p.Drops)
	out.After = spread(out.Drops)
	out.Ideal = leanOf(ideal)
	out.Floor = nearest(2 * zone.HalfWidth)
	out.Certificate = certificate(zone, p.Drops)
	return out, nil
}

func (p *ShimProblem) check() error {
	switch {
	case p.Step <= 0 || p.Step > maxStep:
		return ErrStep
	case len(p.Feet) > MaxFeet || narrow(p.Feet):
		return ErrFeet
	case len(p.Drops) < 3 || len(p.Drops) > MaxReadings || p.Radius <= 0:
		return ErrReadings
	}
	for _, f := range p.Feet {
		if f.Now < 0 || f.Now > maxStep {
			return ErrFeet
		}
	}
	return nil
}

// ideal is the slope that no step, stack or level limits.
func (p *ShimProblem) ideal() (vec, fit.Center, error) {
	theta, drops := ring(p.Drops)
	zone, err := fit.MinimumZone(theta, drops, 0, 1)
	if err != nil || zone.Status == fit.Unbounded {
		return vec{}, fit.Center{}, ErrReadings
	}
	return vec{zone.X, zone.Y}.times(1 / float64(p.Radius)), zone, nil
}

// after returns the drops once the support has risen by g·p + c.
func (p *ShimProblem) after(g vec, c float64) []Reading {
	out := make([]Reading, len(p.Drops))
	for i, r := range p.Drops {
		out[i] = r
		out[i].Value = nearest(float64(r.Value) - c - float64(float64(p.Radius)*g.dot(direction(r.Degrees))))
	}
	return out
}

// hubShift is where the fan center goes when the support rises by g: away from
// the side that is raised, by its height above the shims.
func hubShift(height measure.Length, g vec) vec { return g.times(-float64(height)) }

// certificate turns the weights of a center into whole numbers.
func certificate(c fit.Center, in []Reading) Certificate {
	const parts = 1e9
	out := Certificate{Gap: nearest(math.Ceil(c.Gap))}
	for k, i := range c.Active {
		if i < 0 || i >= len(in) {
			continue // a side of the search box, which holds no answer
		}
		out.Positions = append(out.Positions, in[i].Position)
		out.Sides = append(out.Sides, int(c.Sign[k]))
		out.Weights = append(out.Weights, int64(math.Round(c.Multipliers[k]*parts)))
	}
	return out
}
