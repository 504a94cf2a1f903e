package correct

import (
	"math"
	"slices"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// box is where the slide may go: within the slots, or within reach where a slot
// is not known.
type box struct{ lo, hi vec }

func (b box) holds(v vec) bool {
	return v.x >= b.lo.x && v.x <= b.hi.x && v.y >= b.lo.y && v.y <= b.hi.y
}

// box of the slots; reach is more than any useful slide.
func (s Slots) box(reach float64) box {
	side := func(l *measure.Length) float64 {
		if l == nil {
			return reach
		}
		return float64(max(*l, 0))
	}
	return box{vec{-side(s.Away), -side(s.Other)}, vec{side(s.Toward), side(s.Ninety)}}
}

// slide turns the wanted slide into whole steps within the slots, and says which
// slots bind. The worst gap is a convex function of the slide, so with the
// wanted one outside, the best allowed one is on the edge.
func (p *CenterProblem) slide(want vec) (Shift, []assess.Code) {
	const reach = 4
	b := p.Slots.box(float64(reach*want.length()) + float64(reach*p.Step))
	best := want
	var binding []assess.Code
	if !b.holds(want) {
		best = p.onEdge(b)
		binding = p.Slots.binding(b, want, best)
	}
	return p.wholeSteps(best, b), binding
}

// binding names the slots whose end the slide stands at.
func (s Slots) binding(b box, want, got vec) []assess.Code {
	var out []assess.Code
	for _, e := range []struct {
		binds  bool
		name   string
		travel *measure.Length
	}{
		{want.x > b.hi.x && got.x >= b.hi.x-1, towardMotor, s.Toward},
		{want.x < b.lo.x && got.x <= b.lo.x+1, awayMotor, s.Away},
		{want.y > b.hi.y && got.y >= b.hi.y-1, ninetySide, s.Ninety},
		{want.y < b.lo.y && got.y <= b.lo.y+1, otherSide, s.Other},
	} {
		switch {
		case !e.binds || e.travel == nil:
		case slices.Contains(s.Blocked, e.name):
			out = append(out, code(bindSide, textArg("direction", e.name)))
		default:
			out = append(out, code(bindSlot, textArg("direction", e.name), lengthArg("travel", *e.travel)))
		}
	}
	return out
}

// onEdge minimizes the worst gap along each side of the box.
func (p *CenterProblem) onEdge(b box) vec {
	at := p.shims()
	best, least := vec{}, math.Inf(1)
	for _, side := range [][2]vec{
		{b.lo, {b.hi.x, b.lo.y}}, {{b.lo.x, b.hi.y}, b.hi}, {b.lo, {b.lo.x, b.hi.y}}, {{b.hi.x, b.lo.y}, b.hi},
	} {
		v := lowest(side[0], side[1], func(v vec) float64 { return p.worst(at.plus(v)) })
		if w := p.worst(at.plus(v)); w < least {
			best, least = v, w
		}
	}
	return best
}

// lowest finds the minimum of a convex function on a segment by thirds, to well
// under a nanometer.
func lowest(a, b vec, f func(vec) float64) vec {
	const cuts = 160 // (2/3)¹⁶⁰ of a meter is nothing
	for range cuts {
		d := b.minus(a).times(1.0 / 3)
		if c, e := a.plus(d), b.minus(d); f(c) <= f(e) {
			b = e
		} else {
			a = c
		}
	}
	return a.plus(b).times(0.5)
}

// Whole steps tried each way from the best place. The worst gap may fall off
// gently one way and steeply the other, so the best whole step can be many
// steps away.
const (
	stepRows = 8
	stepsIn  = 64
)

// wholeSteps takes the best of the whole steps near a place, within the box; of
// equal ones the shortest slide. In each row of steps the worst gap is convex.
func (p *CenterProblem) wholeSteps(near vec, b box) Shift {
	step, at := float64(p.Step), p.shims()
	worst := func(i, j float64) float64 { return p.worst(at.plus(vec{float64(i * step), float64(j * step)})) }
	ci, cj := math.Round(near.x/step), math.Round(near.y/step)
	best, least, shortest := Shift{}, math.Round(p.worst(at)), 0.0
	rowLo, rowHi := math.Max(ci-stepRows, math.Ceil(b.lo.x/step)), math.Min(ci+stepRows, math.Floor(b.hi.x/step))
	for i := rowLo; i <= rowHi; i++ {
		lo, hi := math.Max(cj-stepsIn, math.Ceil(b.lo.y/step)), math.Min(cj+stepsIn, math.Floor(b.hi.y/step))
		if lo > hi {
			continue
		}
		j := lowestStep(lo, hi, func(j float64) float64 { return worst(i, j) })
		v := vec{float64(i * step), float64(j * step)}
		w, l := math.Round(worst(i, j)), v.length()
		if w < least || w == least && l < shortest {
			best, least, shortest = shiftOf(v), w, l
		}
	}
	return best
}

// lowestStep finds the whole number from lo to hi where a convex function is
// least, by halving on the sign of its slope.
func lowestStep(lo, hi float64, f func(float64) float64) float64 {
	for lo < hi {
		mid := math.Floor((lo + hi) / 2)
		if f(mid) <= f(mid+1) {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo
}
