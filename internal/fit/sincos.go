package fit

import "math"

// piOver2Hi + piOver2Lo is π/2 to about 33 bits more than a float64 holds. The
// high part has 33 bits, so its product with a quarter-turn count below 2^20
// is exact. Cody and Waite, Software Manual for the Elementary Functions
// (1980), chapter 8, describe the reduction.
const (
	piOver2Hi = 0x1921FB544 / 4294967296.0
	piOver2Lo = math.Pi/2 - piOver2Hi // untyped, so exact before it is rounded
)

// maxAngle bounds the angles that are reduced with full accuracy: 2^20 quarter
// turns.
const maxAngle = 1 << 20

// sincos returns sin θ and cos θ to about one unit in the last place, the same
// bits on every target; math.Sincos is open to fused multiply-add.
func sincos(theta float64) (sin, cos float64) {
	quarter := math.Round(theta / (math.Pi / 2))
	x := theta - float64(quarter*piOver2Hi)
	x -= float64(quarter * piOver2Lo)
	s, c := sinTaylor(x), cosTaylor(x)
	switch int64(quarter) & 3 {
	case 1:
		return c, -s
	case 2:
		return -s, -c
	case 3:
		return -c, s
	}
	return s, c
}

// sinTaylor is the series x − x³/3! + x⁵/5! − … to x¹⁷, for |x| ≤ π/4, where
// the first term left out is below 1e-19.
func sinTaylor(x float64) float64 {
	z := float64(x * x)
	sum := 0.0
	for n := 17; n >= 3; n -= 2 {
		sum = float64((1 + sum) * -z / float64(n*(n-1)))
	}
	return x + float64(x*sum)
}

// cosTaylor is the series 1 − x²/2! + x⁴/4! − … to x¹⁸, for |x| ≤ π/4.
func cosTaylor(x float64) float64 {
	z := float64(x * x)
	sum := 0.0
	for n := 18; n >= 2; n -= 2 {
		sum = float64((1 + sum) * -z / float64(n*(n-1)))
	}
	return 1 + sum
}
