package screen_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/screen"
)

// usual is a tower as a good crew reads it: gaps to 1/32 in, heights to 1/16 in,
// blades within a few steps of each other, cells of one make.
func usual(cells int, again float64) world {
	return world{
		cells: cells, blades: 8, positions: 12, readers: 1, again: again,
		gap: inch / 32, rough: inch / 16, level: degree / 10, gauge: inch / 1000,
		noise: 0.25, heap: 0.2, to: 0,
		mean: 1, off: 5, tilt: 8, mold: 1, shape: 1.5, blade: 1.5, cycle: 1, pitch: 1.2,
	}
}

// found is in how many of n planted towers a question of the code names the
// cells.
func found(n int, w world, plant func(*rand.Rand, *field.Record), codes []string, cells ...int) int {
	k := 0
	for i := range n {
		r := rand.New(rand.NewPCG(2, uint64(i)))
		rec := w.tower(r)
		plant(r, rec)
		if slices.ContainsFunc(screen.Questions(rec), func(q screen.Question) bool {
			return slices.Contains(codes, q.Code) && !slices.ContainsFunc(cells, func(c int) bool { return !slices.Contains(q.Cells, c) })
		}) {
			k++
		}
	}
	return k
}

// copyCell gives one cell the first round of another, changing some readings by
// a step.
func copyCell(from, to int, blocks []string, edits float64) func(*rand.Rand, *field.Record) {
	return func(r *rand.Rand, rec *field.Record) {
		a, b := &rec.Cells[from-1], &rec.Cells[to-1]
		for _, k := range blocks {
			if k == "pitch" {
				for i, v := range a.Pitch.Rounds[0].Readings {
					if r.Float64() < edits {
						v.Value.Value += measure.Angle(degree / 10)
					}
					b.Pitch.Rounds[0].Readings[i].Value = v.Value
				}
				continue
			}
			x, y := series(a, k, 0), series(b, k, 0)
			for i, v := range x.Readings {
				if r.Float64() < edits {
					v.Value.Value += measure.Length(inch / 16)
				}
				y.Readings[i].Value = v.Value
			}
		}
	}
}

func series(c *field.Cell, block string, round int) *field.Series[field.Length] {
	switch block {
	case "tilt":
		return &c.Tilt.Rounds[round]
	case "track":
		return &c.Track.Rounds[round]
	case "tipradius":
		return &c.TipRadius.Rounds[round]
	case "gear":
		return &c.Drive.CouplingGear.Rounds[round]
	}
	return &c.Clearance.Rounds[round].Series
}

var fan = []string{"tilt", "track", "tipradius", "clearance", "pitch"}

// plant is something made up, and the least share of towers in which it is found,
// as the documentation claims.
type plant struct {
	name  string
	cells int     // of the tower
	again float64 // share of them with an as left
	do    func(*rand.Rand, *field.Record)
	codes []string
	named []int // cells that the question must name
	power float64
}

var alike = []string{screen.SameRow, screen.SameSheet}

func plants() []plant {
	return []plant{
		{"cell copied", 6, 0.5, copyCell(1, 2, fan, 0), alike, []int{1, 2}, 0.95},
		{"cell copied, 1 reading in 10 changed", 6, 0.5, copyCell(1, 2, fan, 0.1), alike, []int{1, 2}, 0.9},
		{"cell copied, 1 reading in 5 changed", 6, 0.5, copyCell(1, 2, fan, 0.2), alike, []int{1, 2}, 0.8},
		{"cell copied, two cells in all", 2, 0.5, copyCell(1, 2, fan, 0), alike, []int{1, 2}, 0.6},
		{"tilt copied", 6, 0.5, copyCell(1, 2, []string{"tilt"}, 0), alike, []int{1, 2}, 0.5},
		{"clearance copied", 6, 0.5, copyCell(1, 2, []string{"clearance"}, 0), alike, []int{1, 2}, 0.5},
		{"one cell copied to all", 6, 0, copyToAll, alike, []int{1, 6}, 0.4},
		{"as found copied to as left", 6, 1, copyRound, []string{screen.SameRound}, []int{2}, 0.5},
		{"as found copied to as left", 12, 1, copyRound, []string{screen.SameRound}, []int{2}, 0.8},
		{"first readings not read again", 12, 1, copyReturns, []string{screen.NoScatter}, nil, 0.9},
		{"a cell on every second mark", 6, 1, marks(true), []string{screen.RoundMarks}, []int{2}, 0.9},
		{"a cell on no second mark", 6, 1, marks(false), []string{screen.RoundMarks}, []int{2}, 0.9},
	}
}

