package measure

import (
	"cmp"
	"math/bits"
)

// Within reports lo ≤ value ≤ hi. A nil bound is no bound. A value exactly at
// a bound is within.
func Within(value Length, lo, hi *Length) bool {
	return (lo == nil || *lo <= value) && (hi == nil || value <= *hi)
}

// CmpHypot compares √(a² + b²) with limit, exactly, by comparing squares in 128
// bits, and returns −1, 0 or +1. A negative limit is below every total.
func CmpHypot(a, b, limit Length) int {
	if limit < 0 {
		return +1
	}
	aHi, aLo := square(a)
	bHi, bLo := square(b)
	lo, carry := bits.Add64(aLo, bLo, 0)
	hi, _ := bits.Add64(aHi, bHi, carry) // each square is below 2^126: no overflow
	lHi, lLo := square(limit)
	return cmp128(hi, lo, lHi, lLo)
}

// CmpProduct compares a·b with c·d, exactly, for all values.
func CmpProduct(a, b, c, d Length) int {
	left, right := sign(a)*sign(b), sign(c)*sign(d)
	if left != right || left == 0 {
		return cmp.Compare(left, right)
	}
	lHi, lLo := bits.Mul64(magnitude(a), magnitude(b))
	rHi, rLo := bits.Mul64(magnitude(c), magnitude(d))
	return left * cmp128(lHi, lLo, rHi, rLo)
}

// square returns l² as 128 bits.
func square(l Length) (hi, lo uint64) { return bits.Mul64(magnitude(l), magnitude(l)) }

// magnitude is |l|, right for the smallest int64 too.
func magnitude(l Length) uint64 {
	if l < 0 {
		return -uint64(l)
	}
	return uint64(l)
}

func sign(l Length) int { return cmp.Compare(l, 0) }

func cmp128(aHi, aLo, bHi, bLo uint64) int {
	switch {
	case aHi < bHi || aHi == bHi && aLo < bLo:
		return -1
	case aHi == bHi && aLo == bLo:
		return 0
	}
	return +1
}

// CmpHypotSlope compares √(a² + b²) with limit, exactly: the total angle from
// its parts in two planes.
func CmpHypotSlope(a, b, limit Slope) int {
	l := limit.Number()
	if l.Sign() < 0 {
		return +1
	}
	x, y := a.Number(), b.Number()
	return x.Mul(x).Add(y.Mul(y)).Cmp(l.Mul(l))
}
