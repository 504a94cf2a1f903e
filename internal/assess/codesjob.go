package assess

// Keys of what may be said of the drive line, the fasteners and the start-up.
const (
	noteNoTolerance   = "note.notolerance"
	noteCriterion     = "note.criterion"
	noteNotCovered    = "note.notcovered"
	noteDriveType     = "note.drivetype"
	noteNoTiltBeside  = "note.notiltbeside"
	noteNoFace        = "note.noface"
	noteNoStood       = "note.nostood"
	noteTogetherBlank = "note.togetherblank"
	noteNotTogether   = "note.nottogether"
	noteSweep         = "note.sweep"
	noteNoThread      = "note.nothread"
	noteNoCoefficient = "note.nocoefficient"
	noteNoClass       = "note.noclass"
	noteNoProof       = "note.noproof"
	noteNoRunning     = "note.norunning"
	noteFirstUnder    = "note.firstunder"
	noteNoCapacity    = "note.nocapacity"
	noteNotReversing  = "note.notreversing"
	noteNoMean        = "note.nomean"
	noteNoNameplate   = "note.nonameplate"
	noteNoWindingTemp = "note.nowindingtemp"
	noteNoRatio       = "note.noratio"
	noteNoDiameter    = "note.nodiameter"
	noteZoneScope     = "note.zonescope"
	noteZoneSlow      = "note.zoneslow"
	noteNoPreStart    = "note.noprestart"

	questionClosure     = "question.closure"
	questionAntiSeize   = "question.antiseize"
	questionGalling     = "question.galling"
	questionPinsOrder   = "question.pinsorder"
	questionRatio       = "question.ratio"
	questionInstrument  = "question.noinstrument"
	questionItemOrder   = "question.itemorder"
	questionTorqueLater = "question.torquelater"

	reasonNotCovered     = "reason.notcovered"
	reasonNotComputed    = "reason.notcomputed"
	reasonNoPreStart     = "reason.noprestart"
	reasonItemRecheck    = "reason.itemrecheck"
	reasonItemOutside    = "reason.itemoutside"
	reasonItemLimit      = "reason.itemlimit"
	reasonItemDate       = "reason.itemdate"
	reasonItemAuthority  = "reason.itemauthority"
	reasonItemStarting   = "reason.itemstarting"
	reasonItemNotRead    = "reason.itemnotread"
	reasonSetNotDone     = "reason.setnotdone"
	reasonNoFinal        = "reason.nofinal"
	reasonNoRequired     = "reason.norequired"
	reasonFinalTorque    = "reason.finaltorque"
	reasonNoFirst        = "reason.nofirst"
	reasonFirstPass      = "reason.firstpass"
	reasonNoClicks       = "reason.noclicks"
	reasonClicks         = "reason.clicks"
	reasonNoPattern      = "reason.nopattern"
	reasonNoStripe       = "reason.nostripe"
	reasonNoTool         = "reason.notool"
	reasonToolUnknown    = "reason.toolunknown"
	reasonToolRange      = "reason.toolrange"
	reasonNoSchedule     = "reason.noschedule"
	reasonNoLocking      = "reason.nolocking"
	reasonLocking        = "reason.locking"
	reasonNoLockTime     = "reason.nolocktime"
	reasonLockTime       = "reason.locktime"
	reasonPinsBlank      = "reason.pinsblank"
	reasonPinsCount      = "reason.pinscount"
	reasonPins           = "reason.pins"
	reasonPinsProjection = "reason.pinsprojection"
	reasonPinsAlignment  = "reason.pinsalignment"
	reasonLineBlank      = "reason.lineblank"
	reasonLine           = "reason.line"
	reasonLineBy         = "reason.lineby"
	reasonOil            = "reason.oil"
	reasonRotation       = "reason.rotation"
	reasonBackstop       = "reason.backstop"
	reasonCoupled        = "reason.coupled"
	reasonCoupledBlank   = "reason.coupledblank"
	reasonReversingBlank = "reason.reversingblank"
	reasonReverse        = "reason.reverse"
	reasonDetector       = "reason.detector"
	reasonOtherKind      = "reason.otherkind"
	reasonTripBlank      = "reason.tripblank"
	reasonTrip           = "reason.trip"
	reasonSetPoint       = "reason.setpoint"

	dueTorque    = "due.torque"
	dueAlignment = "due.alignment"
	dueWater     = "due.water"
	dueBalance   = "due.balance"
	dueRunOut    = "due.runout"
)

