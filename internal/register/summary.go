package register

import (
	"cmp"
	"slices"

	"asleft/internal/data"
)

// Line is how one check fares over all cells.
type Line struct {
	Check string
	// Of the standing rounds: how many cells have which verdict.
	Within, Near, Outside, Accepted, Recheck, Missing, NoLimit, Exempt int
	// Worst is the reading furthest outside, with its tower and cell; nil where
	// none is outside by an amount. Median is the middle one of those outside.
	Worst, Median *data.Amount
	WorstAt       *Tower
	WorstCell     int
	// First is how many cells were within the limit in the first round that was
	// judged, of FirstOf that have such a round.
	First, FirstOf int
}

// Judged counts the cells whose standing round was held against a limit.
func (l *Line) Judged() int { return l.Within + l.Near + l.Outside + l.Accepted }

// Summary is a line for each check that any cell has, those that fail most
// first: by cells outside, then by cells that must be read again or are missing.
// An accepted deviation is counted apart.
func (r *Register) Summary() []Line {
	var lines []Line
	index := map[string]int{}
	outside := map[string][]*data.Amount{}
	for i := range r.Towers {
		for _, c := range r.Towers[i].Cells {
			for _, k := range c.Checks {
				n, known := index[k.Key]
				if !known {
					n = len(lines)
					index[k.Key] = n
					lines = append(lines, Line{Check: k.Key})
				}
				l := &lines[n]
				l.count(&k)
				if k.Verdict == "outside" && k.Margin != nil && k.Margin.Base < 0 {
					outside[k.Key] = append(outside[k.Key], k.Margin)
					if l.Worst == nil || k.Margin.Base < l.Worst.Base {
						l.Worst, l.WorstAt, l.WorstCell = k.Margin, &r.Towers[i], c.Number
					}
				}
			}
		}
	}
	for i := range lines {
		lines[i].Median = median(outside[lines[i].Check])
	}
	slices.SortStableFunc(lines, func(a, b Line) int {
		return cmp.Or(cmp.Compare(b.Outside, a.Outside), cmp.Compare(b.Recheck+b.Missing, a.Recheck+a.Missing))
	})
	return lines
}

func (l *Line) count(k *Check) {
	switch k.Verdict {
	case "within":
		l.Within++
	case "near":
		l.Near++
	case "outside":
		if k.Accepted {
			l.Accepted++
		} else {
			l.Outside++
		}
	case "recheck":
		l.Recheck++
	case "missing":
		l.Missing++
	case "nolimit":
		l.NoLimit++
	default:
		l.Exempt++
	}
	if k.First != "" {
		l.FirstOf++
		if right(k.First) {
			l.First++
		}
	}
}

// median is the lower of the two middle amounts where there are two; nil of none.
func median(amounts []*data.Amount) *data.Amount {
	if len(amounts) == 0 {
		return nil
	}
	sorted := slices.Clone(amounts)
	slices.SortStableFunc(sorted, func(a, b *data.Amount) int { return cmp.Compare(a.Base, b.Base) })
	return sorted[(len(sorted)-1)/2]
}
