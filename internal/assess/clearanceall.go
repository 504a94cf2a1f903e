package assess

// clearanceAllCheck carries the gaps of one blade over to all blades: at
// position i, blade j has the gap gap_i + (r_j − r_b), with r the tip-radius
// gaps and b the blade that was carried round. The largest anywhere is always
// stated; it is judged only where the contract's limit covers all blades, so a
// blank limit here means that nobody asked.
func (w *work) clearanceAllCheck() Check {
	c := w.check(ClearanceAll, w.clear, w.judgeClearanceAll)
	w.notAsked(&c)
	return c
}

// notAsked turns a check without any limit into one that is not required.
func (w *work) notAsked(c *Check) {
	if _, _, form := readLimit(c.Key, w.t.limits[c.Key]); form != limitBlank {
		return
	}
	c.Verdict = NotRequired
	c.Notes = append(c.Notes, code(noteNotAsked))
	for i := range c.Rounds {
		c.Rounds[i].Verdict = NotRequired
	}
}

func (w *work) judgeClearanceAll(ru *ruling, s *series, r *Round) {
	r.Points, r.Blade = nil, s.blade
	tips := sameState(w.tips, s.round, standingSeries(w.clear) == s)
	if tips == nil {
		r.Verdict = Missing
		r.Notes = append(r.Notes, code(noteNoTips))
		return
	}
	gaps, ok := findExtremes(s.found())
	blades, okTips := findExtremes(tips.found())
	if !ok || !okTips {
		return
	}
	carried, known := tips.of(s.blade)
	if !known {
		carried = blades.least.value.n // meant to be the longest
	}
	least := gaps.least.value.n + blades.least.value.n - carried
	largest := gaps.most.value.n + blades.most.value.n - carried
	ru.add(r, "largest", largest, gaps.most.index)
	ru.add(r, "largestblade", largest, blades.most.index)
	ru.add(r, "least", least, gaps.least.index)
	ru.add(r, "leastblade", least, blades.least.index)
	w.decideAll(ru, s, tips, r, least, largest)
}

// decideAll holds the worse of the two ends against the limit. Blades that
// were not read can only make it worse.
func (w *work) decideAll(ru *ruling, s, tips *series, r *Round, least, largest int64) {
	u := sum(1, w.t.readingUncertainty(Clearance, s.head), 2, w.t.readingUncertainty(TipRadius, tips.head))
	ru.stateUncertainty(r, u)
	deciding := largest
	if ru.limited && ru.win.margin(least) < ru.win.margin(largest) {
		deciding = least
	}
	ru.decide(r, deciding, u)
	found, blocked := tips.count()
	if r.Verdict != Outside && found < needed(w.t.fewest(TipRadius), len(tips.readings), blocked) {
		r.Verdict = Missing
		r.Notes = append(r.Notes, code(noteNoTips))
	}
}
