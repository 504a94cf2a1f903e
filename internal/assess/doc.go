// Package assess says what follows from a field record: the verdict of every
// round of every check, what overtakes what, and whether a cell and the whole
// package are ready.
//
// In come a [field.Record] and the [Rules]; out comes an [Assessment]. The one
// call is [Assess], a pure function: no file, no clock, no language, the same
// assessment on any machine on any day, whatever the order of the rounds,
// positions or log rows in the record.
//
//	series     readings of one block and round, turned into whole numbers
//	round      results, points and the verdict of one round (one file per check)
//	item       a line judged by itself: a set of fasteners, a pre-start line, a point of vibration
//	check      its rounds, the standing one, what has overtaken it, what was accepted
//	cell       its checks, reasons for not ready, questions worth a second look
//
// Verdicts are decided on integers, nanometers and millionths of an arc second,
// and for slopes and quantities on rational numbers. A value exactly at its
// limit is within. Results of fits and of what is printed from rational numbers
// are rounded once, and no verdict hangs on them, nor on a probability. The one
// exception is the temperature factor of an insulation resistance, a power of
// two that is rounded to 1e-9 before it is used.
//
// The package makes no prose: it returns a [Code] with typed arguments wherever
// something is to be said; [Codes] lists them all. It knows no move that would
// cure anything, no page, and no limit that was not typed.
package assess
