package assess

import (
	"asleft/internal/field"
	"asleft/internal/measure"
)

// Codes of the sense of a tilt reading.
const (
	senseDown = "down" // distance down to the blade
	senseUp   = "up"   // distance up to the blade
)

// tiltSign is +1 where a larger reading is a lower blade, −1 where it is a
// higher one, 0 where the form does not say.
func tiltSign(c *field.Cell) int64 {
	switch c.Tilt.Sense.Value {
	case senseDown:
		return +1
	case senseUp:
		return -1
	}
	return 0
}

// tiltCheck judges one blade turned once round: largest drop minus smallest.
//
// The drop is how far the blade passes below a level plane: a distance down as
// read, a distance up turned round, less the leveled height of the mark it was
// read from. The spread needs no sense; a low side does.
func (w *work) tiltCheck() Check {
	c := w.check(Tilt, w.tilt, w.judgeTilt)
	if len(c.Rounds) > 0 && tiltSign(w.cell) == 0 {
		c.Notes = append(c.Notes, code(noteSense))
	}
	return c
}

func (w *work) judgeTilt(ru *ruling, s *series, r *Round) {
	drops := w.drops(s, r)
	for i := range r.Points {
		r.Points[i].Value.N = drops[i].value.n
	}
	found := readInOrder(drops)
	e, ok := findExtremes(found)
	if !ok {
		return
	}
	ru.spread(r, e, w.t.uncertainty(ru.check, r))
	w.t.returnNote(s, r)
	if tiltSign(w.cell) == 0 {
		return
	}
	ru.add(r, "lowest", e.most.value.n, e.most.index)
	ru.add(r, "highest", e.least.value.n, e.least.index)
	if h, ok := w.t.harmonic(found, r); ok {
		w.statePlane(ru, r, h)
	}
}

// drops turns the readings of a round into drops, in the same order.
func (w *work) drops(s *series, r *Round) []reading {
	marks := w.useMarks(s, r)
	out := append([]reading(nil), s.readings...)
	for i := range out {
		if tiltSign(w.cell) < 0 {
			out[i].value.n = -out[i].value.n
		}
		if marks && out[i].value.set {
			out[i].value.n -= out[i].mark.n
		}
	}
	return out
}

// useMarks tells whether the heights of the marks are taken off: only where
// every reading has one, since a mark without a height is not a mark at zero,
// and only where the sense is known, since it says to which side they count.
func (w *work) useMarks(s *series, r *Round) bool {
	given, found := 0, s.found()
	for _, x := range found {
		if x.mark.set {
			given++
		}
	}
	switch {
	case given == 0:
		r.Notes = append(r.Notes, code(noteToDeck))
	case given < len(found):
		r.Notes = append(r.Notes, code(noteMarksSome, numberArg("given", given), numberArg("expected", len(found))))
	case tiltSign(w.cell) == 0:
		r.Notes = append(r.Notes, code(noteMarksNoSense))
	default:
		return true
	}
	return false
}

// statePlane adds the plane through the drops, h0 + a·cos θ + b·sin θ. Its
// vector (a, b) points to the low side, and over the radius it is the slope.
func (w *work) statePlane(ru *ruling, r *Round, h harmonic) {
	ru.add(r, "mean", h.mean, 0)
	ru.add(r, "cos", h.cos, 0)
	ru.add(r, "sin", h.sin, 0)
	ru.add(r, "amplitude", h.amplitude, 0)
	if h.amplitude > 0 {
		r.Results = append(r.Results, Result{"lowside", Angle(h.towards), 0})
	}
	ru.add(r, "residualrms", h.rms, 0)
	ru.add(r, "residualmax", h.worst, h.worstIndex)
	radius := w.cell.Tilt.Radius
	if !radius.Set || radius.Value <= 0 {
		r.Notes = append(r.Notes, code(noteNoRadius))
		return
	}
	slope := slopeRat(measure.Slope{Rise: measure.Length(h.amplitude), Run: radius.Value})
	r.Results = append(r.Results, scale{kind: KindSlope}.result("slope", slope, 0))
}
