package compose

import (
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/measure"
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
	case correct.KindMotorShim:
		return b.motorTable(m), len(m.Stacks) > 0
	}
	return page.Table{}, false
}

// stackTable is NOW, CHANGE and NEW of every foot. Where today's stacks are not
// known, only what goes in is said.
func (b *book) stackTable(m correct.Move) page.Table {
	t := b.setTable("card.foot_no", "card.stacktable", true)
	var pieces []string
	for _, f := range m.Feet {
		t.Rows = append(t.Rows, b.stackRow(itoa(f.Foot), f))
		pieces = append(pieces, b.pieces(f))
	}
	return b.withPieces(t, pieces)
}

// withPieces adds the column of what the stacks are made of, where the form says
// what shims there are.
func (b *book) withPieces(t page.Table, pieces []string) page.Table {
	if strings.Join(pieces, "") == "" {
		return t
	}
	t.Size = cardPieces
	t.Columns = []page.Column{{Fit: true}, {Width: 1}, {Width: 1.7}, {Width: 1}, {Width: 1.5}}
	t.Head[0] = append(t.Head[0], headCell(b.say("card.unit", "head", b.say("card.pieces"), "units", b.first.String()), 0))
	for i := range t.Rows {
		t.Rows[i].Cells = append(t.Rows[i].Cells, page.TableCell{Runs: bold(b.or(pieces[i], "card.asitis"))})
	}
	return t
}

// motorTable is the same of the motor's feet.
func (b *book) motorTable(m correct.Move) page.Table {
	t := b.setTable("card.motorfoot_no", "card.motortable", true)
	t.Size = cardPieces
	var pieces []string
	for _, s := range m.Stacks {
		t.Rows = append(t.Rows, b.stackRow(b.motorFoot(s.Place), s.FootChange))
		pieces = append(pieces, b.pieces(s.FootChange))
	}
	return b.withPieces(t, pieces)
}

func (b *book) motorFoot(place string) string {
	return b.say("motorfoot."+place, "side", b.sideName())
}

// stackRow is one foot.
func (b *book) stackRow(name string, f correct.FootChange) page.TableRow {
	now, after := b.say("card.notknown"), b.say("card.notknown")
	if f.Known {
		now, after = b.bare(f.Now), b.bare(f.New)
	}
	return setRow(name, now, b.shimChange(f.Change), after, f.Change != 0)
}

// pieces is what a stack is made of: "0.050, 2 × 0.010", or what goes on top of
// what is there.
func (b *book) pieces(f correct.FootChange) string {
	var list []string
	for i := 0; i < len(f.Stack); {
		n := 1
		for i+n < len(f.Stack) && f.Stack[i+n] == f.Stack[i] {
			n++
		}
		text := b.thickness(f.Stack[i])
		if n > 1 {
			text = itoa(n) + "\u00a0×\u00a0" + text
		}
		list = append(list, text)
		i += n
	}
	text := strings.Join(list, ", ")
	if text != "" && f.Keeps {
		return b.say("card.ontop", "list", text)
	}
	return text
}

// thickness is a shim with the decimals that it takes, and no fewer than usual.
func (b *book) thickness(l measure.Length) string {
	text := l.Format(b.first, decimalsOf(b.first))
	if exact := l.In(b.first); l.ExactIn(b.first) && len(exact) > len(text) {
		return exact
	}
	return text
}

func (b *book) bladeTable(m correct.Move) page.Table {
	angles := m.Kind == correct.KindBladePitch
	t := b.setTable("card.blade_no", "card.bladetable", !angles)
	for _, c := range m.Blades {
		now, after := angleText(measure.Angle(c.Now.N)), angleText(measure.Angle(c.New.N))
		if !angles {
			now, after = b.bareSet(measure.Length(c.Now.N)), b.bareSet(measure.Length(c.New.N))
		}
		t.Rows = append(t.Rows, setRow(itoa(c.Blade), now, b.bladeShort(m.Kind, c.Change), after, true))
	}
	return t
}

// bladeShort is the change of a blade as a table holds it.
func (b *book) bladeShort(kind string, a assess.Amount) string {
	if kind == correct.KindBladePitch {
		return b.bladeChange(kind, a)
	}
	l := measure.Length(a.N)
	way := map[bool]string{true: "card.tohub", false: "card.towall"}[l > 0]
	if kind == correct.KindBladeSeat {
		way = map[bool]string{true: "card.raise", false: "card.lower"}[l > 0]
	}
	return b.say(way, "amount", b.short(l)+" ("+withUnit(l.Abs().Format(b.second, decimalsOf(b.second)), b.second.String())+")")
}

// bare is an amount in both units, which stand in the head.
func (b *book) bare(l measure.Length) string {
	return l.Format(b.first, decimalsOf(b.first)) + " (" + l.Format(b.second, decimalsOf(b.second)) + ")"
}

// bareSet is the same of what a tape is set to.
func (b *book) bareSet(l measure.Length) string {
	if text, exact := l.FormatFraction(64); exact && b.first == measure.UnitInch {
		return text + " (" + l.Format(b.second, decimalsOf(b.second)) + ")"
	}
	return b.bare(l)
}

// setTable is the head of a table of what is set. Lengths have their units in it.
func (b *book) setTable(what, summary string, lengths bool) page.Table {
	now, after := b.say("card.now"), b.say("card.new")
	if lengths {
		units := b.first.String() + " (" + b.second.String() + ")"
		now, after = b.say("card.unit", "head", now, "units", units), b.say("card.unit", "head", after, "units", units)
	}
	return page.Table{
		Size:    cardMove,
		Columns: []page.Column{{Fit: true}, {Width: 1}, {Width: 2.1}, {Width: 1}},
		Head:    [][]page.TableCell{{headCell(b.say(what), 0), headCell(now, 0), headCell(b.say("card.change"), 0), headCell(after, 0)}},
		Summary: b.say(summary),
	}
}

// setRow is one line of a table; what is to be done stands out.
func setRow(name, now, change, after string, moved bool) page.TableRow {
	face := page.Regular
	if moved {
		face = page.Bold
	}
	return page.TableRow{Cells: []page.TableCell{
		{Runs: bold(name), Header: true}, textCell(now), {Runs: faced(change, face)}, textCell(after),
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
