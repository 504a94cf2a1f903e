package compose

import (
	"testing"

	"asleft/internal/page"
	"asleft/internal/plot"
)

// TestSmallFiguresOfEveryTower: the small figures of all cells are drawn and stand
// on one page, or two of many cells, for any number of cells in use, and have one scale.
func TestSmallFiguresOfEveryTower(t *testing.T) {
	fonts, err := plot.EmbeddedFonts()
	if err != nil {
		t.Fatal(err)
	}
	m, err := page.NewMetrics()
	if err != nil {
		t.Fatal(err)
	}
	for _, cells := range []int{2, 3, 6, 7, 12, 13, 24} {
		for _, paper := range []page.Paper{page.Letter, page.A4} {
			in := inputOf(t, plan{cells: cells, blades: 8, positions: 12, rounds: 2})
			in.Options.Paper = paper
			b := newBook(&in, made{})
			blocks := b.multiples()
			for i, bl := range blocks { // by themselves they have no heading above them
				if h, ok := bl.(page.Heading); ok {
					h.Level -= 2
					blocks[i] = h
				}
			}
			pages := 1
			if cells > 12 {
				pages = 2
			}
			if n, err := page.PagesOf(paper, b.section("multiples", "", blocks), m); err != nil || n != pages {
				t.Errorf("%d cells on %s: %d pages, expected %d: %v", cells, paper.Name, n, pages, err)
			}
			drawn, reach := 0, map[float64]bool{}
			for _, bl := range blocks {
				row, ok := bl.(page.Columns)
				if !ok {
					continue
				}
				for _, col := range row.Blocks {
					for _, x := range col {
						p := x.(page.Picture)
						if _, err := plot.SVG(p.Figure, fonts, "x", p.Alt); err != nil {
							t.Fatalf("%d cells on %s: %v", cells, paper.Name, err)
						}
						if fig, ok := p.Figure.(plot.PolarClearance); ok {
							reach[fig.Reach] = true
						}
						drawn++
					}
				}
			}
			if drawn != 2*cells || len(reach) != 1 {
				t.Errorf("%d cells on %s: %d figures, %d scales", cells, paper.Name, drawn, len(reach))
			}
		}
	}
}
