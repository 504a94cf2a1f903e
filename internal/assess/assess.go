package assess

import (
	"cmp"
	"slices"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// Assess judges a record by a rule set. It changes neither, and the same record
// gives the same assessment whatever the order of its lists. A record with
// faults is not meant to come here; whatever does come is assessed without a
// panic.
func Assess(r field.Record, rules Rules) Assessment {
	t := newTower(&r, rules)
	out := Assessment{State: NotReady, Partial: !rules.Full}
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

// tower is what all cells share, looked up once.
type tower struct {
	limits      map[string]*field.Limit
	twice       map[string]bool // checks with more than one row of limits
	instruments map[string]*field.Instrument
	degrees     map[int]measure.Angle
	overtakes   map[string][]string       // by event
	pools       map[string]*pool          // return readings by check
	readings    map[[2]string]uncertainty // of one reading, by check and instrument
	waivers     []field.Waiver
	deviations  []field.Deviation
	segments    int
	fanRadius   int64
	rotation    string
	guarded     bool
	full        bool // every check of the job, not only those of the fan
	driveLine   driveLine
	geometry    field.Geometry
	faceGear    field.Length
	faceMotor   field.Length
	diameter    int64        // of the fan, 0 where it is not given
	unit        measure.Unit // meant where a deviation's value has none
}

// decisionGuarded is the decision rule that counts a reading near its limit
// against it (JCGM 106:2012, 8.3, guarded acceptance; value from memory).
const decisionGuarded = "guarded"

func newTower(r *field.Record, rules Rules) *tower {
	t := &tower{
		limits:      map[string]*field.Limit{},
		twice:       map[string]bool{},
		instruments: map[string]*field.Instrument{},
		degrees:     map[int]measure.Angle{},
		overtakes:   map[string][]string{},
		pools:       map[string]*pool{},
		readings:    map[[2]string]uncertainty{},
		waivers:     r.Waivers,
		deviations:  r.Deviations,
		segments:    r.Tower.Segments.Value,
		fanRadius:   fanRadius(r.Tower.FanDiameter),
		rotation:    r.Tower.FanRotation.Value,
		guarded:     r.Tower.Decision.Value == decisionGuarded,
		full:        rules.Full,
		driveLine:   driveLineOf(r.Tower.DriveType.Value),
		geometry:    r.Tower.Geometry,
		faceGear:    r.Tower.Geometry.FaceGear,
		faceMotor:   r.Tower.Geometry.FaceMotor,
		diameter:    positive(r.Tower.FanDiameter),
	}
	t.unit, _ = measure.ParseUnit(r.Project.Units.Value)
	for i := range r.Limits {
		t.addLimit(&r.Limits[i])
	}
	for i := range r.Instruments {
		t.instruments[r.Instruments[i].ID.Value] = &r.Instruments[i]
	}
	for _, p := range r.Tower.Positions {
		t.degrees[p.Number] = p.Degrees
	}
	for _, e := range rules.Events {
		t.overtakes[e.Key] = e.Overtakes
	}
	return t
}

// addLimit takes the first row of a check that has numbers; a second one makes
// the limit ambiguous.
func (t *tower) addLimit(l *field.Limit) {
	_, _, form := readLimit(l.Check, l)
	old := t.limits[l.Check]
	_, _, oldForm := readLimit(l.Check, old)
	switch {
	case oldForm == limitBlank:
		t.limits[l.Check] = l
	case form != limitBlank:
		t.twice[l.Check] = true
	}
}

// addReturns gathers the return readings of a cell.
func (t *tower) addReturns(w *work) {
	for _, b := range w.blocks() {
		for i := range b.rounds {
			first, again, ok := b.rounds[i].returned()
			if !ok {
				continue
			}
			if t.pools[b.check] == nil {
				t.pools[b.check] = &pool{}
			}
			t.pools[b.check].add(first.value.n, again.n)
		}
	}
}

// readingUncertainty is that of one reading of a block, taken under a head.
func (t *tower) readingUncertainty(check string, h field.Head) uncertainty {
	key := [2]string{check, h.Instrument.Value}
	u, seen := t.readings[key]
	if !seen {
		u = readingUncertainty(t.instruments[h.Instrument.Value], kindOf(check), t.pools[check].variance()).kept()
		t.readings[key] = u
	}
	return u
}

// step is the resolution of the instrument a round was read with, 0 where it is
// not known.
func (t *tower) step(check string, h field.Head) int64 {
	step, _ := stated(t.instruments[h.Instrument.Value], kindOf(check))
	return max(step.n, 0)
}

// positive is a length that is of use only above 0, else 0.
func positive(l field.Length) int64 {
	if !l.Set {
		return 0
	}
	return max(int64(l.Value), 0)
}

// keys lists the checks that are judged, in order.
func (t *tower) keys() []string {
	if t.full {
		return AllChecks()
	}
	return Checks()
}

// kindOf tells what is read in a check.
func kindOf(check string) Kind {
	switch check {
	case Pitch, PitchSpread:
		return KindAngle
	case GearLevel, MotorLevel, CylinderPlumb:
		return KindSlope
	case FastenerTorque, VoltUnbalance, AmpUnbalance, AmpLoad, Insulation, OilTemperature, BearingTemp,
		Vibration, VibrationSwitch, SpeedRatio, TipSpeed, RunTime:
		return KindQuantity
	}
	return KindLength
}

// uncertainty is that of one reading of a round of a block, with a note on the
// round where it is not known.
func (t *tower) uncertainty(block string, r *Round) uncertainty {
	u := t.readingUncertainty(block, r.Head)
	if u.known() {
		return u
	}
	name := r.Head.Instrument.Value
	if _, listed := t.instruments[name]; name != "" && !listed {
		r.Notes = append(r.Notes, code(noteInstrument, textArg("instrument", name)))
	} else {
		r.Notes = append(r.Notes, code(noteNoUncertainty))
	}
	return u
}

// work is one cell being assessed.
type work struct {
	t                               *tower
	cell                            *field.Cell
	tilt, track, tips, clear, pitch []series
	drive                           map[string][]series // by check
	log                             []field.Move        // in the order of the days
}

func newWork(t *tower, c *field.Cell) *work {
	w := &work{
		t: t, cell: c, log: slices.Clone(c.Moves),
		tilt:  allSeries(c.Tilt.Rounds, lengthValue),
		track: allSeries(c.Track.Rounds, lengthValue),
		tips:  allSeries(c.TipRadius.Rounds, lengthValue),
		clear: clearanceSeries(c.Clearance.Rounds),
		pitch: allSeries(c.Pitch.Rounds, angleValue),
	}
	slices.SortStableFunc(w.log, compareMoves)
	if t.full {
		w.drive = driveBlocks(&c.Drive)
	}
	return w
}

// block is the rounds of one kind of reading.
type block struct {
	check  string
	rounds []series
}

func (w *work) blocks() []block {
	list := []block{{Tilt, w.tilt}, {Track, w.track}, {TipRadius, w.tips}, {Clearance, w.clear}, {Pitch, w.pitch}}
	if !w.t.full {
		return list
	}
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
	if !w.t.full {
		return
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
		InPackage: !w.cell.InPackage.Set || w.cell.InPackage.Value,
		State:     NotReady,
		Checks:    w.fanChecks(),
	}
	if w.t.full {
		out.Checks = append(out.Checks, w.otherChecks()...)
	}
	w.stand(&out)
	w.questions(&out)
	if w.t.full {
		w.due(&out)
	}
	return out
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
