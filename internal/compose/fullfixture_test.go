package compose

import (
	"fmt"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/templates"
)

// fullRules are the rules of the program, asking for the whole job.
func fullRules() (assess.Rules, error) {
	set, err := templates.RuleSet()
	if err != nil {
		return assess.Rules{}, err
	}
	r := assess.Rules{Version: set.Version, Hash: strings.Repeat("0f", 32)}
	for _, e := range set.Events {
		r.Events = append(r.Events, assess.Event(e))
	}
	return r, nil
}

func (m *maker) quantity(text string, kind measure.QuantityKind, def measure.QuantityUnit) field.Quantity {
	q, err := measure.ParseQuantity(text, kind, def)
	if err != nil {
		panic(err)
	}
	return field.Quantity{Value: q, Set: true, Text: text, At: m.at()}
}

func (m *maker) torque(text string) field.Quantity {
	return m.quantity(text, measure.Torque, measure.PoundFoot)
}

func (m *maker) temperature(text string) field.Quantity {
	return m.quantity(text, measure.Temperature, measure.Fahrenheit)
}

func (m *maker) rpm(text string) field.Quantity {
	return m.quantity(text, measure.RotationalSpeed, measure.RPM)
}

func (m *maker) velocity(text string) field.Quantity {
	return m.quantity(text, measure.VibrationVelocityRMS, measure.InchPerSecondRMS)
}

func (m *maker) slope(text string) field.Slope {
	s, err := measure.ParseSlope(text, measure.UnitInch, measure.UnitFoot)
	if err != nil {
		panic(err)
	}
	return field.Slope{Value: s, Set: true, Text: text, At: m.at()}
}

func (m *maker) number(text string) field.Number {
	n, err := measure.ParseNumber(text)
	if err != nil {
		panic(err)
	}
	return field.Number{Value: n, Set: true, Text: text, At: m.at()}
}

// wholeTower adds what the fan alone has no need of: limits, tools, geometry, and
// in every cell the drive line, bolts, pins, list and start-up. Where the plan is
// not good, cell 1 has planted faults.
func wholeTower(p plan, r *field.Record) {
	m := &maker{sheet: "Limits"}
	own := r.Limits[0] // its source is that of the others
	row := func(l field.Limit) {
		l.Authority, l.Document, l.Clause, l.Revision = own.Authority, own.Document, own.Clause, own.Revision
		l.AcceptedBy, l.Organization, l.AcceptedOn, l.At = own.AcceptedBy, own.Organization, own.AcceptedOn, m.at()
		r.Limits = append(r.Limits, l)
	}
	for _, key := range []string{assess.GearLevel, assess.MotorLevel} {
		row(field.Limit{Check: key, Slope: m.slope("0.005 in/ft")})
	}
	row(field.Limit{Check: assess.CylinderPlumb, Slope: m.slope("1/16 in/ft")})
	row(field.Limit{Check: assess.CylinderRound, Max: m.length("1/4 in")})
	row(field.Limit{Check: assess.SoftFootGear, Max: m.length("0.004 in")})
	row(field.Limit{Check: assess.SoftFootMotor, Max: m.length("0.002 in")})
	row(field.Limit{Check: assess.CouplingGear, Criterion: m.text(assess.CriterionTotal), Slope: m.slope("0.003 in/in")})
	row(field.Limit{Check: assess.CouplingMotor, Criterion: m.text(assess.CriterionRange), Max: m.length("0.020 in")})
	row(field.Limit{Check: assess.ShaftEnds, Nominal: m.length("118-1/2 in"), Tolerance: m.length("1/16 in")})
	row(field.Limit{Check: assess.GuardEnd, Nominal: m.length("1/4 in"), Tolerance: m.length("1/16 in")})
	row(field.Limit{Check: assess.GuardAround, Min: m.length("1 in")})
	row(field.Limit{Check: assess.DowelPins, Tolerance: m.length("1/16 in")})
	percent := func(s string) field.Quantity { return m.quantity(s, measure.Percentage, measure.Percent) }
	row(field.Limit{Check: assess.VoltUnbalance, Quantities: field.QuantityLimit{Max: percent("1 %")}})
	row(field.Limit{Check: assess.AmpUnbalance, Quantities: field.QuantityLimit{Max: percent("5 %")}})
	row(field.Limit{Check: assess.AmpLoad, Quantities: field.QuantityLimit{Max: percent("100 %")}})
	row(field.Limit{Check: assess.Insulation, Quantities: field.QuantityLimit{Min: m.quantity("5 MΩ", measure.Resistance, measure.Megohm)}})
	row(field.Limit{Check: assess.OilTemperature, Quantities: field.QuantityLimit{Max: m.temperature("200 °F")}})
	row(field.Limit{Check: assess.BearingTemp, Quantities: field.QuantityLimit{Max: m.temperature("180 °F")}})
	row(field.Limit{Check: assess.Vibration, Quantities: field.QuantityLimit{Max: m.velocity("0.20 in/s rms")}})
	r.Limits[len(r.Limits)-1].Authority = m.text("standard")
	r.Limits[len(r.Limits)-1].Document = m.text("ISO 20816-3")
	row(field.Limit{Check: assess.VibrationSwitch, Quantities: field.QuantityLimit{Max: m.velocity("0.40 in/s rms")}})
	row(field.Limit{Check: assess.SpeedRatio, Quantities: field.QuantityLimit{Tolerance: percent("1 %")}})
	row(field.Limit{Check: assess.TipSpeed, Quantities: field.QuantityLimit{Max: m.quantity("12000 ft/min", measure.Speed, measure.FootPerMinute)}})
	row(field.Limit{Check: assess.RunTime, Quantities: field.QuantityLimit{Min: m.quantity("4 h", measure.Time, measure.Hour)}})

	m.sheet = "Instruments"
	r.Instruments[1].SlopeResolution, r.Instruments[1].SlopeExpanded = m.slope("0.0005 in/ft"), m.slope("0.0002 in/ft")
	r.Instruments = append(r.Instruments,
		field.Instrument{ID: m.text("D-11"), Kind: m.text("dial indicator"), Serial: m.text("D4471"), Resolution: m.length("0.0005"),
			Expanded: m.length("0.0003"), Class: m.text("calibrated"), Calibrated: m.date(2026, 1, 12), Due: m.date(2027, 1, 12),
			Certificate: m.text("C-2240"), At: m.at()},
		field.Instrument{ID: m.text("W-3"), Kind: m.text("click wrench, 1/2 drive"), Serial: m.text("9920"), Capacity: m.torque("250"),
			Class: m.text("calibrated"), Calibrated: m.date(2026, 2, 20), Due: m.date(2027, 2, 20), Certificate: m.text("C-2311"), At: m.at()})
	m.sheet = "Geometry"
	r.Tower.Geometry = field.Geometry{
		FaceGear: m.length("8-1/2 in"), FaceMotor: m.length("7 in"), Ratio: m.number("14.2"), Backstop: m.flag(true), Reversing: m.flag(false),
		MotorCurrent: m.quantity("96", measure.Current, measure.Ampere), MotorVolts: m.quantity("460", measure.Voltage, measure.Volt),
		MotorSpeed: m.rpm("1780"),
	}
	for i := range r.Cells {
		wholeCell(p, &r.Cells[i])
	}
}

