package assess

import (
	"asleft/internal/field"
)

// stand gives every check of a cell its verdict: that of the standing round,
// unless it was waived, overtaken, or read too early.
func (w *work) stand(out *Cell) {
	for i := range out.Checks {
		c := &out.Checks[i]
		if w.waive(c) || c.Verdict == NotRequired {
			continue
		}
		r := c.StandingRound()
		if r == nil {
			c.Verdict = Missing
			asFoundOnly(c)
			continue
		}
		c.Verdict = r.Verdict
		laterRounds(c)
		w.t.dueNote(c)
		w.overtake(c)
		w.setAsideCheck(c)
		w.deviate(c)
	}
	carryRecheck(out)
}

// asFoundOnly says that a check without a standing round has an as found that
// nobody accepted as it is.
func asFoundOnly(c *Check) {
	for _, r := range c.Rounds {
		if r.Key == field.AsFound && r.Found > 0 {
			c.Notes = append(c.Notes, code(noteAsFoundOnly))
			return
		}
	}
}

// laterRounds says that an as found stands although more was read after it:
// accepted as found means that nothing was moved and nothing more was needed.
func laterRounds(c *Check) {
	if c.StandingRound().Key != field.AsFound {
		return
	}
	for _, r := range c.Rounds[c.Standing+1:] {
		if r.Found > 0 {
			c.Notes = append(c.Notes, code(noteLaterRound, textArg("round", r.Key)))
		}
	}
}

// recheck sets a verdict aside; the first cause keeps what it was before.
func (c *Check) recheck() {
	if c.Verdict != Recheck {
		c.Before, c.Verdict = c.Verdict, Recheck
	}
}

// setAsideCheck sets aside what does not count for another reason than a move:
// bolts not at final torque, an item of the check, no pre-start list.
func (w *work) setAsideCheck(c *Check) {
	switch boltsOf(c.Key) {
	case boltsHoldDown:
		head := c.StandingRound().Head
		torque(c, head.HoldDownsFinal, noteHoldDowns, noteHoldDownsBlank)
	case boltsClamp:
		head := c.StandingRound().Head
		torque(c, head.ClampsFinal, noteClamps, noteClampsBlank)
	}
	if isRun(c.StandingRound().Key) {
		w.notCleared(c)
	}
	c.carryItems()
}

// bolts are those that hold what is read.
type bolts int

const (
	boltsNone bolts = iota
	boltsHoldDown
	boltsClamp
)

// boltsOf tells which bolts have to be at final torque for a reading to count:
// the hold-downs for level, tilt, clearance and drive shaft, the clamps for what
// is read blade by blade. A soft foot is read on loosened bolts.
func boltsOf(check string) bolts {
	switch check {
	case Tilt, Clearance, ClearanceAll, GearLevel, MotorLevel, CouplingGear, CouplingMotor, ShaftEnds:
		return boltsHoldDown
	case Track, TipRadius, Pitch, PitchSpread:
		return boltsClamp
	}
	return boltsNone
}

// torque sets a reading aside that was taken before the bolts were at final
// torque. Where the form does not say, the verdict stays and the package is not
// ready.
func torque(c *Check, final field.Flag, no, blank string) {
	switch {
	case !final.Set:
		c.Notes = append(c.Notes, code(blank))
	case !final.Value:
		c.Notes = append(c.Notes, code(no))
		c.recheck()
	}
}

// carryRecheck sets the gaps of all blades aside where the tip radius they were
// made from is set aside.
func carryRecheck(out *Cell) {
	all, tips := out.Check(ClearanceAll), out.Check(TipRadius)
	if all.Standing >= 0 && all.Verdict != NotRequired && all.Verdict != ByOthers && tips.Verdict == Recheck {
		all.recheck()
	}
}

// hasNote tells whether the check carries a note of the key.
func (c *Check) hasNote(key string) bool {
	for _, n := range c.Notes {
		if n.Key == key {
			return true
		}
	}
	return false
}
