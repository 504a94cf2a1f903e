package correct

import "asleft/internal/measure"

// stock is the thicknesses that a crew has at hand, in multiples of the thinnest
// shim. Common practice, no source; the series 1-2-5 makes the fewest pieces
// the ones taken largest first.
var stock = [...]int64{1000, 500, 200, 100, 50, 20, 10, 5, 2, 1}

// pieces is how many a stack of this height needs at least. What is less than
// the thinnest shim of today's stack is one piece more, which stays.
func pieces(stack, step measure.Length) int {
	n, odd := int64(stack/step), stack%step
	count := int64(0)
	if odd != 0 {
		count++
	}
	for _, s := range stock {
		count += n / s
		n %= s
	}
	return int(count)
}

// newPieces counts the new stack: one that is not changed keeps its pieces.
func newPieces(f Foot, change, step measure.Length) int {
	if change == 0 && f.Pieces > 0 {
		return f.Pieces
	}
	return pieces(f.Now+change, step)
}
