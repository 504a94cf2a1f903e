package correct

import "slices"

// order says from which place of a ring of n the reading comes that belongs at
// place i.
type order func(i, n int) int

func asIs(i, _ int) int { return i }

// mirrored: the positions were counted the other way from the same first one.
func mirrored(i, n int) int { return (n - i) % n }

// turned: the first position was by so many off.
func turned(by int) order {
	return func(i, n int) int { return (i + by + n) % n }
}

// slipOrders are all orders that a slip is looked for in.
var slipOrders = []order{asIs, mirrored, turned(1), turned(-1)}

// ringRead is one round on its ring: all readings, and those places of the ring
// that are weighed.
type ringRead struct {
	ring []int
	read map[int]Reading
	keep []int // places
}

// rings are the four rounds of a problem.
type rings struct{ found, left, foundGaps, leftGaps ringRead }

// as is what was read at the weighed places if the round was written down in
// another order.
func (r ringRead) as(o order) []Reading {
	out := make([]Reading, len(r.keep))
	for k, i := range r.keep {
		out[k] = r.read[r.ring[i]]
		out[k].Value = r.read[r.ring[o(i, len(r.ring))]].Value
	}
	return out
}

// weighed is the problem on the places at which every order has a reading.
func (p *LoopProblem) weighed() (*LoopProblem, rings) {
	out := *p
	var r rings
	r.found, r.left = onRing(p.Ring, p.Found), onRing(p.Ring, p.Left)
	r.foundGaps, r.leftGaps = onRing(p.RingGaps, p.FoundGaps), onRing(p.RingGaps, p.LeftGaps)
	out.Found, out.Left = r.found.as(asIs), r.left.as(asIs)
	out.FoundGaps, out.LeftGaps = r.foundGaps.as(asIs), r.leftGaps.as(asIs)
	return &out, r
}

func onRing(ring []int, in []Reading) ringRead {
	out := ringRead{ring: ring, read: make(map[int]Reading, len(in))}
	for _, r := range in {
		out.read[r.Position] = r
		if len(ring) == 0 {
			out.ring = append(out.ring, r.Position)
		}
	}
	n := len(out.ring)
	for i := range n {
		gap := slices.ContainsFunc(slipOrders, func(o order) bool {
			_, read := out.read[out.ring[o(i, n)]]
			return !read
		})
		if !gap {
			out.keep = append(out.keep, i)
		}
	}
	return out
}
