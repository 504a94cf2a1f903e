package correct

import (
	"math"
	"slices"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// Parts of the search over feet that are no lattice.
const (
	offsets = 16 // fractions of a step tried for the height of the plane
	weaker  = 20 // fractions of the ideal slope tried where stacks would get too many pieces
)

// irregular shims feet that are neither three nor a parallelogram: heights on
// the ideal plane, each rounded to a whole step, so that a foot may stand a
// little out of the plane through all of them. The plane that results is the
// one fitted to the rounded heights by least squares.
func (p *ShimProblem) irregular(ideal vec) ShimPlan {
	g := p.clipped(ideal)
	out, n := p.weakest(g, allRules)
	out.Binding = p.planeBinding(g, n)
	if p.Level != nil && g != ideal {
		for _, d := range []struct {
			clipped bool
			name    string
		}{{g.x != ideal.x, "along"}, {g.y != ideal.y, "across"}} {
			if d.clipped {
				out.Binding = append(out.Binding, code(bindLevel, textArg("direction", d.name)))
			}
		}
	}
	return out
}

// weakest is the plan with as much of the slope as the rules allow, and how much
// that is; nothing is always allowed.
func (p *ShimProblem) weakest(g vec, r rules) (ShimPlan, int) {
	out := p.state(make([]measure.Length, len(p.Feet)), vec{}, 0)
	for n := weaker; n > 0; n-- {
		if plan, ok := p.onPlane(g.times(float64(n)/weaker), r); ok && spread(plan.Drops) < spread(out.Drops) {
			return plan, n
		}
	}
	return out, 0
}

// planeBinding names the rules without which more of the slope could be taken
// out.
func (p *ShimProblem) planeBinding(g vec, got int) []assess.Code {
	more := func(r rules) bool {
		_, n := p.weakest(g, r)
		return n > got
	}
	var out []assess.Code
	if p.MaxPieces > 0 && more(rules{true, false, true, true}) {
		out = append(out, code(bindPieces, numberArg("pieces", p.MaxPieces)))
	}
	if p.builder.stock != nil && more(rules{true, true, false, true}) {
		out = append(out, code(bindStock))
	}
	if p.fixed() && more(rules{true, true, true, false}) {
		out = append(out, p.fixedCodes()...)
	}
	return out
}

// clipped keeps the slope within what the level allows each way.
func (p *ShimProblem) clipped(g vec) vec {
	if p.Level == nil {
		return g
	}
	room := func(want float64, now measure.Slope) float64 {
		limit := math.Max(p.Level.Limit.Abs().Float(), now.Abs().Float())
		return math.Max(-limit-now.Float(), math.Min(limit-now.Float(), want))
	}
	return vec{room(g.x, p.Level.Along), room(g.y, p.Level.Across)}
}

// onPlane rounds heights on a plane of slope g; of the offsets tried it takes
// the one whose worst foot is least out of plane. The highest corner gets
// nothing. False where a stack gets too many pieces, or the rounded plane takes
// the level outside.
func (p *ShimProblem) onPlane(g vec, r rules) (ShimPlan, bool) {
	var best ShimPlan
	least := math.Inf(1)
	for k := range offsets {
		changes, heights := p.rounded(g, float64(k)/offsets, r)
		real, c, worst, off := plane(p.Feet, heights)
		plan := p.state(changes, real, c)
		if math.Abs(off) >= least || !p.permits(changes, real, r) {
			continue
		}
		least = math.Abs(off)
		plan.OutOfPlane, plan.OutOfFoot = nearest(off), p.Feet[worst].Number
		best = plan
	}
	return best, !math.IsInf(least, 1)
}

// rounded gives the foot that needs least nothing, or one that must stay as it is.
func (p *ShimProblem) rounded(g vec, offset float64, r rules) (changes []measure.Length, heights []float64) {
	steps, least := make([]int64, len(p.Feet)), int64(math.MaxInt64)
	for k, f := range p.Feet {
		h := g.dot(vec{float64(f.Along), float64(f.Across)})
		steps[k] = int64(math.Round(h/float64(p.Step) + offset))
		least = min(least, steps[k])
	}
	if k := slices.IndexFunc(p.Feet, func(f Foot) bool { return f.Fixed }); k >= 0 && r.fixed {
		least = steps[k]
	}
	for _, s := range steps {
		change := measure.Length(s-least) * p.Step
		changes, heights = append(changes, change), append(heights, float64(change))
	}
	return changes, heights
}

func (p *ShimProblem) permits(changes []measure.Length, g vec, r rules) bool {
	for k, f := range p.Feet {
		if changes[k] == 0 {
			continue
		}
		n, made := p.builder.pieces(f, changes[k])
		switch {
		case f.Now+changes[k] < 0, r.fixed && f.Fixed, r.stock && !made:
			return false
		case r.pieces && p.MaxPieces > 0 && n > p.MaxPieces:
			return false
		}
	}
	if p.Level == nil {
		return true
	}
	over := func(now measure.Slope, added float64) bool {
		limit := math.Max(p.Level.Limit.Abs().Float(), now.Abs().Float())
		return math.Abs(now.Float()+added) > limit
	}
	return !over(p.Level.Along, g.x) && !over(p.Level.Across, g.y)
}
