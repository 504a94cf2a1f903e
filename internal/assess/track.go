package assess

// trackCheck judges the height of every tip passing one point: highest minus
// lowest.
func (w *work) trackCheck() Check {
	return w.check(Track, w.track, func(ru *ruling, s *series, r *Round) {
		if e, ok := findExtremes(s.found()); ok {
			ru.spread(r, e, w.t.uncertainty(ru.check, r))
		}
	})
}
