package compose

import (
	"asleft/internal/assess"
	"asleft/internal/measure"
)

// readingColumn is one round of one check in a table of readings.
type readingColumn struct {
	cell   int
	check  string
	round  *assess.Round
	series block
	unit   string // common to all readings of the check; empty where they differ
	// standing tells whether the round is judged; only there do readings stand
	// out.
	standing bool
}

// columnsOf are the rounds of each check that has any.
func (b *book) columnsOf(c towerCell, checks []string) [][]readingColumn {
	var out [][]readingColumn
	for _, key := range checks {
		if cols := b.readingColumns(c, key); len(cols) > 0 {
			out = append(out, cols)
		}
	}
	return out
}

// groupColumns puts checks side by side in one table as long as they are no
// wider than most; the rounds of a check stay together.
func groupColumns(checks [][]readingColumn, most int, width func([]readingColumn) int) [][]readingColumn {
	var out [][]readingColumn
	for _, cols := range checks {
		last := len(out) - 1
		if last >= 0 && width(out[last])+width(cols) <= most {
			out[last] = append(out[last], cols...)
			continue
		}
		out = append(out, cols)
	}
	return out
}

// rounds and width are how much a check takes up: its rounds, or the columns
// that those need in a table of readings.
func rounds(cols []readingColumn) int { return len(cols) }

func width(cols []readingColumn) int {
	n := 0
	for i := range cols {
		n += cols[i].width()
	}
	return n
}

func (b *book) readingColumns(c towerCell, key string) []readingColumn {
	k := c.judged.Check(key)
	if k == nil {
		return nil
	}
	var out []readingColumn
	unit := commonUnit(k)
	for i := range k.Rounds {
		r := &k.Rounds[i]
		out = append(out, readingColumn{c.judged.Number, key, r, blockOf(c.read, key, r.Key), unit, i == k.Standing})
	}
	return out
}

// commonUnit is the unit in which every reading of a check was meant.
func commonUnit(k *assess.Check) string {
	unit := measure.UnitNone
	for _, r := range k.Rounds {
		for _, p := range r.Points {
			switch {
			case !p.Found:
			case p.Value.Kind == assess.KindAngle:
				return "°"
			case unit == measure.UnitNone:
				unit = p.Unit
			case unit != p.Unit:
				return ""
			}
		}
	}
	return unit.String()
}

// extra is the head of a second column of the round: the heights of marks, or
// the angles without the part that the fan's tilt adds.
func (c *readingColumn) extra() string {
	if c.series.marked {
		return "readings.mark"
	}
	for _, p := range c.round.Points {
		if p.Corrected != nil && c.standing {
			return "readings.corrected"
		}
	}
	return ""
}

// width is the number of columns of the round.
func (c *readingColumn) width() int {
	if c.extra() != "" {
		return 2
	}
	return 1
}
