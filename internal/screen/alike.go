package screen

import (
	"cmp"
	"math"
	"slices"
)

// leastRow is the shortest row that is held against others. Four readings of
// honest cells are alike too often to mean anything.
const leastRow = 6

// pair is two rows of one block, and how many of their readings are the same.
type pair struct {
	a, b    *row
	n, same int
	p       float64 // that a reading agrees by chance; 1: not to be told
}

// meet counts the readings that two rows have in common.
func meet(a, b *row) pair {
	x := pair{a: a, b: b, p: 1}
	for i, v := range a.values {
		if i < len(b.values) && v.set && b.values[i].set {
			x.n++
			if v.n == b.values[i].n {
				x.same++
			}
		}
	}
	return x
}

// sheets is what is compared: the rows of a round of one cell and those of a
// round of another.
type sheets struct {
	cell, other   int
	round, second string
}

// finding is the least likely of what two cells have in common.
type finding struct {
	pairs   []pair
	n, same int
	chance  float64
}

// sameCells asks about two cells whose readings are the same in more places than
// like cells show by chance: in one block, or in all blocks of a round together.
func (t *tower) sameCells() []Question {
	all, order := t.pairs()
	best := map[[2]int]finding{}
	tests := 0
	for _, k := range order {
		list := all[k]
		groups := [][]pair{}
		for i := range list {
			groups = append(groups, list[i:i+1])
		}
		if len(list) > 1 {
			groups = append(groups, list)
		}
		for _, g := range groups {
			tests++
			f := judge(g)
			cells := [2]int{k.cell, k.other}
			if old, ok := best[cells]; !ok || f.chance < old.chance {
				best[cells] = f
			}
		}
	}
	var out []Question
	for _, f := range best {
		if chance := f.chance * float64(tests); chance <= Risk {
			out = append(out, f.question(chance))
		}
	}
	return out
}

// pairs are all rows of different cells that can be told apart, by the sheets
// that they stand on.
func (t *tower) pairs() (map[sheets][]pair, []sheets) {
	all := map[sheets][]pair{}
	var order []sheets
	for _, block := range compared {
		rows, step := t.of(block), t.reach(block)
		if step == 0 {
			continue
		}
		own := spreads(rows, step)
		for i, a := range rows {
			for j, b := range rows[:i] {
				x := meet(b, a)
				if a.cell == b.cell || x.n < leastRow {
					continue
				}
				spread := min(own[i].like(b.cell), own[j].like(a.cell))
				if !(spread > 0) {
					continue
				}
				x.p = agreeing(math.Sqrt(spread))
				k := sheets{b.cell, a.cell, b.round, a.round}
				if all[k] == nil {
					order = append(order, k)
				}
				all[k] = append(all[k], x)
			}
		}
	}
	return all, order
}

// spread is by how much a reading of a like cell differs from a row's own, as
// variances in steps: what is left in the row itself, and, round the cylinder,
// in its differences from other cells' rows, ascending.
type spread struct {
	own    float64
	places bool
	from   []difference
}

type difference struct {
	cell     int
	variance float64
}

// spreads takes all differences of rows. Rows that are the same throughout are
// what is asked about, and say nothing of other cells.
func spreads(rows []*row, step int64) []spread {
	out := make([]spread, len(rows))
	for i, a := range rows {
		v, _ := a.scatter(nil, step)
		out[i].own, out[i].places = v, a.places
		if !a.places {
			continue
		}
		for j, b := range rows[:i] {
			if x := meet(a, b); a.cell == b.cell || x.same == x.n {
				continue
			}
			if v, ok := a.scatter(b, step); ok {
				out[i].from = append(out[i].from, difference{b.cell, v})
				out[j].from = append(out[j].from, difference{a.cell, v})
			}
		}
	}
	for _, s := range out {
		slices.SortFunc(s.from, func(a, b difference) int { return cmp.Compare(a.variance, b.variance) })
	}
	return out
}

