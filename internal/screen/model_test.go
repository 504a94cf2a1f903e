package screen_test

import (
	"fmt"
	"math"
	"math/rand/v2"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// world is a tower and the people who read it. Sizes are in steps of the scale
// that they are read with, so that one world stands for inches and millimeters.
type world struct {
	cells, blades, positions, readers int
	again                             float64 // share of cells with an as left
	gap, rough, level, gauge          int64   // steps: of a rule, a tape, a digital level (angle), a feeler gauge
	noise                             float64 // error of reading, one standard deviation
	heap                              float64 // share of readings that a person rounds off
	to                                int     // and to which of the marks that a scale has for it
	mean                              float64 // differences of cells' mean gaps
	off, tilt                         float64 // greatest off center and tilt
	mold                              float64 // shape that all cells have in common
	shape                             float64 // shape of a cell's own
	blade                             float64 // differences of blades
	cycle                             float64 // of a hub that is not square
	pitch                             float64 // differences of blades' angles
	odd                               float64 // share of cells that are three times as rough
}

// pick draws between two numbers so that every factor is as likely.
func pick(r *rand.Rand, least, most float64) float64 {
	return least * math.Pow(most/least, r.Float64())
}

func oneOf[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

// anyWorld draws a tower out of all that are honest: cells alike to a hair or
// each of its own, fine or coarse scales, people of every habit. The error of
// reading is no less than a tenth of a step.
func anyWorld(r *rand.Rand) world {
	w := world{
		cells: 2 + r.IntN(11), blades: oneOf(r, 4, 6, 7, 8, 10, 12), positions: oneOf(r, 8, 8, 12, 12, 16), readers: 1 + r.IntN(3),
		again: oneOf(r, 0, 0.3, 0.7, 1),
		gap:   oneOf(r, inch/64, inch/32, inch/16, mm/10, mm/2, mm), rough: oneOf(r, inch/32, inch/16, inch/8, mm, 5*mm),
		level: oneOf(r, degree/10, degree/2, degree/20), gauge: oneOf(r, inch/1000, inch/2000, mm/100, mm/20),
		noise: pick(r, 0.1, 1), heap: oneOf(r, 0, 0.1, 0.3, 0.6, 0.9), to: r.IntN(3),
		mean: pick(r, 0.05, 6), off: pick(r, 0.1, 12), tilt: pick(r, 0.1, 16),
		mold: pick(r, 0.05, 8), shape: pick(r, 0.05, 4), blade: pick(r, 0.05, 6), cycle: pick(r, 0.05, 6), pitch: pick(r, 0.1, 3),
		odd: oneOf(r, 0, 0.2, 0.5),
	}
	if r.IntN(3) == 0 { // new, alike by design, and set with care
		w.mean, w.off, w.tilt, w.shape, w.blade, w.pitch = w.mean/8, w.off/4, w.tilt/4, w.shape/4, w.blade/4, w.pitch/3
	}
	return w
}

const (
	inch   = int64(measure.Inch)
	mm     = int64(measure.Millimeter)
	degree = int64(measure.Degree)
)

// hand reads values with a scale.
type hand struct {
	*rand.Rand
	w world
}

// read is a true value, in steps of the scale, as it is written down.
func (h hand) read(x float64, step int64) int64 {
	x += h.w.noise * h.NormFloat64()
	if h.Float64() < h.w.heap {
		to := preferred(step)[h.w.to]
		return int64(math.Round(x/float64(to))) * to * step
	}
	return int64(math.Round(x)) * step
}

// preferred are the marks that people round off to, in steps of the scale:
// halves of halves on a rule, twos, fives and tens on a decimal scale.
func preferred(step int64) []int64 {
	switch {
	case inch%step == 0 && inch/step <= 64:
		return []int64{2, 4, 8}
	case step == mm/2, step == 5*mm, step == degree/2, step == degree/20, step == inch/2000, step == mm/20:
		return []int64{2, 4, 20}
	}
	return []int64{2, 5, 10}
}

// blockRows is what a block's places are truly like, in steps.
type blockRows struct {
	truth []float64
	step  int64
}

// tower makes an honest record.
func (w world) tower(r *rand.Rand) *field.Record {
	h := hand{r, w}
	rec := &field.Record{}
	rec.Project.IssueDate = dayOf(400)
	for i := range w.positions {
		rec.Tower.Positions = append(rec.Tower.Positions, field.Position{Number: i + 1,
			Degrees: measure.Angle(360 * degree * int64(i) / int64(w.positions))})
	}
	for _, in := range []struct {
		id   string
		step int64
	}{{"R", w.gap}, {"T", w.rough}, {"F", w.gauge}} {
		rec.Instruments = append(rec.Instruments, field.Instrument{ID: typed(in.id), Calibrated: dayOf(1), Due: dayOf(360),
			Resolution: field.Length{Entry: field.Entry[measure.Length]{Value: measure.Length(in.step), Set: true}}})
	}
	rec.Instruments = append(rec.Instruments, field.Instrument{ID: typed("L"), Calibrated: dayOf(1), Due: dayOf(360),
		AngleResolution: field.Angle{Value: measure.Angle(w.level), Set: true}})
	mold := noise(r, w.positions, w.mold)
	deck := noise(r, w.positions, w.mold)
	center := 16 * float64(1+r.IntN(4)) * oneOf(r, 1, 1.03)
	for n := 1; n <= w.cells; n++ {
		rec.Cells = append(rec.Cells, w.cell(h, n, center, mold, deck))
	}
	return rec
}

func noise(r *rand.Rand, n int, size float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = size * r.NormFloat64()
	}
	return out
}

func wave(r *rand.Rand, n int, size float64) []float64 {
	amplitude, phase := size*r.Float64(), 2*math.Pi*r.Float64()
	out := make([]float64, n)
	for i := range out {
		out[i] = amplitude * math.Cos(2*math.Pi*float64(i)/float64(n)-phase)
	}
	return out
}

func sum(all ...[]float64) []float64 {
	out := make([]float64, len(all[0]))
	for _, a := range all {
		for i := range a {
			out[i] += a[i]
		}
	}
	return out
}

func even(n int, x float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = x
	}
	return out
}

