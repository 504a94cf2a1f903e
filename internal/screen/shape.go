package screen

import "math"

// A crew sets a fan's height, its tilt and its center: the mean of a row and
// one cycle per turn. What is left differs from cell to cell by itself.
const shapes = 3

// left is the sum of squares of y about its mean and one cycle over the angles,
// and the degrees of freedom; y is in steps. Fewer freedoms than readings less
// three come out where angles coincide.
func left(angles, y []float64) (squares float64, freedom int) {
	var basis [shapes][]float64
	freedom = len(y)
	for k := range basis {
		column := make([]float64, len(y))
		for i, a := range angles {
			switch k {
			case 0:
				column[i] = 1
			case 1:
				column[i] = math.Cos(a)
			case 2:
				column[i] = math.Sin(a)
			}
		}
		for range 2 { // the second pass takes out what rounding left
			for _, b := range basis[:k] {
				subtract(column, b, dot(column, b))
			}
		}
		size := math.Sqrt(dot(column, column))
		if size < 1e-6 {
			basis[k] = make([]float64, len(y))
			continue
		}
		for i := range column {
			column[i] /= size
		}
		basis[k] = column
		freedom--
	}
	rest := append([]float64{}, y...)
	for range 2 {
		for _, b := range basis {
			subtract(rest, b, dot(rest, b))
		}
	}
	return dot(rest, rest), freedom
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

func subtract(a, b []float64, times float64) {
	for i := range a {
		a[i] -= times * b[i]
	}
}

// scatter is the least variance, in squares of a step, by which two readings of
// like cells differ beside what a crew sets and what rounding does: from one
// row, doubled, or from the difference of two.
func (x *row) scatter(y *row, step int64) (float64, bool) {
	var angles, values []float64
	rounding, rows := 1.0/12, 2.0
	for i, v := range x.values {
		d := float64(v.n)
		if y != nil {
			if i >= len(y.values) || !y.values[i].set {
				continue
			}
			d -= float64(y.values[i].n)
		}
		if v.set {
			angles, values = append(angles, x.angles[i]), append(values, d/float64(step))
		}
	}
	if len(values) < leastRow {
		return 0, false
	}
	if y != nil {
		rounding, rows = 1.0/6, 1
	}
	squares, freedom := left(angles, values)
	return rows * max(0, leastVariance(squares, freedom)-rounding), true
}
