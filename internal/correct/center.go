package correct

import (
	"math"

	"asleft/internal/assess"
	"asleft/internal/fit"
	"asleft/internal/measure"
)

// FewestPositions is the least number of positions that a centering move is
// concluded from. Common practice, no source.
const FewestPositions = 8

// Slots is the travel left each way, from where the machine stands today; nil
// where not known. A side that is blocked has a travel of zero.
type Slots struct {
	Toward, Away  *measure.Length // the motor
	Ninety, Other *measure.Length // the 90° side, the side opposite
	Blocked       []string        // directions that something stands in, by code
}

// Codes of directions in plan.
const (
	towardMotor = "toward"
	awayMotor   = "away"
	ninetySide  = "ninety"
	otherSide   = "other"
)

// block gives a direction no travel.
func (s *Slots) block(direction string) {
	none := measure.Length(0)
	for _, d := range []struct {
		name   string
		travel **measure.Length
	}{{towardMotor, &s.Toward}, {awayMotor, &s.Away}, {ninetySide, &s.Ninety}, {otherSide, &s.Other}} {
		if d.name == direction {
			*d.travel, s.Blocked = &none, append(s.Blocked, direction)
		}
	}
}

// CenterProblem is a fan that may stand off center in its cylinder.
type CenterProblem struct {
	Gaps           []Reading
	TipRadius      measure.Length  // of the blade that was carried round; 0 is not known
	Least, Most    *measure.Length // what each gap must keep; at least one
	Shimmed        Shift           // where the shims move the fan center first
	Step           measure.Length  // slides are set to whole steps
	Slots          Slots
	U              measure.Length // standard uncertainty of a gap, 0 where not known
	Segments       int            // of the cylinder, 0 where not known
	shimmedPrecise vec            // the same, not rounded; set by CellPlan
	u              []vec          // directions of the gaps; set by SolveCenter
}

// CenterPlan is the best place of the fan center.
type CenterPlan struct {
	Slide       Shift          // in whole steps, within the slots, after the shims
	Ideal       Shift          // the slide without steps and slots
	Uncertainty measure.Length // standard, of Ideal in its worst direction; 0 where not known
	// Room is how far, in the worst direction, a slide may miss Ideal before the
	// worst gap is worse by U: there centers are as good as the readings can tell.
	Room        measure.Length
	Now         []Reading      // gaps as read
	Shimmed     []Reading      // after the shims, without a slide
	After       []Reading      // after shims and slide
	MarginNow   measure.Length // of the worst gap inside its limits, negative outside
	MarginShims measure.Length
	Margin      measure.Length
	MarginIdeal measure.Length
	Floor       *measure.Length // half the roundness about the best center, mean gap free
	Cylinder    Shift           // moving the whole cylinder instead
	Wall        []WallMove      // what is left to the wall after the slide
	MeanOver    measure.Length  // mean gap after the slide, less the middle of the limits
	Enough      bool            // positions
	Binding     []assess.Code
	Notes       []assess.Code
	Certificate Certificate
	Flat        bool // other centers are as good
}

