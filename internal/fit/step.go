package fit

import "math"

// A step is the answer of one linearized problem, in input units.
type step struct {
	move   [2]float64
	h      float64 // the linear model's objective after the move
	onBox  bool    // a side of the box holds the answer
	flat   bool    // fewer rows hold it than would fix it
	active []int
	sign   []float64
	lambda []float64
}

// A side is a row's position and whether it bounds the distance from above
// (+1) or below (−1).
type side struct {
	position int
	sign     float64
}

// linearize writes the problem about m as rows scaled to values about 1:
//
//	sign·(d_i + gradient·x − nominal − x_mean) ≤ h
//
// base is added to h·scale to get the objective back (maximin only).
func (p points) linearize(m [2]float64, g goal, scale float64) (rows []row, sides []side, base float64) {
	low, high := p.extremes(m)
	middle := g.nominal
	switch {
	case g.freeMean:
		middle = low + (high-low)/2
	case g.lowOnly:
		middle = low
		base = -low
	}
	for _, sign := range []float64{1, -1} {
		if g.lowOnly && sign > 0 {
			continue
		}
		for i := range p.c {
			d, gradient := p.distance(i, m)
			r := row{w: 1, p: sign * (d - middle) / scale}
			r.q[0], r.q[1] = sign*gradient[0], sign*gradient[1]
			if g.freeMean {
				r.q[2] = -sign
			}
			rows = append(rows, r)
			sides = append(sides, side{i, sign})
		}
	}
	return rows, sides, base
}

// step solves the problem linearized about m, with moves up to box.
func (p points) step(m [2]float64, g goal, box, scale float64) (step, error) {
	rows, sides, base := p.linearize(m, g, scale)
	dim := 2
	if g.freeMean {
		dim = 3
	}
	edge := box / scale
	limits := [maxUnknowns]float64{edge, edge, 4 * (1 + edge)} // a mean follows the move
	v, err := minimize(rows, dim, limits)
	if err != nil {
		return step{}, err
	}
	out := step{h: base + float64(v.h*scale)}
	held := -1 // a row that holds
	for i, k := range v.active {
		switch {
		case v.lambda[i] <= zeroLambda:
			out.flat = true
		case k >= len(rows):
			out.onBox = true
		default:
			held = k
			out.active = append(out.active, sides[k].position)
			out.sign = append(out.sign, sides[k].sign)
			out.lambda = append(out.lambda, v.lambda[i])
		}
	}
	normalize(out.lambda)
	x := [2]float64{v.x[0], v.x[1]}
	if out.flat && !out.onBox && dim == 2 {
		x = nearest(rows, v, held, [2]float64{m[0] / scale, m[1] / scale})
	}
	out.move = [2]float64{float64(x[0] * scale), float64(x[1] * scale)}
	return out, nil
}

// normalize makes the multipliers that hold sum to 1.
func normalize(lambda []float64) {
	sum := 0.0
	for _, l := range lambda {
		sum += l
	}
	for i := range lambda {
		lambda[i] /= sum
	}
}

// lineSlack is what the other rows may lose on the line that nearest searches,
// on the scale of 1: rounding only.
const lineSlack = 1e-13

// nearest returns, among the moves that reach the objective of v, the one with
// the shortest total |m + x|, so that an answer that is free in some direction
// does not wander there. With two unknowns and unit gradients, fewer than three
// rows that hold are two opposite ones: the good moves are a piece of a line
// across them. The foot of the old center on that line is clipped to the piece.
func nearest(rows []row, v vertex, held int, m [2]float64) [2]float64 {
	q := rows[held].q
	along := [2]float64{-q[1], q[0]}
	across := v.h - rows[held].p
	x0 := [2]float64{float64(q[0] * across), float64(q[1] * across)}
	at := func(d [2]float64, x [2]float64) float64 { return float64(d[0]*x[0]) + float64(d[1]*x[1]) }
	low, high := math.Inf(-1), math.Inf(1)
	for _, r := range rows {
		d := [2]float64{r.q[0], r.q[1]}
		slope := at(d, along)
		room := v.h + lineSlack - r.p - at(d, x0)
		switch {
		case slope > lineSlack:
			high = math.Min(high, room/slope)
		case slope < -lineSlack:
			low = math.Max(low, room/slope)
		}
	}
	t := -at(along, [2]float64{m[0] + x0[0], m[1] + x0[1]})
	t = math.Max(math.Min(t, high), low)
	return [2]float64{x0[0] + float64(t*along[0]), x0[1] + float64(t*along[1])}
}
