package screen

import (
	"math"
	"testing"

	"asleft/internal/fit"
)

func near(a, b, relative float64) bool { return math.Abs(a-b) <= relative*math.Abs(b) }

// Source: scipy 1.17.1, 2·integrate.quad(max(0, 1−d)·norm.pdf(d, scale=tau), 0, 1,
// epsabs=1e-14, epsrel=1e-13).
func TestAgreeing(t *testing.T) {
	for _, c := range []struct{ tau, want float64 }{
		{0.1, 0.9202115439197136}, {0.5, 0.6095484222153971}, {1, 0.3687463803725073},
		{2, 0.19541710799949344}, {3.8, 0.10438311256889989}, {10, 0.03986101606563972},
	} {
		if got := agreeing(c.tau); !near(got, c.want, 1e-9) {
			t.Errorf("%g: %.12g, want %.12g", c.tau, got, c.want)
		}
	}
	for _, tau := range []float64{0, -1, math.NaN()} {
		if got := agreeing(tau); got != 1 {
			t.Errorf("%g: %g", tau, got)
		}
	}
}

// Source: scipy 1.17.1, stats.chi2.ppf(0.5, df), which for 1, 2, 9 and 10 is
// also the tables' 0.455, 1.386, 8.343 and 9.342 (values from memory).
func TestMiddleOfChiSquare(t *testing.T) {
	for _, c := range []struct {
		freedom int
		want    float64
	}{{1, 0.454936423119572}, {2, 1.386294361119891}, {3, 2.3659738843753377}, {5, 4.351460191095526}, {9, 8.342832692252955}, {10, 9.34181776559197}, {13, 12.339755882563905}} {
		if got := middleOf(c.freedom); !near(got, c.want, 0.015) || c.freedom > 2 && !near(got, c.want, 0.007) {
			t.Errorf("%d: %g, want %g", c.freedom, got, c.want)
		}
	}
}

// Twelve residuals of which one is far off: the middle one of the squares is
// 1.5, between 1 and 2, over 0.4549 and times 12/9.
func TestVarianceIsNotMovedByOneOddReading(t *testing.T) {
	rest := []float64{0.1, 0.1, 0.1, 0.1, 0.1, 1, -math.Sqrt2, 2, -2, 2, -2, 50}
	if got, want := variance(rest, 9), 1.5/0.454936423119573*12/9; !near(got, want, 1e-9) {
		t.Errorf("%g, want %g", got, want)
	}
	if got := variance(rest, 0); got != 0 {
		t.Errorf("no freedom: %g", got)
	}
}

// Source: scipy 1.17.1, stats.binomtest(k, n).proportion_ci(0.90, 'exact').high.
func TestGreatestShare(t *testing.T) {
	for _, c := range []struct {
		k, n int
		want float64
	}{{0, 8, 0.31234397806636793}, {5, 8, 0.8888872933927665}, {9, 12, 0.9281297444577304}, {35, 45, 0.8741814243565363}, {7, 7, 1}} {
		if got := greatestShare(c.k, c.n); !near(got, c.want, 1e-9) {
			t.Errorf("%d of %d: %.12g, want %.12g", c.k, c.n, got, c.want)
		}
	}
}

// Source: scipy 1.17.1, stats.binom.sf(k-1, n, p), and for the mixed one
// stats.poisson_binom.sf(8, [.2]*5 + [.5]*4 + [.9]*3).
func TestAtLeast(t *testing.T) {
	for _, c := range []struct {
		k    int
		all  []trials
		want float64
	}{
		{8, []trials{{12, 0.3}}, 0.009489371129999995},
		{20, []trials{{24, 0.45}}, 0.000132412174829524},
		{30, []trials{{30, 0.4}}, 1.1529215046068489e-12},
		{0, []trials{{5, 0.3}}, 1},
		{9, []trials{{5, 0.2}, {4, 0.5}, {3, 0.9}}, 0.0257520799999994},
	} {
		if got := atLeast(c.k, c.all); !near(got, c.want, 1e-11) {
			t.Errorf("%d of %v: %.12g, want %.12g", c.k, c.all, got, c.want)
		}
	}
}

