package assess

import (
	"math/big"
	"slices"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// readLimit returns what a row asks of any check: a window for lengths and
// angles, bounds for slopes and quantities.
func readLimit(check string, l *field.Limit) (window, bounds, limitForm) {
	var w window
	var b bounds
	var form limitForm
	switch {
	case l == nil:
	case check == CouplingGear || check == CouplingMotor:
		return readCriterion(check, l)
	case kindOf(check) == KindSlope:
		b, form = readSlope(l)
	case kindOf(check) == KindQuantity:
		b, form = readQuantities(check, l)
	default:
		w, form = readWindow(check, l)
	}
	return w, b, form
}

// readCriterion goes by the kind the contract names. Without one, numbers are
// not complete: 0.010 in of range is not 0.010 in of angle.
func readCriterion(check string, l *field.Limit) (window, bounds, limitForm) {
	w, wide := readWindow(check, l)
	b, steep := readSlope(l)
	switch c := l.Criterion.Value; {
	case wide == limitBlank && steep == limitBlank:
		return window{}, bounds{}, limitBlank
	case c == CriterionRange && wide == limitFull:
		return w, bounds{}, limitFull
	case (c == CriterionPlane || c == CriterionTotal) && steep == limitFull:
		return window{}, b, limitFull
	}
	return window{}, bounds{}, limitBad
}

// readSlope reads the largest slope, either way.
func readSlope(l *field.Limit) (bounds, limitForm) {
	switch {
	case !l.Slope.Set:
		return bounds{}, limitBlank
	case l.Slope.Value.Number().Sign() < 0:
		return bounds{}, limitBad
	}
	return bothWays(slopeRat(l.Slope.Value)), limitFull
}

// kindsOf tells what a limit on a quantity may be stated in, best first.
func kindsOf(check string) []measure.QuantityKind {
	switch check {
	case FastenerTorque:
		return []measure.QuantityKind{measure.Torque, measure.Percentage}
	case VoltUnbalance, AmpUnbalance, SpeedRatio:
		return []measure.QuantityKind{measure.Percentage}
	case AmpLoad:
		return []measure.QuantityKind{measure.Percentage, measure.Current}
	case Insulation:
		return []measure.QuantityKind{measure.Resistance}
	case OilTemperature, BearingTemp:
		return []measure.QuantityKind{measure.Temperature}
	case Vibration, VibrationSwitch:
		return []measure.QuantityKind{measure.VibrationVelocityRMS, measure.VibrationVelocityPeak,
			measure.VibrationDisplacementRMS, measure.VibrationDisplacementPeakToPeak}
	case TipSpeed:
		return []measure.QuantityKind{measure.Speed}
	case RunTime:
		return []measure.QuantityKind{measure.Time}
	}
	return nil
}

// limitUnit is the unit of the first value of the row, in which its check is
// stated.
func limitUnit(l *field.Limit) measure.QuantityUnit {
	for _, q := range []field.Quantity{l.Quantities.Max, l.Quantities.Min, l.Quantities.Nominal, l.Quantities.Tolerance} {
		if q.Set {
			return q.Value.Unit
		}
	}
	return measure.NoUnit
}

// limitScale is what the bounds of a row are stated in.
func limitScale(check string, l *field.Limit) scale {
	if kindOf(check) == KindQuantity {
		return scale{KindQuantity, limitUnit(l)}
	}
	return scale{kind: KindSlope}
}

// readQuantities reads a least, a most, and nominal ± tolerance; all that are
// given hold. The speed ratio is stated as a deviation in percent, so there a
// tolerance stands alone.
func readQuantities(check string, l *field.Limit) (bounds, limitForm) {
	q := l.Quantities
	unit := limitUnit(l)
	if !q.Min.Set && !q.Max.Set && !q.Nominal.Set && !q.Tolerance.Set {
		return bounds{}, limitBlank
	}
	if !slices.Contains(kindsOf(check), unit.Kind()) || unit.Kind() == measure.Temperature && q.Tolerance.Set {
		return bounds{}, limitBad
	}
	values := [4]*big.Rat{}
	for i, x := range []field.Quantity{q.Min, q.Max, q.Nominal, q.Tolerance} {
		if !x.Set {
			continue
		}
		v, ok := quantityRat(x.Value, unit)
		if !ok {
			return bounds{}, limitBad
		}
		values[i] = v
	}
	if check == SpeedRatio && values[2] == nil {
		values[2] = new(big.Rat)
	}
	return toleranceBounds(values[0], values[1], values[2], values[3])
}

func toleranceBounds(least, most, nominal, tolerance *big.Rat) (bounds, limitForm) {
	b := bounds{least, most}
	if tolerance != nil {
		if nominal == nil || tolerance.Sign() < 0 {
			return bounds{}, limitBad
		}
		lo, hi := new(big.Rat).Sub(nominal, tolerance), new(big.Rat).Add(nominal, tolerance)
		if b.lo == nil || lo.Cmp(b.lo) > 0 {
			b.lo = lo
		}
		if b.hi == nil || hi.Cmp(b.hi) < 0 {
			b.hi = hi
		}
	}
	if b.empty() || b.lo != nil && b.hi != nil && b.lo.Cmp(b.hi) > 0 {
		return bounds{}, limitBad
	}
	return b, limitFull
}

// quantityRat is a quantity in millionths of a unit; false where it is of
// another kind.
func quantityRat(q measure.Quantity, unit measure.QuantityUnit) (*big.Rat, bool) {
	if q.Unit == unit && unit != measure.NoUnit {
		return scaled(q.Value, quantityScale), true // as below, without the way there and back
	}
	n, err := q.In(unit)
	if err != nil {
		return nil, false
	}
	return scaled(n, quantityScale), true
}

// badLimit says that a row cannot be used, and for a guard what is missing: the
// gap and its tolerance are two cells, and makers often give the gap alone.
func badLimit(check string, l *field.Limit) Code {
	at := textArg("at", l.At.String())
	switch check {
	case GuardEnd, GuardAround:
		if l.Nominal.Set && !l.Tolerance.Set {
			return code(noteNoTolerance, at)
		}
	case CouplingGear, CouplingMotor:
		return code(noteCriterion, at)
	}
	return code(noteLimitBad, at)
}
