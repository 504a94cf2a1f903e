package compose

import (
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/page"
)

// roundBlock is a check of a few readings: its verdict and limit, what was read
// and what follows from it, and what is to be said.
func (b *book) roundBlock(c towerCell, key string) []page.Block {
	k := c.judged.Check(key)
	if k == nil {
		return nil
	}
	blocks := []page.Block{b.checkHeading(c, k)}
	cols := b.readingColumns(c, key)
	switch {
	case len(cols) == 0:
		blocks = append(blocks, b.unread(k))
	case onCoupling(key):
		blocks = append(blocks, b.limitLine(k, ""), b.roundTable(c, k, cols), b.countLine(c, k))
	default:
		blocks = append(blocks, b.limitLine(k, ""), b.flatTable(c, k, cols))
	}
	return append(blocks, b.notes(k)...)
}

// onCoupling tells whether a check has so many results that its rounds stand in
// columns.
func onCoupling(check string) bool {
	return check == assess.CouplingGear || check == assess.CouplingMotor
}

// blockPair puts two checks side by side, or one below the other where one of them
// is too wide for half the width.
func (b *book) blockPair(c towerCell, left, right string) []page.Block {
	l, r := b.roundBlock(c, left), b.roundBlock(c, right)
	if b.tooWide(c, left) || b.tooWide(c, right) {
		return append(l, r...)
	}
	return []page.Block{halves(l, r)}
}

// narrowReadings is how many readings, the first one read again among them, a row
// of half the width has room for.
const narrowReadings = 5

// tooWide tells whether a check needs the whole width: a coupling for its rounds,
// others for their readings.
func (b *book) tooWide(c towerCell, key string) bool {
	k := c.judged.Check(key)
	if k == nil {
		return false
	}
	if onCoupling(key) {
		return len(k.Rounds) > fewRounds
	}
	most := 0
	for _, col := range b.readingColumns(c, key) {
		n := len(col.round.Points)
		if b.returnText(col) != "" {
			n++
		}
		most = max(most, n)
	}
	return most > narrowReadings
}

// flatTable has a row per round: the readings as they were read, what follows from
// them, how many there are. The round that is judged stands out.
func (b *book) flatTable(c towerCell, k *assess.Check, cols []readingColumn) page.Table {
	t := page.Table{
		Columns: []page.Column{{Fit: true}},
		Head:    [][]page.TableCell{{headCell(b.say("readings.found"), 0)}},
		Summary: b.say("results.table", "check", b.say("check."+k.Key)),
	}
	for _, col := range cols {
		name := page.TableCell{Runs: plain(b.say("round." + col.round.Key)), Header: true}
		if col.standing {
			name.Runs = bold(name.Runs[0].Text)
		}
		id := data.RoundID(col.cell, col.check, col.round.Key)
		name.Runs = append(name.Runs, page.Run{Text: "  "}, b.found(id, col.round.Found, col.round.Expected))
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{name}})
	}
	add := func(head string, cells []page.TableCell) {
		t.Columns = append(t.Columns, page.Column{Width: 1, Align: page.Right})
		t.Head[0] = append(t.Head[0], headCell(head, 0))
		for i := range t.Rows {
			t.Rows[i].Cells = append(t.Rows[i].Cells, cells[i])
		}
	}
	for _, p := range longest(cols) {
		add(join(", ", b.placeName(k.Key, p.Index), cols[0].unit), each(cols, func(col readingColumn) page.TableCell {
			return b.pointCell(col, p.Index, data.ReadingID(col.cell, col.check, col.round.Key, p.Index))
		}))
	}
	for _, row := range b.returnRow(false, cols) {
		add(b.say("readings.again"), row.Cells[1:])
	}
	for _, line := range resultLines[k.Key] {
		if row, any := b.resultRow(c, k, line); any {
			head := b.optional("result.short." + line.key)
			if head == "" {
				head = b.resultLabel(k.Key, line.key)
			}
			add(head, row.Cells[1:])
		}
	}
	return t
}

