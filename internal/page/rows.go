package page

import (
	"fmt"

	"asleft/internal/archive"
	"asleft/internal/plot"
)

const (
	inkColor   = plot.Ink
	mutedColor = plot.Muted
	maxHeight  = mp(1 << 40)
)

// rowBox is a set table row, from which strips are made: the whole row as one,
// or, where it is higher than a page, its lines in parts.
type rowBox struct {
	x, w  mp
	lead  mp
	pad   mp // above and below the text
	tone  Tone
	cells []cellBox
	rules []rule // above the row
	last  bool   // the heavy rule of the table's end below
	head  bool
}

type rule struct {
	h     mp
	color color
}

// cellBox is a set cell.
type cellBox struct {
	x, w  mp
	text  *text
	tone  Tone
	align Align
	spans bool
	axis  mp // with Decimal: where the decimal signs stand; 0: align right
	left  mp // with Decimal: width of this text up to its sign
}

// row sets the cells of a row.
func (b *builder) row(g *grid, rn *node, cells []TableCell, tone Tone, head bool) (*rowBox, error) {
	rb := &rowBox{x: g.x, w: g.w, lead: g.s.lead, pad: g.pad, tone: tone, head: head, cells: make([]cellBox, len(cells))}
	at := 0
	for i := range cells {
		c := &cells[i]
		span := max(c.Span, 1)
		cn := rn.child(archive.RoleCell)
		if head || c.Header {
			cn.role = archive.RoleHeadCell
			cn.scope = "Row"
			if head {
				cn.scope = "Column"
			}
		}
		if span > 1 {
			cn.colSpan = int32(span)
		}
		cell, err := b.cell(g, cn, c, at, span, tone, head)
		if err != nil {
			return nil, err
		}
		rb.cells[i] = cell
		at += span
	}
	return rb, nil
}

// cell sets one cell over span columns from column at.
func (b *builder) cell(g *grid, cn *node, c *TableCell, at, span int, tone Tone, head bool) (cellBox, error) {
	box := cellBox{x: g.x + g.edges[at], w: g.edges[at+span] - g.edges[at], tone: c.Tone, align: g.t.Columns[at].Align}
	if c.Align != nil {
		box.align = *c.Align
	}
	s := g.s.toned(tone)
	if c.Tone != Plain {
		s = s.toned(c.Tone)
	}
	s.bold = s.bold || head
	if head && span > 1 && c.Align == nil {
		box.align = Center
	}
	box.spans = span > 1
	inner := box.w - 2*cellPadX
	if inner <= 0 {
		return box, fmt.Errorf("section %s: table column %d is %s points wide: %w", b.key, at+1, box.w, ErrNoRoom)
	}
	var err error
	if box.text, err = b.text(cn, c.Runs, s, inner); err != nil {
		return box, err
	}
	if box.align == Decimal && !head && span == 1 && len(box.text.lines) == 1 {
		left, right := decimal(b.scratch)
		if left+max(right, g.axis[at]) <= inner {
			box.axis, box.left = g.axis[at], left
		}
	}
	return box, nil
}

// lineX is the x of a line of the cell.
func (c *cellBox) lineX(i int) mp {
	x, w := c.x+cellPadX, c.w-2*cellPadX
	if c.align == Decimal && c.axis > 0 {
		return x + w - c.axis - c.left
	}
	return aligned(c.align, x, w, c.text.lines[i].w)
}

// progress is how many lines of each cell have been placed.
type progress []int

func (p progress) equal(q progress) bool {
	for i := range p {
		if p[i] != q[i] {
			return false
		}
	}
	return true
}

func (rb *rowBox) start() progress { return make(progress, len(rb.cells)) }

// fits is how many lines of a cell from line i on fit into n lines, without
// parting a value.
func (c *cellBox) fits(i, n int) int {
	total := len(c.text.lines)
	if i+n >= total {
		return total
	}
	end := i + n
	for end > i && c.text.lines[end-1].glued {
		end--
	}
	return end
}

// part is the strip of the lines from on that fit into room, and how far it
// came.
func (rb *rowBox) part(from progress, room mp) (st strip, next progress, done bool) {
	n := int(max(room-2*rb.pad, 0) / rb.lead)
	next = make(progress, len(from))
	done = true
	most, boxes := 0, 0
	for i := range rb.cells {
		next[i] = rb.cells[i].fits(from[i], n)
		for _, l := range rb.cells[i].text.lines[from[i]:next[i]] {
			boxes += len(l.ink)
		}
		done = done && next[i] == len(rb.cells[i].text.lines)
		most = max(most, next[i]-from[i])
	}
	st.h = mp(max(most, 1))*rb.lead + 2*rb.pad
	rb.grounds(&st, done)
	st.ink = make([]ink, 0, boxes)
	for i := range rb.cells {
		c := &rb.cells[i]
		y := rb.pad
		if rb.head {
			// Heads stand on the rule below them.
			y += mp(most-(next[i]-from[i])) * rb.lead
		}
		for j := from[i]; j < next[i]; j++ {
			c.text.put(&st.layer, j, c.lineX(j), y+mp(j-from[i])*rb.lead)
		}
	}
	return st, next, done
}

// grounds draws the fills and rules of a row.
func (rb *rowBox) grounds(st *strip, done bool) {
	fill := func(x, w mp, t Tone) {
		if c, ok := ground(t); ok {
			st.ground = append(st.ground, rect{x: x, y: 0, w: w, h: st.h, color: c})
		}
		switch t {
		case Bad:
			st.ground = append(st.ground, rect{x: x, y: 0, w: toneBar, h: st.h, color: plot.Alarm})
		case Again:
			st.ground = append(st.ground, brokenBar(x, st.h)...)
		}
	}
	fill(rb.x, rb.w, rb.tone)
	for i := range rb.cells {
		if c := &rb.cells[i]; c.tone != rb.tone {
			fill(c.x, c.w, c.tone)
		}
	}
	if rb.head {
		rb.braces(st)
	}
	for _, r := range rb.rules {
		st.ground = append(st.ground, rect{x: rb.x, y: 0, w: rb.w, h: r.h, color: r.color})
	}
	switch {
	case rb.head:
	case done && rb.last:
		st.ground = append(st.ground, rect{x: rb.x, y: st.h - thinRule, w: rb.w, h: thinRule, color: inkColor})
	default:
		st.ground = append(st.ground, rect{x: rb.x, y: st.h - hairline, w: rb.w, h: hairline, color: plot.Faint})
	}
}

// brokenBar is a bar at the left in pieces, which tells what is to be done again
// from what is wrong without any color.
func brokenBar(x, h mp) []rect {
	const piece, space mp = 2_600, 1_800
	var out []rect
	for y := mp(0); y < h; y += piece + space {
		out = append(out, rect{x: x, y: y, w: toneBar, h: min(piece, h-y), color: plot.Ink})
	}
	return out
}

// braces draws a rule under each head cell that stands over several columns.
func (rb *rowBox) braces(st *strip) {
	for i := range rb.cells {
		if c := &rb.cells[i]; c.spans && len(c.text.lines) > 0 {
			st.ground = append(st.ground, rect{x: c.x + cellPadX, y: st.h - hairline, w: c.w - 2*cellPadX, h: hairline, color: plot.Muted})
		}
	}
}
