package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/page"
)

// maxReadingColumns is how many columns of readings stand side by side.
const maxReadingColumns = 9

// readingTables print the readings of the checks as they were read, a row per
// position or blade.
func (b *book) readingTables(c towerCell, byPosition bool, checks ...string) []page.Block {
	var out []page.Block
	for _, cols := range groupColumns(b.columnsOf(c, checks), maxReadingColumns, width) {
		out = append(out, b.readingTable(byPosition, cols))
	}
	return out
}

// centered sets the name of a check over its rounds.
var centered = page.Center

func (b *book) readingTable(byPosition bool, cols []readingColumn) page.Table {
	t := page.Table{Summary: b.say("readings.table")}
	b.readingHead(&t, byPosition, cols)
	for _, p := range longest(cols) {
		row := page.TableRow{Cells: []page.TableCell{rowHead(strconv.Itoa(p.Index))}}
		if byPosition {
			row.Cells = append(row.Cells, textCell(degrees(p.Degrees)))
		}
		for _, col := range cols {
			row.Cells = append(row.Cells, b.readingCells(col, p.Index)...)
		}
		t.Rows = append(t.Rows, row)
	}
	t.Rows = append(t.Rows, b.returnRow(byPosition, cols)...)
	t.Rows = append(t.Rows, b.bladeRow(byPosition, cols)...)
	return t
}

// longest are the points of the round with the most of them, so that no row is
// left out.
func longest(cols []readingColumn) []assess.Point {
	var out []assess.Point
	for _, c := range cols {
		if len(c.round.Points) > len(out) {
			out = c.round.Points
		}
	}
	return out
}

// readingHead makes two head rows: the check over its rounds, and the rounds.
func (b *book) readingHead(t *page.Table, byPosition bool, cols []readingColumn) {
	top := []page.TableCell{headCell("", 0)}
	low := []page.TableCell{headCell(b.say("readings.blade"), 0)}
	t.Columns = []page.Column{{Width: 1.1, Align: page.Right}}
	if byPosition {
		t.Columns[0].Width = 0.6
		top[0].Span = 2
		low = []page.TableCell{headCell(b.say("readings.position"), 0), headCell(b.say("readings.degrees"), 0)}
		t.Columns = append(t.Columns, page.Column{Width: 0.7, Align: page.Right})
	}
	for i := 0; i < len(cols); {
		n, span := i, 0
		for ; n < len(cols) && cols[n].check == cols[i].check; n++ {
			span += cols[n].width()
			b.roundHead(t, &low, cols[n])
		}
		group := headCell(join(", ", b.say("readings.of."+cols[i].check), cols[i].unit), span)
		group.Align = &centered
		top = append(top, group)
		i = n
	}
	t.Head = [][]page.TableCell{top, low}
}

func (b *book) roundHead(t *page.Table, low *[]page.TableCell, col readingColumn) {
	*low = append(*low, headCell(b.say("round."+col.round.Key), 0))
	t.Columns = append(t.Columns, page.Column{Width: 1, Align: page.Decimal})
	if extra := col.extra(); extra != "" {
		*low = append(*low, headCell(b.say(extra), 0))
		t.Columns = append(t.Columns, page.Column{Width: 0.8, Align: page.Decimal})
	}
}

// readingCells print a reading as it was read, and what goes with it.
func (b *book) readingCells(col readingColumn, index int) []page.TableCell {
	id := data.ReadingID(col.cell, col.check, col.round.Key, index)
	out := []page.TableCell{b.pointCell(col, index, id)}
	switch col.extra() {
	case "readings.mark":
		out = append(out, b.markCell(col, index, id))
	case "readings.corrected":
		out = append(out, b.correctedCell(col, index, id))
	}
	return out
}

func (b *book) markCell(col readingColumn, index int, id string) page.TableCell {
	l, ok := col.series.marks[index]
	if !ok {
		return page.TableCell{}
	}
	run := b.value(data.Under(id, "mark"), b.inUnit(l, col.unit))
	run.Face = page.Muted
	return cell(run)
}

