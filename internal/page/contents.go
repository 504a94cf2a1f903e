package page

import (
	"fmt"

	"asleft/internal/archive"
	"asleft/internal/plot"
)

const (
	pageSlot      mp = 24_000 // for four digits and some air
	contentIndent mp = 14_000
)

// contents is the table of contents. Its length depends on the headings alone:
// the page numbers go into slots of fixed width once all pages are known.
func (b *builder) contents(col column, owner *node, c Contents) (built, error) {
	toc := owner.child(archive.RoleContents)
	var listed []int
	for i, e := range b.index.entries {
		if e.bookmark != "" && e.level <= c.Depth {
			listed = append(listed, i)
		}
	}
	n := max(c.Columns, 1)
	col.w = (col.w - gutter*mp(n-1)) / mp(n)
	stacks := make([][]strip, n)
	for i := range stacks {
		part := listed[len(listed)*i/n : len(listed)*(i+1)/n]
		var err error
		if stacks[i], err = b.contentsLines(col, toc, part); err != nil {
			return built{}, err
		}
		col.x += col.w + gutter
	}
	if n == 1 {
		return built{stacks[0], paraGap, paraGap}, nil
	}
	return built{[]strip{sideBySide(stacks)}, paraGap, paraGap}, nil
}

// contentsLines are the entries of one column.
func (b *builder) contentsLines(col column, toc *node, listed []int) ([]strip, error) {
	var out []strip
	for _, i := range listed {
		e := b.index.entries[i]
		strips, err := b.contentsLine(col, toc, e, i+1)
		if err != nil {
			return nil, err
		}
		if e.level == 1 && len(out) > 0 {
			strips[0].above = 4_500
		}
		out = append(out, strips...)
	}
	return out, nil
}

// contentsLine is one entry: its text, a leader, the page.
func (b *builder) contentsLine(col column, toc *node, e entry, heading int) ([]strip, error) {
	ln := toc.child(archive.RoleEntry).child(archive.RoleReference).child(archive.RoleLink)
	s := set(running, textSize)
	s.bold = e.level == 1
	indent := contentIndent * mp(e.level-1)
	in := column{col.x + indent, col.w - indent - pageSlot}
	if in.w <= 0 {
		return nil, fmt.Errorf("section %s: contents in a column %s points wide: %w", b.key, col.w, ErrNoRoom)
	}
	t, err := b.text(ln, []Run{{Text: e.bookmark + " "}}, s, in.w)
	if err != nil {
		return nil, err
	}
	number := b.link(ln, link{heading: heading, text: e.bookmark})
	strips := t.strips(in, Left)
	last := &strips[len(strips)-1]
	base := baseline(t.lead, t.size)
	st := s.style(&Run{})
	right := col.x + col.w
	last.ink = append(last.ink, ink{x: right, y: base, size: st.size, face: st.face, color: st.color, chunk: b.tail(ln), entry: int32(heading)})
	from := in.x + t.lines[len(t.lines)-1].w + 5_000
	if to := right - pageSlot; from < to {
		last.ground = append(last.ground, rect{x: from, y: base - hairline, w: to - from, h: 2 * hairline, color: plot.Soft, dotted: true})
	}
	for i := range strips {
		strips[i].areas = append(strips[i].areas, area{x: in.x, w: right - in.x, h: t.lead, link: number})
		bind(strips[i:i+1], bondPair)
	}
	last.bond = bondNone
	return strips, nil
}
