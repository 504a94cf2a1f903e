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
// Each statistical question keeps to [Risk] over a whole tower, however many
// cells, rounds and rows are compared for it: the chance of one comparison times
// their number must not exceed it.
//
//   - [SameRow], [SameSheet]: the same readings in two cells, in one block or in
//     all blocks of a round together, also with some of them changed. Cells of one
//     make are alike and are set alike, so mean and once-round cycle of two cells
//     count as the same. Beyond those a reading agrees with the chance that
//     follows from the scatter left in the row itself and, round the cylinder,
//     between it and third cells' rows, since a mold or a deck gives all cells one
//     shape; on the scale that people read to rather than the one printed on the
//     rule. What agrees for want of scatter is not asked about. Rows of fewer than
//     six readings are not compared; round the cylinder three cells are needed.
//   - [SameRound]: the same readings in two rounds of one cell, in more places
//     than first readings agree when they are read again, by block, of the tower.
//   - [NoScatter]: somebody's first readings, read again, are never different,
//     counting only values between the marks that people prefer; 66 are needed.
//     Supposed is that an error of reading is no less than a tenth of a step.
//   - [RoundMarks]: last fractions or digits of one cell unlike those of the other
//     cells of the same reader, instrument, block and round. Nothing is supposed
//     about anybody's habit: rows are dealt out among the cells anew.
//
// The first two share one Risk, so that at most 4 honest towers in 1 000 are
// asked anything by chance. 1 in 100 is what may be said: of 1 000 towers of all
// kinds that are honest so few are asked that this is proved at 95 % confidence,
// and of 10 000 in the tests that take longer, 4 in 1 000.
//
// Dates and times are either possible or not, and have no odds. What the
// assessment already says as a verdict or a reason, such as an instrument out of
// date in the round that is judged, is not asked again.
//
// # What is found
//
// Of towers of 6 cells, 8 blades and 12 positions, gaps read to 1/32 in and heights to
// 1/16 in, cells a step and a half apart in shape, at least so many are asked,
// proved at 95 % confidence:
//
//	a cell's 48 readings of the fan copied to another           95 in 100
//	the same, 1 reading in 10 changed                           90 in 100
//	the same, 1 reading in 5 changed                            80 in 100
//	a cell copied where there are only two cells                60 in 100
//	12 readings of tilt, or of clearance, copied                50 in 100
//	one cell copied to all the others                           40 in 100
//	as found copied to as left in a cell, 6 cells               50 in 100
//	the same, 12 cells                                          80 in 100
//	first readings never read again, 12 cells read twice        90 in 100
//	a cell with gaps and heights all on, or all off, every
//	second mark, the others read with a mild habit              90 in 100
//
// A row of blades that is copied alone is mostly not found: 8 readings of a few
// steps each agree too often honestly. Nor is a tower found that one person made
// up whole, with care.
//
// Not asked: whether a row is too even (a well-set fan read to a coarse mark is),
// and whether last digits are spread evenly (people prefer some, honestly).
//
// The package refuses to know limits, verdicts, the clock, and words.
package screen
