package compose

import (
	"asleft/internal/page"
)

// summary is the matrix of cells and checks, and every reason.
func (b *book) summary() []page.Block {
	blocks := []page.Block{b.h2("summary.title", "")}
	blocks = append(append(blocks, b.lead("summary.intro")), b.wholeMatrix()...)
	blocks = append(blocks, b.legend())
	return append(append(blocks, b.allReasons()...), b.multiples()...)
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
				continue
			}
			row.Cells = append(row.Cells, page.TableCell{Span: 2})
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
		head.Runs = plain(b.say("summary.clear"))
		return []page.Block{head, b.para("summary.noreasons")}
	}
	list := page.List{Numbered: true}
	for _, g := range groups {
		list.Items = append(list.Items, b.groupRuns(g))
	}
	return []page.Block{head, list}
}
