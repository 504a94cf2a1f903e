package assess

import (
	"math/big"
	"strings"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// The range of an instrument is typed freely: "12 in", "0.001 to 0.050 in",
// "±90°", "600 V, 600 A". What can be read of it is held against the readings;
// the rest says nothing.

// reachQuestions ask about readings outside the range of their instrument, once
// for a round.
func (w *work) reachQuestions(out *Cell, b block) {
	kind := kindOf(b.check)
	for i := range b.rounds {
		s := &b.rounds[i]
		in := w.t.instruments[s.head.Instrument.Value]
		if in == nil {
			continue
		}
		reach := w.t.reachOf(in, kind, measure.NoUnit)
		for _, r := range s.found() {
			v := whole(r.value.n)
			if r.value.exact != nil {
				v = r.value.exact
			}
			if reach.out(v) {
				out.askReach(b.check, s.round, Amount{Kind: kind, N: r.value.n}, in)
				break
			}
		}
	}
}

// runReachQuestions ask the same of the readings of a start-up.
func (w *work) runReachQuestions(out *Cell) {
	for i := range w.cell.StartUps {
		s := &w.cell.StartUps[i]
		vibration := make([]field.Quantity, 0, len(s.Vibration))
		for _, v := range s.Vibration {
			vibration = append(vibration, v.Value)
		}
		for _, x := range []struct {
			check string
			read  []field.Quantity
		}{
			{VoltUnbalance, s.Volts[:]}, {AmpUnbalance, s.Amps[:]}, {Insulation, []field.Quantity{s.Insulation}},
			{OilTemperature, []field.Quantity{s.OilTemperature}}, {BearingTemp, s.Bearing[:]}, {Vibration, vibration},
			{SpeedRatio, []field.Quantity{s.MotorSpeed, s.FanSpeed}},
		} {
			if in := w.t.instruments[runInstrument(x.check, s).Value]; in != nil {
				w.askRunReach(out, x.check, runKey(i+1), in, x.read)
			}
		}
	}
}

func (w *work) askRunReach(out *Cell, check, round string, in *field.Instrument, read []field.Quantity) {
	for _, q := range read {
		unit := q.Value.Unit
		v, ok := quantityRat(q.Value, unit)
		if !q.Set || !ok || !w.t.reachOf(in, KindQuantity, unit).out(v) {
			continue
		}
		out.askReach(check, round, scale{KindQuantity, unit}.amount(v), in)
		return
	}
}

func (c *Cell) askReach(check, round string, reading Amount, in *field.Instrument) {
	c.ask(questionRange, textArg("check", check), textArg("round", round), amountArg("reading", reading),
		textArg("instrument", in.ID.Value), textArg("range", in.Range.Value))
}

// stretch is a part of a range, in base units.
type stretch struct{ low, high *big.Rat }

// reach is what an instrument reads of one kind; empty where nothing of that
// kind was understood.
type reach []stretch

// out tells whether a reading is outside. A nothing is in every range, and where
// a range begins at nothing or above, a minus only says which way.
func (r reach) out(v *big.Rat) bool {
	if v.Sign() == 0 {
		return false
	}
	for _, s := range r {
		x := v
		if s.low.Sign() >= 0 {
			x = new(big.Rat).Abs(v)
		}
		if x.Cmp(s.low) >= 0 && x.Cmp(s.high) <= 0 {
			return false
		}
	}
	return len(r) > 0
}

// reachOf reads the range of an instrument as far as it is of a kind; unit is
// what a quantity is stated in.
func (t *tower) reachOf(in *field.Instrument, kind Kind, unit measure.QuantityUnit) reach {
	var out reach
	for _, part := range strings.FieldsFunc(strings.ReplaceAll(in.Range.Value, ", ", ";"), func(r rune) bool { return r == ';' }) {
		lowText, highText := ends(strings.TrimSpace(part))
		low, okLow := t.reading(lowText, kind, unit)
		high, okHigh := t.reading(highText, kind, unit)
		if lowText == "" {
			low, okLow = new(big.Rat), true
		}
		if okLow && okHigh && low.Cmp(high) <= 0 {
			out = append(out, stretch{low, high})
		}
	}
	return out
}

// ends takes a part of a range apart. An end without a unit has that of the
// other; blank is where it begins at nothing.
func ends(part string) (low, high string) {
	if rest, both := strings.CutPrefix(part, "±"); both {
		high = strings.TrimSpace(rest)
		return "-" + high, high
	}
	for _, word := range []string{"up to ", "to "} {
		part = strings.TrimPrefix(part, word)
	}
	for _, between := range []string{" to ", "–", "…", ".."} {
		before, after, found := strings.Cut(part, between)
		if !found {
			continue
		}
		low, high = strings.TrimSpace(before), strings.TrimSpace(after)
		if unitOf(low) == "" {
			low += " " + unitOf(high)
		}
		return low, high
	}
	return "", part
}

// unitOf is what stands behind the number.
func unitOf(text string) string {
	return strings.TrimLeft(text, "0123456789.,/-−+ ½¼¾")
}

// reading is an end of a range in base units, if it is of the kind.
func (t *tower) reading(text string, kind Kind, unit measure.QuantityUnit) (*big.Rat, bool) {
	if unitOf(text) == "" {
		return nil, false
	}
	switch kind {
	case KindAngle:
		a, err := measure.ParseAngle(text)
		return whole(int64(a)), err == nil
	case KindSlope:
		s, err := measure.ParseSlope(text, measure.UnitNone, measure.UnitNone)
		if err != nil {
			return nil, false
		}
		return slopeRat(s), true
	case KindQuantity:
		q, err := measure.ParseQuantity(text, unit.Kind(), measure.NoUnit)
		if err != nil {
			return nil, false
		}
		return quantityRat(q, unit)
	}
	l, _, err := measure.ParseLength(text, measure.UnitNone)
	return whole(int64(l)), err == nil
}
