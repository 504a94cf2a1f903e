package compose

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/page"
)

// enteredAt is something entered and its place in the workbook.
type enteredAt struct {
	entered string
	at      field.Ref
}

// entryLine is one reading in every round: what it is, and what was entered.
type entryLine struct {
	what   string
	rounds map[string]enteredAt
}

// driveEntries are the readings of the drive line and its bases as entered, a
// line per reading with its rounds side by side.
func (b *book) driveEntries(c towerCell) []page.Block {
	var lines []entryLine
	var rounds []string
	for _, key := range b.checkKeys() {
		if !inGroup(groupBases, key) && !inGroup(groupDriveLine, key) {
			continue
		}
		cols := b.readingColumns(c, key)
		lines = append(lines, b.entryLines(key, cols)...)
		for _, col := range cols {
			if !slices.Contains(rounds, col.round.Key) {
				rounds = append(rounds, col.round.Key)
			}
		}
	}
	if len(lines) == 0 {
		return nil
	}
	slices.SortFunc(rounds, func(x, y string) int { return slices.Index(roundOrder, x) - slices.Index(roundOrder, y) })
	return []page.Block{b.abreast(lines, rounds)}
}

// roundOrder is the order in which rounds are read.
var roundOrder = []string{field.AsFound, field.Second, field.Third, field.AsLeft}

// entryLines are the readings of a check, the first one read again among them.
func (b *book) entryLines(key string, cols []readingColumn) []entryLine {
	var out []entryLine
	points := longest(cols)
	for _, p := range points {
		what := b.say("check." + key)
		if len(points) > 1 {
			what = join(", ", what, b.placeName(key, p.Index))
		}
		line := entryLine{what, map[string]enteredAt{}}
		for _, col := range cols {
			if i := slices.IndexFunc(col.round.Points, func(x assess.Point) bool { return x.Index == p.Index }); i >= 0 {
				line.rounds[col.round.Key] = b.pointEntered(&col.round.Points[i])
			}
		}
		out = append(out, line)
	}
	again := entryLine{join(", ", b.say("check."+key), b.say("readings.again")), map[string]enteredAt{}}
	for _, col := range cols {
		if e := col.series.returned(b); e.at.Sheet != "" {
			again.rounds[col.round.Key] = e
		}
	}
	if len(again.rounds) > 0 {
		out = append(out, again)
	}
	return out
}

// pointEntered is what stands in the cell of a reading.
func (b *book) pointEntered(p *assess.Point) enteredAt {
	switch {
	case p.Found:
		return enteredAt{b.clean(p.Typed, p.At), p.At}
	case p.At.Sheet == "":
		return enteredAt{}
	}
	return enteredAt{b.or(b.clean(p.Reason, p.At), "appendix.blank"), p.At}
}

// returned is the first reading read again, as entered.
func (x *block) returned(b *book) enteredAt {
	switch {
	case x.length.Set:
		return enteredAt{typedText(b, x.length.Entry), x.length.At}
	case x.angle.Set:
		return enteredAt{typedText(b, x.angle), x.angle.At}
	case x.slope.Set:
		return enteredAt{typedText(b, x.slope), x.slope.At}
	}
	return enteredAt{}
}

// entryColumns is how many columns of entries stand side by side.
const entryColumns = 4

// abreast sets the lines in as many columns as there is room for, to be read down.
func (b *book) abreast(lines []entryLine, rounds []string) page.Table {
	columns := max(1, min(3, entryColumns/len(rounds)))
	sheet := sheetOf(lines)
	t := page.Table{Summary: b.say("appendix.table"), Head: make([][]page.TableCell, 2)}
	if sheet != "" {
		t.Caption = muted(b.say("appendix.sheet", "sheet", b.clean(sheet, field.Ref{})))
	}
	for range columns {
		t.Columns = append(t.Columns, page.Column{Width: 2.4})
		t.Head[0] = append(t.Head[0], headCell("", 0))
		t.Head[1] = append(t.Head[1], headCell(b.say("appendix.what"), 0))
		for _, r := range rounds {
			t.Columns = append(t.Columns, page.Column{Width: 1, Align: page.Right}, page.Column{Width: 0.7})
			t.Head[0] = append(t.Head[0], headCell(b.say("round."+r), 2))
			t.Head[1] = append(t.Head[1], b.headRow("appendix.entered", "appendix.where")...)
		}
	}
	length := (len(lines) + columns - 1) / columns
	for i := range length {
		var row page.TableRow
		for col := range columns {
			if n := col*length + i; n < len(lines) {
				row.Cells = append(row.Cells, b.entryLineCells(lines[n], rounds, sheet)...)
				continue
			}
			row.Cells = append(row.Cells, page.TableCell{Span: 1 + 2*len(rounds)})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (b *book) entryLineCells(l entryLine, rounds []string, sheet string) []page.TableCell {
	out := []page.TableCell{rowHead(l.what)}
	for _, r := range rounds {
		e := l.rounds[r]
		out = append(out, textCell(e.entered), page.TableCell{Runs: muted(b.address(e.at, sheet))})
	}
	return out
}

// address is the cell of an entry, with its sheet where that is not told once.
func (b *book) address(at field.Ref, sheet string) string {
	if sheet == at.Sheet {
		return b.clean(at.Cell, at)
	}
	return b.clean(at.String(), at)
}

// sheetOf is the sheet that all entries stand on, empty where they differ.
func sheetOf(lines []entryLine) string {
	var at []field.Ref
	for _, l := range lines {
		for _, e := range l.rounds {
			at = append(at, e.at)
		}
	}
	return oneSheet(at)
}

// oneSheet is the sheet of all places that have one, empty where they differ.
func oneSheet(at []field.Ref) string {
	sheet := ""
	for _, a := range at {
		switch {
		case a.Sheet == "":
		case sheet == "":
			sheet = a.Sheet
		case sheet != a.Sheet:
			return ""
		}
	}
	return sheet
}
