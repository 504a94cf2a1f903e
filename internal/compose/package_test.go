package compose

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/page"
)

// Towers of different sizes: one cell with nothing against it but that only
// the fan is covered, and the largest in use.
var (
	goodPlan = plan{cells: 1, blades: 8, positions: 12, rounds: 2, good: true}
	bigPlan  = plan{cells: 24, blades: 16, positions: 36, rounds: 4}
	// The whole job: the ordinary tower, one cell done well, the largest.
	wholePlan     = plan{cells: 6, blades: 8, positions: 12, rounds: 2, full: true}
	wholeGoodPlan = plan{cells: 1, blades: 8, positions: 12, rounds: 2, good: true, full: true}
	wholeBigPlan  = plan{cells: 24, blades: 16, positions: 36, rounds: 4, full: true}
)

// TestEveryShapeOfTowerFitsItsPages places whole books: nothing may be too
// large, without a glyph, or lost.
func TestEveryShapeOfTowerFitsItsPages(t *testing.T) {
	long := demoPlan
	long.names = func(s string) string { return s + strings.Repeat(" of the Northern Valleys Regional Authority", 2) }
	longWhole := wholePlan
	longWhole.names = long.names
	greek := demoPlan
	greek.names = func(string) string { return "Υδραγωγείο Άρτας" }
	cyrillic := demoPlan
	cyrillic.names = func(string) string { return "Щукинский водозабор" }
	three := demoPlan
	three.rounds = 3
	for name, p := range map[string]plan{
		"ordinary": demoPlan, "one cell": goodPlan, "many": bigPlan, "three rounds": three, "long names": long,
		"whole job": wholePlan, "whole job, one cell": wholeGoodPlan, "whole job, many": wholeBigPlan, "whole job, long names": longWhole,
		"Greek": greek, "Cyrillic": cyrillic, "few": {cells: 2, blades: 4, positions: 4, rounds: 2},
	} {
		for _, paper := range []page.Paper{page.Letter, page.A4} {
			t.Run(name+" "+paper.Name, func(t *testing.T) {
				in := inputOf(t, p)
				in.Options.Paper = paper
				placed(t, in)
			})
		}
	}
}

// TestPageOneIsOnePage: the first page is one page, whatever the names and with
// a tile for each of many cells.
func TestPageOneIsOnePage(t *testing.T) {
	long := wholePlan
	long.names = func(s string) string { return s + strings.Repeat(" of the Northern Valleys Regional Authority", 2) }
	many := inputOf(t, wholeBigPlan)
	for i := range many.Assessment.Cells { // something of each kind against every cell
		checks := many.Assessment.Cells[i].Checks
		checks[0].Verdict, checks[1].Verdict, checks[2].Verdict = assess.Outside, assess.Recheck, assess.Missing
	}
	for name, in := range map[string]Input{"long names": inputOf(t, long), "many cells": many} {
		b, m := measured(t, in)
		if n, err := page.PagesOf(b.Paper, b.Sections[0], m); n != 1 || err != nil {
			t.Errorf("%s: %d pages, %v", name, n, err)
		}
	}
}

// measured is a package and what it is placed by.
func measured(t testing.TB, in Input) (page.Book, *page.Metrics) {
	t.Helper()
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	m, err := page.NewMetrics()
	if err != nil {
		t.Fatal(err)
	}
	return b, m
}

