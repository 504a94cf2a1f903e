package assess

import (
	"cmp"
	"slices"

	"asleft/internal/field"
)

// Assess judges a record by a rule set. It changes neither, and the same record
// gives the same assessment whatever the order of its lists. A record with
// faults is not meant to come here; whatever does come is assessed without a
// panic.
func Assess(r field.Record, rules Rules) Assessment { return assess(r, rules, 0) }

// AssessCell judges a record for a package of one cell alone: all others count
// as left out of it, whatever the record says. They are judged all the same.
func AssessCell(r field.Record, rules Rules, number int) Assessment { return assess(r, rules, number) }

// assess judges for all cells of the package, or for one.
func assess(r field.Record, rules Rules, only int) Assessment {
	t := newTower(&r, rules)
	t.only = only
	out := Assessment{State: NotReady}
	cells := slices.Clone(r.Cells)
	slices.SortStableFunc(cells, func(a, b field.Cell) int { return cmp.Compare(a.Number, b.Number) })
	works := make([]*work, len(cells))
	for i := range cells {
		works[i] = newWork(t, &cells[i])
		t.addReturns(works[i]) // repeatability is pooled over the tower, before any verdict
	}
	for _, w := range works {
		c := w.assess()
		if c.InPackage {
			w.tally(&c, &out)
		}
		out.Cells = append(out.Cells, c)
	}
	t.settle(&out)
	return out
}

// work is one cell being assessed.
type work struct {
	t                               *tower
	cell                            *field.Cell
	tilt, track, tips, clear, pitch []series
	drive                           map[string][]series // by check
	log                             []field.Move        // in the order of the days, with the torque of the clamps
}

func newWork(t *tower, c *field.Cell) *work {
	w := &work{
		t: t, cell: c, log: slices.Clone(c.Moves),
		tilt:  allSeries(c.Tilt.Rounds, lengthValue),
		track: allSeries(c.Track.Rounds, lengthValue),
		tips:  allSeries(c.TipRadius.Rounds, lengthValue),
		clear: clearanceSeries(c.Clearance.Rounds),
		pitch: allSeries(c.Pitch.Rounds, angleValue),
		drive: driveBlocks(&c.Drive),
	}
	w.addClampTorque()
	slices.SortStableFunc(w.log, compareMoves)
	return w
}

// block is the rounds of one kind of reading.
type block struct {
	check  string
	rounds []series
}

func (w *work) blocks() []block {
	list := []block{{Tilt, w.tilt}, {Track, w.track}, {TipRadius, w.tips}, {Clearance, w.clear}, {Pitch, w.pitch}}
	for _, key := range DriveChecks() {
		if !onDriveLine(key) || w.t.driveLine == lineJudged {
			list = append(list, block{key, w.drive[key]})
		}
	}
	return list
}

// tally counts the readings that the standing rounds of the cell ask for and
// have. What is computed from another check's readings is not counted twice.
func (w *work) tally(c *Cell, out *Assessment) {
	for _, b := range w.blocks() {
		k := c.Check(b.check)
		switch r := k.StandingRound(); {
		case k.waived():
		case r != nil:
			out.Expected += r.Expected
			out.Found += r.Found
		default:
			out.Expected += longestSeries(b.rounds)
		}
	}
	for _, key := range append(OnceChecks(), StartUpChecks()...) {
		k := c.Check(key)
		switch r := k.StandingRound(); {
		case k.waived() || key == Locking: // the sets are counted with their torque
		case r != nil:
			out.Expected += r.Expected
			out.Found += r.Found
		default:
			out.Expected++
		}
	}
}

// longestSeries is how many readings the form asks for in a round.
func longestSeries(rounds []series) int {
	n := 0
	for i := range rounds {
		n = max(n, len(rounds[i].readings))
	}
	return n
}

// returned gives the reading that was taken first and its repeat at the end.
func (s *series) returned() (first reading, again value, ok bool) {
	if !s.again.set {
		return reading{}, value{}, false
	}
	for _, r := range s.readings {
		if r.value.set {
			return r, s.again, true
		}
	}
	return reading{}, value{}, false
}

// returnNote says where an all-round set was not closed by reading its first
// position again.
func (t *tower) returnNote(s *series, r *Round) {
	if !s.again.set {
		r.Notes = append(r.Notes, code(noteNoReturn))
	}
}

// assess assesses the cell; whether it is ready is decided with the tower.
func (w *work) assess() Cell {
	out := Cell{
		Number:    w.cell.Number,
		InPackage: w.inPackage(),
		State:     NotReady,
		Checks:    append(w.fanChecks(), w.otherChecks()...),
	}
	w.stand(&out)
	w.questions(&out)
	w.due(&out)
	return out
}

// inPackage tells whether the cell has pages: as typed, unless one cell is asked
// for.
func (w *work) inPackage() bool {
	if w.t.only != 0 {
		return w.cell.Number == w.t.only
	}
	return !w.cell.InPackage.Set || w.cell.InPackage.Value
}

func (w *work) fanChecks() []Check {
	return []Check{
		w.tiltCheck(), w.trackCheck(), w.tipRadiusCheck(), w.clearanceCheck(),
		w.clearanceAllCheck(), w.pitchCheck(), w.pitchSpreadCheck(),
	}
}

// otherChecks are those of the job beyond the fan, in order.
func (w *work) otherChecks() []Check {
	var out []Check
	for _, key := range DriveChecks() {
		out = append(out, w.driveCheck(key))
	}
	out = append(out, w.fastenerCheck(), w.lockingCheck(), w.pinCheck(), w.preStartCheck())
	for _, key := range StartUpChecks() {
		out = append(out, w.startUpCheck(key))
	}
	return out
}
