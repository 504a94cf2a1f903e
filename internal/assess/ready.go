package assess

import (
	"slices"

	"asleft/internal/field"
)

// settle decides whether the package and each cell are ready, and says why not.
// It is the only place that does. Signatures have no part in it.
func (t *tower) settle(out *Assessment) {
	out.Reasons = t.towerReasons(out)
	tower := slices.Clone(out.Reasons)
	for i := range out.Cells {
		c := &out.Cells[i]
		for k := range c.Checks {
			c.Reasons = append(c.Reasons, t.checkReasons(c, &c.Checks[k])...)
		}
		c.wait(tower)
		c.State = state(len(c.Waits) == 0 && len(c.Reasons) == 0)
		c.milestones()
		if c.InPackage {
			out.Reasons = append(out.Reasons, c.Reasons...)
		}
	}
	out.State = state(len(out.Reasons) == 0)
}

// wait lists what holds the cell back and stands on a sheet of the tower: limits
// of checks that the cell has to meet, and what the fastener schedule lacks.
func (c *Cell) wait(tower []Reason) {
	for _, r := range tower {
		if r.Check == "" || !c.Check(r.Check).waived() {
			c.Waits = append(c.Waits, r)
		}
	}
	for _, r := range c.Reasons {
		if scheduled(r) {
			c.Waits = append(c.Waits, r)
		}
	}
}

// scheduled tells whether a reason of a cell has its cause in the fastener
// schedule, which is one for all cells.
func scheduled(r Reason) bool {
	switch r.Key {
	case reasonNoRequired, reasonItemAuthority, reasonItemStarting, reasonNoSchedule:
		return true
	}
	return false
}

// Own are the reasons that nothing on a sheet of the tower can take away. A cell
// that is not ready and has none waits for [Cell.Waits] alone.
func (c *Cell) Own() []Reason {
	return slices.DeleteFunc(slices.Clone(c.Reasons), scheduled)
}

func state(ready bool) State {
	if ready {
		return Ready
	}
	return NotReady
}

// towerReasons are those that hold for all cells: what is asked, and by whom.
func (t *tower) towerReasons(out *Assessment) []Reason {
	var list []Reason
	any := false
	for i := range out.Cells {
		any = any || out.Cells[i].InPackage
	}
	if !any {
		list = append(list, Reason{Code: code(reasonNoCell)})
	}
	for _, key := range AllChecks() {
		if !required(out, key) {
			continue
		}
		for _, why := range t.limitReasons(key) {
			list = append(list, Reason{Code: code(why), Check: key})
		}
	}
	return list
}

// required tells whether any cell of the package has to meet the check.
func required(out *Assessment, key string) bool {
	for i := range out.Cells {
		if c := out.Cells[i].Check(key); out.Cells[i].InPackage && !c.waived() {
			return true
		}
	}
	return false
}

func (t *tower) limitReasons(key string) []string {
	row := t.limits[key]
	_, _, form := readLimit(key, row)
	if form != limitFull {
		if needsLimit(key) {
			return []string{reasonNoLimit}
		}
		return nil
	}
	var list []string
	if t.twice[key] {
		list = append(list, reasonLimitTwice)
	}
	switch {
	case starting(row):
		list = append(list, reasonStarting)
	case unsupported(row):
		list = append(list, reasonNoAuthority)
	}
	return list
}

// needsLimit tells whether a check is judged by a row of the limits sheet. The
// others ask for something done, or have their limits beside the readings.
func needsLimit(key string) bool {
	switch key {
	case FastenerTorque, Locking, DowelPins, PreStart, Rotation, OilLevel, Vibration, VibrationSwitch, Reverse:
		return false
	}
	return true
}

// checkReasons are those of one check of one cell.
func (t *tower) checkReasons(cell *Cell, c *Check) []Reason {
	var codes []Code
	if c.waived() {
		if c.Waiver != nil && (c.Waiver.Reason.Value == "" || c.Waiver.By.Value == "") {
			codes = append(codes, code(reasonWaiver))
		}
	} else {
		codes = append(t.verdictReasons(c), t.recordReasons(c)...)
	}
	list := make([]Reason, 0, len(codes))
	for _, x := range codes {
		list = append(list, Reason{Code: x, Cell: cell.Number, Check: c.Key})
	}
	return list
}

