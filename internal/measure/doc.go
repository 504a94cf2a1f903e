// Package measure holds exact quantities: it reads what people type, compares
// without rounding, and prints.
//
// In come short texts ("1-1/4", "12,7 mm", "3 ft 2-1/2 in", "60 ft·lb") and
// the raw numbers of spreadsheet cells; out come integers and exact rational
// numbers, or a [ParseError] whose Kind says what was wrong. Start with
// [ParseLength], [ParseAngle], [ParseSlope] and [ParseQuantity]; a numeric
// spreadsheet cell goes through [FromCell] first.
//
//	Length    whole nanometers; 1 in, 1/64 in and 0.0001 in are exact
//	Angle     millionths of an arc second; 0.1°, 1' and 1" are exact
//	Slope     rise over run, compared by cross-multiplying in 128 bits
//	Number    an exact rational number without a unit
//	Quantity  a Number with a unit: torque, pressure, temperature, and so on
//
// No comparison here uses a tolerance: a value exactly at its limit is within.
// A text that could mean two things, or that has no exact value, is an error
// and never a guess. Negative numbers print with the minus sign U+2212; both
// it and the ASCII hyphen are read.
//
// The package refuses to know where a text came from, what the value is a
// measurement of, what its limit is, or in which language people are told.
package measure