// Counted by hand: two dice of six sides and one of two.
func TestDealt(t *testing.T) {
	die := []int{1, 2, 3, 4, 5, 6}
	for _, c := range []struct {
		own          int
		hands        [][]int
		small, large float64
	}{
		{2, [][]int{die, die}, 1.0 / 36, 1},
		{4, [][]int{die, die}, 6.0 / 36, 33.0 / 36},
		{12, [][]int{die, die, {0, 0}}, 1, 1.0 / 36},
		{13, [][]int{die, die, {0, 1}}, 1, 1.0 / 72},
	} {
		if small, large := dealt(c.own, c.hands); !near(small, c.small, 1e-12) || !near(large, c.large, 1e-12) {
			t.Errorf("%d of %v: %g and %g", c.own, c.hands, small, large)
		}
	}
}

// The other solver of the project fits the same shape.
func TestLeftIsWhatAHarmonicFitLeaves(t *testing.T) {
	angles := []float64{0, 0.4, 1.1, 2, 2.2, 3.5, 4.4, 5.9}
	y := []float64{14, 13, 17, 11, 19, 12, 12, 18}
	h, err := fit.FitHarmonic(angles, y, 1)
	if err != nil {
		t.Fatal(err)
	}
	rest, freedom := left(angles, y)
	if squares := dot(rest, rest); !near(squares, h.RSS, 1e-9) || freedom != h.DOF {
		t.Errorf("%g with %d, want %g with %d", rest, freedom, h.RSS, h.DOF)
	}
	// Where all places are one, there is a mean and nothing else.
	if rest, freedom := left([]float64{1, 1, 1}, []float64{1, 2, 3}); !near(dot(rest, rest), 2, 1e-9) || freedom != 2 {
		t.Errorf("one place: %g with %d", rest, freedom)
	}
}

func TestOdds(t *testing.T) {
	for _, c := range []struct {
		chance float64
		want   int
	}{{0.001, 1000}, {0.00099, 1000}, {0.0003, 3000}, {1.0 / 25999, 20000}, {1e-12, MostOdds}, {0, MostOdds}, {0.5, 2}} {
		if got := odds(c.chance); got != c.want {
			t.Errorf("%g: %d, want %d", c.chance, got, c.want)
		}
	}
}

func TestHabit(t *testing.T) {
	const inch, mm, degree = 25_400_000, 1_000_000, 3_600_000_000
	for _, c := range []struct {
		block      string
		step, want int64
	}{
		{"tilt", inch / 64, 2}, {"tilt", inch / 2, 2}, {"couplinggear", inch / 1000, 5}, {"couplinggear", inch / 2000, 2},
		{"clearance", mm, 5}, {"clearance", mm / 2, 2}, {"clearance", mm / 10, 5}, {"clearance", mm / 50, 5},
		{"pitch", degree / 10, 5}, {"pitch", degree / 2, 2}, {"pitch", degree / 20, 2}, {"tilt", 0, 1},
	} {
		if got := habit(c.block, c.step); got != c.want {
			t.Errorf("%s at %d: %d, want %d", c.block, c.step, got, c.want)
		}
	}
}

// A row that is a cycle and nothing else has no scatter but that of rounding,
// which is not counted.
func TestRoundingIsNoScatter(t *testing.T) {
	x := &row{}
	for i := range 16 {
		a := 2 * math.Pi * float64(i) / 16
		x.angles = append(x.angles, a)
		x.values = append(x.values, reading{n: int64(math.Round(30.3*math.Cos(a-0.4) + 17.2)), set: true})
	}
	if v, ok := x.scatter(nil, 1); !ok || v > 0.1 {
		t.Errorf("%g", v)
	}
	for i := range x.values {
		x.values[i].n += int64(4 * (i % 3))
	}
	if v, ok := x.scatter(nil, 1); !ok || v < 5 {
		t.Errorf("%g where readings differ by 0, 4 and 8 steps", v)
	}
}
