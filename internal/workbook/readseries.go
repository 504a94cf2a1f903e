package workbook

import (
	"asleft/internal/field"
	"asleft/internal/measure"
)

// seriesReader holds the rounds of one block of readings.
type seriesReader struct {
	r      *reader
	k      block
	prefix string
	labels *labelColumn
	marks  area // zero where the block has none
	rounds []roundColumns
}

// roundColumns is where the readings of one round stand.
type roundColumns struct {
	key     string
	ok      bool // its names and heads are in order
	entry   roundEntry
	values  area
	reasons area
	again   pos
}

// seriesBlock reads a block of readings with all its rounds.
func (r *reader) seriesBlock(k block, prefix string, c *field.Cell) {
	r.formBlock(k, prefix, k.owner(c))
	sr := &seriesReader{r: r, k: k, prefix: prefix, rounds: make([]roundColumns, 0, len(r.rounds))}
	fallback := c.Rounds
	if k.drive {
		fallback = r.driveHeads
	}
	var ok bool
	if sr.labels, ok = r.indexLabels(k, prefix); !ok {
		return
	}
	heads, headsOK := r.headLabels(k, prefix, k.run.heads)
	if k.run.marks {
		sr.marks = sr.column(k.name(prefix, "marks"), "form.mark")
	}
	for i, key := range r.rounds {
		round := roundColumns{key: key}
		if headsOK {
			r.headColumn(k, prefix, key, heads, k.run.heads, &round.entry)
		}
		if i < len(fallback) {
			r.inherit(&round.entry.head, &fallback[i])
		}
		sr.place(&round, prefix)
		sr.rounds = append(sr.rounds, round)
	}
	k.run.put(c, sr)
}

// indexLabels reads the labels beside the readings and checks that there is
// one for each blade or position.
func (r *reader) indexLabels(k block, prefix string) (*labelColumn, bool) {
	labels, ok := r.labelsOf(k.name(prefix, k.run.over.key()), r.index(k.run.over))
	if !ok {
		return nil, false
	}
	want := r.expected(k.run.over)
	if want > 0 && len(labels.rows) != want {
		r.fault(CountDiffers, labels.sheet, labels.area.from, itoa(len(labels.rows)), k.run.over.key(), itoa(want))
		return nil, false
	}
	for i, row := range labels.rows {
		if row == 0 {
			r.fault(MissingLabel, labels.sheet, labels.area.from, "", "labels", r.indexLabel(k.run.over, i+1))
			ok = false
		}
	}
	return labels, ok
}

// expected is how many readings the tower sheet or the form itself asks for; 0
// where it is not known, which is a fault of its own, or where any number will
// do.
func (r *reader) expected(o over) int {
	switch {
	case o == blades:
		return r.record.Tower.Blades.Value
	case o == positions:
		return len(r.record.Tower.Positions)
	case overs[o].any:
		return 0
	}
	return overs[o].count
}

func (r *reader) indexLabel(o over, n int) string { return o.label(r.words.Say, n) }

// index reads the label of a place.
func (r *reader) index(o over) func(string) int { return o.index(r.words.Say) }

// column is a column of the block, zero where its name or head is wrong.
func (sr *seriesReader) column(name, head string) area {
	s, a, ok := sr.r.column(name, sr.labels)
	if !ok || !sr.r.headed(s, a.from, head) {
		return area{}
	}
	sr.r.strays(sr.labels, a.from.col)
	return a
}

// place finds the columns of a round.
func (sr *seriesReader) place(round *roundColumns, prefix string) {
	round.values = sr.column(sr.k.name(prefix, round.key), "round."+round.key)
	round.reasons = sr.column(sr.k.name(prefix, round.key, "reasons"), "form.reason")
	s, at, ok := sr.r.single(sr.k.name(prefix, round.key, "return"))
	round.ok = ok && round.values.sheet != "" && round.reasons.sheet != "" &&
		sr.again(s, at, round.values)
	round.again = at
}