// like is the variance to go by against a cell: the row's own, or the middle one
// of its differences from third cells if that is less, since a deck or a mold
// gives all cells one shape. 0: not to be told.
func (s spread) like(cell int) float64 {
	if !s.places {
		return s.own
	}
	third := 0
	for _, d := range s.from {
		if d.cell != cell {
			third++
		}
	}
	middle := (third + 1) / 2
	for _, d := range s.from {
		if d.cell != cell {
			middle--
		}
		if middle == 0 && third > 0 {
			return min(s.own, d.variance)
		}
	}
	return 0
}

// judge works out how often so many readings agree by chance, if mean and cycle
// of both cells are the same.
func judge(g []pair) finding {
	f := finding{pairs: g, chance: 1}
	expected := 0.0
	for _, x := range g {
		f.n, f.same = f.n+x.n, f.same+x.same
		expected += float64(x.n) * x.p
	}
	if float64(f.same) <= expected {
		return f // nothing to wonder at, as with most pairs
	}
	all := make([]trials, 0, len(g))
	for _, x := range g {
		all = append(all, trials{x.n, x.p})
	}
	f.chance = atLeast(f.same, all)
	return f
}

func (f finding) question(chance float64) Question {
	a, b := f.pairs[0].a, f.pairs[0].b
	args := []Arg{number("cell", a.cell), text("round", a.round), number("second", b.cell), text("other", b.round),
		number("same", f.same), number("n", f.n)}
	q := Question{Code: SameSheet, Cells: []int{a.cell, b.cell}, N: f.n, Odds: odds(chance), Args: args}
	if len(f.pairs) == 1 {
		q.Code, q.Args = SameRow, append([]Arg{text("check", a.block)}, args...)
	}
	for _, x := range f.pairs {
		q.At = append(q.At, x.a.at, x.b.at)
	}
	return q
}

// leastRepeats is how many first readings read again say how often a reading
// comes out the same.
const leastRepeats = 8

// sameRounds asks about two rounds of one cell that are the same in more places
// than a place read twice is.
func (t *tower) sameRounds() []Question {
	share := t.repeats()
	all := map[sheets][]pair{}
	var order []sheets
	for _, block := range free {
		rows := t.of(block)
		for i, a := range rows {
			for _, b := range rows[:i] {
				x := meet(b, a)
				if a.cell != b.cell || x.n == 0 || share[block] == 0 {
					continue
				}
				x.p = share[block]
				k := sheets{b.cell, a.cell, b.round, a.round}
				if all[k] == nil {
					order = append(order, k)
				}
				all[k] = append(all[k], x)
			}
		}
	}
	var out []Question
	for _, k := range order {
		var each []trials
		f := finding{pairs: all[k]}
		for _, x := range f.pairs {
			f.n, f.same = f.n+x.n, f.same+x.same
			each = append(each, trials{x.n, x.p})
		}
		if chance := atLeast(f.same, each) * float64(len(order)); chance <= Risk {
			out = append(out, f.rounds(chance))
		}
	}
	return out
}

func (f finding) rounds(chance float64) Question {
	a, b := f.pairs[0].a, f.pairs[0].b
	q := Question{Code: SameRound, Cells: []int{a.cell}, N: f.n, Odds: odds(chance), Args: []Arg{
		number("cell", a.cell), text("round", a.round), text("other", b.round), number("same", f.same), number("n", f.n)}}
	for _, x := range f.pairs {
		q.At = append(q.At, x.a.at, x.b.at)
	}
	return q
}

// repeats is, by block, the greatest share of readings that come out the same
// when they are read again; 0 where too few were.
func (t *tower) repeats() map[string]float64 {
	same, n := map[string]int{}, map[string]int{}
	for _, x := range t.rows {
		if first := x.values[0]; first.set && x.again.set {
			n[x.block]++
			if first.n == x.again.n {
				same[x.block]++
			}
		}
	}
	out := map[string]float64{}
	for block, k := range n {
		if k >= leastRepeats {
			out[block] = greatestShare(same[block], k)
		}
	}
	return out
}
