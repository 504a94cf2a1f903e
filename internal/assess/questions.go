package assess

import (
	"math/big"

	"asleft/internal/field"
)

// questions gathers what is worth a second look in a cell. They are neutral:
// none changes a verdict or keeps a package from being ready.
func (w *work) questions(out *Cell) {
	for _, b := range w.blocks() {
		w.returnQuestions(out, b)
		w.coarseQuestion(out, b)
		w.reachQuestions(out, b)
	}
	w.longestQuestion(out)
	w.tipGapQuestion(out)
	w.orderQuestions(out)
	w.closureQuestions(out)
	w.lockingQuestions(out)
	w.pinQuestions(out)
	w.torqueQuestions(out)
	w.ratioQuestion(out)
	w.runReachQuestions(out)
	for _, m := range w.moves() {
		if m.Event.Value == eventInstrument && m.Instrument.Value == "" {
			out.ask(questionInstrument, textArg("at", m.At.String()))
		}
		if _, known := w.t.overtakes[m.Event.Value]; !known {
			out.ask(questionEvent, textArg("name", m.Event.Value), textArg("at", m.At.String()))
		}
	}
}

func (c *Cell) ask(key string, args ...Arg) { c.Questions = append(c.Questions, code(key, args...)) }

// returnQuestions asks about sets whose first reading, read again at the end,
// came out different by more than one step of the instrument.
func (w *work) returnQuestions(out *Cell, b block) {
	for i := range b.rounds {
		s := &b.rounds[i]
		first, again, ok := s.returned()
		step := w.t.step(b.check, s.head)
		if !ok || step == 0 || distance(again.n, first.value.n) <= step {
			continue
		}
		out.ask(questionReturn, textArg("check", b.check), textArg("round", s.round),
			amountArg("first", Amount{Kind: kindOf(b.check), N: first.value.n}), amountArg("again", Amount{Kind: kindOf(b.check), N: again.n}))
	}
}

func distance(a, b int64) int64 { return max(a-b, b-a) }

// coarseQuestion asks about an instrument whose expanded uncertainty is above a
// quarter of the full zone, compared as squares: 4U > zone.
func (w *work) coarseQuestion(out *Cell, b block) {
	s, c := standingSeries(b.rounds), out.Check(b.check)
	if s == nil || c.Limit == nil || c.waived() {
		return
	}
	zone, kind, closed := w.t.zone(b.check, c.Limit)
	u := w.t.decidingUncertainty(b.check, s.head, kind)
	if !closed || !u.known() || new(big.Rat).Mul(big.NewRat(16, 1), u.expandedSquare()).Cmp(new(big.Rat).Mul(zone, zone)) <= 0 {
		return
	}
	sc := scale{kind: kind}
	out.ask(questionCoarse, textArg("check", b.check),
		amountArg("uncertainty", Amount{Kind: kind, N: u.expanded()}), amountArg("zone", sc.amount(zone)))
}

// zone is the full width of what a row allows, and what it is stated in; false
// where one side is open.
func (t *tower) zone(check string, row *field.Limit) (*big.Rat, Kind, bool) {
	win, exact, _ := readLimit(check, row)
	if exact.empty() {
		zone, closed := win.zone()
		return whole(zone), kindOf(check), closed
	}
	zone, closed := exact.zone()
	return zone, KindSlope, closed
}

// decidingUncertainty is that of the value which a check holds against its
// limit: a reading, a difference of two, or such a difference over a face.
func (t *tower) decidingUncertainty(check string, h field.Head, kind Kind) uncertainty {
	u := t.readingUncertainty(check, h)
	switch check {
	case Tilt, Track, TipRadius, CylinderRound:
		return u.difference()
	case CouplingGear, CouplingMotor:
		face := t.faceGear
		if check == CouplingMotor {
			face = t.faceMotor
		}
		switch {
		case kind == KindLength:
			return u.difference()
		case !face.Set || face.Value <= 0:
			return uncertainty{}
		}
		return u.over(face.Value)
	}
	return u
}

// longestQuestion asks about a clearance that was not read on the longest
// blade.
func (w *work) longestQuestion(out *Cell) {
	clear := standingSeries(w.clear)
	if clear == nil || clear.blade == 0 {
		return
	}
	tips := sameState(w.tips, clear.round, true)
	if tips == nil || w.t.isLongest(tips, clear.blade) {
		return
	}
	out.ask(questionLongest, numberArg("blade", clear.blade), numberArg("longest", w.t.longest(tips)[0].index))
}

// tipGapQuestion compares two readings of one gap: the clearance at the place
// where the tip radius was read, and the tip-radius gap of the blade that was
// carried round. It is asked only where nothing was moved between them.
func (w *work) tipGapQuestion(out *Cell) {
	clear := standingSeries(w.clear)
	if clear == nil || clear.blade == 0 || !w.cell.TipRadius.Position.Set {
		return
	}
	tips := sameState(w.tips, clear.round, true)
	if tips == nil || !w.nothingBetween(clear.head, tips.head) {
		return
	}
	place := w.cell.TipRadius.Position.Value
	gap, ok := clear.of(place)
	tip, okTip := tips.of(clear.blade)
	u := sum(1, w.t.readingUncertainty(Clearance, clear.head), 1, w.t.readingUncertainty(TipRadius, tips.head))
	if !ok || !okTip || !u.known() || square(distance(gap, tip)).Cmp(u.expandedSquare()) <= 0 {
		return
	}
	out.ask(questionTipGap, numberArg("position", place), amountArg("gap", Amount{Kind: KindLength, N: gap}),
		numberArg("blade", clear.blade), amountArg("tip", Amount{Kind: KindLength, N: tip}))
}

// nothingBetween tells whether both rounds stand on the same side of every
// event that changes a gap.
func (w *work) nothingBetween(a, b field.Head) bool {
	for _, m := range w.moves() {
		if !w.t.overtakesAny(m.Event.Value, Clearance, TipRadius) {
			continue
		}
		x, y := orderOf(a, m), orderOf(b, m)
		if x != y || x == notShown {
			return false
		}
	}
	return true
}

func (t *tower) overtakesAny(event string, checks ...string) bool {
	for _, k := range t.overtakes[event] {
		for _, c := range checks {
			if k == c {
				return true
			}
		}
	}
	return false
}

// orderQuestions asks about events that may have overtaken a reading: same day,
// order not shown.
func (w *work) orderQuestions(out *Cell) {
	for i := range out.Checks {
		for _, o := range out.Checks[i].Overtaken {
			if !o.Shown {
				out.ask(questionOrder, textArg("check", out.Checks[i].Key),
					textArg("event", o.Event), textArg("date", dateText(o.Move.Date)))
			}
		}
		itemQuestions(out, &out.Checks[i])
	}
}

// closureQuestions asks about couplings where top and bottom together differ
// from the two sides together by more than the steps of four readings can make.
func (w *work) closureQuestions(out *Cell) {
	for _, key := range []string{CouplingGear, CouplingMotor} {
		if w.t.driveLine != lineJudged {
			continue
		}
		for i := range w.drive[key] {
			s := &w.drive[key][i]
			c, ok := gapsOf(s).closure()
			step := w.t.step(key, s.head)
			if ok && step > 0 && distance(c, 0) > 2*step {
				out.ask(questionClosure, textArg("check", key), textArg("round", s.round), amountArg("closure", Amount{Kind: KindLength, N: c}))
			}
		}
	}
}

// dateText is the day in ISO 8601, or a dash where none was given.
func dateText(d field.Date) string {
	if !d.Set {
		return "–"
	}
	return d.Value.String()
}
