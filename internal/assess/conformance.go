package assess

import (
	"math"
	"math/big"

	"asleft/internal/fit"
)

// conformance is the probability, in parts per million, that the true value
// lies within the bounds, given one measured y of standard uncertainty u:
//
//	p = Φ((hi − y)/u) − Φ((lo − y)/u)
//
// (JCGM 106:2012, 7.3 and 7.4, values from memory; a normal distribution, and
// nothing known beforehand). It is stated, and no verdict hangs on it. False
// where the uncertainty is not known.
func conformance(y *big.Rat, u uncertainty, b bounds) (int64, bool) {
	if !u.known() || u.variance.Sign() <= 0 {
		return 0, false
	}
	variance, _ := u.variance.Float64()
	z := func(bound *big.Rat) float64 {
		d, _ := new(big.Rat).Sub(bound, y).Float64()
		return d / math.Sqrt(variance)
	}
	below, above := 0.0, 1.0
	if b.lo != nil {
		below = fit.NormalCDF(z(b.lo))
	}
	if b.hi != nil {
		above = fit.NormalCDF(z(b.hi))
	}
	return int64(math.Round((above - below) * 1_000_000)), true
}