// wholeCell adds the job beyond the fan to a cell: readings on the days of its
// rounds, most bolts the day after, pins and list on day 6, the start on day 7.
func wholeCell(p plan, c *field.Cell) {
	n := c.Number
	m := &maker{sheet: fmt.Sprintf("Cell %d drive", n)}
	for i := range c.Moves {
		c.Moves[i].Feet = []field.FootMove{{Foot: 1, Was: m.length("0.020"), Now: m.length("0.092")}, {Foot: 4, Was: m.length("0.020"), Now: m.length("0.092")}}
		c.Moves[i].Along = m.length("1/64")
	}
	for i, key := range roundKeysOf(p) {
		head := c.Tilt.Rounds[i].Head
		head.Start, head.Finish = m.clock(14, 5), m.clock(14, 50)
		if i == p.rounds-1 {
			head.Date, head.Start, head.Finish = m.date(2026, 5, 5), m.clock(9, 0), m.clock(10, 0)
			head.Witness = field.Text{}
		}
		driveRounds(&c.Drive, m, key, head, i == p.rounds-1, n)
	}
	for _, k := range []*field.Coupling{&c.Drive.CouplingGear, &c.Drive.CouplingMotor} {
		k.Stood, k.Together = m.text("motor"), m.flag(true)
	}
	if p.good || n != 3 { // one cell without any bolts
		boltSets(c, m, p)
	}
	for _, where := range []string{"gear", "motor"} {
		c.Pins = append(c.Pins, field.Pins{Where: m.text(where), Required: m.flag(where == "gear"), Count: m.count(2), Found: m.count(2),
			Hole: m.length("1/2 in"), Above: m.length("1/4"), Below: m.length("9/32"), Date: m.date(2026, 5, 6), Time: m.clock(11, 0),
			By: m.text(p.names("R. Moss")), At: m.at()})
	}
	for _, key := range assess.PreStartLines() {
		c.PreStart = append(c.PreStart, field.Item{Key: key, Done: m.flag(p.good || n != 1 || key != assess.LineTools),
			By: m.text(p.names("R. Moss")), Date: m.date(2026, 5, 6), At: m.at()})
	}
	if p.good || n != 4 {
		c.StartUps = append(c.StartUps, startUp(c, m, p))
	}
	if !p.good && n == 2 {
		c.StartUps = append(c.StartUps, startUp(c, m, p))
	}
}

