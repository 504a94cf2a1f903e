package assess_test

import (
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// TestDueByMoves: work that calls for a balance or for a run-out, which no check
// of the form reads, makes it due; vibration read later has the balance done.
// The run is on day 7. Common practice, no source.
func TestDueByMoves(t *testing.T) {
	for _, x := range []struct {
		name     string
		moves    []field.Move
		want     []string
		afterRun bool
	}{
		{"blade replaced before the run", []field.Move{event("blade.replace", 3, 0)}, nil, true},
		{"blade replaced on the day of the run, later", []field.Move{event("blade.replace", 7, 600)}, []string{"due.balance blade.replace 2026-03-07"}, false},
		{"blades moved after the run", []field.Move{event("blade.move", 8, 0), event("blade.move", 8, 30)}, []string{"due.balance blade.move 2026-03-08"}, false},
		{"blade re-pitched after the run", []field.Move{event("blade.pitch", 8, 0)}, nil, false},
		{"coupling opened", []field.Move{event("coupling.open", 3, 0)}, []string{"due.runout coupling.open 2026-03-03"}, true},
		{"hub opened after the run", []field.Move{event("hub.open", 8, 0)},
			[]string{"due.runout hub.open 2026-03-08", "due.balance hub.open 2026-03-08"}, false},
	} {
		a := judged(t, func(r *field.Record) { r.Cells[0].Moves = append(r.Cells[0].Moves, x.moves...) })
		c := &a.Cells[0]
		var got []string
		for _, d := range c.Due {
			got = append(got, d.Key+" "+d.Args[0].Text+" "+d.Args[1].Text)
		}
		if !slices.Equal(got, x.want) {
			t.Errorf("%s: due %v, want %v", x.name, got, x.want)
		}
		if c.AfterRun != x.afterRun || x.afterRun && a.State != assess.Ready {
			t.Errorf("%s: after the run %v, %s", x.name, c.AfterRun, a.State)
		}
	}
}
