package measure

import (
	"math"
	"math/big"
	"strings"
)

// An Angle is a plane angle in millionths of an arc second, signed. Every
// decimal of a degree to eight places is exact, and so are minutes and seconds
// to six decimals: what was typed is compared as typed.
type Angle int64

// Angles that people read.
const (
	ArcSecond Angle = 1_000_000
	ArcMinute       = 60 * ArcSecond
	Degree          = 60 * ArcMinute
)

// MaxAngle bounds every Angle that is parsed or converted.
const MaxAngle = 1_000_000 * Degree

// Radians returns a in radians as a float64, for fits and figures only.
func (a Angle) Radians() float64 {
	return float64(a) / float64(180*Degree) * math.Pi
}

// FromRadians rounds a fitted angle once, halves away from zero. It refuses
// NaN and anything beyond MaxAngle.
func FromRadians(radians float64) (Angle, error) {
	units := math.Round(radians / math.Pi * float64(180*Degree))
	if !(math.Abs(units) <= float64(MaxAngle)) { // also catches NaN
		return 0, refuse(TooLarge, "", "fitted angle")
	}
	return Angle(units), nil
}

// Normalize returns the angle in [0°, 360°) that points the same way.
func (a Angle) Normalize() Angle {
	const turn = 360 * Degree
	return (a%turn + turn) % turn
}

// Abs returns the angle without its sign.
func (a Angle) Abs() Angle {
	if a < 0 {
		return -a
	}
	return a
}

// degrees returns a in degrees, exactly.
func (a Angle) degrees() *big.Rat { return big.NewRat(int64(a), int64(Degree)) }

// Number returns a in degrees, exactly.
func (a Angle) Number() Number { return Number{a.degrees()} }

// Format returns a in degrees, without the degree sign, with exactly the given
// decimals, halves away from zero.
func (a Angle) Format(decimals int) string { return decimalText(a.degrees(), decimals) }

// String returns the exact value in degrees with the degree sign, or ten
// decimals if it has no exact one.
func (a Angle) String() string {
	text, _ := exactText(a.degrees(), inexactDecimals)
	return text + "°"
}

// angleUnits are the marks and words, largest first.
var angleUnits = [...]struct {
	size Angle
	mark string
	word []string
}{
	{Degree, "°", []string{"deg", "degs", "degree", "degrees"}},
	{ArcMinute, "'", []string{"min", "mins", "minute", "minutes"}},
	{ArcSecond, "\"", []string{"sec", "secs", "second", "seconds"}},
}

// ParseAngle reads an angle; a bare number is degrees:
//
//	12.5   12,5°   -1/2   12°30'   12 deg 30 min   12° 30' 15.5"   30'
//
// Parts before a smaller one must be whole, and minutes and seconds after a
// larger part below 60. A sign belongs to the whole.
func ParseAngle(text string) (Angle, error) {
	c, err := newScanner(text)
	if err != nil {
		return 0, err
	}
	negative := c.sign()
	total, err := c.angle()
	if err != nil {
		return 0, err
	}
	if !c.done() {
		return 0, c.unread()
	}
	if negative {
		total.Neg(total)
	}
	n, fault := wholeUnits(total, int64(MaxAngle))
	if fault != nil {
		return 0, refuse(fault.kind, text, fault.detail)
	}
	return Angle(n), nil
}

// angle consumes an unsigned angle and returns it in units of Angle.
func (c *scanner) angle() (*big.Rat, error) {
	total := new(big.Rat)
	last := -1 // index in angleUnits of the part before
	for {
		start := c.pos
		value, whole, err := c.number()
		if err != nil {
			return nil, err
		}
		afterNumber := c.pos
		i, err := c.angleUnit(last)
		if err != nil {
			return nil, err
		}
		bare := c.pos == afterNumber // "12 30'" is not 12 degrees and 30 minutes
		if last >= 0 && value.Cmp(big.NewRat(60, 1)) >= 0 {
			return nil, refuse(Improper, c.original, c.s[start:c.pos])
		}
		total.Add(total, value.Mul(value, new(big.Rat).SetInt64(int64(angleUnits[i].size))))
		last = i
		end := c.pos
		c.spaces()
		if bare || !whole || !c.atNumber() {
			c.pos = end
			return total, nil
		}
	}
}

// angleUnit consumes a unit smaller than the one before, and returns its index.
// Only a first number may go without: it is degrees.
func (c *scanner) angleUnit(last int) (int, error) {
	start := c.pos
	c.spaces()
	for i := range angleUnits {
		if c.angleMark(i) {
			if i <= last {
				return 0, refuse(TwoUnits, c.original, c.s[start:])
			}
			return i, nil
		}
	}
	c.pos = start
	if last >= 0 {
		return 0, refuse(MissingUnit, c.original, c.rest())
	}
	return 0, nil
}

// angleMark consumes the mark or a word of angleUnits[i]. Two apostrophes are
// seconds.
func (c *scanner) angleMark(i int) bool {
	u := angleUnits[i]
	if strings.HasPrefix(c.rest(), "''") {
		if u.size == ArcSecond {
			c.pos += len("''")
			return true
		}
		return false
	}
	if strings.HasPrefix(c.rest(), u.mark) {
		c.pos += len(u.mark)
		return true
	}
	start := c.pos
	word := strings.ToLower(c.letters())
	for _, w := range u.word {
		if w == word {
			return true
		}
	}
	c.pos = start
	return false
}
