package plot

import "slices"

// drawRounds draws earlier rounds as small dots beside the column and the
// standing round as a mark on a stem.
func (b *barsFigure) drawRounds() {
	ref := b.y(b.reference())
	for i, v := range b.standing {
		if !v.Absent {
			b.line(point{b.x(i), ref}, point{b.x(i), b.y(v.Value)}, pen{tone: Accent, width: 1.1 * b.scale})
		}
	}
	earlier := 0
	for _, s := range b.Series {
		if s.Role == Standing {
			continue
		}
		for i, v := range s.Values {
			if !v.Absent {
				b.otherRound(point{b.x(i), b.y(v.Value)}, s.Role, earlier)
				b.others = append(b.others, boxAt(point{b.x(i), b.y(v.Value)}, min(b.step()*0.6, 10), 2))
			}
		}
		if s.Role == Earlier {
			earlier++
		}
	}
	for i, v := range b.standing {
		p := point{b.x(i), ref}
		if v.Absent {
			b.absent(p)
			b.taken = append(b.taken, boxAt(p, 2*absentRadius, 2*absentRadius))
			continue
		}
		p.y = b.y(v.Value)
		b.mark(v.Mark, p)
		r := b.markRadius(v.Mark)
		b.taken = append(b.taken, boxAt(p, 2*r, 2*r))
	}
}

// otherRound is a short dash across the column: gray and thinner the later it
// stands in the list of earlier rounds, black for predicted.
func (b *barsFigure) otherRound(p point, role Role, earlier int) {
	half := max(min(b.step()*0.3, 5), 1.5)
	b.line(point{p.x - half, p.y}, point{p.x + half, p.y}, columnPen(role, earlier))
}

func columnPen(role Role, earlier int) pen {
	if role == Predicted {
		return pen{tone: Ink, width: 0.9, dash: []float64{1.6, 1.2}}
	}
	widths := []float64{1.8, 1.1, 0.6}
	return pen{tone: Soft, width: widths[earlier%len(widths)]}
}

// columnItems are the rounds in the key of a chart by column.
func columnItems(series []Series) []keyItem {
	var out []keyItem
	earlier := 0
	for _, s := range series {
		it := keyItem{s.Name, markSample(Within)}
		if s.Role != Standing {
			it.sample = lineSample(columnPen(s.Role, earlier), 0)
		}
		if s.Role == Earlier {
			earlier++
		}
		if s.Name != "" {
			out = append(out, it)
		}
	}
	return out
}

// noteRows is the most rows of notes that are tried.
const noteRows = 4

// placeNotes gives each note a row over the chart, left to right, so that neither
// its text nor the line down from a higher row meets another; and how many
// rows there are. A note that finds no such place stands over all others without
// a line.
func (b *barsFigure) placeNotes() int {
	notes := slices.Clone(b.Notes)
	slices.SortStableFunc(notes, func(p, q ColumnNote) int { return p.Column - q.Column })
	rows := 0
	for _, n := range notes {
		if n.Text == "" {
			continue
		}
		n.Text = b.fit(n.Text, b.w-2*margin, b.noteStyle(n.Column))
		p, ok := b.placeNote(n)
		if !ok {
			p.row, p.bare = rows, true
		}
		rows = max(rows, p.row+1)
		b.notes = append(b.notes, p)
	}
	return rows
}

// placeNote tries the rows from below; in each the text over the middle of its
// column, then to its left and right.
func (b *barsFigure) placeNote(n ColumnNote) (placedNote, bool) {
	w := b.measure(n.Text, b.noteStyle(n.Column))
	p := placedNote{ColumnNote: n}
	for p.row = range noteRows {
		for _, part := range []float64{0.5, 0.95, 0.05} {
			x := min(max(b.x(n.Column)-w*part, margin), b.w-margin-w)
			p.area = box{x0: x, x1: x + w}
			if !b.noteBlocked(p) {
				return p, true
			}
		}
	}
	return p, false
}

// noteBlocked tells whether a note cannot stand in its row. A line comes down
// from every note, so a text may not stand under a line, nor a line cross a text.
func (b *barsFigure) noteBlocked(p placedNote) bool {
	const gap = 3.0
	over := func(area box, x float64) bool { return area.x0-gap < x && x < area.x1+gap }
	for _, q := range b.notes {
		meet := p.area.x0-gap < q.area.x1 && q.area.x0 < p.area.x1+gap
		switch {
		case p.row == q.row && meet,
			p.row > q.row && over(q.area, b.x(p.Column)),
			p.row < q.row && !q.bare && over(p.area, b.x(q.Column)):
			return true
		}
	}
	return false
}

// noteStyle is the style of the note at a column: like its reading.
func (b *barsFigure) noteStyle(column int) style {
	st := calloutStyle
	st.size = 7
	if column < len(b.standing) && !b.standing[column].Absent && b.standing[column].Mark == Outside {
		st.tone = Alarm
	}
	return st
}

