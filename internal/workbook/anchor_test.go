package workbook_test

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/workbook"
	"asleft/templates"
)

// crew is how a crew counts and reads.
type crew struct {
	direction field.Direction
	first     measure.Angle // of position 1, in the crew's own way of counting
	sense     string
	stood     string
}

// form fills a form for four cells whose low sides are at 0°, 90°, 180° and 270°
// clockwise from the motor, each read as this crew does.
func (c crew) form(t *testing.T) []byte {
	var form bytes.Buffer
	o := workbook.FormOptions{Cells: 4, Blades: 4, Positions: 8, Rounds: 2, Direction: c.direction, First: c.first,
		Without: []string{"pitch", "track", "tipradius", "fasteners", "pins", "prestart", "startup", "vibration"}}
	if err := workbook.WriteForm(&form, o); err != nil {
		t.Fatal(err)
	}
	var in []workbook.Put
	put := func(name string, col, row int, v any) {
		in = append(in, workbook.Put{Name: name, Col: col, Row: row, Value: v})
	}
	for name, v := range map[string]string{"shimmed": "gear", "hubheight": "60", "shimstep": "0.0001", "slotalong": "1/2", "slotacross": "1/2",
		"flexspan": "120", "flexgear": "20", "flexheight": "30", "facegear": "10", "facemotor": "10", "motorfront": "6", "motorrear": "22", "motorstep": "0.001"} {
		put("geometry_"+name, 0, 0, v)
	}
	put("tower_fandiameter", 0, 0, "20 ft")
	for i, f := range [][2]string{{"12", "12"}, {"-12", "12"}, {"-12", "-12"}, {"12", "-12"}} {
		put("feet", 0, i, i+1)
		put("feet", 1, i, f[0])
		put("feet", 2, i, f[1])
	}
	put("limits", 3, 0, "1/4 in") // tilt
	for _, row := range []int{7, 8} {
		put("limits", 0, row, "range")
		put("limits", 3, row, "1/32 in")
	}
	for n := range 4 {
		cell := fmt.Sprintf("c%02d_", n+1)
		put(cell+"tilt_sense", 0, 0, c.sense)
		put(cell+"tilt_radius", 0, 0, "84")
		for i := range 8 {
			at := float64(c.first)/float64(measure.Degree) + float64(45*i)
			if c.direction == field.CounterClockwise {
				at = -at
			}
			drop := 0.25 * math.Cos((at-float64(90*n))*math.Pi/180)
			if c.sense == "up" {
				drop = -drop
			}
			put(cell+"tilt_asfound", 0, i, strconv.FormatFloat(10+drop, 'f', 5, 64))
			put(cell+"clearance_asfound", 0, i, "1/2")
		}
		right, left := "0.4", "0.6" // narrow on the 90° side, which is at the right hand of who looks to the motor
		if c.stood == "motor" {
			right, left = left, right
		}
		put(cell+"couplinggear_stood", 0, 0, c.stood)
		put(cell+"couplingmotor_stood", 0, 0, c.stood)
		for i, v := range []string{"1/2", right, "1/2", left} {
			put(cell+"couplinggear_asfound", 0, i, v)
			put(cell+"couplingmotor_asfound", 0, i, "1/2")
		}
	}
	return workbook.Fill(t, form.Bytes(), in)
}

// TestAnchorByEveryCrew: the reference case of the corrections from filled forms.
// Radius 84 in, feet at 12 in both ways, hub 60 in up, drop 0.50 in greater at the
// low side: the two feet there get 0.0714 in, the others none, the hub goes
// 0.1786 in from there and the gap there grows by as much (worked by hand:
// 0.25/84·24 and 60·0.25/84). Who counts the other way, begins elsewhere, reads
// up instead of down or stands at the other end gets the same moves.
func TestAnchorByEveryCrew(t *testing.T) {
	words, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	set, err := templates.RuleSet()
	if err != nil {
		t.Fatal(err)
	}
	rules := assess.Rules{Version: set.Version, Hash: set.Hash}
	for _, e := range set.Events {
		rules.Events = append(rules.Events, assess.Event(e))
	}
	raised := [][2]int{{1, 4}, {1, 2}, {2, 3}, {3, 4}}
	pushes := map[int]correct.MotorFeet{}
	for _, c := range []crew{
		{field.Clockwise, 0, "down", "gear"},
		{field.CounterClockwise, 0, "up", "motor"},
		{field.Clockwise, 135 * measure.Degree, "up", "gear"},
		{field.CounterClockwise, 90 * measure.Degree, "down", "motor"},
	} {
		r, faults, err := workbook.Read([]workbook.Input{{Name: "form.xlsx", Bytes: c.form(t)}}, words)
		if err != nil || len(faults) > 0 {
			t.Fatalf("%+v: %v %+v", c, err, faults)
		}
		for n, m := range correct.Correct(r, assess.Assess(r, rules), rules) {
			low := measure.Angle(90*n) * measure.Degree
			if len(m.Moves) != 2 || m.Moves[0].Kind != correct.KindShim || m.Moves[1].Kind != correct.KindSlide || m.Drive == nil {
				t.Fatalf("%+v, low at %d°: %+v, notes %+v", c, 90*n, m.Moves, m.Notes)
			}
			for _, f := range m.Moves[0].Feet {
				want := measure.Length(0)
				if f.Foot == raised[n][0] || f.Foot == raised[n][1] {
					want = 714 * measure.Inch / 10_000
				}
				if f.Change != want {
					t.Errorf("%+v, low at %d°: foot %d changes by %s, want %s", c, 90*n, f.Foot, f.Change.In(measure.UnitInch), want.In(measure.UnitInch))
				}
			}
			for _, x := range m.Center.Shimmed {
				grown := x.Value.Float(measure.UnitInch) - 0.5
				if want := 0.1786 * math.Cos((x.Degrees - low).Radians()); math.Abs(grown-want) > 0.0004 {
					t.Errorf("%+v, low at %d°: the gap at %d grows by %.4f in, want %.4f", c, 90*n, x.Position, grown, want)
				}
			}
			// Back toward the low side by 11/64 or 3/16 in.
			slide := [2]float64{m.Moves[1].Along.Float(measure.UnitInch), m.Moves[1].Front.Float(measure.UnitInch)}
			sin, cos := math.Sincos(low.Radians())
			if math.Abs(slide[0]-0.1786*cos) > 1.0/64 || math.Abs(slide[1]-0.1786*sin) > 1.0/64 {
				t.Errorf("%+v, low at %d°: slide %v", c, 90*n, slide)
			}
			if was, there := pushes[n]; there && was != m.Drive.Push {
				t.Errorf("%+v, low at %d°: motor pushed %+v, another crew's %+v", c, 90*n, m.Drive.Push, was)
			}
			pushes[n] = m.Drive.Push
		}
	}
	// Open at the side opposite by 0.2 in over 10 in: the shaft runs 0.02 · 120 in
	// = 2.4 in toward the 90° side, so the motor has to come away from there.
	for n, p := range pushes {
		if p.Front.Float(measure.UnitInch) > -2 || p.Rear.Float(measure.UnitInch) > -2 {
			t.Errorf("low at %d°: push %+v", 90*n, p)
		}
	}
}
