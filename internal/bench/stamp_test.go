package main

import "testing"

// A stamped tower has its cells, and each reads as the one that it was stamped
// from.
func TestTowerIsStamped(t *testing.T) {
	s := through(t, perBook+8)
	cells := s.record.Cells
	if len(cells) != perBook+8 || len(s.record.Files) != 2 {
		t.Fatalf("%d cells of %d files", len(cells), len(s.record.Files))
	}
	for i, c := range cells {
		if c.Number != i+1 || c.Name.Value != cells[i%6].Name.Value || len(c.Clearance.Rounds) != len(cells[i%6].Clearance.Rounds) {
			t.Errorf("cell %d is %d, %q", i+1, c.Number, c.Name.Value)
		}
	}
}
