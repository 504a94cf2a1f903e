package assess

import (
	"math"
	"math/big"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// unbalance judges three phases by the definition of NEMA MG 1: 100 times the
// largest deviation from the average, divided by the average. The same is used
// for current.
func (x run) unbalance(phases [3]field.Quantity, unit measure.QuantityUnit) {
	values := x.points(unit, phases[:]...)
	if x.r.Found < len(values) {
		return
	}
	mean := new(big.Rat)
	for _, v := range values {
		mean.Add(mean, v)
	}
	mean.Quo(mean, whole(int64(len(values))))
	if mean.Sign() <= 0 {
		x.lacks(noteNoMean)
		return
	}
	worst := new(big.Rat)
	for _, v := range values {
		if d := new(big.Rat).Sub(v, mean); d.Abs(d).Cmp(worst) > 0 {
			worst = d
		}
	}
	s := scale{KindQuantity, unit}
	x.r.Results = append(x.r.Results, s.result("mean", mean, 0), s.result("deviation", worst, 0))
	percent := new(big.Rat).Quo(worst, mean)
	x.decide(percent.Mul(percent, whole(100*quantityScale)), measure.Percent)
}

// load judges the largest phase current, in amperes or in percent of the
// nameplate, as the limit is stated.
func (x run) load() {
	values := x.points(measure.Ampere, x.in.Amps[:]...)
	if x.r.Found < len(values) {
		return
	}
	most := values[0]
	for _, v := range values[1:] {
		if v.Cmp(most) > 0 {
			most = v
		}
	}
	x.r.Results = append(x.r.Results, scale{KindQuantity, measure.Ampere}.result("largest", most, 0))
	plate, ok := quantityRat(x.w.t.geometry.MotorCurrent.Value, measure.Ampere)
	ok = ok && x.w.t.geometry.MotorCurrent.Set && plate.Sign() > 0
	percent := new(big.Rat)
	if ok {
		percent.Quo(most, plate)
		percent.Mul(percent, whole(100*quantityScale))
		x.r.Results = append(x.r.Results, scale{KindQuantity, measure.Percent}.result("ofnameplate", percent, 0))
	}
	switch {
	case x.ru.limited && x.ru.unit.Kind() == measure.Current:
		one, _ := measure.NewQuantity(measure.Whole(1), measure.Ampere).In(x.ru.unit)
		x.decide(new(big.Rat).Mul(most, one.Rat()), x.ru.unit)
	case ok:
		x.decide(percent, measure.Percent)
	default:
		x.lacks(noteNoNameplate)
	}
}

// Winding types.
const (
	windingRandom = "random"
	windingForm   = "form"
	windingOld    = "old"
)

// InsulationMinimum is the least insulation resistance at 40 °C that IEEE
// 43-2013 recommends (values from memory): one megohm and one more for each
// kilovolt for old windings, 100 MΩ for form-wound ones since about 1970, 5 MΩ
// for random-wound ones and below 1 kV. It is offered, and judges nothing by
// itself. False where the type, or a voltage it takes, is not known.
func InsulationMinimum(winding string, rated field.Quantity) (measure.Quantity, bool) {
	kilovolts, err := rated.Value.In(measure.Kilovolt)
	known := rated.Set && err == nil
	minimum := measure.Whole(5)
	switch {
	case winding == windingOld && known:
		minimum = kilovolts.Add(measure.Whole(1))
	case winding == windingForm && known && kilovolts.Cmp(measure.Whole(1)) >= 0:
		minimum = measure.Whole(100)
	case winding == windingForm && known, winding == windingRandom:
	default:
		return measure.Quantity{}, false
	}
	return measure.NewQuantity(minimum, measure.Megohm), true
}

// Temperatures of a winding, in °C, between which the correction is used.
const (
	coldestWinding = -40
	hottestWinding = 180
)

// correctionScale is how finely the temperature factor is rounded, once.
const correctionScale = 1_000_000_000

// temperatureFactor brings an insulation resistance to 40 °C: it halves for
// every 10 degrees that the winding is warmer, K = 0.5^((40 − T)/10) (IEEE
// 43-2013, value from memory).
func temperatureFactor(t measure.Quantity) (*big.Rat, bool) {
	celsius, err := t.In(measure.Celsius)
	if err != nil || celsius.Cmp(measure.Whole(coldestWinding)) < 0 || celsius.Cmp(measure.Whole(hottestWinding)) > 0 {
		return nil, false
	}
	k := math.Exp2((celsius.Float() - 40) / 10)
	return big.NewRat(int64(math.Round(k*correctionScale)), correctionScale), true
}

// insulation judges the resistance brought to 40 °C.
func (x run) insulation() {
	unit := x.unitFor(x.in.Insulation)
	values := x.points(unit, x.in.Insulation)
	if values[0] == nil {
		return
	}
	if q, ok := InsulationMinimum(x.in.WindingType.Value, x.w.t.geometry.MotorVolts); ok {
		least, _ := quantityRat(q, measure.Megohm)
		x.r.Results = append(x.r.Results, scale{KindQuantity, measure.Megohm}.result("recommended", least, 0))
	}
	k, ok := temperatureFactor(x.in.InsulationTemp.Value)
	if !x.in.InsulationTemp.Set || !ok {
		x.lacks(noteNoWindingTemp)
		return
	}
	x.r.Results = append(x.r.Results, Result{"factor", Amount{KindQuantity, roundRat(millions(k)), measure.NoUnit}, 0})
	x.decide(new(big.Rat).Mul(values[0], k), unit)
}
