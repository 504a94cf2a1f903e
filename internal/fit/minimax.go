package fit

import (
	"errors"
	"math"
)

// maxUnknowns is the number of unknowns x of the largest problem here: two for
// a center and one for a mean.
const maxUnknowns = 3

// A row is one constraint q·x + p ≤ w·h of the problem "minimize h". With w = 1
// it bounds the objective from below; with w = 0 it limits x alone.
type row struct {
	q    [maxUnknowns]float64
	p, w float64
}

// at returns q·x + p.
func (r row) at(x [maxUnknowns]float64) float64 {
	return r.p + float64(r.q[0]*x[0]) + float64(r.q[1]*x[1]) + float64(r.q[2]*x[2])
}

// A vertex is a solution: x, the objective h, and the rows that hold it there
// with their multipliers λ ≥ 0: Σ λ q = 0 and Σ λ w = 1.
type vertex struct {
	x      [maxUnknowns]float64
	h      float64
	active []int // index of a row; len(rows) and above are sides of the box
	lambda []float64
}

// Tolerances of the exchange, for rows scaled to values about 1.
const (
	violationTol = 1e-13 // a row above the objective by less is not entered
	pivotTol     = 1e-11 // smaller pivots would lose five digits of a vertex
	zeroLambda   = 1e-9  // a multiplier below this holds nothing
)

// Bounds on the work. A vertex of 720 rows takes about 20 exchanges; past
// blandAfter the lowest-index rule, which cannot cycle, replaces the fastest.
const (
	blandAfter   = 200
	maxExchanges = 2000
)

var (
	errNoVertex = errors.New("minimax exchange did not finish")
	errSingular = errors.New("minimax exchange met a singular basis")
)

// minimize finds x in the box |x_j| ≤ box[j] that minimizes h subject to the
// rows, of which at least one has w = 1. Only the first dim unknowns are used.
//
// It is the exchange algorithm, that is the simplex method on the dual: a basis
// of dim+1 rows with non-negative multipliers is kept, the most violated row
// enters, and the ratio test says which leaves (Cheney, Introduction to
// Approximation Theory, 1966, chapter 2, sections 5 to 7). The sides of the box
// give the first basis without a search.
func minimize(rows []row, dim int, box [maxUnknowns]float64) (vertex, error) {
	e := newExchange(rows, dim, box)
	for n := 0; n < maxExchanges; n++ {
		if !e.invert() {
			return vertex{}, errSingular
		}
		e.solve()
		enter := e.violated(n > blandAfter)
		if enter < 0 {
			return e.vertex(), nil
		}
		leave := e.leaving(enter, n > blandAfter)
		if leave < 0 { // no x satisfies the rows with w = 0
			return vertex{}, errNoVertex
		}
		e.basis[leave] = enter
	}
	return vertex{}, errNoVertex
}

// An exchange is the state of minimize.
type exchange struct {
	rows  []row // the given rows, then the sides of the box
	size  int   // dim + 1
	dim   int
	basis []int
	inv   [maxUnknowns + 1][maxUnknowns + 1]float64 // inverse of the basis matrix
	x     [maxUnknowns]float64
	h     float64
}

func newExchange(rows []row, dim int, box [maxUnknowns]float64) *exchange {
	e := &exchange{rows: append([]row(nil), rows...), size: dim + 1, dim: dim}
	first := 0
	for i, r := range rows {
		if r.w > 0 {
			first = i
			break
		}
	}
	e.basis = append(e.basis, first)
	for j := range dim {
		for _, side := range []float64{1, -1} {
			r := row{p: -box[j]}
			r.q[j] = side
			e.rows = append(e.rows, r)
		}
		// The side whose multiplier |q_j| balances the first row's q_j.
		side := len(e.rows) - 2
		if rows[first].q[j] > 0 {
			side++
		}
		e.basis = append(e.basis, side)
	}
	return e
}

// column returns row k's column of the dual, (q, w).
func (e *exchange) column(k int) [maxUnknowns + 1]float64 {
	var a [maxUnknowns + 1]float64
	copy(a[:], e.rows[k].q[:e.dim])
	a[e.dim] = e.rows[k].w
	return a
}

