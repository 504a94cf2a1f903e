package compose

import (
	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/page"
)

// enteredAt is something entered and its place in the workbook.
type enteredAt struct {
	what, entered string
	at            field.Ref
}

// entriesAbreast is how many entries stand side by side.
const entriesAbreast = 3

// driveEntries are the readings of the drive line, its bases and the start-up as
// entered.
func (b *book) driveEntries(c towerCell) []page.Block {
	var list []enteredAt
	for _, key := range b.checkKeys() {
		if k := c.judged.Check(key); k != nil && !inGroup(groupFan, key) && !readElsewhere(key) {
			list = append(list, b.entriesOf(k)...)
		}
	}
	if len(list) == 0 {
		return nil
	}
	return []page.Block{b.abreast(list)}
}

// readElsewhere tells whether the entries of a check are those of another one.
func readElsewhere(check string) bool {
	switch check {
	case assess.Locking, assess.AmpLoad, assess.TipSpeed:
		return true
	}
	return false
}

// entriesOf are what was entered for a check, round by round.
func (b *book) entriesOf(k *assess.Check) []enteredAt {
	var list []enteredAt
	for i := range k.Rounds {
		r := &k.Rounds[i]
		name := join(", ", b.say("check."+k.Key), b.roundWord(r.Key))
		for _, p := range r.Points {
			what := name
			if len(r.Points) > 1 {
				what = join(", ", name, b.placeName(k.Key, p.Index))
			}
			switch {
			case p.Found:
				list = append(list, enteredAt{what, b.clean(p.Typed, p.At), p.At})
			case p.At.Sheet != "":
				list = append(list, enteredAt{what, b.or(b.clean(p.Reason, p.At), "appendix.blank"), p.At})
			}
		}
	}
	return list
}

// abreast sets the entries in columns of about the same length, to be read down.
func (b *book) abreast(list []enteredAt) page.Table {
	t := page.Table{Summary: b.say("appendix.table"), Head: make([][]page.TableCell, 1)}
	sheet := list[0].at.Sheet
	for _, e := range list {
		if e.at.Sheet != sheet {
			sheet = ""
		}
	}
	if sheet != "" {
		t.Caption = muted(b.say("appendix.sheet", "sheet", b.clean(sheet, list[0].at)))
	}
	for range entriesAbreast {
		t.Columns = append(t.Columns, page.Column{Width: 2.4}, page.Column{Width: 0.9, Align: page.Right}, page.Column{Width: 0.6})
		t.Head[0] = append(t.Head[0], b.headRow("appendix.what", "appendix.entered", "appendix.where")...)
	}
	length := (len(list) + entriesAbreast - 1) / entriesAbreast
	for i := range length {
		var row page.TableRow
		for col := range entriesAbreast {
			cells := []page.TableCell{{}, {}, {}}
			if n := col*length + i; n < len(list) {
				e := list[n]
				address := e.at.Cell
				if sheet == "" {
					address = e.at.String()
				}
				cells = []page.TableCell{rowHead(e.what), textCell(e.entered), {Runs: muted(b.clean(address, e.at))}}
			}
			row.Cells = append(row.Cells, cells...)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
