package deflate

// The alphabets of RFC 1951, section 3.2.5.
const (
	literals  = 256
	endBlock  = 256
	firstLen  = 257
	litLens   = 286
	distances = 30

	minMatch = 3
	maxMatch = 258
	window   = 1 << 15
)

// lengthBase and lengthExtra give, for each length symbol, the least length and
// the number of bits that follow; distBase and distExtra the same of distances.
var (
	lengthBase  = [29]uint16{3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15, 17, 19, 23, 27, 31, 35, 43, 51, 59, 67, 83, 99, 115, 131, 163, 195, 227, 258}
	lengthExtra = [29]uint8{0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 0}
	distBase    = [distances]uint16{1, 2, 3, 4, 5, 7, 9, 13, 17, 25, 33, 49, 65, 97, 129, 193, 257, 385, 513, 769, 1025, 1537, 2049, 3073,
		4097, 6145, 8193, 12289, 16385, 24577}
	distExtra = [distances]uint8{0, 0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9, 10, 10, 11, 11, 12, 12, 13, 13}
)

var (
	lengthSymbol          = lengthSymbols() // index into lengthBase
	nearSymbol, farSymbol = distSymbols()   // index into distBase: of distance-1 up to 256, of (distance-1)>>7 beyond
)

func lengthSymbols() (of [maxMatch + 1]uint8) {
	for l, s := minMatch, 0; l <= maxMatch; l++ {
		if s+1 < len(lengthBase) && int(lengthBase[s+1]) <= l {
			s++
		}
		of[l] = uint8(s)
	}
	return of
}

func distSymbols() (near, far [256]uint8) {
	for d, s := 1, 0; d <= window; d++ {
		if s+1 < len(distBase) && int(distBase[s+1]) <= d {
			s++
		}
		if d <= 256 {
			near[d-1] = uint8(s)
		} else {
			far[(d-1)>>7] = uint8(s)
		}
	}
	return near, far
}

func distSymbol(distance int) uint8 {
	if distance <= 256 {
		return nearSymbol[distance-1]
	}
	return farSymbol[(distance-1)>>7]
}
