package deflate

import "math/bits"

// guess finds a fair way through src[from:to] at one look, for the prices of the first
// search: the match that saves most at a place, unless the next place saves more.
func (p *Packer) guess(out []token, from, to int) []token {
	best, gain := p.gain(from)
	for i := from; i < to; {
		var next match
		more := 0
		if i+1 < to && int(best.length) < nice {
			next, more = p.gain(i + 1)
		}
		if gain <= 0 || more > gain {
			out = append(out, token{uint16(p.src[i]), 0})
			i++
			best, gain = next, more
			continue
		}
		out = append(out, best)
		i += int(best.length)
		if i < to {
			best, gain = p.gain(i)
		}
	}
	return out
}

// gain is the match at place i that saves most, and about how many bits it saves.
func (p *Packer) gain(i int) (best match, gain int) {
	at := i - p.base
	for _, m := range p.matches[p.first[at]:p.first[at+1]] {
		if g := 5*int(m.length) - 9 - bits.Len16(m.distance); g > gain {
			best, gain = m, g
		}
	}
	return best, gain
}
