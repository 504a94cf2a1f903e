package measure

import (
	"math"
	"testing"
)

func TestLengthForms(t *testing.T) {
	tests := []struct {
		l        Length
		unit     Unit
		in       string
		exact    bool
		decimals int
		format   string
	}{
		{Inch / 2, UnitInch, "0.5", true, 3, "0.500"},
		{-SixtyFourth, UnitInch, "−0.015625", true, 3, "−0.016"},
		{Inch / 2, UnitMillimeter, "12.7", true, 0, "13"},
		{Millimeter, UnitInch, "0.0393700787", false, 4, "0.0394"},
		{1, UnitInch, "0.0000000394", false, 3, "0.000"},
		{-1, UnitInch, "−0.0000000394", false, 3, "0.000"}, // no sign on a zero
		{Inch / 2000, UnitInch, "0.0005", true, 3, "0.001"},
		{-Inch / 2000, UnitInch, "−0.0005", true, 3, "−0.001"},
		{Inch/2000 - 1, UnitInch, "0.0004999606", false, 3, "0.000"},
		{5 * Thou / 2, UnitThou, "2.5", true, 0, "3"},
		{38 * Inch, UnitFoot, "3.1666666667", false, 2, "3.17"},
		{0, UnitInch, "0", true, 2, "0.00"},
		{Inch, UnitNone, "", false, 2, ""},
	}
	for _, test := range tests {
		if got := test.l.In(test.unit); got != test.in {
			t.Errorf("%d in %s: %q, want %q", test.l, test.unit, got, test.in)
		}
		if got := test.l.ExactIn(test.unit); got != test.exact {
			t.Errorf("%d in %s: exact %v", test.l, test.unit, got)
		}
		if got := test.l.Format(test.unit, test.decimals); got != test.format {
			t.Errorf("%d with %d decimals: %q, want %q", test.l, test.decimals, got, test.format)
		}
	}
}

func TestFormatFraction(t *testing.T) {
	tests := []struct {
		l           Length
		denominator int
		want        string
		exact       bool
	}{
		{0, 64, "0", true}, {SixtyFourth, 64, "1/64", true}, {Inch / 2, 64, "1/2", true},
		{9 * Inch / 16, 16, "9/16", true}, {9 * Inch / 16, 8, "5/8", false}, // half away from zero
		{-9 * Inch / 16, 8, "−5/8", false}, {5 * Inch / 4, 64, "1-1/4", true}, {-5 * Inch / 4, 4, "−1-1/4", true},
		{3 * Inch, 64, "3", true}, {SixtyFourth / 2, 64, "0", false}, // 198 437 nm, half a nanometer short
		{-1, 64, "0", false}, {SixtyFourth/2 + 1, 64, "1/64", false}, {Inch - 1, 64, "1", false}, {Inch, 0, "", false},
	}
	for _, test := range tests {
		got, exact := test.l.FormatFraction(test.denominator)
		if got != test.want || exact != test.exact {
			t.Errorf("%d over %d: %q, %v, want %q, %v", test.l, test.denominator, got, exact, test.want, test.exact)
		}
	}
}

func TestRoundTo(t *testing.T) {
	for _, test := range []struct{ l, step, want Length }{
		{0, SixtyFourth, 0}, {10, 4, 12}, {9, 4, 8}, {-10, 4, -12}, {-9, 4, -8}, {11, 5, 10}, {13, 5, 15},
		{7, 0, 7}, {7, -3, 7}, {Thou + Thou/2, Thou, 2 * Thou}, {MaxLength, Thou, 39_370_078_740 * Thou},
	} {
		if got := test.l.RoundTo(test.step); got != test.want {
			t.Errorf("%d to %d: %d, want %d", test.l, test.step, got, test.want)
		}
	}
}

