package assess

import (
	"math"
	"math/big"
	"testing"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// rss is the uncertainty with the given parts.
func rss(parts ...int64) uncertainty {
	v := new(big.Rat)
	for _, p := range parts {
		v.Add(v, square(p))
	}
	return uncertainty{variance: v}
}

// TestRootSumOfSquares: JCGM 100:2008 (GUM), H.1: contributions 25, 9.7, 2.9
// and 16.6 nm combine to 32 nm (31.71 by recomputation), and 5.8, 3.9 and 6.7
// to 9.681941954.
func TestRootSumOfSquares(t *testing.T) {
	// In picometers: expanded is 2u, rounded once.
	if got := rss(25_000, 9_682, 2_900, 16_675).expanded(); math.Abs(float64(got)/2000-31.71) > 0.05 {
		t.Errorf("u = %v nm", float64(got)/2000)
	}
	if got := rss(5_800_000_000, 3_900_000_000, 6_700_000_000).expanded(); math.Abs(float64(got)/2e9-9.681941954) > 1e-9 {
		t.Errorf("u = %v nm", float64(got)/2e9)
	}
}

func entry(n measure.Length) field.Length {
	return field.Length{Entry: field.Entry[measure.Length]{Value: n, Set: true}}
}

func words(s string) field.Text { return field.Text{Value: s, Set: true} }

// TestReadingUncertainty: a digital step d gives u = 0.288675134595·d, and a
// certificate's U stated as 3 standard deviations of 80 gives U/3 (JCGM
// 100:2008, F.2.2.1 and 4.3.3, values from memory).
func TestReadingUncertainty(t *testing.T) {
	const d = 1_000_000_000
	tests := []struct {
		name string
		in   field.Instrument
		want float64 // of one reading; NaN: not known
	}{
		{"step of a tape", field.Instrument{Resolution: entry(d), Class: words("checked")}, 0.288675134595 * d},
		{"certificate", field.Instrument{Resolution: entry(1), Expanded: entry(240 * d), Coverage: words("3")}, 80 * d},
		{"certificate, factor blank", field.Instrument{Resolution: entry(1), Expanded: entry(240 * d)}, 120 * d},
		{"no resolution", field.Instrument{Expanded: entry(d)}, math.NaN()},
		{"calibrated without its U", field.Instrument{Resolution: entry(d), Class: words("calibrated")}, math.NaN()},
		{"factor no number", field.Instrument{Resolution: entry(d), Expanded: entry(d), Coverage: words("two")}, math.NaN()},
		{"factor zero", field.Instrument{Resolution: entry(d), Expanded: entry(d), Coverage: words("0")}, math.NaN()},
	}
	for _, test := range tests {
		u := readingUncertainty(&test.in, KindLength, nil)
		if u.known() == math.IsNaN(test.want) {
			t.Errorf("%s: known %v", test.name, u.known())
			continue
		}
		if u.known() && math.Abs(float64(u.expanded())/2-test.want) > 1 {
			t.Errorf("%s: u %v, want %v", test.name, float64(u.expanded())/2, test.want)
		}
	}
	if readingUncertainty(nil, KindLength, nil).known() {
		t.Error("no instrument")
	}
}

// TestGuard: margin < U exactly where margin < guard, also where U is a whole
// number.
func TestGuard(t *testing.T) {
	for _, test := range []struct {
		square   *big.Rat // U²
		guard    int64
		expanded int64
	}{
		{big.NewRat(16, 1), 4, 4},
		{big.NewRat(17, 1), 5, 4},
		{big.NewRat(81, 4), 5, 5},   // 4.5, half away from zero
		{big.NewRat(80, 4), 5, 4},   // 4.47
		{big.NewRat(161, 10), 5, 4}, // 4.01
		{big.NewRat(1, 1_000_000), 1, 0},
		{big.NewRat(0, 1), 0, 0},
	} {
		u := uncertainty{variance: new(big.Rat).Quo(test.square, big.NewRat(4, 1))}
		if u.guard() != test.guard || u.expanded() != test.expanded {
			t.Errorf("U² = %s: guard %d, U %d", test.square, u.guard(), u.expanded())
		}
	}
	if (uncertainty{}).guard() != 0 {
		t.Error("not known is no guard")
	}
}

// TestPool: two pairs that differ by 3 and 5: variance (9 + 25)/4.
func TestPool(t *testing.T) {
	var p pool
	p.add(10, 13)
	p.add(10, 5)
	if got := p.variance(); got.Cmp(big.NewRat(34, 4)) != 0 {
		t.Errorf("variance %s", got)
	}
	if (*pool)(nil).variance() != nil || (&pool{}).variance() != nil {
		t.Error("nothing repeated is not known")
	}
}

func TestRounding(t *testing.T) {
	for _, x := range []struct{ n, away, down int64 }{{3, 2, 1}, {-3, -2, -2}, {4, 2, 2}, {-4, -2, -2}, {1, 1, 0}, {-1, -1, -1}, {0, 0, 0}} {
		if halfAway(x.n) != x.away || halfDown(x.n) != x.down {
			t.Errorf("%d: %d %d", x.n, halfAway(x.n), halfDown(x.n))
		}
	}
	if length(3, -4) != 5 || length(1, 1) != 1 || length(2, 1) != 2 || length(0, 0) != 0 {
		t.Error("length of a vector")
	}
}
