package page

import (
	"fmt"

	"asleft/internal/archive"
)

// builder turns the blocks of one section into strips.
type builder struct {
	chunks
	m       *Metrics
	key     string
	index   *index // headings of the whole book
	heading int    // headings of the book before this place
	counts  []Count
	cut     []Cut
	pages   []link // whose pages are printed
	scratch []glyph
}

// column is where strips go: left edge and width.
type column struct{ x, w mp }

// built is a block in strips, and the space that it wants around it.
type built struct {
	strips       []strip
	above, below mp
}

// blocks builds blocks under each other. Of two spaces that meet, the greater
// counts; a Space adds to it. The space at both ends is left to the caller.
func (b *builder) blocks(col column, owner *node, blocks []Block) (built, error) {
	var out built
	var below, space mp
	breaks, headed := false, false
	for _, bl := range blocks {
		switch v := bl.(type) {
		case Space:
			h, err := length("space", float64(v), 0, maxPoints)
			if err != nil {
				return out, fmt.Errorf("section %s: %w", b.key, err)
			}
			space += h
			continue
		case Break:
			breaks = true
			continue
		}
		got, err := b.block(col, owner, bl)
		if err != nil {
			return out, err
		}
		if len(got.strips) == 0 {
			continue
		}
		first := &got.strips[0]
		first.above = max(below, got.above) + space
		first.breaks = breaks
		if len(out.strips) == 0 {
			out.above = first.above
		}
		if _, ok := bl.(Paragraph); ok && headed && len(got.strips) == 1 {
			// One line is too little to keep a heading company.
			bind(got.strips, bondLead)
		}
		_, headed = bl.(Heading)
		out.strips = append(out.strips, got.strips...)
		below, space, breaks = got.below, 0, false
	}
	out.below = below + space
	return out, nil
}

// block builds one block.
func (b *builder) block(col column, owner *node, bl Block) (built, error) {
	switch v := bl.(type) {
	case Heading:
		return b.head(col, owner, v)
	case Paragraph:
		return b.paragraph(col, owner, v)
	case List:
		return b.list(col, owner, v)
	case Table:
		return b.table(col, owner, v)
	case Picture:
		return b.picture(col, owner, v)
	case Photo:
		return b.photo(col, owner, v)
	case Columns:
		return b.columns(col, owner, v)
	case Foreign:
		n := owner.child(archive.RoleSect)
		n.detail = &archive.Detail{Lang: v.Lang}
		return b.blocks(col, n, v.Blocks)
	case Panel:
		return b.panel(col, owner, v)
	case Tiles:
		return b.tiles(col, owner, v)
	case Contents:
		return b.contents(col, owner, v)
	case Signature:
		return b.signature(col, owner, v)
	}
	return built{}, fmt.Errorf("section %s: block of unknown kind %T", b.key, bl)
}

// strips are the lines of a text, each a strip. No first or last line stands
// alone on a page, and lines of one value stay together.
func (t *text) strips(col column, align Align) []strip {
	n := len(t.lines)
	out := make([]strip, n)
	for i := range t.lines {
		st := &out[i]
		st.h = t.lead
		st.inner = i > 0
		t.put(&st.layer, i, aligned(align, col.x, col.w, t.lines[i].w), 0)
		if i+1 < n && (i == 0 || i == n-2) {
			st.bond = bondPair
		}
		if t.lines[i].glued {
			st.bond = bondValue
		}
	}
	return out
}

// bind makes the last strip hold on to what follows by at least to.
func bind(strips []strip, to bond) {
	if n := len(strips); n > 0 {
		strips[n-1].bond = max(strips[n-1].bond, to)
	}
}

var headingRoles = [...]archive.Role{archive.RoleH1, archive.RoleH2, archive.RoleH3, archive.RoleH4}

// head is a heading: all its lines hold together and on to what follows.
func (b *builder) head(col column, owner *node, h Heading) (built, error) {
	hs := headingStyle(h.Level)
	s := setting{fam: running, size: hs.size, lead: hs.lead, bold: true}
	t, err := b.text(owner.child(headingRoles[h.Level-1]), h.Runs, s, col.w)
	if err != nil {
		return built{}, err
	}
	strips := t.strips(col, Left)
	for i := range strips {
		strips[i].bond = max(strips[i].bond, bondLead)
	}
	b.heading++
	if len(strips) == 0 {
		return built{}, fmt.Errorf("section %s: heading without text", b.key)
	}
	strips[0].targets = []target{{heading: b.heading}}
	return built{strips, hs.above, hs.below}, nil
}

// paragraph is running text; in a tone other than quiet it has a ground.
func (b *builder) paragraph(col column, owner *node, p Paragraph) (built, error) {
	if p.Tone >= Good {
		tone := p.Tone
		p.Tone = Plain
		if tone == Bad {
			p.Tone = Bad
		}
		return b.framed(col, &frame{x: col.x, w: col.w, tone: tone, bare: true}, panelPad*2/3, p.Keep, func(in column) ([]strip, error) {
			return b.plain(in, owner, p)
		})
	}
	strips, err := b.plain(col, owner, p)
	if p.Keep {
		bind(strips, bondLead)
	}
	return built{strips, 0, paraGap}, err
}

func (b *builder) plain(col column, owner *node, p Paragraph) ([]strip, error) {
	s := set(running, textSize)
	if p.Size != 0 {
		size, err := length("paragraph size", p.Size, 5, 72)
		if err != nil {
			return nil, fmt.Errorf("section %s: %w", b.key, err)
		}
		s = set(running, size)
	}
	t, err := b.text(owner.child(archive.RoleP), p.Runs, s.toned(p.Tone), col.w)
	if err != nil {
		return nil, err
	}
	return t.strips(col, p.Align), nil
}

// list hangs its items beside bullets or numbers. A bullet only shows that there is
// an item, which the structure says anyway: it is furniture.
func (b *builder) list(col column, owner *node, l List) (built, error) {
	s := set(running, textSize).toned(l.Tone)
	indent := mp(13_000)
	if l.Numbered {
		indent = 17_000
	}
	ln := owner.child(archive.RoleList)
	var out []strip
	for i, item := range l.Items {
		if i == 1 || i > 0 && i == len(l.Items)-1 {
			bind(out, bondPair) // no item stands alone on a page
		}
		li := ln.child(archive.RoleItem)
		lb, err := b.label(li, col.x+2_000, i, l.Numbered, s, indent)
		if err != nil {
			return built{}, err
		}
		t, err := b.text(li.child(archive.RoleItemBody), item, s, col.w-indent)
		if err != nil {
			return built{}, err
		}
		strips := t.strips(column{col.x + indent, col.w - indent}, Left)
		if len(strips) == 0 {
			strips = []strip{{h: s.lead}}
		}
		lb.add(&strips[0].layer, 0)
		strips[0].layer = lb
		if i > 0 {
			strips[0].above = itemGap
		}
		out = append(out, strips...)
	}
	return built{out, 0, paraGap}, nil
}

// label is the number or the bullet of an item, counted from 0, at x.
func (b *builder) label(li *node, x mp, i int, numbered bool, s setting, indent mp) (layer, error) {
	owner, text := &node{}, "•"
	if numbered {
		owner, text = li.child(archive.RoleLabel), fmt.Sprintf("%d.", i+1)
	}
	var l layer
	t, err := b.text(owner, []Run{{Text: text}}, s, indent)
	if err != nil {
		return l, err
	}
	t.put(&l, 0, x, 0)
	if numbered {
		return l, nil
	}
	return l.furnish(), nil
}
