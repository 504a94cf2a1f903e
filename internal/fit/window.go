package fit

import (
	"math/bits"
	"sort"
)

// TightestWindow finds the values that need not be touched if all are to lie
// within width of each other: the window [w, w + width] that holds most of
// them. lo and hi are the least and greatest value in it, keep the indices of
// those values, ascending. Among equally full windows it takes the one from
// which the values outside lie least far in sum, then the lowest. Values may
// come in any order and may repeat. No values, or a negative width, keep none.
func TightestWindow(values []int64, width int64) (lo, hi int64, keep []int) {
	if len(values) == 0 || width < 0 {
		return 0, 0, nil
	}
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return values[order[a]] < values[order[b]] })
	best, bestEnd, bestSum := 0, 0, uint64(0)
	end := 0
	for start := range order {
		for end < len(order) && span(values[order[start]], values[order[end]]) <= uint64(width) {
			end++
		}
		count, sum := end-start, outside(values, values[order[start]], values[order[end-1]])
		if count > bestEnd-best || count == bestEnd-best && sum < bestSum {
			best, bestEnd, bestSum = start, end, sum
		}
	}
	keep = append(keep, order[best:bestEnd]...)
	sort.Ints(keep)
	return values[order[best]], values[order[bestEnd-1]], keep
}

// span is high − low for low ≤ high, which int64 may not hold.
func span(low, high int64) uint64 { return uint64(high) - uint64(low) }

// outside sums how far values lie outside [low, high]; the sum stops at the
// largest uint64.
func outside(values []int64, low, high int64) uint64 {
	sum := uint64(0)
	for _, v := range values {
		far := uint64(0)
		switch {
		case v < low:
			far = span(v, low)
		case v > high:
			far = span(high, v)
		}
		var carry uint64
		if sum, carry = bits.Add64(sum, far, 0); carry != 0 {
			return ^uint64(0)
		}
	}
	return sum
}
