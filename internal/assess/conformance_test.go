package assess

import "testing"

// TestConformance: the worked examples of JCGM 106:2012, 7.3 and 7.4 (values
// from memory; probabilities recomputed, and equal to the printed two digits).
// All in thousandths of the example's unit.
func TestConformance(t *testing.T) {
	for _, x := range []struct {
		name string
		y, u int64
		win  window
		want int64 // parts per million
	}{
		{"breakdown voltage of a Zener diode, 0.92", -5470, 50, upTo(-5400), 919_243},
		{"burst strength of a container, 0.99", 509_700, 8_600, window{lo: 490_000, hasLo: true}, 989_010},
		{"viscosity of an oil, 0.66", 13_600, 1_800, window{12_500, 16_300, true, true}, 662_630},
	} {
		toLow, toHigh := x.win.from(x.y)
		if got, ok := conformance(toLow, toHigh, rss(x.u)); !ok || got != x.want {
			t.Errorf("%s: %d, want %d", x.name, got, x.want)
		}
	}
	if _, ok := conformance(-1, 1, uncertainty{}); ok {
		t.Error("not known")
	}
}

// TestGuardedRisk: at a margin of exactly U the risk of a false acceptance is
// Φ(−2) = 2.275 % (ILAC-G8:09/2019, table 1: below 2.5 %, value from memory),
// and that margin is not near.
func TestGuardedRisk(t *testing.T) {
	u := rss(1000)
	ru := ruling{limited: true}
	toLow, toHigh := upTo(2000).from(0)
	if p, _ := conformance(toLow, toHigh, u); 1_000_000-p != 22_750 {
		t.Errorf("risk %d ppm", 1_000_000-p)
	}
	if ru.outcome(2000, u.guard()) != Within || ru.outcome(1999, u.guard()) != NearLimit {
		t.Error("guard band")
	}
}
