package workbook

import (
	"asleft/internal/field"
	"asleft/internal/measure"
)

// formBlock reads lines of label and value, each by its own name.
func (r *reader) formBlock(k block, prefix string, owner any) {
	for _, line := range k.slots {
		s, p, ok := r.single(k.name(prefix, line.key))
		if ok && r.labeled(s, p, k.label(line)) {
			r.fill(line, owner, s, p)
		}
	}
	if c, ok := owner.(*field.Cell); ok && k.key == "" && len(k.slots) > 0 {
		c.At = c.Name.At
	}
}

// tableBlock reads the rows of a table that are not blank.
func (r *reader) tableBlock(k block, prefix string, owner any) {
	s, a, ok := r.named(k.name(prefix))
	if !ok {
		return
	}
	columns, ok := r.columns(k, s, a)
	if !ok {
		return
	}
	for row := a.from.row; row <= a.to.row && r.err == nil; row++ {
		if r.blankRow(s, a, row) {
			continue
		}
		into := k.grow(owner)
		*k.at(into) = r.ref(s, pos{a.from.col, row})
		for i, slot := range k.slots {
			r.fill(slot, into, s, pos{columns[i], row})
		}
	}
	r.below(s, a)
}

// columns finds the column of each slot by the heads over the range, so that
// inserted columns do no harm. A value under no head is a fault.
func (r *reader) columns(k block, s *bookSheet, a area) ([]int, bool) {
	head := r.headRow(s, a)
	columns, ok := make([]int, len(k.slots)), true
	bySlot := map[string]int{}
	for i, slot := range k.slots {
		bySlot[r.word(k.label(slot))] = i + 1
	}
	for col := a.from.col; col <= a.to.col && r.err == nil; col++ {
		p := pos{col, head}
		text := r.label(s, p)
		i := bySlot[text]
		switch {
		case text == "":
			r.headless(s, a, col)
		case i == 0:
			r.fault(WrongLabel, s, p, text, "labels", "")
			ok = false
		case columns[i-1] != 0:
			r.fault(TwiceLabel, s, p, text, "labels", pos{columns[i-1], head}.String())
			ok = false
		default:
			columns[i-1] = col
		}
	}
	for i, slot := range k.slots {
		if columns[i] == 0 && ok && r.err == nil {
			r.fault(MissingLabel, s, pos{a.from.col, head}, "", "labels", r.words.Say(k.label(slot)))
			ok = false
		}
	}
	return columns, ok && r.err == nil
}

// headRow is the row of the heads over a range.
func (r *reader) headRow(s *bookSheet, a area) int {
	for row := a.from.row - 1; row > 0 && row >= a.from.row-headSearch; row-- {
		if !r.blankRow(s, a, row) {
			return row
		}
	}
	return max(a.from.row-1, 1)
}

// headless reports values in a column without a head.
func (r *reader) headless(s *bookSheet, a area, col int) {
	for row := a.from.row; row <= a.to.row && r.err == nil; row++ {
		if c, blank := r.at(s, pos{col, row}); !blank {
			r.fault(NoLabel, s, pos{col, row}, c.text, "labels", "")
		}
	}
}

func (r *reader) blankRow(s *bookSheet, a area, row int) bool {
	for col := a.from.col; col <= a.to.col; col++ {
		if _, blank := r.at(s, pos{col, row}); !blank {
			return false
		}
	}
	return true
}

// keyedBlock reads a table whose rows are known by their labels.
func (r *reader) keyedBlock(k block, prefix string, owner any) {
	byLabel := map[string]int{}
	for i, row := range k.keyed {
		byLabel[r.word(k.rowLabel(row))] = i + 1
	}
	labels, ok := r.labelsOf(k.name(prefix, "rows"), func(text string) int { return byLabel[text] })
	s, a, named := r.named(k.name(prefix))
	if !ok || !named {
		return
	}
	if s != labels.sheet || a.from.row != labels.area.from.row || a.to.row != labels.area.to.row {
		r.fault(BadShape, s, a.from, a.cells(), "samerows", k.name(prefix)+" / "+labels.area.cells())
		return
	}
	columns, ok := r.columns(k, s, a)
	if !ok {
		return
	}
	for col := a.from.col; col <= a.to.col; col++ {
		r.strays(labels, col)
	}
	for i, row := range k.keyed {
		if i >= len(labels.rows) || labels.rows[i] == 0 {
			r.fault(MissingLabel, s, labels.area.from, "", "labels", r.words.Say(k.rowLabel(row)))
			continue
		}
		if !r.blankRow(s, a, labels.rows[i]) {
			r.keyedRow(k, row, s, columns, labels.rows[i], owner)
		}
	}
}

