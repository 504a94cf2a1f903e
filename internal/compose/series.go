package compose

import (
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// block is what a round of readings holds besides its points: the return
// reading, the heights of the marks, the blade that was turned.
type block struct {
	length field.Length // return reading
	angle  field.Angle
	marks  map[int]field.Length
	marked bool
	blade  field.Count
}

// blockOf finds a round of a check in the record.
func blockOf(c *field.Cell, check, round string) block {
	switch check {
	case assess.Tilt:
		out := lengthBlock(c.Tilt.Rounds, round)
		out.blade = c.Tilt.Blade
		return out
	case assess.Track:
		return lengthBlock(c.Track.Rounds, round)
	case assess.TipRadius:
		return lengthBlock(c.TipRadius.Rounds, round)
	case assess.Clearance:
		for _, r := range c.Clearance.Rounds {
			if r.Round == round {
				out := lengthBlock([]field.Series[field.Length]{r.Series}, round)
				out.blade = r.Blade
				return out
			}
		}
	case assess.Pitch:
		for _, s := range c.Pitch.Rounds {
			if s.Round == round {
				return block{angle: s.Return}
			}
		}
	}
	return block{}
}

func lengthBlock(list []field.Series[field.Length], round string) block {
	out := block{marks: map[int]field.Length{}}
	for _, s := range list {
		if s.Round != round {
			continue
		}
		out.length = s.Return
		for _, r := range s.Readings {
			if r.Mark.Set {
				out.marks[r.Index] = r.Mark
				out.marked = true
			}
		}
	}
	return out
}

// bareDegrees takes the sign or word off an angle in plain degrees; one in
// minutes and seconds stays as it was typed.
func bareDegrees(typed string) string {
	for _, unit := range []string{"°", "degrees", "degree", "deg"} {
		if head, ok := strings.CutSuffix(typed, unit); ok && !strings.ContainsAny(head, "°'\"") {
			return strings.TrimSpace(head)
		}
	}
	return typed
}
