package assess_test

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// quantity is a value of a kind, now and then of another one, negative, enormous
// or blank.
func (g *generator) quantity(kind measure.QuantityKind, most int) field.Quantity {
	text := strconv.Itoa(g.IntN(most + 1))
	switch g.IntN(14) {
	case 0:
		return field.Quantity{}
	case 1:
		text = "-" + text
	case 2:
		text = "1000000000000"
	case 3:
		text = "0"
	case 4:
		kind = measure.Mass
	}
	units := kind.Units()
	q, err := measure.ParseQuantity(text, kind, units[g.IntN(len(units))])
	return field.Quantity{Value: q, Set: err == nil, Text: text}
}

func (g *generator) slope() field.Slope {
	s, err := measure.NewSlope(g.length(inch/10).Value, g.length(12*inch).Value)
	return field.Slope{Value: s, Set: err == nil && g.IntN(8) > 0}
}

func (g *generator) slopes() field.Level {
	var out field.Level
	for _, key := range []string{field.AsFound, field.AsLeft} {
		s := field.Series[field.Slope]{Round: key, Head: g.head(), Accepted: g.flag(), Return: g.slope()}
		for i := range 2 {
			s.Readings = append(s.Readings, field.Reading[field.Slope]{Index: i + 1, Value: g.slope()})
		}
		out.Rounds = append(out.Rounds, s)
	}
	return out
}

func (g *generator) gap(n int, around measure.Length) field.Gap {
	return field.Gap{Rounds: g.series(n, around)}
}

func (g *generator) coupling() field.Coupling {
	return field.Coupling{Stood: g.word("", "motor", "gear"), Together: g.flag(), Sweep: g.flag(), Rounds: g.series(4, inch/2)}
}

// job fills in what a cell has beyond its fan.
func (g *generator) job(c *field.Cell) {
	c.Tilt.Reference = g.word("", "deck", "cylinder")
	c.Drive = field.Drive{
		GearLevel: g.slopes(), MotorLevel: g.slopes(), CylinderPlumb: g.slopes(), CylinderRound: g.gap(4, 336*inch),
		SoftFootGear: g.gap(4, 0), SoftFootMotor: g.gap(4, 0), CouplingGear: g.coupling(), CouplingMotor: g.coupling(),
		ShaftEnds: g.gap(1, 120*inch), GuardEnd: g.gap(1, inch/4), GuardAround: g.gap(4, inch),
	}
	for range g.IntN(6) {
		c.Fasteners = append(c.Fasteners, g.fasteners())
	}
	for range g.IntN(4) {
		c.Pins = append(c.Pins, field.Pins{
			Where: g.word("", "gear", "motor", "support"), Required: g.flag(), Count: g.count(2), Found: g.count(2),
			Above: g.length(inch / 8), Below: g.length(inch / 8), Date: g.day(), Time: clock(g.IntN(1000)), Sequence: g.count(9),
		})
	}
	lines := assess.PreStartLines()
	for _, key := range lines[:g.IntN(len(lines)+1)] {
		x := field.Item{Key: key, Done: g.flag(), By: g.word("", "x", "x", "x", "x", "x"), Date: g.day()}
		if number := c.Number; number == 1 { // else a complete list would be rare
			x.Done, x.By, x.Date = flag(true), text("x"), day(1)
		}
		c.PreStart = append(c.PreStart, x)
	}
	for range g.IntN(3) {
		c.StartUps = append(c.StartUps, g.startUp())
	}
}

func (g *generator) day() field.Date {
	if g.IntN(8) == 0 {
		return field.Date{}
	}
	return day(1 + g.IntN(9))
}

func (g *generator) fasteners() field.Fasteners {
	f := field.Fasteners{
		Set: g.word(append(assess.Sets(), "", "gear.holddown", "blade.clamp", "x")...), Name: g.word("", "x"),
		Count: g.count(3), Size: g.word("", "5/8-11", "1-1/4-7", "M16", "M16x1.5", "M7", "x-y", "0-0", "Mx"),
		Class: g.word("", "SAE 5", "8.8", "A2-70", "x"), Material: g.word("", "steel", "stainless", "galvanized"),
		Lubricant: g.word("", "dry", "oiled", "antiseize", "x"), FirstPass: g.quantity(measure.Torque, 90),
		Final: g.quantity(measure.Torque, 100), Required: g.quantity(measure.Torque, 100), FirstUnder: g.quantity(measure.Torque, 20),
		Clicks: g.count(3), Running: g.quantity(measure.Torque, 10), Pattern: g.flag(), Stripe: g.flag(), Tool: g.word("", "W1", "W1", "T1", "T9"),
		Scheduled: g.word("", "none", "nylon", "washer", "liquid", "wicking"), Locking: g.word("", "none", "nylon", "washer", "liquid", "wicking"),
		LockingTime: g.word("", "before", "after"), Authority: g.word("", "manual", "start"), Date: g.day(), Time: clock(g.IntN(1000)), Sequence: g.count(9),
	}
	if g.IntN(3) == 0 {
		f.FirstUnder = field.Quantity{}
	}
	if g.IntN(9) == 0 { // nobody got to it
		return field.Fasteners{Set: f.Set, Count: f.Count, Required: f.Required, Scheduled: f.Scheduled}
	}
	if g.IntN(6) == 0 {
		f.Coefficient = field.Number{Value: measure.Whole(int64(g.IntN(2))), Set: true}
	}
	return f
}

