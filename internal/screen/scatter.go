package screen

import "math"

// rereadSame is how often, at most, a person who reads a place again finds the
// same value, of values that show that he reads to the last mark: an error of
// reading of a tenth of a step already changes 1.13·0.1 of them (E|d| of two
// normal errors is 2σ/√π). That the error of reading is not smaller is common
// practice, no source.
const rereadSame = 0.9

// noScatter asks about a person whose first readings, read again at the end of
// a round, never came out different. Counted are those that do not stand on a
// mark that people prefer.
func (t *tower) noScatter() []Question {
	type group struct {
		rows   []*row
		n      int
		differ bool
	}
	groups := map[string]*group{}
	var order []string
	for _, block := range free {
		for _, x := range t.of(block) {
			first := x.values[0]
			step := t.step(x)
			if !first.set || !x.again.set || step == 0 {
				continue
			}
			who := x.head.ReadBy.Value
			g := groups[who]
			if g == nil {
				g = &group{}
				groups[who], order = g, append(order, who)
			}
			g.differ = g.differ || first.n != x.again.n
			if !first.multiple(habit(block, step) * step) {
				g.n++
				g.rows = append(g.rows, x)
			}
		}
	}
	var out []Question
	for _, who := range order {
		g := groups[who]
		chance := math.Pow(rereadSame, float64(g.n)) * float64(len(order))
		if g.differ || chance > Risk {
			continue
		}
		q := Question{Code: NoScatter, N: g.n, Odds: odds(chance), Args: []Arg{number("n", g.n)}}
		for _, x := range g.rows {
			q.At = append(q.At, x.again.at)
			q.Cells = append(q.Cells, x.cell)
		}
		q.Cells = unique(q.Cells)
		out = append(out, q)
	}
	return out
}