// invert computes the inverse of the matrix with the basis columns, by
// Gauss-Jordan elimination with partial pivoting.
func (e *exchange) invert() bool {
	var m [maxUnknowns + 1][maxUnknowns + 1]float64
	e.inv = [maxUnknowns + 1][maxUnknowns + 1]float64{}
	for j, k := range e.basis {
		a := e.column(k)
		for i := range e.size {
			m[i][j] = a[i]
		}
		e.inv[j][j] = 1
	}
	for col := range e.size {
		pivot := col
		for i := col + 1; i < e.size; i++ {
			if math.Abs(m[i][col]) > math.Abs(m[pivot][col]) {
				pivot = i
			}
		}
		if math.Abs(m[pivot][col]) < pivotTol*pivotTol {
			return false
		}
		m[col], m[pivot] = m[pivot], m[col]
		e.inv[col], e.inv[pivot] = e.inv[pivot], e.inv[col]
		for i := range e.size {
			if i == col {
				continue
			}
			f := m[i][col] / m[col][col]
			for j := range e.size {
				m[i][j] -= float64(f * m[col][j])
				e.inv[i][j] -= float64(f * e.inv[col][j])
			}
		}
	}
	for i := range e.size {
		for j := range e.size {
			e.inv[i][j] /= m[i][i]
		}
	}
	return true
}

// times returns inverse · a.
func (e *exchange) times(a [maxUnknowns + 1]float64) [maxUnknowns + 1]float64 {
	var out [maxUnknowns + 1]float64
	for i := range e.size {
		for j := range e.size {
			out[i] += float64(e.inv[i][j] * a[j])
		}
	}
	return out
}

// solve sets x and h so that every basis row is an equality:
// q·x − w·h = −p, the transposed system.
func (e *exchange) solve() {
	var z [maxUnknowns + 1]float64
	for i := range e.size {
		for j, k := range e.basis {
			z[i] -= float64(e.inv[j][i] * e.rows[k].p)
		}
	}
	copy(e.x[:], z[:e.dim])
	e.h = -z[e.dim]
}

// lambda returns the multipliers of the basis: inverse · (0, …, 0, 1).
func (e *exchange) lambda() [maxUnknowns + 1]float64 {
	var unit [maxUnknowns + 1]float64
	unit[e.dim] = 1
	return e.times(unit)
}

// violated returns the most violated row, or the first one, or −1.
func (e *exchange) violated(first bool) int {
	worst, at := violationTol*(1+math.Abs(e.h)), -1
	for k, r := range e.rows {
		over := r.at(e.x) - float64(r.w*e.h)
		if over <= worst || e.inBasis(k) {
			continue
		}
		worst, at = over, k
		if first {
			break
		}
	}
	return at
}

func (e *exchange) inBasis(k int) bool {
	for _, b := range e.basis {
		if b == k {
			return true
		}
	}
	return false
}

// leaving returns the place in the basis whose multiplier reaches zero first
// when row enter comes in. Among ties the largest pivot leaves, for accuracy,
// or the lowest row number, against cycling.
func (e *exchange) leaving(enter int, lowest bool) int {
	change := e.times(e.column(enter))
	lambda := e.lambda()
	best, at := math.Inf(1), -1
	for i := range e.size {
		if change[i] <= pivotTol {
			continue
		}
		ratio := math.Max(lambda[i], 0) / change[i]
		switch {
		case at < 0 || ratio < best-violationTol:
		case ratio > best+violationTol:
			continue
		case lowest && e.basis[i] > e.basis[at]:
			continue
		case !lowest && change[i] <= change[at]:
			continue
		}
		best, at = math.Min(best, ratio), i
	}
	return at
}

// vertex copies the solution out.
func (e *exchange) vertex() vertex {
	v := vertex{x: e.x, h: e.h}
	lambda := e.lambda()
	for i, k := range e.basis {
		v.active = append(v.active, k)
		v.lambda = append(v.lambda, lambda[i])
	}
	return v
}
