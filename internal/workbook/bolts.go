package workbook

import "asleft/internal/field"

// fastenersBlock is what was done to each set of fasteners of the cell; what is
// asked of them stands in the schedule.
func fastenersBlock() block {
	type f = field.Fasteners
	b := table("fasteners", 0, func(c *field.Cell) *[]f { return &c.Fasteners },
		func(x *f) *field.Ref { return &x.At },
		entry("set", func(x *f) any { return &x.Set }).of(fastenerSet()).high(3),
		entry("name", func(x *f) any { return &x.Name }),
		entry("firstpass", func(x *f) any { return &x.FirstPass }).in(torque),
		entry("final", func(x *f) any { return &x.Final }).in(torque),
		entry("clicks", func(x *f) any { return &x.Clicks }),
		entry("running", func(x *f) any { return &x.Running }).in(torque),
		entry("pattern", func(x *f) any { return &x.Pattern }).of(yesNo()),
		entry("stripe", func(x *f) any { return &x.Stripe }).of(yesNo()),
		entry("tool", func(x *f) any { return &x.Tool }).from(pickInstruments),
		entry("locking", func(x *f) any { return &x.Locking }).of(locking()).high(3),
		entry("lockingtime", func(x *f) any { return &x.LockingTime }).of(lockingTime()).high(2),
		entry("date", func(x *f) any { return &x.Date }),
		entry("time", func(x *f) any { return &x.Time }),
		entry("sequence", func(x *f) any { return &x.Sequence }),
		entry("by", func(x *f) any { return &x.By }).from(pickPeople).high(2),
	)
	b.shape = columnShape
	return b
}

func pinsBlock() block {
	type p = field.Pins
	return table("pins", 4, func(c *field.Cell) *[]p { return &c.Pins },
		func(x *p) *field.Ref { return &x.At },
		entry("where", func(x *p) any { return &x.Where }).of(pinPlace()),
		entry("required", func(x *p) any { return &x.Required }).of(yesNo()),
		entry("count", func(x *p) any { return &x.Count }),
		entry("found", func(x *p) any { return &x.Found }),
		entry("hole", func(x *p) any { return &x.Hole }),
		entry("above", func(x *p) any { return &x.Above }),
		entry("below", func(x *p) any { return &x.Below }),
		entry("date", func(x *p) any { return &x.Date }),
		entry("time", func(x *p) any { return &x.Time }),
		entry("sequence", func(x *p) any { return &x.Sequence }),
		entry("by", func(x *p) any { return &x.By }).from(pickPeople),
	)
}

func preStartBlock() block {
	type i = field.Item
	b := table("prestart", 0, func(c *field.Cell) *[]i { return &c.PreStart },
		func(x *i) *field.Ref { return &x.At },
		entry("done", func(x *i) any { return &x.Done }).of(yesNo()),
		entry("by", func(x *i) any { return &x.By }).from(pickPeople),
		entry("date", func(x *i) any { return &x.Date }),
		entry("note", func(x *i) any { return &x.Note }).across(4),
	)
	b.shape = listShape
	b.begin = func(row any, key string) { row.(*i).Key = key }
	for _, key := range preStartKeys() {
		b.keyed = append(b.keyed, keyedRow{key: key})
	}
	return b
}

// startUpBlock has a column for each run.
func startUpBlock() block {
	type u = field.StartUp
	b := table("startup", 0, func(c *field.Cell) *[]u { return &c.StartUps },
		func(x *u) *field.Ref { return &x.At },
		entry("date", func(x *u) any { return &x.Date }),
		entry("time", func(x *u) any { return &x.Time }),
		entry("by", func(x *u) any { return &x.By }).from(pickPeople),
		entry("air", func(x *u) any { return &x.AirTemperature }).in(temperature),
		entry("water", func(x *u) any { return &x.Water }).of(water()),
		entry("hertz", func(x *u) any { return &x.Frequency }).in(frequency),
		entry("rotation", func(x *u) any { return &x.RotationOK }).of(yesNo()),
		entry("uncoupled", func(x *u) any { return &x.Uncoupled }).of(yesNo()),
		entry("volts12", func(x *u) any { return &x.Volts[0] }).in(voltage),
		entry("volts23", func(x *u) any { return &x.Volts[1] }).in(voltage),
		entry("volts31", func(x *u) any { return &x.Volts[2] }).in(voltage),
		entry("amps1", func(x *u) any { return &x.Amps[0] }).in(current),
		entry("amps2", func(x *u) any { return &x.Amps[1] }).in(current),
		entry("amps3", func(x *u) any { return &x.Amps[2] }).in(current),
		entry("meter", func(x *u) any { return &x.Meter }).from(pickInstruments),
		entry("motorspeed", func(x *u) any { return &x.MotorSpeed }).in(turning),
		entry("fanspeed", func(x *u) any { return &x.FanSpeed }).in(turning),
		entry("tachometer", func(x *u) any { return &x.Tachometer }).from(pickInstruments),
		entry("insulation", func(x *u) any { return &x.Insulation }).in(resistance),
		entry("insulationtemp", func(x *u) any { return &x.InsulationTemp }).in(temperature),
		entry("insulationtest", func(x *u) any { return &x.InsulationTest }).in(voltage),
		entry("winding", func(x *u) any { return &x.WindingType }).of(winding()),
		entry("insulationtester", func(x *u) any { return &x.InsulationTester }).from(pickInstruments),
		entry("oillevel", func(x *u) any { return &x.OilLevelOK }).of(yesNo()),
		entry("oiltemp", func(x *u) any { return &x.OilTemperature }).in(temperature),
		entry("bearingdrive", func(x *u) any { return &x.Bearing[0] }).in(temperature),
		entry("bearingother", func(x *u) any { return &x.Bearing[1] }).in(temperature),
		entry("thermometer", func(x *u) any { return &x.Thermometer }).from(pickInstruments),
		entry("runtime", func(x *u) any { return &x.RunTime }).in(duration),
		entry("reverse", func(x *u) any { return &x.ReverseOK }).of(yesNo()),
		entry("setpoint", func(x *u) any { return &x.SwitchSetPoint }).in(vibration),
		entry("trip", func(x *u) any { return &x.SwitchTrip }).of(yesNo()),
		entry("vibrationmeter", func(x *u) any { return &x.VibrationMeter }).from(pickInstruments),
	)
	b.shape, b.aligned = columnShape, true
	return b
}

// vibrationBlock has a row for each point and axis, and a value for each run.
func vibrationBlock() block {
	type v = vibrationRow
	b := table("vibration", 10, func(a *aside) *[]v { return &a.vibration },
		func(x *v) *field.Ref { return &x.at },
		entry("point", func(x *v) any { return &x.point }),
		entry("axis", func(x *v) any { return &x.axis }).of(axis()),
		entry("detector", func(x *v) any { return &x.detector }).of(detector()),
		entry("limit", func(x *v) any { return &x.limit }),
	)
	for n := range runs {
		b.slots = append(b.slots, entry("run"+itoa(n+1), func(x *v) any { return &x.values[n] }))
	}
	for i := range b.slots {
		if b.slots[i].kind == kindQuantity { // in/s is rms or peak as the detector says
			b.slots[i].unitsOf = func(row any) unitSet { return detected(row.(*v).detector.Value) }
		}
	}
	b.aside = true
	return b
}
