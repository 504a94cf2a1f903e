package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/page"
)

// summary is the matrix of cells and checks, and every reason.
func (b *book) summary() []page.Block {
	blocks := []page.Block{b.h2("summary.title", "")}
	if b.in.Assessment.Partial {
		blocks = append(blocks, b.lead("summary.intro"), b.matrix())
	} else {
		blocks = append(append(blocks, b.lead("summary.introall")), b.wholeMatrix()...)
	}
	blocks = append(blocks, b.legend())
	return append(blocks, b.allReasons()...)
}

// matrix has a row for each cell and a column for each check.
func (b *book) matrix() page.Table {
	t := page.Table{
		Columns: []page.Column{{Fit: true}},
		Head:    [][]page.TableCell{{headCell(b.say("summary.cell"), 0)}},
		Summary: b.say("summary.table"),
	}
	for _, key := range assess.Checks() {
		width := 1.0
		if derived(key) { // "not required" on one line
			width = 1.2
		}
		t.Columns = append(t.Columns, page.Column{Width: width})
		t.Head[0] = append(t.Head[0], headCell(b.say("check."+key), 0))
	}
	t.Columns = append(t.Columns, page.Column{Fit: true, Align: page.Right})
	t.Head[0] = append(t.Head[0], headCell(b.say("summary.readings"), 0))
	for _, c := range b.cells() {
		t.Rows = append(t.Rows, b.matrixRow(c))
	}
	return t
}

func (b *book) matrixRow(c towerCell) page.TableRow {
	n := c.judged.Number
	row := page.TableRow{Cells: []page.TableCell{{
		Runs: linked(bold(b.cellName(c)), cellAnchor(n)), Header: true,
	}}}
	for _, key := range assess.Checks() {
		k := c.judged.Check(key)
		if k == nil {
			row.Cells = append(row.Cells, page.TableCell{})
			continue
		}
		tc := b.verdictCell(k.Verdict)
		tc.Runs[0].Link = checkAnchor(n, key)
		if r := k.StandingRound(); r != nil && r.Deciding != nil {
			tc.Runs = append(tc.Runs, page.Run{Text: " " + b.amount(*r.Deciding), Face: page.Muted})
		}
		row.Cells = append(row.Cells, tc)
	}
	found, expected := b.readings(c.judged)
	row.Cells = append(row.Cells, textCell(b.say("cell.of",
		"found", strconv.Itoa(found), "expected", strconv.Itoa(expected))))
	return row
}

// legend explains every mark in the matrix and elsewhere.
func (b *book) legend() page.Block {
	t := page.Table{
		Columns: []page.Column{{Fit: true}, {Width: 1}, {Fit: true}, {Width: 1}},
		Summary: b.say("summary.legend"),
	}
	half := (len(verdicts) + 1) / 2
	for i := range half {
		var row page.TableRow
		for _, j := range []int{i, i + half} {
			if j < len(verdicts) {
				v := verdicts[j]
				run := b.verdict(v)
				run.Face = page.Regular
				row.Cells = append(row.Cells, page.TableCell{Runs: []page.Run{run}, Header: true},
					page.TableCell{Runs: muted(b.say("meaning." + string(v)))})
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// allReasons is the numbered list, with the numbers of the first page.
func (b *book) allReasons() []page.Block {
	head := page.Heading{Level: 3, Runs: plain(b.say("summary.reasons")), Anchor: anchorReasons}
	groups := b.reasonGroups()
	if len(groups) == 0 {
		return []page.Block{head, b.para("summary.noreasons")}
	}
	list := page.List{Numbered: true}
	for _, g := range groups {
		list.Items = append(list.Items, b.groupRuns(g))
	}
	return []page.Block{head, list}
}
