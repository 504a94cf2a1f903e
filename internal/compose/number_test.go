package compose

import (
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// TestNumberOfEveryKind prints an amount of each kind in the unit that belongs
// to it; conversions are plain arithmetic.
func TestNumberOfEveryKind(t *testing.T) {
	for _, c := range []struct {
		a              assess.Amount
		inches, metric string
	}{
		{assess.Length(measure.Inch / 8), "0.125 in", "3.18 mm"},
		{assess.Angle(12*measure.Degree + measure.Degree/4), "12.25°", "12.25°"},
		{assess.Amount{Kind: assess.KindRatio, N: 1_000}, "0.012 in/ft", "1.000 mm/m"},
		{assess.Amount{Kind: assess.KindSlope, N: 1_000_000}, "0.012 in/ft", "1.000 mm/m"},
		{assess.Amount{Kind: assess.KindQuantity, N: 61_250_000, Unit: measure.Ampere}, "61.3 A", "61.3 A"},
	} {
		for unit, want := range map[measure.Unit]string{measure.UnitInch: c.inches, measure.UnitMillimeter: c.metric} {
			got := strings.ReplaceAll(withUnit(number(c.a, unit), unitOf(c.a, unit)), "\u00a0", " ")
			if got != want {
				t.Errorf("%+v in %s: %q, expected %q", c.a, unit, got, want)
			}
		}
	}
}
