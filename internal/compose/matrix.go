package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/page"
)

// matrixColumns is how many cells stand side by side: the word of a verdict fits
// beside its mark.
const matrixColumns = 8

// matrixSize lets all checks and the key stand on one page.
const matrixSize = 7.25

// wholeMatrix has a row for each check of the job and a column for each cell; a
// tower of many cells is told in several tables of about the same width.
func (b *book) wholeMatrix() []page.Block {
	cells := b.cells()
	if len(cells) == 0 {
		return nil
	}
	tables := (len(cells) + matrixColumns - 1) / matrixColumns
	each := (len(cells) + tables - 1) / tables
	var out []page.Block
	for from := 0; from < len(cells); from += each {
		if from > 0 {
			out = append(out, page.Break{})
		}
		out = append(out, b.matrixOf(cells[from:min(from+each, len(cells))], each))
	}
	return out
}

// matrixOf is the table of some cells, as wide as for the given number of them.
func (b *book) matrixOf(cells []towerCell, width int) page.Table {
	t := page.Table{
		Size:    matrixSize,
		Columns: []page.Column{{Width: 2.6}},
		Head:    [][]page.TableCell{{headCell(b.say("limits.check"), 0)}},
		Summary: b.say("summary.table"),
	}
	for i := range width {
		t.Columns = append(t.Columns, page.Column{Width: 1, Even: true})
		head := headCell("", 0)
		if i < len(cells) {
			n := cells[i].judged.Number
			head = page.TableCell{Header: true, Runs: linked(bold(b.say("cell.number", "number", strconv.Itoa(n))), cellAnchor(n))}
		}
		t.Head[0] = append(t.Head[0], head)
	}
	for _, g := range allGroups() {
		first := len(t.Rows)
		if len(g.checks) > 1 { // a single check says itself what part it is
			t.Rows = append(t.Rows, b.groupRow(g, len(t.Columns))...)
		}
		for _, key := range g.checks {
			t.Rows = append(t.Rows, b.matrixLine(key, cells, width))
		}
		t.Rows[first].Rule = true
	}
	t.Rows = append(t.Rows, b.countsLine(cells, width))
	return t
}

// matrixLine is a check in every cell. A verdict links to its readings where there
// is something to look up; the first page of a cell links to the parts of the job.
func (b *book) matrixLine(key string, cells []towerCell, width int) page.TableRow {
	row := page.TableRow{Cells: make([]page.TableCell, width+1)}
	row.Cells[0] = rowHead(b.say("check." + key))
	for i, c := range cells {
		if k := c.judged.Check(key); k != nil {
			row.Cells[i+1] = b.shortVerdict(c.told(k))
			if c.lookUp(k) {
				row.Cells[i+1].Runs[0].Link = b.checkAnchor(c.judged.Number, key)
			}
		}
	}
	return row
}

// shortVerdict is a verdict in the fewest words, since the matrix is narrow.
func (b *book) shortVerdict(v assess.Verdict) page.TableCell {
	out := b.verdictCell(v)
	out.Runs[0].Text = b.shortWord(v)
	return out
}

// countsLine is how many readings every cell has of those asked for.
func (b *book) countsLine(cells []towerCell, width int) page.TableRow {
	row := page.TableRow{Cells: make([]page.TableCell, width+1), Rule: true}
	row.Cells[0] = rowHead(b.say("summary.entries"))
	for i, c := range cells {
		found, expected := b.readings(c.judged)
		row.Cells[i+1] = textCell(b.say("cell.of", "found", strconv.Itoa(found), "expected", strconv.Itoa(expected)))
	}
	return row
}
