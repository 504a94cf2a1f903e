package workbook

import (
	"strings"
	"testing"
	"time"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// fillDrive fills every block of the first cell's drive sheet and what belongs
// to it on the tower's sheets.
func fillDrive(e *sheetEditor) {
	e.set("geometry_shimmed", "gear reducer feet")
	e.set("geometry_hubheight", "5 ft")
	e.set("geometry_ratio", "13.6")
	e.set("geometry_backstop", "yes")
	e.set("geometry_motorspeed", "1785")
	e.set("geometry_motorvolts", "13800")
	e.set("feet", 1, 2, 3, 4)
	for i, v := range []string{"12", "-12", "-12", "12"} {
		e.setAt("feet", 1, i, v)
		e.setAt("feet", 2, i, []string{"9", "9", "-9", "-9"}[i])
	}
	e.set("schedule", "gear reducer hold-downs", "other fasteners", "guard bolts")
	e.setAt("schedule", 1, 1, "Ladder bolts")
	e.setAt("schedule", 2, 0, 4)
	e.setAt("schedule", 3, 0, "1-8")
	e.setAt("schedule", 7, 0, "0.18")
	e.setAt("schedule", 8, 0, 400)
	e.setAt("schedule", 9, 0, "5 %")
	e.setAt("schedule", 10, 0, "lock washers")
	e.setAt("schedule", 11, 0, "equipment manual")
	e.set("instruments", "W-1")
	e.setAt("instruments", 4, 0, "0.0005 in/ft")
	e.setAt("instruments", 11, 0, "600 lbf·ft")
	e.set("instrumentsout", "W-1")
	e.setAt("instrumentsout", 2, 0, "2026-03-20")

	e.set("c01_asfound_head", "2026-03-09", nil, nil, nil, "Tor Brandvold")
	e.set("c01_drive_asfound_head", "2026-03-10", "9:00")
	e.set("stock", "0.005", "1/16 in")
	e.set("c01_motorstacks", "", 4)
	e.setAt("c01_motorstacks", 1, 0, "1.25")
	e.setAt("c01_motorstacks", 1, 1, "0.5 in")
	for col, v := range map[int]any{0: "gear reducer", 1: "up or down (shims)", 4: 3, 5: "anchor bolt seized"} {
		e.setAt("c01_stuck", col, 0, v)
	}
	for col, v := range map[int]any{0: "motor", 1: "toward", 3: "rear"} {
		e.setAt("c01_stuck", col, 1, v)
	}
	e.set("c01_stacks", 1, 3)
	e.setAt("c01_stacks", 1, 0, 2)
	e.setAt("c01_stacks", 2, 0, "0.062")
	e.set("c01_gearlevel_asfound_head", nil, "10:30", nil, "P-1", "yes", "no")
	e.set("c01_gearlevel_asfound", "0.009", "-0.4 mm/m")
	e.set("c01_gearlevel_asfound_return", "0.05°")
	e.set("c01_cylinderround_asleft", "337", nil, "337-1/16")
	e.set("c01_cylinderround_asleft_reasons", nil, "louver in the way")
	e.set("c01_softfootmotor_asfound", "0.001", "0", "0.0015", "0")
	e.set("c01_shaftends_asleft", "112-1/2")
	e.set("c01_guardaround_asleft", "1", "1-1/16", "1", "15/16")
	e.set("c01_couplingmotor_stood", "behind the motor, looking to the gear reducer")
	e.set("c01_couplingmotor_together", "yes")
	e.set("c01_couplingmotor_asfound", "0.371", "0.372", "0.379", "0.378")
	e.set("c01_couplingmotor_asfound_return", "0.371")
	fillWorks(e)
}

// fillWorks fills what was moved, bolted and started.
func fillWorks(e *sheetEditor) {
	move := func(row int, values map[int]any) {
		for col, v := range values {
			e.setAt("c01_moves", col, row, v)
		}
	}
	move(0, map[int]any{0: "gear reducer shimmed", 2: "2026-03-09", 3: "11:30", 8: 1, 9: "0.062", 10: "0.107"})
	move(1, map[int]any{8: "3, 4", 9: "0.062", 10: "0.070"})
	move(2, map[int]any{0: "gear reducer slid", 2: "2026-03-09", 11: "-1/16", 12: "3/32", 13: "3/32"})
	move(4, map[int]any{0: "blade re-pitched", 2: "2026-03-10", 8: "2, 4"})

	e.setAt("c01_fasteners_set", 0, 0, "other fasteners")
	e.setAt("c01_fasteners_name", 0, 0, "ladder bolts")
	e.setAt("c01_fasteners_set", 2, 0, "gear reducer hold-downs")
	for line, v := range map[string]any{"firstpass": "392", "final": "400 lbf·ft", "clicks": 4, "pattern": "yes", "tool": "W-1",
		"locking": "lock washers", "lockingtime": "after final torque", "date": "2026-03-10", "time": "15:00"} {
		e.setAt("c01_fasteners_"+line, 2, 0, v)
	}
	e.set("c01_pins", "motor")
	for i, v := range []any{"yes", 2, 2, "5/8", "1/2", "9/16", "2026-03-10", "16:00", 3, "Pia Wexcombe"} {
		e.setAt("c01_pins", i+1, 0, v)
	}
	e.set("c01_prestart", "yes", nil, "no")
	e.setAt("c01_prestart", 2, 0, "2026-03-11")
	e.setAt("c01_prestart", 3, 2, "one on the gear reducer")
	e.setAt("c01_startup_date", 1, 0, time.Date(2026, 3, 12, 0, 0, 0, 0, time.UTC))
	for line, v := range map[string]any{"air": "41", "volts12": 461, "amps3": "210 A", "fanspeed": "131.4", "water": "on",
		"insulation": "850", "runtime": "1 h 30 min", "setpoint": "9 mm/s rms", "rotation": "yes", "oiltemp": "48 °C"} {
		e.setAt("c01_startup_"+line, 1, 0, v)
	}
	e.set("c01_vibration", "Motor, drive end", "Gear reducer")
	for row, v := range []string{"rms", "peak"} {
		e.setAt("c01_vibration", 1, row, "vertical")
		e.setAt("c01_vibration", 2, row, v)
		e.setAt("c01_vibration", 5, row, "0.12 in/s")
	}
	e.setAt("c01_vibration", 3, 1, "2 mils")
}

func driveRecord(t *testing.T) field.Record {
	t.Helper()
	return clean(t, edit(t, blankSmall(t), fillDrive))
}

func TestDriveReadings(t *testing.T) {
	r := driveRecord(t)
	d := r.Cells[0].Drive
	level := d.GearLevel.Rounds[0]
	for i, want := range []measure.Slope{{Rise: 9 * measure.Thou, Run: measure.Foot}, {Rise: -400 * measure.Micrometer, Run: measure.Meter}} {
		if got := level.Readings[i].Value; !got.Set || got.Value.Cmp(want) != 0 {
			t.Errorf("level %d: %+v", i+1, got)
		}
	}
	if !level.Return.Set || level.Return.Text != "0.05°" {
		t.Errorf("level again %+v", level.Return)
	}
	// Start and instrument are the block's own, the date is the drive line's, the
	// reader the cell's.
	h := level.Head
	if h.Start.Value.String() != "10:30" || h.Instrument.Value != "P-1" || h.Date.Value.String() != "2026-03-10" ||
		h.ReadBy.Value != "Tor Brandvold" || !h.HoldDownsFinal.Value || !level.Accepted.Set || level.Accepted.Value {
		t.Errorf("head %+v, accepted %+v", h, level.Accepted)
	}
	for name, got := range map[string]string{
		"diameters":  texts(d.CylinderRound.Rounds[1], lengthText),
		"soft foot":  texts(d.SoftFootMotor.Rounds[0], lengthText),
		"shaft ends": texts(d.ShaftEnds.Rounds[1], lengthText),
		"guard":      texts(d.GuardAround.Rounds[1], lengthText),
	} {
		want := map[string]string{"diameters": "337 - 337-1/16 -", "soft foot": "0.001 0 0.0015 0",
			"shaft ends": "112-1/2", "guard": "1 1-1/16 1 15/16"}[name]
		if got != want {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
	if d.CylinderRound.Rounds[1].Readings[1].Reason.Value != "louver in the way" {
		t.Error("reason lost")
	}
	if !d.CouplingMotor.Together.Value || d.CouplingMotor.Sweep.Set || d.CouplingMotor.Rounds[0].Return.Text != "0.371" {
		t.Errorf("coupling %+v", d.CouplingMotor)
	}
}

func TestGeometryAndStacks(t *testing.T) {
	r := driveRecord(t)
	g := r.Tower.Geometry
	if g.Shimmed.Value != "gear" || g.HubHeight.Value != 5*measure.Foot || g.Ratio.Value.String() != "13.6" || !g.Backstop.Value {
		t.Errorf("geometry %+v", g)
	}
	if g.MotorSpeed.Value.String() != "1785 r/min" || g.MotorVolts.Value.String() != "13800 V" {
		t.Errorf("nameplate %s, %s", g.MotorSpeed.Value, g.MotorVolts.Value)
	}
	if len(g.Feet) != 4 || g.Feet[1].Number != 2 || g.Feet[1].Along.Value != -12*measure.Inch || g.Feet[2].Across.Value != -9*measure.Inch {
		t.Errorf("feet %+v", g.Feet)
	}
	s := r.Cells[0].Stacks
	if len(s) != 2 || s[0].Foot != 1 || s[0].Now.Value != 62*measure.Thou || s[0].Pieces.Value != 2 || s[1].Foot != 3 || s[1].Now.Set {
		t.Errorf("stacks %+v", s)
	}
	if len(g.Stock) != 2 || g.Stock[0].Thickness.Value != 5*measure.Thou || g.Stock[1].Thickness.Value != measure.Inch/16 {
		t.Errorf("stock %+v", g.Stock)
	}
	m := r.Cells[0].MotorStacks
	if len(m) != 2 || m[0].Place != field.FrontNinety || m[0].Now.Value != measure.Inch*5/4 || m[0].Pieces.Set || m[1].Place != field.FrontOther ||
		m[1].Now.Value != measure.Inch/2 || m[1].Pieces.Value != 4 {
		t.Errorf("motor stacks %+v", m)
	}
	k := r.Cells[0].Stuck
	if len(k) != 2 || k[0].What.Value != "gear" || k[0].Way.Value != "shims" || k[0].Foot.Value != 3 || k[0].Reason.Value != "anchor bolt seized" ||
		k[1].What.Value != "motor" || k[1].Way.Value != "toward" || k[1].Feet.Value != "rear" || k[1].Foot.Set {
		t.Errorf("stuck %+v", k)
	}
	i := r.Instruments[0]
	if !i.SlopeResolution.Set || i.Resolution.Set || i.Capacity.Value.String() != "600 lbf·ft" {
		t.Errorf("instrument %+v", i)
	}
}

func TestMoveLog(t *testing.T) {
	moves := driveRecord(t).Cells[0].Moves
	if len(moves) != 4 {
		t.Fatalf("%d moves: %+v", len(moves), moves)
	}
	shim := moves[0]
	if len(shim.Feet) != 3 || shim.Feet[0].Foot != 1 || shim.Feet[0].Now.Value != 107*measure.Thou ||
		shim.Feet[2].Foot != 4 || shim.Feet[2].Was.Value != 62*measure.Thou || shim.Feet[2].Now.Value != 70*measure.Thou {
		t.Errorf("shims %+v", shim.Feet)
	}
	slide := moves[1]
	if slide.Along.Value != -measure.Inch/16 || slide.Front.Value != measure.Inch*3/32 || slide.Rear.Value != measure.Inch*3/32 || len(slide.Feet) != 0 {
		t.Errorf("slide %+v", slide)
	}
	if b := moves[2].Blades; len(b) != 2 || b[0] != 2 || b[1] != 4 {
		t.Errorf("blades %v", b)
	}
	if out := moves[3]; out.Event.Value != "instrument.out" || out.Instrument.Value != "W-1" || out.At.Sheet != "Instruments" {
		t.Errorf("found out %+v", out)
	}
}

func TestFastenersAndPins(t *testing.T) {
	c := driveRecord(t).Cells[0]
	var sets []string
	for _, f := range c.Fasteners {
		sets = append(sets, f.Set.Value+" "+f.Name.Value)
	}
	// Two columns in their order, then what is scheduled and was not done.
	if got := strings.Join(sets, "; "); got != "other ladder bolts; gear.holddown ; guard.bolts " {
		t.Fatalf("sets %s", got)
	}
	f := c.Fasteners[1]
	if f.Count.Value != 4 || f.Size.Value != "1-8" || f.Coefficient.Value.String() != "0.18" || f.Required.Value.String() != "400 lbf·ft" ||
		f.FirstUnder.Value.Kind() != measure.Percentage || f.Scheduled.Value != "washer" || f.Authority.Value != "manual" {
		t.Errorf("asked %+v", f)
	}
	if f.FirstPass.Value.String() != "392 lbf·ft" || f.Clicks.Value != 4 || !f.Pattern.Value || f.Stripe.Set || f.Tool.Value != "W-1" ||
		f.Locking.Value != "washer" || f.LockingTime.Value != "after" || f.Date.Value.String() != "2026-03-10" || f.At.Sheet != "Cell 1 work" {
		t.Errorf("done %+v", f)
	}
	if last := c.Fasteners[2]; last.Final.Set || last.At.Sheet != "Fasteners" {
		t.Errorf("not done %+v", last)
	}
	p := c.Pins[0]
	if p.Where.Value != "motor" || !p.Required.Value || p.Found.Value != 2 || p.Hole.Value != measure.Inch*5/8 ||
		p.Below.Value != measure.Inch*9/16 || p.Sequence.Value != 3 || p.By.Value != "Pia Wexcombe" {
		t.Errorf("pins %+v", p)
	}
	if other := clean(t, edit(t, blankSmall(t), fillDrive)).Cells[1]; len(other.Fasteners) != 0 {
		t.Errorf("a cell that nobody bolted has %+v", other.Fasteners)
	}
}

func TestPreStartAndStartUp(t *testing.T) {
	c := driveRecord(t).Cells[0]
	if len(c.PreStart) != 2 || c.PreStart[0].Key != "blocks.out" || !c.PreStart[0].Done.Value || c.PreStart[0].Date.Value.Day != 11 ||
		c.PreStart[1].Key != "people.out" || c.PreStart[1].Done.Value || c.PreStart[1].Note.Value == "" {
		t.Errorf("pre-start %+v", c.PreStart)
	}
	// The second column is the second run, although the first is blank.
	if len(c.StartUps) != 2 || c.StartUps[0].Date.Set {
		t.Fatalf("start-ups %+v", c.StartUps)
	}
	u := c.StartUps[1]
	for name, got := range map[string]string{u.AirTemperature.Value.String(): "41 °F", u.Volts[0].Value.String(): "461 V",
		u.Amps[2].Value.String(): "210 A", u.FanSpeed.Value.String(): "131.4 r/min", u.Insulation.Value.String(): "850 MΩ",
		u.SwitchSetPoint.Value.String(): "9 mm/s rms", u.OilTemperature.Value.String(): "48 °C"} {
		if name != got {
			t.Errorf("read %s, want %s", name, got)
		}
	}
	if minutes, err := u.RunTime.Value.In(measure.Minute); err != nil || minutes.String() != "90" {
		t.Errorf("run time %v", u.RunTime)
	}
	if len(u.Vibration) != 2 || u.Vibration[0].Value.Value.Kind() != measure.VibrationVelocityRMS ||
		u.Vibration[1].Value.Value.Kind() != measure.VibrationVelocityPeak || u.Vibration[0].Axis.Value != "v" ||
		u.Vibration[1].Limit.Value.Kind() != measure.VibrationDisplacementPeakToPeak {
		t.Errorf("vibration %+v", u.Vibration)
	}
}

// Where the reader stood decides which side his right hand is on: right of the
// deck's plan, motor at its top, is 90°. Worked by hand, both spots.
func TestStandingSpot(t *testing.T) {
	for _, c := range []struct{ stood, right, left string }{
		{"at the gear reducer, looking to the motor", "0.372", "0.378"}, // looks up the plan: right is right
		{"behind the motor, looking to the gear reducer", "0.378", "0.372"},
	} {
		b := edit(t, blankSmall(t), func(e *sheetEditor) {
			e.set("c01_couplinggear_stood", c.stood)
			e.set("c01_couplinggear_asleft", "0.371", c.right, "0.379", c.left)
			e.set("c01_couplinggear_asleft_return", "0.3715")
		})
		s := clean(t, b).Cells[0].Drive.CouplingGear.Rounds[1]
		want := map[int]string{field.ClockTop: "0.371", field.ClockNinety: "0.372", field.ClockBottom: "0.379", field.ClockOther: "0.378"}
		for i, x := range s.Readings {
			if x.Index != i+1 || x.Value.Text != want[x.Index] {
				t.Errorf("%s: index %d %q, want %q", c.stood, x.Index, x.Value.Text, want[x.Index])
			}
		}
		if s.Return.Text != "0.3715" {
			t.Errorf("again %q", s.Return.Text)
		}
	}
}

// The drive sheet can be worked on as the others: rows and columns inserted,
// the sheet renamed.
func TestMovedDriveSheet(t *testing.T) {
	before := driveRecord(t).Cells[0]
	b := edit(t, edit(t, blankSmall(t), fillDrive), func(e *sheetEditor) {
		for _, name := range []string{"c01_couplingmotor_asfound", "c01_startup_volts12", "c01_moves", "c01_prestart"} {
			sheet, cell := e.cell(name, 0, 0)
			at, _ := parsePos(cell)
			e.must(e.InsertRows(sheet, at.row+1, 2))
		}
		e.must(e.InsertCols("Cell 1 drive", "D", 1))
		e.must(e.InsertCols("Fasteners", "C", 1))
		e.must(e.InsertRows("Geometry", 8, 1))
	})
	b = patch(t, b, "xl/workbook.xml", func(xml []byte) []byte {
		return []byte(strings.ReplaceAll(string(xml), "Cell 1 drive", "Antrieb 1"))
	})
	after := clean(t, b).Cells[0]
	if x, y := before.Drive.CouplingMotor.Rounds[0], after.Drive.CouplingMotor.Rounds[0]; texts(x, lengthText) != texts(y, lengthText) ||
		y.Readings[3].Value.At.Sheet != "Antrieb 1" {
		t.Errorf("coupling %s, moved %s", texts(x, lengthText), texts(y, lengthText))
	}
	if len(after.Moves) != len(before.Moves) || len(after.Moves[0].Feet) != 3 || len(after.StartUps) != 2 || len(after.PreStart) != 2 ||
		len(after.Fasteners) != 3 || len(after.StartUps[1].Vibration) != 2 {
		t.Errorf("moved %+v", after)
	}
}
