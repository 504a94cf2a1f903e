package compose

import (
	"asleft/internal/assess"
	"asleft/internal/measure"
)

// scales are what the figures of a kind have in common over the tower, so that
// one cell can be held against another.
type scales struct {
	gap   float64 // largest gap or limit in sight
	drop  float64 // largest distance from the mean height
	drive int     // exaggeration of the drive line; 0: each its own
}

// scales are found once.
func (b *book) scales() scales {
	if b.common == nil {
		s := b.findScales()
		b.common = &s
	}
	return *b.common
}

func (b *book) findScales() scales {
	var s scales
	for _, c := range b.cells() {
		if k := c.judged.Check(assess.Clearance); k != nil {
			for _, r := range k.Rounds {
				for _, p := range r.Points {
					if p.Found {
						s.gap = max(s.gap, b.figureValue(p.Value))
					}
				}
			}
			if _, most := assess.Bounds(k.Key, k.Limit); k.Limit != nil && most != nil {
				s.gap = max(s.gap, b.figureValue(*most))
			}
		}
		if k := c.judged.Check(assess.Tilt); k != nil {
			for i := range k.Rounds {
				mean := meanOf(k.Rounds[i].Points)
				for _, p := range k.Rounds[i].Points {
					if p.Found {
						s.drop = max(s.drop, (measure.Length(p.Value.N) - mean).Abs().Float(b.first))
					}
				}
			}
		}
		if fig, ok := b.driveFigure(c); ok {
			if n := fig.Exaggeration(); s.drive == 0 || n > 0 && n < s.drive {
				s.drive = n
			}
		}
	}
	return s
}
