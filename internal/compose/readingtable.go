package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
)

// readingColumn is one round of one check in a table of readings.
type readingColumn struct {
	cell   int
	check  string
	round  *assess.Round
	series block
	unit   string // common to all readings of the check; empty where they differ
}

// maxReadingColumns is how many rounds stand side by side; with more, each
// check has a table of its own.
const maxReadingColumns = 9

// readingTables print the readings of the checks as they were read, a row per
// position or blade.
func (b *book) readingTables(c towerCell, byPosition bool, checks ...string) []page.Block {
	var all [][]readingColumn
	total := 0
	for _, key := range checks {
		if cols := b.readingColumns(c, key); len(cols) > 0 {
			all = append(all, cols)
			total += len(cols)
		}
	}
	if len(all) == 0 {
		return nil
	}
	if total > maxReadingColumns {
		var out []page.Block
		for _, cols := range all {
			out = append(out, b.readingTable(byPosition, cols))
		}
		return out
	}
	var flat []readingColumn
	for _, cols := range all {
		flat = append(flat, cols...)
	}
	return []page.Block{b.readingTable(byPosition, flat)}
}

func (b *book) readingColumns(c towerCell, key string) []readingColumn {
	k := c.judged.Check(key)
	if k == nil {
		return nil
	}
	var out []readingColumn
	unit := commonUnit(k)
	for i := range k.Rounds {
		r := &k.Rounds[i]
		out = append(out, readingColumn{c.judged.Number, key, r, blockOf(c.read, key, r.Key), unit})
	}
	return out
}

// commonUnit is the unit in which every reading of a check was meant.
func commonUnit(k *assess.Check) string {
	unit := measure.UnitNone
	for _, r := range k.Rounds {
		for _, p := range r.Points {
			switch {
			case !p.Found:
			case p.Value.Kind == assess.KindAngle:
				return "°"
			case unit == measure.UnitNone:
				unit = p.Unit
			case unit != p.Unit:
				return ""
			}
		}
	}
	return unit.String()
}

func (b *book) readingTable(byPosition bool, cols []readingColumn) page.Table {
	t := page.Table{Summary: b.say("readings.table"), Caption: bold(b.say("readings.caption"))}
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
	t.Columns = []page.Column{{Width: 0.6, Align: page.Right}}
	if byPosition {
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
		top = append(top, headCell(join(", ", b.say("readings.of."+cols[i].check), cols[i].unit), span))
		i = n
	}
	t.Head = [][]page.TableCell{top, low}
}

func (b *book) roundHead(t *page.Table, low *[]page.TableCell, col readingColumn) {
	*low = append(*low, headCell(b.say("round."+col.round.Key), 0))
	t.Columns = append(t.Columns, page.Column{Width: 1, Align: page.Decimal})
	if col.series.marked {
		*low = append(*low, headCell(b.say("readings.mark"), 0))
		t.Columns = append(t.Columns, page.Column{Width: 0.8, Align: page.Decimal})
	}
}

// width is the number of columns: marks with heights of their own need one.
func (c *readingColumn) width() int {
	if c.series.marked {
		return 2
	}
	return 1
}

// readingCells print a reading as it was read, and its mark's height.
func (b *book) readingCells(col readingColumn, index int) []page.TableCell {
	id := data.ReadingID(col.cell, col.check, col.round.Key, index)
	out := []page.TableCell{b.pointCell(col, index, id)}
	if col.series.marked {
		mark := page.TableCell{}
		if l, ok := col.series.marks[index]; ok {
			mark = cell(b.value(data.Under(id, "mark"), b.inUnit(l, col.unit)))
		}
		out = append(out, mark)
	}
	return out
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
				c.Tone = verdictTone(p.Verdict)
			}
			c.Runs = []page.Run{run}
			return c
		case p.Reason != "":
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
	text := b.clean(p.Typed, p.At)
	if p.Value.Kind == assess.KindAngle {
		return bareDegrees(text)
	}
	if unit == "" {
		return withUnit(bareNumber(text, p.Unit), p.Unit.String())
	}
	return bareNumber(text, p.Unit)
}

func (b *book) inUnit(l field.Length, unit string) string {
	if l.Unit.String() == unit {
		return bareNumber(typedText(b, l.Entry), l.Unit)
	}
	return b.asTyped(l)
}

// returnRow prints the first reading read again, where there is one.
func (b *book) returnRow(byPosition bool, cols []readingColumn) []page.TableRow {
	head := page.TableCell{Runs: plain(b.say("readings.again")), Header: true}
	if byPosition {
		head.Span = 2
	}
	row := page.TableRow{Cells: []page.TableCell{head}, Rule: true}
	any := false
	for _, col := range cols {
		c := page.TableCell{Span: col.width()}
		if text := b.returnText(col); text != "" {
			any = true
			id := data.Under(data.RoundID(col.cell, col.check, col.round.Key), "return")
			c.Runs = []page.Run{b.value(id, text)}
		}
		row.Cells = append(row.Cells, c)
	}
	if !any {
		return nil
	}
	return []page.TableRow{row}
}

func (b *book) returnText(col readingColumn) string {
	switch {
	case col.series.length.Set:
		return b.inUnit(col.series.length, col.unit)
	case col.series.angle.Set:
		return bareDegrees(typedText(b, col.series.angle))
	}
	return ""
}
