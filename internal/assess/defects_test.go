package assess_test

import (
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// TestPlantedDefects: each defect in a clean job is found and named, and nothing
// else is.
func TestPlantedDefects(t *testing.T) {
	volts := func(r *field.Record, s string) {
		r.Cells[0].StartUps[0].Volts[2] = quantity(t, s, measure.Voltage)
	}
	for _, x := range []struct {
		name      string
		change    func(r *field.Record)
		reasons   []string
		questions []string
	}{
		{"feelers out of date", func(r *field.Record) { r.Instruments[1].Due = day(7) },
			[]string{"couplinggear:instrument T2 2026-03-08 2026-03-07", "couplingmotor:instrument T2 2026-03-08 2026-03-07"}, nil},
		{"torque tool out of date", func(r *field.Record) { r.Instruments[2].Due = day(5) },
			[]string{"fasteners:instrument W1 2026-03-06 2026-03-05", "fasteners:instrument W1 2026-03-06 2026-03-05", "fasteners:instrument W1 2026-03-06 2026-03-05"}, nil},
		{"reducer shimmed after the drive shaft was read", func(r *field.Record) {
			r.Cells[0].Moves = append(r.Cells[0].Moves, event("gear.shim", 8, 480))
		}, []string{
			"tilt:recheck gear.shim 2026-03-08", "clearance:recheck gear.shim 2026-03-08", "clearanceall:recheck gear.shim 2026-03-08",
			"couplinggear:recheck gear.shim 2026-03-08", "couplingmotor:recheck gear.shim 2026-03-08", "shaftends:recheck gear.shim 2026-03-08",
			"gearlevel:recheck gear.shim 2026-03-08", "softfootgear:recheck gear.shim 2026-03-08", "guardend:recheck gear.shim 2026-03-08",
			"guardaround:recheck gear.shim 2026-03-08", "fasteners:itemrecheck gear.holddown gear.shim 2026-03-08",
		}, nil}, // the pins were set later
		{"clamps torqued after pitch", func(r *field.Record) {
			r.Cells[0].Moves = append(r.Cells[0].Moves, event("blade.torque", 5, 470))
		}, []string{"pitch:recheck blade.torque 2026-03-05", "pitchspread:recheck blade.torque 2026-03-05"}, nil},
		{"clamps torqued after pitch by the fastener list", func(r *field.Record) { r.Cells[0].Fasteners[3].Time = clock(470) },
			[]string{"pitch:recheck blade.torque 2026-03-05", "pitchspread:recheck blade.torque 2026-03-05"}, nil},
		{"clamps torqued just before pitch by the fastener list", func(r *field.Record) { r.Cells[0].Fasteners[3].Time = clock(459) }, nil, nil},
		{"clamps torqued on the day of pitch, no time", func(r *field.Record) { r.Cells[0].Fasteners[3].Time = field.Clock{} },
			nil, slices.Repeat([]string{"question.order"}, len(blade))},
		{"another set torqued after pitch", func(r *field.Record) { r.Cells[0].Fasteners[2].Date, r.Cells[0].Fasteners[2].Time = day(5), clock(470) }, nil, nil},
		{"hold-downs torqued after the drive shaft was read with them final", func(r *field.Record) {
			r.Cells[0].StartUps, r.Waivers = nil, startUpWaived()
			r.Cells[0].Fasteners[0].Date, r.Cells[0].Fasteners[0].Time = day(8), clock(460)
		}, nil, []string{"question.torquelater", "question.torquelater"}}, // the shaft ends were read later
		{"hold-downs torqued again after the run", func(r *field.Record) {
			r.Cells[0].Fasteners[0].Date, r.Cells[0].Fasteners[0].Time = day(9), clock(460)
		}, nil, nil},
		{"a set that nobody got to", func(r *field.Record) {
			f := &r.Cells[0].Fasteners[2]
			*f = field.Fasteners{Set: f.Set, Count: f.Count, Required: f.Required, Authority: f.Authority, Scheduled: f.Scheduled}
		}, []string{"fasteners:setnotdone guard.bolts", "locking:nolocking guard.bolts"}, nil},
		{"pins before the last alignment", func(r *field.Record) { r.Cells[0].Pins[0].Date = day(6) },
			[]string{"pins:pinsalignment dowel.gear 2026-03-08"}, nil},
		{"pins on the day of the alignment, no time", func(r *field.Record) { r.Cells[0].Pins[0].Time = field.Clock{} },
			nil, []string{"question.pinsorder"}},
		{"pins uneven", func(r *field.Record) { r.Cells[0].Pins[0].Below = typed(inch/2 - inch/16 - 1) },
			[]string{"pins:itemoutside dowel.gear"}, nil},
		{"pins uneven by just the limit", func(r *field.Record) { r.Cells[0].Pins[0].Below = typed(inch/2 - inch/16) }, nil, nil},
		{"a pin short", func(r *field.Record) { r.Cells[0].Pins[0].Found = count(1) }, []string{"pins:pins dowel.gear"}, nil},
		{"first pass equal to final", func(r *field.Record) { r.Cells[0].Fasteners[0].FirstPass = quantity(t, "100 ft-lb", measure.Torque) },
			[]string{"fasteners:firstpass gear.holddown"}, nil},
		{"first pass less than stated under", func(r *field.Record) { r.Cells[0].Fasteners[0].FirstPass = quantity(t, "90.1 ft-lb", measure.Torque) },
			[]string{"fasteners:firstpass gear.holddown"}, nil},
		{"first pass under by percent", func(r *field.Record) {
			r.Cells[0].Fasteners[0].FirstUnder = quantity(t, "10 %", measure.Percentage)
		}, nil, nil},
		{"first pass not under by percent", func(r *field.Record) {
			r.Cells[0].Fasteners[0].FirstUnder = quantity(t, "10.1 %", measure.Percentage)
		}, []string{"fasteners:firstpass gear.holddown"}, nil},
		{"first pass equal to final, nothing stated", func(r *field.Record) {
			r.Cells[0].Fasteners[0].FirstUnder, r.Cells[0].Fasteners[0].FirstPass = field.Quantity{}, r.Cells[0].Fasteners[0].Final
		}, []string{"fasteners:firstpass gear.holddown"}, nil},
		{"no first pass, nothing stated", func(r *field.Record) {
			r.Cells[0].Fasteners[0].FirstUnder, r.Cells[0].Fasteners[0].FirstPass = field.Quantity{}, field.Quantity{}
		}, nil, nil},
		{"no first pass, one stated", func(r *field.Record) { r.Cells[0].Fasteners[0].FirstPass = field.Quantity{} },
			[]string{"fasteners:nofirst gear.holddown"}, nil},
		{"first pass by the limits sheet", func(r *field.Record) {
			limitOf(r, quantities(t, assess.FastenerTorque, measure.Torque, map[string]string{"min": "5 ft-lb", "max": "10 ft-lb"}))
			r.Cells[0].Fasteners[0].FirstUnder = field.Quantity{}
		}, nil, nil},
		{"first pass too low by the limits sheet", func(r *field.Record) {
			limitOf(r, quantities(t, assess.FastenerTorque, measure.Torque, map[string]string{"min": "60 in-lb", "max": "119 in-lb"}))
			r.Cells[0].Fasteners[0].FirstUnder = field.Quantity{}
		}, []string{"fasteners:firstpass gear.holddown"}, nil},
		{"first pass by percent of the limits sheet", func(r *field.Record) {
			limitOf(r, quantities(t, assess.FastenerTorque, measure.Percentage, map[string]string{"max": "10 %"}))
			r.Cells[0].Fasteners[0].FirstUnder = field.Quantity{}
		}, nil, nil},
		{"first pass too low by percent of the limits sheet", func(r *field.Record) {
			limitOf(r, quantities(t, assess.FastenerTorque, measure.Percentage, map[string]string{"max": "9.9 %"}))
			r.Cells[0].Fasteners[0].FirstUnder = field.Quantity{}
		}, []string{"fasteners:firstpass gear.holddown"}, nil},
		{"final torque in another unit", func(r *field.Record) { r.Cells[0].Fasteners[0].Required = quantity(t, "1200 in-lb", measure.Torque) }, nil, nil},
		{"final torque not as required", func(r *field.Record) { r.Cells[0].Fasteners[0].Required = quantity(t, "101 ft-lb", measure.Torque) },
			[]string{"fasteners:finaltorque gear.holddown"}, nil},
		{"running torque on top", func(r *field.Record) { r.Cells[0].Fasteners[3].Required = quantity(t, "95 ft-lb", measure.Torque) }, nil, nil},
		{"clicks fewer than bolts", func(r *field.Record) { r.Cells[0].Fasteners[1].Clicks = count(3) },
			[]string{"fasteners:clicks motor.holddown"}, nil},
		{"no stripe", func(r *field.Record) { r.Cells[0].Fasteners[1].Stripe = flag(false) }, []string{"fasteners:nostripe motor.holddown"}, nil},
		{"pattern not stated", func(r *field.Record) { r.Cells[0].Fasteners[1].Pattern = field.Flag{} }, []string{"fasteners:nopattern motor.holddown"}, nil},
		{"tool too large", func(r *field.Record) { r.Instruments[2].Capacity = quantity(t, "451 ft-lb", measure.Torque) }, []string{
			"fasteners:toolrange gear.holddown W1", "fasteners:toolrange motor.holddown W1",
			"fasteners:toolrange guard.bolts W1", "fasteners:toolrange blade.clamp W1"}, nil},
		{"tool at a fifth of its range", func(r *field.Record) { r.Instruments[2].Capacity = quantity(t, "450 ft-lb", measure.Torque) }, nil, nil},
		{"tool not listed", func(r *field.Record) { r.Cells[0].Fasteners[2].Tool = text("W9") }, []string{"fasteners:toolunknown guard.bolts W9"}, nil},
		{"stainless with plain lock washer against its schedule", func(r *field.Record) { r.Cells[0].Fasteners[3].Locking = text("washer") },
			[]string{"locking:locking blade.clamp washer nylon"}, nil},
		{"wicking threadlocker too early", func(r *field.Record) {
			f := &r.Cells[0].Fasteners[0]
			f.Scheduled, f.Locking, f.LockingTime = text("wicking"), text("wicking"), text("before")
		}, []string{"locking:locktime gear.holddown wicking"}, nil},
		{"wicking threadlocker in time", func(r *field.Record) {
			f := &r.Cells[0].Fasteners[0]
			f.Scheduled, f.Locking, f.LockingTime = text("wicking"), text("wicking"), text("after")
		}, nil, nil},
		{"liquid threadlocker too late", func(r *field.Record) {
			f := &r.Cells[0].Fasteners[0]
			f.Scheduled, f.Locking, f.LockingTime = text("liquid"), text("liquid"), text("after")
		}, []string{"locking:locktime gear.holddown liquid"}, nil},
		{"threadlocker and anti-seize", func(r *field.Record) {
			f := &r.Cells[0].Fasteners[0]
			f.Scheduled, f.Locking, f.LockingTime, f.Lubricant = text("liquid"), text("liquid"), text("before"), text("antiseize")
		}, nil, []string{"question.antiseize"}},
		{"stainless and dry", func(r *field.Record) { r.Cells[0].Fasteners[3].Lubricant = text("dry") }, nil, []string{"question.galling"}},
		{"required torque from nobody", func(r *field.Record) { r.Cells[0].Fasteners[0].Authority = field.Text{} },
			[]string{"fasteners:itemauthority gear.holddown"}, nil},
		{"required torque a starting value", func(r *field.Record) { r.Cells[0].Fasteners[0].Authority = text("start") },
			[]string{"fasteners:itemstarting gear.holddown"}, nil},
		{"closure broken", func(r *field.Record) { r.Cells[0].Drive.CouplingGear.Rounds[1].Readings[1].Value = typed(503 * mil) },
			nil, []string{"question.closure"}},
		{"closure broken by no more than four readings' steps", func(r *field.Record) {
			r.Cells[0].Drive.CouplingGear.Rounds[1].Readings[1].Value = typed(502 * mil)
		}, nil, nil},
		{"coupling not closed on its first reading", func(r *field.Record) { r.Cells[0].Drive.CouplingGear.Rounds[1].Return = typed(501 * mil) },
			nil, []string{"question.return"}},
		{"phase unbalance", func(r *field.Record) { volts(r, "450 V") }, []string{"voltunbalance:outside.over"}, nil},
		{"start-up without pre-start", func(r *field.Record) { r.Cells[0].PreStart = nil }, append([]string{"prestart:notread"}, notCounted()...), nil},
		{"a line done after the run", func(r *field.Record) { r.Cells[0].PreStart[3].Date = day(8) }, notCounted(), nil},
		{"a line not done", func(r *field.Record) { r.Cells[0].PreStart[2].Done = flag(false) },
			append([]string{"prestart:line people.out"}, notCounted()...), nil},
		{"a line not on the list", func(r *field.Record) { r.Cells[0].PreStart = r.Cells[0].PreStart[1:] },
			append([]string{"prestart:lineblank blocks.out"}, notCounted()...), nil},
		{"starting value never accepted", func(r *field.Record) {
			for i := range r.Limits {
				if r.Limits[i].Check == assess.SoftFootMotor {
					r.Limits[i].Authority = text("start")
				}
			}
		}, []string{"softfootmotor:starting"}, nil},
		{"wrong gear ratio", func(r *field.Record) { r.Tower.Geometry.Ratio = number(t, "12.5") },
			[]string{"speedratio:outside.either"}, []string{"question.ratio"}},
		{"volts and amps with an instrument out of date", func(r *field.Record) {
			r.Cells[0].StartUps[0].Meter = text("M1")
			r.Instruments = append(r.Instruments, field.Instrument{ID: text("M1"), Calibrated: day(1), Due: day(6)})
		}, []string{"voltunbalance:instrument M1 2026-03-07 2026-03-06", "ampunbalance:instrument M1 2026-03-07 2026-03-06",
			"ampload:instrument M1 2026-03-07 2026-03-06"}, nil},
		{"the meter in date, found out later", func(r *field.Record) {
			r.Cells[0].StartUps[0].Meter = text("M1")
			r.Instruments = append(r.Instruments, field.Instrument{ID: text("M1"), Calibrated: day(1), Due: day(7)})
			m := event("instrument.out", 9, 0)
			m.Instrument = text("M1")
			r.Cells[0].Moves = append(r.Cells[0].Moves, m)
		}, []string{"voltunbalance:recheck instrument.out 2026-03-09", "ampunbalance:recheck instrument.out 2026-03-09",
			"ampload:recheck instrument.out 2026-03-09"}, nil},
		{"volts beyond the meter", func(r *field.Record) {
			r.Cells[0].StartUps[0].Meter = text("M1")
			r.Instruments = append(r.Instruments, field.Instrument{ID: text("M1"), Range: text("300 V, 400 A"), Calibrated: day(1), Due: day(7)})
		}, nil, []string{"question.range"}},
		{"speeds and vibration within their instruments", func(r *field.Record) {
			s := &r.Cells[0].StartUps[0]
			s.Tachometer, s.VibrationMeter, s.Thermometer, s.InsulationTester = text("M1"), text("M1"), text("M1"), text("M1")
			r.Instruments = append(r.Instruments, field.Instrument{ID: text("M1"), Calibrated: day(1), Due: day(7),
				Range: text("5 to 9999 rpm, 0.01 to 4 in/s rms, -40 to 400 °F, 0.1 to 2000 MΩ")})
		}, nil, nil},
		{"fan turns backward", func(r *field.Record) { r.Cells[0].StartUps[0].RotationOK = flag(false) }, []string{"rotation:rotation"}, nil},
		{"backstop, and tried with the shaft on", func(r *field.Record) { r.Cells[0].StartUps[0].Uncoupled = flag(false) }, []string{"rotation:coupled"}, nil},
		{"no backstop, tried with the shaft on", func(r *field.Record) {
			r.Cells[0].StartUps[0].Uncoupled, r.Tower.Geometry.Backstop = flag(false), flag(false)
		}, nil, nil},
		{"rms against peak", func(r *field.Record) {
			r.Cells[0].StartUps[0].Vibration[0].Limit = quantity(t, "0.2 in/s", measure.VibrationVelocityPeak)
		}, []string{"vibration:otherkind motor drive end h"}, nil},
		{"detector against unit", func(r *field.Record) { r.Cells[0].StartUps[0].Vibration[0].Detector = text("peak") },
			[]string{"vibration:detector motor drive end h"}, nil},
		{"vibration above its own limit", func(r *field.Record) {
			r.Cells[0].StartUps[0].Vibration[0].Limit = quantity(t, "0.0499 in/s", measure.VibrationVelocityRMS)
		}, []string{"vibration:itemoutside motor drive end h"}, nil},
		{"switch did not trip", func(r *field.Record) { r.Cells[0].StartUps[0].SwitchTrip = flag(false) }, []string{"vibrationswitch:trip vibrationswitch"}, nil},
		{"no set point", func(r *field.Record) { r.Cells[0].StartUps[0].SwitchSetPoint = field.Quantity{} },
			[]string{"vibrationswitch:setpoint vibrationswitch"}, nil},
		{"oil low", func(r *field.Record) { r.Cells[0].StartUps[0].OilLevelOK = flag(false) }, []string{"oillevel:oil"}, nil},
		{"one direction only", func(r *field.Record) { r.Cells[0].StartUps[0].ReverseOK = flag(false) }, []string{"reverse:reverse"}, nil},
		{"hot oil", func(r *field.Record) {
			r.Cells[0].StartUps[0].OilTemperature = quantity(t, "94 °C", measure.Temperature)
		},
			[]string{"oiltemp:outside.over"}, nil},
		{"short run", func(r *field.Record) { r.Cells[0].StartUps[0].RunTime = quantity(t, "3 h 59 min", measure.Time) }, []string{"runtime:outside.under"}, nil},
		{"soft foot", func(r *field.Record) { r.Cells[0].Drive.SoftFootMotor.Rounds[0].Readings[2].Value = typed(2*mil + 1) },
			[]string{"softfootmotor:outside.either"}, nil},
		{"a foot that sinks", func(r *field.Record) { r.Cells[0].Drive.SoftFootMotor.Rounds[0].Readings[2].Value = typed(-2*mil - 1) },
			[]string{"softfootmotor:outside.either"}, nil},
		{"hold-downs not final at the drive shaft", func(r *field.Record) {
			r.Cells[0].Drive.CouplingMotor.Rounds[1].Head.HoldDownsFinal = flag(false)
		}, []string{"couplingmotor:holddowns"}, nil},
		{"hold-downs not stated at a soft foot", func(r *field.Record) {
			r.Cells[0].Drive.SoftFootMotor.Rounds[0].Head.HoldDownsFinal = field.Flag{}
		}, nil, nil},
	} {
		t.Run(x.name, func(t *testing.T) {
			a := judged(t, x.change)
			if got := reasonTexts(a.Reasons); !slices.Equal(got, x.reasons) && len(got)+len(x.reasons) > 0 {
				t.Errorf("reasons %q, want %q", got, x.reasons)
			}
			if got := keys(a.Cells[0].Questions); !slices.Equal(got, x.questions) && len(got)+len(x.questions) > 0 {
				t.Errorf("questions %v, want %v", a.Cells[0].Questions, x.questions)
			}
			if want := len(x.reasons) == 0; (a.State == assess.Ready) != want {
				t.Errorf("state %s", a.State)
			}
		})
	}
}

// startUpWaived asks for no start-up.
func startUpWaived() []field.Waiver {
	var out []field.Waiver
	for _, key := range assess.StartUpChecks() {
		out = append(out, field.Waiver{Check: text(key), Kind: text("notrequired"), Reason: text("later"), By: text("owner")})
	}
	return out
}

// notCounted are the reasons where a whole run does not count.
func notCounted() []string {
	var out []string
	for _, key := range assess.StartUpChecks() {
		out = append(out, key+":noprestart")
	}
	return out
}
