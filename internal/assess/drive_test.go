package assess_test

import (
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// amountOf is a named result of the standing round.
func amountOf(t testing.TB, c *assess.Check, key string) int64 {
	t.Helper()
	return value(t, c, key).Amount.N
}

// limitOf replaces the limit of a check.
func limitOf(r *field.Record, l field.Limit) {
	for i := range r.Limits {
		if r.Limits[i].Check == l.Check {
			r.Limits[i] = contract(l)
			return
		}
	}
	r.Limits = append(r.Limits, contract(l))
}

// gaps puts four gaps on the coupling at the gear reducer as left.
func gaps(r *field.Record, top, ninety, bottom, other measure.Length) {
	s := &r.Cells[0].Drive.CouplingGear.Rounds[1]
	s.Readings, s.Return = read(top, ninety, bottom, other), typed(top)
}

// TestLevelAtTheEdge: a slope is decided by cross-multiplication. 0.005 in/ft
// is 0.41666… mm/m, which no rounding hits.
func TestLevelAtTheEdge(t *testing.T) {
	for _, x := range []struct {
		rise, run measure.Length
		want      assess.Verdict
		margin    int64
	}{
		{5 * mil, 12 * inch, assess.Within, 0},
		{-5 * mil, 12 * inch, assess.Within, 0},
		{10 * mil, 24 * inch, assess.Within, 0},
		{5*mil + 1, 12 * inch, assess.Outside, -4},
		{-5*mil - 1, 12 * inch, assess.Outside, -4},
		{500*mil + 1, 1200 * inch, assess.Outside, -1}, // over by 0.03 of a billionth: still outside
	} {
		r := fullRecord(t, fullCell(t, 1))
		r.Instruments[0].SlopeResolution = field.Slope{}
		r.Instruments[0].AngleResolution = field.Angle{}
		s, err := measure.NewSlope(x.rise, x.run)
		if err != nil {
			t.Fatal(err)
		}
		r.Cells[0].Drive.GearLevel.Rounds[0].Readings[1].Value = field.Slope{Value: s, Set: true}
		k := assess.Assess(r, ruleSet(t)).Cells[0].Check(assess.GearLevel)
		if k.Verdict != x.want || k.StandingRound().Margin.N != x.margin {
			t.Errorf("%d/%d: %s, margin %d", x.rise, x.run, k.Verdict, k.StandingRound().Margin.N)
		}
	}
}

// TestBesideTilt: the level of the gear reducer and the tilt of the fan are two
// readings of one slope. A drop larger by 0.50 in at 0° than at 180° on a
// radius of 84 in is a fan lower toward the motor by 0.25/84.
func TestBesideTilt(t *testing.T) {
	r := fullRecord(t, fullCell(t, 1))
	drops := make([]measure.Length, positions)
	for i, tenths := range []int64{2500, 2165, 1250, 0, -1250, -2165, -2500, -2165, -1250, 0, 1250, 2165} {
		drops[i] = 10*inch + measure.Length(tenths)*inch/10_000
	}
	r.Cells[0].Tilt.Rounds[0].Readings = read(drops...)
	k := assess.Assess(r, ruleSet(t)).Cells[0].Check(assess.GearLevel)
	near := func(key string, want int64) {
		if got := amountOf(t, k, key); got < want-200 || got > want+200 {
			t.Errorf("%s: %d, want %d", key, got, want)
		}
	}
	near("tiltalong", -2_976_190)
	near("tiltacross", 0)
	near("differencealong", 83_333+2_976_190)
	near("differenceacross", -166_667)
	r.Cells[0].Tilt.Sense = text("up")
	k = assess.Assess(r, ruleSet(t)).Cells[0].Check(assess.GearLevel)
	near("tiltalong", 2_976_190)
	r.Cells[0].Tilt.Sense = field.Text{}
	k = assess.Assess(r, ruleSet(t)).Cells[0].Check(assess.GearLevel)
	if got := keys(k.StandingRound().Notes); !slices.Contains(got, "note.notiltbeside") {
		t.Errorf("notes %v", got)
	}
}

// TestTotalIndicatorReading: TM 10-3930-664-24, p. 3-41: at 12, 3, 6 and 9
// o'clock 0, +0.003, −0.002, +0.003 in make 0.005 in.
func TestTotalIndicatorReading(t *testing.T) {
	r := fullRecord(t, fullCell(t, 1))
	limitOf(&r, field.Limit{Check: assess.CouplingGear, Criterion: text("range"), Max: typed(5 * mil)})
	gaps(&r, 0, 3*mil, -2*mil, 3*mil)
	k := assess.Assess(r, ruleSet(t)).Cells[0].Check(assess.CouplingGear)
	if got := amountOf(t, k, "range"); got != int64(5*mil) || k.Verdict != assess.NearLimit {
		t.Errorf("range %d, %s", got, k.Verdict)
	}
}

// TestIndicatorMoved: TM 10-4320-307-24, p. 3-15: where the reading at 360° is not
// that at 0° the indicator moved; misalignment comes from opposite readings.
func TestIndicatorMoved(t *testing.T) {
	a := judged(t, func(r *field.Record) {
		gaps(r, 500*mil, 501*mil, 502*mil, 501*mil)
		r.Cells[0].Drive.CouplingGear.Rounds[1].Return = typed(502 * mil)
	})
	if got := keys(a.Cells[0].Questions); !slices.Equal(got, []string{"question.return"}) {
		t.Errorf("questions %v", got)
	}
	k := a.Cells[0].Check(assess.CouplingGear)
	if v, h := amountOf(t, k, "vertical"), amountOf(t, k, "horizontal"); v != 250_000 || h != 0 { // 0.002 in over 8 in
		t.Errorf("vertical %d, horizontal %d", v, h)
	}
}

// TestCouplingCriteria: the kind that the contract names decides. Gaps of 3 and
// 4 parts make a total of 5 exactly.
func TestCouplingCriteria(t *testing.T) {
	limit := func(criterion string, rise measure.Length) field.Limit {
		s, _ := measure.NewSlope(rise, 8*inch)
		return field.Limit{Check: assess.CouplingGear, Criterion: text(criterion), Slope: field.Slope{Value: s, Set: true}}
	}
	row := func(criterion string, most measure.Length) field.Limit {
		return field.Limit{Check: assess.CouplingGear, Criterion: text(criterion), Max: typed(most)}
	}
	for _, x := range []struct {
		name  string
		limit field.Limit
		want  assess.Verdict
	}{
		{"total at the limit", limit("total", 50*mil), assess.Within},
		{"total a nanometer over", limit("total", 50*mil-1), assess.Outside},
		{"plane at the limit", limit("plane", 40*mil), assess.Within},
		{"plane a nanometer over", limit("plane", 40*mil-1), assess.Outside},
		{"range at the limit", row("range", 40*mil), assess.Within},
		{"range a nanometer over", row("range", 40*mil-1), assess.Outside},
		{"kind not named", row("", 40*mil), assess.NoLimit},
		{"a length for an angle", row("total", 40*mil), assess.NoLimit},
		{"an angle for a length", limit("range", 50*mil), assess.NoLimit},
		{"no limit", field.Limit{Check: assess.CouplingGear}, assess.NoLimit},
	} {
		r := fullRecord(t, fullCell(t, 1))
		r.Instruments[1].Resolution = field.Length{} // no near limit
		limitOf(&r, x.limit)
		gaps(&r, 500*mil, 485*mil, 540*mil, 515*mil) // bottom less top 40, sides 30
		gaps(&r, 500*mil, 505*mil, 540*mil, 535*mil)
		k := assess.Assess(r, ruleSet(t)).Cells[0].Check(assess.CouplingGear)
		if k.Verdict != x.want {
			t.Errorf("%s: %s, want %s", x.name, k.Verdict, x.want)
		}
		if v, h, total := amountOf(t, k, "vertical"), amountOf(t, k, "horizontal"), amountOf(t, k, "total"); v != 5_000_000 || h != 3_750_000 || total != 6_250_000 {
			t.Errorf("%s: vertical %d, horizontal %d, total %d", x.name, v, h, total)
		}
		if m := k.StandingRound().Margin; m != nil && (m.N < 0) != (x.want == assess.Outside) {
			t.Errorf("%s: margin %d", x.name, m.N)
		}
	}
}

// TestNearTotal: a total angle is near its limit where it is closer than U. Gaps
// read to half a mil over 8 in: U = 2·√2·(0.0005/√12)/8 = 51.031e-6.
func TestNearTotal(t *testing.T) {
	for _, x := range []struct {
		limit int64 // billionths
		want  assess.Verdict
	}{{6_250_000 + 51_032, assess.Within}, {6_250_000 + 51_031, assess.NearLimit}, {6_250_000, assess.NearLimit}} {
		a := judged(t, func(r *field.Record) {
			l := field.Limit{Check: assess.CouplingGear, Criterion: text("total")}
			l.Slope = field.Slope{Value: measure.Slope{Rise: measure.Length(x.limit), Run: measure.Meter}, Set: true}
			limitOf(r, l)
			gaps(r, 500*mil, 505*mil, 540*mil, 535*mil)
		})
		k := a.Cells[0].Check(assess.CouplingGear)
		if k.Verdict != x.want || amountOf(t, k, "uncertainty") != 51_031 {
			t.Errorf("%d: %s, uncertainty %d", x.limit, k.Verdict, amountOf(t, k, "uncertainty"))
		}
	}
}

// TestCouplingNotes: what the form does not say about the reading is said.
func TestCouplingNotes(t *testing.T) {
	a := judged(t, func(r *field.Record) {
		c := &r.Cells[0].Drive.CouplingGear
		c.Stood, c.Together, c.Sweep = field.Text{}, flag(false), flag(true)
		r.Cells[0].Drive.CouplingMotor.Together = field.Flag{}
		r.Tower.Geometry.FaceMotor = field.Length{}
	})
	if got := keys(a.Cells[0].Check(assess.CouplingGear).Notes); !slices.Equal(got, []string{"note.nostood", "note.nottogether", "note.sweep"}) {
		t.Errorf("notes %v", got)
	}
	k := a.Cells[0].Check(assess.CouplingMotor)
	if got := keys(k.Notes); !slices.Equal(got, []string{"note.togetherblank"}) {
		t.Errorf("notes %v", got)
	}
	if got := reasonTexts(a.Reasons); k.Verdict != assess.Missing || !slices.Equal(got, []string{"couplingmotor:notcomputed"}) {
		t.Errorf("no face diameter: %s, reasons %v", k.Verdict, got)
	}
}

// TestDriveTypes: direct and close-coupled drives have no drive shaft; others
// get no number.
func TestDriveTypes(t *testing.T) {
	shaft := []string{assess.CouplingGear, assess.CouplingMotor, assess.ShaftEnds, assess.GuardEnd, assess.GuardAround}
	for _, x := range []struct {
		drive string
		want  assess.Verdict
		note  string
	}{
		{"rightangle", assess.Within, ""}, {"", assess.Within, ""},
		{"direct", assess.NotRequired, "note.drivetype"}, {"closecoupled", assess.NotRequired, "note.drivetype"},
		{"belt", assess.Missing, "note.notcovered"}, {"twopiece", assess.Missing, "note.notcovered"}, {"horizontal", assess.Missing, "note.notcovered"},
	} {
		a := judged(t, func(r *field.Record) { r.Tower.DriveType = text(x.drive) })
		for i := range a.Cells[0].Checks {
			k := &a.Cells[0].Checks[i]
			if !slices.Contains(shaft, k.Key) {
				if k.Verdict != assess.Within {
					t.Errorf("%s: %s is %s", x.drive, k.Key, k.Verdict)
				}
				continue
			}
			noNumber := len(k.Rounds) == 0
			if k.Verdict != x.want || x.note != "" && !slices.Equal(keys(k.Notes), []string{x.note}) || noNumber != (x.want == assess.Missing) {
				t.Errorf("%s: %s is %s, notes %v, %d rounds", x.drive, k.Key, k.Verdict, k.Notes, len(k.Rounds))
			}
		}
		if (a.State == assess.Ready) == (x.want == assess.Missing) {
			t.Errorf("%s: %s, reasons %v", x.drive, a.State, reasonTexts(a.Reasons))
		}
	}
	a := judged(t, func(r *field.Record) {
		r.Tower.DriveType = text("belt")
		for _, key := range shaft {
			r.Waivers = append(r.Waivers, field.Waiver{Check: text(key), Kind: text("byothers"), Reason: text("belt drive"), By: text("millwright")})
		}
	})
	if a.State != assess.Ready {
		t.Errorf("belt, by others: reasons %v", reasonTexts(a.Reasons))
	}
}

// TestGuardWithoutTolerance: a gap without a tolerance gives no verdict.
func TestGuardWithoutTolerance(t *testing.T) {
	a := judged(t, func(r *field.Record) { limitOf(r, field.Limit{Check: assess.GuardEnd, Nominal: typed(inch / 4)}) })
	k := a.Cells[0].Check(assess.GuardEnd)
	if k.Verdict != assess.NoLimit || !slices.Equal(keys(k.Notes), []string{"note.notolerance"}) {
		t.Errorf("%s, notes %v", k.Verdict, k.Notes)
	}
	if got := reasonTexts(a.Reasons); !slices.Equal(got, []string{"guardend:nolimit"}) {
		t.Errorf("reasons %v", got)
	}
}

// TestDeviationOfSlope: a slope, a percentage and a difference of pins are
// accepted as typed.
func TestDeviationsOfTheJob(t *testing.T) {
	for _, x := range []struct {
		name, check, round, value string
		change                    func(*field.Record)
	}{
		{"slope", assess.GearLevel, field.AsLeft, "0.01 in/ft", func(r *field.Record) {
			r.Cells[0].Drive.GearLevel.Rounds[0].Readings[0].Value = slope(t, "0.01 in/ft")
		}},
		{"percentage", assess.RunTime, "run1", "2 h", func(r *field.Record) { r.Cells[0].StartUps[0].RunTime = quantity(t, "2 h", measure.Time) }},
		{"vibration", assess.Vibration, "run1", "0.25 in/s rms", func(r *field.Record) {
			r.Cells[0].StartUps[0].Vibration[0].Value = quantity(t, "0.25 in/s", measure.VibrationVelocityRMS)
		}},
		{"pins", assess.DowelPins, field.AsLeft, "1/4 in", func(r *field.Record) { r.Cells[0].Pins[0].Below = typed(inch / 4) }},
		{"torque", assess.FastenerTorque, field.AsLeft, "105 ft-lb", func(r *field.Record) {
			r.Cells[0].Fasteners[0].Final = quantity(t, "105 ft-lb", measure.Torque)
		}},
	} {
		for _, accepted := range []bool{true, false} {
			a := judged(t, func(r *field.Record) {
				x.change(r)
				d := deviation(func(d *field.Deviation) { d.Check, d.Round, d.Value = text(x.check), text(x.round), text(x.value) })
				if !accepted {
					d.Value = text("0.3 in/s rms")
				}
				r.Deviations = []field.Deviation{d}
			})
			k := a.Cells[0].Check(x.check)
			if (a.State == assess.Ready) != accepted || (k.Deviation != nil) != accepted || k.Verdict != assess.Outside {
				t.Errorf("%s, accepted %v: %s, %s, notes %v, reasons %v", x.name, accepted, a.State, k.Verdict, k.Notes, reasonTexts(a.Reasons))
			}
		}
	}
}
