package compose

import (
	"testing"

	"asleft/internal/correct"
	"asleft/internal/measure"
	"asleft/internal/page"
)

// TestNoWordOrNumberIsBroken: no column is so narrow that a word or a number in it
// is broken, in either unit.
func TestNoWordOrNumberIsBroken(t *testing.T) {
	for name, p := range map[string]plan{
		"six cells": wholePlan, "one cell": wholeGoodPlan, "three rounds": {cells: 3, blades: 8, positions: 12, rounds: 3, full: true},
		"four rounds": {cells: 2, blades: 16, positions: 36, rounds: 4, full: true}, "many cells": {cells: 13, blades: 8, positions: 8, rounds: 2, full: true},
	} {
		for _, unit := range []measure.Unit{measure.UnitInch, measure.UnitMillimeter} {
			in := inputOf(t, p)
			in.Options.Paper, in.Options.Units = page.A4, unit // the narrower one
			in.Moves = correct.Correct(in.Record, in.Assessment, in.Rules)
			seen := map[page.Cut]bool{}
			for _, c := range placed(t, in).Cuts {
				if hash := c.Section == "archive"; !hash && !seen[c] {
					seen[c] = true
					t.Errorf("%s in %s: section %s: %q", name, unit, c.Section, c.Text)
				}
			}
		}
	}
}
