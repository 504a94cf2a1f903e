package assess

import (
	"asleft/internal/field"
	"asleft/internal/measure"
)

// tower is what all cells share, looked up once.
type tower struct {
	limits      map[string]*field.Limit
	twice       map[string]bool // checks with more than one row of limits
	instruments map[string]*field.Instrument
	degrees     map[int]measure.Angle
	overtakes   map[string][]string       // by event
	due         map[string][]string       // jobs by event
	pools       map[string]*pool          // return readings by check
	readings    map[[2]string]uncertainty // of one reading, by check and instrument
	waivers     []field.Waiver
	deviations  []field.Deviation
	segments    int
	fanRadius   int64
	rotation    string
	guarded     bool
	driveLine   driveLine
	geometry    field.Geometry
	faceGear    field.Length
	faceMotor   field.Length
	diameter    int64        // of the fan, 0 where it is not given
	unit        measure.Unit // meant where a deviation's value has none
	only        int          // the cell that the package is of; 0: all that are in it
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
		due:         map[string][]string{},
		pools:       map[string]*pool{},
		readings:    map[[2]string]uncertainty{},
		waivers:     r.Waivers,
		deviations:  r.Deviations,
		segments:    r.Tower.Segments.Value,
		fanRadius:   fanRadius(r.Tower.FanDiameter),
		rotation:    r.Tower.FanRotation.Value,
		guarded:     r.Tower.Decision.Value == decisionGuarded,
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
		t.overtakes[e.Key], t.due[e.Key] = e.Overtakes, e.Due
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
