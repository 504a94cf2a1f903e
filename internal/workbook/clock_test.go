package workbook

import (
	"testing"

	"asleft/internal/field"
)

// A number that is none is no time of day either.
func TestClockOfNoNumber(t *testing.T) {
	for _, text := range []string{"NaN", "-0.1", "1", "Inf", "1e400", "x", ""} {
		r := reader{book: &book{}}
		sheet := &bookSheet{title: "Cell 1", grid: &grid{}}
		sheet.grid.put(pos{1, 1}, rawCell{kind: rawNumber, text: text, style: numberStyle{clock: true}})
		var c field.Clock
		r.read(&c, slot{kind: kindClock}, sheet, pos{1, 1})
		if c.Set || len(r.faults) != 1 || r.faults[0].Kind != NotClock {
			t.Errorf("%q: taken as %v, faults %v", text, c, r.faults)
		}
	}
}