func (g *generator) startUp() field.StartUp {
	s := field.StartUp{
		Date: g.day(), Time: clock(g.IntN(1000)), Water: g.word("", "on", "off"), RotationOK: g.flag(), Uncoupled: g.flag(),
		MotorSpeed: g.quantity(measure.RotationalSpeed, 1800), FanSpeed: g.quantity(measure.RotationalSpeed, 250),
		Insulation: g.quantity(measure.Resistance, 100), InsulationTemp: g.quantity(measure.Temperature, 40), WindingType: g.word("", "random", "form", "old"),
		OilLevelOK: g.flag(), OilTemperature: g.quantity(measure.Temperature, 200), RunTime: g.quantity(measure.Time, 8), ReverseOK: g.flag(),
		SwitchSetPoint: g.quantity(measure.VibrationVelocityRMS, 1), SwitchTrip: g.flag(),
	}
	zero := g.IntN(6) == 0
	for i := range 3 {
		s.Volts[i], s.Amps[i] = g.quantity(measure.Voltage, 480), g.quantity(measure.Current, 100)
		if zero {
			s.Volts[i] = field.Quantity{Value: measure.NewQuantity(measure.Whole(0), measure.Volt), Set: true}
		}
	}
	for i := range 2 {
		s.Bearing[i] = g.quantity(measure.Temperature, 200)
	}
	for range g.IntN(4) {
		kind := measure.VibrationVelocityRMS
		if g.IntN(4) == 0 {
			kind = measure.VibrationVelocityPeak
		}
		v := field.Vibration{Point: g.word("", "motor"), Axis: g.word("", "h"), Value: g.quantity(kind, 1), Detector: g.word("rms", "rms", "peak", "")}
		if g.IntN(3) == 0 {
			v.Limit = g.quantity(measure.VibrationVelocityRMS, 1)
		}
		s.Vibration = append(s.Vibration, v)
	}
	return s
}

// jobTower fills in limits, geometry and drive type.
func (g *generator) jobTower(r *field.Record) {
	r.Tower.DriveType = g.word("", "", "", "", "rightangle", "direct", "belt")
	geometry := &r.Tower.Geometry
	geometry.FaceGear, geometry.FaceMotor = g.length(8*inch), g.length(8*inch)
	geometry.Ratio = field.Number{Value: measure.Whole(int64(g.IntN(15))), Set: g.IntN(4) > 0}
	geometry.Backstop, geometry.Reversing = g.flag(), g.flag()
	geometry.MotorCurrent, geometry.MotorVolts = g.quantity(measure.Current, 100), g.quantity(measure.Voltage, 480)
	for _, key := range append(assess.DriveChecks(), assess.DowelPins) {
		l := field.Limit{Check: key, Max: g.length(inch), Slope: g.slope(), Criterion: g.word("", "range", "plane", "total")}
		switch {
		case key == assess.DowelPins:
			l.Max, l.Tolerance = field.Length{}, g.length(inch/16)
		case g.IntN(3) == 0:
			l.Max, l.Nominal, l.Tolerance = field.Length{}, g.length(inch), g.length(inch/8)
		}
		l.Authority = g.word("start", "contract", "")
		r.Limits = append(r.Limits, l)
	}
	for _, key := range append(assess.StartUpChecks(), assess.FastenerTorque) {
		l := field.Limit{Check: key, Authority: g.word("start", "contract", "standard")}
		kind := map[string]measure.QuantityKind{
			assess.AmpLoad: measure.Current, assess.Insulation: measure.Resistance, assess.OilTemperature: measure.Temperature,
			assess.BearingTemp: measure.Temperature, assess.Vibration: measure.VibrationVelocityRMS, assess.VibrationSwitch: measure.VibrationVelocityRMS,
			assess.TipSpeed: measure.Speed, assess.RunTime: measure.Time, assess.FastenerTorque: measure.Torque,
		}[key]
		if kind == measure.KindNone {
			kind = measure.Percentage
		}
		if g.IntN(4) > 0 {
			l.Quantities.Max = g.quantity(kind, 100)
		}
		if key == assess.RunTime && g.IntN(2) == 0 {
			l.Quantities.Min, l.Quantities.Max = l.Quantities.Max, field.Quantity{}
		}
		if g.IntN(4) == 0 {
			l.Quantities.Tolerance = g.quantity(kind, 10)
		}
		r.Limits = append(r.Limits, l)
	}
	r.Instruments = append(r.Instruments, field.Instrument{
		ID: text("W1"), Class: text("calibrated"), Calibrated: g.day(), Due: day(1 + g.IntN(9)), Capacity: g.quantity(measure.Torque, 250),
	})
	r.Instruments[0].SlopeResolution = g.slope()
}
