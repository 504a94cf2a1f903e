package assess

import (
	"math"

	"asleft/internal/fit"
)

// conformance is the probability, in parts per million, that the true value
// lies in the window, given one measured y of standard uncertainty u:
//
//	p = Φ((hi − y)/u) − Φ((lo − y)/u)
//
// (JCGM 106:2012, 7.3 and 7.4, values from memory; a normal distribution, and
// nothing known beforehand). It is stated, and no verdict hangs on it. False
// where the uncertainty is not known.
func conformance(y int64, u uncertainty, w window) (int64, bool) {
	if !u.known() || u.variance.Sign() <= 0 {
		return 0, false
	}
	variance, _ := u.variance.Float64()
	below, above := 0.0, 1.0
	if w.hasLo {
		below = fit.NormalCDF(float64(w.lo-y) / math.Sqrt(variance))
	}
	if w.hasHi {
		above = fit.NormalCDF(float64(w.hi-y) / math.Sqrt(variance))
	}
	return int64(math.Round((above - below) * 1_000_000)), true
}
