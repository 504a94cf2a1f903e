package compose

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// Decimals of computed values. A thousandth of an inch and a hundredth of a
// millimeter are finer than any reading here, and coarse enough to be read.
const (
	inchDecimals    = 3
	milliDecimals   = 2
	angleDecimals   = 2
	slopeDecimals   = 3
	percentDecimals = 1
)

// maxMarginDecimals bounds the digits added until a margin that is not zero
// does not print as zero; one nanometer shows at 8 in inches.
const maxMarginDecimals = 9

func decimalsOf(u measure.Unit) int {
	if u == measure.UnitMillimeter {
		return milliDecimals
	}
	return inchDecimals
}

// number prints an amount in its unit, without the unit; u is the unit of
// lengths.
func number(a assess.Amount, u measure.Unit) string { return rounded(a, u, 0) }

// rounded is number with more decimals than usual.
func rounded(a assess.Amount, u measure.Unit, more int) string {
	switch a.Kind {
	case assess.KindAngle:
		return measure.Angle(a.N).Format(angleDecimals + more)
	case assess.KindRatio:
		return slope(a.N, 10_000).Number().Format(percentDecimals + more)
	case assess.KindSlope:
		return slope(a.N, 1_000_000_000).Format(u, slopeRun(u), slopeDecimals+more)
	case assess.KindArea:
		return area(a.N, u, more)
	case assess.KindQuantity:
		return millionths(a.N, quantityDecimals(a.Unit)+more)
	}
	return measure.Length(a.N).Format(u, decimalsOf(u)+more)
}

// quantityDecimals are those that a reading of the unit can bear.
func quantityDecimals(u measure.QuantityUnit) int {
	switch u {
	case measure.NoUnit, measure.InchPerSecondRMS, measure.InchPerSecondPeak:
		return 3
	case measure.Percent, measure.MillimeterPerSecondRMS, measure.MillimeterPerSecondPeak,
		measure.MeterPerSecond, measure.Gigohm, measure.Hour:
		return 2
	case measure.FootPerMinute, measure.PoundForce:
		return 0
	}
	return 1
}

// millionths prints a number of millionths, without the zeros behind a value
// that is exact with fewer decimals.
func millionths(n int64, decimals int) string {
	for d := range decimals {
		if n%int64(pow10(6-d)) == 0 {
			return measure.Length(n).Format(measure.UnitMillimeter, d)
		}
	}
	return measure.Length(n).Format(measure.UnitMillimeter, decimals)
}

// Areas are printed to 0.0001 in² or 0.1 mm².
const (
	squareInch       = int64(measure.Inch) * int64(measure.Inch) // in nm²
	inchAreaDecimals = 4
	areaDecimals     = 1
)

// area prints square nanometers.
func area(n int64, u measure.Unit, more int) string {
	scale, d := int64(measure.Millimeter), areaDecimals
	if u != measure.UnitMillimeter {
		scale, d = squareInch/1_000_000, inchAreaDecimals
	}
	rounded := (n + scale/2) / scale // areas are not negative
	return measure.Length(rounded).Format(measure.UnitMillimeter, d+more)
}

// unitOf is the unit that number prints in.
func unitOf(a assess.Amount, u measure.Unit) string {
	switch a.Kind {
	case assess.KindAngle:
		return "°"
	case assess.KindRatio:
		return measure.Percent.String()
	case assess.KindSlope:
		return u.String() + "/" + slopeRun(u).String()
	case assess.KindArea:
		return u.String() + "²"
	case assess.KindQuantity:
		return a.Unit.String()
	}
	return u.String()
}

// withUnit joins number and unit; a degree sign stands close, and a plain number
// has none.
func withUnit(text, unit string) string {
	if unit == "°" || unit == "" {
		return text + unit
	}
	return text + "\u00a0" + unit
}

// slope is a dimensionless ratio of whole parts.
func slope(rise, run int64) measure.Slope {
	return measure.Slope{Rise: measure.Length(rise), Run: measure.Length(run)}
}

// slopeRun is the run that a slope is printed over.
func slopeRun(u measure.Unit) measure.Unit {
	if u == measure.UnitMillimeter {
		return measure.UnitMeter
	}
	return measure.UnitFoot
}

