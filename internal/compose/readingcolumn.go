package compose

import (
	"strings"

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

// width is how many columns of a table of readings a check takes up.
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
	if unit == "" {
		unit = b.slopeUnit(k)
	}
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

// slopeUnit is the unit in which every slope of a check is printed, empty where
// they differ or are none.
func (b *book) slopeUnit(k *assess.Check) string {
	unit := ""
	for _, r := range k.Rounds {
		for _, p := range r.Points {
			if !p.Found {
				continue
			}
			if p.Value.Kind != assess.KindSlope {
				return ""
			}
			_, u := slopeParts(b.readingText(p, ""))
			if u == "" || unit != "" && unit != u {
				return ""
			}
			unit = u
		}
	}
	return unit
}

// slopeParts parts a slope as printed into number and unit; where it cannot be
// parted, the unit is empty.
func slopeParts(text string) (number, unit string) {
	i := strings.LastIndexAny(text, " \u00a0")
	if i < 0 || !strings.Contains(text[i:], "/") || strings.ContainsFunc(text[:i], unitRune) {
		return text, ""
	}
	return text[:i], strings.TrimLeft(text[i:], " \u00a0")
}

// bareSlope takes the unit off a slope where the head of the column has it.
func bareSlope(text, unit string) string {
	if n, u := slopeParts(text); u == unit {
		return n
	}
	return text
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
