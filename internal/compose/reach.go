package compose

import (
	"math"
	"slices"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// sharedScale is how many times its own reach a figure may be made to hold, so
// that the figures of the cells are drawn alike: beyond it, what a quiet cell
// shows would be lost in the scale of a bad one. Common practice, no source.
const sharedScale = 2.5

// sharedReach is what the polar figure of a check must hold so that the figures
// of the cells are drawn equally exaggerated: from the widest cell down, each
// takes in those that are not too small beside it.
func (b *book) sharedReach(c towerCell, check string) float64 {
	all, there := b.reach[check]
	if !there {
		for _, x := range b.cells() {
			all = append(all, b.reachOf(x, check))
		}
		slices.Sort(all)
		slices.Reverse(all)
		b.reach[check] = all
	}
	own, lead := b.reachOf(c, check), 0.0
	for _, r := range all {
		if lead == 0 || r*sharedScale < lead {
			lead = r
		}
		if r <= own {
			break
		}
	}
	return lead
}

// reachOf is the largest value that the figure of one cell shows: a gap, or of
// tilt the distance from the mean of its round.
func (b *book) reachOf(c towerCell, check string) float64 {
	k := c.judged.Check(check)
	if k == nil {
		return 0
	}
	most := 0.0
	for i := range k.Rounds {
		points, mean := k.Rounds[i].Points, measure.Length(0)
		if check == assess.Tilt {
			mean = meanOf(points)
		}
		for _, p := range points {
			if p.Found {
				most = max(most, math.Abs((measure.Length(p.Value.N) - mean).Float(b.first)))
			}
		}
	}
	return most
}
