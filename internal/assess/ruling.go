package assess

import (
	"asleft/internal/field"
	"asleft/internal/measure"
)

// ruling is what the rounds of one check are judged by.
type ruling struct {
	check     string
	kind      Kind
	win       window // of whole lengths and angles
	exact     bounds // of slopes and quantities
	limited   bool
	criterion string               // of a coupling
	unit      measure.QuantityUnit // of the limit on a quantity
	need      int                  // fewest readings the contract asks for; 0 means all
	nominal   value                // what each reading is meant to be, where there is one
	// round the cylinder, by position; else blade by blade
	byPosition bool
}

// ruling looks up the limit of a check and enters it into c.
func (t *tower) ruling(c *Check) *ruling {
	kind := kindOf(c.Key)
	ru := &ruling{check: c.Key, kind: kind, byPosition: c.Key == Tilt || c.Key == Clearance}
	row := t.limits[c.Key]
	win, exact, form := readLimit(c.Key, row)
	switch form {
	case limitBad:
		c.Notes = append(c.Notes, badLimit(c.Key, row))
	case limitFull:
		ru.win, ru.exact, ru.limited = win, exact, true
		ru.criterion, ru.unit = row.Criterion.Value, limitUnit(row)
		c.Limit, c.Starting = row, starting(row)
		ru.nominal = lengthValue(row.Nominal)
		if kind == KindAngle {
			ru.nominal = angleValue(row.AngleNominal)
		}
	}
	ru.need = t.fewest(c.Key)
	return ru
}

// fewest is how many readings the contract asks for at least, 0 where it does
// not say. A check made from another's readings goes by that one's count.
func (t *tower) fewest(check string) int {
	switch check {
	case ClearanceAll:
		check = Clearance
	case PitchSpread:
		check = Pitch
	}
	row := t.limits[check]
	if row == nil || !row.MinCount.Set {
		return 0
	}
	return max(row.MinCount.Value, 0)
}

// needed is how many of the expected readings a round must have: all, or, where
// the contract gives a count, all that were not blocked for a reason and at
// least that count.
func needed(fewest, expected, blocked int) int {
	if fewest == 0 {
		return expected
	}
	return max(fewest, expected-blocked)
}

func (ru *ruling) amount(n int64) Amount { return Amount{Kind: ru.kind, N: n} }

// add puts a named result on the round.
func (ru *ruling) add(r *Round, key string, n int64, index int) {
	r.Results = append(r.Results, Result{key, ru.amount(n), index})
}

// outcome is the verdict of a margin: at the limit is within, closer than the
// expanded uncertainty is near.
func (ru *ruling) outcome(margin, guard int64) Verdict {
	switch {
	case !ru.limited:
		return ""
	case margin < 0:
		return Outside
	case margin < guard:
		return NearLimit
	}
	return Within
}

// decide holds a value of the uncertainty u against the limit.
func (ru *ruling) decide(r *Round, deciding int64, u uncertainty) {
	d := ru.amount(deciding)
	r.Deciding = &d
	if !ru.limited {
		return
	}
	m := ru.amount(ru.win.margin(deciding))
	r.Margin = &m
	r.Verdict = ru.outcome(m.N, u.guard())
	toLow, toHigh := ru.win.from(deciding)
	r.stateConformance(toLow, toHigh, u)
}

// spread judges largest minus smallest. Two readings make it, so its
// uncertainty is √2 times that of one.
func (ru *ruling) spread(r *Round, e extremes, u uncertainty) {
	ru.add(r, "range", e.spread(), 0)
	ru.add(r, "largest", e.most.value.n, e.most.index)
	ru.add(r, "smallest", e.least.value.n, e.least.index)
	ru.stateUncertainty(r, u.difference())
	ru.decide(r, e.spread(), u.difference())
}

