package correct

import (
	"math"

	"asleft/internal/fit"
	"asleft/internal/measure"
)

// BladeValue is a reading of one blade: a tip height or gap in nanometers, or an
// angle in the unit of measure.Angle.
type BladeValue struct {
	Blade int
	Value int64
}

// Thresholds of the hub diagnosis.
//
// Any readings are explained in part by a cycle: of B readings that are mere
// scatter, the part R² explained exceeds r with probability
// (1 − r)^((B−3)/2), the distribution of the squared multiple correlation of two
// regressors under a normal law (a beta distribution with parameters 1 and
// (B−3)/2). Four blades are so explained to nine tenths, three times in ten. The hub
// is therefore named only where scatter would do as well at most once in a
// hundred, and where what is left spreads at most half as wide as before.
const (
	cycleChance = 0.01
	cycleRest   = 0.5
)

// Cycle is one cycle per turn over blade number.
type Cycle struct {
	Named      bool  // most of the spread is the cycle: look at the hub
	Amplitude  int64 // half the spread that the cycle makes
	Blade      int   // nearest to its largest value
	Before     int64 // largest less smallest
	Rest       int64 // the same with the cycle taken out
	Explained  int64 // R², parts per million
	ByChance   int64 // probability that scatter explains as much, parts per million
	Determined bool  // enough blades to fit one: five
}

// SolveCycle fits one cycle per turn over blade number. A hub out of square to
// its shaft makes one in the tip heights, a hub off its seat or a sprung bushing
// one in the tip gaps; no shim cures either.
func SolveCycle(values []BladeValue, blades int) Cycle {
	const fewest = 5 // three unknowns, and two left to tell scatter by
	out := Cycle{Before: bladeSpread(values)}
	if len(values) < fewest || blades < len(values) || blades > MaxReadings {
		return out
	}
	theta, y := make([]float64, len(values)), make([]float64, len(values))
	mean := 0.0
	for i, v := range values {
		theta[i] = 2 * math.Pi * float64(v.Blade-1) / float64(blades)
		y[i] = float64(v.Value)
		mean += y[i] / float64(len(values))
	}
	h, err := fit.FitHarmonic(theta, y, 1)
	if err != nil {
		return out
	}
	out.Determined = true
	out.describe(h, y, mean)
	out.Blade = nearestBlade(values, blades, h.First().Phase())
	return out
}

func (c *Cycle) describe(h fit.Harmonic, y []float64, mean float64) {
	total, lo, hi := 0.0, math.Inf(1), math.Inf(-1)
	for i, v := range y {
		total += float64((v - mean) * (v - mean))
		lo, hi = math.Min(lo, h.Residuals[i]), math.Max(hi, h.Residuals[i])
	}
	if total <= 0 {
		return
	}
	left := math.Min(h.RSS/total, 1)
	chance := math.Pow(left, float64(len(y)-3)/2)
	c.Amplitude, c.Rest = int64(nearest(h.First().Amplitude())), int64(nearest(hi-lo))
	c.Explained, c.ByChance = int64(math.Round((1-left)*1e6)), int64(math.Round(chance*1e6))
	c.Named = chance <= cycleChance && hi-lo <= cycleRest*float64(c.Before)
}

// nearestBlade is the blade whose place is nearest to the angle.
func nearestBlade(values []BladeValue, blades int, phase float64) int {
	best, nearestBy := 0, math.Inf(-1)
	for _, v := range values {
		a := measure.Angle(v.Blade-1) * 360 * measure.Degree / measure.Angle(blades)
		if c := direction(a).dot(vec{math.Cos(phase), math.Sin(phase)}); c > nearestBy+1e-9 {
			best, nearestBy = v.Blade, c
		}
	}
	return best
}

func bladeSpread(values []BladeValue) int64 {
	var lo, hi int64
	for i, v := range values {
		if i == 0 || v.Value < lo {
			lo = v.Value
		}
		if i == 0 || v.Value > hi {
			hi = v.Value
		}
	}
	return hi - lo
}
