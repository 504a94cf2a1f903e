package fit

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// An IllConditioned error says that the columns of a least-squares problem are
// too nearly dependent for an answer to mean anything. Its value is the
// condition number.
type IllConditioned float64

// Error states the number.
func (e IllConditioned) Error() string {
	return fmt.Sprintf("columns nearly dependent, condition number %.3g", float64(e))
}

// Limits of least squares.
const (
	// maxCondition of columns scaled to length 1: beyond it fewer than about
	// four digits of a coefficient are left. Longley's data reach 4e7.
	maxCondition = 1e12
	// orthogonalTol bounds |column·residual| / (|column|·|y|). It is zero in
	// exact arithmetic; Householder QR leaves a few units of 1e-16.
	orthogonalTol = 1e-11
	// maxCells bounds rows × columns.
	maxCells = 1 << 20
)

// ErrNotOrthogonal reports a least-squares answer that failed its own
// optimality law. It is a defect of the solver, never of the data.
var ErrNotOrthogonal = errors.New("residuals not orthogonal to the columns")

// A Linear is the answer of a linear least-squares problem: the coefficients b
// that minimize |y − X b|².
type Linear struct {
	Coef       []float64
	SD         []float64   // standard deviations of Coef; nil if DOF is 0
	Residuals  []float64   // y − X b
	RSS        float64     // sum of squared residuals
	ResidualSD float64     // √(RSS/DOF); 0 if DOF is 0
	DOF        int         // rows less columns
	Cond       float64     // condition number with columns scaled to length 1
	Unscaled   [][]float64 // (XᵀX)⁻¹; times a variance of y it is the covariance of Coef
}

// LeastSquares solves y ≈ X b with the rows of X given, by Householder QR after
// scaling every column to length 1. The scaling changes no answer; it makes
// Cond say how nearly dependent the columns are whatever their units.
//
// SD follows from (XᵀX)⁻¹, which is Unscaled, times ResidualSD². It is an
// error if rows are fewer than columns or X is ill-conditioned
// ([IllConditioned]).
func LeastSquares(rows [][]float64, y []float64) (Linear, error) {
	n := len(rows)
	if n == 0 || n != len(y) {
		return Linear{}, fmt.Errorf("%w: %d rows for %d values", ErrInput, n, len(y))
	}
	k := len(rows[0])
	if k == 0 || n < k || n*k > maxCells {
		return Linear{}, fmt.Errorf("%w: %d rows for %d columns", ErrInput, n, k)
	}
	length, err := columnLengths(rows, y)
	if err != nil {
		return Linear{}, err
	}
	x := mat.NewDense(n, k, nil)
	for i, r := range rows {
		for j, v := range r {
			x.Set(i, j, v/length[j])
		}
	}
	return solveQR(rows, y, x, length)
}

// columnLengths returns the Euclidean length of each column and checks that all
// numbers are finite.
func columnLengths(rows [][]float64, y []float64) ([]float64, error) {
	length := make([]float64, len(rows[0]))
	for i, r := range rows {
		if len(r) != len(length) {
			return nil, fmt.Errorf("%w: row %d has %d columns, not %d", ErrInput, i, len(r), len(length))
		}
		for j, v := range r {
			length[j] = math.Hypot(length[j], v)
		}
		if !finite(y[i]) {
			return nil, fmt.Errorf("%w: value %d is not finite", ErrInput, i)
		}
	}
	for j, l := range length {
		if !finite(l) {
			return nil, fmt.Errorf("%w: column %d is not finite", ErrInput, j)
		}
		if l == 0 {
			return nil, IllConditioned(math.Inf(1))
		}
	}
	return length, nil
}

// solveQR solves with the scaled matrix x and undoes the scaling.
func solveQR(rows [][]float64, y []float64, x *mat.Dense, length []float64) (Linear, error) {
	var qr mat.QR
	qr.Factorize(x)
	out := Linear{Cond: qr.Cond(), DOF: len(rows) - len(length)}
	if !(out.Cond <= maxCondition) {
		return Linear{}, IllConditioned(out.Cond)
	}
	var b mat.VecDense
	if err := qr.SolveVecTo(&b, false, mat.NewVecDense(len(y), append([]float64(nil), y...))); err != nil {
		return Linear{}, IllConditioned(out.Cond)
	}
	for j, l := range length {
		out.Coef = append(out.Coef, b.AtVec(j)/l)
	}
	out.residuals(rows, y)
	if err := out.checkOrthogonal(rows, y, length); err != nil {
		return Linear{}, err
	}
	out.spread(&qr, length)
	return out, nil
}

// residuals sets Residuals, RSS and ResidualSD.
func (f *Linear) residuals(rows [][]float64, y []float64) {
	for i, r := range rows {
		res := y[i]
		for j, v := range r {
			res -= float64(v * f.Coef[j])
		}
		f.Residuals = append(f.Residuals, res)
		f.RSS += float64(res * res)
	}
	if f.DOF > 0 {
		f.ResidualSD = math.Sqrt(f.RSS / float64(f.DOF))
	}
}

// checkOrthogonal is the optimality law of least squares: Xᵀ(y − X b) = 0.
func (f *Linear) checkOrthogonal(rows [][]float64, y, length []float64) error {
	size := 0.0
	for _, v := range y {
		size = math.Hypot(size, v)
	}
	for j := range length {
		dot := 0.0
		for i, r := range rows {
			dot += float64(r[j] / length[j] * f.Residuals[i])
		}
		if !(math.Abs(dot) <= orthogonalTol*size*math.Max(1, f.Cond*0x1p-20)) {
			return ErrNotOrthogonal
		}
	}
	return nil
}

// spread sets Unscaled and SD. With X = Q R, (XᵀX)⁻¹ = R⁻¹ R⁻ᵀ.
func (f *Linear) spread(qr *mat.QR, length []float64) {
	k := len(length)
	var r, inverse, product mat.Dense
	qr.RTo(&r)
	triangle := mat.NewDense(k, k, nil)
	triangle.Copy(r.Slice(0, k, 0, k))
	// The condition number was checked: the only error here is a warning.
	_ = inverse.Inverse(triangle)
	product.Mul(&inverse, inverse.T())
	for i := range k {
		line := make([]float64, k)
		for j := range k {
			line[j] = product.At(i, j) / (length[i] * length[j])
		}
		f.Unscaled = append(f.Unscaled, line)
		if f.DOF > 0 {
			f.SD = append(f.SD, f.ResidualSD*math.Sqrt(math.Max(line[i], 0)))
		}
	}
}
