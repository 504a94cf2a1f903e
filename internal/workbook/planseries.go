package workbook

import "asleft/internal/measure"

// series lays out a block of readings: its lines, the rounds' heads, and the
// readings by position or blade with the rounds side by side.
func (b *builder) series(k block) {
	for _, s := range k.slots {
		b.line(k, s, firstRound, 4)
	}
	b.roundTitles()
	b.heads(k, k.run.heads)
	b.readingHeads(k)
	first, n := b.row, b.count(k.run.over)
	for i := range n {
		b.index(k.run.over, i)
		b.next(rowHeight)
	}
	b.name(k.name(b.prefix, k.run.over.key()), b.area(labelsAt, first, 1, n), b.say(k.run.over.head()))
	b.wideLabel(b.say(k.run.over.again()))
	b.readings(k, first, n)
	b.next(rowHeight)
	if k.run.spread {
		b.wideLabel(b.say("form.spread"))
		b.next(rowHeight)
	}
}

// index labels the row of a reading; a position's degrees stand beside it.
func (b *builder) index(o over, i int) {
	if o != positions {
		b.wideLabel(b.indexLabel(o, i+1))
		return
	}
	b.text(pos{labelsAt, b.row}, b.indexLabel(o, i+1), lookLabel)
	b.text(pos{degreesAt, b.row}, degreeText(b.o.crewDegrees(i)), lookLabel)
}

// readings adds the columns of each round and, for tilt, of the marks.
func (b *builder) readings(k block, first, n int) {
	value := slot{key: k.key, kind: k.run.value}
	marks := b.area(b.grid.column(b.o.Rounds), first, 1, n)
	reasonSpan := b.grid.width - b.grid.value
	for i, key := range roundKeys(b.o.Rounds) {
		col := b.grid.column(i)
		values, again := b.area(col, first, 1, n), b.area(col, first+n, 1, 1)
		reasons := b.area(col+b.grid.value, first, 1, n)
		round := b.say("round." + key)
		b.input(input{area: values, slot: value, span: b.grid.value})
		b.input(input{area: again, slot: value, span: b.grid.value})
		b.input(input{area: reasons, slot: slot{key: "reason"}, span: reasonSpan})
		b.name(k.name(b.prefix, key), values, b.say("form.block."+k.key)+": "+round)
		b.name(k.name(b.prefix, key, "return"), again, round+": "+b.say(k.run.over.again()))
		b.name(k.name(b.prefix, key, "reasons"), reasons, round+": "+b.say("form.reason"))
		b.marks(k, values, again.to.row+1, marks)
	}
	if k.run.marks {
		b.input(input{area: marks, slot: slot{key: "marks", kind: kindLength}})
		b.name(k.name(b.prefix, "marks"), marks, b.say("form.mark"))
	}
}

// marks says how a column is checked while it is typed.
func (b *builder) marks(k block, values area, below int, markColumn area) {
	if k.run.value == kindSlope {
		return // a spreadsheet cannot read what people type for a slope
	}
	if !k.run.spread {
		b.sheet.marks = append(b.sheet.marks, mark{area: values, check: k.key})
		return
	}
	at := pos{values.from.col, below}
	s := sum{at: at, span: b.grid.value, values: values}
	if k.run.marks {
		s.unless = markColumn
	}
	b.sheet.sums = append(b.sheet.sums, s)
	if b.grid.value > 1 {
		b.sheet.merges = append(b.sheet.merges, b.area(at.col, at.row, b.grid.value, 1))
	}
	b.sheet.marks = append(b.sheet.marks,
		mark{area: area{b.sheet.title, at, at}, check: k.key, value: true})
}

// readingHeads writes the line over the readings. The round's name stands
// directly over its values: the reader checks it there.
func (b *builder) readingHeads(k block) {
	b.text(pos{labelsAt, b.row}, b.say(k.run.over.head()), lookHead)
	if k.run.over == positions {
		b.text(pos{degreesAt, b.row}, b.say("form.degrees"), lookHead)
	} else {
		b.sheet.merges = append(b.sheet.merges, b.area(labelsAt, b.row, 2, 1))
	}
	for i, key := range roundKeys(b.o.Rounds) {
		b.wideHead(b.grid.column(i), b.grid.value, b.say("round."+key))
		b.wideHead(b.grid.column(i)+b.grid.value, b.grid.width-b.grid.value, b.say("form.reason"))
	}
	if k.run.marks {
		b.text(pos{b.grid.column(b.o.Rounds), b.row}, b.say("form.mark"), lookHead)
	}
	b.next(headHeight)
}

// count is how many readings a series has.
func (b *builder) count(o over) int {
	switch o {
	case blades:
		return b.o.Blades
	case positions:
		return b.o.Positions
	}
	return overs[o].count
}

// indexLabel is the label beside a reading.
func (b *builder) indexLabel(o over, n int) string { return o.label(b.say, n) }

// degreeText prints degrees with up to two decimals, for people to find the
// place by.
func degreeText(a measure.Angle) string {
	text := a.Format(2)
	for len(text) > 1 && text[len(text)-1] == '0' {
		text = text[:len(text)-1]
	}
	if text[len(text)-1] == '.' {
		text = text[:len(text)-1]
	}
	return text + "°"
}
