package compose

import (
	"asleft/internal/assess"
	"asleft/internal/field"
)

// runPart is a part of the start-up record under one heading: tables side by
// side, or one across the page, with a row per run and a column per line.
type runPart struct {
	key    string // heading "startup." + key
	checks []string
	tables [][]runLine
}

// runLine is a column of the record: what was typed of a run, or what follows
// from it.
type runLine struct {
	label   string                             // phrase
	entry   string                             // member of the run in the data file, of what was typed
	typed   func(*book, *field.StartUp) string // nil for results
	check   string                             // of a result
	result  string                             // name of the result; "deciding" for what is held against the limit
	verdict bool                               // the line holds the verdict of the check
	words   func(*book, *field.StartUp) string // typed, in words of ours: has no path
	wide    bool
}

func quantityLine(label, entry string, get func(*field.StartUp) field.Quantity) runLine {
	return runLine{label: label, entry: entry, typed: func(b *book, s *field.StartUp) string { return b.quantityTyped(get(s)) }}
}

func resultOf(label, check, result string) runLine {
	return runLine{label: label, check: check, result: result}
}

// verdictOf is the line of what is held against the limit, with the verdict.
func verdictOf(check string) runLine {
	return runLine{label: "check." + check, check: check, result: "deciding", verdict: true}
}

// runParts are the start-up record in print, vibration aside.
func runParts() []runPart {
	return []runPart{
		{partConditions, []string{assess.Rotation, assess.Reverse, assess.RunTime}, [][]runLine{conditionLines()}},
		{partElectrical, []string{assess.VoltUnbalance, assess.AmpUnbalance, assess.AmpLoad, assess.Insulation},
			[][]runLine{voltLines(), ampLines(), insulationLines()}},
		{partSpeeds, []string{assess.SpeedRatio, assess.TipSpeed}, [][]runLine{speedLines()}},
		{partOil, []string{assess.OilLevel, assess.OilTemperature, assess.BearingTemp}, [][]runLine{oilLines()}},
	}
}

func conditionLines() []runLine {
	return []runLine{
		{label: "startup.date", wide: true, words: func(b *book, s *field.StartUp) string {
			return join(", ", join(" ", b.typedDay(s.Date), b.typedTime(s.Time)), b.text(s.By))
		}},
		quantityLine("startup.air", "airTemperature", func(s *field.StartUp) field.Quantity { return s.AirTemperature }),
		{label: "startup.water", words: func(b *book, s *field.StartUp) string { return b.code("water", s.Water) }},
		quantityLine("startup.frequency", "frequency", func(s *field.StartUp) field.Quantity { return s.Frequency }),
		{label: "check.rotation", check: assess.Rotation, verdict: true, words: func(b *book, s *field.StartUp) string {
			return join(", ", b.yesNo("startup.rotation", s.RotationOK), b.yesNo("startup.uncoupled", s.Uncoupled))
		}},
		{label: "check.reverse", check: assess.Reverse, verdict: true, words: func(b *book, s *field.StartUp) string {
			return b.answer(s.ReverseOK)
		}},
		withVerdict(assess.RunTime, quantityLine("check.runtime", "runTime", func(s *field.StartUp) field.Quantity { return s.RunTime })),
	}
}

// withLine is what the part was read with.
func withLine(label, entry string, get func(*field.StartUp) field.Text) runLine {
	return runLine{label: label, entry: entry, typed: func(b *book, s *field.StartUp) string { return b.text(get(s)) }}
}

// withVerdict is a line of what was typed that holds the verdict of a check, too.
func withVerdict(check string, l runLine) runLine {
	l.check, l.verdict = check, true
	return l
}

// phaseLines are three readings of three phases.
func phaseLines(label, entry string, names [3]string, get func(*field.StartUp) *[3]field.Quantity) []runLine {
	var out []runLine
	for i, n := range names {
		out = append(out, quantityLine(label+n, entry+n, func(s *field.StartUp) field.Quantity { return get(s)[i] }))
	}
	return out
}

func voltLines() []runLine {
	lines := phaseLines("startup.volts", "volts", [3]string{"12", "23", "31"}, func(s *field.StartUp) *[3]field.Quantity { return &s.Volts })
	return append(lines, resultOf("startup.mean", assess.VoltUnbalance, "mean"), verdictOf(assess.VoltUnbalance),
		withLine("startup.meterwith", "meter", func(s *field.StartUp) field.Text { return s.Meter }))
}

