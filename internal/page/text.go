package page

import (
	"fmt"

	"asleft/internal/archive"
)

// line is a set line: its boxes from x 0 and base line 0.
type line struct {
	ink   []ink
	areas []area // y and h are of the line
	w     mp
	glued bool
}

// text is a set text.
type text struct {
	lines []line
	lead  mp
	size  mp
}

func (t *text) height() mp { return mp(len(t.lines)) * t.lead }

// baseline is where the base line lies in a line of height lead: capitals in
// the middle of it. 0.698 is the cap height of the faces.
func baseline(lead, size mp) mp { return (lead + size*698/1000) / 2 }

// text sets runs in lines no wider than w and puts what they are into the node.
func (b *builder) text(owner *node, runs []Run, s setting, w mp) (*text, error) {
	gs, err := b.flatten(b.scratch[:0], runs, s)
	b.scratch = gs
	if err != nil {
		return nil, err
	}
	t := &text{lead: s.lead, size: s.size}
	if len(gs) == 0 {
		return t, nil
	}
	spans, ok := breakLines(gs, runs, w)
	if !ok {
		return nil, fmt.Errorf("section %s: text %q in a column %s points wide: %w", b.key, runs[gs[0].run].Text, w, ErrNoRoom)
	}
	tags := b.tags(owner, runs)
	t.lines = make([]line, len(spans))
	for i, sp := range spans {
		t.lines[i] = b.line(gs[sp.a:sp.b], runs, tags, s)
		t.lines[i].glued = sp.glued
		if sp.cut {
			b.cut = append(b.cut, Cut{b.key, plainText(runs)})
		}
	}
	return t, nil
}

// tag is what a run is in the structure: chunks of its mark and text, and its
// link.
type tag struct {
	mark, text int32
	link       int
}

// tags gives each run its place under owner: a link in a Link, a value in a
// Span of its own, a mark in a Span that says it; plain runs that follow each
// other share a chunk. A cell that is one value is that value itself: a Span in
// every cell of a table of readings would make the structure half as large again.
func (b *builder) tags(owner *node, runs []Run) []tag {
	tags := make([]tag, len(runs))
	if alone(owner, runs) {
		owner.id = runs[0].ID
		tags[0].text = b.chunk(owner)
		return tags
	}
	for i := range runs {
		r := &runs[i]
		at := owner
		if r.Link != "" {
			at = owner.child(archive.RoleLink)
			tags[i].link = -1
		}
		if r.Mark != NoMark && r.Say != "" {
			n := at.child(archive.RoleSpan)
			n.detail = &archive.Detail{Actual: r.Say}
			tags[i].mark = b.chunk(n)
		}
		switch {
		case r.Text == "":
		case r.ID != "":
			n := at.child(archive.RoleSpan)
			n.id = r.ID
			tags[i].text = b.chunk(n)
		default:
			tags[i].text = b.tail(at)
		}
		if r.Link != "" {
			tags[i].link = b.link(at, link{anchor: r.Link, text: r.Text})
		}
	}
	return tags
}

// alone tells whether runs are one value, and all that there is in a cell or the
// body of a list's item.
func alone(owner *node, runs []Run) bool {
	switch owner.role {
	case archive.RoleCell, archive.RoleHeadCell, archive.RoleItemBody:
	default:
		return false
	}
	return len(runs) == 1 && runs[0].ID != "" && runs[0].Text != "" && runs[0].Link == "" && runs[0].Say == "" && len(owner.kids) == 0
}

// line turns glyphs into boxes: one for each stretch of one look.
func (b *builder) line(gs []glyph, runs []Run, tags []tag, s setting) line {
	var l line
	var x mp
	for i := 0; i < len(gs); {
		g := gs[i]
		r := &runs[g.run]
		st := s.style(r)
		if g.r == 0 {
			l.ink = append(l.ink, ink{x: x, w: markWidth(st.size), size: st.size, mark: r.Mark, color: markColor(r.Mark), chunk: tags[g.run].mark})
			x += g.adv
			i++
			continue
		}
		j := i + 1
		for j < len(gs) && gs[j].run == g.run && gs[j].face == g.face {
			j++
		}
		end := len(r.Text)
		if j < len(gs) && gs[j].run == g.run {
			end = int(gs[j].off)
		} else if last := gs[j-1]; j == len(gs) {
			end = int(last.off) + len(string(last.r))
		}
		w := width(gs[i:j])
		l.add(ink{x: x, w: w, size: st.size, face: g.face, color: st.color, text: r.Text[g.off:end], chunk: tags[g.run].text, entry: b.pageOf(r)})
		if tags[g.run].link != 0 {
			l.areas = append(l.areas, area{x: x, w: w, link: tags[g.run].link})
		}
		l.w = x + w
		for _, g := range gs[i:j] {
			x += g.adv
		}
		i = j
	}
	if n := len(l.ink); n > 0 {
		l.w = max(l.w, l.ink[n-1].x+l.ink[n-1].w)
	}
	return l
}

// add puts a box behind the others, or makes it part of the last one where it only
// goes on with what that says.
func (l *line) add(k ink) {
	if n := len(l.ink); n > 0 {
		last := &l.ink[n-1]
		if last.mark == NoMark && last.chunk == k.chunk && last.face == k.face && last.size == k.size && last.color == k.color &&
			last.entry == 0 && k.entry == 0 {
			last.text += k.text
			last.w = k.x + k.w - last.x
			return
		}
	}
	l.ink = append(l.ink, k)
}

// pageOf is the heading whose page a run prints, as [ink] has it; zero for others.
func (b *builder) pageOf(r *Run) int32 {
	if r.PageOf == "" {
		return 0
	}
	b.pages = append(b.pages, link{anchor: r.PageOf, text: r.Text})
	return -int32(b.index.anchors[r.PageOf])
}

// put draws line number i of t at x, its line's top at y.
func (t *text) put(l *layer, i int, x, y mp) {
	ln := &t.lines[i]
	base := baseline(t.lead, t.size)
	for _, k := range ln.ink {
		k.x += x
		k.y = y + base
		l.ink = append(l.ink, k)
	}
	for _, a := range ln.areas {
		a.x += x
		a.y, a.h = y, t.lead
		l.areas = append(l.areas, a)
	}
}

// aligned is the x of a line of width w in a column.
func aligned(a Align, x, column, w mp) mp {
	switch a {
	case Right, Decimal:
		return x + column - w
	case Center:
		return x + (column-w)/2
	}
	return x
}
