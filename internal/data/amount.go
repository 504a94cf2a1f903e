package data

import (
	"math/big"
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// Units of values that are neither lengths nor quantities.
const (
	unitDegree = "deg"
	unitOne    = "1"
	unitSlope  = "m/m"
	unitArea   = "mm2"
)

// Places of the base units behind the decimal point of their values.
const (
	ratioPlaces    = 6 // parts per million
	slopePlaces    = 9 // billionths
	areaPlaces     = 12
	quantityPlaces = 6 // millionths
)

// degreeDecimals tell neighboring base units of an angle apart: one is
// 2.8e-10 degrees.
const degreeDecimals = 10

// amount puts an amount into the units of the results.
func (e *encoder) amount(a assess.Amount) *Amount {
	switch a.Kind {
	case assess.KindAngle:
		return &Amount{degrees(measure.Angle(a.N)), unitDegree, a.N}
	case assess.KindRatio:
		return &Amount{decimal(a.N, ratioPlaces), unitOne, a.N}
	case assess.KindSlope:
		return &Amount{decimal(a.N, slopePlaces), unitSlope, a.N}
	case assess.KindArea:
		return &Amount{decimal(a.N, areaPlaces), unitArea, a.N}
	case assess.KindQuantity:
		unit := a.Unit.String()
		if unit == "" {
			unit = unitOne
		}
		return &Amount{decimal(a.N, quantityPlaces), unit, a.N}
	}
	return &Amount{lengthIn(measure.Length(a.N), e.in.Units), e.in.Units.String(), a.N}
}

func lengthIn(l measure.Length, u measure.Unit) string { return measure.ASCII(l.In(u)) }

// degrees prints an angle with as few decimals as it needs.
func degrees(a measure.Angle) string { return short(measure.ASCII(a.Format(degreeDecimals))) }

// decimal prints n with that many of its digits behind the decimal point.
func decimal(n int64, places int) string {
	sign, digits := "", strconv.FormatInt(n, 10)
	if digits[0] == '-' {
		sign, digits = "-", digits[1:]
	}
	if missing := places + 1 - len(digits); missing > 0 {
		digits = strings.Repeat("0", missing) + digits
	}
	point := len(digits) - places
	return short(sign + digits[:point] + "." + digits[point:])
}

// short cuts the zeros off the end of a decimal fraction.
func short(decimal string) string {
	if !strings.Contains(decimal, ".") {
		return decimal
	}
	return strings.TrimSuffix(strings.TrimRight(decimal, "0"), ".")
}

// entry makes an Entry of a value read as the given text.
func entry(value, typed string, at field.Ref) Entry {
	e := Entry{Value: value, At: at.String(), File: at.File}
	if typed != value {
		e.Typed = typed
	}
	return e
}

func lengthEntry(l field.Length) Entry {
	e := entry(lengthIn(l.Value, l.Unit), l.Text, l.At)
	e.Unit = l.Unit.String()
	base := int64(l.Value)
	e.Base = &base
	return e
}

func angleEntry(a field.Angle) Entry {
	e := entry(degrees(a.Value), a.Text, a.At)
	e.Unit = unitDegree
	base := int64(a.Value)
	e.Base = &base
	return e
}

func slopeEntry(s field.Slope) Entry {
	return exactEntry(s.Value.Number(), slopePlaces, unitSlope, s.Text, s.At)
}

func quantityEntry(q field.Quantity) Entry {
	unit := q.Value.Unit.String()
	if unit == "" {
		unit = unitOne
	}
	return exactEntry(q.Value.Value, quantityPlaces, unit, q.Text, q.At)
}

func numberEntry(n field.Number) Entry {
	return exactEntry(n.Value, quantityPlaces, unitOne, n.Text, n.At)
}

// exactEntry makes an Entry of a number that need not be whole in base units:
// 0.005 in/ft is 1/2400. Where the rounded value is not the number, the
// fraction stands beside it. A number too large for base units has neither unit
// nor base.
func exactEntry(n measure.Number, places int, unit, typed string, at field.Ref) Entry {
	text := measure.ASCII(n.Format(places))
	base, err := strconv.ParseInt(strings.Replace(text, ".", "", 1), 10, 64)
	if err != nil {
		return entry(n.Rat().RatString(), typed, at)
	}
	e := entry(short(text), typed, at)
	e.Unit, e.Base = unit, &base
	if rounded, _ := new(big.Rat).SetString(text); rounded == nil || rounded.Cmp(n.Rat()) != 0 {
		e.Exact = n.Rat().RatString()
	}
	return e
}