func ampLines() []runLine {
	lines := phaseLines("startup.amps", "amps", [3]string{"1", "2", "3"}, func(s *field.StartUp) *[3]field.Quantity { return &s.Amps })
	return append(lines, resultOf("startup.mean", assess.AmpUnbalance, "mean"), verdictOf(assess.AmpUnbalance), verdictOf(assess.AmpLoad))
}

func insulationLines() []runLine {
	return []runLine{
		quantityLine("startup.insulation", "insulation", func(s *field.StartUp) field.Quantity { return s.Insulation }),
		quantityLine("startup.windingtemp", "insulationTemp", func(s *field.StartUp) field.Quantity { return s.InsulationTemp }),
		quantityLine("startup.testvolts", "insulationTest", func(s *field.StartUp) field.Quantity { return s.InsulationTest }),
		{label: "startup.winding", words: func(b *book, s *field.StartUp) string { return b.code("winding", s.WindingType) }},
		resultOf("startup.factor", assess.Insulation, "factor"),
		resultOf("startup.recommended", assess.Insulation, "recommended"),
		verdictOf(assess.Insulation),
		withLine("startup.with", "insulationTester", func(s *field.StartUp) field.Text { return s.InsulationTester }),
	}
}

func speedLines() []runLine {
	return []runLine{
		quantityLine("startup.motorspeed", "motorSpeed", func(s *field.StartUp) field.Quantity { return s.MotorSpeed }),
		quantityLine("startup.fanspeed", "fanSpeed", func(s *field.StartUp) field.Quantity { return s.FanSpeed }),
		resultOf("startup.expected", assess.SpeedRatio, "expected"),
		verdictOf(assess.SpeedRatio),
		verdictOf(assess.TipSpeed),
		withLine("startup.with", "tachometer", func(s *field.StartUp) field.Text { return s.Tachometer }),
	}
}

func oilLines() []runLine {
	return []runLine{
		{label: "check.oillevel", check: assess.OilLevel, verdict: true, words: func(b *book, s *field.StartUp) string {
			return b.yesNo("startup.oil", s.OilLevelOK)
		}},
		withVerdict(assess.OilTemperature, quantityLine("check.oiltemp", "oilTemperature", func(s *field.StartUp) field.Quantity { return s.OilTemperature })),
		quantityLine("startup.bearingdrive", "bearingDrive", func(s *field.StartUp) field.Quantity { return s.Bearing[0] }),
		quantityLine("startup.bearingother", "bearingOther", func(s *field.StartUp) field.Quantity { return s.Bearing[1] }),
		{label: "check.bearingtemp", check: assess.BearingTemp, verdict: true},
		withLine("startup.with", "thermometer", func(s *field.StartUp) field.Text { return s.Thermometer }),
	}
}

func switchLines() []runLine {
	return []runLine{
		quantityLine("startup.setpoint", "switchSetPoint", func(s *field.StartUp) field.Quantity { return s.SwitchSetPoint }),
		{label: "startup.trip", check: assess.VibrationSwitch, verdict: true, words: func(b *book, s *field.StartUp) string {
			return b.yesNo("startup.tripped", s.SwitchTrip)
		}},
		withLine("startup.vibrationwith", "vibrationMeter", func(s *field.StartUp) field.Text { return s.VibrationMeter }),
	}
}

// Parts of the start-up record; none where there is no record.
const (
	partNone       = "none"
	partConditions = "conditions"
	partElectrical = "electrical"
	partSpeeds     = "speeds"
	partOil        = "oilpart"
	partVibration  = "vibration"
)

// startUpPart is the part that tells of a check of the start-up, empty for other
// checks.
func startUpPart(check string) string {
	switch check {
	case assess.Rotation, assess.Reverse, assess.RunTime:
		return partConditions
	case assess.VoltUnbalance, assess.AmpUnbalance, assess.AmpLoad, assess.Insulation:
		return partElectrical
	case assess.SpeedRatio, assess.TipSpeed:
		return partSpeeds
	case assess.OilLevel, assess.OilTemperature, assess.BearingTemp:
		return partOil
	case assess.Vibration, assess.VibrationSwitch:
		return partVibration
	}
	return ""
}
