package assess

// fewestForCentering is the least number of positions that an off-center fan is
// concluded from. Common practice, no source.
const fewestForCentering = 8

// clearanceCheck judges the gap of the longest blade at every position.
func (w *work) clearanceCheck() Check {
	c := w.check(Clearance, w.clear, w.judgeClearance)
	pulled(&c, w.cell.Clearance.PulledOut)
	return c
}

func (w *work) judgeClearance(ru *ruling, s *series, r *Round) {
	found := s.found()
	e, ok := findExtremes(found)
	if !ok {
		return
	}
	ru.add(r, "least", e.least.value.n, e.least.index)
	ru.add(r, "greatest", e.most.value.n, e.most.index)
	ru.each(r, w.t.uncertainty(ru.check, r))
	ru.fromNominal(r)
	w.t.returnNote(s, r)
	r.Blade = s.blade
	if s.blade == 0 {
		r.Notes = append(r.Notes, code(noteNoBlade))
	}
	w.t.positionNotes(r)
	if h, ok := w.t.harmonic(found, r); ok {
		w.t.stateRing(ru, r, h, found)
	}
}

// positionNotes says where the positions are too few, or such that an
// off-center fan and a lobed cylinder look the same: n positions take k = jn
// lobes for a larger gap and k = jn ± 1 for an off-center fan.
func (t *tower) positionNotes(r *Round) {
	n := r.Found
	if n < fewestForCentering {
		r.Notes = append(r.Notes, code(noteFewPositions, numberArg("found", n)))
	}
	k := t.segments
	if n < 2 || k < n-1 {
		return
	}
	switch k % n {
	case 0, 1, n - 1:
		r.Notes = append(r.Notes, code(noteLobes, numberArg("segments", k), numberArg("positions", n)))
	}
}

// stateRing splits the gaps into their mean (blade length against cylinder
// size), off center (what a move cures) and out of round (what it cannot).
//
// A fan center that is off by e makes the gap at θ smaller by e·u(θ), so the
// first harmonic (a, b) of the gaps is −e: the fan is off toward the close
// side. Half the roundness about the minimum-zone center, with the mean free,
// is what no move can beat (ISO 12181-1, RONt and MZCI, value from memory).
func (t *tower) stateRing(ru *ruling, r *Round, h harmonic, found []reading) {
	ru.add(r, "mean", h.mean, 0)
	ru.add(r, "cos", h.cos, 0)
	ru.add(r, "sin", h.sin, 0)
	ru.add(r, "offcenter", h.amplitude, 0)
	if h.amplitude > 0 {
		r.Results = append(r.Results, Result{"closeside", Angle(opposite(h.towards)), 0})
	}
	ru.add(r, "residualrms", h.rms, 0)
	ru.add(r, "residualmax", h.worst, h.worstIndex)
	if roundness, ok := t.roundness(found); ok {
		ru.add(r, "roundness", roundness, 0)
		ru.add(r, "floor", halfAway(roundness), 0)
	}
}
