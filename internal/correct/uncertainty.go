package correct

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"asleft/internal/measure"
)

// Coverage of every expanded uncertainty stated here: that of two standard
// deviations of a normal distribution, about 95 % (JCGM 100:2008, 6.3.3, value
// from memory).
const (
	coverage     = 2
	coverageProb = 0.954499736103642
)

// confirmed is the expanded uncertainty of a new reading against its
// prediction: both carry the error of one reading.
func confirmed(u measure.Length) measure.Length {
	return nearest(coverage * math.Sqrt2 * float64(u))
}

// worstOf is how far the largest of n readings, counted from a fixed value, may
// lie from the true largest, whichever positions hold them: all n errors are
// within k·u together with the stated probability, and a largest value moves no
// farther than the largest error. k solves (2Φ(k) − 1)ⁿ = p (Šidák, Journal of
// the American Statistical Association 62 (1967) 626-633, from memory).
//
// After a fit the extreme readings are the ones with extreme errors, so the 2u
// of one reading, chosen beforehand, would promise too much.
func worstOf(n int, u measure.Length) measure.Length {
	if n < 1 {
		return 0
	}
	p := math.Pow(coverageProb, 1/float64(n))
	return nearest(distuv.UnitNormal.Quantile((1+p)/2) * float64(u))
}

// rangeOf is the same for largest less smallest: a range moves no farther than
// the range of the errors, whose quantile is that of the studentized range with
// known deviation (Pearson and Hartley, Biometrika Tables for Statisticians 1,
// table 29, from memory). For n = 2 it is 2·√2·u.
func rangeOf(n int, u measure.Length) measure.Length {
	if n < 2 {
		return 0
	}
	return nearest(rangeQuantile(n, coverageProb) * float64(u))
}

// rangeQuantile finds q with P(range of n standard normal values ≤ q) = p, by
// bisection.
func rangeQuantile(n int, p float64) float64 {
	lo, hi := 0.0, 20.0
	for range 40 { // 20/2⁴⁰ is 2e-11
		if q := (lo + hi) / 2; rangeProb(n, q) < p {
			lo = q
		} else {
			hi = q
		}
	}
	return (lo + hi) / 2
}

// rangeProb is n·∫ φ(z)·(Φ(z) − Φ(z − q))ⁿ⁻¹ dz, by the trapezoidal rule, which
// for such smooth tails is good to all digits used.
func rangeProb(n int, q float64) float64 {
	const step, reach = 0.125, 8.0
	sum := 0.0
	for z := -reach; z <= reach; z += step {
		inside := distuv.UnitNormal.CDF(z) - distuv.UnitNormal.CDF(z-q)
		sum += float64(distuv.UnitNormal.Prob(z) * math.Pow(inside, float64(n-1)))
	}
	return float64(n) * step * sum
}
