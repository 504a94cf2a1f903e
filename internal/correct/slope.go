package correct

import (
	"math"

	"asleft/internal/measure"
)

// Lean is a slope in plan: along, positive up (or, of drops, down) toward the
// motor; across, toward the 90° side.
type Lean struct{ Along, Across measure.Slope }

// slopeRun is the run over which a computed slope is rounded once: 1 km, so
// that its rise in nanometers counts parts in 10¹².
const slopeRun = 1000 * measure.Meter

func leanOf(g vec) Lean { return Lean{slopeOf(g.x), slopeOf(g.y)} }

// slopeOf rounds a slope once. What is no slope of a machine (above 1, NaN) is
// zero, as in nearest.
func slopeOf(x float64) measure.Slope {
	if !(math.Abs(x) <= 1) {
		return measure.Slope{Rise: 0, Run: slopeRun}
	}
	return measure.Slope{Rise: nearest(x * float64(slopeRun)), Run: slopeRun}
}

func (l Lean) vec() vec { return vec{l.Along.Float(), l.Across.Float()} }
