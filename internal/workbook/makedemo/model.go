package main

import (
	"math"
	"math/rand/v2"
)

// A fan as the readings see it. Lengths are in the plant's unit, angles in
// degrees clockwise from the motor.
type fan struct {
	gap     float64   // between cylinder and a blade of no extra length, fan centered
	extra   []float64 // of each blade's length
	rise    []float64 // of each blade's tip over the mean plane
	pitch   []float64 // of each blade
	oval    float64   // half the difference of the cylinder's two diameters, two lobes
	ovalAt  float64   // where it is widest
	mark    []float64 // leveled height of each position's mark
	toBlade float64   // from a mark at height 0 down to the blade, fan level
}

// pose is how the fan sits at the time of a round.
type pose struct {
	off, offAt   float64 // of the fan center from the cylinder's, and which way
	tilt, lowest float64 // highest minus lowest of the blade's path, and where it is lowest
}

// reader is a person with a tape: noise, and the mark he reads to.
type reader struct {
	rand  *rand.Rand
	noise float64 // one standard deviation
	step  float64 // of the scale
}

func newReader(seed uint64, noise, step float64) *reader {
	return &reader{rand.New(rand.NewPCG(seed, 7)), noise, step}
}

// read is a true length as it is read.
func (r *reader) read(x float64) float64 {
	return math.Round((x+r.noise*r.rand.NormFloat64())/r.step) * r.step
}

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// clearance is the gap of a blade (from 0) at an angle.
func (f fan) clearance(p pose, blade int, deg float64) float64 {
	wall := f.oval * math.Cos(2*rad(deg-f.ovalAt))
	return f.gap + wall - f.extra[blade] - p.off*math.Cos(rad(deg-p.offAt))
}

// down is the distance from a position's mark down to the blade.
func (f fan) down(p pose, position int, deg float64) float64 {
	return f.toBlade + f.mark[position] + p.tilt/2*math.Cos(rad(deg-p.lowest))
}

// longest is the blade with the smallest of the gaps.
func longest(gaps []float64) int {
	best := 0
	for i, g := range gaps {
		if g < gaps[best] {
			best = i
		}
	}
	return best
}
