package assess

import (
	"math/big"

	"asleft/internal/measure"
)

// pitchCheck judges the angle of every blade against the set angle.
func (w *work) pitchCheck() Check {
	return w.check(Pitch, w.pitch, w.judgePitch)
}

// pitchSpreadCheck judges blade to blade: largest minus smallest. Where the
// contract limits the angle and leaves this blank, nobody asked.
func (w *work) pitchSpreadCheck() Check {
	c := w.check(PitchSpread, w.pitch, func(ru *ruling, s *series, r *Round) {
		if e, ok := findExtremes(s.found()); ok {
			ru.spread(r, e, w.t.uncertainty(Pitch, r))
		}
	})
	if _, _, form := readLimit(Pitch, w.t.limits[Pitch]); form == limitFull {
		w.notAsked(&c)
	}
	return c
}

func (w *work) judgePitch(ru *ruling, s *series, r *Round) {
	found := s.found()
	e, ok := findExtremes(found)
	if !ok {
		return
	}
	ru.add(r, "largest", e.most.value.n, e.most.index)
	ru.add(r, "smallest", e.least.value.n, e.least.index)
	ru.add(r, "mean", mean(found), 0)
	ru.each(r, w.t.uncertainty(Pitch, r))
	ru.fromNominal(r)
	share, note := w.tiltShare(s)
	if note != "" {
		r.Notes = append(r.Notes, code(note))
		return
	}
	ru.add(r, "tiltshare", share, 0)
	for i := range r.Points {
		if p := &r.Points[i]; p.Found {
			v := ru.amount(p.Value.N - share)
			p.Corrected = &v
		}
	}
}

// Codes of the fan's rotation, seen from above.
const (
	rotationClockwise = "cw"
	rotationCounter   = "ccw"
)

// tiltShare is the part of every pitch reading that is the fan's tilt and not
// the blade's: the slope of the tilted plane along the tip's path at the place
// of reading φ, (−a·sin φ + b·cos φ)/R, down in the direction of growing
// degrees. A fan that blows up carries its leading edge low, so with rotation
// clockwise that slope adds to the reading, and counter-clockwise it takes
// away. First order: the angle is taken as its tangent.
func (w *work) tiltShare(s *series) (share int64, note string) {
	tilt := sameState(w.tilt, s.round, standingSeries(w.pitch) == s)
	radius := w.cell.Tilt.Radius
	if tilt == nil || tiltSign(w.cell) == 0 || !radius.Set || radius.Value <= 0 {
		return 0, noteNoTilt
	}
	place := w.cell.Pitch.Position
	degrees, ok := w.t.degrees[place.Value]
	if !place.Set || !ok {
		return 0, noteNoTilt
	}
	drops := w.drops(tilt, &Round{})
	slope, ok := w.t.tangent(readInOrder(drops), degrees, int64(radius.Value))
	if !ok {
		return 0, noteNoTilt
	}
	switch w.t.rotation {
	case rotationClockwise:
		return int64(slope), ""
	case rotationCounter:
		return int64(-slope), ""
	}
	return 0, noteNoRotation
}

// mean of the readings, rounded once, halves away from zero.
func mean(found []reading) int64 {
	if len(found) == 0 {
		return 0
	}
	total := new(big.Int)
	for _, x := range found {
		total.Add(total, big.NewInt(x.value.n))
	}
	return roundRat(new(big.Rat).SetFrac(total, big.NewInt(int64(len(found)))))
}

// roundRat rounds to a whole number, halves away from zero.
func roundRat(r *big.Rat) int64 {
	two := big.NewInt(2)
	num := new(big.Int).Mul(two, new(big.Int).Abs(r.Num()))
	num.Add(num, r.Denom())
	n := clamp(num.Quo(num, new(big.Int).Mul(two, r.Denom())))
	if r.Sign() < 0 {
		return -n
	}
	return n
}

// opposite is the other side of the ring.
func opposite(a measure.Angle) measure.Angle { return (a + 180*measure.Degree).Normalize() }
