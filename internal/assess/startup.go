package assess

import (
	"math/big"
	"strconv"
	"strings"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// runKey is the round key of the nth start-up record, from 1.
func runKey(n int) string { return runPrefix + strconv.Itoa(n) }

const runPrefix = "run"

// isRun tells whether a key is that of a start-up record.
func isRun(key string) bool {
	rest, ok := strings.CutPrefix(key, runPrefix)
	n, err := strconv.Atoi(rest)
	return ok && err == nil && n > 0
}

// runHead is when a run was, as a head.
func runHead(s *field.StartUp) field.Head {
	return field.Head{Date: s.Date, Start: s.Time, ReadBy: s.By, Water: s.Water}
}

// runInstrument is what a check of a run was read with.
func runInstrument(check string, s *field.StartUp) field.Text {
	switch check {
	case VoltUnbalance, AmpUnbalance, AmpLoad:
		return s.Meter
	case Insulation:
		return s.InsulationTester
	case SpeedRatio, TipSpeed:
		return s.Tachometer
	case OilTemperature, BearingTemp:
		return s.Thermometer
	case Vibration:
		return s.VibrationMeter
	}
	return field.Text{}
}

// run is one start-up record while a check of it is judged.
type run struct {
	w  *work
	in *field.StartUp
	ru *ruling
	r  *Round
}

// startUpCheck judges one check of every run in which it was recorded. The last
// of them stands: insulation is tested once, and need not be tested again for a
// second run.
func (w *work) startUpCheck(key string) Check {
	c := Check{Key: key, Standing: -1}
	if verdict, note := w.notApplicable(key); verdict != "" {
		c.Verdict, c.Notes = verdict, []Code{code(note)}
		return c
	}
	ru := w.t.ruling(&c)
	for i := range w.cell.StartUps {
		s := &w.cell.StartUps[i]
		r := Round{Key: runKey(i + 1), Head: runHead(s)}
		r.Head.Instrument = runInstrument(key, s)
		judgeRun(key, run{w, s, ru, &r})
		if r.Found == 0 && len(r.Items) == 0 {
			continue
		}
		ru.closeRun(&r)
		c.Standing = len(c.Rounds)
		c.Rounds = append(c.Rounds, r)
	}
	return c
}

// notApplicable are checks that the machine does not call for.
func (w *work) notApplicable(key string) (Verdict, string) {
	if key == Reverse && w.t.geometry.Reversing.Set && !w.t.geometry.Reversing.Value {
		return NotRequired, noteNotReversing
	}
	return "", ""
}

func judgeRun(key string, x run) {
	switch key {
	case Rotation:
		x.rotation()
	case VoltUnbalance:
		x.unbalance(x.in.Volts, measure.Volt)
	case AmpUnbalance:
		x.unbalance(x.in.Amps, measure.Ampere)
	case AmpLoad:
		x.load()
	case Insulation:
		x.insulation()
	case OilLevel:
		x.flag(x.in.OilLevelOK, reasonOil)
	case OilTemperature:
		x.each(x.in.OilTemperature)
	case BearingTemp:
		x.each(x.in.Bearing[:]...)
	case Vibration:
		x.vibration()
	case VibrationSwitch:
		x.vibrationSwitch()
	case SpeedRatio:
		x.speedRatio()
	case TipSpeed:
		x.tipSpeed()
	case RunTime:
		x.each(x.in.RunTime)
	case Reverse:
		x.reverse()
	}
}

// closeRun gives a run its final verdict: what is not complete is missing
// unless it is outside already.
func (ru *ruling) closeRun(r *Round) {
	switch {
	case len(r.Items) > 0 || r.Verdict == Outside:
	case r.Verdict == Missing || r.Found < r.Expected:
		r.Verdict, r.Margin = Missing, nil
		if r.Found < r.Expected {
			r.Notes = append(r.Notes, code(noteIncomplete, numberArg("found", r.Found), numberArg("needed", r.Expected)))
		}
	case !ru.limited:
		r.Verdict = NoLimit
	}
}

// points enters readings of a run, and returns them in millionths of one unit;
// nil where one was not read or is of another kind.
func (x run) points(unit measure.QuantityUnit, in ...field.Quantity) []*big.Rat {
	out := make([]*big.Rat, len(in))
	for i, q := range in {
		p := Point{Index: i + 1, Typed: q.Text, At: q.At}
		if v, ok := quantityRat(q.Value, unit); q.Set && ok {
			out[i], p.Found = v, true
			p.Value = scale{KindQuantity, unit}.amount(v)
			x.r.Found++
		}
		x.r.Points = append(x.r.Points, p)
	}
	x.r.Expected = len(in)
	return out
}

// unitFor is what a value is judged in: the unit of the limit, else the unit in
// which it was typed.
func (x run) unitFor(in ...field.Quantity) measure.QuantityUnit {
	if x.ru.limited {
		return x.ru.unit
	}
	for _, q := range in {
		if q.Set {
			return q.Value.Unit
		}
	}
	return measure.NoUnit
}

// each judges plain readings by themselves.
func (x run) each(in ...field.Quantity) {
	unit := x.unitFor(in...)
	values := x.points(unit, in...)
	x.ru.eachExact(x.r, scale{KindQuantity, unit}, values, uncertainty{})
}

// decide judges one computed value.
func (x run) decide(v *big.Rat, unit measure.QuantityUnit) {
	x.ru.decideExact(x.r, scale{KindQuantity, unit}, v, uncertainty{})
}

// lacks makes the run missing and says of what.
func (x run) lacks(note string) {
	x.r.Verdict = Missing
	x.r.Notes = append(x.r.Notes, code(note))
}

// flag judges a yes or no.
func (x run) flag(f field.Flag, key string) {
	if !f.Set {
		return
	}
	it := Item{Key: x.ru.check, Code: x.ru.check, Verdict: Within, At: f.At}
	if !f.Value {
		it.Verdict = Outside
		it.Findings = []Code{code(key)}
	}
	x.items([]Item{it})
}

// items makes the run one of items.
func (x run) items(list []Item) {
	r := itemRound(x.r.Key, x.r.Head, list)
	r.Notes = x.r.Notes
	*x.r = r
}

// rotation asks that the fan turns as its blades ask for, and, where a backstop
// is fitted, that this was proved with the drive shaft off: a backstop is broken
// by trying it the wrong way round.
func (x run) rotation() {
	if !x.in.RotationOK.Set {
		return
	}
	it := Item{Key: Rotation, Code: Rotation, Verdict: Within, At: x.in.RotationOK.At}
	find := func(v Verdict, key string) {
		it.Verdict = worse(it.Verdict, v)
		it.Findings = append(it.Findings, code(key))
	}
	if !x.in.RotationOK.Value {
		find(Outside, reasonRotation)
	}
	backstop := x.w.t.geometry.Backstop
	proved := x.in.Uncoupled.Set && x.in.Uncoupled.Value
	switch {
	case proved:
	case !backstop.Set:
		find(Missing, reasonBackstop)
	case backstop.Value && x.in.Uncoupled.Set:
		find(Outside, reasonCoupled)
	case backstop.Value:
		find(Missing, reasonCoupledBlank)
	}
	x.items([]Item{it})
}

// reverse asks for both directions of a reversing fan.
func (x run) reverse() {
	if !x.w.t.geometry.Reversing.Set && x.in.ReverseOK.Set {
		it := Item{Key: Reverse, Code: Reverse, Verdict: Missing, At: x.in.ReverseOK.At}
		it.Findings = []Code{code(reasonReversingBlank)}
		x.items([]Item{it})
		return
	}
	x.flag(x.in.ReverseOK, reasonReverse)
}

// notCleared sets aside a start-up that was not preceded by a complete
// pre-start list.
func (w *work) notCleared(c *Check) {
	n, err := strconv.Atoi(strings.TrimPrefix(c.StandingRound().Key, runPrefix))
	if err != nil || n < 1 || n > len(w.cell.StartUps) || w.clearedFor(&w.cell.StartUps[n-1]) {
		return
	}
	c.Notes = append(c.Notes, code(noteNoPreStart))
	c.recheck()
}
