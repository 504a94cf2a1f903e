//go:build outside

package screen_test

import "testing"

// Ten times as many honest towers prove what the four questions claim together:
// 4 in 1 000.
func TestManyHonestTowersAreNotAsked(t *testing.T) {
	const n, four = 10_000, 0.004
	if asked := honest(t, n, 4, anyWorld); rateBound(asked, n) > four {
		t.Errorf("%d of %d honest towers were asked", asked, n)
	}
}

func TestHonestCornersAreProved(t *testing.T) {
	const n = 1000
	for _, c := range corners() {
		asked := honest(t, n, 5, c.draw)
		t.Logf("%s: %d of %d were asked", c.name, asked, n)
		if rateBound(asked, n) > claimed {
			t.Errorf("%s: %d of %d were asked", c.name, asked, n)
		}
	}
}