func lengthSeries(m *maker, key string, h field.Head, texts ...string) field.Series[field.Length] {
	s := field.Series[field.Length]{Round: key, Head: h, At: m.at()}
	for i, text := range texts {
		s.Readings = append(s.Readings, field.Reading[field.Length]{Index: i + 1, Value: m.length(text)})
	}
	return s
}

func slopeSeries(m *maker, key string, h field.Head, texts ...string) field.Series[field.Slope] {
	s := field.Series[field.Slope]{Round: key, Head: h, At: m.at()}
	for i, text := range texts {
		s.Readings = append(s.Readings, field.Reading[field.Slope]{Index: i + 1, Value: m.slope(text)})
	}
	return s
}

// driveRounds adds one round to every block of the drive line and its bases.
func driveRounds(d *field.Drive, m *maker, key string, h field.Head, last bool, n int) {
	level, dial := h, h
	level.Instrument, dial.Instrument = m.text("L-02"), m.text("D-11")
	pick := func(early, late string) string {
		if last {
			return late
		}
		return early
	}
	add := func(g *field.Gap, h field.Head, texts ...string) {
		g.Rounds = append(g.Rounds, lengthSeries(m, key, h, texts...))
	}
	d.GearLevel.Rounds = append(d.GearLevel.Rounds, slopeSeries(m, key, level, pick("0.010", "0.002"), "-0.001 in/ft"))
	d.MotorLevel.Rounds = append(d.MotorLevel.Rounds, slopeSeries(m, key, level, "0.003 in/ft", "0.001 in/ft"))
	d.CylinderPlumb.Rounds = append(d.CylinderPlumb.Rounds, slopeSeries(m, key, level, "0.02 in/ft", "-0.03 in/ft"))
	add(&d.CylinderRound, h, "338-1/2", "338-9/16", "338-1/2", "338-7/16")
	add(&d.SoftFootGear, dial, "0.001", pick("0.006", "0.001"), "0.0005", "0.002")
	add(&d.SoftFootMotor, dial, "0.001", "0.001", "0.0015", "0.0005")
	gear := lengthSeries(m, key, dial, "0.500", pick("0.530", "0.505"), pick("0.540", "0.508"), pick("0.510", "0.503"))
	gear.Return = m.length(pick("0.501", "0.500"))
	d.CouplingGear.Rounds = append(d.CouplingGear.Rounds, gear)
	motor := lengthSeries(m, key, dial, pick("0.540", "0.506"), "0.501", "0.500", pick("0.539", "0.505"))
	motor.Return = m.length(pick("0.540", "0.506"))
	d.CouplingMotor.Rounds = append(d.CouplingMotor.Rounds, motor)
	add(&d.ShaftEnds, h, pick("118-5/8", "118-33/64"))
	add(&d.GuardEnd, h, "1/4")
	add(&d.GuardAround, h, "1-1/8", "1-1/4", "1-3/16", "1-1/4")
}

