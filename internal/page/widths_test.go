package page

import (
	"slices"
	"testing"
)

// TestColumnsGiveWhatTheyDoNotNeed: by hand, in points.
func TestColumnsGiveWhatTheyDoNotNeed(t *testing.T) {
	for name, c := range map[string]struct {
		w            mp
		shares       []float64
		needs, means []mp
		want         []mp
	}{
		"enough for all: by shares":        {400_000, []float64{1, 3}, []mp{90_000, 90_000}, []mp{0, 0}, []mp{100_000, 300_000}},
		"one is short, the other gives":    {400_000, []float64{1, 3}, []mp{140_000, 100_000}, []mp{0, 0}, []mp{180_000, 220_000}},
		"too much for all: by shares":      {400_000, []float64{1, 3}, []mp{500_000, 900_000}, []mp{200_000, 400_000}, []mp{100_000, 300_000}},
		"one needs little, two too much":   {400_000, []float64{2, 1, 1}, []mp{100_000, 900_000, 900_000}, []mp{0, 0, 0}, []mp{100_000, 150_000, 150_000}},
		"one comes to eight lines":         {300_000, []float64{1, 1}, []mp{400_000, 1_200_000}, []mp{300_000, 1_200_000}, []mp{100_000, 200_000}},
		"but counts for three at most":     {400_000, []float64{1, 1}, []mp{800_000, 9_000_000}, []mp{500_000, 9_000_000}, []mp{100_000, 300_000}},
		"a chain of columns with too much": {600_000, []float64{1, 1, 1}, []mp{50_000, 240_000, 900_000}, []mp{0, 0, 0}, []mp{50_000, 240_000, 310_000}},
	} {
		got, err := allot(c.w, c.shares, c.needs, c.means)
		if err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%s: %v (%v), expected %v", name, got, err, c.want)
		}
	}
}
