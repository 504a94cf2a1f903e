package workbook

import (
	"strings"
	"unicode/utf8"
)

// form lays out lines of label and value, and a hint beside some. On a cell's
// sheet the value takes the columns of two rounds.
func (b *builder) form(k block) {
	span := 1
	if b.prefix != "" {
		span = 2 * roundWidth
	}
	for _, s := range k.slots {
		b.line(k, s, span)
	}
}

func (b *builder) line(k block, s slot, span int) {
	col := b.grid.first
	label := b.say(k.label(s))
	b.rowLabel(label)
	height := b.labelHeight(label, formLine*float64(max(s.tall, 1)))
	if s.list != nil && b.longest(s.list) > b.widthOf(col, span) {
		height = max(height, narrowRow)
	}
	if hint := "form.hint." + k.words() + "." + s.key; b.o.Words.Has(hint) {
		b.hint(pos{col + span, b.row}, b.say(hint))
		height = b.hintHeight(b.say(hint), height)
	}
	a := b.area(col, b.row, 1, 1)
	name := k.name(b.prefix, s.key)
	b.input(input{area: a, slot: s, span: span, line: true, initial: []string{b.initial(name)}})
	b.name(name, a, label)
	b.next(height)
}

// longest is how many letters the longest words of a choice have.
func (b *builder) longest(l *list) float64 {
	n := 0
	for _, w := range b.o.wordsOf(l) {
		n = max(n, utf8.RuneCountInString(w))
	}
	return float64(n)
}

// widthOf is the width of columns together.
func (b *builder) widthOf(col, span int) float64 {
	sum := 0.0
	for _, w := range b.sheet.widths[col-1 : col-1+span] {
		sum += w
	}
	return sum
}

// hint stands beside a line: on a cell's sheet over the columns to the right,
// else in a column of its own.
func (b *builder) hint(at pos, s string) {
	if b.prefix != "" {
		b.text(at, s, lookAside)
		return
	}
	b.text(at, s, lookHint)
}

// hintHeight is that of a line, or more where its hint takes two rows.
func (b *builder) hintHeight(s string, line float64) float64 {
	if b.prefix == "" && len(s) > hintLetters {
		return max(line, hintLine)
	}
	return line
}

// rowLabel labels a row.
func (b *builder) rowLabel(label string) { b.text(pos{b.grid.labels, b.row}, label, lookLabel) }

// labelHeight is that of a row, or more where its label takes two lines.
func (b *builder) labelHeight(label string, row float64) float64 {
	if b.prefix != "" && float64(utf8.RuneCountInString(label)) > b.sheet.widths[b.grid.labels-1] {
		return max(row, hintLine)
	}
	return row
}

// head writes a head over a column.
func (b *builder) head(col int, text string) { b.text(pos{col, b.row}, text, lookHead) }

// table lays out a head line and blank rows under one name.
func (b *builder) table(k block) {
	first := b.row + 1
	col := 1
	var heads []string
	for _, s := range k.slots {
		span := max(s.span, 1)
		heads = append(heads, b.say(k.label(s)))
		b.wideHead(col, span, heads[len(heads)-1])
		b.input(input{area: b.area(col, first, 1, k.rows), slot: s, span: span,
			narrow: b.prefix != "" && span == 1, initial: b.initialColumn(k, s)})
		col += span
	}
	b.next(headHeight)
	height := float64(tableRow)
	if b.prefix != "" {
		height = narrowRow
	}
	for range k.rows {
		b.next(height)
	}
	b.name(k.name(b.prefix), b.area(1, first, col-1, k.rows), strings.Join(heads, "; "))
}

// keyed lays out a table whose rows have fixed labels, with the criterion of
// each beside it.
func (b *builder) keyed(k block) {
	first := b.row + 1
	b.text(pos{1, b.row}, b.say("form."+k.words()+".row"), lookHead)
	b.text(pos{2, b.row}, b.say("form."+k.words()+".criterion"), lookHead)
	var heads []string
	for i, s := range k.slots {
		heads = append(heads, b.say(k.label(s)))
		b.text(pos{3 + i, b.row}, heads[i], lookHead)
	}
	b.text(pos{3 + len(k.slots), b.row}, b.say("form.limits.below"), lookHead)
	b.text(pos{4 + len(k.slots), b.row}, b.say("form.limits.above"), lookHead)
	b.next(headHeight)
	b.sheet.frozen = b.row - 1 // a long table: its heads stay in sight
	for i, row := range k.keyed {
		if i > 0 {
			b.keep(b.row)
		}
		b.keyedRow(k, row)
	}
	b.name(k.name(b.prefix, "rows"), b.area(1, first, 1, len(k.keyed)), b.say("form."+k.words()+".row"))
	b.name(k.name(b.prefix), b.area(3, first, len(k.slots), len(k.keyed)), strings.Join(heads, "; "))
}