// boltSets adds the schedule of a cell.
func boltSets(c *field.Cell, m *maker, p plan) {
	for i, x := range []struct {
		code, size, class, material, lubricant, torque, first, lock string
		bolts                                                       int
	}{
		{assess.SetGearHoldDown, "3/4-10", "SAE 5", "galvanized", "oiled", "200", "190", "washer", 4},
		{assess.SetMotorHoldDown, "5/8-11", "SAE 5", "galvanized", "oiled", "110", "100", "washer", 4},
		{assess.SetCylinder, "1/2-13", "A2-70", "stainless", "antiseize", "50 ft-lb", "42 ft-lb", "nylon", 64},
		{assess.SetHub, "M16", "8.8", "steel", "dry", "150 N·m", "140 N·m", "liquid", 8},
		{assess.SetBladeClamp, "5/8-11", "A2-70", "stainless", "antiseize", "65", "58", "nylon", 16},
		{assess.SetCouplingGear, "1/2-13", "SAE 8", "steel", "dry", "75", "70", "none", 6},
		{assess.SetCouplingMotor, "1/2-13", "SAE 8", "steel", "dry", "75", "70", "none", 6},
		{assess.SetGuard, "3/8-16", "special", "galvanized", "zinc", "50", "45", "washer", 12},
		{assess.SetOther, "1/2-13", "SAE 5", "steel", "oiled", "55", "50", "wicking", 8},
	} {
		f := field.Fasteners{
			Set: m.text(x.code), Count: m.count(x.bolts), Size: m.text(x.size), Class: m.text(x.class), Material: m.text(x.material),
			Lubricant: m.text(x.lubricant), FirstPass: m.torque(x.first), Final: m.torque(x.torque), Required: m.torque(x.torque),
			FirstUnder: m.torque("5"), Clicks: m.count(x.bolts), Pattern: m.flag(true), Stripe: m.flag(true), Tool: m.text("W-3"),
			Scheduled: m.text(x.lock), Locking: m.text(x.lock), Authority: m.text("manual"), Date: m.date(2026, 5, boltDay(x.code)), Time: m.clock(8+i/6, 10*(i%6)),
			By: m.text(p.names("R. Moss")), At: m.at(),
		}
		switch x.lock {
		case assess.LockNylon:
			f.Running = m.torque("5")
		case assess.LockLiquid:
			f.LockingTime = m.text("before")
		case assess.LockWicking:
			f.LockingTime = m.text("after")
		}
		if x.code == assess.SetOther {
			f.Name = m.text("oil line supports")
		}
		if !p.good && c.Number == 1 {
			plantBolts(&f, m, x.code)
		}
		c.Fasteners = append(c.Fasteners, f)
	}
}

// boltDay is when a set was torqued: clamps before the blades are read,
// hold-downs before the drive shaft.
func boltDay(code string) int {
	switch code {
	case assess.SetBladeClamp:
		return 1
	case assess.SetGearHoldDown, assess.SetMotorHoldDown:
		return 4
	}
	return 6
}

// plantBolts makes a few sets of a cell wrong, each in another way.
func plantBolts(f *field.Fasteners, m *maker, code string) {
	switch code {
	case assess.SetMotorHoldDown:
		f.Final = m.torque("100")
	case assess.SetCylinder:
		f.Locking = m.text("washer")
	case assess.SetHub:
		f.Clicks = m.count(7)
	}
}

func startUp(c *field.Cell, m *maker, p plan) field.StartUp {
	volt := func(s string) field.Quantity { return m.quantity(s, measure.Voltage, measure.Volt) }
	amp := func(s string) field.Quantity { return m.quantity(s, measure.Current, measure.Ampere) }
	point := func(name, axis, v string) field.Vibration {
		return field.Vibration{Point: m.text(name), Axis: m.text(axis), Value: m.velocity(v), Detector: m.text("rms"), At: m.at()}
	}
	s := field.StartUp{
		Date: m.date(2026, 5, 7+len(c.StartUps)), Time: m.clock(13, 0), By: m.text(p.names("R. Moss")), AirTemperature: m.temperature("64 °F"),
		Water: m.text("off"), Frequency: m.quantity("60 Hz", measure.Frequency, measure.Hertz), RotationOK: m.flag(true), Uncoupled: m.flag(true),
		Volts:      [3]field.Quantity{volt("462"), volt("463"), volt("460")},
		Amps:       [3]field.Quantity{amp("81.2"), amp("80.4"), amp("82.0")},
		MotorSpeed: m.rpm("1781"), FanSpeed: m.rpm("125.5"),
		Insulation: m.quantity("850", measure.Resistance, measure.Megohm), InsulationTemp: m.temperature("68 °F"), InsulationTest: volt("500 V"),
		WindingType: m.text("random"), OilLevelOK: m.flag(true), OilTemperature: m.temperature("142"),
		Bearing: [2]field.Quantity{m.temperature("121 °F"), m.temperature("117 °F")}, RunTime: m.quantity("4-1/2 h", measure.Time, measure.Hour),
		SwitchSetPoint: m.velocity("0.35"), SwitchTrip: m.flag(true), At: m.at(),
		Vibration: []field.Vibration{point("motor, drive end", "h", "0.06"), point("motor, drive end", "v", "0.05"),
			point("motor, drive end", "a", "0.03"), point("gear reducer, input", "h", "0.08"), point("gear reducer, input", "v", "0.07"),
			point("gear reducer, output", "h", "0.09")},
	}
	if !p.good && c.Number == 2 {
		s.Vibration[3].Value = m.velocity("0.24")
		s.Amps[0] = amp("92.5")
	}
	if !p.good && c.Number == 5 {
		s.Vibration[1].Limit, s.Vibration[1].Detector = m.velocity("0.1 in/s rms"), field.Text{}
		s.InsulationTemp = field.Quantity{}
	}
	return s
}
