package data

import (
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// Units of values that are no lengths.
const (
	unitDegree = "deg"
	unitRatio  = "1"
)

// degreeDecimals tell neighboring base units of an angle apart: one is
// 2.8e-10 degrees. ratioDecimals are those of one part per million.
const (
	degreeDecimals = 10
	ratioDecimals  = 6
)

// amount puts an amount into the units of the results.
func (e *encoder) amount(a assess.Amount) *Amount {
	switch a.Kind {
	case assess.KindAngle:
		return &Amount{degrees(measure.Angle(a.N)), unitDegree, a.N}
	case assess.KindRatio:
		return &Amount{ratio(a.N), unitRatio, a.N}
	}
	return &Amount{lengthIn(measure.Length(a.N), e.in.Units), e.in.Units.String(), a.N}
}

func lengthIn(l measure.Length, u measure.Unit) string { return measure.ASCII(l.In(u)) }

// degrees prints an angle with as few decimals as it needs.
func degrees(a measure.Angle) string { return short(measure.ASCII(a.Format(degreeDecimals))) }

// ratio prints parts per million as a plain decimal. A length in meters has the
// same digits as a ratio in millionths of millionths, so its printing serves.
func ratio(ppm int64) string {
	return short(measure.ASCII((measure.Length(ppm) * measure.Micrometer).Format(measure.UnitMeter, ratioDecimals)))
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