// again checks the label of the line where the first place is read again, and
// that the line's cell stands in the column of the round's readings.
func (sr *seriesReader) again(s *bookSheet, at pos, values area) bool {
	key := sr.k.run.over.again()
	if s != sr.labels.sheet {
		sr.r.fault(BadShape, s, at, at.String(), "samesheet", sr.labels.sheet.title)
		return false
	}
	if at.col != values.from.col {
		sr.r.fault(BadShape, s, at, at.String(), "samecolumns", values.cells())
		return false
	}
	p := pos{sr.labels.area.from.col, at.row}
	if text := sr.r.label(s, p); text != sr.r.word(key) {
		sr.r.fault(WrongLabel, s, p, text, "label", sr.r.words.Say(key))
		return false
	}
	return true
}

// lengths reads all rounds as lengths.
func (sr *seriesReader) lengths() []field.Series[field.Length] {
	all := seriesOf(sr, func(v *field.Length, s *bookSheet, p pos) bool {
		sr.r.read(v, slot{kind: kindLength}, s, p)
		return v.Set
	})
	for i := range all {
		sr.sameUnit(&all[i])
	}
	return all
}

// angles reads all rounds as angles.
func (sr *seriesReader) angles() []field.Series[field.Angle] {
	return seriesOf(sr, func(v *field.Angle, s *bookSheet, p pos) bool {
		sr.r.read(v, slot{kind: kindAngle}, s, p)
		return v.Set
	})
}

// slopes reads all rounds as slopes.
func (sr *seriesReader) slopes() []field.Series[field.Slope] {
	return seriesOf(sr, func(v *field.Slope, s *bookSheet, p pos) bool {
		sr.r.read(v, slot{kind: kindSlope}, s, p)
		return v.Set
	})
}

// seriesOf reads the rounds with one way of reading a value.
func seriesOf[V any](sr *seriesReader, read func(*V, *bookSheet, pos) bool) []field.Series[V] {
	all := make([]field.Series[V], 0, len(sr.rounds))
	s := sr.labels.sheet
	for _, round := range sr.rounds {
		series := field.Series[V]{Round: round.key, Head: round.entry.head, Accepted: round.entry.accepted,
			Readings: make([]field.Reading[V], 0, len(sr.labels.rows))}
		for i, row := range sr.labels.rows {
			reading := field.Reading[V]{Index: i + 1}
			if round.ok {
				at := pos{round.values.from.col, row}
				if i == 0 {
					series.At = sr.r.ref(s, at)
				}
				found := read(&reading.Value, s, at)
				why := pos{round.reasons.from.col, row}
				sr.r.read(&reading.Reason, slot{key: "reason"}, s, why)
				if found && reading.Reason.Set {
					sr.r.fault(ReadAndNot, s, why, reading.Reason.Text, "blank", at.String())
				}
			}
			if sr.marks.sheet != "" {
				sr.r.quiet(&reading.Mark, slot{kind: kindLength}, s, pos{sr.marks.from.col, row}, len(all) > 0)
			}
			series.Readings = append(series.Readings, reading)
		}
		if round.ok {
			read(&series.Return, s, round.again)
		}
		all = append(all, series)
	}
	return all
}

// sameUnit reports bare numbers in a round that also has readings in another
// unit than the form's: which was meant is not known.
func (sr *seriesReader) sameUnit(series *field.Series[field.Length]) {
	var first field.Length
	bare, other := 0, field.Length{}
	for _, reading := range series.Readings {
		v := reading.Value
		if !v.Set {
			continue
		}
		if _, _, err := measure.ParseLength(v.Text, measure.UnitNone); err != nil {
			if bare++; bare == 1 {
				first = v
			}
		} else if v.Unit != sr.r.unit {
			other = v
		}
	}
	if bare > 0 && other.Set {
		p, _ := parsePos(first.At.Cell)
		sr.r.fault(MixedUnits, sr.labels.sheet, p, first.Text, "length", other.Text+" ("+other.At.Cell+")")
	}
}

// inherit fills what a block's head leaves blank from the cell's head.
func (r *reader) inherit(h, from *field.Head) {
	for _, s := range r.headLines {
		switch to := s.ref(h).(type) {
		case *field.Text:
			orElse(to, s.ref(from).(*field.Text))
		case *field.Count:
			orElse(to, s.ref(from).(*field.Count))
		case *field.Flag:
			orElse(to, s.ref(from).(*field.Flag))
		case *field.Date:
			orElse(to, s.ref(from).(*field.Date))
		case *field.Clock:
			orElse(to, s.ref(from).(*field.Clock))
		}
	}
}

func orElse[T any](to, from *field.Entry[T]) {
	if !to.Set {
		*to = *from
	}
}
