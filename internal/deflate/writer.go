package deflate

import "encoding/binary"

// bitWriter writes bits from the lowest up.
type bitWriter struct {
	out  []byte
	hold uint64
	n    uint
}

func (w *bitWriter) write(v uint64, n uint) {
	w.hold |= v << w.n
	w.n += n
	if w.n >= 32 {
		w.out = binary.LittleEndian.AppendUint32(w.out, uint32(w.hold))
		w.hold >>= 32
		w.n -= 32
	}
}

func (w *bitWriter) flush() {
	for ; w.n > 0; w.n -= min(w.n, 8) {
		w.out = append(w.out, byte(w.hold))
		w.hold >>= 8
	}
	w.hold = 0
}

// coder holds the codes of the block being written.
type coder struct {
	histogram
	litLenBits [litLens]uint8
	litLenCode [litLens]uint16
	distBits   [distances]uint8
	distCode   [distances]uint16
	nodes      []node
	lengths    []uint8
	runs       []run
}

// run is a symbol of the code of code lengths with what follows it.
type run struct{ symbol, extra uint8 }

// block writes the tokens as a block with a code of its own (RFC 1951, 3.2.7).
func (w *bitWriter) block(c *coder, tokens []token, last bool) {
	c.histogram = histogram{}
	c.count(tokens)
	c.litLen[endBlock] = 1
	codeLengths(c.litLenBits[:], c.litLen[:], 15, &c.nodes)
	codeLengths(c.distBits[:], c.distance[:], 15, &c.nodes)
	codes(c.litLenCode[:], c.litLenBits[:])
	codes(c.distCode[:], c.distBits[:])
	w.head(c, last)
	for _, t := range tokens {
		if t.distance == 0 {
			w.write(uint64(c.litLenCode[t.length]), uint(c.litLenBits[t.length]))
			continue
		}
		s := lengthSymbol[t.length]
		w.write(uint64(c.litLenCode[firstLen+int(s)]), uint(c.litLenBits[firstLen+int(s)]))
		w.write(uint64(t.length-lengthBase[s]), uint(lengthExtra[s]))
		d := distSymbol(int(t.distance))
		w.write(uint64(c.distCode[d]), uint(c.distBits[d]))
		w.write(uint64(t.distance-distBase[d]), uint(distExtra[d]))
	}
	w.write(uint64(c.litLenCode[endBlock]), uint(c.litLenBits[endBlock]))
}

// lengthOrder is the order in which the lengths of the code of code lengths stand.
var lengthOrder = [19]uint8{16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15}

// head writes the head of a block: its kind and its codes.
func (w *bitWriter) head(c *coder, last bool) {
	nl, nd := used(c.litLenBits[:], firstLen), used(c.distBits[:], 1)
	c.lengths = append(append(c.lengths[:0], c.litLenBits[:nl]...), c.distBits[:nd]...)
	c.runs = runs(c.runs[:0], c.lengths)
	var freq [19]uint32
	for _, r := range c.runs {
		freq[r.symbol]++
	}
	var size [19]uint8
	var code [19]uint16
	codeLengths(size[:], freq[:], 7, &c.nodes)
	codes(code[:], size[:])
	n := len(lengthOrder)
	for n > 4 && size[lengthOrder[n-1]] == 0 {
		n--
	}
	kind := uint64(0b100)
	if last {
		kind |= 1
	}
	w.write(kind, 3)
	w.write(uint64(nl-firstLen), 5)
	w.write(uint64(nd-1), 5)
	w.write(uint64(n-4), 4)
	for _, s := range lengthOrder[:n] {
		w.write(uint64(size[s]), 3)
	}
	for _, r := range c.runs {
		w.write(uint64(code[r.symbol]), uint(size[r.symbol]))
		switch r.symbol {
		case 16:
			w.write(uint64(r.extra), 2)
		case 17:
			w.write(uint64(r.extra), 3)
		case 18:
			w.write(uint64(r.extra), 7)
		}
	}
}

// used is the number of lengths up to the last that is not 0, at least least.
func used(lengths []uint8, least int) int {
	n := len(lengths)
	for n > least && lengths[n-1] == 0 {
		n--
	}
	return n
}

// runs writes code lengths as symbols: 16 repeats the one before 3 to 6 times, 17 and 18
// are 3 to 10 and 11 to 138 zeros.
func runs(out []run, lengths []uint8) []run {
	for i := 0; i < len(lengths); {
		l, n := lengths[i], 1
		for i+n < len(lengths) && lengths[i+n] == l {
			n++
		}
		i += n
		if l == 0 {
			for ; n >= 11; n -= min(n, 138) {
				out = append(out, run{18, uint8(min(n, 138) - 11)})
			}
			if n >= 3 {
				out = append(out, run{17, uint8(n - 3)})
				n = 0
			}
		} else {
			out = append(out, run{l, 0})
			n--
			for ; n >= 3; n -= min(n, 6) {
				out = append(out, run{16, uint8(min(n, 6) - 3)})
			}
		}
		for range n {
			out = append(out, run{l, 0})
		}
	}
	return out
}