// drawNotes sets the notes, and a line from each down to its mark or to where
// the stem begins.
func (b *barsFigure) drawNotes() {
	if b.Compact {
		b.drawCompactNote()
		return
	}
	for _, n := range b.notes {
		st := b.noteStyle(n.Column)
		base := b.area.y0 - valueRoom - float64(n.row)*noteRow - 3
		b.text(n.Text, point{n.area.x0, base}, st)
		x, end := b.x(n.Column), b.y(b.reference())
		if n.Column < len(b.standing) && !b.standing[n.Column].Absent {
			v := b.standing[n.Column]
			if y := b.y(v.Value); y <= end {
				// The label stands over this dot: stop above it.
				end = y - b.markRadius(v.Mark) - valueSize*capHeight - 3
			}
		}
		if end > base+2 && !n.bare {
			b.line(point{x, base + 2}, point{x, end}, pen{tone: Ink, width: 0.5})
			b.taken = append(b.taken, box{x - 0.5, base + 2, x + 0.5, end})
		}
	}
}

// drawCompactNote sets the first note as the line under a compact chart.
func (b *barsFigure) drawCompactNote() {
	if len(b.Notes) == 0 {
		return
	}
	n := b.Notes[0]
	st := b.noteStyle(n.Column)
	st.size = small
	b.centered(b.fit(n.Text, b.w-2*margin, st), point{b.w / 2, b.h - margin - small*capHeight/2}, st)
}

// drawValueLabels sets the value of each reading outward of its mark. Readings that are outside or noted come first; one that finds
// no room is left to the table.
func (b *barsFigure) drawValueLabels() {
	if b.Compact {
		return
	}
	order := make([]int, len(b.standing))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return b.labelRank(i) - b.labelRank(j) })
	for _, i := range order {
		v := b.standing[i]
		st := valueStyle(v.Mark)
		y, r := b.y(b.reference()), absentRadius
		if v.Absent {
			st = wordStyle
		} else {
			y, r = b.y(v.Value), b.markRadius(v.Mark)
		}
		b.valueLabel(b.fit(v.Label, b.w*maxLabel, st), point{b.x(i), y}, r, st)
	}
}

func (b *barsFigure) labelRank(i int) int {
	noted := slices.ContainsFunc(b.Notes, func(n ColumnNote) bool { return n.Column == i })
	switch v := b.standing[i]; {
	case v.Absent || v.Mark == Outside:
		return 0
	case noted:
		return 1
	case v.Mark == Near:
		return 2
	}
	return 3
}

// valueLabel tries the places outward of the mark, first clear of lines and other
// rounds, then across them if it must; then further out, and on the other side of
// where the stem begins.
func (b *barsFigure) valueLabel(s string, p point, r float64, st style) {
	w, h := b.measure(s, st), st.size*capHeight
	away, sign := r+2+h/2, -1.0
	ref := b.y(b.reference())
	if p.y > ref {
		sign = 1
	}
	var near []float64
	for _, dy := range []float64{0, 2.5, 5, h + 2} {
		near = append(near, p.y+sign*(away+dy))
	}
	far := []float64{p.y + sign*(away+2*h+3), ref - sign*(2+h/2), ref - sign*(4+3*h/2)}
	for _, avoid := range [][]box{slices.Concat(b.lines, b.others), b.others, nil} {
		if b.labelAt(s, p.x, near, w, h, st, avoid) {
			return
		}
	}
	if !b.labelAt(s, p.x, far, w, h, st, b.others) {
		b.labelAt(s, p.x, far, w, h, st, nil)
	}
}

// labelAt sets a label in the first of the heights where it meets nothing.
func (b *barsFigure) labelAt(s string, x float64, heights []float64, w, h float64, st style, avoid []box) bool {
	frame := box{margin, b.area.y0 - valueRoom, b.area.x1 + 3, b.area.y1 + valueRoom}
	for _, y := range heights {
		area := boxAt(point{x, y}, w, h)
		if area.inside(frame) && !area.grow(0.8).hitsAny(b.taken) && !area.hitsAny(avoid) {
			b.taken = append(b.taken, area)
			b.centered(s, area.center(), st)
			return true
		}
	}
	return false
}

// drawColumns sets the column labels, every so many if they are too wide.
func (b *barsFigure) drawColumns() {
	widest := 0.0
	for _, s := range b.Columns {
		widest = max(widest, b.measure(s, tickStyle)+2)
	}
	every := 1
	for float64(every)*b.step() < widest && every < len(b.Columns) {
		every++
	}
	y := b.h - b.foot.height - columnRow/2
	for i := 0; i < len(b.Columns); i += every {
		b.centered(b.fit(b.Columns[i], max(b.step()*float64(every), 8), tickStyle), point{b.x(i), y}, tickStyle)
	}
	if !b.Compact {
		b.text(b.ColumnWord, point{margin, y + small*capHeight/2}, tickStyle)
	}
}
