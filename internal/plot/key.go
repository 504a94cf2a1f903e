package plot

// keyItem is one entry of the key: a sample, drawn in a field of keySample by
// the cap height, and a word.
type keyItem struct {
	word   string
	sample func(c *canvas, left, right point)
}

const (
	keySample = 15.0 // width of a sample
	keyGap    = 3.0  // sample to word
	keySpace  = 10.0 // entry to entry
	keyLine   = 10.0 // line to line
	noteLine  = 8.5  // line to line of the notes
)

// lineSample shows a line, with a dot in the middle when it has readings.
func lineSample(p pen, dot float64) func(*canvas, point, point) {
	return func(c *canvas, a, b point) {
		c.line(a, b, p)
		if dot > 0 {
			c.ring(point{(a.x + b.x) / 2, a.y}, dot, nil, &p.tone)
		}
	}
}

// bandSample shows the tolerance band.
func bandSample(c *canvas, a, b point) {
	tint := Tint
	c.rect(box{a.x, a.y - 3, b.x, b.y + 3}, &bandEdge, &tint)
}

// markSample shows one mark.
func markSample(m Mark) func(*canvas, point, point) {
	return func(c *canvas, a, b point) { c.mark(m, point{(a.x + b.x) / 2, a.y}) }
}

func absentSample(c *canvas, a, b point) { c.absent(point{(a.x + b.x) / 2, a.y}) }

// seen is which marks a figure holds.
type seen struct{ near, outside, absent bool }

func (s *seen) add(m Mark, absent bool) {
	switch {
	case absent:
		s.absent = true
	case m == Near:
		s.near = true
	case m == Outside:
		s.outside = true
	}
}

// items are the entries for marks that occur and have a word.
func (s seen) items(w MarkWords) []keyItem {
	var out []keyItem
	if s.near && w.Near != "" {
		out = append(out, keyItem{w.Near, markSample(Near)})
	}
	if s.outside && w.Outside != "" {
		out = append(out, keyItem{w.Outside, markSample(Outside)})
	}
	if s.absent && w.Absent != "" {
		out = append(out, keyItem{w.Absent, absentSample})
	}
	return out
}

// footer is what stands under a figure: key lines, then the note.
type footer struct {
	rows   [][]keyItem
	widths []float64
	notes  []string
	styles []style // of the notes
	height float64
}

// footer flows the entries into rows no wider than the figure and wraps the two
// notes, the first set darker.
func (c *canvas) footer(items []keyItem, strong, note string) footer {
	var f footer
	room := c.w - 2*margin
	for _, it := range items {
		it.word = c.fit(it.word, room-keySample-keyGap, wordStyle)
		w := keySample + keyGap + c.measure(it.word, wordStyle)
		n := len(f.rows) - 1
		if n >= 0 && f.widths[n]+keySpace+w <= room {
			f.rows[n] = append(f.rows[n], it)
			f.widths[n] += keySpace + w
			continue
		}
		f.rows = append(f.rows, []keyItem{it})
		f.widths = append(f.widths, w)
	}
	f.height = float64(len(f.rows)) * keyLine
	for i, s := range []string{strong, note} {
		st := []style{wordStyle, tickStyle}[i]
		for _, l := range c.wrap(s, room, st).lines {
			f.notes = append(f.notes, c.fit(l, room, st))
			f.styles = append(f.styles, st)
		}
	}
	f.height += float64(len(f.notes)) * noteLine
	if f.height > 0 {
		f.height += margin
	}
	return f
}

// drawFooter draws it at the lower edge of the figure.
func (c *canvas) drawFooter(f footer) {
	y := c.h - f.height + keyLine/2
	for i, row := range f.rows {
		x := (c.w - f.widths[i]) / 2
		for _, it := range row {
			it.sample(c, point{x, y}, point{x + keySample, y})
			x += keySample + keyGap
			c.text(it.word, point{x, y + small*capHeight/2}, wordStyle)
			x += c.measure(it.word, wordStyle) + keySpace
		}
		y += keyLine
	}
	y += (noteLine - keyLine) / 2
	for i, l := range f.notes {
		c.centered(l, point{c.w / 2, y}, f.styles[i])
		y += noteLine
	}
}

// drawTitle sets the title and gives the height it takes.
func (c *canvas) drawTitle(title string, st style) float64 {
	if title == "" {
		return 0
	}
	room := c.w - 2*margin
	b := c.wrap(title, room, st)
	y := margin + st.size*capHeight
	for _, l := range b.lines {
		c.text(c.fit(l, room, st), point{margin, y}, st)
		y += st.size * leading
	}
	return b.h + margin
}
