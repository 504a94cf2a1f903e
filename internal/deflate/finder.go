package deflate

import (
	"encoding/binary"
	"math/bits"
)

const (
	hashBits4 = 15
	hashBits3 = 12
)

// match is an earlier place with the same bytes.
type match struct{ length, distance uint16 }

// finder knows where in the input strings of three and four bytes stood last.
type finder struct {
	head4 [1 << hashBits4]int32 // last place, plus one
	head3 [1 << hashBits3]int32
	prev  [window]int32 // place before with the same hash of four, plus one, by place
	depth int           // places looked at
}

func (f *finder) reset(depth int) {
	f.depth = depth
	clear(f.head4[:])
	clear(f.head3[:])
}

// note enters the place i.
func (f *finder) note(src []byte, i int) (older4, older3 int32) {
	v := binary.LittleEndian.Uint32(src[i:])
	h4 := v * 0x9E3779B1 >> (32 - hashBits4)
	h3 := v << 8 * 0x9E3779B1 >> (32 - hashBits3)
	older4, older3 = f.head4[h4], f.head3[h3]
	f.prev[i%window] = older4
	f.head4[h4], f.head3[h3] = int32(i)+1, int32(i)+1
	return older4, older3
}

// find appends to out the matches at i up to the place end: each longer than the
// one before, each the nearest of its length that was looked at. It enters i.
func (f *finder) find(out []match, src []byte, i, end int) []match {
	if i+4 > len(src) {
		return out
	}
	most := min(maxMatch, end-i)
	c4, c3 := f.note(src, i)
	if most < minMatch {
		return out
	}
	best := minMatch - 1
	low := int32(max(0, i-window+1)) // a place plus one must be above it
	if c3 > low && c3 != c4 {
		if n := same(src, int(c3)-1, i, most); n > best {
			out = append(out, match{uint16(n), uint16(i - int(c3) + 1)})
			best = n
		}
	}
	for range f.depth {
		if c4 <= low || best >= most {
			break
		}
		at := int(c4) - 1
		if src[at+best] == src[i+best] {
			if n := same(src, at, i, most); n > best {
				out = append(out, match{uint16(n), uint16(i - at)})
				best = n
			}
		}
		c4 = f.prev[at%window]
	}
	return out
}

// same counts the bytes that are equal from a and b on, at most n.
func same(src []byte, a, b, n int) int {
	x, y := src[a:a+n], src[b:b+n]
	k := 0
	for k+8 <= n {
		if d := binary.LittleEndian.Uint64(x[k:]) ^ binary.LittleEndian.Uint64(y[k:]); d != 0 {
			return k + bits.TrailingZeros64(d)>>3
		}
		k += 8
	}
	for k < n && x[k] == y[k] {
		k++
	}
	return k
}
