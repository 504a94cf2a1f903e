package archive

import "math/bits"

// cidSet is a set of two-byte codes.
type cidSet [1 << 16 / 64]uint64

func (s *cidSet) add(codes []byte) {
	for i := 0; i+1 < len(codes); i += 2 {
		c := uint(codes[i])<<8 | uint(codes[i+1])
		s[c>>6] |= 1 << (c & 63)
	}
}

func (s *cidSet) union(other *cidSet) {
	for i, w := range other {
		s[i] |= w
	}
}

// list returns the codes in rising order.
func (s *cidSet) list() []int {
	var out []int
	for i, w := range s {
		for ; w != 0; w &= w - 1 {
			out = append(out, i<<6|bits.TrailingZeros64(w))
		}
	}
	return out
}
