package screen

import (
	"math"
	"slices"

	"asleft/internal/field"
)

// leastHand is how many cells must have a row of a kind to say what is usual.
const leastHand = 3

// kind is what makes rows of different cells alike: the same person, instrument,
// block and round.
type kind struct{ reader, instrument, block, round string }

// line is how many readings of a row stand on a mark that needs the last step
// of the scale.
type line struct {
	x       *row
	fine, n int
}

// roundMarks asks about a cell that one person read to other marks of the scale
// than he read the other cells: last digits, or last fractions, of another
// habit. Nothing is supposed about the habit itself; the rows of each kind are
// dealt out among the cells anew, in every way.
func (t *tower) roundMarks() []Question {
	kinds, order := t.kinds()
	type hand struct {
		own   []line
		hands [][]int
	}
	cells := map[int]*hand{}
	var numbers []int
	for _, k := range order {
		lines := kinds[k]
		if len(lines) < leastHand {
			continue
		}
		var all []int
		for _, l := range lines {
			all = append(all, l.fine)
		}
		for _, l := range lines {
			h := cells[l.x.cell]
			if h == nil {
				h = &hand{}
				cells[l.x.cell], numbers = h, append(numbers, l.x.cell)
			}
			h.own, h.hands = append(h.own, l), append(h.hands, all)
		}
	}
	var out []Question
	slices.Sort(numbers)
	for _, number := range numbers {
		h := cells[number]
		fine := 0
		for _, l := range h.own {
			fine += l.fine
		}
		small, large := dealt(fine, h.hands)
		if chance := 2 * min(small, large) * float64(len(numbers)); chance <= Risk {
			out = append(out, marksQuestion(number, h.own, usual(kinds, number, h.own, t), chance))
		}
	}
	return out
}

// kinds are the rows of each kind that have the same number of readings, as the
// first of them.
func (t *tower) kinds() (map[kind][]line, []kind) {
	kinds := map[kind][]line{}
	var order []kind
	for _, block := range compared {
		for _, x := range t.of(block) {
			step := t.step(x)
			if step == 0 {
				continue
			}
			l := count(x, habit(block, step)*step)
			if l.n == 0 {
				continue
			}
			k := kind{x.head.ReadBy.Value, x.head.Instrument.Value, block, x.round}
			if kinds[k] == nil {
				order = append(order, k)
			}
			if len(kinds[k]) == 0 || kinds[k][0].n == l.n {
				kinds[k] = append(kinds[k], l)
			}
		}
	}
	return kinds, order
}

// count counts the readings of a row that stand between the marks that people
// prefer. A row that does not reach over several of those says more of the fan
// than of its reader: nothing is counted.
func count(x *row, preferred int64) line {
	l := line{x: x}
	least, most := int64(math.MaxInt64), int64(math.MinInt64)
	for _, v := range x.values {
		if v.set {
			l.n++
			least, most = min(least, v.n), max(most, v.n)
			if !v.multiple(preferred) {
				l.fine++
			}
		}
	}
	if l.n > 0 && most-least < 2*preferred {
		return line{}
	}
	return l
}

// usual is the share of such readings in the other cells, in percent.
func usual(kinds map[kind][]line, cell int, own []line, t *tower) int {
	fine, n := 0, 0
	for _, o := range own {
		h := o.x.head
		for _, l := range kinds[kind{h.ReadBy.Value, h.Instrument.Value, o.x.block, o.x.round}] {
			if l.x.cell != cell {
				fine, n = fine+l.fine, n+l.n
			}
		}
	}
	return (200*fine + n) / (2 * max(n, 1))
}

func marksQuestion(cell int, own []line, usual int, chance float64) Question {
	var at []field.Ref
	fine, n := 0, 0
	for _, l := range own {
		fine, n, at = fine+l.fine, n+l.n, append(at, l.x.at)
	}
	return Question{Code: RoundMarks, Cells: []int{cell}, N: n, Odds: odds(chance), At: at,
		Args: []Arg{number("cell", cell), number("fine", fine), number("n", n), number("usual", usual)}}
}

func unique(cells []int) []int {
	slices.Sort(cells)
	return slices.Compact(cells)
}
