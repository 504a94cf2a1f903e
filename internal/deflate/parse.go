package deflate

// step is how the cheapest way came to a place: by a literal (length 1) or by a match.
type step struct {
	cost             uint32
	length, distance uint16
}

// token is a literal (distance 0, length the byte) or a match.
type token = match

// way finds the cheapest way through src[from:to] by the prices, over the matches found
// at each place: first[k] to first[k+1] are those of place base+k. It appends the tokens
// to out.
func (p *Packer) way(out []token, from, to int) []token {
	n := to - from
	steps := p.steps[:n+1]
	for i := range steps {
		steps[i].cost = ^uint32(0)
	}
	steps[0].cost = 0
	price := &p.price
	for i := range n {
		here := steps[i].cost
		if c := here + price.literal[p.src[from+i]]; c < steps[i+1].cost {
			steps[i+1] = step{c, 1, 0}
		}
		at := from + i - p.base
		l := minMatch
		for _, m := range p.matches[p.first[at]:p.first[at+1]] {
			far := here + price.distance[distSymbol(int(m.distance))]
			most := min(int(m.length), n-i)
			ahead := steps[i:]
			for ; l <= most; l++ {
				if c := far + price.length[l]; c < ahead[l].cost {
					ahead[l] = step{c, uint16(l), m.distance}
				}
			}
		}
	}
	start := len(out)
	for i := n; i > 0; {
		s := steps[i]
		i -= int(s.length)
		if s.distance == 0 {
			s.length = uint16(p.src[from+i])
		}
		out = append(out, token{s.length, s.distance})
	}
	for a, b := start, len(out)-1; a < b; a, b = a+1, b-1 {
		out[a], out[b] = out[b], out[a]
	}
	return out
}

// prices are what symbols cost, extra bits included, in sixteenths of a bit.
type prices struct {
	literal  [literals]uint32
	length   [maxMatch + 1]uint32
	distance [distances]uint32
}

const bit = 16

// learn takes the prices from how often each symbol came.
func (p *prices) learn(h *histogram) {
	all, far := uint32(0), uint32(0)
	for _, f := range h.litLen {
		all += f
	}
	for _, f := range h.distance {
		far += f
	}
	whole := log2(all + 1)
	for i := range p.literal {
		p.literal[i] = whole - log2(h.litLen[i])
	}
	for l := minMatch; l <= maxMatch; l++ {
		s := lengthSymbol[l]
		p.length[l] = whole - log2(h.litLen[firstLen+int(s)]) + uint32(lengthExtra[s])*bit
	}
	whole = log2(far + 1)
	for d := range p.distance {
		p.distance[d] = whole - log2(h.distance[d]) + uint32(distExtra[d])*bit
	}
}

// histogram is how often each symbol came.
type histogram struct {
	litLen   [litLens]uint32
	distance [distances]uint32
}

func (h *histogram) count(tokens []token) {
	for _, t := range tokens {
		if t.distance == 0 {
			h.litLen[t.length]++
		} else {
			h.litLen[firstLen+int(lengthSymbol[t.length])]++
			h.distance[distSymbol(int(t.distance))]++
		}
	}
}

func (h *histogram) add(o *histogram) {
	for i, f := range o.litLen {
		h.litLen[i] += f
	}
	for i, f := range o.distance {
		h.distance[i] += f
	}
}
