package assess_test

import (
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// quantity parses a value as it is typed.
func quantity(t testing.TB, s string, kind measure.QuantityKind) field.Quantity {
	t.Helper()
	q, err := measure.ParseQuantity(s, kind, measure.NoUnit)
	if err != nil {
		t.Fatal(err)
	}
	return field.Quantity{Value: q, Set: true, Text: s}
}

func slope(t testing.TB, s string) field.Slope {
	t.Helper()
	v, err := measure.ParseSlope(s, measure.UnitNone, measure.UnitNone)
	if err != nil {
		t.Fatal(err)
	}
	return field.Slope{Value: v, Set: true, Text: s}
}

func number(t testing.TB, s string) field.Number {
	t.Helper()
	n, err := measure.ParseNumber(s)
	if err != nil {
		t.Fatal(err)
	}
	return field.Number{Value: n, Set: true, Text: s}
}

// slopes is one as-left round of a level.
func slopes(t testing.TB, h field.Head, values ...string) []field.Series[field.Slope] {
	s := field.Series[field.Slope]{Round: field.AsLeft, Head: h}
	for i, v := range values {
		s.Readings = append(s.Readings, field.Reading[field.Slope]{Index: i + 1, Value: slope(t, v)})
	}
	return []field.Series[field.Slope]{s}
}

// gap is one as-left round of lengths.
func gap(h field.Head, values ...measure.Length) field.Gap {
	return field.Gap{Rounds: []field.Series[field.Length]{lengths(field.AsLeft, h, values...)}}
}

// dialHead is a head of a round read with the dial gauge or the feelers.
func dialHead(d, minute int) field.Head {
	h := head(d, minute)
	h.Instrument = text("T2")
	return h
}

const mil = measure.Thou

// set is a set of fasteners done well on day 6.
func set(t testing.TB, code string, bolts, minute int) field.Fasteners {
	return field.Fasteners{
		Set: text(code), Count: count(bolts), Size: text("5/8-11"), Class: text("SAE 5"), Material: text("galvanized"),
		Lubricant: text("oiled"), FirstPass: quantity(t, "90 ft-lb", measure.Torque), Final: quantity(t, "100 ft-lb", measure.Torque),
		Required: quantity(t, "100 ft-lb", measure.Torque), FirstUnder: quantity(t, "10 ft-lb", measure.Torque), Clicks: count(bolts),
		Pattern: flag(true), Stripe: flag(true), Tool: text("W1"), Scheduled: text("washer"), Locking: text("washer"),
		Authority: text("manual"), Date: day(6), Time: clock(minute), By: text("AB"),
	}
}

// fullCell is the fan of cleanCell and everything else of the job, all of it
// well inside its limits and in the advised order: bases on day 4, fan on day
// 5, hold-downs, drive shaft, guard, pins and pre-start on day 6, start-up on
// day 7, torque and alignment after the run on day 8.
func fullCell(t testing.TB, number int) field.Cell {
	c := cleanCell(number)
	c.Tilt.Reference = text("deck")
	coupling := func(minute int, values ...measure.Length) field.Coupling {
		return field.Coupling{
			Stood: text("motor"), Together: flag(true), Sweep: flag(false),
			Rounds: []field.Series[field.Length]{lengths(field.AsLeft, dialHead(6, minute), values...)},
		}
	}
	c.Drive = field.Drive{
		GearLevel:     field.Level{Rounds: slopes(t, head(5, 470), "0.001 in/ft", "-0.002 in/ft")},
		MotorLevel:    field.Level{Rounds: slopes(t, head(4, 500), "0.002 in/ft", "0 in/ft")},
		CylinderPlumb: field.Level{Rounds: slopes(t, head(4, 400), "0.01 in/ft", "0.005 in/ft")},
		CylinderRound: gap(head(4, 410), 336*inch, 336*inch+step, 336*inch, 336*inch-step),
		SoftFootGear:  gap(dialHead(4, 450), mil, 0, mil, 0),
		SoftFootMotor: gap(dialHead(4, 510), mil, mil, 0, 0),
		CouplingGear:  coupling(480, 500*mil, 502*mil, 504*mil, 502*mil),
		CouplingMotor: coupling(500, 500*mil, 499*mil, 500*mil, 501*mil),
		ShaftEnds:     gap(head(6, 520), 120*inch),
		GuardEnd:      gap(head(6, 540), inch/4),
		GuardAround:   gap(head(6, 550), inch, inch, inch, inch),
	}
	c.Fasteners = []field.Fasteners{
		set(t, assess.SetGearHoldDown, 4, 420), set(t, assess.SetMotorHoldDown, 4, 430), set(t, assess.SetGuard, 8, 560),
	}
	clamps := set(t, assess.SetBladeClamp, 16, 400)
	clamps.Date = day(5)
	clamps.Material, clamps.Class, clamps.Lubricant = text("stainless"), text("A2-70"), text("antiseize")
	clamps.Scheduled, clamps.Locking, clamps.Running = text("nylon"), text("nylon"), quantity(t, "5 ft-lb", measure.Torque)
	c.Fasteners = append(c.Fasteners, clamps)
	c.Pins = []field.Pins{{
		Where: text("gear"), Required: flag(true), Count: count(2), Found: count(2), Hole: typed(inch / 2),
		Above: typed(inch / 2), Below: typed(inch/2 - step), Date: day(6), Time: clock(600), By: text("AB"),
	}}
	for _, key := range assess.PreStartLines() {
		c.PreStart = append(c.PreStart, field.Item{Key: key, Done: flag(true), By: text("AB"), Date: day(6)})
	}
	c.StartUps = []field.StartUp{startUp(t)}
	c.Moves = []field.Move{event("holddown.torque", 8, 400)}
	for _, k := range []*field.Coupling{&c.Drive.CouplingGear, &c.Drive.CouplingMotor} {
		after := lengths(field.AsLeft, dialHead(8, 450), 500*mil, 501*mil, 502*mil, 501*mil)
		k.Rounds[0].Round = field.Second
		k.Rounds = append(k.Rounds, after)
	}
	c.Pins[0].Date, c.Pins[0].Time = day(8), clock(500)
	c.Drive.ShaftEnds = gap(head(8, 470), 120*inch)
	return c
}

// startUp is a good run on day 7, dry.
func startUp(t testing.TB) field.StartUp {
	q := func(s string, k measure.QuantityKind) field.Quantity { return quantity(t, s, k) }
	volts := func(s string) field.Quantity { return q(s, measure.Voltage) }
	amps := func(s string) field.Quantity { return q(s, measure.Current) }
	temperature := func(s string) field.Quantity { return q(s, measure.Temperature) }
	velocity := func(point, axis, v string) field.Vibration {
		return field.Vibration{Point: text(point), Axis: text(axis), Value: q(v, measure.VibrationVelocityRMS), Detector: text("rms")}
	}
	return field.StartUp{
		Date: day(7), Time: clock(500), By: text("AB"), AirTemperature: temperature("20 °C"), Water: text("off"),
		Frequency: q("60 Hz", measure.Frequency), RotationOK: flag(true), Uncoupled: flag(true),
		Volts:      [3]field.Quantity{volts("462 V"), volts("463 V"), volts("460 V")},
		Amps:       [3]field.Quantity{amps("80 A"), amps("81 A"), amps("80 A")},
		MotorSpeed: q("1775 rpm", measure.RotationalSpeed), FanSpeed: q("125 rpm", measure.RotationalSpeed),
		Insulation: q("400 Mohm", measure.Resistance), InsulationTemp: temperature("20 °C"),
		InsulationTest: volts("500 V"), WindingType: text("random"), OilLevelOK: flag(true), OilTemperature: temperature("120 °F"),
		Bearing: [2]field.Quantity{temperature("110 °F"), temperature("105 °F")}, RunTime: q("4 h", measure.Time),
		ReverseOK: flag(true), SwitchSetPoint: q("0.3 in/s", measure.VibrationVelocityRMS), SwitchTrip: flag(true),
		Vibration: []field.Vibration{velocity("motor drive end", "h", "0.05 in/s"), velocity("gear reducer", "v", "0.06 in/s")},
	}
}

// quantities is a limit on quantities, by "min", "max" and "tolerance".
func quantities(t testing.TB, check string, kind measure.QuantityKind, values map[string]string) field.Limit {
	l := field.Limit{Check: check}
	for k, v := range values {
		q := quantity(t, v, kind)
		switch k {
		case "min":
			l.Quantities.Min = q
		case "max":
			l.Quantities.Max = q
		case "tolerance":
			l.Quantities.Tolerance = q
		}
	}
	return contract(l)
}

// fullRecord is a tower with limits for every check of the job. The limits are
// common practice, no source, except voltage unbalance (NEMA MG 1) and tip
// speed (a public guide specification).
func fullRecord(t testing.TB, cells ...field.Cell) field.Record {
	r := record(cells...)
	r.Waivers = nil
	r.Tower.FanDiameter = typed(28 * 12 * inch)
	r.Tower.Geometry = field.Geometry{
		FaceGear: typed(8 * inch), FaceMotor: typed(8 * inch), Ratio: number(t, "14.2"), Backstop: flag(true), Reversing: flag(true),
		MotorCurrent: quantity(t, "96 A", measure.Current), MotorVolts: quantity(t, "460 V", measure.Voltage),
	}
	level := func(check, limit string) field.Limit {
		return contract(field.Limit{Check: check, Slope: slope(t, limit)})
	}
	angle := func(check string) field.Limit {
		l := level(check, "0.002 in/in")
		l.Criterion = text(assess.CriterionTotal)
		return l
	}
	r.Limits = append(r.Limits,
		angle(assess.CouplingGear), angle(assess.CouplingMotor),
		contract(field.Limit{Check: assess.ShaftEnds, Nominal: typed(120 * inch), Tolerance: typed(inch / 16)}),
		level(assess.GearLevel, "0.005 in/ft"), level(assess.MotorLevel, "0.005 in/ft"), level(assess.CylinderPlumb, "1/16 in/ft"),
		contract(field.Limit{Check: assess.CylinderRound, Max: typed(inch / 4)}),
		contract(field.Limit{Check: assess.SoftFootGear, Max: typed(2 * mil)}),
		contract(field.Limit{Check: assess.SoftFootMotor, Max: typed(2 * mil)}),
		contract(field.Limit{Check: assess.GuardEnd, Nominal: typed(inch / 4), Tolerance: typed(inch / 16)}),
		contract(field.Limit{Check: assess.GuardAround, Nominal: typed(inch), Tolerance: typed(inch / 4)}),
		contract(field.Limit{Check: assess.DowelPins, Tolerance: typed(inch / 16)}),
		quantities(t, assess.VoltUnbalance, measure.Percentage, map[string]string{"max": "1 %"}),
		quantities(t, assess.AmpUnbalance, measure.Percentage, map[string]string{"max": "5 %"}),
		quantities(t, assess.AmpLoad, measure.Percentage, map[string]string{"max": "100 %"}),
		quantities(t, assess.Insulation, measure.Resistance, map[string]string{"min": "5 Mohm"}),
		quantities(t, assess.OilTemperature, measure.Temperature, map[string]string{"max": "200 °F"}),
		quantities(t, assess.BearingTemp, measure.Temperature, map[string]string{"max": "180 °F"}),
		quantities(t, assess.Vibration, measure.VibrationVelocityRMS, map[string]string{"max": "0.2 in/s"}),
		quantities(t, assess.SpeedRatio, measure.Percentage, map[string]string{"tolerance": "1 %"}),
		quantities(t, assess.TipSpeed, measure.Speed, map[string]string{"max": "11000 ft/min"}),
		quantities(t, assess.RunTime, measure.Time, map[string]string{"min": "4 h"}),
	)
	r.Instruments[0].SlopeResolution = slope(t, "0.0005 in/ft")
	r.Instruments = append(r.Instruments,
		field.Instrument{ID: text("T2"), Class: text("checked"), Resolution: typed(mil / 2), Calibrated: day(1), Due: day(28)},
		field.Instrument{ID: text("W1"), Class: text("calibrated"), Calibrated: day(1), Due: day(28), Capacity: quantity(t, "250 ft-lb", measure.Torque)},
	)
	return r
}

// TestCleanJob: the whole job, done well and in the advised order, raises
// nothing at all and is ready.
func TestCleanJob(t *testing.T) {
	a := assess.Assess(fullRecord(t, fullCell(t, 1), fullCell(t, 2)), ruleSet(t))
	if len(a.Reasons) > 0 || a.State != assess.Ready {
		t.Errorf("%s, reasons %v", a.State, a.Reasons)
	}
	if a.Found != a.Expected || a.Found == 0 {
		t.Errorf("found %d of %d", a.Found, a.Expected)
	}
	for i := range a.Cells {
		c := &a.Cells[i]
		if len(c.Questions) > 0 || len(c.Due) > 0 || !c.Mechanical || !c.Started || !c.AfterRun || c.State != assess.Ready {
			t.Errorf("cell %d: questions %v, due %v, milestones %v %v %v", c.Number, c.Questions, c.Due, c.Mechanical, c.Started, c.AfterRun)
		}
		for k, key := range assess.AllChecks() {
			x := &c.Checks[k]
			if x.Key != key || x.Verdict != assess.Within || len(x.Overtaken) > 0 || len(x.Notes) > 0 {
				t.Errorf("cell %d %s: %s %s, notes %v, overtaken %v", c.Number, key, x.Key, x.Verdict, x.Notes, x.Overtaken)
			}
		}
		if len(c.Checks) != len(assess.AllChecks()) {
			t.Errorf("cell %d: %d checks", c.Number, len(c.Checks))
		}
	}
}

// TestEmptyJob: what was not done is missing, every check is there.
func TestEmptyJob(t *testing.T) {
	a := assess.Assess(fullRecord(t, field.Cell{Number: 7}), ruleSet(t))
	for _, c := range a.Cells[0].Checks {
		if c.Verdict != assess.Missing || c.Standing != -1 {
			t.Errorf("%s: %s, standing %d", c.Key, c.Verdict, c.Standing)
		}
	}
	if got := len(a.Cells[0].Reasons); got != len(assess.AllChecks()) {
		t.Errorf("%d reasons", got)
	}
}

// judged assesses a changed clean job, and returns it.
func judged(t testing.TB, change func(*field.Record)) assess.Assessment {
	t.Helper()
	r := fullRecord(t, fullCell(t, 1))
	change(&r)
	return assess.Assess(r, ruleSet(t))
}

// reasonText is a reason as "check:reason.key arg=value …" of its text and
// number arguments.
func reasonText(r assess.Reason) string {
	out := r.Check + ":" + strings.TrimPrefix(r.Key, "reason.")
	for _, a := range r.Args {
		if a.Text != "" {
			out += " " + a.Text
		}
	}
	return out
}

func reasonTexts(list []assess.Reason) []string {
	out := []string{}
	for _, r := range list {
		out = append(out, reasonText(r))
	}
	return out
}