// unbroken keeps a short name on one line.
func unbroken(text string) string { return strings.ReplaceAll(text, " ", "\u00a0") }

func each(cols []readingColumn, cell func(readingColumn) page.TableCell) []page.TableCell {
	out := make([]page.TableCell, 0, len(cols))
	for _, col := range cols {
		out = append(out, cell(col))
	}
	return out
}

// roundTable prints the readings as they were read, then the results.
func (b *book) roundTable(c towerCell, k *assess.Check, cols []readingColumn) page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1.3}},
		Head:    [][]page.TableCell{{headCell(b.say("readings.in", "unit", cols[0].unit), 0)}},
		Summary: b.say("results.table", "check", b.say("check."+k.Key)),
	}
	if cols[0].unit == "" {
		t.Head[0][0] = headCell(b.say("readings.reading"), 0)
	}
	for _, col := range cols {
		t.Columns = append(t.Columns, page.Column{Width: 1, Align: page.Right})
		t.Head[0] = append(t.Head[0], headCell(b.say("round."+col.round.Key), 0))
	}
	for _, p := range longest(cols) {
		row := page.TableRow{Cells: []page.TableCell{rowHead(b.placeName(k.Key, p.Index))}}
		for _, col := range cols {
			row.Cells = append(row.Cells, b.pointCell(col, p.Index, data.ReadingID(col.cell, col.check, col.round.Key, p.Index)))
		}
		t.Rows = append(t.Rows, row)
	}
	t.Rows = append(t.Rows, b.returnRow(false, cols)...)
	for i, rule := 0, true; i < len(resultLines[k.Key]); i++ {
		if row, any := b.resultRow(c, k, resultLines[k.Key][i]); any {
			row.Rule, rule = rule, false
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// placeKinds are the kinds of places that readings beyond the fan have names by.
var placeKinds = map[string]string{
	assess.GearLevel: "ways", assess.MotorLevel: "ways", assess.CylinderPlumb: "lean",
	assess.CylinderRound: "diameters", assess.SoftFootGear: "feet", assess.SoftFootMotor: "feet",
	assess.CouplingGear: "clock", assess.CouplingMotor: "clock", assess.GuardAround: "clock",
	assess.ShaftEnds: "one", assess.GuardEnd: "one",
	assess.VoltUnbalance: "volts", assess.AmpUnbalance: "amps", assess.BearingTemp: "bearings", assess.SpeedRatio: "speeds",
}

// placeName is where a reading beyond the fan was taken.
func (b *book) placeName(check string, index int) string {
	n := strconv.Itoa(index)
	pairs := []string{"n", n, "side", b.side90(), "other", b.side270()}
	if text := b.optional("place."+placeKinds[check]+"."+n, pairs...); text != "" {
		return text
	}
	return b.say("place.numbered", pairs...)
}

// side90 is the side at 90°, by the crew's own word where there is one.
func (b *book) side90() string {
	if side := b.text(b.in.Record.Tower.SideName); side != "" {
		return b.say("place.side90", "name", side)
	}
	return b.say("place.side")
}

func (b *book) side270() string {
	if side := b.text(b.in.Record.Tower.SideName); side != "" {
		return b.say("place.side270", "name", side)
	}
	return b.say("place.other")
}

// limitLine says what a check is held against and on whose authority; with a
// name before it where it does not stand under the check's own heading.
func (b *book) limitLine(k *assess.Check, name string) page.Paragraph {
	runs := []page.Run{{Text: b.mustHold(k), Face: page.Muted}}
	if name != "" {
		runs = append([]page.Run{{Text: name + ": ", Face: page.Muted}}, runs...)
	}
	if source := b.sourceRuns(k); len(source) > 0 {
		runs = append(runs, page.Run{Text: " (", Face: page.Muted})
		for _, r := range source {
			r.Face = page.Muted
			runs = append(runs, r)
		}
		runs = append(runs, page.Run{Text: ")", Face: page.Muted})
	}
	return page.Paragraph{Runs: runs, Size: smallSize, Keep: true}
}
