package page

import (
	"fmt"
	"slices"
	"unicode"
)

// want is what a column asks for: the least that breaks no word, its wish, and
// the need of its body to stand on one line under a head of two; and all the width
// and number of its body cells.
type want struct {
	least, wish, need mp
	all               mp
	cells             int
}

// mean is what a body cell needs on average.
func (c *want) mean() mp { return c.all / mp(max(c.cells, 1)) }

// arrange finds the widths of the columns and where their decimal signs stand.
func (b *builder) arrange(g *grid, w mp) error {
	wants, err := b.wants(g)
	if err != nil {
		return err
	}
	cols := g.t.Columns
	level(cols, wants)
	var shares []float64
	var needs, means []mp
	var fixed mp
	for i, c := range cols {
		if c.Fit {
			wants[i].wish = min(wants[i].wish, w)
			fixed += wants[i].wish
		} else {
			shares = append(shares, c.Width)
			needs = append(needs, wants[i].need)
			means = append(means, wants[i].mean())
		}
	}
	parts, err := allot(max(w-fixed, 0), shares, needs, means)
	if err != nil {
		return fmt.Errorf("section %s: table columns: %w", b.key, err)
	}
	for i, n := 0, 0; i < len(cols); i++ {
		if !cols[i].Fit {
			wants[i].wish = max(parts[n], wants[i].least)
			n++
		}
	}
	g.edges = make([]mp, 1, len(cols)+1)
	for _, cw := range settle(wants, w) {
		g.w += cw
		g.edges = append(g.edges, g.w)
	}
	return nil
}

// level lets the columns that are to be even need the same.
func level(cols []Column, wants []want) {
	var most mp
	for i, c := range cols {
		if c.Even {
			most = max(most, wants[i].need)
		}
	}
	for i, c := range cols {
		if c.Even {
			wants[i].need = most
		}
	}
}

// allot splits a width by shares. Where a part is less than its need, others give
// what they have over theirs; what is left when every need is met goes by shares.
func allot(w mp, shares []float64, needs, means []mp) ([]mp, error) {
	parts, err := split(w, shares)
	if err != nil {
		return nil, err
	}
	var sum mp
	enough := true
	for i, n := range needs {
		sum += n
		enough = enough && parts[i] >= n
	}
	switch {
	case enough:
		return parts, nil
	case sum <= w:
		if parts, err = split(w-sum, shares); err != nil {
			return nil, err
		}
		for i, n := range needs {
			parts[i] += n
		}
		return parts, nil
	}
	return ration(w, parts, shares, needs, means)
}

// ration gives those the whole need whose part is enough for it, until no part is
// enough; what is left the others get by their shares.
func ration(w mp, parts []mp, shares []float64, needs, means []mp) ([]mp, error) {
	open := make([]int, len(parts))
	for i := range open {
		open[i] = i
	}
	for {
		var rest []int
		var of []float64
		for _, i := range open {
			if parts[i] < needs[i] {
				rest = append(rest, i)
				of = append(of, shares[i])
				continue
			}
			parts[i] = needs[i]
			w -= needs[i]
		}
		if len(rest) == len(open) {
			return ease(w, parts, means, open)
		}
		again, err := split(w, of)
		if err != nil {
			return nil, err
		}
		for n, i := range rest {
			parts[i] = again[n]
		}
		open = rest
	}
}

// A column whose cells take more than manyLines on average counts for more than its
// share, at most for greedy times as much.
const (
	manyLines = 4
	greedy    = 3
)

// ease splits a width among the open parts anew, so that none comes to very many
// lines while others have few.
func ease(w mp, parts, means []mp, open []int) ([]mp, error) {
	var of []float64
	for _, i := range open {
		points := float64(max(parts[i], min(means[i]/manyLines, greedy*parts[i]))) / 1000
		of = append(of, max(points, 1)) // where the others left nothing
	}
	list, err := split(w, of)
	if err != nil {
		return nil, err
	}
	for n, i := range open {
		parts[i] = list[n]
	}
	return parts, nil
}

