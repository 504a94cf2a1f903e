package screen

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// agreeing is the chance that two readings come out alike whose true values
// differ by a normal amount of standard deviation tau, in steps of the scale,
// and lie anywhere between its marks: the mean of max(0, 1−|d|).
func agreeing(tau float64) float64 {
	if !(tau > 0) {
		return 1
	}
	return math.Erf(1/(tau*math.Sqrt2)) + tau*math.Sqrt(2/math.Pi)*math.Expm1(-1/(2*tau*tau))
}

// confidence is how surely a share of equal readings is as small as it is taken
// to be.
const confidence = 0.95

// greatestShare is the share behind k of n that is not exceeded with confidence
// (Clopper and Pearson, Biometrika 26 (1934) 404, citation from memory).
func greatestShare(k, n int) float64 {
	if k >= n {
		return 1
	}
	return distuv.Beta{Alpha: float64(k + 1), Beta: float64(n - k)}.Quantile(confidence)
}

// trials are n readings, each of which agrees with the chance p.
type trials struct {
	n int
	p float64
}

// atLeast is the chance that k or more of all trials agree. It is summed from
// the small end, so that it keeps its relative accuracy.
func atLeast(k int, all []trials) float64 {
	count := []float64{1} // by how many agree
	for _, t := range all {
		for range t.n {
			count = append(count, 0)
			for i := len(count) - 1; i > 0; i-- {
				count[i] = count[i]*(1-t.p) + count[i-1]*t.p
			}
			count[0] *= 1 - t.p
		}
	}
	sum := 0.0
	for i := len(count) - 1; i >= max(k, 0); i-- {
		sum += count[i]
	}
	return min(sum, 1)
}

// dealt is the chance that a sum is as small as own, and that it is as large,
// if from each hand one number, not negative, is drawn at random.
func dealt(own int, hands [][]int) (small, large float64) {
	sums := []float64{1} // by sum
	for _, hand := range hands {
		next := make([]float64, len(sums)+slices.Max(hand))
		for _, x := range hand {
			for s, p := range sums {
				next[s+x] += p / float64(len(hand))
			}
		}
		sums = next
	}
	for s, p := range sums {
		if s <= own {
			small += p
		}
		if s >= own {
			large += p
		}
	}
	return small, large
}
