package correct

import (
	"math"
	"math/big"

	"asleft/internal/measure"
)

// OwnLevel is the level of what is shimmed, as read on itself, and its limit,
// each way. Positive is higher toward the motor and toward the 90° side.
type OwnLevel struct {
	Lean
	Limit measure.Slope
}

// sure is the distance from a limit, as a slope, above which floating point
// decides; nearer, rational numbers do.
const sure = 1e-12

// allows tells whether the steps (i, j) leave the level within its limit each
// way. Where it is outside today, they must not make it worse.
func (o *OwnLevel) allows(l lattice, i, j int) bool {
	along, across := o.binds(l, i, j)
	return !along && !across
}

// binds tells which way the steps (i, j) would take the level outside.
func (o *OwnLevel) binds(l lattice, i, j int) (along, across bool) {
	g := l.slope(i, j)
	return o.outside(o.Along, g.x, func() *big.Rat { return l.exact(i, j, l.f.y, -l.e.y) }),
		o.outside(o.Across, g.y, func() *big.Rat { return l.exact(i, j, -l.f.x, l.e.x) })
}

func (o *OwnLevel) outside(now measure.Slope, added float64, exact func() *big.Rat) bool {
	limit := o.Limit.Abs()
	if now.Abs().Cmp(limit) > 0 {
		limit = now.Abs()
	}
	over := math.Abs(now.Float()+added) - limit.Float()
	if math.Abs(over) > sure {
		return over > 0
	}
	sum := now.Number().Rat()
	return sum.Abs(sum.Add(sum, exact())).Cmp(limit.Number().Rat()) > 0
}

// exact is step·(i·p + j·q)/det as a rational number: one component of slope.
func (l lattice) exact(i, j int, p, q int64) *big.Rat {
	product := func(a, b int64) *big.Int { return new(big.Int).Mul(big.NewInt(a), big.NewInt(b)) }
	top := new(big.Int).Add(product(int64(i), p), product(int64(j), q))
	top.Mul(top, big.NewInt(int64(l.step)))
	bottom := new(big.Int).Sub(product(l.e.x, l.f.y), product(l.e.y, l.f.x))
	return new(big.Rat).SetFrac(top, bottom)
}
