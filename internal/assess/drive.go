package assess

import (
	"asleft/internal/field"
)

// Codes of the drive type. A blank is the right-angle drive this program is
// made for.
const (
	driveDirect       = "direct"
	driveCloseCoupled = "closecoupled"
	driveBelt         = "belt"
	driveTwoPiece     = "twopiece"
	driveHorizontal   = "horizontal"
)

// driveLine is what the drive type leaves of the checks on the drive shaft.
type driveLine int

const (
	lineJudged   driveLine = iota
	lineNone               // there is no drive shaft
	lineNoNumber           // there is one, and nothing here is valid for it
)

func driveLineOf(driveType string) driveLine {
	switch driveType {
	case driveDirect, driveCloseCoupled:
		return lineNone
	case driveBelt, driveTwoPiece, driveHorizontal:
		return lineNoNumber
	}
	return lineJudged
}

// onDriveLine lists the checks that hang on the drive type.
func onDriveLine(check string) bool {
	switch check {
	case CouplingGear, CouplingMotor, ShaftEnds, GuardEnd, GuardAround:
		return true
	}
	return false
}

// driveBlocks turns the rounds of the drive line and its bases, by check.
func driveBlocks(d *field.Drive) map[string][]series {
	return map[string][]series{
		CouplingGear:  allSeries(d.CouplingGear.Rounds, lengthValue),
		CouplingMotor: allSeries(d.CouplingMotor.Rounds, lengthValue),
		ShaftEnds:     allSeries(d.ShaftEnds.Rounds, lengthValue),
		GearLevel:     allSeries(d.GearLevel.Rounds, slopeValue),
		MotorLevel:    allSeries(d.MotorLevel.Rounds, slopeValue),
		CylinderPlumb: allSeries(d.CylinderPlumb.Rounds, slopeValue),
		CylinderRound: allSeries(d.CylinderRound.Rounds, lengthValue),
		SoftFootGear:  allSeries(d.SoftFootGear.Rounds, lengthValue),
		SoftFootMotor: allSeries(d.SoftFootMotor.Rounds, lengthValue),
		GuardEnd:      allSeries(d.GuardEnd.Rounds, lengthValue),
		GuardAround:   allSeries(d.GuardAround.Rounds, lengthValue),
	}
}

// driveCheck judges one block of the drive line or a base.
func (w *work) driveCheck(key string) Check {
	line := w.t.driveLine
	if onDriveLine(key) && line == lineNoNumber {
		return Check{Key: key, Standing: -1, Notes: []Code{code(noteNotCovered)}}
	}
	c := w.check(key, w.drive[key], w.driveJudge(key))
	switch {
	case onDriveLine(key) && line == lineNone:
		c.Verdict = NotRequired
		c.Notes = append(c.Notes, code(noteDriveType))
	case key == CouplingGear:
		couplingNotes(&c, &w.cell.Drive.CouplingGear)
	case key == CouplingMotor:
		couplingNotes(&c, &w.cell.Drive.CouplingMotor)
	}
	return c
}

func (w *work) driveJudge(key string) judge {
	switch key {
	case GearLevel, MotorLevel, CylinderPlumb:
		return w.judgeLevel
	case CouplingGear:
		return w.judgeCoupling(w.t.faceGear)
	case CouplingMotor:
		return w.judgeCoupling(w.t.faceMotor)
	case CylinderRound:
		return w.judgeDiameters
	}
	return w.judgeGaps
}

// judgeGaps judges each reading by itself: shaft ends, guards, soft feet.
func (w *work) judgeGaps(ru *ruling, s *series, r *Round) {
	e, ok := findExtremes(s.found())
	if !ok {
		return
	}
	ru.add(r, "least", e.least.value.n, e.least.index)
	ru.add(r, "greatest", e.most.value.n, e.most.index)
	ru.each(r, w.t.uncertainty(ru.check, r))
	ru.fromNominal(r)
}

// judgeDiameters judges out of round by diameters: largest minus smallest. It
// does not see an odd number of lobes.
func (w *work) judgeDiameters(ru *ruling, s *series, r *Round) {
	found := s.found()
	e, ok := findExtremes(found)
	if !ok {
		return
	}
	ru.spread(r, e, w.t.uncertainty(ru.check, r))
	ru.add(r, "mean", mean(found), 0)
}