// jobNotes, jobQuestions and jobReasons are the codes of the checks beyond the
// fan, with the names of their arguments.
func jobNotes() []CodeSpec {
	return []CodeSpec{
		{noteNoTolerance, []string{"at"}},
		{noteCriterion, []string{"at"}},
		{noteNotCovered, nil},
		{noteDriveType, nil},
		{noteNoTiltBeside, nil},
		{noteNoFace, nil},
		{noteNoStood, nil},
		{noteTogetherBlank, nil},
		{noteNotTogether, nil},
		{noteSweep, nil},
		{noteNoThread, []string{"item"}},
		{noteNoCoefficient, []string{"item"}},
		{noteNoClass, []string{"item", "class"}},
		{noteNoProof, []string{"item", "class"}},
		{noteNoRunning, []string{"item"}},
		{noteFirstUnder, []string{"item"}},
		{noteNoCapacity, []string{"item", "instrument"}},
		{noteNotReversing, nil},
		{noteNoMean, nil},
		{noteNoNameplate, nil},
		{noteNoWindingTemp, nil},
		{noteNoRatio, nil},
		{noteNoDiameter, nil},
		{noteZoneScope, nil},
		{noteZoneSlow, []string{"speed"}},
		{noteNoPreStart, nil},
	}
}

func jobQuestions() []CodeSpec {
	return []CodeSpec{
		{questionClosure, []string{"check", "round", "closure"}},
		{questionAntiSeize, []string{"item"}},
		{questionGalling, []string{"item"}},
		{questionPinsOrder, []string{"item", "date"}},
		{questionRatio, []string{"round", "fan", "expected"}},
		{questionInstrument, []string{"at"}},
		{questionItemOrder, []string{"check", "item", "event", "date"}},
		{questionTorqueLater, []string{"check", "item", "date"}},
	}
}

func jobReasons() []CodeSpec {
	return []CodeSpec{
		{reasonNotCovered, nil},
		{reasonNotComputed, nil},
		{reasonNoPreStart, nil},
		{reasonItemRecheck, []string{"item", "event", "date"}},
		{reasonItemOutside, []string{"item", "value", "over"}},
		{reasonItemLimit, []string{"item"}},
		{reasonItemDate, []string{"item"}},
		{reasonItemAuthority, []string{"item"}},
		{reasonItemStarting, []string{"item"}},
		{reasonItemNotRead, []string{"item"}},
		{reasonSetNotDone, []string{"item"}},
		{reasonNoFinal, []string{"item"}},
		{reasonNoRequired, []string{"item"}},
		{reasonFinalTorque, []string{"item", "final", "required"}},
		{reasonNoFirst, []string{"item"}},
		{reasonFirstPass, []string{"item", "first", "final"}},
		{reasonNoClicks, []string{"item"}},
		{reasonClicks, []string{"item", "clicks", "bolts"}},
		{reasonNoPattern, []string{"item"}},
		{reasonNoStripe, []string{"item"}},
		{reasonNoTool, []string{"item"}},
		{reasonToolUnknown, []string{"item", "instrument"}},
		{reasonToolRange, []string{"item", "instrument", "torque", "capacity"}},
		{reasonNoSchedule, []string{"item"}},
		{reasonNoLocking, []string{"item"}},
		{reasonLocking, []string{"item", "locking", "scheduled"}},
		{reasonNoLockTime, []string{"item", "locking"}},
		{reasonLockTime, []string{"item", "locking"}},
		{reasonPinsBlank, []string{"item"}},
		{reasonPinsCount, []string{"item"}},
		{reasonPins, []string{"item", "found", "pins"}},
		{reasonPinsProjection, []string{"item"}},
		{reasonPinsAlignment, []string{"item", "date"}},
		{reasonLineBlank, []string{"item"}},
		{reasonLine, []string{"item"}},
		{reasonLineBy, []string{"item"}},
		{reasonOil, nil},
		{reasonRotation, nil},
		{reasonBackstop, nil},
		{reasonCoupled, nil},
		{reasonCoupledBlank, nil},
		{reasonReversingBlank, nil},
		{reasonReverse, nil},
		{reasonDetector, []string{"item"}},
		{reasonOtherKind, []string{"item"}},
		{reasonTripBlank, []string{"item"}},
		{reasonTrip, []string{"item"}},
		{reasonSetPoint, []string{"item"}},
	}
}

// dueCodes are those of [Cell.Due].
func dueCodes() []CodeSpec {
	return []CodeSpec{
		{dueTorque, []string{"date"}},
		{dueAlignment, []string{"date"}},
		{dueWater, []string{"date"}},
		{dueBalance, []string{"event", "date"}},
		{dueRunOut, []string{"event", "date"}},
	}
}