func TestPlantedReadingsAreFound(t *testing.T) {
	n := 100
	for _, p := range plants() {
		k := found(n, usual(p.cells, p.again), p.do, p.codes, p.named...)
		t.Logf("%s, %d cells: %d of %d", p.name, p.cells, k, n)
		if powerBound(k, n) < p.power {
			t.Errorf("%s, %d cells: found in %d of %d, which does not prove %g", p.name, p.cells, k, n, p.power)
		}
	}
}

// Where nothing is planted, nothing is found.
func TestNothingPlantedNothingFound(t *testing.T) {
	none := func(*rand.Rand, *field.Record) {}
	for _, p := range plants() {
		if k := found(20, usual(p.cells, p.again), none, p.codes, p.named...); k > 0 {
			t.Errorf("%s, %d cells: found in %d towers that are honest", p.name, p.cells, k)
		}
	}
}

func copyToAll(r *rand.Rand, rec *field.Record) {
	for n := 2; n <= len(rec.Cells); n++ {
		copyCell(1, n, fan, 0)(r, rec)
	}
}

// copyReturns copies first readings to the end of each round.
func copyReturns(_ *rand.Rand, rec *field.Record) {
	for i := range rec.Cells {
		c := &rec.Cells[i]
		for k := range c.Tilt.Rounds {
			for _, b := range append([]string{"gear"}, fan[:4]...) {
				s := series(c, b, k)
				s.Return = s.Readings[0].Value
			}
			c.Pitch.Rounds[k].Return = c.Pitch.Rounds[k].Readings[0].Value
		}
	}
}

func copyRound(_ *rand.Rand, rec *field.Record) {
	c := &rec.Cells[1]
	for _, b := range append([]string{"gear"}, fan[:4]...) {
		x, y := series(c, b, 0), series(c, b, 1)
		for i, v := range x.Readings {
			y.Readings[i].Value = v.Value
		}
	}
	for i, v := range c.Pitch.Rounds[0].Readings {
		c.Pitch.Rounds[1].Readings[i].Value = v.Value
	}
}

// marks invents a cell out of marks that look good, or that look exact.
func marks(rough bool) func(*rand.Rand, *field.Record) {
	return func(r *rand.Rand, rec *field.Record) {
		c := &rec.Cells[1]
		for k := range c.Tilt.Rounds {
			for _, b := range fan[:4] {
				s := series(c, b, k)
				step := inch / 32
				if b == "tilt" || b == "track" {
					step = inch / 16
				}
				for i := range s.Readings {
					v := &s.Readings[i].Value.Value
					n := int64(*v) / step
					if rough && n%2 != 0 || !rough && n%2 == 0 {
						n += int64(1 - 2*r.IntN(2))
					}
					*v = measure.Length(n * step)
				}
			}
		}
	}
}

// The more is compared, the less a match says: 6 cells have 15 pairs of rows, 3
// have 3. Odds are rounded to a digit.
func TestOddsAreOfTheWholeTower(t *testing.T) {
	oddsOf := func(cells int) int {
		w := usual(6, 0)
		w.blade, w.heap = 6, 0
		rec := w.tower(rand.New(rand.NewPCG(2, 6)))
		copyCell(1, 2, []string{"track"}, 0)(rand.New(rand.NewPCG(1, 1)), rec)
		rec.Cells = rec.Cells[:cells]
		for i := range rec.Cells {
			c := &rec.Cells[i]
			c.Tilt, c.TipRadius, c.Clearance, c.Pitch, c.Drive = field.Tilt{}, field.TipRadius{}, field.Clearance{}, field.Pitch{}, field.Drive{}
		}
		for _, q := range screen.Questions(rec) {
			if q.Code == screen.SameRow && slices.Equal(q.Cells, []int{1, 2}) && q.N == 8 {
				return q.Odds
			}
		}
		return 0
	}
	few, many := oddsOf(3), oddsOf(6)
	if many == 0 || few < 3*many || few > 8*many {
		t.Errorf("1 in %d with 3 cells, 1 in %d with 6", few, many)
	}
}

// People who round off every reading read the same again, honestly.
func TestRoundedReadingsMayAllBeTheSame(t *testing.T) {
	w := usual(12, 1)
	w.heap, w.to = 1, 2
	if k := found(10, w, copyReturns, []string{screen.NoScatter}); k > 0 {
		t.Errorf("%d of 10 were asked", k)
	}
}
