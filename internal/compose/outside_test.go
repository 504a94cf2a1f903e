//go:build outside

package compose

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
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
			_, out := readBack(t, in)
			text := squeezed(out)
			rows := 0
			for head, n := range rowHeads(b) {
				rows += n
				if got := strings.Count(text, head); got < n {
					t.Errorf("%q heads %d rows, found %d times", head, n, got)
				}
			}
			if rows < 400 {
				t.Errorf("only %d rows looked at", rows)
			}
		})
	}
}

// TestLabelsAreThePrintedNumbers: the number at the foot of every page, as pdftotext
// finds it, is the page's label, as qpdf reads it out of the file; and the cell's
// name and state stand at its head.
func TestLabelsAreThePrintedNumbers(t *testing.T) {
	in := inputOf(t, wholePlan)
	file, out := readBack(t, in)
	pages := strings.Split(strings.TrimSuffix(out, "\f"), "\f")
	labels := labelsOf(t, file, len(pages))
	for i, text := range pages {
		want := fmt.Sprintf("page %s of %d", labels[i], len(pages))
		if !strings.Contains(text, want) {
			t.Errorf("page %d is labeled %q, but %q is not printed on it", i+1, labels[i], want)
		}
	}
	for _, c := range in.Record.Cells {
		head := fmt.Sprintf("Cell %d (%s): ", c.Number, c.Name.Value)
		n := 0
		for _, text := range pages {
			if strings.Contains(text, head) {
				n++
			}
		}
		if n < 3 {
			t.Errorf("%q heads %d pages", head, n)
		}
	}
}

// readBack writes a package and reads its text with pdftotext.
func readBack(t *testing.T, in Input) (file, text string) {
	t.Helper()
	raw, err := Write(in)
	if err != nil {
		t.Fatal(err)
	}
	file = filepath.Join(t.TempDir(), "package.pdf")
	if err := os.WriteFile(file, raw, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-raw", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return file, string(out)
}

// labelsOf are the labels of all pages: qpdf gives the ranges, and every range here
// counts in decimals.
func labelsOf(t *testing.T, file string, pages int) []string {
	t.Helper()
	out, err := exec.Command("qpdf", "--json=2", "--json-key=pagelabels", file).Output()
	if err != nil {
		t.Fatal(err)
	}
	ranges := regexp.MustCompile(`"index": (\d+),\s+"label": \{\s+"/S": "/D",\s+"/St": (\d+)\s+\}`).FindAllSubmatch(out, -1)
	if len(ranges) == 0 || len(ranges) != strings.Count(string(out), `"index"`) {
		t.Fatalf("labels that are not decimal: %s", out)
	}
	labels := make([]string, pages)
	for _, r := range ranges {
		index, _ := strconv.Atoi(string(r[1]))
		start, _ := strconv.Atoi(string(r[2]))
		for i := index; i < pages; i++ {
			labels[i] = strconv.Itoa(start + i - index)
		}
	}
	return labels
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