// amount prints a value in the leading unit: "0.203 in".
func (b *book) amount(a assess.Amount) string {
	return withUnit(number(a, b.first), unitOf(a, b.first))
}

// margin prints a distance to a limit with its sign. One that is not zero never
// prints as zero.
func margin(a assess.Amount, u measure.Unit) string {
	if a.N > 0 {
		return "+" + shownNumber(a, u)
	}
	return shownNumber(a, u)
}

// shownNumber is number with as many decimals more as it takes for a value that
// is not zero to show.
func shownNumber(a assess.Amount, u measure.Unit) string {
	text := number(a, u)
	for more := 1; a.N != 0 && !strings.ContainsAny(text, "123456789") && more <= maxMarginDecimals; more++ {
		text = rounded(a, u, more)
	}
	return text
}

// degrees prints a direction to the whole degree, or with the decimals needed
// for a position that stands between: "210°", "22.5°".
func degrees(a measure.Angle) string {
	a = a.Normalize()
	for d := 0; d < angleDecimals; d++ {
		if a%(measure.Degree/pow10(d)) == 0 {
			return a.Format(d) + "°"
		}
	}
	return a.Format(angleDecimals) + "°"
}

// direction prints a fitted direction to the whole degree.
func direction(a measure.Angle) string {
	whole := (a.Normalize() + measure.Degree/2) / measure.Degree % 360
	return strconv.FormatInt(int64(whole), 10) + "°"
}

func pow10(n int) measure.Angle {
	p := measure.Angle(1)
	for range n {
		p *= 10
	}
	return p
}

// asTyped prints a typed length with the unit it was meant in, which is added
// where it was not typed: "1/2 in".
func (b *book) asTyped(l field.Length) string {
	if !l.Set {
		return ""
	}
	return typedWithUnit(typedText(b, l.Entry), l.Unit)
}

// typedWithUnit is a typed length with its unit, once.
func typedWithUnit(typed string, u measure.Unit) string {
	bare := bareNumber(typed, u)
	if bare == typed && strings.ContainsFunc(typed, unitRune) {
		return typed // in units of its own: "3 ft 2 in"
	}
	return withUnit(bare, u.String())
}

// unitRune tells whether a character of a typed length belongs to a unit.
func unitRune(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune("'\"′″’”", r) }

// otherUnit is a typed length in the unit it was not typed in.
func (b *book) otherUnit(l field.Length) string {
	if !l.Set {
		return ""
	}
	u := b.second
	if metric(l.Unit) == metric(u) {
		u = b.first
	}
	return withUnit(l.Value.Format(u, decimalsOf(u)), u.String())
}

// leading is a typed length in the leading unit, with what was typed beside it
// where that is of the other system.
func (b *book) leading(l field.Length) string {
	if !l.Set || metric(l.Unit) == metric(b.first) {
		return b.asTyped(l)
	}
	return withUnit(l.Value.Format(b.first, decimalsOf(b.first)), b.first.String()) + " (" + b.asTyped(l) + ")"
}

// metric tells the system of a unit.
func metric(u measure.Unit) bool {
	switch u {
	case measure.UnitMillimeter, measure.UnitCentimeter, measure.UnitMeter, measure.UnitMicrometer:
		return true
	}
	return false
}

// typedAngle is a typed angle with its sign of degree.
func (b *book) typedAngle(a field.Angle) string {
	text := typedText(b, a)
	if text == "" || strings.ContainsAny(text, "°'\"dm") {
		return text
	}
	return text + "°"
}

// bareNumber takes the unit off a typed length where it is the given one. What
// is left is the number as it was typed.
func bareNumber(typed string, u measure.Unit) string {
	end := strings.LastIndexFunc(typed, func(r rune) bool {
		return r >= '0' && r <= '9' || strings.ContainsRune("¼½¾⅛⅜⅝⅞.,", r)
	})
	if end < 0 {
		return typed
	}
	_, size := utf8.DecodeRuneInString(typed[end:])
	head, tail := typed[:end+size], strings.TrimSpace(typed[end+size:])
	if tail == "" || strings.ContainsFunc(head, unitRune) {
		return typed
	}
	if unit, err := measure.ParseUnit(tail); err == nil && unit == u {
		return head
	}
	return typed
}
