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
	b.name(k.name(b.prefix, k.run.over.key()), b.area(labelsAt, first, 1, n), b.say("form.over."+k.run.over.key()))
	b.wideLabel(b.say("form.again." + k.run.over.key()))
	b.readings(k, first, n)
	b.next(rowHeight)
	if k.run.spread {
		b.wideLabel(b.say("form.spread"))
		b.next(rowHeight)
	}
}

// index labels the row of a reading; a position's degrees stand beside it.
func (b *builder) index(o over, i int) {
	if o == blades {
		b.wideLabel(b.indexLabel(o, i+1))
		return
	}
	b.text(pos{labelsAt, b.row}, b.indexLabel(o, i+1), lookLabel)
	b.text(pos{degreesAt, b.row}, degreeText(b.o.crewDegrees(i)), lookLabel)
}

// readings adds the columns of each round and, for tilt, of the marks.
func (b *builder) readings(k block, first, n int) {
	value := slot{key: k.key, kind: kindLength}
	if k.run.angle {
		value.kind = kindAngle
	}
	marks := b.area(roundColumn(b.o.Rounds), first, 1, n)
	for i, key := range roundKeys(b.o.Rounds) {
		col := roundColumn(i)
		values, again := b.area(col, first, 1, n), b.area(col, first+n, 1, 1)
		reasons := b.area(col+1, first, 1, n)
		round := b.say("round." + key)
		b.input(input{area: values, slot: value})
		b.input(input{area: again, slot: value})
		b.input(input{area: reasons, slot: slot{key: "reason"}})
		b.name(k.name(b.prefix, key), values, b.say("form.block."+k.key)+": "+round)
		b.name(k.name(b.prefix, key, "return"), again, round+": "+b.say("form.again."+k.run.over.key()))
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
	if !k.run.spread {
		b.sheet.marks = append(b.sheet.marks, mark{area: values, check: k.key})
		return
	}
	at := pos{values.from.col, below}
	s := sum{at: at, values: values}
	if k.run.marks {
		s.unless = markColumn
	}
	b.sheet.sums = append(b.sheet.sums, s)
	b.sheet.marks = append(b.sheet.marks,
		mark{area: area{b.sheet.title, at, at}, check: k.key, value: true})
}

// readingHeads writes the line over the readings. The round's name stands
// directly over its values: the reader checks it there.
func (b *builder) readingHeads(k block) {
	b.text(pos{labelsAt, b.row}, b.say("form.over."+k.run.over.key()), lookHead)
	if k.run.over == positions {
		b.text(pos{degreesAt, b.row}, b.say("form.degrees"), lookHead)
	} else {
		b.sheet.merges = append(b.sheet.merges, b.area(labelsAt, b.row, 2, 1))
	}
	for i, key := range roundKeys(b.o.Rounds) {
		b.text(pos{roundColumn(i), b.row}, b.say("round."+key), lookHead)
		b.text(pos{roundColumn(i) + 1, b.row}, b.say("form.reason"), lookHead)
	}
	if k.run.marks {
		b.text(pos{roundColumn(b.o.Rounds), b.row}, b.say("form.mark"), lookHead)
	}
	b.next(headHeight)
}

// count is how many readings a series has.
func (b *builder) count(o over) int {
	if o == blades {
		return b.o.Blades
	}
	return b.o.Positions
}

// indexLabel is the label beside a reading.
func (b *builder) indexLabel(o over, n int) string {
	if o == blades {
		return b.say("form.blade", "n", itoa(n))
	}
	return b.say("form.position", "n", itoa(n))
}

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
