package assess

import (
	"math/big"

	"asleft/internal/measure"
)

// Indices of a level's readings.
const (
	levelAlong  = 1 // positive: higher toward the motor
	levelAcross = 2 // positive: higher toward the 90° side
)

// judgeLevel judges a slope read two ways, each of them against the largest
// slope. Verdicts are exact; what is printed is rounded to 1e-9.
func (w *work) judgeLevel(ru *ruling, s *series, r *Round) {
	values := make([]*big.Rat, len(s.readings))
	for i, x := range s.readings {
		if x.value.set {
			values[i] = x.value.exact
		}
	}
	ru.eachExact(r, scale{kind: KindSlope}, values, w.t.uncertainty(ru.check, r))
	if ru.check == GearLevel {
		w.besideTilt(s, r)
	}
}

// besideTilt puts the tilt of the fan beside the level of the gear reducer: two
// readings of one slope. The drop at θ is mean + cos·cos θ + sin·sin θ, so the
// fan is higher toward the motor by −cos/R.
func (w *work) besideTilt(s *series, r *Round) {
	tilt := sameState(w.tilt, s.round, standingSeries(w.drive[GearLevel]) == s)
	radius := w.cell.Tilt.Radius
	if tilt == nil || tiltSign(w.cell) == 0 || !radius.Set || radius.Value <= 0 {
		r.Notes = append(r.Notes, code(noteNoTiltBeside))
		return
	}
	h, ok := w.t.harmonic(readInOrder(w.drops(tilt, &Round{})), &Round{})
	if !ok {
		r.Notes = append(r.Notes, code(noteNoTiltBeside))
		return
	}
	sc := scale{kind: KindSlope}
	for _, x := range []struct {
		index     int
		name      string
		component int64
	}{{levelAlong, "along", h.cos}, {levelAcross, "across", h.sin}} {
		fan := slopeRat(measure.Slope{Rise: -measure.Length(x.component), Run: radius.Value})
		r.Results = append(r.Results, sc.result("tilt"+x.name, fan, 0))
		if level := s.exactOf(x.index); level != nil {
			r.Results = append(r.Results, sc.result("difference"+x.name, new(big.Rat).Sub(level, fan), 0))
		}
	}
}

// exactOf returns the unrounded value read at an index, nil where none was.
func (s *series) exactOf(index int) *big.Rat {
	for _, r := range s.readings {
		if r.index == index && r.value.set {
			return r.value.exact
		}
	}
	return nil
}