// verdictReasons say what keeps the verdict from being good.
func (t *tower) verdictReasons(c *Check) []Code {
	r := c.StandingRound()
	switch {
	case r == nil && c.hasNote(noteNotCovered):
		return []Code{code(reasonNotCovered)}
	case r == nil:
		return []Code{code(reasonNotRead)}
	}
	var codes []Code
	if c.Verdict == Recheck && (len(r.Items) == 0 || len(c.Overtaken) > 0 || c.hasNote(noteNoPreStart)) {
		codes = append(codes, recheckReason(c))
	}
	if len(r.Items) > 0 {
		return append(codes, itemReasons(c)...)
	}
	switch {
	case c.Verdict == Outside && c.Deviation == nil:
		codes = append(codes, t.outsideReason(c, r))
	case c.Verdict == NearLimit && t.guarded && c.Deviation == nil:
		codes = append(codes, code(reasonNear, amountArg("value", *r.Deciding), amountArg("inside", *r.Margin)))
	case c.Verdict == Within && t.guarded && kindOf(c.Key) != KindQuantity:
		if _, known := r.Result("uncertainty"); !known {
			codes = append(codes, code(reasonNoUncertainty))
		}
	}
	return append(codes, missingReasons(r)...)
}

// recheckReason names the latest event that set the reading aside, or the bolts
// that were not at final torque.
func recheckReason(c *Check) Code {
	for i := len(c.Overtaken) - 1; i >= 0; i-- {
		if o := c.Overtaken[i]; o.Shown {
			return code(reasonRecheck, textArg("event", o.Event), textArg("date", dateText(o.Move.Date)))
		}
	}
	switch {
	case c.hasNote(noteNoPreStart):
		return code(reasonNoPreStart)
	case c.hasNote(noteHoldDowns):
		return code(reasonHoldDowns)
	}
	return code(reasonClamps)
}

// missingReasons hold also where what was read is outside: the rest is missing
// all the same.
func missingReasons(r *Round) []Code {
	for _, n := range r.Notes {
		switch n.Key {
		case noteIncomplete:
			return []Code{{Key: reasonMissing, Args: n.Args}}
		case noteNoTips:
			return []Code{code(reasonNotRead)}
		case noteNoFace, noteNoMean, noteNoNameplate, noteNoWindingTemp, noteNoRatio, noteNoDiameter:
			if r.Verdict == Missing {
				return []Code{code(reasonNotComputed)}
			}
		}
	}
	return nil
}

// recordReasons say what the record of the reading itself lacks. A check made
// from another check's readings leaves them to that one.
func (t *tower) recordReasons(c *Check) []Code {
	r := c.StandingRound()
	switch {
	case r == nil:
		return nil
	case !ownRecord(c.Key) && isRun(r.Key):
		return t.instrumentReasons(r.Head)
	case !ownRecord(c.Key):
		return nil
	}
	var codes []Code
	switch {
	case c.hasNote(noteHoldDownsBlank):
		codes = append(codes, code(reasonHoldDownsBlank))
	case c.hasNote(noteClampsBlank):
		codes = append(codes, code(reasonClampsBlank))
	}
	if !r.Head.Date.Set {
		return append(codes, code(reasonNoDate))
	}
	return append(codes, t.instrumentReasons(r.Head)...)
}

// ownRecord tells whether a check answers for the record of its own readings:
// those made from another's do not, sets and lines have a date each, and of a
// run it is told once.
func ownRecord(key string) bool {
	switch key {
	case ClearanceAll, PitchSpread, FastenerTorque, Locking, DowelPins, PreStart:
		return false
	}
	return kindOf(key) != KindQuantity && key != OilLevel && key != Reverse
}

// instrumentReasons say that the instrument was out of date on the day of the
// reading: past due, or calibrated only afterwards.
func (t *tower) instrumentReasons(h field.Head) []Code {
	in := t.instruments[h.Instrument.Value]
	if in == nil || !h.Date.Set {
		return nil
	}
	name, used := textArg("instrument", in.ID.Value), textArg("used", dateText(h.Date))
	var codes []Code
	if in.Due.Set && h.Date.Value.Compare(in.Due.Value) > 0 {
		codes = append(codes, code(reasonInstrument, name, used, textArg("due", dateText(in.Due))))
	}
	if in.Calibrated.Set && h.Date.Value.Compare(in.Calibrated.Value) < 0 {
		codes = append(codes, code(reasonCalibrated, name, used, textArg("calibrated", dateText(in.Calibrated))))
	}
	return codes
}

// dueNote says that a calibrated instrument has no due date to judge its day of
// use by.
func (t *tower) dueNote(c *Check) {
	h := c.StandingRound().Head
	in := t.instruments[h.Instrument.Value]
	if in != nil && in.Class.Value != classChecked && !in.Due.Set {
		c.Notes = append(c.Notes, code(noteNoDueDate, textArg("instrument", in.ID.Value)))
	}
}
