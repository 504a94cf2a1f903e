package assess

import (
	"reflect"
	"slices"

	"asleft/internal/field"
)

// due lists what the first run, the first water and logged work call for. These
// are jobs to come, not re-checks: the readings before them stand.
func (w *work) due(out *Cell) {
	w.dueAfterRun(out)
	w.dueByMoves(out)
}

// Jobs of the rule set that no check reads.
const (
	jobBalance = "balance"
	jobRunOut  = "runout"
)

// dueByMoves lists what logged work calls for and the form has no reading of. A
// balance shows in the vibration: one that was read later has it done.
func (w *work) dueByMoves(out *Cell) {
	for _, m := range w.moves() {
		for _, job := range w.t.due[m.Event.Value] {
			c := code(dueRunOut, textArg("event", m.Event.Value), textArg("date", dateText(m.Date)))
			switch {
			case job == jobBalance && w.readAfter(out, m, Vibration):
				continue
			case job == jobBalance:
				c.Key = dueBalance
			case job != jobRunOut:
				continue
			}
			if !slices.ContainsFunc(out.Due, func(x Code) bool { return reflect.DeepEqual(x, c) }) {
				out.Due = append(out.Due, c)
			}
		}
	}
}

func (w *work) dueAfterRun(out *Cell) {
	run := w.firstRun(func(*field.StartUp) bool { return true })
	if run == nil {
		return
	}
	if !w.torquedAfter(run) {
		out.Due = append(out.Due, code(dueTorque, textArg("date", dateText(run.Date))))
	}
	if !w.readAfter(out, runMove(run), CouplingGear, CouplingMotor) {
		out.Due = append(out.Due, code(dueAlignment, textArg("date", dateText(run.Date))))
	}
	wet := w.firstRun(func(s *field.StartUp) bool { return s.Water.Value == waterOn })
	if wet != nil && !w.readAfter(out, runMove(wet), GearLevel, Clearance) {
		out.Due = append(out.Due, code(dueWater, textArg("date", dateText(wet.Date))))
	}
}

// waterOn is the code of a run with water on the tower.
const waterOn = "on"

// firstRun is the earliest dated start-up record of a kind, nil where there is
// none.
func (w *work) firstRun(kind func(*field.StartUp) bool) *field.StartUp {
	var first *field.StartUp
	for i := range w.cell.StartUps {
		s := &w.cell.StartUps[i]
		if s.Date.Set && kind(s) && (first == nil || s.Date.Value.Compare(first.Date.Value) < 0) {
			first = s
		}
	}
	return first
}

// runMove is a run as an event, to compare readings with.
func runMove(s *field.StartUp) field.Move { return field.Move{Date: s.Date, Time: s.Time} }

// torqueEvent is the event of a torque pass on the hold-downs.
const torqueEvent = "holddown.torque"

// torquedAfter tells whether the hold-downs were torqued again after a run: a
// row of the move log, or the record of each set of hold-downs.
func (w *work) torquedAfter(run *field.StartUp) bool {
	for _, m := range w.moves() {
		pass := field.Head{Date: m.Date, Start: m.Time}
		if m.Event.Value == torqueEvent && orderOf(pass, runMove(run)) == later {
			return true
		}
	}
	any := false
	for i := range w.cell.Fasteners {
		f := &w.cell.Fasteners[i]
		if !slices.Contains(holdDownSets(), setCode(f)) {
			continue
		}
		if orderOf(setHead(f), runMove(run)) != later {
			return false
		}
		any = true
	}
	return any
}

// readAfter tells whether the standing readings of the checks were all taken
// after an event. A check that nobody has to read asks for nothing.
func (w *work) readAfter(out *Cell, event field.Move, checks ...string) bool {
	for _, key := range checks {
		c := out.Check(key)
		if c.waived() {
			continue
		}
		r := c.StandingRound()
		if r == nil || orderOf(r.Head, event) != later {
			return false
		}
	}
	return true
}

// milestones tells how far the cell is. A limit that is open for the tower is
// open for each of its cells.
func (c *Cell) milestones() {
	open := map[string]bool{}
	for _, list := range [][]Reason{c.Waits, c.Reasons} {
		for _, r := range list {
			open[r.Check] = true
		}
	}
	none := func(keys []string) bool {
		return !slices.ContainsFunc(keys, func(k string) bool { return open[k] })
	}
	c.Mechanical = none(slices.Concat(Checks(), DriveChecks(), OnceChecks()))
	run := slices.ContainsFunc(StartUpChecks(), func(k string) bool { return c.Check(k).StandingRound() != nil })
	c.Started = c.Mechanical && run && none(StartUpChecks())
	waiting := func(x Code) bool { return slices.Contains([]string{dueTorque, dueAlignment, dueWater}, x.Key) }
	c.AfterRun = c.Started && !slices.ContainsFunc(c.Due, waiting)
}