func placed(t testing.TB, in Input) *page.Placed {
	t.Helper()
	b, m := measured(t, in)
	out, err := page.Place(b, m)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestPseudoLanguageFits prints longer words everywhere.
func TestPseudoLanguageFits(t *testing.T) {
	for _, p := range []plan{demoPlan, wholePlan} {
		in := inputOf(t, p)
		in.Words = pseudo{in.Words}
		placed(t, in)
	}
}

// TestEveryRowIsPlaced compares the rows on the pages with the rows of the
// record, by what the tables are about.
func TestEveryRowIsPlaced(t *testing.T) {
	in := inputOf(t, bigPlan)
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range placed(t, in).Counts {
		if c.Rows != c.Placed {
			t.Errorf("section %s, table %d: %d of %d rows", c.Section, c.Table, c.Placed, c.Rows)
		}
	}
	tables := tablesIn(b)
	for _, c := range in.Record.Cells {
		var got []int
		for _, tb := range tables[cellAnchor(c.Number)] {
			got = append(got, len(tb.Rows))
		}
		// Readings with the first one again; by position, with the blade as well.
		for _, want := range []int{len(in.Record.Tower.Positions) + 2, in.Record.Tower.Blades.Value + 1, len(assess.Checks()), len(c.Moves)} {
			if !slices.Contains(got, want) {
				t.Errorf("cell %d: no table of %d rows among %v", c.Number, want, got)
			}
		}
	}
	// A row for each check, for the head of each part but the one that is a single
	// check, and for the readings.
	if got, want := len(tables["summary"][0].Rows), len(assess.AllChecks())+len(allGroups())-1+1; got != want {
		t.Errorf("matrix of %d rows, expected %d", got, want)
	}
}

// TestDraftMarkFollowsTheState: the mark is on the pages of a package that is
// not ready and on no other.
func TestDraftMarkFollowsTheState(t *testing.T) {
	in := inputOf(t, goodPlan)
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	if b.Draft == "" {
		t.Error("no draft mark although not ready")
	}
	in.Assessment.State, in.Assessment.Reasons = assess.Ready, nil
	in.Assessment.Cells[0].State, in.Assessment.Cells[0].Reasons = assess.Ready, nil
	if b, err = Package(in); err != nil {
		t.Fatal(err)
	}
	if b.Draft != "" {
		t.Errorf("draft mark %q although ready", b.Draft)
	}
	placed(t, in)
	words := in.Words.Say("state.ready")
	for _, where := range []string{"front", "cell.1", "signoff"} {
		if !says(b, where, words) {
			t.Errorf("section %s does not say %q", where, words)
		}
	}
	if says(b, "front", in.Words.Say("state.notready")) {
		t.Error("the first page says not ready, too")
	}
}

// says tells whether a section has a run of the text.
func says(b page.Book, section, text string) bool {
	for _, s := range b.Sections {
		if s.Key == section {
			for _, r := range runsIn(page.Book{Sections: []page.Section{s}}) {
				if strings.Contains(r.Text, text) {
					return true
				}
			}
		}
	}
	return false
}

// TestHiddenCharactersAreRefusedWithTheirCell: what cannot be seen on paper must
// not get there.
func TestHiddenCharactersAreRefusedWithTheirCell(t *testing.T) {
	in := inputOf(t, goodPlan)
	in.Record.Cells[0].Remarks = field.Text{Value: "left\u202eright", Set: true, At: field.Ref{Sheet: "Cell 1", Cell: "B40"}}
	_, err := Package(in)
	if !errors.Is(err, ErrText) || !strings.Contains(err.Error(), "Cell 1!B40") {
		t.Fatalf("got %v", err)
	}
}

// TestCharacterWithoutGlyphNamesItsCell: scripts that the fonts do not have.
func TestCharacterWithoutGlyphNamesItsCell(t *testing.T) {
	in := inputOf(t, goodPlan)
	in.Record.Cells[0].Remarks = field.Text{Value: "good 風扇", Set: true, At: field.Ref{Sheet: "Cell 1", Cell: "B40"}}
	_, err := Write(in)
	var bad *page.TextError
	if !errors.As(err, &bad) || !strings.Contains(err.Error(), "Cell 1!B40") {
		t.Fatalf("got %v", err)
	}
}

// TestRemarkOverSeveralLinesIsOneLine: line ends of a cell are spaces on paper.
func TestRemarkOverSeveralLinesIsOneLine(t *testing.T) {
	in := inputOf(t, goodPlan)
	in.Record.Cells[0].Remarks = field.Text{Value: "first line\nsecond line", Set: true}
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	if !says(b, "cell.1", "first line second line") {
		t.Error("the remark is not printed on one line")
	}
}
