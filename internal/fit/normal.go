package fit

import "math"

// NormalCDF returns Φ(x), the probability that a standard normal variable is at
// most x: ½·erfc(−x/√2) (Abramowitz and Stegun, Handbook of Mathematical
// Functions, 26.2.29). It keeps its relative accuracy in the lower tail. It is
// for probabilities that are rounded to a few digits: math.Erfc may differ
// between targets in the last place.
func NormalCDF(x float64) float64 {
	return math.Erfc(-x/math.Sqrt2) / 2
}
