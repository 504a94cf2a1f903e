// Package fit holds numerics with no trade words: harmonic least squares, the
// minimax center of a ring of points, the window that holds most of a list.
//
// In come slices of float64 (angles in radians, distances in any one unit) and
// out come float64 values with the numbers that say how far to trust them: a
// condition number, residuals, a certificate of optimality. Callers round once
// on leaving. Start with [FitHarmonic], [LeastSquares], [MinimaxCenter],
// [MinimumZone], [MaximinCenter] and [TightestWindow].
//
// Every answer is checked by its own optimality law before it is returned:
// least squares by residuals orthogonal to the columns, a center by multipliers
// that [Check] verifies. An answer that does not check is an error.
//
// # The same bits everywhere
//
// The Go specification lets a compiler fuse x*y + z into one rounding, and some
// targets do. In the center solvers every product that feeds a sum is therefore
// written float64(x*y), which forbids it, and sines and cosines are computed
// here: their results are the same bits on every target. Least squares goes
// through gonum, whose kernels differ between targets. With orthogonal columns,
// as in a harmonic fit over even positions, the results agree to about 1e-14
// relative, 1e-7 nm in a reading of an inch. They are rounded to whole
// nanometers outside, so a visible difference needs a value that close to a
// half.
//
// The package refuses to know what a distance is measured between, what its
// limit is, and what anybody should do about it.
package fit
