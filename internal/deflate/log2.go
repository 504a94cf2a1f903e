package deflate

import "math/bits"

// log2 is the logarithm of n to the base 2 in sixteenths, as integers give it; that
// of 0 is taken as that of 1/2.
func log2(n uint32) uint32 {
	// One bit is taken off everything, so that 0 has a place below 1.
	if n == 0 {
		return 0
	}
	whole := uint32(bits.Len32(n) - 1)
	return bit + whole*bit + fractions[n<<(31-whole)>>26&31]
}

// fractions are the logarithms of 1, 33/32, ... 63/32, in sixteenths of a bit, rounded.
var fractions = [32]uint32{0, 1, 1, 2, 3, 3, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9, 10, 10, 11, 11, 12, 12, 12, 13, 13, 14, 14, 15, 15, 15, 16}
