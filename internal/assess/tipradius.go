package assess

// tipRadiusCheck judges the gap of every tip at one point of the cylinder: all
// within ±t of one same distance. There is such a distance d exactly if the
// largest less the smallest gap is at most 2t, and then d is the middle of the
// two. The mean would be no substitute: it leans to where most blades are and
// can leave one out that a better d takes in.
func (w *work) tipRadiusCheck() Check {
	c := w.check(TipRadius, w.tips, w.judgeTipRadius)
	pulled(&c, w.cell.TipRadius.PulledOut)
	return c
}

func (w *work) judgeTipRadius(ru *ruling, s *series, r *Round) {
	found := s.found()
	e, ok := findExtremes(found)
	if !ok {
		return
	}
	u := w.t.uncertainty(ru.check, r)
	ru.spread(r, e, u)
	// The middle may be half a nanometer; all comparisons are of doubles.
	double := e.least.value.n + e.most.value.n
	ru.add(r, "middle", halfAway(double), 0)
	for _, x := range longestBlades(found, e, w.t.step(TipRadius, s.head)) {
		ru.add(r, "longest", x.value.n, x.index)
	}
	ru.sameDistance(r, double, u.difference().guard())
}

// sameDistance gives each blade its distance from the middle, and its verdict.
func (ru *ruling) sameDistance(r *Round, double, guard int64) {
	for i := range r.Points {
		p := &r.Points[i]
		if !p.Found {
			continue
		}
		off := 2*p.Value.N - double
		d := ru.amount(halfAway(off))
		p.Deviation = &d
		if ru.limited {
			m := ru.win.hi - max(off, -off)
			p.Margin, p.Verdict = ru.amount(halfDown(m)), ru.outcome(m, guard)
		}
	}
}

// longestBlades are those with the smallest gap; a gap that is larger by no
// more than one step of the instrument is a tie, since it may be the same.
func longestBlades(found []reading, e extremes, step int64) []reading {
	out := []reading{e.least}
	for _, x := range found {
		if x.index != e.least.index && x.value.n-e.least.value.n <= step {
			out = append(out, x)
		}
	}
	return out
}

// halfAway is n/2, a half away from zero.
func halfAway(n int64) int64 { return n/2 + n%2 }

// halfDown is n/2, a half toward minus infinity: a margin is never stated
// larger than it is.
func halfDown(n int64) int64 { return n >> 1 }
