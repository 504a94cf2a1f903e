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
		{assess.Amount{Kind: assess.KindRatio, N: 997_300}, "99.7 %", "99.7 %"}, // a probability
		{assess.Amount{Kind: assess.KindSlope, N: 1_000_000}, "0.012 in/ft", "1.000 mm/m"},
		{assess.Amount{Kind: assess.KindArea, N: 145_796_000_000_000}, "0.2260 in²", "145.8 mm²"}, // 5/8-11, ASME B1.1
		{assess.Amount{Kind: assess.KindQuantity, N: 180_000, Unit: measure.NoUnit}, "0.18", "0.18"},
		{assess.Amount{Kind: assess.KindQuantity, N: 120_000_000, Unit: measure.PoundFoot}, "120 lbf·ft", "120 lbf·ft"},
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
