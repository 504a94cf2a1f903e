package workbook

import (
	"errors"
	"strconv"
	"strings"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// resolution is an angle where it says so, a slope where it is one, else a
// length.
func (v *cellReader) resolution(e resolution) {
	text := strings.ToLower(v.cell.text)
	if v.cell.kind == rawText && (strings.ContainsAny(text, "°º˚") || strings.Contains(text, "deg")) {
		v.angle(e.angle)
		return
	}
	v.lengthOrSlope(e.length, e.slope)
}

// rise is a length, or a slope with its unit.
func (v *cellReader) rise(e rise) { v.lengthOrSlope(e.length, e.slope) }

// lengthOrSlope reads a slope only where it is one by its unit and can be no
// length.
func (v *cellReader) lengthOrSlope(length *field.Length, slope *field.Slope) {
	text, ok := v.typed()
	if !ok {
		return
	}
	if value, unit, err := measure.ParseLength(text, v.unit); err == nil {
		*length = field.Length{Entry: field.Entry[measure.Length]{Value: value, Set: true, Text: text, At: v.here()}, Unit: unit}
		return
	} else if s, slopeErr := measure.ParseSlope(text, measure.UnitNone, measure.UnitNone); slopeErr == nil {
		*slope = field.Slope{Value: s, Set: true, Text: text, At: v.here()}
	} else {
		v.parseFault(err)
	}
}

// slope reads a slope. Without a unit it is one of the form's: inches a foot, or
// millimeters a meter.
func (v *cellReader) slope(e *field.Slope) {
	text, ok := v.typed()
	if !ok {
		return
	}
	rise, run := measure.UnitNone, measure.UnitNone
	switch v.unit {
	case measure.UnitInch:
		rise, run = measure.UnitInch, measure.UnitFoot
	case measure.UnitMillimeter:
		rise, run = measure.UnitMillimeter, measure.UnitMeter
	}
	value, err := measure.ParseSlope(text, rise, run)
	var refused *measure.ParseError
	switch {
	case errors.As(err, &refused) && refused.Kind == measure.MissingUnit && v.unit != measure.UnitNone:
		v.refuse(WrongUnit, "") // half of a unit: 0.009 in
		return
	case err != nil:
		v.parseFault(err)
		return
	}
	*e = field.Slope{Value: value, Set: true, Text: text, At: v.here()}
}

func (v *cellReader) number(e *field.Number) {
	text, ok := v.typed()
	if !ok {
		return
	}
	value, err := measure.ParseNumber(text)
	if err != nil {
		v.parseFault(err)
		return
	}
	*e = field.Number{Value: value, Set: true, Text: text, At: v.here()}
}

// quantity reads a number with one of the units that the slot takes.
func (v *cellReader) quantity(e *field.Quantity) {
	text, ok := v.typed()
	if !ok {
		return
	}
	units := v.slot.units
	meant := units.inch
	if v.unit == measure.UnitMillimeter {
		meant = units.metric
	}
	var first error
	var found []measure.Quantity
	for _, kind := range units.kinds {
		q, err := measure.ParseQuantity(text, kind, meant)
		if err == nil {
			found = append(found, q)
		} else if first == nil {
			first = err
		}
	}
	switch {
	case len(found) > 1: // in/s, of a detector that nobody names
		v.refuse(TwoKinds, found[0].Kind().String()+" / "+found[1].Kind().String())
	case len(found) == 1:
		*e = field.Quantity{Value: found[0], Set: true, Text: text, At: v.here()}
	default:
		v.parseFault(first)
	}
}

// maxNumbers is the most feet or blades that one box takes.
const maxNumbers = 64

// numbers reads "3", "3, 5" or "1 2 4".
func (v *cellReader) numbers(e *numbers) {
	text, ok := v.words()
	if !ok {
		return
	}
	parts := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;+&", r) })
	var list []int
	for _, part := range parts {
		n, err := strconv.Atoi(part)
		if err != nil || n < 1 || n > maxCount || len(parts) > maxNumbers {
			v.refuse(NotNumbers, shown(part))
			return
		}
		for _, other := range list {
			if other == n {
				v.refuse(TwiceNumber, part)
				return
			}
		}
		list = append(list, n)
	}
	*e = numbers{Value: list, Set: len(list) > 0, Text: text, At: v.here()}
}
