package measure

import (
	"math/big"
)

// MaxQuantity bounds every typed quantity, in its own unit.
const MaxQuantity = 1_000_000_000_000

// A Quantity is an exact value with the unit it was typed in. The zero value
// is no quantity: it has KindNone.
type Quantity struct {
	Text  string       // as typed
	Value Number       // in Unit
	Unit  QuantityUnit // the unit that was meant
}

// NewQuantity returns a quantity that was computed, not typed.
func NewQuantity(value Number, unit QuantityUnit) Quantity {
	return Quantity{Value: value, Unit: unit}
}

// Kind returns what q measures.
func (q Quantity) Kind() QuantityKind { return q.Unit.Kind() }

// ParseQuantity reads a number with a unit of the given kind, or of def's unit
// if none is typed; NoUnit makes a bare number an error. The number is read as
// by [ParseLength]. A time may have parts: "1 h 30 min".
func ParseQuantity(text string, kind QuantityKind, def QuantityUnit) (Quantity, error) {
	c, err := newScanner(text)
	if err != nil {
		return Quantity{}, err
	}
	if def != NoUnit && (def.Kind() != kind || kind == KindNone) {
		return Quantity{}, refuse(DifferentKinds, text, def.String())
	}
	negative := c.sign()
	value, unit, err := c.quantity(kind, def)
	if err != nil {
		return Quantity{}, err
	}
	if negative {
		value.Neg(value)
	}
	if new(big.Rat).Abs(value).Cmp(new(big.Rat).SetInt64(MaxQuantity)) > 0 {
		return Quantity{}, refuse(TooLarge, text, "")
	}
	return Quantity{Text: text, Value: Number{value}, Unit: unit}, nil
}

// quantity consumes the rest of the text as an unsigned quantity.
func (c *scanner) quantity(kind QuantityKind, def QuantityUnit) (*big.Rat, QuantityUnit, error) {
	value, whole, err := c.number()
	if err != nil {
		return nil, NoUnit, err
	}
	if c.done() {
		if def == NoUnit {
			return nil, NoUnit, c.refuse(MissingUnit)
		}
		return value, def, nil
	}
	if kind == Time && whole {
		if total, ok, err := c.timeParts(value); ok || err != nil {
			return total, Minute, err
		}
	}
	c.spaces()
	if unit := unitSpelled(c.rest(), kind); unit != NoUnit {
		c.pos = len(c.s)
		return value, unit, nil
	}
	return nil, NoUnit, c.unread()
}

// timeParts consumes the rest of "1 h 30 min" and returns minutes. ok is false,
// and nothing is consumed, if the text has no such form.
func (c *scanner) timeParts(hours *big.Rat) (minutes *big.Rat, ok bool, err error) {
	start := c.pos
	c.spaces()
	if !listed(unitRows[Hour].spellings, c.letters()) {
		c.pos = start
		return nil, false, nil
	}
	c.spaces()
	if !c.atNumber() {
		c.pos = start
		return nil, false, nil
	}
	partStart := c.pos
	part, _, err := c.number()
	if err != nil {
		return nil, false, err
	}
	if c.spaces(); unitSpelled(c.rest(), Time) != Minute {
		return nil, false, c.refuse(UnknownUnit)
	}
	if part.Cmp(big.NewRat(60, 1)) >= 0 {
		return nil, false, refuse(Improper, c.original, c.s[partStart:])
	}
	c.pos = len(c.s)
	total := new(big.Rat).Mul(hours, big.NewRat(60, 1))
	return total.Add(total, part), true, nil
}

// Cmp compares q with r exactly, across units of one kind. Different kinds are
// an error.
func (q Quantity) Cmp(r Quantity) (int, error) {
	if q.Kind() != r.Kind() || q.Kind() == KindNone {
		return 0, refuse(DifferentKinds, q.Text, q.Kind().String()+" and "+r.Kind().String())
	}
	return q.Unit.toBase(q.Value.value()).Cmp(r.Unit.toBase(r.Value.value())), nil
}

// Equal reports the same kind and exactly the same value, in whatever units.
func (q Quantity) Equal(r Quantity) bool {
	if q.Kind() == KindNone && r.Kind() == KindNone {
		return q.Value.Equal(r.Value)
	}
	order, err := q.Cmp(r)
	return err == nil && order == 0
}

// In returns q's exact value in another unit of its kind. A temperature is
// converted with its offset, a temperature difference without.
func (q Quantity) In(unit QuantityUnit) (Number, error) {
	if q.Kind() != unit.Kind() || q.Kind() == KindNone {
		return Number{}, refuse(DifferentKinds, q.Text, q.Kind().String()+" and "+unit.Kind().String())
	}
	return Number{unit.fromBase(q.Unit.toBase(q.Value.value()))}, nil
}

// Sub returns q − r in q's unit. The difference of two temperatures is a
// temperature difference.
func (q Quantity) Sub(r Quantity) (Quantity, error) {
	other, err := r.In(q.Unit)
	if err != nil {
		return Quantity{}, err
	}
	unit := q.Unit
	switch unit {
	case Fahrenheit:
		unit = FahrenheitDegrees
	case Celsius:
		unit = CelsiusDegrees
	}
	return Quantity{Value: q.Value.Sub(other), Unit: unit}, nil
}

// Format returns q in the given unit, without the unit's symbol, with exactly
// the given decimals, halves away from zero.
func (q Quantity) Format(unit QuantityUnit, decimals int) (string, error) {
	n, err := q.In(unit)
	if err != nil {
		return "", err
	}
	return n.Format(decimals), nil
}

// String returns the value and the symbol in the unit it was typed in.
func (q Quantity) String() string {
	if q.Unit == NoUnit {
		return q.Value.String()
	}
	return q.Value.String() + " " + q.Unit.String()
}
