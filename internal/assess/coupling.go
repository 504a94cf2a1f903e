package assess

import (
	"math/big"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// couplingGaps are the face gaps of one round at the four clock positions.
type couplingGaps struct {
	top, ninety, bottom, other                 int64
	hasTop, hasNinety, hasBottom, hasOtherSide bool
}

func gapsOf(s *series) couplingGaps {
	var g couplingGaps
	g.top, g.hasTop = s.of(field.ClockTop)
	g.ninety, g.hasNinety = s.of(field.ClockNinety)
	g.bottom, g.hasBottom = s.of(field.ClockBottom)
	g.other, g.hasOtherSide = s.of(field.ClockOther)
	return g
}

// closure is top + bottom less the two sides: 0 for flat faces, however the
// shafts lie. False where a gap is missing.
func (g couplingGaps) closure() (int64, bool) {
	return g.top + g.bottom - g.ninety - g.other, g.hasTop && g.hasBottom && g.hasNinety && g.hasOtherSide
}

// slopes are the angles over the face diameter in the two planes: bottom less
// top, and the gap on the other side less that on the 90° side. Nil where a
// gap is missing. Sag of the drive shaft is not taken out: the faces are what
// flexes.
func (g couplingGaps) slopes(face measure.Length) (vertical, horizontal *big.Rat) {
	over := func(rise int64) *big.Rat { return slopeRat(measure.Slope{Rise: measure.Length(rise), Run: face}) }
	if g.hasTop && g.hasBottom {
		vertical = over(g.bottom - g.top)
	}
	if g.hasNinety && g.hasOtherSide {
		horizontal = over(g.other - g.ninety)
	}
	return vertical, horizontal
}

// judgeCoupling judges four gaps by the kind that the contract names: highest
// less lowest, the angle in each plane, or the total angle.
func (w *work) judgeCoupling(face field.Length) judge {
	return func(ru *ruling, s *series, r *Round) {
		e, ok := findExtremes(s.found())
		if !ok {
			return
		}
		u := w.t.uncertainty(ru.check, r)
		byAngle := ru.limited && !ru.exact.empty()
		if byAngle {
			ru.add(r, "range", e.spread(), 0)
			ru.add(r, "largest", e.most.value.n, e.most.index)
			ru.add(r, "smallest", e.least.value.n, e.least.index)
		} else {
			ru.spread(r, e, u)
		}
		g := gapsOf(s)
		if c, ok := g.closure(); ok {
			ru.add(r, "closure", c, 0)
		}
		w.t.returnNote(s, r)
		if !face.Set || face.Value <= 0 {
			r.Notes = append(r.Notes, code(noteNoFace))
			if byAngle {
				r.Verdict = Missing
			}
			return
		}
		ru.judgeAngles(r, g, face.Value, u.over(face.Value), byAngle)
	}
}

// judgeAngles states the angles, and judges them where the limit is on one.
func (ru *ruling) judgeAngles(r *Round, g couplingGaps, face measure.Length, u uncertainty, byAngle bool) {
	sc := scale{kind: KindSlope}
	vertical, horizontal := g.slopes(face)
	if vertical != nil {
		r.Results = append(r.Results, sc.result("vertical", vertical, 0))
	}
	if horizontal != nil {
		r.Results = append(r.Results, sc.result("horizontal", horizontal, 0))
	}
	switch {
	case vertical == nil || horizontal == nil:
		if byAngle {
			r.Verdict = Missing
		}
	case byAngle && ru.criterion == CriterionPlane:
		ru.addTotal(r, vertical, horizontal)
		worst := vertical
		if new(big.Rat).Abs(horizontal).Cmp(new(big.Rat).Abs(vertical)) > 0 {
			worst = horizontal
		}
		ru.decideExact(r, sc, worst, u)
	case byAngle:
		ru.decideTotal(r, ru.addTotal(r, vertical, horizontal), u)
	default:
		ru.addTotal(r, vertical, horizontal)
	}
}

// addTotal states the total angle and returns its square.
func (ru *ruling) addTotal(r *Round, a, b *big.Rat) *big.Rat {
	square := new(big.Rat).Mul(a, a)
	square.Add(square, new(big.Rat).Mul(b, b))
	r.Results = append(r.Results, Result{"total", Amount{Kind: KindSlope, N: roundRoot(square)}, 0})
	return square
}

// decideTotal holds √total against the limit by squares. The margin is rounded
// down, and so is the limit less the root rounded up.
func (ru *ruling) decideTotal(r *Round, total *big.Rat, u uncertainty) {
	limit := ru.exact.hi
	r.Deciding = &Amount{Kind: KindSlope, N: roundRoot(total)}
	if u.known() {
		r.Results = append(r.Results, Result{"uncertainty", Amount{Kind: KindSlope, N: u.expanded()}, 0})
	}
	margin := floorRat(limit) - ceilRoot(total)
	if total.Cmp(new(big.Rat).Mul(limit, limit)) > 0 {
		r.Verdict, margin = Outside, min(margin, -1)
	} else {
		r.Verdict, margin = Within, max(margin, 0)
		if u.known() && closerThan(limit, total, u.expandedSquare()) {
			r.Verdict = NearLimit
		}
	}
	r.Margin = &Amount{Kind: KindSlope, N: margin}
	toLow, toHigh := ru.exact.from(whole(r.Deciding.N))
	r.stateConformance(toLow, toHigh, u)
}

// closerThan tells exactly whether limit − √a < √b: limit² < a + b + 2√(ab).
func closerThan(limit, a, b *big.Rat) bool {
	d := new(big.Rat).Mul(limit, limit)
	d.Sub(d, a).Sub(d, b)
	if d.Sign() < 0 {
		return true
	}
	ab := new(big.Rat).Mul(a, b)
	return d.Mul(d, d).Cmp(ab.Mul(ab, whole(4))) < 0
}

// over is the uncertainty of a difference of two readings over a length, as a
// slope.
func (u uncertainty) over(run measure.Length) uncertainty {
	if !u.known() {
		return u
	}
	v := new(big.Rat).Mul(u.difference().variance, square(slopeScale))
	return uncertainty{variance: v.Quo(v, square(int64(run)))}
}

// couplingNotes say what the form does not, or says with consequence, about how
// the gaps were read.
func couplingNotes(c *Check, in *field.Coupling) {
	if len(c.Rounds) == 0 {
		return
	}
	if in.Stood.Value == "" {
		c.Notes = append(c.Notes, code(noteNoStood))
	}
	switch {
	case !in.Together.Set:
		c.Notes = append(c.Notes, code(noteTogetherBlank))
	case !in.Together.Value:
		c.Notes = append(c.Notes, code(noteNotTogether))
	}
	if in.Sweep.Set && in.Sweep.Value {
		c.Notes = append(c.Notes, code(noteSweep))
	}
}