// SolveCenter finds the slide that leaves the worst gap farthest inside its
// limits: the minimax center about the middle of two limits, the largest least
// gap for a minimum alone, the smallest greatest gap for a maximum alone.
func SolveCenter(p CenterProblem) (CenterPlan, error) {
	if len(p.Gaps) < 3 || len(p.Gaps) > MaxReadings || p.Least == nil && p.Most == nil {
		return CenterPlan{}, ErrReadings
	}
	if p.Step <= 0 || p.Step > maxStep {
		return CenterPlan{}, ErrStep
	}
	p.u = directions(p.Gaps)
	ideal, err := p.solve()
	if err != nil || ideal.Status == fit.Unbounded {
		return CenterPlan{}, ErrReadings
	}
	shims := p.shims()
	best := vec{ideal.X, ideal.Y}
	slide, binding := p.slide(best.minus(shims))
	out := CenterPlan{
		Slide: slide, Binding: binding, Ideal: shiftOf(best.minus(shims)), Cylinder: slide.negative(),
		Now: p.Gaps, Shimmed: gapsAfter(p.Gaps, shims, p.TipRadius),
		After:       gapsAfter(p.Gaps, shims.plus(slide.vec()), p.TipRadius),
		Uncertainty: nearest(math.Sqrt(p.spreadOfMove(ideal)) * float64(p.U)),
		Room:        nearest(p.room(best)), Certificate: certificate(ideal, p.Gaps), Flat: ideal.Status == fit.Flat,
		Enough: len(p.Gaps) >= FewestPositions, Notes: p.notes(),
		MarginIdeal: nearest(-p.worst(best)),
	}
	out.MarginNow, out.MarginShims, out.Margin = p.margin(out.Now), p.margin(out.Shimmed), p.margin(out.After)
	p.leftover(&out)
	return out, nil
}

func (p *CenterProblem) shims() vec {
	if p.shimmedPrecise != (vec{}) {
		return p.shimmedPrecise
	}
	return p.Shimmed.vec()
}

// solve finds the best total move of the fan center, shims included.
func (p *CenterProblem) solve() (fit.Center, error) {
	theta, gaps := ring(p.Gaps)
	radius := float64(p.TipRadius)
	switch {
	case p.Most == nil:
		return fit.MaximinCenter(theta, gaps, radius, 1)
	case p.Least == nil:
		return fit.MinimaxCenter(theta, gaps, p.below(), radius, 1)
	}
	return fit.MinimaxCenter(theta, gaps, p.middle(), radius, 1)
}

// below is a gap far under all of them: the greatest deviation from it is that
// of the greatest gap.
func (p *CenterProblem) below() float64 {
	const far = 16
	least, most := extremes(p.Gaps)
	return float64(least) - float64(far*float64(most-least)) - float64(measure.Inch)
}

// middle of the limits, or the one that there is.
func (p *CenterProblem) middle() float64 {
	switch {
	case p.Least == nil:
		return float64(*p.Most)
	case p.Most == nil:
		return float64(*p.Least)
	}
	return float64(*p.Least+*p.Most) / 2
}

// worst is how far the worst gap is outside its limits after a total move m,
// negative inside. It is convex in m but for the curvature of the circle.
func (p *CenterProblem) worst(m vec) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, r := range p.Gaps {
		gap := gapAfter(float64(r.Value), p.u[i], m, float64(p.TipRadius))
		if gap < lo {
			lo = gap
		}
		if gap > hi {
			hi = gap
		}
	}
	switch {
	case p.Least == nil:
		return hi - float64(*p.Most)
	case p.Most == nil:
		return float64(*p.Least) - lo
	}
	return math.Max(hi-float64(*p.Most), float64(*p.Least)-lo)
}

// margin is the distance of the worst reading inside the limits.
func (p *CenterProblem) margin(in []Reading) measure.Length {
	least, most := extremes(in)
	switch {
	case p.Least == nil:
		return *p.Most - most
	case p.Most == nil:
		return least - *p.Least
	}
	return min(*p.Most-most, least-*p.Least)
}

// spreadOfMove is the largest variance of the move for readings of variance
// one. The move hangs on the readings that hold it, and which these are changes
// with the errors; so the variance of a least-squares fit, which uses all of
// them, is added.
func (p *CenterProblem) spreadOfMove(c fit.Center) float64 {
	theta, gaps := ring(p.Gaps)
	largest := 0.0
	if h, err := fit.FitHarmonic(theta, gaps, 1); err == nil {
		largest = eigen(h.Cov[1][1], h.Cov[1][2], h.Cov[2][2])
	}
	if len(c.Active) != 3 {
		return largest
	}
	var u [3]vec
	for k, i := range c.Active {
		if i < 0 || i >= len(p.Gaps) {
			return largest
		}
		u[k] = p.u[i]
	}
	return largest + heldBy(u, c.Sign)
}

