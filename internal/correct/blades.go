package correct

import (
	"math"
	"slices"

	"asleft/internal/fit"
)

// BladeProblem is a set of blades that spread too wide. All values are whole
// numbers of one unit.
type BladeProblem struct {
	Blades []BladeValue
	Width  int64 // largest less smallest that is allowed
	// Least and Most are what every blade must keep for another check: the gap
	// with which it still clears the wall, the set angle less and plus its
	// tolerance. LongestMost is the greatest that the smallest value may be: with
	// it the longest blade still has no gap above its limit. Nil is no limit.
	Least, Most, LongestMost *int64
	Target                   *int64 // where touched blades are set; nil is the middle
	Step                     int64  // changes are whole steps where that is near enough
}

// BladePlan is the fewest blades to touch.
type BladePlan struct {
	Touch         []BladeSet // worst first
	Keep          []int      // blade numbers
	Before, After int64      // largest less smallest
	Possible      bool       // false: no blade can be kept under the conditions
	Conditioned   bool       // the conditions cost at least one blade more
}

// BladeSet is what a blade is set to.
type BladeSet struct {
	Blade            int
	Now, Change, New int64
}

// SolveBlades keeps as many blades as possible: those in the fullest window of
// the allowed width among the ones that meet the conditions by themselves.
func SolveBlades(p BladeProblem) BladePlan {
	out := BladePlan{Before: bladeSpread(p.Blades), After: bladeSpread(p.Blades)}
	if len(p.Blades) > MaxReadings || p.Width < 0 {
		return out
	}
	free := p.Least == nil && p.Most == nil && p.LongestMost == nil
	keep := p.keep()
	if len(keep) == 0 {
		return out
	}
	out.Possible = true
	if !free {
		bare := BladeProblem{Blades: p.Blades, Width: p.Width}
		out.Conditioned = len(bare.keep()) > len(keep)
	}
	p.set(keep, &out)
	return out
}

// keep returns indices of the blades that stay.
func (p *BladeProblem) keep() []int {
	var able []int
	for i, v := range p.Blades {
		if (p.Least == nil || v.Value >= *p.Least) && (p.Most == nil || v.Value <= *p.Most) {
			able = append(able, i)
		}
	}
	best := p.window(able)
	if p.LongestMost == nil || len(best) == 0 || p.least(best) <= *p.LongestMost {
		return best
	}
	// The fullest window leaves the longest blade too short: look at every one
	// that begins low enough.
	best = nil
	for _, i := range able {
		if p.Blades[i].Value > *p.LongestMost {
			continue
		}
		var from []int
		for _, k := range able {
			if d := p.Blades[k].Value - p.Blades[i].Value; d >= 0 && d <= p.Width {
				from = append(from, k)
			}
		}
		if w := p.window(from); len(w) > len(best) {
			best = w
		}
	}
	return best
}

func (p *BladeProblem) window(among []int) []int {
	values := make([]int64, len(among))
	for k, i := range among {
		values[k] = p.Blades[i].Value
	}
	_, _, in := fit.TightestWindow(values, p.Width)
	out := make([]int, len(in))
	for k, i := range in {
		out[k] = among[i]
	}
	return out
}

func (p *BladeProblem) least(in []int) int64 {
	least := int64(math.MaxInt64)
	for _, i := range in {
		least = min(least, p.Blades[i].Value)
	}
	return least
}

// set gives every other blade a value that all of them can have together.
func (p *BladeProblem) set(keep []int, out *BladePlan) {
	lo, hi := p.least(keep), int64(math.MinInt64)
	for _, i := range keep {
		hi = max(hi, p.Blades[i].Value)
		out.Keep = append(out.Keep, p.Blades[i].Blade)
	}
	target := lo + (hi-lo)/2
	if p.Target != nil {
		target = *p.Target
	}
	// One window of the allowed width, about the target, that holds what is kept:
	// the touched blades must lie near each other as well.
	from := min(max(target-p.Width/2, hi-p.Width), lo)
	least, most := from, from+p.Width
	if p.Least != nil {
		least = max(least, *p.Least)
	}
	if p.Most != nil {
		most = min(most, *p.Most)
	}
	target = min(max(target, least), most)
	after := slices.Clone(p.Blades)
	for i, v := range p.Blades {
		if slices.Contains(keep, i) {
			continue
		}
		s := BladeSet{Blade: v.Blade, Now: v.Value, New: p.settable(v.Value, target, least, most)}
		s.Change = s.New - s.Now
		after[i].Value = s.New
		out.Touch = append(out.Touch, s)
	}
	out.After = bladeSpread(after)
	slices.SortStableFunc(out.Touch, func(a, b BladeSet) int {
		return int(max(-1, min(1, distance(b.Change)-distance(a.Change))))
	})
}

// settable is the value a whole number of steps from now that is nearest to the
// target and still allowed, or the target where the step is too coarse.
func (p *BladeProblem) settable(now, target, least, most int64) int64 {
	if p.Step <= 0 {
		return target
	}
	steps := int64(math.Round(float64(target-now) / float64(p.Step)))
	for _, n := range []int64{steps, steps - 1, steps + 1} {
		if v := now + n*p.Step; v >= least && v <= most {
			return v
		}
	}
	return target
}

func distance(n int64) int64 { return max(n, -n) }
