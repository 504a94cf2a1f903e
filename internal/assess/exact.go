package assess

import (
	"math/big"

	"asleft/internal/measure"
)

// Whole base units in one: of a slope, and of the unit of a quantity.
const (
	slopeScale    = 1_000_000_000
	quantityScale = 1_000_000
)

// scale says in what a rational value is stated once it is rounded. Values
// themselves are in base units of the kind and are never rounded before they
// are judged.
type scale struct {
	kind Kind
	unit measure.QuantityUnit
}

// amount rounds once, halves away from zero.
func (s scale) amount(v *big.Rat) Amount { return Amount{s.kind, roundRat(v), s.unit} }

// margin rounds down, so that one that is negative stays so and none is stated
// larger than it is. The distance of two temperatures is in degrees of
// difference.
func (s scale) margin(v *big.Rat) Amount {
	a := Amount{s.kind, floorRat(v), s.unit}
	switch s.unit {
	case measure.Fahrenheit:
		a.Unit = measure.FahrenheitDegrees
	case measure.Celsius:
		a.Unit = measure.CelsiusDegrees
	}
	return a
}

func (s scale) result(key string, v *big.Rat, index int) Result {
	return Result{key, s.amount(v), index}
}

// floorRat is the greatest whole number not above r.
func floorRat(r *big.Rat) int64 {
	n := new(big.Int)
	n.DivMod(r.Num(), r.Denom(), new(big.Int)) // Euclidean: down, since denominators are positive
	if n.Sign() < 0 {
		return -clamp(n.Neg(n))
	}
	return clamp(n)
}

// slopeRat is a slope in its base unit, exactly.
func slopeRat(s measure.Slope) *big.Rat { return scaled(s.Number(), slopeScale) }

// scaled is n in whole base units.
func scaled(n measure.Number, by int64) *big.Rat {
	r := n.Rat()
	return r.Mul(r, new(big.Rat).SetInt64(by))
}

func whole(n int64) *big.Rat { return new(big.Rat).SetInt64(n) }

// bounds is what a rational value is held against; a side that is nil is open.
type bounds struct{ lo, hi *big.Rat }

func (b bounds) empty() bool { return b.lo == nil && b.hi == nil }

// within both ways of a limit on a magnitude.
func bothWays(most *big.Rat) bounds { return bounds{new(big.Rat).Neg(most), most} }

// margin is the distance of v inside the nearest limit, negative outside. It
// is only asked of bounds with at least one side.
func (b bounds) margin(v *big.Rat) *big.Rat {
	var m *big.Rat
	if b.hi != nil {
		m = new(big.Rat).Sub(b.hi, v)
	}
	if b.lo != nil {
		if below := new(big.Rat).Sub(v, b.lo); m == nil || below.Cmp(m) < 0 {
			m = below
		}
	}
	return m
}

// zone is the full width, counted from zero where only a maximum is given.
func (b bounds) zone() (*big.Rat, bool) {
	switch {
	case b.hi == nil:
		return nil, false
	case b.lo == nil:
		return b.hi, true
	}
	return new(big.Rat).Sub(b.hi, b.lo), true
}

// outcome is the verdict of an exact margin and of an uncertainty in the same
// base unit.
func outcome(margin *big.Rat, u uncertainty) Verdict {
	switch {
	case margin.Sign() < 0:
		return Outside
	case u.known() && new(big.Rat).Mul(margin, margin).Cmp(u.expandedSquare()) < 0:
		return NearLimit
	}
	return Within
}

// decideExact holds a rational value against the limit.
func (ru *ruling) decideExact(r *Round, s scale, v *big.Rat, u uncertainty) {
	d := s.amount(v)
	r.Deciding = &d
	if u.known() {
		r.Results = append(r.Results, Result{"uncertainty", Amount{s.kind, u.expanded(), s.unit}, 0})
	}
	if !ru.limited {
		return
	}
	margin := ru.exact.margin(v)
	m := s.margin(margin)
	r.Margin, r.Verdict = &m, outcome(margin, u)
	toLow, toHigh := ru.exact.from(v)
	r.stateConformance(toLow, toHigh, u)
}

// eachExact judges every point by itself by its exact value; the one with the
// least margin decides, of equal ones the first. A point without a value is
// nil.
func (ru *ruling) eachExact(r *Round, s scale, values []*big.Rat, u uncertainty) {
	worst := -1
	var least *big.Rat
	for i, v := range values {
		if v == nil || !ru.limited {
			continue
		}
		margin := ru.exact.margin(v)
		r.Points[i].Margin, r.Points[i].Verdict = s.margin(margin), outcome(margin, u)
		if worst < 0 || margin.Cmp(least) < 0 {
			worst, least = i, margin
		}
	}
	if worst >= 0 {
		ru.decideExact(r, s, values[worst], u)
	}
}
