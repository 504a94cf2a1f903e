package compose

import (
	"strconv"

	"asleft/internal/correct"
	"asleft/internal/page"
)

// cardRows is the most rows that a table of the wall has; more stand in groups
// side by side.
const cardRows = 6

func itoa(n int) string { return strconv.Itoa(n) }

// moveTable is what is set at each foot, blade or position; none for moves that
// are one line.
func (b *book) moveTable(m correct.Move) (page.Table, bool) {
	switch m.Kind {
	case correct.KindShim:
		return b.stackTable(m), true
	case correct.KindBladeOut, correct.KindBladeSeat, correct.KindBladePitch:
		return b.bladeTable(m), true
	case correct.KindWall:
		return b.wallTable(m), len(m.Wall) > 0
	}
	return page.Table{}, false
}

// stackTable is NOW, CHANGE and NEW of every foot. Where today's stacks are not
// known, only what goes in is said.
func (b *book) stackTable(m correct.Move) page.Table {
	t := b.setTable("card.foot_no", "card.stacktable")
	for _, f := range m.Feet {
		now, after := b.say("card.notknown"), b.say("card.notknown")
		if f.Known {
			now, after = b.twice(f.Now), b.twice(f.New)
		}
		if f.Known && f.Pieces > 0 {
			after = join(", ", after, b.count("card.pieces", f.Pieces))
		}
		t.Rows = append(t.Rows, setRow(f.Foot, now, b.shimChange(f.Change), after, f.Change != 0))
	}
	return t
}

func (b *book) bladeTable(m correct.Move) page.Table {
	t := b.setTable("card.blade_no", "card.bladetable")
	for _, c := range m.Blades {
		t.Rows = append(t.Rows, setRow(c.Blade, b.setAmount(c.Now), b.bladeChange(m.Kind, c.Change), b.setAmount(c.New), true))
	}
	return t
}

func (b *book) setTable(what, summary string) page.Table {
	return page.Table{
		Size:    cardMove,
		Columns: []page.Column{{Fit: true}, {Width: 1}, {Width: 1.45}, {Width: 1.35}},
		Head:    [][]page.TableCell{b.headRow(what, "card.now", "card.change", "card.new")},
		Summary: b.say(summary),
	}
}

// setRow is one line of a table; what is to be done stands out.
func setRow(n int, now, change, after string, moved bool) page.TableRow {
	face := page.Regular
	if moved {
		face = page.Bold
	}
	return page.TableRow{Cells: []page.TableCell{
		{Runs: bold(itoa(n)), Header: true}, textCell(now), {Runs: faced(change, face)}, textCell(after),
	}}
}

// wallTable lists positions in groups side by side.
func (b *book) wallTable(m correct.Move) page.Table {
	list := b.wallMoves(m)
	groups := 1
	if len(list) > cardRows {
		groups = 2
	}
	t := page.Table{Size: cardMove, Summary: b.say("card.walltable")}
	var head []page.TableCell
	for range groups {
		t.Columns = append(t.Columns, page.Column{Fit: true}, page.Column{Width: 1})
		head = append(head, headCell(b.say("card.place_no"), 0), headCell(b.say("card.wallhead"), 0))
	}
	t.Head = [][]page.TableCell{head}
	rows := (len(list) + groups - 1) / groups
	for i := range rows {
		var row page.TableRow
		for g := range groups {
			place, change := page.TableCell{Runs: plain(" ")}, page.TableCell{Runs: plain(" ")}
			if at := g*rows + i; at < len(list) {
				w := list[at]
				place = page.TableCell{Runs: bold(itoa(w.Position) + " (" + degrees(w.Degrees) + ")"), Header: true}
				change = page.TableCell{Runs: bold(b.wallChange(w.In))}
			}
			row.Cells = append(row.Cells, place, change)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
