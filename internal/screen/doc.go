// Package screen asks what a reader with time and a suspicious mind would ask of
// a tower's readings: is a row copied, was anything really read twice, do the
// dates fit. It is for the audit only.
//
// In comes the record; out come [Question] values: codes with arguments, the
// readings that were looked at, the odds, and where to look. A question changes
// no verdict and accuses nobody.
//
// # What is asked, and how often of honest towers
//
// Each statistical question keeps its share of [Risk] over a whole tower,
// however many cells, rounds and rows are compared for it: the chance of one
// comparison times their number must not exceed it.
//
//   - [SameRow], [SameSheet]: the same readings in two cells, in one block or in
//     all blocks of a round together, also with some of them changed. Cells of one
//     make are alike, and a crew sets them alike, so mean and once-round cycle of
//     two cells count as the same, and three readings of each row may agree for
//     nothing. The others agree with the chance [agreeing], from the scatter that
//     is left in the row itself and, round the cylinder, between it and other
//     cells' rows (a mold or a deck gives all cells one shape); taken at the low
//     end of its confidence, on the scale that people read to rather than the one
//     printed on the rule. What agrees for want of scatter is never asked about.
//     Rows of fewer than six readings are not compared; round the cylinder three
//     cells are needed.
//   - [SameRound]: the same readings in two rounds of one cell, in more places
//     than first readings agree when they are read again, by block, of the tower.
//   - [NoScatter]: somebody's first readings, read again, are never different,
//     counting only values between the marks that people prefer. Supposed is that
//     an error of reading is no less than a tenth of a step.
//   - [RoundMarks]: last fractions or digits of one cell unlike those of the other
//     cells of the same reader, instrument, block and round. Nothing is supposed
//     about anybody's habit: rows are dealt out among the cells anew.
//
// The four add up to at most 4 honest towers in 1 000 that are asked anything by
// chance; at most 1 in 100 is what may be said, and what the tests prove with
// 1 000 towers at 95 % confidence. Dates and times are either possible or not,
// and have no odds. What the assessment already says as a verdict or a reason,
// such as an instrument out of date in the round that is judged, is not asked
// again.
//
// Not asked: whether a row is too even (a well-set fan read to a coarse mark is),
// and whether last digits are spread evenly (people prefer some, honestly).
//
// The package refuses to know limits, verdicts, the clock, and words.
package screen