// settle gives every column its wish if all of them fit into w; else takes from
// those that wish more than their least. If not even that fits, the widest are
// cut down to one width, at which their words and values are broken; the narrow
// ones keep theirs.
func settle(wants []want, w mp) []mp {
	var least, wish mp
	for _, c := range wants {
		least += c.least
		wish += c.wish
	}
	out := make([]mp, len(wants))
	most := ceiling(wants, w)
	for i, c := range wants {
		switch {
		case wish <= w:
			out[i] = c.wish
		case least <= w:
			out[i] = c.least + (c.wish-c.least).share(int64(w-least), int64(wish-least))
		default:
			out[i] = min(c.least, most)
		}
	}
	return out
}

// ceiling is the greatest width that no column may exceed so that all their leasts,
// cut to it, fit into w.
func ceiling(wants []want, w mp) mp {
	sorted := slices.Clone(wants)
	slices.SortFunc(sorted, func(a, b want) int { return int(a.least - b.least) })
	for i, c := range sorted {
		n := mp(len(sorted) - i)
		if c.least*n > w {
			return w / n
		}
		w -= c.least
	}
	return w
}

// wants measures all cells that span one column.
func (b *builder) wants(g *grid) ([]want, error) {
	n := len(g.t.Columns)
	wants := make([]want, n)
	left, right := make([]mp, n), make([]mp, n)
	measure := func(cells []TableCell, tone Tone, head bool) error {
		at := 0
		for i := range cells {
			c := &cells[i]
			span := max(c.Span, 1)
			if span == 1 {
				s := g.s.toned(tone).toned(c.Tone)
				s.bold = s.bold || head
				gs, err := b.flatten(b.scratch[:0], c.Runs, s)
				b.scratch = gs
				if err != nil {
					return err
				}
				natural, piece := widest(gs, c.Runs)
				wants[at].least = max(wants[at].least, piece)
				wants[at].wish = max(wants[at].wish, natural)
				if head {
					natural = max(piece, natural*11/20)
				}
				wants[at].need = max(wants[at].need, natural)
				if !head && natural > 0 {
					wants[at].all += natural
					wants[at].cells++
				}
				if g.t.Columns[at].Align == Decimal && c.Align == nil && !head {
					l, r := decimal(gs)
					left[at], right[at] = max(left[at], l), max(right[at], r)
				}
			}
			at += span
		}
		return nil
	}
	for _, cells := range g.t.Head {
		if err := measure(cells, Plain, true); err != nil {
			return nil, err
		}
	}
	for i := range g.t.Rows {
		if err := measure(g.t.Rows[i].Cells, g.t.Rows[i].Tone, false); err != nil {
			return nil, err
		}
	}
	for i := range wants {
		wants[i].least = max(wants[i].least, g.s.size/2) + 2*cellPadX
		wants[i].wish = max(wants[i].wish, left[i]+right[i], g.s.size/2) + 2*cellPadX
		wants[i].need = max(wants[i].need, left[i]+right[i], g.s.size/2) + 2*cellPadX
	}
	g.axis = right
	return wants, nil
}

// decimal is the width of a text up to its decimal sign and of the rest. A text
// without a sign counts as a whole number, up to the space after its digits;
// one without digits stands left of the sign as a whole.
func decimal(gs []glyph) (left, right mp) {
	first := -1
	for i, g := range gs {
		if unicode.IsDigit(g.r) {
			first = i
			break
		}
	}
	cut := len(gs)
	if first >= 0 {
		cut = first
		for cut < len(gs) && gs[cut].r != ' ' && gs[cut].r != '.' && gs[cut].r != ',' {
			cut++
		}
	}
	left = width(gs[:cut])
	return left, max(width(gs)-left, 0)
}
