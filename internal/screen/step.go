package screen

// heaped is the share of readings rounded off to a coarser mark from which on
// all of them count as read to that mark.
const heaped = 0.2

// reach is the step that a block's readings tell apart: the instrument's, or
// what all readings are multiples of, whichever is coarser; and coarser still
// where people rounded off. It errs on the coarse side: readings of a coarse
// scale agree more often, so that fewer questions are asked.
func (t *tower) reach(block string) int64 {
	var step, all int64
	var values []int64
	for _, x := range t.of(block) {
		step = max(step, t.step(x))
		for _, v := range x.values {
			if v.set {
				values, all = append(values, v.n), divisor(all, v.n)
			}
		}
	}
	step = max(step, all)
	if step == 0 {
		return 0
	}
	best := step
	for _, k := range spacings {
		on := 0
		for _, v := range values {
			if v%(k*step) == 0 {
				on++
			}
		}
		byChance := 1 / float64(k)
		share := float64(on) / float64(len(values))
		if (share-byChance)/(1-byChance) >= heaped {
			best = k * step
		}
	}
	return best
}

// spacings are those of the marks that people may prefer, in steps, on any scale:
// halves of halves, twos, fives and tens.
var spacings = []int64{2, 4, 5, 8, 10, 16, 20}

func divisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}
