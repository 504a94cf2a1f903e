package assess

import "slices"

// Keys of what may be said. The words are in the language files under the same
// key, with a place {name} for each argument they use.
const (
	noteSense          = "note.sense"
	noteToDeck         = "note.todeck"
	noteMarksSome      = "note.markssome"
	noteMarksNoSense   = "note.marksnosense"
	noteNoRadius       = "note.noradius"
	noteNoAngle        = "note.noangle"
	noteNoFit          = "note.nofit"
	noteNoUncertainty  = "note.nouncertainty"
	noteInstrument     = "note.instrument"
	noteNoDueDate      = "note.noduedate"
	noteNoReturn       = "note.noreturn"
	noteFewPositions   = "note.fewpositions"
	noteLobes          = "note.lobes"
	noteNotPulled      = "note.notpulled"
	notePulledBlank    = "note.pulledblank"
	noteNoBlade        = "note.noblade"
	noteNoTips         = "note.notips"
	noteNoRotation     = "note.norotation"
	noteNoTilt         = "note.notilt"
	noteIncomplete     = "note.incomplete"
	noteLimitBad       = "note.limitbad"
	noteNotAsked       = "note.notasked"
	noteAsFoundOnly    = "note.asfoundonly"
	noteLaterRound     = "note.laterround"
	noteHoldDowns      = "note.holddowns"
	noteHoldDownsBlank = "note.holddownsblank"
	noteClamps         = "note.clamps"
	noteClampsBlank    = "note.clampsblank"
	noteDeviationVoid  = "note.deviationvoid"
	noteDeviationRound = "note.deviationround"
	noteDeviationBad   = "note.deviationbad"

	questionLongest = "question.longest"
	questionTipGap  = "question.tipgap"
	questionReturn  = "question.return"
	questionCoarse  = "question.coarse"
	questionRange   = "question.range"
	questionOrder   = "question.order"
	questionEvent   = "question.event"

	reasonNoCell         = "reason.nocell"
	reasonNoLimit        = "reason.nolimit"
	reasonLimitTwice     = "reason.limittwice"
	reasonStarting       = "reason.starting"
	reasonNoAuthority    = "reason.noauthority"
	reasonNotRead        = "reason.notread"
	reasonMissing        = "reason.missing"
	reasonNear           = "reason.near"
	reasonNoUncertainty  = "reason.nouncertainty"
	reasonRecheck        = "reason.recheck"
	reasonHoldDowns      = "reason.holddowns"
	reasonHoldDownsBlank = "reason.holddownsblank"
	reasonClamps         = "reason.clamps"
	reasonClampsBlank    = "reason.clampsblank"
	reasonInstrument     = "reason.instrument"
	reasonCalibrated     = "reason.calibratedlater"
	reasonNoDate         = "reason.nodate"
	reasonWaiver         = "reason.waiver"
)

// CodeSpec is a code that may come out, and the names of its arguments.
type CodeSpec struct {
	Key  string
	Args []string
}

// Codes lists every code there is: notes, questions, reasons, what is due.
func Codes() []CodeSpec {
	return slices.Concat(fanNotes(), jobNotes(), fanQuestions(), jobQuestions(), fanReasons(), outsideReasons(), jobReasons(), dueCodes())
}

func fanNotes() []CodeSpec {
	return []CodeSpec{
		{noteSense, nil},
		{noteToDeck, nil},
		{noteMarksSome, []string{"given", "expected"}},
		{noteMarksNoSense, nil},
		{noteNoRadius, nil},
		{noteNoAngle, nil},
		{noteNoFit, nil},
		{noteNoUncertainty, nil},
		{noteInstrument, []string{"instrument"}},
		{noteNoDueDate, []string{"instrument"}},
		{noteNoReturn, nil},
		{noteFewPositions, []string{"found"}},
		{noteLobes, []string{"segments", "positions"}},
		{noteNotPulled, nil},
		{notePulledBlank, nil},
		{noteNoBlade, nil},
		{noteNoTips, nil},
		{noteNoRotation, nil},
		{noteNoTilt, nil},
		{noteIncomplete, []string{"found", "needed"}},
		{noteLimitBad, []string{"at"}},
		{noteNotAsked, nil},
		{noteAsFoundOnly, nil},
		{noteLaterRound, []string{"round"}},
		{noteHoldDowns, nil},
		{noteHoldDownsBlank, nil},
		{noteClamps, nil},
		{noteClampsBlank, nil},
		{noteDeviationVoid, []string{"number", "accepted", "now"}},
		{noteDeviationRound, []string{"number", "round"}},
		{noteDeviationBad, []string{"number"}},
	}
}

func fanQuestions() []CodeSpec {
	return []CodeSpec{
		{questionLongest, []string{"blade", "longest"}},
		{questionTipGap, []string{"position", "gap", "blade", "tip"}},
		{questionReturn, []string{"check", "round", "first", "again"}},
		{questionCoarse, []string{"check", "uncertainty", "zone"}},
		{questionRange, []string{"check", "round", "reading", "instrument", "range"}},
		{questionOrder, []string{"check", "event", "date"}},
		{questionEvent, []string{"name", "at"}},
	}
}

func fanReasons() []CodeSpec {
	return []CodeSpec{
		{reasonNoCell, nil},
		{reasonNoLimit, nil},
		{reasonLimitTwice, nil},
		{reasonStarting, nil},
		{reasonNoAuthority, nil},
		{reasonNotRead, nil},
		{reasonMissing, []string{"found", "needed"}},
		{reasonNear, []string{"value", "inside"}},
		{reasonNoUncertainty, nil},
		{reasonRecheck, []string{"event", "date"}},
		{reasonHoldDowns, nil},
		{reasonHoldDownsBlank, nil},
		{reasonClamps, nil},
		{reasonClampsBlank, nil},
		{reasonInstrument, []string{"instrument", "used", "due"}},
		{reasonCalibrated, []string{"instrument", "used", "calibrated"}},
		{reasonNoDate, nil},
		{reasonWaiver, nil},
	}
}

func code(key string, args ...Arg) Code { return Code{Key: key, Args: args} }

func textArg(name, text string) Arg { return Arg{Name: name, Text: text} }

func amountArg(name string, a Amount) Arg { return Arg{Name: name, Amount: &a} }

func numberArg(name string, n int) Arg { return Arg{Name: name, Number: &n} }
