package compose

import (
	"os"
	"testing"
)

// TestLook writes the package to the path in COMPOSE_LOOK.
func TestLook(t *testing.T) {
	path := os.Getenv("COMPOSE_LOOK")
	if path == "" {
		t.Skip()
	}
	p := demoPlan
	switch os.Getenv("COMPOSE_PLAN") {
	case "good":
		p = plan{cells: 1, blades: 8, positions: 12, rounds: 2, good: true}
	case "big":
		p = plan{cells: 24, blades: 16, positions: 36, rounds: 4}
	case "three":
		p.rounds = 3
	}
	out, err := Write(inputOf(t, p))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, out, 0o666); err != nil {
		t.Fatal(err)
	}
}
