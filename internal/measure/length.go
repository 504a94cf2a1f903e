package measure

import (
	"math"
	"math/big"
)

// A Length is a distance in whole nanometers, signed. Parsers and constructors
// keep it within ±MaxLength, so that sums of thousands never overflow.
//
// As with time.Duration, multiply a constant to build one: 3 * Millimeter.
type Length int64

// Lengths that people read and set. All are exact.
const (
	Nanometer   Length = 1
	Micrometer         = 1000 * Nanometer
	Millimeter         = 1000 * Micrometer
	Centimeter         = 10 * Millimeter
	Meter              = 1000 * Millimeter
	Inch               = 25_400_000 * Nanometer // exact since 1959
	Foot               = 12 * Inch
	Thou               = Inch / 1000 // 0.001 in, a mil
	SixtyFourth        = Inch / 64
)

// MaxLength bounds every Length that is parsed or converted: 1000 km, far
// beyond any tower and far inside int64.
const MaxLength = 1_000_000 * Meter

// A Unit is a length unit as somebody typed it. The zero value means none.
type Unit uint8

// The length units.
const (
	UnitNone Unit = iota
	UnitInch
	UnitMillimeter
	UnitThou
	UnitFoot
	UnitMeter
	UnitMicrometer
	UnitCentimeter
)

// unitTable is indexed by Unit; spellings are lower case.
var unitTable = [...]struct {
	symbol    string
	size      Length
	spellings []string
}{
	UnitNone: {},
	UnitInch: {"in", Inch, []string{"in", "inch", "inches", "ins"}},
	UnitMillimeter: {"mm", Millimeter,
		[]string{"mm", "millimeter", "millimeters", "millimetre", "millimetres"}},
	UnitThou:  {"mil", Thou, []string{"mil", "mils", "thou", "thous"}},
	UnitFoot:  {"ft", Foot, []string{"ft", "foot", "feet"}},
	UnitMeter: {"m", Meter, []string{"m", "meter", "meters", "metre", "metres"}},
	UnitMicrometer: {"µm", Micrometer, []string{"µm", "um", "micron", "microns",
		"micrometer", "micrometers", "micrometre", "micrometres"}},
	UnitCentimeter: {"cm", Centimeter,
		[]string{"cm", "centimeter", "centimeters", "centimetre", "centimetres"}},
}

// String returns the symbol: "in", "mm", "mil", "ft", "m", "µm", "cm", or "".
func (u Unit) String() string {
	if int(u) < len(unitTable) {
		return unitTable[u].symbol
	}
	return ""
}

// Size returns the length of one unit, and 0 for UnitNone.
func (u Unit) Size() Length {
	if int(u) < len(unitTable) {
		return unitTable[u].size
	}
	return 0
}

// Abs returns the length without its sign.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// RoundTo returns the multiple of step nearest to l, halves away from zero:
// the stack of shims, or the 1/64 in, that can really be set. A step of zero
// or less returns l.
func (l Length) RoundTo(step Length) Length {
	if step <= 0 {
		return l
	}
	whole, rest := l/step, (l % step).Abs()
	if rest >= step-rest {
		if l < 0 {
			whole--
		} else {
			whole++
		}
	}
	return whole * step
}

// Float returns l in the given unit as the nearest float64, for fits only. It
// is 0 for UnitNone.
func (l Length) Float(u Unit) float64 {
	if u.Size() == 0 {
		return 0
	}
	// One division of two integers below 2^53 in all practical cases: the
	// result is correctly rounded, the same on every machine.
	return float64(l) / float64(u.Size())
}

// FromFloat rounds a fitted value, in the given unit, once to a whole
// nanometer, halves away from zero. It refuses NaN and anything beyond
// MaxLength.
func FromFloat(value float64, u Unit) (Length, error) {
	nm := math.Round(value * float64(u.Size()))
	if u.Size() == 0 {
		return 0, refuse(MissingUnit, "", "")
	}
	if !(math.Abs(nm) <= float64(MaxLength)) { // also catches NaN
		return 0, refuse(TooLarge, "", "fitted length")
	}
	return Length(nm), nil
}

// rat returns l in units of u as a rational number; u must not be UnitNone.
func (l Length) rat(u Unit) *big.Rat {
	return big.NewRat(int64(l), int64(u.Size()))
}
