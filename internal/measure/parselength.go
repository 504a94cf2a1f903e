package measure

import (
	"math/big"
	"strings"
)

// ParseUnit reads a length unit alone: "in", `"`, "mm", "thou", "mils", "ft".
// Capitals are read too, except a lone "M", which could be meant for mils.
func ParseUnit(text string) (Unit, error) {
	s, err := clean(text)
	if err != nil {
		return UnitNone, err
	}
	c := &scanner{original: text, s: s}
	u := c.unit()
	if u == UnitNone || !c.done() {
		return UnitNone, refuse(UnknownUnit, text, s)
	}
	return u, nil
}

// unit consumes a length unit. If none follows it consumes nothing and returns
// UnitNone.
func (c *scanner) unit() Unit {
	switch {
	case c.take('"'):
		return UnitInch
	case c.take('\''):
		if c.take('\'') { // two apostrophes are a double prime
			return UnitInch
		}
		return UnitFoot
	}
	start := c.pos
	word := c.letters()
	if word == "M" {
		c.pos = start
		return UnitNone
	}
	lower := strings.ToLower(word)
	for u := UnitInch; int(u) < len(unitTable); u++ {
		for _, spelling := range unitTable[u].spellings {
			if spelling == lower {
				return u
			}
		}
	}
	c.pos = start
	return UnitNone
}

// ParseLength reads a length as people type it:
//
//	0.5   1/2   9/16"   1-1/4   1 1/4 in   12,7 mm   ½   1¼   −0.003 in
//	3 ft 2-1/2 in   3'-2 1/2"   5 mils   .125
//
// def is the unit meant when none is typed; UnitNone makes a bare number an
// error. The Unit returned is the one that was meant, and UnitInch for feet
// and inches. A sign belongs to the whole: "-1-1/4" is −(1 + 1/4).
//
// A comma before exactly three digits after a non-zero whole part is refused,
// since it may divide thousands. So is a length that is no whole number of
// nanometers, such as 1/3 in.
func ParseLength(text string, def Unit) (Length, Unit, error) {
	c, err := newScanner(text)
	if err != nil {
		return 0, UnitNone, err
	}
	negative := c.sign()
	nm, unit, err := c.length(def)
	if err == nil && !c.done() {
		err = c.afterLength()
	}
	if err != nil {
		return 0, UnitNone, err
	}
	if negative {
		nm.Neg(nm)
	}
	l, err := c.wholeNanometers(nm)
	if err != nil {
		return 0, UnitNone, err
	}
	return l, unit, nil
}

// length consumes an unsigned length and returns it in nanometers.
func (c *scanner) length(def Unit) (*big.Rat, Unit, error) {
	value, whole, err := c.number()
	if err != nil {
		return nil, UnitNone, err
	}
	afterNumber := c.pos
	c.spaces()
	unit := c.unit()
	if unit == UnitNone {
		c.pos = afterNumber
		if unit = def; def.Size() == 0 {
			return nil, UnitNone, c.noUnit()
		}
		return inNanometers(value, unit), unit, nil
	}
	if unit == UnitFoot && whole && !c.done() {
		inches, err := c.inchesAfterFeet()
		if err != nil {
			return nil, UnitNone, err
		}
		if inches != nil {
			return value.Add(inNanometers(value, UnitFoot), inNanometers(inches, UnitInch)), UnitInch, nil
		}
	}
	return inNanometers(value, unit), unit, nil
}

// noUnit tells a missing unit from an unknown one.
func (c *scanner) noUnit() error {
	if c.done() {
		return c.refuse(MissingUnit)
	}
	return c.trailing()
}

// inchesAfterFeet consumes " 2-1/2 in" or `-2 1/2"` after whole feet. The inch
// mark is required, and fewer than 12 inches. It returns nil if no number
// follows.
func (c *scanner) inchesAfterFeet() (*big.Rat, error) {
	start := c.pos
	c.spaces()
	if c.take('-') { // a joiner, never a minus: feet and inches add up
		c.spaces()
	}
	if !c.atNumber() {
		c.pos = start
		return nil, nil
	}
	inches, _, err := c.number()
	if err != nil {
		return nil, err
	}
	c.spaces()
	switch {
	case c.done():
		return nil, refuse(MissingUnit, c.original, c.s[start:])
	case c.unit() != UnitInch:
		return nil, c.refuse(TwoUnits)
	case inches.Cmp(big.NewRat(12, 1)) >= 0:
		return nil, refuse(Improper, c.original, c.s[start:c.pos])
	}
	return inches, nil
}

// afterLength says what is wrong with the text after a complete length: a
// second length, or anything else.
func (c *scanner) afterLength() error {
	at := *c
	at.spaces()
	if _, _, err := at.number(); err == nil {
		at.spaces()
		if at.unit() != UnitNone {
			return c.refuse(TwoUnits)
		}
	}
	return c.trailing()
}

// trailing says what is wrong with the text after a complete length.
func (c *scanner) trailing() error {
	at := *c
	at.spaces()
	if at.unit() != UnitNone {
		return c.refuse(TwoUnits)
	}
	return c.unread()
}

// unread says what is wrong with text after a value that takes no more.
func (c *scanner) unread() error {
	at := *c
	at.spaces()
	if strings.ContainsAny(at.peek(), "°%Ω\"'") || at.letters() != "" {
		return c.refuse(UnknownUnit)
	}
	return c.refuse(NotANumber)
}

// inNanometers returns a new value times the unit's size.
func inNanometers(value *big.Rat, u Unit) *big.Rat {
	return new(big.Rat).Mul(value, new(big.Rat).SetInt64(int64(u.Size())))
}

// wholeNanometers turns an exact value into a Length, or says why it cannot.
func (c *scanner) wholeNanometers(nm *big.Rat) (Length, error) {
	n, err := wholeUnits(nm, int64(MaxLength))
	if err != nil {
		return 0, refuse(err.kind, c.original, err.detail)
	}
	return Length(n), nil
}

// A wholeError says why a rational number is no bounded integer.
type wholeError struct {
	kind   ErrorKind
	detail string
}

// wholeUnits returns r as an integer of magnitude at most bound.
func wholeUnits(r *big.Rat, bound int64) (int64, *wholeError) {
	limit := new(big.Rat).SetInt64(bound)
	if new(big.Rat).Abs(r).Cmp(limit) > 0 {
		return 0, &wholeError{kind: TooLarge}
	}
	if !r.IsInt() {
		return 0, &wholeError{kind: NotExact}
	}
	return r.Num().Int64(), nil
}
