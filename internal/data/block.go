package data

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// blocks are the entries typed once per block of readings.
func blocks(c *field.Cell) Keyed[Row] {
	var tilt, track, tip, clearance, pitch row
	tilt.text("sense", c.Tilt.Sense).text("reference", c.Tilt.Reference).count("blade", c.Tilt.Blade).length("radius", c.Tilt.Radius)
	track.text("place", c.Track.Place)
	tip.count("position", c.TipRadius.Position).flag("pulledOut", c.TipRadius.PulledOut)
	clearance.flag("pulledOut", c.Clearance.PulledOut)
	for _, r := range c.Clearance.Rounds {
		clearance.count("blade-"+r.Round, r.Blade)
	}
	pitch.count("position", c.Pitch.Position).length("radius", c.Pitch.Radius).text("surface", c.Pitch.Surface)
	var out Keyed[Row]
	for _, b := range []Member[Row]{{assess.Tilt, tilt.done()}, {assess.Track, track.done()},
		{assess.TipRadius, tip.done()}, {assess.Clearance, clearance.done()}, {assess.Pitch, pitch.done()},
		{assess.CouplingGear, coupling(&c.Drive.CouplingGear)}, {assess.CouplingMotor, coupling(&c.Drive.CouplingMotor)}} {
		if len(b.Value) > 0 {
			out = append(out, b)
		}
	}
	return out
}

func coupling(k *field.Coupling) Row {
	var r row
	return r.text("stood", k.Stood).flag("together", k.Together).flag("sweep", k.Sweep).done()
}

// typedRound is what a round's block holds besides the points of the
// assessment: what was typed at each index, the marks, the return reading.
type typedRound struct {
	values, marks map[int]Entry
	back          *Entry
	accepted      field.Flag
	ring          bool // read round the cylinder: indexes are positions and have degrees
}

// typed finds a round of a check in the record. Checks that are derived from
// another's readings have no block of their own; theirs is empty.
func typed(c *field.Cell, check, round string) typedRound {
	switch check {
	case assess.Tilt:
		t := fromSeries(c.Tilt.Rounds, round, lengthOf)
		t.ring = true
		return t
	case assess.Track:
		return fromSeries(c.Track.Rounds, round, lengthOf)
	case assess.TipRadius:
		return fromSeries(c.TipRadius.Rounds, round, lengthOf)
	case assess.Clearance:
		var list []field.Series[field.Length]
		for _, r := range c.Clearance.Rounds {
			list = append(list, r.Series)
		}
		t := fromSeries(list, round, lengthOf)
		t.ring = true
		return t
	case assess.Pitch:
		return fromSeries(c.Pitch.Rounds, round, angleOf)
	}
	return typedDrive(c, check, round)
}

// typedDrive is a round of the drive line or its bases, or of a start-up.
func typedDrive(c *field.Cell, check, round string) typedRound {
	d := &c.Drive
	lengths := map[string][]field.Series[field.Length]{
		assess.CouplingGear: d.CouplingGear.Rounds, assess.CouplingMotor: d.CouplingMotor.Rounds,
		assess.ShaftEnds: d.ShaftEnds.Rounds, assess.CylinderRound: d.CylinderRound.Rounds,
		assess.SoftFootGear: d.SoftFootGear.Rounds, assess.SoftFootMotor: d.SoftFootMotor.Rounds,
		assess.GuardEnd: d.GuardEnd.Rounds, assess.GuardAround: d.GuardAround.Rounds,
	}
	slopes := map[string][]field.Series[field.Slope]{
		assess.GearLevel: d.GearLevel.Rounds, assess.MotorLevel: d.MotorLevel.Rounds,
		assess.CylinderPlumb: d.CylinderPlumb.Rounds,
	}
	if list, ok := lengths[check]; ok {
		return fromSeries(list, round, lengthOf)
	}
	if list, ok := slopes[check]; ok {
		return fromSeries(list, round, slopeOf)
	}
	return typedRun(c, check, round)
}

// typedRun is what a check of a start-up counts with.
func typedRun(c *field.Cell, check, round string) typedRound {
	out := typedRound{values: map[int]Entry{}}
	for i := range c.StartUps {
		if runKey(i) != round {
			continue
		}
		for n, q := range counted(&c.StartUps[i], check) {
			if q.Set {
				out.values[n+1] = quantityEntry(q)
			}
		}
	}
	return out
}

// counted lists the quantities of a start-up that a check reads, in the order
// of its points.
func counted(s *field.StartUp, check string) []field.Quantity {
	switch check {
	case assess.VoltUnbalance:
		return s.Volts[:]
	case assess.AmpUnbalance, assess.AmpLoad:
		return s.Amps[:]
	case assess.Insulation:
		return []field.Quantity{s.Insulation}
	case assess.OilTemperature:
		return []field.Quantity{s.OilTemperature}
	case assess.BearingTemp:
		return s.Bearing[:]
	case assess.SpeedRatio:
		return []field.Quantity{s.MotorSpeed, s.FanSpeed}
	case assess.TipSpeed:
		return []field.Quantity{s.FanSpeed}
	case assess.RunTime:
		return []field.Quantity{s.RunTime}
	}
	return nil
}

func lengthOf(l field.Length) (Entry, bool) { return lengthEntry(l), l.Set }
func angleOf(a field.Angle) (Entry, bool)   { return angleEntry(a), a.Set }
func slopeOf(s field.Slope) (Entry, bool)   { return slopeEntry(s), s.Set }

func fromSeries[V any](list []field.Series[V], round string, entryOf func(V) (Entry, bool)) typedRound {
	out := typedRound{values: map[int]Entry{}, marks: map[int]Entry{}}
	for _, s := range list {
		if s.Round != round {
			continue
		}
		out.accepted = s.Accepted
		if e, set := entryOf(s.Return); set {
			out.back = &e
		}
		for _, r := range s.Readings {
			if e, set := entryOf(r.Value); set {
				out.values[r.Index] = e
			}
			if r.Mark.Set {
				out.marks[r.Index] = lengthEntry(r.Mark)
			}
		}
	}
	return out
}

// key is the member name of a reading.
func key(index int) string { return strconv.Itoa(index) }