// room looks in a ring of directions for the farthest center whose worst gap is
// within U of the best.
func (p *CenterProblem) room(best vec) float64 {
	const rays, cuts, reach = 12, 28, 1 << 12
	if p.U <= 0 {
		return 0
	}
	limit, far := p.worst(best)+float64(p.U), 0.0
	for k := range rays {
		d := direction(measure.Angle(k) * 360 * measure.Degree / rays)
		lo, hi := 0.0, float64(reach)*float64(p.U)
		for range cuts {
			if mid := (lo + hi) / 2; p.worst(best.plus(d.times(mid))) <= limit {
				lo = mid
			} else {
				hi = mid
			}
		}
		far = math.Max(far, lo)
	}
	return far
}

// heldBy is the largest variance of the move m that three readings hold: with
// σ·(c − m·u) = h at each, m = Σ w·c.
func heldBy(u [3]vec, sign []float64) float64 {
	// Two differences of the equations take h out: σ_k·u_k − σ_0·u_0 is row k.
	p := u[1].times(sign[1]).minus(u[0].times(sign[0]))
	q := u[2].times(sign[2]).minus(u[0].times(sign[0]))
	d := float64(p.x*q.y) - float64(p.y*q.x)
	if math.Abs(d) < 1e-9 {
		return 0
	}
	w1, w2 := vec{q.y, -q.x}.times(1/d), vec{-p.y, p.x}.times(1/d)
	w0 := w1.plus(w2)
	var xx, xy, yy float64
	for _, w := range []vec{w0, w1, w2} {
		xx += float64(w.x * w.x)
		xy += float64(w.x * w.y)
		yy += float64(w.y * w.y)
	}
	return eigen(xx, xy, yy)
}

// eigen is the larger eigenvalue of a symmetric matrix.
func eigen(xx, xy, yy float64) float64 {
	return (xx+yy)/2 + hypot((xx-yy)/2, xy)
}

// notes are the cautions that hang on the positions alone.
func (p *CenterProblem) notes() []assess.Code {
	var out []assess.Code
	n := len(p.Gaps)
	if n < FewestPositions {
		out = append(out, code(whyFew, numberArg("found", n), numberArg("needed", FewestPositions)))
	}
	if aliases(p.Segments, n) {
		out = append(out, code(warnAlias, numberArg("segments", p.Segments), numberArg("positions", n)))
	}
	return out
}

// aliases tells whether a cylinder of k lobes looks, at n positions, like a
// larger gap (k = jn) or like an off-center fan (k = jn ± 1), j ≥ 1.
func aliases(k, n int) bool {
	if n < 2 || k < n-1 {
		return false
	}
	r := k % n
	return r == 0 || r == 1 || r == n-1
}

// leftover splits what the slide leaves: the mean gap is blade length or
// cylinder size, the rest is the wall's, whose length stays.
func (p *CenterProblem) leftover(out *CenterPlan) {
	theta, gaps := ring(p.Gaps)
	if zone, err := fit.MinimumZone(theta, gaps, float64(p.TipRadius), 1); err == nil && zone.Status != fit.Unbounded {
		floor := nearest(zone.HalfWidth)
		out.Floor = &floor
	}
	theta, gaps = ring(out.After)
	h, err := fit.FitHarmonic(theta, gaps, 1)
	if err != nil {
		return
	}
	out.MeanOver = nearest(h.Mean - p.middle())
	for _, r := range out.After {
		in := (r.Value - nearest(h.Mean)).RoundTo(p.Step)
		out.Wall = append(out.Wall, WallMove{Position: r.Position, Degrees: r.Degrees, In: in,
			Needed: p.margin([]Reading{r}) < 0})
	}
}
