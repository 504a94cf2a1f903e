package deflate

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// The example of RFC 1951, 3.2.2: the lengths 3, 3, 3, 3, 3, 2, 4, 4 of A to H.
func TestCodesOfTheStandard(t *testing.T) {
	got := make([]uint16, 8)
	codes(got, []uint8{3, 3, 3, 3, 3, 2, 4, 4})
	// Written from the lowest bit on, so each reads backward.
	want := []uint16{0b010, 0b110, 0b001, 0b101, 0b011, 0b00, 0b0111, 0b1111}
	if !slices.Equal(got, want) {
		t.Errorf("%b, want %b", got, want)
	}
}

// Codes are complete, within the limit, and no rarer symbol has a shorter one. Where
// the limit does not bind, they cost as little as Huffman's tree does.
func TestCodeLengths(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	var scratch []node
	for round := range 500 {
		freq := make([]uint32, 2+r.IntN(285))
		for i := range freq {
			if r.IntN(3) > 0 {
				freq[i] = 1 + uint32(r.IntN(1<<(1+r.IntN(1+round%20))))
			}
		}
		freq[0], freq[1] = 1, 1
		limit := 15
		if len(freq) < 20 && round%2 == 0 {
			limit = 7
		}
		lengths := make([]uint8, len(freq))
		codeLengths(lengths, freq, limit, &scratch)
		sum, spent, longest := 0, uint64(0), uint8(0)
		for i, l := range lengths {
			if (l == 0) != (freq[i] == 0) || int(l) > limit {
				t.Fatalf("symbol %d of frequency %d has %d bits", i, freq[i], l)
			}
			if l > 0 {
				sum += 1 << (limit - int(l))
			}
			spent += uint64(l) * uint64(freq[i])
			longest = max(longest, l)
			for k, m := range lengths {
				if freq[k] > freq[i] && m > l && l > 0 {
					t.Fatalf("frequency %d has %d bits, %d has %d", freq[k], m, freq[i], l)
				}
			}
		}
		if sum != 1<<limit {
			t.Fatalf("the code is not complete: %d of %d", sum, 1<<limit)
		}
		if tree := huffmanCost(freq); spent < tree || spent > tree && int(longest) < limit {
			t.Fatalf("costs %d, the tree %d", spent, tree)
		}
	}
}

// huffmanCost is the cost of Huffman's tree: the sum of all its pairs.
func huffmanCost(freq []uint32) (sum uint64) {
	var heap []uint64
	for _, f := range freq {
		if f > 0 {
			heap = append(heap, uint64(f))
		}
	}
	for len(heap) > 1 {
		slices.Sort(heap)
		both := heap[0] + heap[1]
		sum += both
		heap = append(heap[2:], both)
	}
	return sum
}

func TestFewSymbols(t *testing.T) {
	var scratch []node
	for _, c := range []struct {
		freq []uint32
		want []uint8
	}{
		{[]uint32{0, 0, 0}, []uint8{0, 0, 0}},
		{[]uint32{0, 9, 0}, []uint8{0, 1, 0}},
		{[]uint32{5, 0, 5}, []uint8{1, 0, 1}},
	} {
		got := make([]uint8, len(c.freq))
		codeLengths(got, c.freq, 15, &scratch)
		if !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.freq, got, c.want)
		}
	}
}

func TestLog2(t *testing.T) {
	for n, want := range map[uint32]uint32{0: 0, 1: 16, 2: 32, 3: 16 + 16 + 9, 4: 48, 1 << 31: 32 * 16} {
		if got := log2(n); got != want {
			t.Errorf("log2(%d) = %d, want %d", n, got, want)
		}
	}
	for n := uint32(1); n < 1<<16; n++ {
		if log2(n+1) < log2(n) {
			t.Fatalf("log2 falls at %d", n)
		}
	}
}
