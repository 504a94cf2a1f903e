package correct

import (
	"math"

	"asleft/internal/measure"
)

// MaxFeet bounds the feet of one machine.
const MaxFeet = 16

// lattice is a set of feet on which whole steps can be chosen for both slopes
// without a foot leaving the plane: foot k is raised by (lift + a_k·i + b_k·j)
// steps, with a and b zero or one.
//
// Three feet always lie in a plane. Of four, in order round the machine, the
// first and third raised are as much as the second and fourth if their
// places are so, too: a rectangle, or any parallelogram.
type lattice struct {
	feet []Foot
	a, b []int
	step measure.Length
	e, f exactVec // from the first foot to the second, and to the last
}

// exactVec is a vector in plan in whole nanometers.
type exactVec struct{ x, y int64 }

// det is e × f in floating point; it is only held against zero and divided by.
func det(e, f exactVec) float64 {
	return float64(float64(e.x)*float64(f.y)) - float64(float64(e.y)*float64(f.x))
}

func between(from, to Foot) exactVec {
	return exactVec{int64(to.Along - from.Along), int64(to.Across - from.Across)}
}

// newLattice returns false where the feet are no lattice.
func newLattice(feet []Foot, step measure.Length) (lattice, bool) {
	l := lattice{feet: feet, step: step}
	switch len(feet) {
	case 3:
		l.a, l.b = []int{0, 1, 0}, []int{0, 0, 1}
	case 4:
		if between(feet[0], feet[1]) != between(feet[3], feet[2]) {
			return lattice{}, false
		}
		l.a, l.b = []int{0, 1, 1, 0}, []int{0, 0, 1, 1}
	default:
		return lattice{}, false
	}
	l.e, l.f = between(feet[0], feet[1]), between(feet[0], feet[len(feet)-1])
	return l, !narrow(feet)
}

// slope is g with g·e = i·step and g·f = j·step.
func (l lattice) slope(i, j int) vec {
	d := det(l.e, l.f)
	si, sj := float64(l.step)*float64(i), float64(l.step)*float64(j)
	return vec{
		(float64(si*float64(l.f.y)) - float64(sj*float64(l.e.y))) / d,
		(float64(sj*float64(l.e.x)) - float64(si*float64(l.f.x))) / d,
	}
}

// steps is the inverse of slope, not rounded.
func (l lattice) steps(g vec) (i, j float64) {
	e := vec{float64(l.e.x), float64(l.e.y)}
	f := vec{float64(l.f.x), float64(l.f.y)}
	return g.dot(e) / float64(l.step), g.dot(f) / float64(l.step)
}

// change is the change of foot k in steps.
func (l lattice) change(k, i, j, lift int) int { return lift + l.a[k]*i + l.b[k]*j }

// raise is the height added at the fan's axis, the origin of the plan.
func (l lattice) raise(i, j, lift int) float64 {
	at := vec{float64(l.feet[0].Along), float64(l.feet[0].Across)}
	return float64(float64(l.step)*float64(lift)) - l.slope(i, j).dot(at)
}

// narrow tells whether the feet stand nearly on one line, so that shims decide
// one slope only: their smallest extent is under a hundredth of the largest.
func narrow(feet []Foot) bool {
	const ratio = 100
	if len(feet) < 3 {
		return true
	}
	sxx, sxy, syy := scatter(feet)
	mid, half := (sxx+syy)/2, hypot((sxx-syy)/2, sxy)
	return !(mid-half > (mid+half)/(ratio*ratio))
}

// scatter returns the sums of squares and products about the feet's center.
func scatter(feet []Foot) (sxx, sxy, syy float64) {
	c := centroid(feet)
	for _, f := range feet {
		d := vec{float64(f.Along), float64(f.Across)}.minus(c)
		sxx += float64(d.x * d.x)
		sxy += float64(d.x * d.y)
		syy += float64(d.y * d.y)
	}
	return sxx, sxy, syy
}

func centroid(feet []Foot) vec {
	var c vec
	for _, f := range feet {
		c = c.plus(vec{float64(f.Along), float64(f.Across)})
	}
	return c.times(1 / float64(len(feet)))
}

// plane fits heights at the feet by least squares: slope g, height c at the
// origin, and the foot that is farthest out of the plane.
func plane(feet []Foot, height []float64) (g vec, c float64, worst int, off float64) {
	sxx, sxy, syy := scatter(feet)
	at, mean := centroid(feet), 0.0
	for _, h := range height {
		mean += h / float64(len(feet))
	}
	var sx, sy float64
	for k, f := range feet {
		d := vec{float64(f.Along), float64(f.Across)}.minus(at)
		sx += float64(d.x * (height[k] - mean))
		sy += float64(d.y * (height[k] - mean))
	}
	d := float64(sxx*syy) - float64(sxy*sxy)
	g = vec{(float64(sx*syy) - float64(sy*sxy)) / d, (float64(sy*sxx) - float64(sx*sxy)) / d}
	c = mean - g.dot(at)
	for k, f := range feet {
		r := height[k] - c - g.dot(vec{float64(f.Along), float64(f.Across)})
		if k == 0 || math.Abs(r) > math.Abs(off) {
			worst, off = k, r
		}
	}
	return g, c, worst, off
}