// keyedRow reads one row that has something in it.
func (r *reader) keyedRow(k block, row keyedRow, s *bookSheet, columns []int, at int, owner any) {
	into := k.grow(owner)
	k.begin(into, row.key)
	*k.at(into) = r.ref(s, pos{columns[0], at})
	for i, column := range k.slots {
		slot, closed := row.slot(k, column)
		p := pos{columns[i], at}
		if c, blank := r.at(s, p); closed && !blank {
			r.fault(Closed, s, p, c.text, "blank", "")
		} else if !closed {
			r.fill(slot, into, s, p)
		}
	}
}

// degreeBlock reads the positions and turns them into degrees clockwise from
// the motor.
func (r *reader) degreeBlock(k block) {
	labels, ok := r.labelsOf(k.name("", "rows"), r.index(positions))
	if !ok {
		return
	}
	s, a, ok := r.column(k.name(""), labels)
	if !ok || !r.headed(s, a.from, "form.positions.own") {
		return
	}
	r.strays(labels, a.from.col)
	n := len(labels.rows)
	tower := &r.record.Tower
	for i, row := range labels.rows {
		if row == 0 {
			r.fault(MissingLabel, s, labels.area.from, "", "labels", r.indexLabel(positions, i+1))
			continue
		}
		crew, at := evenly(tower.CrewFirst.Value, i, n), field.Ref{}
		var own field.Angle
		r.read(&own, slot{key: "own", kind: kindAngle}, s, pos{a.from.col, row})
		if own.Set {
			crew, at = own.Value, own.At
		}
		tower.Positions = append(tower.Positions, field.Position{Number: i + 1,
			Degrees: clockwise(crew, tower.CrewDirection.Value), At: at})
	}
	r.apart(s, a, labels)
}

// apart reports positions at one place.
func (r *reader) apart(s *bookSheet, a area, labels *labelColumn) {
	first := map[measure.Angle]int{}
	for _, p := range r.record.Tower.Positions {
		if other, ok := first[p.Degrees]; ok {
			r.fault(SameDegrees, s, pos{a.from.col, labels.rows[p.Number-1]}, degreeText(p.Degrees),
				"angle", itoa(other)+", "+itoa(p.Number))
			continue
		}
		first[p.Degrees] = p.Number
	}
}

// headBlock reads the cell's own heads, one for each round, or those of the
// drive line, which fall back on the cell's.
func (r *reader) headBlock(k block, prefix string, c *field.Cell) {
	labels, ok := r.headLabels(k, prefix, k.slots)
	for _, key := range r.rounds {
		head := field.Head{}
		if ok {
			r.headColumn(k, prefix, key, labels, k.slots, &head)
		}
		if k.drive {
			if i := len(r.driveHeads); i < len(c.Rounds) {
				r.inherit(&head, &c.Rounds[i])
			}
			r.driveHeads = append(r.driveHeads, head)
			continue
		}
		c.Rounds = append(c.Rounds, head)
	}
}

// headLabels reads the labels of head lines.
func (r *reader) headLabels(k block, prefix string, lines []slot) (*labelColumn, bool) {
	byLabel := map[string]int{}
	for i, line := range lines {
		byLabel[r.word(headLabel(line))] = i + 1
	}
	labels, ok := r.labelsOf(k.name(prefix, "heads"), func(text string) int { return byLabel[text] })
	if !ok {
		return nil, false
	}
	for i, line := range lines {
		if i >= len(labels.rows) || labels.rows[i] == 0 {
			r.fault(MissingLabel, labels.sheet, labels.area.from, "", "labels", r.words.Say(headLabel(line)))
			ok = false
		}
	}
	return labels, ok
}

// headColumn reads the head of one round.
func (r *reader) headColumn(k block, prefix, round string, labels *labelColumn, lines []slot, owner any) {
	s, a, ok := r.column(k.name(prefix, round, "head"), labels)
	if !ok || !r.headed(s, a.from, "round."+round) {
		return
	}
	r.strays(labels, a.from.col)
	for i, line := range lines {
		r.fill(line, owner, s, pos{a.from.col, labels.rows[i]})
	}
}
