package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/page"
)

// maxEntryColumns is how many pairs of columns stand side by side: an entry and
// its cell.
const maxEntryColumns = 6

// appendix prints every reading exactly as it was entered, with the cell of the
// workbook it came from.
func (b *book) appendix() []page.Block {
	blocks := []page.Block{b.h2("appendix.title", anchorAppendix), b.para("appendix.intro")}
	shared := b.sharedEntries()
	for _, c := range b.cells() {
		blocks = append(blocks, page.Heading{Level: 3, Runs: plain(b.cellName(c))})
		tables := append(b.entryTables(c, true, assess.Tilt, assess.Clearance),
			b.entryTables(c, false, assess.Track, assess.TipRadius, assess.Pitch)...)
		tables = append(append(tables, b.driveEntries(c)...), b.jobEntries(c, shared)...)
		if len(tables) == 0 {
			tables = []page.Block{b.para("cell.unread")}
		}
		blocks = append(blocks, tables...)
	}
	blocks = append(blocks, b.scheduleEntries()...)
	return append(blocks, b.workbookNotes()...)
}

// entryTables put the checks side by side as far as they fit.
func (b *book) entryTables(c towerCell, byPosition bool, checks ...string) []page.Block {
	var blocks []page.Block
	for _, cols := range groupColumns(b.columnsOf(c, checks), maxEntryColumns, entryWidth) {
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
		Columns: []page.Column{{Width: 1, Align: page.Right}},
		Head:    [][]page.TableCell{{headCell("", 0)}, {headCell(b.say(where), 0)}},
		Summary: b.say("appendix.table"),
	}
	sheet := commonSheet(cols)
	marked := func(col readingColumn) bool { return col.series.marked }
	if sheet != "" {
		t.Caption = muted(b.say("appendix.sheet", "sheet", b.clean(sheet, field.Ref{})))
	}
	for _, col := range cols {
		span := 2
		t.Columns = append(t.Columns, page.Column{Width: 1.2, Align: page.Right}, page.Column{Width: 0.8})
		t.Head[1] = append(t.Head[1], headCell(b.say("appendix.entered"), 0), headCell(b.say("appendix.where"), 0))
		if marked(col) {
			span = 4
			t.Columns = append(t.Columns, page.Column{Width: 0.7, Align: page.Right}, page.Column{Width: 0.8})
			t.Head[1] = append(t.Head[1], headCell(b.say("readings.mark"), 0), headCell(b.say("appendix.where"), 0))
		}
		t.Head[0] = append(t.Head[0], headCell(join(", ", b.say("check."+col.check), b.say("round."+col.round.Key)), span))
	}
	for _, p := range longest(cols) {
		row := page.TableRow{Cells: []page.TableCell{rowHead(strconv.Itoa(p.Index))}}
		for _, col := range cols {
			entered, at := b.entryCells(col, p.Index, sheet)
			row.Cells = append(row.Cells, entered, at)
			if marked(col) {
				m := col.series.marks[p.Index]
				row.Cells = append(row.Cells, b.enteredCells(enteredAt{typedText(b, m.Entry), m.At}, sheet)...)
			}
		}
		t.Rows = append(t.Rows, row)
	}
	t.Rows = append(t.Rows, b.entryFoot("readings.again", cols, sheet, func(col readingColumn) enteredAt { return col.series.returned(b) })...)
	t.Rows = append(t.Rows, b.entryFoot("readings.carried", cols, sheet, b.bladeEntry)...)
	return t
}

// entryFoot is a row below the readings, one entry a round; none where all are
// blank.
func (b *book) entryFoot(key string, cols []readingColumn, sheet string, get func(readingColumn) enteredAt) []page.TableRow {
	row := page.TableRow{Cells: []page.TableCell{rowHead(b.say(key))}}
	any := false
	for _, col := range cols {
		e := get(col)
		any = any || e.at.Sheet != ""
		row.Cells = append(row.Cells, b.enteredCells(e, sheet)...)
		if col.series.marked {
			row.Cells = append(row.Cells, page.TableCell{Span: 2})
		}
	}
	if !any {
		return nil
	}
	return []page.TableRow{row}
}

// enteredCells are what was entered and its cell.
func (b *book) enteredCells(e enteredAt, sheet string) []page.TableCell {
	if e.at.Sheet == "" {
		return []page.TableCell{{}, {}}
	}
	return []page.TableCell{textCell(e.entered), {Runs: muted(b.address(e.at, sheet))}}
}

// commonSheet is the sheet that all readings stand on, empty where they differ.
func commonSheet(cols []readingColumn) string {
	var at []field.Ref
	for _, c := range cols {
		for _, p := range c.round.Points {
			at = append(at, p.At)
		}
	}
	return oneSheet(at)
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