// each judges every reading by itself; the one with the least margin decides,
// of equal ones the first.
func (ru *ruling) each(r *Round, u uncertainty) {
	ru.stateUncertainty(r, u)
	if !ru.limited {
		return
	}
	guard := u.guard()
	worst := -1
	for i := range r.Points {
		p := &r.Points[i]
		if !p.Found {
			continue
		}
		m := ru.win.margin(p.Value.N)
		p.Margin, p.Verdict = ru.amount(m), ru.outcome(m, guard)
		if worst < 0 || m < r.Points[worst].Margin.N {
			worst = i
		}
	}
	if worst >= 0 {
		ru.decide(r, r.Points[worst].Value.N, u)
	}
}

// fromNominal gives each reading its distance from the nominal, where there is one.
func (ru *ruling) fromNominal(r *Round) {
	for i := range r.Points {
		p := &r.Points[i]
		if p.Found && ru.nominal.set {
			d := ru.amount(p.Value.N - ru.nominal.n)
			p.Deviation = &d
		}
	}
}

// stateUncertainty adds the expanded uncertainty of the deciding value.
func (ru *ruling) stateUncertainty(r *Round, u uncertainty) {
	if u.known() {
		ru.add(r, "uncertainty", u.expanded(), 0)
	}
}

// close gives the round its final verdict. A reading that is neither taken nor
// explained is missing; a blocked one is missing below the count the contract
// asks for, and where the contract gives no count, all are asked for. What is
// outside stays outside: more readings cannot bring it back.
func (ru *ruling) close(r *Round) {
	n := needed(ru.need, r.Expected, r.Blocked)
	incomplete := r.Found < n
	if incomplete {
		r.Notes = append(r.Notes, code(noteIncomplete, numberArg("found", r.Found), numberArg("needed", n)))
	}
	switch {
	case r.Verdict == Outside:
	case incomplete, r.Verdict == Missing:
		r.Verdict, r.Margin = Missing, nil
	case !ru.limited:
		r.Verdict = NoLimit
	}
}

// newRound starts the round of a series; found is false where nothing was
// read.
func newRound(s *series) (r Round, found bool) {
	r = Round{Key: s.round, Head: s.head, Expected: len(s.readings)}
	r.Found, r.Blocked = s.count()
	return r, r.Found > 0
}

// judge fills in results, points and outcome of a round that has at least one
// reading.
type judge func(ru *ruling, s *series, r *Round)

// check judges all rounds of a block that hold a reading or a reason.
func (w *work) check(key string, rounds []series, f judge) Check {
	c := Check{Key: key, Standing: -1}
	ru := w.t.ruling(&c)
	stands := standing(rounds)
	for i := range rounds {
		s := &rounds[i]
		r, found := newRound(s)
		if r.Found+r.Blocked == 0 {
			continue
		}
		r.Points = w.t.points(ru, s)
		if found {
			f(ru, s, &r)
		}
		ru.close(&r)
		if i == stands {
			c.Standing = len(c.Rounds)
		}
		c.Rounds = append(c.Rounds, r)
	}
	return c
}

// points lists the readings as they were typed.
func (t *tower) points(ru *ruling, s *series) []Point {
	out := make([]Point, 0, len(s.readings))
	for _, r := range s.readings {
		p := Point{
			Index: r.index, Found: r.value.set, Value: ru.amount(r.value.n),
			Typed: r.value.text, Unit: r.value.unit, At: r.value.at,
		}
		if !p.Found {
			p.Reason = r.reason
		}
		if ru.byPosition {
			p.Degrees = t.degrees[r.index]
		}
		out = append(out, p)
	}
	return out
}

// pulled notes what the form says about the blades having been pulled out.
func pulled(c *Check, f field.Flag) {
	switch {
	case len(c.Rounds) == 0:
	case !f.Set:
		c.Notes = append(c.Notes, code(notePulledBlank))
	case !f.Value:
		c.Notes = append(c.Notes, code(noteNotPulled))
	}
}
