package measure

import (
	"math/big"
	"strings"
)

// A Slope is an exact ratio of two lengths, rise over run: a level, a gap per
// coupling diameter, a plumb. Run is positive, except in the zero value, which
// is a slope of zero.
type Slope struct {
	Rise, Run Length
}

// NewSlope returns rise/run with a positive run. A zero run is an error.
func NewSlope(rise, run Length) (Slope, error) {
	switch {
	case run == 0:
		return Slope{}, refuse(DivideByZero, "", "slope over no length")
	case run < 0:
		return Slope{-rise, -run}, nil
	}
	return Slope{rise, run}, nil
}

// Cmp compares s with t, exactly, by cross-multiplication in 128 bits.
func (s Slope) Cmp(t Slope) int {
	s, t = s.proper(), t.proper()
	return CmpProduct(s.Rise, t.Run, t.Rise, s.Run)
}

// Abs returns the slope without its sign.
func (s Slope) Abs() Slope { return Slope{s.Rise.Abs(), s.Run} }

// proper gives the zero value a run of one.
func (s Slope) proper() Slope {
	if s.Run == 0 {
		return Slope{0, 1}
	}
	return s
}

// Number returns rise/run as an exact number without a unit.
func (s Slope) Number() Number {
	s = s.proper()
	return Number{big.NewRat(int64(s.Rise), int64(s.Run))}
}

// Float returns the nearest float64 of rise/run, for fits only.
func (s Slope) Float() float64 { return s.Number().Float() }

// Format returns the slope as a number of rise units per run unit with exactly
// the given decimals: Format(UnitInch, UnitFoot, 3) is in/ft. It is "" if
// either unit is UnitNone.
func (s Slope) Format(rise, run Unit, decimals int) string {
	if rise.Size() == 0 || run.Size() == 0 {
		return ""
	}
	per := big.NewRat(int64(run.Size()), int64(rise.Size()))
	return decimalText(per.Mul(per, s.Number().value()), decimals)
}

// slopeAngleRun is the run of a slope that was typed in degrees, so that its
// rise is in units of 1e-9 rad.
const slopeAngleRun Length = 1_000_000_000

// MaxSlopeAngle is the steepest angle that is read as a slope. Up to it, an
// angle in radians and its tangent differ by less than 1 part in 1000.
const MaxSlopeAngle = 3 * Degree

// piText is π to 30 decimals, for a conversion in rational numbers that
// is the same on every machine.
const piText = "3.141592653589793238462643383280"

// Slope returns a small angle as a slope: its radians, rounded once to 1e-9,
// halves away from zero. Angles beyond MaxSlopeAngle are refused: they are no
// misalignment.
func (a Angle) Slope() (Slope, error) {
	if a.Abs() > MaxSlopeAngle {
		return Slope{}, refuse(TooLarge, a.String(), MaxSlopeAngle.String())
	}
	pi, _ := new(big.Rat).SetString(piText)
	nano := new(big.Rat).Mul(pi, big.NewRat(int64(a), int64(180*Degree)))
	nano.Mul(nano, new(big.Rat).SetInt64(int64(slopeAngleRun)))
	rise, _ := new(big.Int).SetString(new(big.Rat).Abs(nano).FloatString(0), 10)
	if a < 0 {
		rise.Neg(rise)
	}
	return Slope{Length(rise.Int64()), slopeAngleRun}, nil
}

// ParseSlope reads a slope as people type it:
//
//	0.005 in/ft   0.4 mm/m   5 mils per inch   0.002 in / 12 in   0.1°   0°6'
//
// Angles are taken in radians, rounded once to 1e-9 rad (see [Angle.Slope]).
// rise and run are the units meant when no unit at all is typed; with UnitNone
// in either, a bare number is an error.
func ParseSlope(text string, rise, run Unit) (Slope, error) {
	c, err := newScanner(text)
	if err != nil {
		return Slope{}, err
	}
	if s, ok, err := angleSlope(text, c.s); ok || err != nil {
		return s, err
	}
	negative := c.sign()
	value, _, err := c.number()
	if err != nil {
		return Slope{}, err
	}
	if negative {
		value.Neg(value)
	}
	per := big.NewRat(1, 1)
	if !c.done() {
		if rise, run, per, err = c.slopeUnits(); err != nil {
			return Slope{}, err
		}
	}
	if rise.Size() == 0 || run.Size() == 0 {
		return Slope{}, c.refuse(MissingUnit)
	}
	return c.exactSlope(inNanometers(value, rise), inNanometers(per, run))
}

// exactSlope needs both lengths whole in nanometers.
func (c *scanner) exactSlope(rise, run *big.Rat) (Slope, error) {
	up, err := c.wholeNanometers(rise)
	if err != nil {
		return Slope{}, err
	}
	along, err := c.wholeNanometers(run)
	if err != nil {
		return Slope{}, err
	}
	if along == 0 {
		return Slope{}, refuse(DivideByZero, c.original, "")
	}
	return Slope{up, along}, nil
}

// angleSlope reads a slope typed as an angle. A text is one if it has a degree
// sign or word; an apostrophe elsewhere is feet.
func angleSlope(text, cleaned string) (Slope, bool, error) {
	lower := strings.ToLower(cleaned)
	if !strings.Contains(lower, "°") && !strings.Contains(lower, "deg") {
		return Slope{}, false, nil
	}
	a, err := ParseAngle(text)
	if err != nil {
		return Slope{}, false, err
	}
	s, err := a.Slope()
	if err != nil {
		return Slope{}, false, refuse(TooLarge, text, MaxSlopeAngle.String())
	}
	return s, true, nil
}

// slopeUnits consumes "in/ft", "mm per m" or "in / 12 in".
func (c *scanner) slopeUnits() (rise, run Unit, per *big.Rat, err error) {
	c.spaces()
	if rise = c.unit(); rise == UnitNone {
		return 0, 0, nil, c.trailing()
	}
	c.spaces()
	if !c.take('/') && !strings.EqualFold(c.letters(), "per") {
		return 0, 0, nil, c.refuse(MissingUnit)
	}
	c.spaces()
	per = big.NewRat(1, 1)
	if c.atNumber() {
		if per, _, err = c.number(); err != nil {
			return 0, 0, nil, err
		}
		c.spaces()
	}
	if run = c.unit(); run == UnitNone || !c.done() {
		return 0, 0, nil, c.refuse(UnknownUnit)
	}
	return rise, run, per, nil
}