func TestFromFloat(t *testing.T) {
	tests := []struct {
		value float64
		unit  Unit
		want  Length
		ok    bool
	}{
		{0.5, UnitInch, Inch / 2, true}, {-0.0000000005, UnitMeter, -1, true}, {0.0000000004, UnitMeter, 0, true},
		{1e6, UnitMeter, MaxLength, true}, {1.1e6, UnitMeter, 0, false}, {math.NaN(), UnitMeter, 0, false},
		{math.Inf(-1), UnitMeter, 0, false}, {1, UnitNone, 0, false},
	}
	for _, test := range tests {
		got, err := FromFloat(test.value, test.unit)
		if got != test.want || (err == nil) != test.ok {
			t.Errorf("%v %s: %d, %v", test.value, test.unit, got, err)
		}
	}
	if got := (12_700_000 * Nanometer).Float(UnitInch); got != 0.5 {
		t.Error(got)
	}
}

// At a limit is within; 1 nm beyond is not.
func TestWithin(t *testing.T) {
	lo, hi := Inch/2-Inch/8, Inch/2+Inch/8
	tests := []struct {
		value  Length
		lo, hi *Length
		want   bool
	}{
		{lo, &lo, &hi, true}, {hi, &lo, &hi, true}, {lo - 1, &lo, &hi, false}, {hi + 1, &lo, &hi, false},
		{hi - SixtyFourth, &lo, &hi, true}, {hi + SixtyFourth, &lo, &hi, false},
		{hi + 1, &lo, nil, true}, {lo - 1, nil, &hi, true}, {-MaxLength, nil, nil, true},
	}
	for _, test := range tests {
		if got := Within(test.value, test.lo, test.hi); got != test.want {
			t.Errorf("%d: %v", test.value, got)
		}
	}
}

func TestCmpHypot(t *testing.T) {
	const big = Length(math.MaxInt64)
	tests := []struct {
		a, b, limit Length
		want        int
	}{
		{3, 4, 5, 0}, {-3, 4, 5, 0}, {3 * MaxLength / 5, 4 * MaxLength / 5, MaxLength, 0},
		{3*MaxLength/5 + 1, 4 * MaxLength / 5, MaxLength, +1}, {3*MaxLength/5 - 1, 4 * MaxLength / 5, MaxLength, -1},
		{0, 0, 0, 0}, {0, 0, -1, +1}, {big, big, big, +1}, {math.MinInt64, math.MinInt64, big, +1}, {big, 0, big, 0},
	}
	for _, test := range tests {
		if got := CmpHypot(test.a, test.b, test.limit); got != test.want {
			t.Errorf("√(%d² + %d²) against %d: %d, want %d", test.a, test.b, test.limit, got, test.want)
		}
	}
	total := Slope{5, 1000}
	if got := CmpHypotSlope(Slope{3, 1000}, Slope{-8, 2000}, total); got != 0 {
		t.Error(got)
	}
	if got := CmpHypotSlope(Slope{3, 1000}, Slope{-8001, 2_000_000}, total); got != +1 {
		t.Error(got)
	}
	if got := CmpHypotSlope(Slope{}, Slope{}, Slope{-1, 10}); got != +1 {
		t.Error(got)
	}
}

func TestCmpProduct(t *testing.T) {
	const least = Length(math.MinInt64)
	tests := []struct {
		a, b, c, d Length
		want       int
	}{
		{2, 3, 1, 6, 0}, {2, 3, 1, 7, -1}, {-2, 3, 1, 6, -1}, {-2, -3, 1, 6, 0}, {-2, 3, -1, 7, +1}, {0, 5, -1, 5, +1},
		{0, 5, 5, 0, 0}, {least, least, math.MaxInt64, math.MaxInt64, +1}, {least, 1, 1, least, 0},
	}
	for _, test := range tests {
		if got := CmpProduct(test.a, test.b, test.c, test.d); got != test.want {
			t.Errorf("%d·%d against %d·%d: %d, want %d", test.a, test.b, test.c, test.d, got, test.want)
		}
	}
}
