package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/page"
)

// appendix prints every reading exactly as it was entered, with the cell of the
// workbook it came from.
func (b *book) appendix() []page.Block {
	blocks := []page.Block{b.h2("appendix.title", anchorAppendix), b.para("appendix.intro")}
	for _, c := range b.cells() {
		blocks = append(blocks, page.Heading{Level: 3, Runs: plain(b.cellName(c))})
		for i := range c.judged.Checks {
			if k := &c.judged.Checks[i]; !derived(k.Key) && len(k.Rounds) > 0 {
				blocks = append(blocks, b.entryTable(c, k))
			}
		}
	}
	return append(blocks, b.workbookNotes()...)
}

// entryTable has a row per position or blade, and two columns per round: what
// was entered, and where.
func (b *book) entryTable(c towerCell, k *assess.Check) page.Table {
	where := "readings.blade"
	if byPosition(k.Key) {
		where = "readings.position"
	}
	t := page.Table{
		Columns: []page.Column{{Width: 0.5, Align: page.Right}},
		Caption: bold(b.say("appendix.caption", "cell", b.cellName(c), "check", b.say("check."+k.Key))),
		Head:    [][]page.TableCell{{headCell("", 0)}, {headCell(b.say(where), 0)}},
		Summary: b.say("appendix.table"),
	}
	for i := range k.Rounds {
		t.Columns = append(t.Columns, page.Column{Width: 0.8, Align: page.Right}, page.Column{Width: 1})
		t.Head[0] = append(t.Head[0], headCell(b.say("round."+k.Rounds[i].Key), 2))
		t.Head[1] = append(t.Head[1], headCell(b.say("appendix.entered"), 0), headCell(b.say("appendix.where"), 0))
	}
	for _, index := range entryIndexes(k) {
		t.Rows = append(t.Rows, b.entryRow(c, k, index))
	}
	return t
}

// entryIndexes are those of the longest round.
func entryIndexes(k *assess.Check) []int {
	var out []int
	for _, r := range k.Rounds {
		if len(r.Points) > len(out) {
			out = out[:0]
			for _, p := range r.Points {
				out = append(out, p.Index)
			}
		}
	}
	return out
}

func (b *book) entryRow(c towerCell, k *assess.Check, index int) page.TableRow {
	row := page.TableRow{Cells: []page.TableCell{rowHead(strconv.Itoa(index))}}
	for i := range k.Rounds {
		r := &k.Rounds[i]
		entered, where := page.TableCell{}, page.TableCell{}
		for _, p := range r.Points {
			if p.Index == index {
				entered.Runs, where.Runs = b.entryRuns(c, k, r, p)
			}
		}
		row.Cells = append(row.Cells, entered, where)
	}
	return row
}

// entryRuns are what was entered and the address of its cell. The address is
// a value of the data file, too: it ties paper to workbook.
func (b *book) entryRuns(c towerCell, k *assess.Check, r *assess.Round, p assess.Point) (entered, where []page.Run) {
	switch {
	case p.Found:
		entered = plain(b.clean(p.Typed, p.At))
	case p.Reason != "":
		entered = muted(b.clean(p.Reason, p.At))
	default:
		entered = muted(b.say("appendix.blank"))
	}
	if p.At.Sheet == "" {
		return entered, nil
	}
	id := data.Under(data.ReadingID(c.judged.Number, k.Key, r.Key, p.Index), "at")
	run := b.value(id, b.clean(p.At.String(), p.At))
	run.Face = page.Muted
	return entered, []page.Run{run}
}

// workbookNotes list what else is in the workbooks, since they go into the
// package whole.
func (b *book) workbookNotes() []page.Block {
	blocks := []page.Block{b.h3("appendix.workbooks")}
	t := page.Table{
		Columns: []page.Column{{Width: 1.6}, {Width: 0.5}, {Width: 1.3}, {Width: 1.3}, {Width: 1.2}},
		Head: [][]page.TableCell{b.headRow("appendix.file", "appendix.form", "appendix.hidden",
			"appendix.extra", "appendix.authors")},
		Summary: b.say("appendix.workbooktable"),
	}
	t = rows(b, t, b.in.Record.Files, func(f field.File) []string {
		return []string{b.clean(f.Name, field.Ref{}), b.clean(f.Form, field.Ref{}),
			b.names(f.Hidden), b.names(f.Extra), b.names(f.Authors)}
	})
	return append(append(blocks, t), b.comments()...)
}

func (b *book) names(list []string) string {
	var out []string
	for _, s := range list {
		out = append(out, b.clean(s, field.Ref{}))
	}
	return b.or(join(", ", out...), "appendix.none")
}

// comments are the cell comments of all workbooks.
func (b *book) comments() []page.Block {
	var all []field.Comment
	for _, f := range b.in.Record.Files {
		all = append(all, f.Comments...)
	}
	if len(all) == 0 {
		return nil
	}
	t := page.Table{
		Columns: []page.Column{{Width: 1}, {Width: 1}, {Width: 4}},
		Head:    [][]page.TableCell{b.headRow("appendix.where", "appendix.author", "appendix.comment")},
		Summary: b.say("appendix.commenttable"),
	}
	return []page.Block{b.h3("appendix.comments"), rows(b, t, all, func(c field.Comment) []string {
		return []string{b.clean(c.At.String(), c.At), b.clean(c.Author, c.At), b.clean(c.Text, c.At)}
	})}
}
