package measure

import (
	"math/big"
	"strings"
)

// MaxDecimals bounds the decimals asked of a printing method.
const MaxDecimals = 30

// decimalText prints r with the given decimals, halves away from zero, and
// with a true minus sign. A value that rounds to zero has no sign.
func decimalText(r *big.Rat, decimals int) string {
	decimals = min(max(decimals, 0), MaxDecimals)
	text := new(big.Rat).Abs(r).FloatString(decimals) // rounds halves away from zero
	if r.Sign() < 0 && strings.Trim(text, "0.") != "" {
		return string(minusSign) + text
	}
	return text
}

// exactText prints r as its shortest exact decimal. If it has none within
// MaxDecimals, exact is false and the text is rounded to decimals.
func exactText(r *big.Rat, decimals int) (text string, exact bool) {
	if n, ok := r.FloatPrec(); ok && n <= MaxDecimals {
		return decimalText(r, n), true
	}
	return decimalText(r, decimals), false
}

// ASCII replaces the true minus sign by a hyphen, for files that machines read.
func ASCII(text string) string {
	return strings.ReplaceAll(text, string(minusSign), "-")
}

// inexactDecimals are enough to tell neighboring nanometers apart in every
// unit: 1 nm is 4e-8 in, 3e-9 ft and 1e-9 m.
const inexactDecimals = 10

// In returns l as a plain number of units: the shortest exact decimal, or, for
// a metric length in inches that has none, 10 decimals. [Length.ExactIn] tells
// which. It is "" for UnitNone.
func (l Length) In(u Unit) string {
	if u.Size() == 0 {
		return ""
	}
	text, _ := exactText(l.rat(u), inexactDecimals)
	return text
}

// ExactIn reports whether l is a terminating decimal in the unit.
func (l Length) ExactIn(u Unit) bool {
	if u.Size() == 0 {
		return false
	}
	_, exact := exactText(l.rat(u), inexactDecimals)
	return exact
}

// Format returns l as a number of units with exactly the given decimals (0 to
// MaxDecimals), halves away from zero. It is "" for UnitNone.
func (l Length) Format(u Unit, decimals int) string {
	if u.Size() == 0 {
		return ""
	}
	return decimalText(l.rat(u), decimals)
}

// FormatFraction returns l in inches as a fraction in lowest terms, rounded to
// the nearest 1/denominator with halves away from zero: "0", "9/16", "1-1/4",
// "−3". exact is false if it was rounded. It is "" if denominator is not
// positive.
func (l Length) FormatFraction(denominator int) (text string, exact bool) {
	if denominator <= 0 {
		return "", false
	}
	parts := new(big.Rat).Mul(l.rat(UnitInch), new(big.Rat).SetInt64(int64(denominator)))
	whole, _ := new(big.Int).SetString(new(big.Rat).Abs(parts).FloatString(0), 10)
	rounded := new(big.Rat).SetFrac(whole, big.NewInt(int64(denominator)))
	text = mixedText(rounded)
	if l < 0 && rounded.Sign() != 0 {
		text = string(minusSign) + text
	}
	return text, parts.IsInt()
}

// mixedText prints a non-negative rational as "3", "9/16" or "1-1/4".
func mixedText(r *big.Rat) string {
	whole, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	switch {
	case rest.Sign() == 0:
		return whole.String()
	case whole.Sign() == 0:
		return rest.String() + "/" + r.Denom().String()
	}
	return whole.String() + "-" + rest.String() + "/" + r.Denom().String()
}

// String returns the exact value in millimeters with its unit, for debugging.
func (l Length) String() string {
	return l.In(UnitMillimeter) + " " + UnitMillimeter.String()
}

// trimFloat turns the digits and exponent of a decimal ("125", 1 → "1.25")
// into plain text without an exponent; digits has no leading zero.
func trimFloat(digits string, exponent int) string {
	digits = strings.TrimRight(digits, "0")
	switch {
	case digits == "":
		return "0"
	case exponent <= 0:
		return "0." + strings.Repeat("0", -exponent) + digits
	case exponent >= len(digits):
		return digits + strings.Repeat("0", exponent-len(digits))
	}
	return digits[:exponent] + "." + digits[exponent:]
}
