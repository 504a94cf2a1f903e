package assess

import (
	"math"
	"math/big"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// coverage is the k of every expanded uncertainty stated here: about 95 %.
// JCGM 100:2008, 6.2 and 6.3 (value from memory).
const coverage = 2

// uncertainty is the variance of one reading, in squares of its base unit, as
// an exact rational number: it is compared, not printed. The zero value is "not known".
type uncertainty struct {
	variance *big.Rat
	memo     *derived // nil, or what is asked for again and again
}

// derived is what follows from the variance of one reading. An instrument reads
// most of a tower, so the tower keeps it by check and instrument.
type derived struct {
	guard, expanded int64
	deviation       float64      // standard, in base units
	difference      *uncertainty // of two readings; nil on a difference itself
}

// kept works out what follows, once.
func (u uncertainty) kept() uncertainty {
	if !u.known() {
		return u
	}
	d := u.difference().derive(nil)
	return u.derive(&d)
}

func (u uncertainty) derive(difference *uncertainty) uncertainty {
	u.memo = &derived{u.guard(), u.expanded(), u.deviation(), difference}
	return u
}

// deviation is the standard deviation in base units, for probabilities only.
func (u uncertainty) deviation() float64 {
	if u.memo != nil {
		return u.memo.deviation
	}
	v, _ := u.variance.Float64()
	return math.Sqrt(v)
}

func (u uncertainty) known() bool { return u.variance != nil }

// readingUncertainty combines resolution d/√12, calibration U/k and
// repeatability as a root sum of squares (JCGM 100:2008, 4.3.7, F.2.2.1 and
// 5.1.2, values from memory). It is not known without a resolution, nor
// without the certificate's U unless the instrument is of the class "checked,
// not calibrated".
func readingUncertainty(in *field.Instrument, kind Kind, repeatability *big.Rat) uncertainty {
	step, expanded := stated(in, kind)
	if step.n <= 0 {
		return uncertainty{}
	}
	v := square(step.n)
	v.Quo(v, big.NewRat(12, 1))
	switch {
	case expanded.set:
		k, ok := coverageFactor(in.Coverage)
		if !ok || expanded.n < 0 {
			return uncertainty{}
		}
		c := square(expanded.n)
		v.Add(v, c.Quo(c, k.Mul(k, k)))
	case in.Class.Value != classChecked:
		return uncertainty{}
	}
	if repeatability != nil {
		v.Add(v, repeatability)
	}
	return uncertainty{variance: v}
}

// stated returns resolution and expanded uncertainty of an instrument for
// lengths, angles or slopes; blanks where it is not listed. A level that is
// marked in degrees reads slopes too.
func stated(in *field.Instrument, kind Kind) (step, expanded value) {
	switch {
	case in == nil:
		return value{}, value{}
	case kind == KindAngle:
		return angleValue(in.AngleResolution), angleValue(in.AngleExpanded)
	case kind == KindSlope && in.SlopeResolution.Set:
		return slopeValue(in.SlopeResolution), slopeValue(in.SlopeExpanded)
	case kind == KindSlope:
		return slopeOfAngle(in.AngleResolution), slopeOfAngle(in.AngleExpanded)
	}
	return lengthValue(in.Resolution), lengthValue(in.Expanded)
}

func slopeOfAngle(a field.Angle) value {
	s, err := a.Value.Slope()
	if err != nil || !a.Set {
		return value{}
	}
	return slopeValue(field.Slope{Value: s, Set: true})
}

// Classes of instruments.
const classChecked = "checked"

// coverageFactor reads the certificate's k; blank means 2.
func coverageFactor(t field.Text) (*big.Rat, bool) {
	if t.Value == "" {
		return big.NewRat(coverage, 1), true
	}
	k, err := measure.ParseNumber(t.Value)
	if err != nil || k.Sign() <= 0 {
		return nil, false
	}
	return k.Rat(), true
}

func square(n int64) *big.Rat {
	r := new(big.Rat).SetInt64(n)
	return r.Mul(r, r)
}

// sum is the uncertainty of a sum or difference of m readings of u and n of v,
// all independent.
func sum(m int64, u uncertainty, n int64, v uncertainty) uncertainty {
	if !u.known() || !v.known() {
		return uncertainty{}
	}
	a := new(big.Rat).Mul(big.NewRat(m, 1), u.variance)
	b := new(big.Rat).Mul(big.NewRat(n, 1), v.variance)
	return uncertainty{variance: a.Add(a, b)}
}

// difference is the uncertainty of a difference of two readings, √2·u.
func (u uncertainty) difference() uncertainty {
	if u.memo != nil && u.memo.difference != nil {
		return *u.memo.difference
	}
	return sum(1, u, 1, u)
}

// guard is the least whole margin that is not closer than the expanded
// uncertainty: margin < U holds exactly where margin < guard, since margins
// are whole. It is 0 where the uncertainty is not known.
func (u uncertainty) guard() int64 {
	switch {
	case !u.known():
		return 0
	case u.memo != nil:
		return u.memo.guard
	}
	return ceilRoot(u.expandedSquare())
}

// expanded is U = k·u rounded once to a whole nanometer, for print.
func (u uncertainty) expanded() int64 {
	switch {
	case !u.known():
		return 0
	case u.memo != nil:
		return u.memo.expanded
	}
	return roundRoot(u.expandedSquare())
}

func (u uncertainty) expandedSquare() *big.Rat {
	return new(big.Rat).Mul(big.NewRat(coverage*coverage, 1), u.variance)
}

// roundRoot is √r rounded once, halves away from zero; r is not negative. ⌊2√r⌋
// is the root of 4r, and adding one and halving rounds.
func roundRoot(r *big.Rat) int64 {
	double := floorRoot(new(big.Rat).Mul(whole(4), r))
	double.Add(double, big.NewInt(1))
	return clamp(double.Rsh(double, 1))
}

// ceilRoot is the least whole number that is not below √r.
func ceilRoot(r *big.Rat) int64 {
	root := floorRoot(r)
	if new(big.Rat).SetInt(new(big.Int).Mul(root, root)).Cmp(r) < 0 {
		root.Add(root, big.NewInt(1))
	}
	return clamp(root)
}

// floorRoot returns ⌊√r⌋.
func floorRoot(r *big.Rat) *big.Int {
	whole := new(big.Int).Quo(r.Num(), r.Denom())
	return whole.Sqrt(whole)
}

func clamp(n *big.Int) int64 {
	if !n.IsInt64() {
		return math.MaxInt64
	}
	return n.Int64()
}

// pool gathers return readings of one check over the whole tower.
type pool struct {
	squares *big.Int
	pairs   int64
}

// add takes one first reading and its repeat.
func (p *pool) add(first, again int64) {
	if p.squares == nil {
		p.squares = new(big.Int)
	}
	d := new(big.Int).Sub(big.NewInt(again), big.NewInt(first))
	p.squares.Add(p.squares, d.Mul(d, d))
	p.pairs++
}

// variance of one reading from n repeated pairs: Σd²/2n, the pooled within-pair
// variance (ISO 5725-2, value from memory). Nil where nothing was repeated.
func (p *pool) variance() *big.Rat {
	if p == nil || p.pairs == 0 {
		return nil
	}
	return new(big.Rat).SetFrac(p.squares, big.NewInt(2*p.pairs))
}
