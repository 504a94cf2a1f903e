package correct

import (
	"math"

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
	out := p.state(make([]measure.Length, len(p.Feet)), vec{}, 0)
	for n := weaker; n > 0; n-- {
		plan, ok := p.onPlane(g.times(float64(n) / weaker))
		if !ok || spread(plan.Drops) >= spread(out.Drops) {
			continue
		}
		out = plan
		if n < weaker {
			out.Binding = append(out.Binding, code(bindPieces, numberArg("pieces", p.MaxPieces)))
		}
		break
	}
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
func (p *ShimProblem) onPlane(g vec) (ShimPlan, bool) {
	var best ShimPlan
	least := math.Inf(1)
	for k := range offsets {
		changes, heights := p.rounded(g, float64(k)/offsets)
		real, c, worst, off := plane(p.Feet, heights)
		plan := p.state(changes, real, c)
		if math.Abs(off) >= least || !p.permits(plan, real) {
			continue
		}
		least = math.Abs(off)
		plan.OutOfPlane, plan.OutOfFoot = nearest(off), p.Feet[worst].Number
		best = plan
	}
	return best, !math.IsInf(least, 1)
}

func (p *ShimProblem) rounded(g vec, offset float64) (changes []measure.Length, heights []float64) {
	steps, least := make([]int64, len(p.Feet)), int64(math.MaxInt64)
	for k, f := range p.Feet {
		h := g.dot(vec{float64(f.Along), float64(f.Across)})
		steps[k] = int64(math.Round(h/float64(p.Step) + offset))
		least = min(least, steps[k])
	}
	for _, s := range steps {
		change := measure.Length(s-least) * p.Step
		changes, heights = append(changes, change), append(heights, float64(change))
	}
	return changes, heights
}

func (p *ShimProblem) permits(plan ShimPlan, g vec) bool {
	for _, f := range plan.Feet {
		if p.MaxPieces > 0 && f.Change != 0 && f.Pieces > p.MaxPieces {
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
