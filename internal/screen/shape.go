package screen

import (
	"math"
	"slices"
)

// A crew sets a fan's height, its tilt and its center: the mean of a row and
// one cycle per turn. What is left differs from cell to cell by itself.
const shapes = 3

// left is what is left of y about its mean and one cycle over the angles, and
// the degrees of freedom of it: readings less three, or more where angles
// coincide.
func left(angles, y []float64) (rest []float64, freedom int) {
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
	rest = append([]float64{}, y...)
	for range 2 {
		for _, b := range basis {
			subtract(rest, b, dot(rest, b))
		}
	}
	return rest, freedom
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
	rest, freedom := left(angles, values)
	return rows * max(0, variance(rest, freedom)-rounding), true
}

// variance is that behind what is left of a fit, the lesser of two: the one that
// its sum of squares exceeds as often as not, and the one that the middle one of
// its squares tells, which a few odd readings do not change.
func variance(rest []float64, freedom int) float64 {
	if freedom < 1 {
		return 0
	}
	squares := make([]float64, len(rest))
	for i, x := range rest {
		squares[i] = x * x
	}
	slices.Sort(squares)
	n := len(squares)
	middle := (squares[(n-1)/2] + squares[n/2]) / 2 * float64(n) / float64(freedom)
	return min(dot(rest, rest)/middleOf(freedom), middle/middleOf(1))
}

// middleOf is the median of chi-square, within 0.7 % from three degrees of freedom
// on: k(1−2/9k)³ (Wilson and Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684,
// citation from memory), and for one degree the square of the normal quartile.
func middleOf(freedom int) float64 {
	if freedom == 1 {
		return 0.454936423119573
	}
	k := float64(freedom)
	c := 1 - 2/(9*k)
	return k * c * c * c
}
