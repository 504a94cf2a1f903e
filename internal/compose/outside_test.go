//go:build outside

package compose

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"asleft/internal/correct"
	"asleft/internal/page"
)

// TestRowsByAnotherProgram: the text that pdftotext takes out of a finished package
// holds the head of every row of every table, as often as the tables have it.
func TestRowsByAnotherProgram(t *testing.T) {
	for name, p := range map[string]plan{"six cells": wholePlan, "one cell": wholeGoodPlan,
		"many cells": {cells: 13, blades: 16, positions: 36, rounds: 3, full: true}} {
		t.Run(name, func(t *testing.T) {
			in := inputOf(t, p)
			in.Moves = correct.Correct(in.Record, in.Assessment, in.Rules)
			b, err := Package(in)
			if err != nil {
				t.Fatal(err)
			}
			raw, err := Write(in)
			if err != nil {
				t.Fatal(err)
			}
			file := filepath.Join(t.TempDir(), "package.pdf")
			if err := os.WriteFile(file, raw, 0o600); err != nil {
				t.Fatal(err)
			}
			out, err := exec.Command("pdftotext", "-raw", file, "-").Output()
			if err != nil {
				t.Fatal(err)
			}
			text := squeezed(string(out))
			rows := 0
			for head, n := range rowHeads(b) {
				rows += n
				if got := strings.Count(text, head); got < n {
					t.Errorf("%q heads %d rows, found %d times", head, n, got)
				}
			}
			if rows < 500 {
				t.Errorf("only %d rows looked at", rows)
			}
		})
	}
}

// rowHeads are the first texts of the rows of all tables, and how many rows have
// them.
func rowHeads(b page.Book) map[string]int {
	out := map[string]int{}
	for _, tables := range tablesIn(b) {
		for _, tb := range tables {
			for _, r := range tb.Rows {
				var s strings.Builder
				for _, x := range r.Cells[0].Runs {
					s.WriteString(x.Text)
				}
				if head := squeezed(s.String()); head != "" {
					out[head]++
				}
			}
		}
	}
	return out
}

// squeezed leaves out all space: where lines and cells end is the other program's
// own choice.
func squeezed(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, "\u00a0", " ")), "")
}
