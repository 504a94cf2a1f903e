package compose

import (
	"slices"
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/measure"
	"asleft/internal/page"
)

// TestCellsInARow: numbers that follow each other are told by the first and the
// last, and both lead somewhere.
func TestCellsInARow(t *testing.T) {
	for want, cells := range map[string][]int{
		"3": {3}, "3, 4": {3, 4}, "3–6": {3, 4, 5, 6}, "1, 3–5, 9": {1, 3, 4, 5, 9}, "1–3, 5–7": {1, 2, 3, 5, 6, 7},
	} {
		var text strings.Builder
		for _, r := range cellLinks(cells, cellAnchor) {
			text.WriteString(r.Text)
			if strings.Trim(r.Text, "0123456789") == "" && r.Link != "cell."+r.Text {
				t.Errorf("%v: %q leads to %q", cells, r.Text, r.Link)
			}
		}
		if text.String() != want {
			t.Errorf("%v: %q, expected %q", cells, text.String(), want)
		}
	}
}

// TestWorstFirst: what was found wrong stands before what is to be read again,
// that before what is missing, and in each the worse cell first.
func TestWorstFirst(t *testing.T) {
	in := inputOf(t, wholePlan)
	b := newBook(&in, made{})
	order := b.cellOrder()
	last, lastCell := -1, -1
	for _, g := range b.reasonGroups() {
		class, _ := rank(g)
		cell := len(order)
		for _, c := range g.cells {
			cell = min(cell, slices.Index(order, c))
		}
		if class < last || class == last && cell < lastCell {
			t.Errorf("%s of class %d, cell %v, stands after class %d, cell %d", g.first.Key, class, g.cells, last, lastCell)
		}
		last, lastCell = class, cell
	}
	if last <= 0 {
		t.Fatal("the tower has reasons of one class alone")
	}
}

// TestFirstPageIsOnePage: however many cells there are and however long the
// names, the first page holds on one sheet and says what to do about the worst.
func TestFirstPageIsOnePage(t *testing.T) {
	m, err := page.NewMetrics()
	if err != nil {
		t.Fatal(err)
	}
	for name, p := range map[string]plan{"one": wholeGoodPlan, "six": wholePlan, "many": wholeBigPlan} {
		for _, paper := range []page.Paper{page.Letter, page.A4} {
			in := inputOf(t, p)
			in.Options.Paper = paper
			b := newBook(&in, made{})
			s := b.frontSection()
			if n, err := page.PagesOf(paper, s, m); err != nil || n != 1 {
				t.Errorf("%s on %s: %d pages, %v", name, paper.Name, n, err)
			}
		}
	}
}

// TestAcceptedIsAKindOfItsOwn: a deviation that was accepted, and nothing else
// against the check, is told with a word and a mark of its own.
func TestAcceptedIsAKindOfItsOwn(t *testing.T) {
	in := inputOf(t, demoPlan)
	k := in.Assessment.Cells[1].Check(assess.Clearance)
	text, exact := measure.Length(k.StandingRound().Deciding.N).FormatFraction(64)
	if k.Verdict != assess.Outside || !exact {
		t.Fatalf("the deviation accepts something else: %s, %s", k.Verdict, text)
	}
	value := &in.Record.Deviations[0].Value
	value.Value, value.Text = text+" in", text+" in"
	in.Assessment = assess.Assess(in.Record, in.Rules)
	b := newBook(&in, made{})
	found := 0
	for _, c := range b.cells() {
		for i := range c.judged.Checks {
			k := &c.judged.Checks[i]
			if c.told(k) != accepted {
				continue
			}
			found++
			if run := b.verdict(accepted); run.Mark != page.MarkAccepted || run.Text == b.verdict(k.Verdict).Text {
				t.Errorf("cell %d, %s: told as %q with mark %d", c.judged.Number, k.Key, run.Text, run.Mark)
			}
		}
	}
	if found == 0 {
		t.Error("no accepted deviation in the tower")
	}
}
