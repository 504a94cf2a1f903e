package screen_test

import (
	"math/rand/v2"
	"testing"
)

// corner is a kind of honest towers that comes nearest to one of the questions.
type corner struct {
	name string
	draw func(*rand.Rand) world
}

func corners() []corner {
	return []corner{
		{"cells that differ by nothing but chance", func(r *rand.Rand) world {
			w := usual(3+r.IntN(10), 0)
			w.heap, w.mean, w.off, w.tilt, w.cycle = 0, 0, 0, 0, 0
			w.mold, w.shape, w.blade, w.pitch = pick(r, 0.1, 4), pick(r, 0.3, 2), pick(r, 0.3, 2), pick(r, 0.3, 2)
			return w
		}},
		{"read again as exactly as people can", func(r *rand.Rand) world {
			w := usual(2+r.IntN(5), oneOf(r, 0.0, 1))
			w.heap, w.noise = 0, 0.1
			return w
		}},
		{"read again by people who round off nearly all", func(r *rand.Rand) world {
			w := usual(8, 1)
			w.heap, w.to, w.noise = 0.97, 2, 0.1
			return w
		}},
		{"nothing moved between two rounds", func(r *rand.Rand) world {
			w := usual(4, 1)
			w.off, w.tilt, w.cycle, w.shape, w.noise = 0, 0, 0, 0, pick(r, 0.1, 0.4)
			return w
		}},
		{"habits of reading, on rows that reach far", func(r *rand.Rand) world {
			w := usual(12, 1)
			w.shape, w.blade, w.tilt, w.off, w.heap = 6, 6, 8, 8, oneOf(r, 0.2, 0.5)
			return w
		}},
	}
}

// A hundred towers of a kind do not prove 1 in 100, but more than 4 of them
// refute it: by chance that is 3 in 1 000 (scipy 1.17.1,
// stats.binom.sf(4, 100, 0.01) = 0.0034). The proof takes longer.
func TestHonestCorners(t *testing.T) {
	const n, most = 100, 4
	for _, c := range corners() {
		if asked := honest(t, n, 5, c.draw); asked > most {
			t.Errorf("%s: %d of %d were asked", c.name, asked, n)
		}
	}
}
