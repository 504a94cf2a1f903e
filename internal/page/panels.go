package page

import (
	"fmt"
	"math"
)

// framed builds content inside a panel: strips that hold together, the first
// and last ones its inner distance. keep binds the whole to what follows.
func (b *builder) framed(col column, f *frame, pad mp, keep bool, content func(column) ([]strip, error)) (built, error) {
	side := pad + toneBar
	in := column{col.x + side, col.w - 2*side}
	if in.w <= 0 {
		return built{}, fmt.Errorf("section %s: panel in a column %s points wide: %w", b.key, col.w, ErrNoRoom)
	}
	inner, err := content(in)
	if err != nil || len(inner) == 0 {
		return built{}, err
	}
	out := make([]strip, 0, len(inner)+2)
	out = append(out, strip{h: pad, bond: bondLead, opens: true})
	inner[0].above = 0
	out = append(out, inner...)
	bind(out, bondLead)
	out = append(out, strip{h: pad, closes: true})
	for i := range out {
		st := &out[i]
		st.frames = append([]*frame{f}, st.frames...)
		if i+1 < len(out) {
			st.bond = max(st.bond, bondPanel)
		}
	}
	if keep {
		bind(out, bondLead)
	}
	return built{out, panelGap, panelGap}, nil
}

// panel is a box around blocks.
func (b *builder) panel(col column, owner *node, p Panel) (built, error) {
	f := &frame{x: col.x, w: col.w, tone: p.Tone}
	return b.framed(col, f, panelPad, false, func(in column) ([]strip, error) {
		got, err := b.blocks(in, owner, p.Blocks)
		return got.strips, err
	})
}

// columns sets blocks side by side. They can be parted where no column has
// anything across the line. Where every column is one panel, all become as high
// as the highest.
func (b *builder) columns(col column, owner *node, c Columns) (built, error) {
	if len(c.Widths) != len(c.Blocks) || len(c.Blocks) == 0 {
		return built{}, fmt.Errorf("section %s: %d column widths for %d columns", b.key, len(c.Widths), len(c.Blocks))
	}
	gap := gutter
	if c.Gap != 0 {
		var err error
		if gap, err = length("column gap", c.Gap, 0, maxPoints); err != nil {
			return built{}, fmt.Errorf("section %s: %w", b.key, err)
		}
	}
	widths, err := split(col.w-gap*mp(len(c.Widths)-1), c.Widths)
	if err != nil {
		return built{}, fmt.Errorf("section %s: columns: %w", b.key, err)
	}
	stacks := make([][]strip, len(c.Blocks))
	var out built
	x := col.x
	for i, blocks := range c.Blocks {
		got, err := b.blocks(column{x, widths[i]}, owner, blocks)
		if err != nil {
			return built{}, err
		}
		for j := range got.strips {
			if got.strips[j].breaks {
				return built{}, fmt.Errorf("section %s: page break inside columns", b.key)
			}
		}
		if len(got.strips) > 0 {
			got.strips[0].above = 0
		}
		stacks[i] = got.strips
		out.above, out.below = max(out.above, got.above), max(out.below, got.below)
		x += widths[i] + gap
	}
	out.strips = []strip{sideBySide(stacks)}
	return out, nil
}

// sideBySide is one strip of columns, as high as the highest.
func sideBySide(stacks [][]strip) strip {
	st := strip{stacks: stacks}
	for _, s := range stacks {
		st.h = max(st.h, stackHeight(s))
	}
	for _, s := range stacks {
		st.tables = append(st.tables, stack(&st.layer, s, st.h)...)
	}
	return st
}

// stack puts strips under each other on a layer. A stack that is one panel from
// top to bottom is stretched to the height h. The tables whose rows end in it are
// returned, one for each row.
func stack(l *layer, strips []strip, h mp) (rows []*tableRun) {
	sh := newSheet()
	var y mp
	for i := range strips {
		st := &strips[i]
		y += st.above
		sh.put(st, y)
		y += st.h
		rows = append(rows, st.rows()...)
	}
	if len(sh.open) > 0 && sh.open[0].top == 0 && sh.open[0].bottom == y {
		sh.open[0].bottom = max(y, h)
	}
	sh.close()
	l.add(&sh.layer, 0)
	return rows
}

// split divides a width by shares; what rounding leaves goes to the last.
func split(w mp, shares []float64) ([]mp, error) {
	parts := make([]int64, len(shares))
	var whole int64
	for i, s := range shares {
		// A share is kept to six digits, so that no sum of floats decides a place.
		if math.IsNaN(s) || s < 1e-3 || s > 1e6 {
			return nil, fmt.Errorf("share %.4g, expected 0.001 to 1000000", s)
		}
		parts[i] = int64(math.Round(s * 1e6))
		whole += parts[i]
	}
	out := make([]mp, len(shares))
	left := w
	for i := range parts {
		out[i] = w.share(parts[i], whole)
		left -= out[i]
	}
	if n := len(out); n > 0 {
		out[n-1] += left
	}
	return out, nil
}
