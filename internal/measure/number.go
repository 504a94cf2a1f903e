package measure

import (
	"math/big"
)

// A Number is an exact rational number without a unit. The zero value is 0.
// Numbers are never changed once made; == does not compare them, Cmp does.
type Number struct {
	rat *big.Rat // nil is zero; never written to after it is set
}

// NewNumber returns num/den. A zero den returns 0 and false.
func NewNumber(num, den int64) (Number, bool) {
	if den == 0 {
		return Number{}, false
	}
	return Number{big.NewRat(num, den)}, true
}

// Whole returns n as a Number.
func Whole(n int64) Number { return Number{new(big.Rat).SetInt64(n)} }

// ParseNumber reads a bare number with no unit: "12", "0.5", "12,7", "1-1/4",
// "−3". The rules of [ParseLength] for commas and fractions apply.
func ParseNumber(text string) (Number, error) {
	c, err := newScanner(text)
	if err != nil {
		return Number{}, err
	}
	r, err := c.signed()
	if err != nil {
		return Number{}, err
	}
	if !c.done() {
		return Number{}, c.unread()
	}
	return Number{r}, nil
}

// signed consumes a number with an optional sign.
func (c *scanner) signed() (*big.Rat, error) {
	negative := c.sign()
	r, _, err := c.number()
	if err != nil {
		return nil, err
	}
	if negative {
		r.Neg(r)
	}
	return r, nil
}

// value returns the number for reading only.
func (n Number) value() *big.Rat {
	if n.rat == nil {
		return new(big.Rat)
	}
	return n.rat
}

// Rat returns a copy of n.
func (n Number) Rat() *big.Rat { return new(big.Rat).Set(n.value()) }

// Cmp returns −1, 0 or +1 as n is less than, equal to or greater than m.
func (n Number) Cmp(m Number) int { return n.value().Cmp(m.value()) }

// Equal reports n = m exactly.
func (n Number) Equal(m Number) bool { return n.Cmp(m) == 0 }

// Sign returns −1, 0 or +1.
func (n Number) Sign() int { return n.value().Sign() }

// Add returns n + m.
func (n Number) Add(m Number) Number { return Number{new(big.Rat).Add(n.value(), m.value())} }

// Sub returns n − m.
func (n Number) Sub(m Number) Number { return Number{new(big.Rat).Sub(n.value(), m.value())} }

// Mul returns n × m.
func (n Number) Mul(m Number) Number { return Number{new(big.Rat).Mul(n.value(), m.value())} }

// Quo returns n / m, and false if m is zero.
func (n Number) Quo(m Number) (Number, bool) {
	if m.Sign() == 0 {
		return Number{}, false
	}
	return Number{new(big.Rat).Quo(n.value(), m.value())}, true
}

// Abs returns n without its sign.
func (n Number) Abs() Number { return Number{new(big.Rat).Abs(n.value())} }

// Float returns the nearest float64, for fits only.
func (n Number) Float() float64 {
	f, _ := n.value().Float64()
	return f
}

// Int64 returns n if it is a whole number that fits.
func (n Number) Int64() (int64, bool) {
	r := n.value()
	if !r.IsInt() || !r.Num().IsInt64() {
		return 0, false
	}
	return r.Num().Int64(), true
}

// String returns the shortest exact decimal, or a fraction "7/3" if n has none.
func (n Number) String() string {
	if text, exact := exactText(n.value(), 0); exact {
		return text
	}
	r := n.value()
	text := new(big.Rat).Abs(r).RatString()
	if r.Sign() < 0 {
		return string(minusSign) + text
	}
	return text
}

// Format returns n with exactly the given decimals (0 to MaxDecimals), halves
// away from zero.
func (n Number) Format(decimals int) string { return decimalText(n.value(), decimals) }
