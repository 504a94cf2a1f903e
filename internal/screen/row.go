package screen

import (
	"math"
	"slices"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// reading is one typed value in whole base units.
type reading struct {
	n   int64
	set bool
	at  field.Ref
}

// row is one round of one block of a cell.
type row struct {
	cell   int
	round  string
	block  string
	head   field.Head
	values []reading // by index
	again  reading   // of the first
	stands bool      // is judged: its instrument's dates are, too
	angles []float64 // of the indices, radians
	places bool      // round the cylinder; else blade by blade, or the clock positions
	at     field.Ref
}

// Blocks whose rows are long enough to be held against each other, and those
// whose readings nobody sets to a target: a gap set with a spacer is the same
// however often it is read.
var (
	compared = []string{"tilt", "track", "tipradius", "clearance", "pitch"}
	free     = append([]string{"couplinggear", "couplingmotor", "cylinderround"}, compared...)
)

// tower is the record, turned into rows.
type tower struct {
	r           *field.Record
	rows        []*row
	instruments map[string]*field.Instrument
}

func newTower(r *field.Record) *tower {
	t := &tower{r: r, instruments: map[string]*field.Instrument{}}
	for i := range r.Instruments {
		if in := &r.Instruments[i]; in.ID.Value != "" && t.instruments[in.ID.Value] == nil {
			t.instruments[in.ID.Value] = in
		}
	}
	for i := range r.Cells {
		t.cellRows(&r.Cells[i])
	}
	return t
}

func (t *tower) cellRows(c *field.Cell) {
	clear := make([]field.Series[field.Length], 0, len(c.Clearance.Rounds))
	for _, x := range c.Clearance.Rounds {
		clear = append(clear, x.Series)
	}
	d := &c.Drive
	lengths := []struct {
		block  string
		rounds []field.Series[field.Length]
	}{
		{"tilt", c.Tilt.Rounds}, {"track", c.Track.Rounds}, {"tipradius", c.TipRadius.Rounds}, {"clearance", clear},
		{"couplinggear", d.CouplingGear.Rounds}, {"couplingmotor", d.CouplingMotor.Rounds}, {"shaftends", d.ShaftEnds.Rounds},
		{"cylinderround", d.CylinderRound.Rounds}, {"softfootgear", d.SoftFootGear.Rounds}, {"softfootmotor", d.SoftFootMotor.Rounds},
		{"guardend", d.GuardEnd.Rounds}, {"guardaround", d.GuardAround.Rounds},
	}
	for _, b := range lengths {
		add(t, c.Number, b.block, b.rounds, func(v field.Length) reading { return reading{int64(v.Value), v.Set, v.At} })
	}
	add(t, c.Number, "pitch", c.Pitch.Rounds, func(v field.Angle) reading { return reading{int64(v.Value), v.Set, v.At} })
	slopes := []struct {
		block  string
		rounds []field.Series[field.Slope]
	}{{"gearlevel", d.GearLevel.Rounds}, {"motorlevel", d.MotorLevel.Rounds}, {"cylinderplumb", d.CylinderPlumb.Rounds}}
	for _, b := range slopes {
		add(t, c.Number, b.block, b.rounds, func(v field.Slope) reading { return reading{0, v.Set, v.At} }) // only its dates are looked at
	}
}

// add takes the rounds of a block in which anything was read.
func add[V any](t *tower, cell int, block string, rounds []field.Series[V], get func(V) reading) {
	stands := -1
	for i := range rounds {
		read := slices.ContainsFunc(rounds[i].Readings, func(x field.Reading[V]) bool { return get(x.Value).set })
		switch {
		case !read:
		case rounds[i].Round == field.AsLeft, rounds[i].Round == field.AsFound && rounds[i].Accepted.Value && stands < 0:
			stands = i
		}
	}
	for i := range rounds {
		s := &rounds[i]
		x := &row{cell: cell, round: s.Round, block: block, head: s.Head, again: get(s.Return), stands: i == stands,
			places: block == "tilt" || block == "clearance", at: s.At}
		for _, v := range s.Readings {
			x.values = append(x.values, get(v.Value))
			x.angles = append(x.angles, t.angle(x.places, v.Index, len(s.Readings)))
		}
		if slices.ContainsFunc(x.values, func(v reading) bool { return v.set }) {
			t.rows = append(t.rows, x)
		}
	}
}

// angle is where the reading was taken; blades are evenly spaced.
func (t *tower) angle(place bool, index, n int) float64 {
	if place {
		for _, p := range t.r.Tower.Positions {
			if p.Number == index {
				return p.Degrees.Radians()
			}
		}
	}
	return 2 * math.Pi * float64(index-1) / float64(max(n, 1))
}

// of returns the rows of one block.
func (t *tower) of(block string) []*row {
	var out []*row
	for _, x := range t.rows {
		if x.block == block {
			out = append(out, x)
		}
	}
	return out
}

// step is the finest mark of the instrument that a row was read with, in base
// units; 0 where that is not known.
func (t *tower) step(x *row) int64 {
	in := t.instruments[x.head.Instrument.Value]
	switch {
	case in == nil:
		return 0
	case x.block == "pitch":
		return int64(in.AngleResolution.Value)
	}
	return int64(in.Resolution.Value)
}

// habit is how many of the finest marks lie between those that people prefer: 2
// on a rule that is halved and halved again, 5 on a decimal scale, 2 on one that
// counts in fives.
func habit(block string, step int64) int64 {
	if step <= 0 {
		return 1
	}
	inch := int64(measure.Inch)
	if n := inch / step; block != "pitch" && n*step == inch && n > 1 && n&(n-1) == 0 {
		return 2
	}
	digits := step // in whole millionths of the unit that it is a decimal of
	switch {
	case block == "pitch" && step*1_000_000%int64(measure.Degree) == 0:
		digits = step * 1_000_000 / int64(measure.Degree)
	case block != "pitch" && step*1_000_000%inch == 0:
		digits = step * 1_000_000 / inch
	}
	for digits%10 == 0 {
		digits /= 10
	}
	if digits == 5 {
		return 2
	}
	return 5
}

// multiple tells whether a reading stands on a mark of that spacing.
func (v reading) multiple(of int64) bool { return of > 0 && v.n%of == 0 }
