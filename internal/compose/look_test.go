package compose

import (
	"os"
	"strings"
	"testing"

	"asleft/internal/archive"
	"asleft/internal/assess"
	"asleft/internal/measure"
	"asleft/internal/page"
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
		p = goodPlan
	case "big":
		p = bigPlan
	case "three":
		p.rounds = 3
	}
	if os.Getenv("COMPOSE_PLAN") == "long" {
		p.names = func(s string) string { return s + strings.Repeat(" of the Northern Valleys Regional Authority", 2) }
	}
	in := inputOf(t, p)
	if os.Getenv("COMPOSE_PLAN") == "pseudo" {
		in.Words = pseudo{in.Words}
	}
	if os.Getenv("COMPOSE_PLAN") == "metric" {
		in.Options = Options{Paper: page.A4, Units: measure.UnitMillimeter, Profile: archive.PDFA2A}
	}
	if os.Getenv("COMPOSE_PLAN") == "ready" {
		in = inputOf(t, plan{cells: 6, blades: 8, positions: 12, rounds: 2, good: true})
		in.Assessment.State, in.Assessment.Partial, in.Assessment.Reasons = assess.Ready, false, nil
		for i := range in.Assessment.Cells {
			in.Assessment.Cells[i].State, in.Assessment.Cells[i].Reasons = assess.Ready, nil
		}
	}
	out, err := Write(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, out, 0o666); err != nil {
		t.Fatal(err)
	}
}
