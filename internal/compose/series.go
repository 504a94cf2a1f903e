package compose

import (
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// block is what a round of readings holds besides its points: the return
// reading, the heights of the marks, the blade that was turned.
type block struct {
	length field.Length // return reading
	angle  field.Angle
	slope  field.Slope
	marks  map[int]field.Length
	marked bool
	blade  field.Count
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
		for _, s := range c.Pitch.Rounds {
			if s.Round == round {
				return block{angle: s.Return}
			}
		}
	}
	return driveBlock(&c.Drive, check, round)
}

// driveBlock finds a round of the drive line or its bases.
func driveBlock(d *field.Drive, check, round string) block {
	if s, ok := driveSlopes(d)[check]; ok {
		for _, x := range s {
			if x.Round == round {
				return block{slope: x.Return}
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
	for _, s := range list {
		if s.Round != round {
			continue
		}
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
