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
	for i, k := range v.active {
		switch {
		case v.lambda[i] <= zeroLambda:
			out.flat = true
		case k >= len(rows):
			out.onBox = true
		default:
			out.active = append(out.active, sides[k].position)
			out.sign = append(out.sign, sides[k].sign)
			out.lambda = append(out.lambda, v.lambda[i])
		}
	}
	normalize(out.lambda)
	if out.flat && !out.onBox {
		if v.x, err = nearest(rows, v.h, dim, limits); err != nil {
			return step{}, err
		}
	}
	out.move = [2]float64{float64(v.x[0] * scale), float64(v.x[1] * scale)}
	return out, nil
}

// normalize makes the multipliers that count sum to exactly about 1.
func normalize(lambda []float64) {
	sum := 0.0
	for _, l := range lambda {
		sum += l
	}
	for i := range lambda {
		lambda[i] /= sum
	}
}

// nearestDirections is the number of directions in which a move is measured
// when the shortest of equally good ones is sought: within 1 − cos(180°/32),
// half a percent, of the true length.
const nearestDirections = 32

// nearestSlack is what the objective may lose, on the scale of 1, so that the
// set of equally good answers has an inside.
const nearestSlack = 1e-11

// nearest finds, among the x that reach the objective h, the one with the
// shortest move, so that an answer that is free in some direction does not
// wander there.
func nearest(rows []row, h float64, dim int, box [maxUnknowns]float64) ([maxUnknowns]float64, error) {
	var all []row
	for k := range nearestDirections {
		sin, cos := sincos(2 * math.Pi * float64(k) / nearestDirections)
		all = append(all, row{q: [maxUnknowns]float64{cos, sin}, w: 1})
	}
	for _, r := range rows {
		all = append(all, row{q: r.q, p: r.p - h - nearestSlack})
	}
	v, err := minimize(all, dim, box)
	return v.x, err
}
