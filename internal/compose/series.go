package compose

import (
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// block is what a round of readings holds besides its points: the return
// reading, the heights of the marks, the blade that was turned, why a place was
// not read, and whether the round was accepted as it was found.
type block struct {
	length   field.Length // return reading
	angle    field.Angle
	slope    field.Slope
	marks    map[int]field.Length
	marked   bool
	blade    field.Count
	reasons  map[int]field.Text
	accepted field.Flag
}

// withHead takes what rounds of every kind of reading have.
func withHead[V any](out block, s *field.Series[V]) block {
	out.accepted, out.reasons = s.Accepted, map[int]field.Text{}
	for _, r := range s.Readings {
		if r.Reason.Set {
			out.reasons[r.Index] = r.Reason
		}
	}
	return out
}

// blockOf finds a round of a check in the record.
func blockOf(c *field.Cell, check, round string) block {
	switch check {
	case assess.Tilt:
		out := lengthBlock(c.Tilt.Rounds, round)
		out.blade = c.Tilt.Blade
		return out
	case assess.Track:
		return lengthBlock(c.Track.Rounds, round)
	case assess.TipRadius:
		return lengthBlock(c.TipRadius.Rounds, round)
	case assess.Clearance:
		for _, r := range c.Clearance.Rounds {
			if r.Round == round {
				out := lengthBlock([]field.Series[field.Length]{r.Series}, round)
				out.blade = r.Blade
				return out
			}
		}
	case assess.Pitch:
		for i := range c.Pitch.Rounds {
			if s := &c.Pitch.Rounds[i]; s.Round == round {
				return withHead(block{angle: s.Return}, s)
			}
		}
	}
	return driveBlock(&c.Drive, check, round)
}

// driveBlock finds a round of the drive line or its bases.
func driveBlock(d *field.Drive, check, round string) block {
	if s, ok := driveSlopes(d)[check]; ok {
		for i := range s {
			if s[i].Round == round {
				return withHead(block{slope: s[i].Return}, &s[i])
			}
		}
		return block{}
	}
	return lengthBlock(driveLengths(d)[check], round)
}

// driveLengths and driveSlopes are the rounds of the drive line and its bases by
// check.
func driveLengths(d *field.Drive) map[string][]field.Series[field.Length] {
	return map[string][]field.Series[field.Length]{
		assess.CouplingGear: d.CouplingGear.Rounds, assess.CouplingMotor: d.CouplingMotor.Rounds,
		assess.ShaftEnds: d.ShaftEnds.Rounds, assess.CylinderRound: d.CylinderRound.Rounds,
		assess.SoftFootGear: d.SoftFootGear.Rounds, assess.SoftFootMotor: d.SoftFootMotor.Rounds,
		assess.GuardEnd: d.GuardEnd.Rounds, assess.GuardAround: d.GuardAround.Rounds,
	}
}

func driveSlopes(d *field.Drive) map[string][]field.Series[field.Slope] {
	return map[string][]field.Series[field.Slope]{
		assess.GearLevel: d.GearLevel.Rounds, assess.MotorLevel: d.MotorLevel.Rounds,
		assess.CylinderPlumb: d.CylinderPlumb.Rounds,
	}
}

// driveAsked is how many readings a round of the drive line or its bases has in
// the form.
func driveAsked(d *field.Drive, check string) int {
	n := 0
	for _, s := range driveLengths(d)[check] {
		n = max(n, len(s.Readings))
	}
	for _, s := range driveSlopes(d)[check] {
		n = max(n, len(s.Readings))
	}
	return n
}

func lengthBlock(list []field.Series[field.Length], round string) block {
	out := block{marks: map[int]field.Length{}}
	for i := range list {
		s := &list[i]
		if s.Round != round {
			continue
		}
		out = withHead(out, s)
		out.length = s.Return
		for _, r := range s.Readings {
			if r.Mark.Set {
				out.marks[r.Index] = r.Mark
				out.marked = true
			}
		}
	}
	return out
}

// bareDegrees takes the sign or word off an angle in plain degrees; one in
// minutes and seconds stays as it was typed.
func bareDegrees(typed string) string {
	for _, unit := range []string{"°", "degrees", "degree", "deg"} {
		if head, ok := strings.CutSuffix(typed, unit); ok && !strings.ContainsAny(head, "°'\"") {
			return strings.TrimSpace(head)
		}
	}
	return typed
}
