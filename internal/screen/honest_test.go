package screen_test

import (
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"asleft/internal/screen"
)

// rateBound is the rate that k of n do not exceed with 95 % confidence (Clopper
// and Pearson).
func rateBound(k, n int) float64 {
	return distuv.Beta{Alpha: float64(k + 1), Beta: float64(n - k)}.Quantile(0.95)
}

// powerBound is the rate that k of n are not below with 95 % confidence.
func powerBound(k, n int) float64 {
	if k == 0 {
		return 0
	}
	return distuv.Beta{Alpha: float64(k), Beta: float64(n - k + 1)}.Quantile(0.05)
}

// honest counts the towers that are asked anything.
func honest(t *testing.T, n int, seed uint64, draw func(*rand.Rand) world) int {
	t.Helper()
	asked := 0
	for i := range n {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		w := draw(r)
		q := screen.Questions(w.tower(r))
		if len(q) > 0 {
			asked++
			t.Logf("tower %d: %s %v of %d, odds %d: %+v", i, q[0].Code, q[0].Cells, q[0].N, q[0].Odds, w)
		}
		for _, x := range q {
			if x.Odds == 0 {
				t.Errorf("tower %d: %s: the dates of an honest tower are in order", i, x.Code)
			}
		}
	}
	return asked
}

// claimed is the share of honest towers that may be asked anything by chance.
const claimed = 0.01

func TestHonestTowersAreNotAsked(t *testing.T) {
	const n = 1000
	if asked := honest(t, n, 1, anyWorld); rateBound(asked, n) > claimed {
		t.Errorf("%d of %d honest towers were asked", asked, n)
	}
}

// Towers as they mostly are; and the bound of the test itself: 4 of 1 000 prove
// 1 in 100, 5 do not (scipy 1.17.1, stats.beta.ppf(0.95, k+1, 1000-k): 0.00913
// and 0.01048).
func TestUsualTowersAreNotAsked(t *testing.T) {
	const n = 500
	draw := func(r *rand.Rand) world { return usual(2+r.IntN(8), 0.5) }
	if asked := honest(t, n, 3, draw); rateBound(asked, n) > claimed {
		t.Errorf("%d of %d usual towers were asked", asked, n)
	}
	if rateBound(4, 1000) > claimed || rateBound(5, 1000) <= claimed {
		t.Errorf("bounds %g and %g", rateBound(4, 1000), rateBound(5, 1000))
	}
}
