package fit

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// math.Sincos is the oracle; both are good to about one unit in the last place.
func TestSincos(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 200_000 {
		theta := (r.Float64() - 0.5) * 40
		sin, cos := sincos(theta)
		wantSin, wantCos := math.Sincos(theta)
		if math.Abs(sin-wantSin) > 0x1p-52 || math.Abs(cos-wantCos) > 0x1p-52 {
			t.Fatalf("sincos(%v) = %v, %v, want %v, %v", theta, sin, cos, wantSin, wantCos)
		}
	}
	for k := -8; k <= 8; k++ {
		sin, cos := sincos(float64(k) * math.Pi / 2)
		wantSin, wantCos := math.Sincos(float64(k) * math.Pi / 2)
		near(t, "sin", sin, wantSin, 1e-19)
		near(t, "cos", cos, wantCos, 1e-19)
	}
}

// Bits recorded once: they must come out on every target and at every level of
// instruction set. A change here is a change of printed results.
func TestCenterBits(t *testing.T) {
	c := []float64{33, 31, 35, 30, 36, 29, 33, 38, 27, 30, 34, 36}
	for i := range c {
		c[i] *= 0.0254 / 64
	}
	a, err := MinimaxCenter(evenly(12), c, 0.0127, 2.1336, nm)
	if err != nil {
		t.Fatal(err)
	}
	z, err := MinimumZone(evenly(12), c, 2.1336, nm)
	if err != nil {
		t.Fatal(err)
	}
	got := []uint64{math.Float64bits(a.X), math.Float64bits(a.Y), math.Float64bits(a.HalfWidth),
		math.Float64bits(z.X), math.Float64bits(z.Y), math.Float64bits(z.HalfWidth)}
	want := []uint64{0xbf3e08d31ca95ce9, 0x3f25fadda571178c, 0x3f60f16956a3c168,
		0xbf3e0958310eb1c7, 0x3f3e07435d2ba3b6, 0x3f6081ecd2df7000}
	if !slices.Equal(got, want) {
		t.Errorf("bits %#x, want %#x", got, want)
	}
}

func TestHarmonicRefuses(t *testing.T) {
	crowded := []float64{0, 0.01, 0.02, 0.03, 0.04}
	var ill IllConditioned
	if _, err := FitHarmonic(crowded, crowded, 1); !errors.As(err, &ill) || float64(ill) < 1000 {
		t.Errorf("crowded positions: %v", err)
	}
	tests := []struct {
		name     string
		theta, y []float64
		order    int
	}{
		{"two places", []float64{0, math.Pi, 2 * math.Pi}, []float64{1, 2, 3}, 1},
		{"zero and a full turn are one place", []float64{0, 2, 2 * math.Pi}, []float64{1, 2, 3}, 1},
		{"uneven", []float64{0, 1, 2}, []float64{1, 2}, 1},
		{"order zero", evenly(5), evenly(5), 0},
		{"order too high", evenly(100), evenly(100), MaxOrder + 1},
		{"nan angle", []float64{0, 1, math.NaN()}, []float64{1, 2, 3}, 1},
		{"infinite value", evenly(3), []float64{1, 2, math.Inf(1)}, 1},
		{"nothing", nil, nil, 1},
	}
	for _, test := range tests {
		if _, err := FitHarmonic(test.theta, test.y, test.order); !errors.Is(err, ErrInput) {
			t.Errorf("%s: %v", test.name, err)
		}
	}
	half := []float64{0, 0.5, 1, 1.5, 2, 2.5, 3}
	if h, err := FitHarmonic(half, half, 1); err != nil || h.Cond < 3 {
		t.Errorf("positions over half a turn: condition %v, %v", h.Cond, err)
	}
}

func TestLeastSquaresRefuses(t *testing.T) {
	var ill IllConditioned
	same := [][]float64{{1, 2}, {1, 2}, {1, 2}}
	if _, err := LeastSquares(same, []float64{1, 2, 3}); !errors.As(err, &ill) {
		t.Errorf("equal columns: %v", err)
	}
	if _, err := LeastSquares([][]float64{{1, 0}, {1, 0}}, []float64{1, 2}); !errors.As(err, &ill) {
		t.Errorf("zero column: %v", err)
	}
	for name, rows := range map[string][][]float64{
		"too few": {{1, 2}}, "ragged": {{1, 2}, {1}}, "nan": {{1, math.NaN()}, {1, 2}}, "no columns": {{}, {}}, "none": {},
	} {
		y := make([]float64, len(rows))
		if _, err := LeastSquares(rows, y); !errors.Is(err, ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestTightestWindow(t *testing.T) {
	type window struct {
		lo, hi int64
		keep   []int
	}
	tests := []struct {
		name   string
		values []int64
		width  int64
		want   window
	}{
		{"none", nil, 5, window{}},
		{"negative width", []int64{1}, -1, window{}},
		{"one", []int64{7}, 0, window{7, 7, []int{0}}},
		{"all", []int64{3, 1, 2}, 2, window{1, 3, []int{0, 1, 2}}},
		{"exactly the width is in", []int64{0, 10, 21}, 10, window{0, 10, []int{0, 1}}},
		{"order kept", []int64{50, 9, 10, 51, 11}, 2, window{9, 11, []int{1, 2, 4}}},
		{"tie: least distance of the others", []int64{0, 1, 10, 11, 14}, 1, window{10, 11, []int{2, 3}}},
		{"tie of ties: the lowest", []int64{0, 1, 10, 11}, 1, window{0, 1, []int{0, 1}}},
		{"repeats", []int64{5, 1, 5, 1, 5}, 0, window{5, 5, []int{0, 2, 4}}},
		{"widest numbers", []int64{math.MinInt64, math.MaxInt64}, math.MaxInt64,
			window{math.MinInt64, math.MinInt64, []int{0}}},
	}
	for _, test := range tests {
		lo, hi, keep := TightestWindow(test.values, test.width)
		if lo != test.want.lo || hi != test.want.hi || !slices.Equal(keep, test.want.keep) {
			t.Errorf("%s: %d, %d, %v, want %+v", test.name, lo, hi, keep, test.want)
		}
	}
}
