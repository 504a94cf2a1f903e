// Package correct says what to move: which foot, which way, how much, and what
// the readings will be afterwards.
//
// In come readings of one state, the geometry of the drive, today's shims and
// the limits; out come typed moves with their amounts, predicted readings with
// their uncertainty, what no move can cure, and codes for everything that is to
// be said. Each question has a solver of its own on small structs:
//
//	SolveShims     tilt → whole steps of shims, coplanar, within stack and level
//	SolveCenter    gaps → slide, after the shift that the shims make
//	SolveCycle     a hub out of square or off its seat, told from single blades
//	SolveBlades    fewest blades to touch
//	SolveDrive     two flex planes → motor feet, and what moved planes do
//	CloseLoop      as found + logged moves against as left, and the usual slips
//
// CellPlan puts them in order for one cell: one state, the fewest things
// disturbed, nothing moved that is within its limit. Correct does it for a
// record.
//
// # Frame
//
// Plan view, looking down: x (along) points toward the motor, y (across) toward
// the 90° side, z up; degrees grow clockwise from the motor. The frame is
// left-handed; no formula here takes a cross product. Slopes are small: moves
// are found to first order, gaps are evaluated again exactly.
//
// # The same bits everywhere
//
// Lengths are whole nanometers outside and float64 inside; a result is rounded
// once. Products that feed sums are written float64(x*y), which forbids fused
// rounding. Probabilities and quantiles come from gonum and only ever decide
// against a threshold or are rounded to a nanometer.
//
// The package refuses to know any word, page, file or clock, and where a crew
// stood: its input is turned into the frame already.
package correct