func (b *book) correctedCell(col readingColumn, index int, id string) page.TableCell {
	for _, p := range col.round.Points {
		if p.Index == index && p.Corrected != nil {
			run := b.value(data.Under(id, "corrected"), number(*p.Corrected, b.first))
			run.Face = page.Muted
			return cell(run)
		}
	}
	return page.TableCell{}
}

func (b *book) pointCell(col readingColumn, index int, id string) page.TableCell {
	for _, p := range col.round.Points {
		switch {
		case p.Index != index:
		case p.Found:
			run := b.value(data.Under(id, "read"), b.readingText(p, col.unit))
			c := page.TableCell{}
			if p.Verdict != assess.Within && p.Verdict != "" {
				run.Mark, run.Face = marks[p.Verdict], verdictFace(p.Verdict)
				if col.standing {
					c.Tone = verdictTone(p.Verdict)
				}
			}
			c.Runs = []page.Run{run}
			return c
		case p.Reason != "":
			b.tell(col.series.reasons[index].At)
			return page.TableCell{Runs: []page.Run{{Text: b.clean(p.Reason, p.At), Face: page.Muted}}}
		default:
			return b.verdictCell(assess.Missing)
		}
	}
	return page.TableCell{}
}

// readingText is a reading as it was typed, without the unit where the head of
// the column has it.
func (b *book) readingText(p assess.Point, unit string) string {
	text := b.bareReading(p, unit)
	b.tellAs(p.At, p.Typed, text)
	return text
}

func (b *book) bareReading(p assess.Point, unit string) string {
	text := b.clean(p.Typed, p.At)
	switch p.Value.Kind {
	case assess.KindAngle:
		return bareDegrees(text)
	case assess.KindSlope:
		return bareSlope(b.slopeText(text, float64(p.Value.N)/billion), unit)
	}
	if unit == "" {
		return typedWithUnit(text, p.Unit)
	}
	return bareNumber(text, p.Unit)
}

// billion is how many base units a slope of 1 has.
const billion = 1e9

func (b *book) inUnit(l field.Length, unit string) string {
	if l.Unit.String() == unit {
		return bareNumber(typedText(b, l.Entry), l.Unit)
	}
	return b.asTyped(l)
}

// footRow is a row under the readings, one cell per round; none where all are
// empty.
func (b *book) footRow(key string, byPosition, rule bool, cols []readingColumn,
	runs func(readingColumn) []page.Run) []page.TableRow {
	head := page.TableCell{Runs: plain(b.say(key)), Header: true}
	if byPosition {
		head.Span = 2
	}
	row := page.TableRow{Cells: []page.TableCell{head}, Rule: rule}
	any := false
	for _, col := range cols {
		c := page.TableCell{Runs: runs(col)}
		any = any || len(c.Runs) > 0
		row.Cells = append(row.Cells, c)
		if col.width() > 1 {
			row.Cells = append(row.Cells, page.TableCell{})
		}
	}
	if !any {
		return nil
	}
	return []page.TableRow{row}
}

// returnRow prints the first reading read again.
func (b *book) returnRow(byPosition bool, cols []readingColumn) []page.TableRow {
	return b.footRow("readings.again", byPosition, true, cols, func(col readingColumn) []page.Run {
		text := b.returnText(col)
		if text == "" {
			return nil
		}
		id := data.Under(data.RoundID(col.cell, col.check, col.round.Key), "return")
		return []page.Run{b.value(id, text)}
	})
}

// bladeRow prints the blade that was turned or carried round.
func (b *book) bladeRow(byPosition bool, cols []readingColumn) []page.TableRow {
	return b.footRow("readings.carried", byPosition, false, cols, func(col readingColumn) []page.Run {
		if col.check != assess.Clearance || !col.series.blade.Set {
			return plain(b.counted(col.series.blade))
		}
		id := data.BlockID(col.cell, col.check, "blade-"+col.round.Key)
		return []page.Run{b.value(id, b.counted(col.series.blade))}
	})
}

func (b *book) returnText(col readingColumn) string {
	switch {
	case col.series.length.Set:
		return b.inUnit(col.series.length, col.unit)
	case col.series.angle.Set:
		return bareDegrees(typedText(b, col.series.angle))
	case col.series.slope.Set:
		return bareSlope(b.slopeTyped(col.series.slope), col.unit)
	}
	return ""
}
