package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/page"
)

// maxEntryColumns is how many rounds stand side by side, two columns each.
const maxEntryColumns = 6

// appendix prints every reading exactly as it was entered, with the cell of the
// workbook it came from.
func (b *book) appendix() []page.Block {
	blocks := []page.Block{b.h2("appendix.title", anchorAppendix), b.para("appendix.intro")}
	for _, c := range b.cells() {
		blocks = append(blocks, page.Heading{Level: 3, Runs: plain(b.cellName(c))})
		tables := append(b.entryTables(c, true, assess.Tilt, assess.Clearance),
			b.entryTables(c, false, assess.Track, assess.TipRadius, assess.Pitch)...)
		tables = append(tables, b.driveEntries(c)...)
		if len(tables) == 0 {
			tables = []page.Block{b.para("cell.unread")}
		}
		blocks = append(blocks, tables...)
	}
	return append(blocks, b.workbookNotes()...)
}

// entryTables put the checks side by side as far as they fit.
func (b *book) entryTables(c towerCell, byPosition bool, checks ...string) []page.Block {
	var blocks []page.Block
	for _, cols := range groupColumns(b.columnsOf(c, checks), maxEntryColumns, rounds) {
		blocks = append(blocks, b.entryTable(byPosition, cols))
	}
	return blocks
}

// entryTable has a row per position or blade, and two columns per round: what
// was entered, and where.
func (b *book) entryTable(byPosition bool, cols []readingColumn) page.Table {
	where := "readings.blade"
	if byPosition {
		where = "readings.position"
	}
	t := page.Table{
		Columns: []page.Column{{Width: 0.8, Align: page.Right}},
		Head:    [][]page.TableCell{{headCell("", 0)}, {headCell(b.say(where), 0)}},
		Summary: b.say("appendix.table"),
	}
	sheet := commonSheet(cols)
	if sheet != "" {
		t.Caption = muted(b.say("appendix.sheet", "sheet", b.clean(sheet, field.Ref{})))
	}
	for _, col := range cols {
		t.Columns = append(t.Columns, page.Column{Width: 1.2, Align: page.Right}, page.Column{Width: 0.8})
		t.Head[0] = append(t.Head[0], headCell(join(", ", b.say("check."+col.check), b.say("round."+col.round.Key)), 2))
		t.Head[1] = append(t.Head[1], headCell(b.say("appendix.entered"), 0), headCell(b.say("appendix.where"), 0))
	}
	for _, p := range longest(cols) {
		row := page.TableRow{Cells: []page.TableCell{rowHead(strconv.Itoa(p.Index))}}
		for _, col := range cols {
			entered, at := b.entryCells(col, p.Index, sheet)
			row.Cells = append(row.Cells, entered, at)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// commonSheet is the sheet that all readings stand on, empty where they differ.
func commonSheet(cols []readingColumn) string {
	sheet := ""
	for _, c := range cols {
		for _, p := range c.round.Points {
			switch {
			case p.At.Sheet == "":
			case sheet == "":
				sheet = p.At.Sheet
			case sheet != p.At.Sheet:
				return ""
			}
		}
	}
	return sheet
}

// entryCells are what was entered, to the letter, and the address of its cell.
func (b *book) entryCells(col readingColumn, index int, sheet string) (entered, at page.TableCell) {
	for _, p := range col.round.Points {
		switch {
		case p.Index != index:
			continue
		case p.Found:
			entered.Runs = plain(b.clean(p.Typed, p.At))
		case p.Reason != "":
			entered.Runs = muted(b.clean(p.Reason, p.At))
		default:
			entered.Runs = muted(b.say("appendix.blank"))
		}
		address := p.At.Cell
		if sheet == "" {
			address = p.At.String()
		}
		at.Runs = muted(b.clean(address, p.At))
	}
	return entered, at
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