// cell reads one cell once, or again after its tilt and center were changed and
// nothing else.
func (w world) cell(h hand, n int, center float64, mold, deck []float64) field.Cell {
	r, size := h.Rand, 1.0
	if r.Float64() < w.odd {
		size = 3
	}
	mean := center + w.mean*r.NormFloat64()
	shape, own := noise(r, w.positions, size*w.shape), noise(r, w.positions, size*w.shape)
	tips, rise := noise(r, w.blades, size*w.blade), noise(r, w.blades, size*w.blade)
	angles := sum(even(w.blades, 125), noise(r, w.blades, w.pitch))
	drop := 224 + 3*r.NormFloat64()
	rise = sum(even(w.blades, drop), rise, wave(r, w.blades, w.cycle))
	face := noise(r, 4, 3)
	reader := typed(fmt.Sprintf("Reader %d", 1+r.IntN(w.readers)))
	c := field.Cell{Number: n}
	for k, round := range []string{field.AsFound, field.AsLeft} {
		if k == 1 && r.Float64() >= w.again {
			break
		}
		head := field.Head{Date: dayOf(3*n + k + 10), Start: at(480), Finish: at(500), ReadBy: reader}
		blocks := map[string]blockRows{
			"tilt":      {sum(even(w.positions, drop), deck, own, wave(r, w.positions, w.tilt)), w.rough},
			"clearance": {sum(even(w.positions, mean), mold, shape, wave(r, w.positions, w.off)), w.gap},
			"tipradius": {sum(even(w.blades, mean), tips), w.gap},
			"track":     {rise, w.rough}, "pitch": {angles, w.level},
			"gear": {sum(even(4, 250), face, wave(r, 4, 3)), w.gauge},
		}
		c.Tilt.Rounds = append(c.Tilt.Rounds, h.lengths(round, head, "T", blocks["tilt"]))
		c.Track.Rounds = append(c.Track.Rounds, h.lengths(round, head, "T", blocks["track"]))
		c.TipRadius.Rounds = append(c.TipRadius.Rounds, h.lengths(round, head, "R", blocks["tipradius"]))
		c.Clearance.Rounds = append(c.Clearance.Rounds, field.ClearanceRound{Series: h.lengths(round, head, "R", blocks["clearance"])})
		c.Drive.CouplingGear.Rounds = append(c.Drive.CouplingGear.Rounds, h.lengths(round, head, "F", blocks["gear"]))
		c.Pitch.Rounds = append(c.Pitch.Rounds, h.angles(round, head, "L", blocks["pitch"]))
	}
	return c
}

func (h hand) lengths(round string, head field.Head, instrument string, b blockRows) field.Series[field.Length] {
	head.Instrument = typed(instrument)
	s := field.Series[field.Length]{Round: round, Head: head}
	one := func(i int) field.Length {
		v := measure.Length(h.read(b.truth[i], b.step))
		return field.Length{Entry: field.Entry[measure.Length]{Value: v, Set: true}}
	}
	for i := range b.truth {
		s.Readings = append(s.Readings, field.Reading[field.Length]{Index: i + 1, Value: one(i)})
	}
	s.Return = one(0)
	return s
}

func (h hand) angles(round string, head field.Head, instrument string, b blockRows) field.Series[field.Angle] {
	head.Instrument = typed(instrument)
	s := field.Series[field.Angle]{Round: round, Head: head}
	one := func(i int) field.Angle {
		return field.Angle{Value: measure.Angle(h.read(b.truth[i], b.step)), Set: true}
	}
	for i := range b.truth {
		s.Readings = append(s.Readings, field.Reading[field.Angle]{Index: i + 1, Value: one(i)})
	}
	s.Return = one(0)
	return s
}

func typed(s string) field.Text { return field.Text{Value: s, Set: true, Text: s} }

func at(minute int) field.Clock { return field.Clock{Value: field.Minute(minute), Set: true} }

// dayOf is the nth day, in months of 28.
func dayOf(n int) field.Date {
	return field.Date{Value: field.Day{Year: 2026 + n/336, Month: n/28%12 + 1, Day: n%28 + 1}, Set: true}
}
