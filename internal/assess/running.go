package assess

import (
	"math/big"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// ratioDeviation is how far the fan's speed is from that of the motor over the
// ratio of the gear reducer, in millionths of a percent: 100·(n·i/m − 1). Nil
// where one of the three is not given.
func (w *work) ratioDeviation(s *field.StartUp) (deviation, expected *big.Rat) {
	ratio := w.t.geometry.Ratio
	motor, ok := quantityRat(s.MotorSpeed.Value, measure.RPM)
	fan, okFan := quantityRat(s.FanSpeed.Value, measure.RPM)
	if !ok || !okFan || !s.MotorSpeed.Set || !s.FanSpeed.Set || !ratio.Set || ratio.Value.Sign() <= 0 || motor.Sign() <= 0 {
		return nil, nil
	}
	expected = new(big.Rat).Quo(motor, ratio.Value.Rat())
	d := new(big.Rat).Quo(fan, expected)
	d.Sub(d, whole(1))
	return d.Mul(d, whole(100*quantityScale)), expected
}

// speedRatio judges the fan's speed against the motor's over the ratio.
func (x run) speedRatio() {
	values := x.points(measure.RPM, x.in.MotorSpeed, x.in.FanSpeed)
	if x.r.Found < len(values) {
		return
	}
	deviation, expected := x.w.ratioDeviation(x.in)
	if deviation == nil {
		x.lacks(noteNoRatio)
		return
	}
	x.r.Results = append(x.r.Results, scale{KindQuantity, measure.RPM}.result("expected", expected, 0))
	x.decide(deviation, measure.Percent)
}

// ratioSlack is the deviation in percent above which a fan that does not turn
// as the ratio says is asked about. Common practice, no source: a tachometer
// and a slow fan leave half a percent.
const ratioSlack = 1

// ratioQuestion asks about a fan that does not turn as motor and ratio say,
// whether or not there is a limit on it.
func (w *work) ratioQuestion(out *Cell) {
	for i := range w.cell.StartUps {
		s := &w.cell.StartUps[i]
		deviation, expected := w.ratioDeviation(s)
		if deviation == nil || new(big.Rat).Abs(deviation).Cmp(whole(ratioSlack*quantityScale)) <= 0 {
			continue
		}
		fan, _ := quantityRat(s.FanSpeed.Value, measure.RPM)
		sc := scale{KindQuantity, measure.RPM}
		out.ask(questionRatio, textArg("round", runKey(i+1)), amountArg("fan", sc.amount(fan)), amountArg("expected", sc.amount(expected)))
	}
}

// tipSpeed judges π·D·n. π is rounded up at 30 decimals, so a speed that is
// within is within.
func (x run) tipSpeed() {
	values := x.points(measure.RPM, x.in.FanSpeed)
	if values[0] == nil {
		return
	}
	if x.w.t.diameter <= 0 {
		x.lacks(noteNoDiameter)
		return
	}
	unit := measure.FootPerMinute
	switch {
	case x.ru.limited:
		unit = x.ru.unit
	case x.w.t.unit == measure.UnitMillimeter:
		unit = measure.MeterPerSecond
	}
	one, err := measure.NewQuantity(measure.Whole(1), measure.MeterPerSecond).In(unit)
	if err != nil {
		return
	}
	// Meters a second: D in nanometers over 1e9, turns a minute over 60.
	v := new(big.Rat).Mul(pi(), values[0])
	v.Mul(v, big.NewRat(x.w.t.diameter, 60*int64(measure.Meter)))
	x.decide(v.Mul(v, one.Rat()), unit)
}

// slowFan is the speed from which ISO 20816-3 holds (value from memory).
const slowFan = 120

// vibration judges each point by its own limit, else by that of the limits
// sheet. Rms and peak are never compared: they are different kinds.
func (x run) vibration() {
	var items []Item
	for i := range x.in.Vibration {
		v := &x.in.Vibration[i]
		if !v.Value.Set && v.Point.Value == "" {
			continue
		}
		it := newItem(items, "", pointName(v), v.At)
		x.judgePoint(v, &it)
		items = append(items, it)
	}
	if len(items) == 0 {
		return
	}
	if row := x.w.t.limits[Vibration]; row != nil && row.Authority.Value == authorityStandard {
		x.r.Notes = append(x.r.Notes, code(noteZoneScope))
		fan, ok := quantityRat(x.in.FanSpeed.Value, measure.RPM)
		if ok && x.in.FanSpeed.Set && fan.Cmp(whole(slowFan*quantityScale)) < 0 {
			x.r.Notes = append(x.r.Notes, code(noteZoneSlow, amountArg("speed", scale{KindQuantity, measure.RPM}.amount(fan))))
		}
	}
	x.items(items)
}

func pointName(v *field.Vibration) string {
	switch {
	case v.Point.Value == "":
		return v.Axis.Value
	case v.Axis.Value == "":
		return v.Point.Value
	}
	return v.Point.Value + " " + v.Axis.Value
}

func (x run) judgePoint(v *field.Vibration, it *Item) {
	if !v.Value.Set {
		it.find(Missing, reasonItemNotRead)
		return
	}
	value, _ := quantityRat(v.Value.Value, v.Value.Value.Unit)
	if value == nil {
		it.find(Missing, reasonItemNotRead)
		return
	}
	s := scale{KindQuantity, v.Value.Value.Unit}
	d := s.amount(value)
	it.Deciding = &d
	if !detected(v) {
		it.find(NoLimit, reasonDetector)
		return
	}
	most := v.Limit.Value
	if !v.Limit.Set {
		if !x.ru.limited || x.w.t.limits[Vibration].Quantities.Max.Value.Kind() == measure.KindNone {
			it.find(NoLimit, reasonItemLimit)
			return
		}
		most = x.w.t.limits[Vibration].Quantities.Max.Value
	}
	limit, ok := quantityRat(most, s.unit)
	if !ok {
		it.find(NoLimit, reasonOtherKind)
		return
	}
	margin := new(big.Rat).Sub(limit, value)
	m := s.margin(margin)
	it.Margin = &m
	it.Results = append(it.Results, s.result("limit", limit, 0))
	if margin.Sign() < 0 {
		over := m
		over.N = -m.N
		it.find(Outside, reasonItemOutside, amountArg("value", d), amountArg("over", over))
	}
}

// detected tells whether the form names the detector, and the same one as the
// unit.
func detected(v *field.Vibration) bool {
	switch v.Value.Value.Kind() {
	case measure.VibrationVelocityRMS, measure.VibrationDisplacementRMS:
		return v.Detector.Value == "rms"
	case measure.VibrationVelocityPeak, measure.VibrationDisplacementPeakToPeak:
		return v.Detector.Value == "peak"
	}
	return false
}

// vibrationSwitch asks for a set point, inside its limit where there is one, and
// for a trip test that stopped the motor.
func (x run) vibrationSwitch() {
	if !x.in.SwitchSetPoint.Set && !x.in.SwitchTrip.Set {
		return
	}
	it := newItem(nil, VibrationSwitch, "", x.in.SwitchSetPoint.At)
	switch {
	case !x.in.SwitchTrip.Set:
		it.find(Missing, reasonTripBlank)
	case !x.in.SwitchTrip.Value:
		it.find(Outside, reasonTrip)
	}
	x.setPoint(&it)
	x.items([]Item{it})
}

func (x run) setPoint(it *Item) {
	if !x.in.SwitchSetPoint.Set {
		it.find(Missing, reasonSetPoint)
		return
	}
	unit := x.unitFor(x.in.SwitchSetPoint)
	v, ok := quantityRat(x.in.SwitchSetPoint.Value, unit)
	s := scale{KindQuantity, unit}
	switch {
	case !ok:
		it.find(NoLimit, reasonOtherKind)
		return
	case !x.ru.limited:
		return
	}
	d, margin := s.amount(v), x.ru.exact.margin(v)
	m := s.margin(margin)
	it.Deciding, it.Margin = &d, &m
	if margin.Sign() < 0 {
		over := m
		over.N = -m.N
		it.find(Outside, reasonItemOutside, amountArg("value", d), amountArg("over", over))
	}
}
