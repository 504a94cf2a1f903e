package compose

import (
	"strings"
	"testing"
)

// TestOneJobIsToldOnce: a blade that is off its pitch is outside by itself and
// against the others, and turned once.
func TestOneJobIsToldOnce(t *testing.T) {
	r := cardTower(t)
	m := &maker{sheet: "Cell 1"}
	for n := range r.Cells[0].Pitch.Rounds {
		r.Cells[0].Pitch.Rounds[n].Readings[2].Value = m.angle("14.3")
	}
	b, err := Package(cardInput(t, r))
	if err != nil {
		t.Fatal(err)
	}
	b.Sections = b.Sections[:1]
	front := dump(b)
	for text, want := range map[string]int{"Turn to the new angle": 1, "To do: as for 1, one job for both.": 1} {
		if n := strings.Count(front, text); n != want {
			t.Errorf("%q stands there %d times:\n%s", text, n, front)
		}
	}
}
