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

// gate is a level with its numbers at hand, for a search that asks often.
type gate struct {
	l     lattice
	level *OwnLevel
	ways  [2]struct {
		now, limit float64
		room       measure.Slope // the limit, or today's level where that is outside
	}
}

func newGate(l lattice, o *OwnLevel) *gate {
	if o == nil {
		return nil
	}
	g := &gate{l: l, level: o}
	for k, now := range []measure.Slope{o.Along, o.Across} {
		w := &g.ways[k]
		w.room = o.Limit.Abs()
		if now.Abs().Cmp(w.room) > 0 {
			w.room = now.Abs()
		}
		w.now, w.limit = now.Float(), w.room.Float()
	}
	return g
}

// allows tells whether the steps (i, j) leave the level within its limit each
// way. Where it is outside today, they must not make it worse. No level allows
// all.
func (g *gate) allows(i, j int) bool {
	if g == nil {
		return true
	}
	along, across := g.binds(i, j)
	return !along && !across
}

// binds tells which way the steps (i, j) would take the level outside.
func (g *gate) binds(i, j int) (along, across bool) {
	s := g.l.slope(i, j)
	return g.outside(0, s.x, i, j), g.outside(1, s.y, i, j)
}

func (g *gate) outside(way int, added float64, i, j int) bool {
	w := &g.ways[way]
	over := math.Abs(w.now+added) - w.limit
	if math.Abs(over) > sure {
		return over > 0
	}
	sum, l := g.level.Along.Number().Rat(), g.l
	exact := l.exact(i, j, l.f.y, -l.e.y)
	if way == 1 {
		sum, exact = g.level.Across.Number().Rat(), l.exact(i, j, -l.f.x, l.e.x)
	}
	return sum.Abs(sum.Add(sum, exact)).Cmp(w.room.Number().Rat()) > 0
}

// exact is step·(i·p + j·q)/det as a rational number: one component of slope.
func (l lattice) exact(i, j int, p, q int64) *big.Rat {
	product := func(a, b int64) *big.Int { return new(big.Int).Mul(big.NewInt(a), big.NewInt(b)) }
	top := new(big.Int).Add(product(int64(i), p), product(int64(j), q))
	top.Mul(top, big.NewInt(int64(l.step)))
	bottom := new(big.Int).Sub(product(l.e.x, l.f.y), product(l.e.y, l.f.x))
	return new(big.Rat).SetFrac(top, bottom)
}