func (b *builder) keyedRow(k block, row keyedRow) {
	b.text(pos{1, b.row}, b.say(k.rowLabel(row)), lookLabel)
	b.text(pos{2, b.row}, b.say("form.criterion."+row.key), lookHint)
	bounds := bound{check: row.key, area: b.area(3+len(k.slots), b.row, 2, 1), cells: map[string]string{}}
	for i, s := range k.slots {
		open, closed := row.slot(k, s)
		bounds.cells[s.key] = pos{3 + i, b.row}.String()
		b.input(input{area: b.area(3+i, b.row, 1, 1), slot: open, closed: closed,
			initial: []string{b.limits[row.key][s.key]}})
	}
	if row.markable() {
		b.sheet.bounds = append(b.sheet.bounds, bounds)
		b.plan.bounds[row.key] = bounds.area
	}
	b.next(limitRow)
}

// slot is what a column holds in this row; closed where it holds nothing.
func (r keyedRow) slot(k block, s slot) (open slot, closed bool) {
	for _, q := range r.quantities {
		if q.key == s.key {
			return q, false
		}
	}
	return s, k.quantity(s)
}

// quantity tells whether a column is one of those that rows open or close.
func (k block) quantity(s slot) bool {
	for _, row := range k.keyed {
		for _, q := range row.quantities {
			if q.key == s.key {
				return true
			}
		}
	}
	return false
}

// degrees lays out the positions with the crew's own degrees.
func (b *builder) degrees(k block) {
	first := b.row + 1
	b.text(pos{1, b.row}, b.say("form.positions.position"), lookHead)
	b.text(pos{2, b.row}, b.say("form.positions.own"), lookHead)
	b.text(pos{3, b.row}, b.say("form.positions.even"), lookHead)
	b.next(headHeight)
	var own []string
	for i := range b.o.Positions {
		b.text(pos{1, b.row}, b.say("form.position", "n", itoa(i+1)), lookLabel)
		b.text(pos{3, b.row}, degreeText(evenly(b.o.First, i, b.o.Positions)), lookHint)
		own = append(own, "")
		if b.o.Degrees != nil {
			own[i] = degreeText(b.o.Degrees[i])
		}
		b.next(rowHeight)
	}
	values := b.area(2, first, 1, b.o.Positions)
	b.input(input{area: values, slot: slot{key: "own", kind: kindAngle}, initial: own})
	b.name(k.name("", "rows"), b.area(1, first, 1, b.o.Positions), b.say("form.positions.position"))
	b.name(k.name(""), values, b.say("form.positions.own"))
}

// roundHeads lays out the head of each round side by side.
func (b *builder) roundHeads(k block) {
	b.roundTitles()
	b.heads(k, k.slots)
}

// roundTitles writes the rounds' names over their columns.
func (b *builder) roundTitles() {
	for i, key := range roundKeys(b.o.Rounds) {
		b.head(b.grid.column(i), b.say("round."+key))
	}
	b.next(blockHeight)
}

// wideHead writes a head over several columns.
func (b *builder) wideHead(col, span int, text string) {
	b.text(pos{col, b.row}, text, lookHead)
	if span > 1 {
		b.sheet.merges = append(b.sheet.merges, b.area(col, b.row, span, 1))
	}
}

// heads lays out lines of heads under the rounds' titles.
func (b *builder) heads(k block, lines []slot) {
	first := b.row
	var labels []string
	for _, s := range lines {
		labels = append(labels, b.say(headLabel(s)))
		b.rowLabel(labels[len(labels)-1])
		for i := range roundKeys(b.o.Rounds) {
			b.input(input{area: b.area(b.grid.column(i), b.row, 1, 1), slot: s})
		}
		b.next(b.labelHeight(labels[len(labels)-1], formLine))
	}
	b.name(k.name(b.prefix, "heads"), b.area(b.grid.labels, first, 1, len(lines)), b.say("form.headlabels"))
	for i, key := range roundKeys(b.o.Rounds) {
		b.name(k.name(b.prefix, key, "head"), b.area(b.grid.column(i), first, 1, len(lines)),
			b.say("round."+key)+": "+strings.Join(labels, "; "))
	}
}

// notes leaves lines that people may use as they like.
func (b *builder) notes() {
	start := b.row
	b.put(1, b.say("form.notes"), lookBlock, blockHeight)
	a := b.area(1, b.row, len(b.sheet.widths), 4)
	b.input(input{area: b.area(1, b.row, 1, 4), slot: slot{key: "notes"}, span: a.cols(), free: true})
	for range 4 {
		b.next(tableRow)
	}
	b.keep(start)
}
