package workbook

import "asleft/internal/measure"

// series lays out a block of readings: its lines, the rounds' heads, and the
// readings by position or blade with the rounds side by side.
func (b *builder) series(k block) {
	for _, s := range k.slots {
		b.line(k, s, roundWidth)
	}
	b.roundTitles()
	b.heads(k, k.run.heads)
	b.readingHeads(k)
	first, n := b.row, b.count(k.run.over)
	for i := range n {
		b.index(k.run.over, i)
		b.next(rowHeight)
	}
	b.name(k.name(b.prefix, k.run.over.key()), b.area(b.grid.labels, first, 1, n), b.say(k.run.over.head()))
	b.rowLabel(b.say(k.run.over.again()))
	b.readings(k, first, n)
	b.next(rowHeight)
	if k.run.spread {
		b.rowLabel(b.say("form.spread"))
		b.next(rowHeight)
	}
}

// index labels the row of a reading; a position's degrees stand before it.
func (b *builder) index(o over, i int) {
	b.rowLabel(b.indexLabel(o, i+1))
	if o == positions {
		b.text(pos{b.grid.labels - 1, b.row}, degreeText(b.o.crewDegrees(i)), lookLabel)
	}
}

// readings adds the columns of each round and, for tilt, of the marks.
func (b *builder) readings(k block, first, n int) {
	value := slot{key: k.key, kind: k.run.value}
	marks := b.area(b.grid.column(b.o.Rounds), first, 1, n)
	m := mark{check: k.key, value: k.run.spread}
	for i, key := range roundKeys(b.o.Rounds) {
		col := b.grid.column(i)
		values, again := b.area(col, first, 1, n), b.area(col, first+n, 1, 1)
		reasons := b.area(col+1, first, 1, n)
		round := b.say("round." + key)
		b.input(input{area: values, slot: value})
		b.input(input{area: again, slot: value})
		b.input(input{area: reasons, slot: slot{key: "reason"}})
		b.name(k.name(b.prefix, key), values, b.say("form.block."+k.key)+": "+round)
		b.name(k.name(b.prefix, key, "return"), again, round+": "+b.say(k.run.over.again()))
		b.name(k.name(b.prefix, key, "reasons"), reasons, round+": "+b.say("form.reason"))
		if marked, ok := b.marked(k, values, again.to.row+1, marks); ok {
			m.areas = append(m.areas, marked)
		}
	}
	if len(m.areas) > 0 {
		b.sheet.marks = append(b.sheet.marks, m)
	}
	if k.run.marks {
		b.input(input{area: marks, slot: slot{key: "marks", kind: kindLength}})
		b.name(k.name(b.prefix, "marks"), marks, b.say("form.mark"))
	}
}

// marked is what of a column is checked while it is typed: each reading, or the
// highest minus the lowest, which stands below.
func (b *builder) marked(k block, values area, below int, markColumn area) (area, bool) {
	switch {
	case k.run.value == kindSlope: // a spreadsheet cannot read what people type for a slope
		return area{}, false
	case !k.run.spread:
		return values, true
	}
	at := pos{values.from.col, below}
	s := sum{at: at, values: values}
	if k.run.marks {
		s.unless = markColumn
	}
	b.sheet.sums = append(b.sheet.sums, s)
	return area{b.sheet.title, at, at}, true
}

// readingHeads writes the line over the readings. The round's name stands
// directly over its values: the reader checks it there.
func (b *builder) readingHeads(k block) {
	b.head(b.grid.labels, b.say(k.run.over.head()))
	if k.run.over == positions {
		b.head(b.grid.labels-1, b.say("form.degrees"))
	}
	for i, key := range roundKeys(b.o.Rounds) {
		b.head(b.grid.column(i), b.say("round."+key))
		b.head(b.grid.column(i)+1, b.say("form.reason"))
	}
	if k.run.marks {
		b.head(b.grid.column(b.o.Rounds), b.say("form.mark"))
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
