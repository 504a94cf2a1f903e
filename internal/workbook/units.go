package workbook

import "asleft/internal/measure"

// What quantities may be typed in, and what is meant where no unit is typed.
var (
	torque      = oneUnit(measure.Torque, measure.PoundFoot, measure.NewtonMeter)
	temperature = oneUnit(measure.Temperature, measure.Fahrenheit, measure.Celsius)
	voltage     = oneUnit(measure.Voltage, measure.Volt, measure.Volt)
	current     = oneUnit(measure.Current, measure.Ampere, measure.Ampere)
	resistance  = oneUnit(measure.Resistance, measure.Megohm, measure.Megohm)
	turning     = oneUnit(measure.RotationalSpeed, measure.RPM, measure.RPM)
	frequency   = oneUnit(measure.Frequency, measure.Hertz, measure.Hertz)
	percentage  = oneUnit(measure.Percentage, measure.Percent, measure.Percent)
	duration    = oneUnit(measure.Time, measure.Hour, measure.Hour)
	tipSpeed    = oneUnit(measure.Speed, measure.FootPerMinute, measure.MeterPerSecond)
	// A torque or a part of it, and a current or a part of the nameplate's: the
	// unit says which.
	torqueOrPart  = unitSet{kinds: []measure.QuantityKind{measure.Torque, measure.Percentage}}
	currentOrPart = unitSet{kinds: []measure.QuantityKind{measure.Percentage, measure.Current}}
	// A vibration has no unit that everybody means.
	vibration = unitSet{kinds: []measure.QuantityKind{measure.VibrationVelocityRMS, measure.VibrationVelocityPeak,
		measure.VibrationDisplacementRMS, measure.VibrationDisplacementPeakToPeak}}
)

func oneUnit(kind measure.QuantityKind, inch, metric measure.QuantityUnit) unitSet {
	return unitSet{kinds: []measure.QuantityKind{kind}, inch: inch, metric: metric}
}

// detected narrows vibrations to what a detector reads.
func detected(code string) unitSet {
	switch code {
	case "rms":
		return unitSet{kinds: []measure.QuantityKind{measure.VibrationVelocityRMS, measure.VibrationDisplacementRMS}}
	case "peak":
		return unitSet{kinds: []measure.QuantityKind{measure.VibrationVelocityPeak, measure.VibrationDisplacementPeakToPeak}}
	}
	return vibration
}
