package assess

import (
	"slices"

	"asleft/internal/field"
)

// clampEvent is the event of a torque pass on the blade clamps.
const clampEvent = "blade.torque"

// addClampTorque enters the recorded torque of the blade clamps as an event: it
// stands on the fastener list and in no move log, and tightening a clamp turns
// its blade all the same.
func (w *work) addClampTorque() {
	if _, known := w.t.overtakes[clampEvent]; !known {
		return
	}
	for i := range w.cell.Fasteners {
		f := &w.cell.Fasteners[i]
		if setCode(f) != SetBladeClamp || !f.Date.Set {
			continue
		}
		m := field.Move{Sequence: f.Sequence, Date: f.Date, Time: f.Time, By: f.By, At: f.At}
		m.Event.Value, m.Event.Set = clampEvent, true
		w.log = append(w.log, m)
	}
}

// torqueQuestions ask about drive-shaft readings that are marked as read with
// the hold-downs at final torque where the record has that torque only later. A
// pass after the first run is one that is due, and says nothing of that kind.
func (w *work) torqueQuestions(out *Cell) {
	run := w.firstRun(func(*field.StartUp) bool { return true })
	for _, key := range []string{CouplingGear, CouplingMotor, ShaftEnds} {
		c := out.Check(key)
		r := c.StandingRound()
		if r == nil || c.waived() || c.Verdict == Recheck || !r.Head.HoldDownsFinal.Value {
			continue
		}
		for i := range w.cell.Fasteners {
			f := &w.cell.Fasteners[i]
			if !slices.Contains(holdDownSets(), setCode(f)) || run != nil && orderOf(setHead(f), runMove(run)) != overtaken {
				continue
			}
			if orderOf(r.Head, torquePass(f)) == overtaken {
				it := Item{Key: setCode(f), Code: setCode(f), Name: f.Name.Value}
				out.ask(questionTorqueLater, textArg("check", key), itemArg(&it), textArg("date", dateText(f.Date)))
			}
		}
	}
}

// torquePass is the final pass on a set as an event.
func torquePass(f *field.Fasteners) field.Move {
	return field.Move{Sequence: f.Sequence, Date: f.Date, Time: f.Time}
}

// holdDownSets are those that hold what the drive shaft is read on.
func holdDownSets() []string { return []string{SetGearHoldDown, SetMotorHoldDown, SetSupportHoldDown} }
