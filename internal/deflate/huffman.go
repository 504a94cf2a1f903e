package deflate

import (
	"math/bits"
	"slices"
)

// codeLengths gives every symbol that occurs a code of at most limit bits, as
// Huffman's method does, and returns 0 for the others. Codes that come out longer are
// shortened at the least cost of the simple kind: the Kraft sum is put right from
// the rarest symbols up. A single symbol gets one bit.
func codeLengths(out []uint8, freq []uint32, limit int, scratch *[]node) {
	clear(out)
	leaves := (*scratch)[:0]
	for s, f := range freq {
		if f > 0 {
			leaves = append(leaves, node{weight: uint64(f)<<16 | uint64(s)})
		}
	}
	*scratch = leaves
	if len(leaves) < 2 {
		for _, l := range leaves {
			out[uint16(l.weight)] = 1
		}
		return
	}
	slices.SortFunc(leaves, func(a, b node) int {
		if a.weight < b.weight {
			return -1
		}
		return 1
	})
	count := depths(leaves, scratch, limit)
	settle(&count, limit)
	i := 0
	for l := limit; l > 0; l-- {
		for range count[l] {
			out[uint16((*scratch)[i].weight)] = uint8(l)
			i++
		}
	}
}

// node is a leaf or a pair of the tree: its weight above its symbol, and the pair
// that holds it.
type node struct {
	weight uint64
	parent int32
}

// depths builds the tree over the sorted leaves, which stay first in nodes, and
// counts the leaves by depth; those beyond the limit count as being at it.
func depths(leaves []node, scratch *[]node, limit int) (count [16]int) {
	n := len(leaves)
	nodes := leaves
	leaf, pair := 0, n
	least := func() int {
		if leaf < n && (pair >= len(nodes) || nodes[leaf].weight>>16 <= nodes[pair].weight>>16) {
			leaf++
			return leaf - 1
		}
		pair++
		return pair - 1
	}
	for range n - 1 {
		a, b := least(), least()
		at := int32(len(nodes))
		nodes[a].parent, nodes[b].parent = at, at
		nodes = append(nodes, node{weight: (nodes[a].weight>>16 + nodes[b].weight>>16) << 16})
	}
	*scratch = nodes
	// From the root down, parent takes the depth.
	nodes[len(nodes)-1].parent = 0
	for i := len(nodes) - 2; i >= 0; i-- {
		nodes[i].parent = nodes[nodes[i].parent].parent + 1
	}
	for i := range n {
		count[min(int(nodes[i].parent), limit)]++
	}
	return count
}

// settle makes the counts those of a complete code.
func settle(count *[16]int, limit int) {
	sum := 0
	for l := 1; l <= limit; l++ {
		sum += count[l] << (limit - l)
	}
	for sum > 1<<limit {
		// Two of the longest become brothers, one step down from a shorter one.
		l := limit - 1
		for count[l] == 0 {
			l--
		}
		count[limit]--
		count[l]--
		count[l+1] += 2
		sum--
	}
}

// codes are the bits of a canonical code (RFC 1951, 3.2.2), reversed as they are
// written from the lowest bit on.
func codes(out []uint16, lengths []uint8) {
	var count, next [17]uint16
	for _, l := range lengths {
		count[l]++
	}
	count[0] = 0
	for l := 1; l < len(next); l++ {
		next[l] = (next[l-1] + count[l-1]) << 1
	}
	for s, l := range lengths {
		if l > 0 {
			out[s] = bits.Reverse16(next[l] << (16 - l))
			next[l]++
		}
	}
}
