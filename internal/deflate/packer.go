package deflate

import (
	"cmp"
	"encoding/binary"
	"hash/adler32"
)

// Packer packs one input after the other and keeps its tables. The zero value is ready.
// It is for one goroutine at a time.
type Packer struct {
	// Depth is how many earlier places are tried at each place, 6 if it is 0. With 32 the
	// output is some 2 % smaller and takes twice as long.
	Depth int

	src     []byte
	finder  finder
	matches []match
	first   []int32
	base    int // place of first[0]
	steps   []step
	price   prices
	tokens  []token
	bits    bitWriter
	coder   coder
}

const (
	stretch = 1 << 16 // looked at together
	unit    = 1 << 13 // a block has no fewer bytes
	depth   = 6       // earlier places tried at each place
	nice    = 96      // a match as long as this is taken without a look at what stands inside it
)

// Zlib appends to dst the parts, packed one after the other as a zlib stream, and
// returns it.
func (p *Packer) Zlib(dst []byte, parts ...[]byte) []byte {
	dst = p.Raw(append(dst, 0x78, 0xDA), parts...)
	return binary.BigEndian.AppendUint32(dst, adler32.Checksum(p.src))
}

// Raw is Zlib without head and sum: what a zip archive holds.
func (p *Packer) Raw(dst []byte, parts ...[]byte) []byte {
	p.src = p.src[:0]
	for _, part := range parts {
		p.src = append(p.src, part...)
	}
	p.bits = bitWriter{out: dst}
	p.finder.reset(cmp.Or(p.Depth, depth))
	if len(p.src) == 0 {
		p.bits.write(0b011, 10) // a last block of the fixed code, with its end alone
	}
	for from := 0; from < len(p.src); from += stretch {
		p.stretch(from, min(from+stretch, len(p.src)))
	}
	p.bits.flush()
	return p.bits.out
}

// stretch packs src[from:to]: a first, quick way through it tells where to cut it into
// blocks and what symbols will cost, then each block gets the cheapest way at that price.
func (p *Packer) stretch(from, to int) {
	p.search(from, to)
	if cap(p.steps) < to-from+1 {
		p.steps = make([]step, stretch+1)
	}
	p.tokens = p.guess(p.tokens[:0], from, to)
	blocks := p.split(from, to)
	at := from
	for i := range blocks {
		b := &blocks[i]
		p.price.learn(&b.histogram)
		p.tokens = p.way(p.tokens[:0], at, b.end)
		p.bits.block(&p.coder, p.tokens, b.end == len(p.src))
		at = b.end
	}
}

// search finds the matches of src[from:to].
func (p *Packer) search(from, to int) {
	p.base, p.matches, p.first = from, p.matches[:0], p.first[:0]
	for i := from; i < to; i++ {
		p.first = append(p.first, int32(len(p.matches)))
		p.matches = p.finder.find(p.matches, p.src, i, to)
		if n := len(p.matches); n > int(p.first[i-from]) && p.matches[n-1].length >= nice {
			// Nothing inside a long match is worth a search.
			for range min(int(p.matches[n-1].length), to-i) - 1 {
				i++
				p.first = append(p.first, int32(n))
				if i+4 <= len(p.src) {
					p.finder.note(p.src, i)
				}
			}
		}
	}
	p.first = append(p.first, int32(len(p.matches)))
}

// block is a part of the input with a code of its own.
type block struct {
	end       int
	histogram histogram
}

// split cuts the stretch where another code pays, going by the tokens of the first way.
// Cuts lie between tokens.
func (p *Packer) split(from, to int) []block {
	var out []block
	var now histogram
	at, last := from, from
	begin := 0
	flush := func(k int) {
		now.count(p.tokens[begin:k])
		begin = k
		if n := len(out); n > 0 {
			both := out[n-1].histogram
			both.add(&now)
			if both.cost() <= out[n-1].histogram.cost()+now.cost()+headCost {
				out[n-1] = block{at, both}
				now = histogram{}
				return
			}
		}
		out = append(out, block{at, now})
		now = histogram{}
	}
	for k, t := range p.tokens {
		if t.distance == 0 {
			at++
		} else {
			at += int(t.length)
		}
		if at-last >= unit || k == len(p.tokens)-1 {
			last = at
			flush(k + 1)
		}
	}
	for i := range out {
		out[i].histogram.litLen[endBlock] = 1
	}
	return out
}

// headCost is about what the code of a block takes.
const headCost = 70 * 8 * bit

// cost is what the symbols take by their own frequencies, without extra bits, which
// a split does not change.
func (h *histogram) cost() uint32 {
	return cost(h.litLen[:]) + cost(h.distance[:])
}

func cost(freq []uint32) uint32 {
	all, sum := uint32(0), uint32(0)
	for _, f := range freq {
		all += f
	}
	if all == 0 {
		return 0
	}
	whole := log2(all)
	for _, f := range freq {
		if f > 0 {
			sum += f * (whole - log2(f))
		}
	}
	return sum
}
