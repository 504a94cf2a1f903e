package assess_test

import (
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// The table of what overtakes what, written out by hand: nothing else is
// overtaken. Common practice, no source.
var (
	driveLine  = []string{assess.CouplingGear, assess.CouplingMotor, assess.ShaftEnds, assess.GuardEnd, assess.GuardAround}
	gearBase   = slices.Concat(gear, driveLine, []string{assess.GearLevel, assess.SoftFootGear, assess.DowelPins})
	motorBase  = slices.Concat(driveLine, []string{assess.MotorLevel, assess.SoftFootMotor, assess.SetMotorHoldDown})
	touched    = slices.Concat(blade, []string{assess.SetBladeClamp, assess.Vibration, assess.AmpUnbalance, assess.AmpLoad})
	gearMoved  = slices.Concat(gearBase, []string{assess.SetGearHoldDown})
	supported  = slices.Concat(gearBase, []string{assess.SetSupportHoldDown})
	wholeTable = map[string][]string{
		"gear.shim": gearMoved, "gear.slide": gearMoved, "gear.loosen": gearMoved,
		"support.shim": slices.Concat(supported, []string{assess.MotorLevel}), "support.slide": supported, "support.loosen": supported,
		"motor.shim": motorBase, "motor.slide": motorBase, "motor.loosen": motorBase,
		"cylinder.adjust": {assess.Clearance, assess.ClearanceAll, assess.Tilt, assess.CylinderPlumb, assess.CylinderRound},
		"blade.move":      touched, "blade.replace": touched, "blade.pitch": touched, "blade.loosen": touched, "blade.torque": blade,
		"hub.open":        slices.Concat(blade, []string{assess.Tilt, assess.SetHub, assess.Vibration}),
		"coupling.open":   {assess.CouplingGear, assess.CouplingMotor, assess.SetCouplingGear, assess.SetCouplingMotor},
		"guard.off":       {assess.GuardEnd, assess.GuardAround, assess.SetGuard},
		"holddown.torque": nil,
	}
)

// everySet is a job with a set of each code, and a tilt read from the cylinder.
func everySet(t testing.TB) field.Record {
	r := fullRecord(t, fullCell(t, 1))
	c := &r.Cells[0]
	c.Tilt.Reference = text("cylinder")
	for _, code := range assess.Sets() {
		if !slices.ContainsFunc(c.Fasteners, func(f field.Fasteners) bool { return f.Set.Value == code }) {
			c.Fasteners = append(c.Fasteners, set(t, code, 4, 440))
		}
	}
	return r
}

// setAside lists the checks and the sets that need a re-check.
func setAside(c *assess.Cell) []string {
	var out []string
	for i := range c.Checks {
		k := &c.Checks[i]
		if k.Verdict != assess.Recheck {
			continue
		}
		if k.Key != assess.FastenerTorque {
			out = append(out, k.Key)
			continue
		}
		for _, it := range k.StandingRound().Items {
			if it.Verdict == assess.Recheck {
				out = append(out, it.Key)
			}
		}
	}
	slices.Sort(out)
	return out
}

// TestWholeTable: every event after everything overtakes what the table says and
// nothing else; before everything it overtakes nothing.
func TestWholeTable(t *testing.T) {
	for _, e := range ruleSet(t).Events {
		if e.Key == assess.EventLongest || e.Key == "instrument.out" {
			continue // TestLongestChange, TestInstrumentOut
		}
		want, listed := wholeTable[e.Key]
		if !listed {
			t.Errorf("%s is in the rules and not in the table", e.Key)
		}
		want = slices.Clone(want)
		slices.Sort(want)
		for _, when := range []struct {
			name string
			move field.Move
			want []string
		}{
			{"after", event(e.Key, 9, 0), want},
			{"later that day", event(e.Key, 8, 1000), want},
			{"before", event(e.Key, 3, 0), nil},
		} {
			r := everySet(t)
			r.Cells[0].Moves = append(r.Cells[0].Moves, when.move)
			c := assess.Assess(r, ruleSet(t)).Cells[0]
			if got := setAside(&c); !slices.Equal(got, when.want) {
				t.Errorf("%s %s: %v, want %v", e.Key, when.name, got, when.want)
			}
			if len(c.Questions) > 0 {
				t.Errorf("%s %s: questions %v", e.Key, when.name, c.Questions)
			}
		}
	}
}

// TestCylinderAndTilt: a cylinder adjusted is nothing to a tilt read from the
// deck.
func TestCylinderAndTilt(t *testing.T) {
	for _, x := range []struct {
		reference string
		want      assess.Verdict
	}{{"cylinder", assess.Recheck}, {"deck", assess.Within}, {"", assess.Within}} {
		a := judged(t, func(r *field.Record) {
			r.Cells[0].Tilt.Reference = text(x.reference)
			r.Cells[0].Moves = append(r.Cells[0].Moves, event("cylinder.adjust", 9, 0))
		})
		if got := a.Cells[0].Check(assess.Tilt).Verdict; got != x.want {
			t.Errorf("%q: %s, want %s", x.reference, got, x.want)
		}
	}
}

// TestSetOrder: torque stands only if it is shown to be later than the event.
func TestSetOrder(t *testing.T) {
	for _, x := range []struct {
		name   string
		move   field.Move
		want   assess.Verdict
		asked  bool
		reason string
	}{
		{"loosened, then torqued", event("gear.loosen", 6, 410), assess.Within, false, ""},
		{"torqued, then loosened", event("gear.loosen", 6, 425), assess.Recheck, false, "fasteners:itemrecheck gear.holddown gear.loosen 2026-03-06"},
		{"same minute", event("gear.loosen", 6, 420), assess.Within, true, ""},
		{"another joint", event("blade.loosen", 6, 430), assess.Recheck, false, "fasteners:itemrecheck blade.clamp blade.loosen 2026-03-06"},
	} {
		a := judged(t, func(r *field.Record) { r.Cells[0].Moves = append(r.Cells[0].Moves, x.move) })
		c := &a.Cells[0]
		if got := c.Check(assess.FastenerTorque).Verdict; got != x.want {
			t.Errorf("%s: %s, want %s", x.name, got, x.want)
		}
		asked := slices.ContainsFunc(c.Questions, func(q assess.Code) bool { return q.Key == "question.itemorder" })
		if asked != x.asked {
			t.Errorf("%s: questions %v", x.name, c.Questions)
		}
		if x.reason != "" && !slices.Contains(reasonTexts(c.Reasons), x.reason) {
			t.Errorf("%s: reasons %v", x.name, reasonTexts(c.Reasons))
		}
	}
}

// TestInstrumentOut: an instrument that was found out takes with it what was
// read with it since it was last known to be good, and nothing else.
func TestInstrumentOut(t *testing.T) {
	out := func(name string, d int, good field.Date) field.Move {
		m := event("instrument.out", d, 0)
		m.Instrument, m.LastGood = text(name), good
		return m
	}
	feelers := []string{assess.CouplingGear, assess.CouplingMotor, assess.SoftFootGear, assess.SoftFootMotor}
	slices.Sort(feelers)
	for _, x := range []struct {
		name string
		move field.Move
		want []string
	}{
		{"since its calibration", out("T2", 9, field.Date{}), feelers},
		{"good between", out("T2", 9, day(5)), []string{assess.CouplingGear, assess.CouplingMotor}},
		{"good after all", out("T2", 9, day(9)), nil},
		{"found out before all", out("T2", 3, field.Date{}), nil},
		{"the torque tool", out("W1", 9, day(5)), []string{assess.SetGearHoldDown, assess.SetGuard, assess.SetMotorHoldDown}},
		{"one that was not used", out("T7", 9, field.Date{}), nil},
	} {
		a := judged(t, func(r *field.Record) {
			r.Cells[0].Moves = append(r.Cells[0].Moves, x.move)
		})
		if got := setAside(&a.Cells[0]); !slices.Equal(got, x.want) {
			t.Errorf("%s: %v, want %v", x.name, got, x.want)
		}
	}
	// Read on the day on which it was good: the record does not show which was first.
	a := judged(t, func(r *field.Record) { r.Cells[0].Moves = append(r.Cells[0].Moves, out("T2", 9, day(4))) })
	if got := keys(a.Cells[0].Questions); !slices.Equal(got, []string{"question.order", "question.order"}) {
		t.Errorf("questions %v", got)
	}
	a = judged(t, func(r *field.Record) { r.Cells[0].Moves = append(r.Cells[0].Moves, out("", 9, day(4))) })
	if got := keys(a.Cells[0].Questions); !slices.Equal(got, []string{"question.noinstrument"}) {
		t.Errorf("questions %v", got)
	}
}

// TestWholeJobInOrder: every kind of event logged where it belongs in a job in
// the advised order overtakes nothing; torque after the last move does not
// either.
func TestWholeJobInOrder(t *testing.T) {
	a := judged(t, func(r *field.Record) {
		c := &r.Cells[0]
		c.Tilt.Reference = text("cylinder")
		c.Moves = append(c.Moves,
			event("support.loosen", 3, 400), event("support.shim", 3, 420), event("support.slide", 3, 430),
			event("gear.loosen", 3, 440), event("gear.shim", 3, 450), event("gear.slide", 3, 460), event("cylinder.adjust", 3, 470),
			event("motor.loosen", 3, 480), event("motor.shim", 3, 490), event("motor.slide", 3, 500),
			event("coupling.open", 4, 600), event("hub.open", 5, 300), event("blade.replace", 5, 310), event("blade.loosen", 5, 320),
			event("blade.move", 5, 330), event("blade.pitch", 5, 340), event("blade.torque", 5, 410),
			event("holddown.torque", 6, 420), event("guard.off", 6, 450), event("holddown.torque", 9, 0),
		)
	})
	if len(a.Reasons) > 0 || len(a.Cells[0].Questions) > 0 || a.State != assess.Ready {
		t.Errorf("reasons %v, questions %v", reasonTexts(a.Reasons), a.Cells[0].Questions)
	}
	for _, k := range a.Cells[0].Checks {
		if len(k.Overtaken) > 0 {
			t.Errorf("%s: %v", k.Key, k.Overtaken)
		}
	}
}
