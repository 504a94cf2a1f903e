package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/page"
)

// issueBlocks is the revision block: which issue this is, why it was made, what it
// takes the place of, and which cells are in it.
func (b *book) issueBlocks() []page.Block {
	p := &b.in.Record.Project
	var in, out []string
	for _, c := range b.allCells() {
		if c.present {
			in = append(in, strconv.Itoa(c.judged.Number))
			continue
		}
		out = append(out, strconv.Itoa(c.judged.Number))
	}
	return []page.Block{b.h3("issue.title"), b.pairs("issue.table", [][2]string{
		{"front.document", b.text(p.Document)},
		{"front.revision", b.text(p.Revision)},
		{"issue.reason", b.text(p.RevisionReason)},
		{"front.issued", join(" ", b.typedDay(p.IssueDate), b.text(p.TimeZone))},
		{"front.supersedes", b.or(b.text(p.Supersedes), "issue.nothing")},
		{"front.fingerprint", b.made.fingerprint},
		{"issue.in", b.or(join(", ", in...), "issue.none")},
		{"issue.out", b.or(join(", ", out...), "issue.none")},
	})}
}

// countBlocks are the readings and entries of each part of the job, as many as were
// asked for and as many as there are.
func (b *book) countBlocks() []page.Block {
	t := page.Table{
		Columns: []page.Column{{Width: 2}, {Width: 1, Align: page.Right}, {Width: 1, Align: page.Right}, {Width: 1, Align: page.Right}},
		Head:    [][]page.TableCell{b.headRow("issue.part", "issue.expected", "issue.found", "issue.lacking")},
		Summary: b.say("issue.counts"),
	}
	line := func(name string, found, expected int) {
		row := page.TableRow{Cells: []page.TableCell{rowHead(name), textCell(strconv.Itoa(expected)),
			textCell(strconv.Itoa(found)), textCell(strconv.Itoa(expected - found))}}
		if found < expected {
			row.Cells[3].Tone = page.Warn
			row.Cells[3].Runs[0].Mark, row.Cells[3].Runs[0].Say = page.MarkMissing, b.say("verdict."+string(assess.Missing))
		}
		t.Rows = append(t.Rows, row)
	}
	all, asked := 0, 0
	for _, g := range allGroups() {
		found, expected := 0, 0
		for _, c := range b.cells() {
			f, e := b.readingsOf(c.judged, func(key string) bool { return inGroup(g.key, key) })
			found, expected = found+f, expected+e
		}
		line(b.say("group."+g.key), found, expected)
		all, asked = all+found, asked+expected
	}
	line(b.say("issue.all"), all, asked)
	t.Rows[len(t.Rows)-1].Rule = true
	return []page.Block{b.h3("issue.countstitle"), t}
}
