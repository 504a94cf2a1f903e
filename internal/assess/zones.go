package assess

import (
	"asleft/internal/measure"
)

// Zone is a row of the evaluation zones for vibration velocity, upper bounds of
// zones A, B and C in mm/s rms.
type Zone struct {
	Group    int    // 1: above 300 kW, 2: 15 to 300 kW
	Support  string // "rigid" or "flexible"
	AB       measure.Quantity
	BC, CD   measure.Quantity
	Standard string
}

// Zones are the evaluation zones of ISO 20816-3:2022, annex A, as quoted in
// public tables. They are offered as a source of a limit; the standard holds
// from 120 r/min (from memory) and 15 kW up, which leaves out slow fans.
func Zones() []Zone {
	row := func(group int, support string, ab, bc, cd int64) Zone {
		q := func(tenths int64) measure.Quantity {
			n, _ := measure.NewNumber(tenths, 10)
			return measure.NewQuantity(n, measure.MillimeterPerSecondRMS)
		}
		return Zone{group, support, q(ab), q(bc), q(cd), "ISO 20816-3:2022"}
	}
	return []Zone{
		row(1, "rigid", 23, 45, 71), row(1, "flexible", 35, 71, 110),
		row(2, "rigid", 14, 28, 45), row(2, "flexible", 23, 45, 71),
	}
}
