package correct

import (
	"slices"

	"asleft/internal/measure"
)

// usual is the thicknesses that a crew has at hand where the form gives none, in
// multiples of the thinnest shim. Common practice, no source; the series 1-2-5
// makes the fewest pieces the ones taken largest first.
var usual = [...]int64{1000, 500, 200, 100, 50, 20, 10, 5, 2, 1}

// usualPieces is how many a stack of this height needs at least. What is less
// than the thinnest shim of today's stack is one piece more, which stays.
func usualPieces(stack, step measure.Length) int {
	n, odd := int64(stack/step), stack%step
	count := int64(0)
	if odd != 0 {
		count++
	}
	for _, s := range usual {
		count += n / s
		n %= s
	}
	return int(count)
}

// built is a stack after its change.
type built struct {
	pieces int
	// stack is the pieces that are taken from stock, thickest first; nil where
	// nobody said what there is. With keeps they go on what is there.
	stack []measure.Length
	keeps bool
}

// builder makes stacks of shims at hand.
type builder struct {
	step  measure.Length
	stock *stockroom // nil: the usual thicknesses
}

func newBuilder(step measure.Length, stock []measure.Length) builder {
	return builder{step, newStockroom(stock)}
}

// pieces counts the stack after a change, and tells whether it can be built. One
// that is not changed keeps its pieces.
func (b builder) pieces(f Foot, change measure.Length) (int, bool) {
	switch {
	case change == 0 && f.Pieces > 0:
		return f.Pieces, true
	case b.stock == nil || change == 0:
		return usualPieces(f.Now+change, b.step), true
	}
	n, _, ok := b.fewest(f, change)
	return n, ok
}

// fewest is the lesser of two: the whole stack new, or, where something goes in,
// today's pieces with more on top. Equal, what is there stays.
func (b builder) fewest(f Foot, change measure.Length) (n int, keeps, ok bool) {
	fresh, okFresh := b.stock.least(f.Now + change)
	if !f.Known {
		return fresh, true, okFresh
	}
	more, okMore := 0, false
	if f.Pieces > 0 && change > 0 {
		more, okMore = b.stock.least(change)
	}
	if okMore && (!okFresh || f.Pieces+more <= fresh) {
		return f.Pieces + more, true, true
	}
	return fresh, false, okFresh
}

// build lists the pieces of the stack after a change.
func (b builder) build(f Foot, change measure.Length) built {
	n, _ := b.pieces(f, change)
	out := built{pieces: n}
	if b.stock == nil || change == 0 {
		return out
	}
	_, keeps, ok := b.fewest(f, change)
	switch {
	case !ok:
	case keeps:
		out.stack, out.keeps = b.stock.pieces(change), true
	default:
		out.stack = b.stock.pieces(f.Now + change)
	}
	return out
}

// stockroom knows, for every height in whole units, the fewest pieces that make
// it: a table that grows as it is asked.
type stockroom struct {
	unit  measure.Length // greatest that divides every thickness
	sizes []int          // in units, thickest first
	count []int32        // by height in units; unmade where there is no such stack
	last  []int32        // the thickest piece of a smallest stack, in units
}

const (
	unmade     = -1
	mostStock  = 64      // thicknesses
	mostHeight = 1 << 18 // in units; no stack is so high
)

// newStockroom is nil where nothing is at hand that is a shim.
func newStockroom(stock []measure.Length) *stockroom {
	var unit measure.Length
	for _, l := range stock {
		if l > 0 && l <= maxStep {
			unit = common(unit, l)
		}
	}
	if unit == 0 {
		return nil
	}
	s := &stockroom{unit: unit, count: []int32{0}, last: []int32{0}}
	for _, l := range stock {
		n := int(l / unit)
		if l > 0 && l <= maxStep && !slices.Contains(s.sizes, n) && len(s.sizes) < mostStock {
			s.sizes = append(s.sizes, n)
		}
	}
	slices.Sort(s.sizes)
	slices.Reverse(s.sizes)
	return s
}

// common is the greatest common divisor.
func common(a, b measure.Length) measure.Length {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// least is the fewest pieces of a stack; false where none makes it.
func (s *stockroom) least(height measure.Length) (int, bool) {
	if height < 0 || height%s.unit != 0 || height/s.unit >= mostHeight {
		return 0, false
	}
	n := int(height / s.unit)
	for h := len(s.count); h <= n; h++ {
		count, last := int32(unmade), int32(0)
		for _, size := range s.sizes {
			if size <= h && s.count[h-size] != unmade && (count == unmade || s.count[h-size]+1 < count) {
				count, last = s.count[h-size]+1, int32(size)
			}
		}
		s.count, s.last = append(s.count, count), append(s.last, last)
	}
	return int(s.count[n]), s.count[n] != unmade
}

// pieces lists a smallest stack, thickest first; nil where none makes it.
func (s *stockroom) pieces(height measure.Length) []measure.Length {
	if _, ok := s.least(height); !ok {
		return nil
	}
	var out []measure.Length
	for n := int(height / s.unit); n > 0; n -= int(s.last[n]) {
		out = append(out, measure.Length(s.last[n])*s.unit)
	}
	slices.Sort(out)
	slices.Reverse(out)
	return out
}
