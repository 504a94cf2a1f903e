package assess

import (
	"math"
	"math/big"

	"asleft/internal/fit"
)

// conformance is the probability, in parts per million, that the true value
// lies in a window, given one measured y of standard uncertainty u:
//
//	p = Φ((hi − y)/u) − Φ((lo − y)/u)
//
// (JCGM 106:2012, 7.3 and 7.4, values from memory; a normal distribution, and
// nothing known beforehand). It is stated, and no verdict hangs on it. The two
// distances are infinite where a side is open. False where the uncertainty is
// not known.
func conformance(toLow, toHigh float64, u uncertainty) (int64, bool) {
	if !u.known() || u.variance.Sign() <= 0 {
		return 0, false
	}
	deviation := u.deviation()
	p := fit.NormalCDF(toHigh/deviation) - fit.NormalCDF(toLow/deviation)
	return int64(math.Round(p * 1_000_000)), true
}

// from gives the distances to the two sides of the window.
func (w window) from(y int64) (toLow, toHigh float64) {
	toLow, toHigh = math.Inf(-1), math.Inf(1)
	if w.hasLo {
		toLow = float64(w.lo - y)
	}
	if w.hasHi {
		toHigh = float64(w.hi - y)
	}
	return toLow, toHigh
}

// from gives the distances to the two sides of the bounds.
func (b bounds) from(y *big.Rat) (toLow, toHigh float64) {
	toLow, toHigh = math.Inf(-1), math.Inf(1)
	if b.lo != nil {
		toLow, _ = new(big.Rat).Sub(b.lo, y).Float64()
	}
	if b.hi != nil {
		toHigh, _ = new(big.Rat).Sub(b.hi, y).Float64()
	}
	return toLow, toHigh
}

// stateConformance adds the probability to a round.
func (r *Round) stateConformance(toLow, toHigh float64, u uncertainty) {
	if p, ok := conformance(toLow, toHigh, u); ok {
		r.Results = append(r.Results, Result{"conformance", Amount{Kind: KindRatio, N: p}, 0})
	}
}
