package page

import (
	"fmt"

	"asleft/internal/archive"
)

// Count is how many rows of a table were given and how many stand on pages.
type Count struct {
	Section string
	Table   int // within the section, from 1
	Caption string
	Rows    int
	Placed  int
}

// Cut is a text that had to be broken inside a word or a number, since its place is
// too narrow for it.
type Cut struct{ Section, Text string }

// Inner distances of table cells.
const (
	cellPadX mp = 4_500
	cellPadY mp = 1_700
)

// grid is a table being built: where its columns stand.
type grid struct {
	t       *Table
	s       setting
	x       mp   // left edge
	w       mp   // of all columns
	edges   []mp // of columns, from x; one more than columns
	axis    []mp // per column: widest part after the decimal sign
	pad     mp   // above and below the text of a cell
	section string
}

// table is a caption, head rows and body rows, each a strip.
func (b *builder) table(col column, owner *node, t Table) (built, error) {
	g := &grid{t: &t, s: set(tabular, tableSize), x: col.x, pad: cellPadY, section: b.key}
	if t.Size != 0 {
		size, err := length("table size", t.Size, 5, 24)
		if err != nil {
			return built{}, fmt.Errorf("section %s: %w", b.key, err)
		}
		g.s = set(tabular, size)
		if size < tableSize {
			g.pad = cellPadY * size / tableSize
		}
	}
	if err := g.check(); err != nil {
		return built{}, err
	}
	if err := b.arrange(g, col.w); err != nil {
		return built{}, err
	}
	b.counts = append(b.counts, Count{Section: b.key, Table: len(b.counts) + 1, Caption: plainText(t.Caption), Rows: len(t.Rows)})
	tn := owner.child(archive.RoleTable)
	tn.detail = &archive.Detail{Title: t.Summary}
	var out []strip
	if len(t.Caption) > 0 {
		caption, err := b.caption(col, tn, t.Caption)
		if err != nil {
			return built{}, err
		}
		for i := range caption {
			bind(caption[i:i+1], bondLead)
		}
		out = append(out, caption...)
	}
	run := &tableRun{count: len(b.counts) - 1}
	heads, err := b.heads(g, tn, run)
	if err != nil {
		return built{}, err
	}
	if len(out) > 0 && len(heads) > 0 {
		heads[0].above = 3_500
	}
	out = append(out, heads...)
	rows, err := b.rows(g, tn, run)
	if err != nil {
		return built{}, err
	}
	return built{append(out, rows...), paraGap, tableGap}, nil
}

// check asks that every row fills the columns.
func (g *grid) check() error {
	if len(g.t.Columns) == 0 {
		return fmt.Errorf("section %s: table without columns", g.section)
	}
	row := func(kind string, i int, cells []TableCell) error {
		n := 0
		for _, c := range cells {
			if c.Span < 0 || c.Span > len(g.t.Columns) {
				return fmt.Errorf("section %s: table, %s row %d: span %d of %d columns", g.section, kind, i+1, c.Span, len(g.t.Columns))
			}
			n += max(c.Span, 1)
		}
		if n != len(g.t.Columns) {
			return fmt.Errorf("section %s: table, %s row %d fills %d of %d columns", g.section, kind, i+1, n, len(g.t.Columns))
		}
		return nil
	}
	for i, cells := range g.t.Head {
		if err := row("head", i, cells); err != nil {
			return err
		}
	}
	for i := range g.t.Rows {
		if err := row("body", i, g.t.Rows[i].Cells); err != nil {
			return err
		}
	}
	return nil
}

// heads are the head rows, which their cells tell from others, and as furniture what is repeated on later pages.
func (b *builder) heads(g *grid, tn *node, run *tableRun) ([]strip, error) {
	if len(g.t.Head) == 0 {
		return nil, nil
	}
	var out []strip
	for i, cells := range g.t.Head {
		rb, err := b.row(g, tn.child(archive.RoleRow), cells, Plain, true)
		if err != nil {
			return nil, err
		}
		if i == 0 {
			rb.rules = append(rb.rules, rule{thinRule, inkColor})
		}
		st, _, _ := rb.part(rb.start(), maxHeight)
		if i == len(g.t.Head)-1 {
			st.ground = append(st.ground, rect{x: g.x, y: st.h - heavyRule, w: g.w, h: heavyRule, color: inkColor})
		}
		st.bond = bondLead
		out = append(out, st)
		run.heads = append(run.heads, strip{layer: st.furnish(), h: st.h})
		run.height += st.h
	}
	return out, nil
}

// A table of short rows that is no higher than smallTable stays on one page; of a
// larger one the rows at either end hold together up to endRows, that is three of
// one line.
const (
	smallTable mp = 130_000
	endRows    mp = 36_000
)

// rows are the body rows.
func (b *builder) rows(g *grid, tn *node, run *tableRun) ([]strip, error) {
	if len(g.t.Rows) == 0 {
		return nil, nil
	}
	n := len(g.t.Rows)
	out := make([]strip, n)
	for i := range g.t.Rows {
		r := &g.t.Rows[i]
		rb, err := b.row(g, tn.child(archive.RoleRow), r.Cells, r.Tone, false)
		if err != nil {
			return nil, err
		}
		if r.Rule {
			rb.rules = append(rb.rules, rule{thinRule, mutedColor})
		}
		rb.last = i == n-1
		st, _, _ := rb.part(rb.start(), maxHeight)
		st.row, st.table, st.ends = rb, run, true
		if i+1 < n && r.Keep {
			st.bond = bondPair
		}
		out[i] = st
	}
	holdEnds(out)
	return out, nil
}

// holdEnds binds the rows that are not to be parted: all of a small table, else
// those at its ends.
func holdEnds(rows []strip) {
	const most = 5 // rows that are together higher than endRows, whatever is in them
	small := stackHeight(rows) <= smallTable
	for i := range rows {
		small = small && rows[i].h < endRows
	}
	for i := range len(rows) - 1 {
		if small || stackHeight(rows[:min(i+1, most)]) < endRows || stackHeight(rows[i+1:min(len(rows), i+1+most)]) < endRows {
			rows[i].bond = bondPair
		}
	}
}

// plainText is the text of runs, for counts and errors.
func plainText(runs []Run) string {
	s := ""
	for _, r := range runs {
		s += r.Text
	}
	return s
}
