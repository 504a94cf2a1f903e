package plot

import (
	"fmt"
	"math"
	"strconv"
)

// clearanceOf is a clearance figure of n evenly spaced positions: a fan 0.11 in
// off center toward 210°, with a little out of round.
func clearanceOf(n int) PolarClearance {
	left := Series{Name: "as left", Role: Standing}
	found := Series{Name: "as found", Role: Earlier}
	for i := range n {
		at := 360 * float64(i) / float64(n)
		toward := math.Cos((at - 210) * math.Pi / 180)
		wave := 0.02 * math.Cos(3*at*math.Pi/180)
		found.Readings = append(found.Readings, reading(at, 0.52-0.2*toward+wave))
		left.Readings = append(left.Readings, reading(at, 0.51-0.11*toward+wave))
	}
	lo, _ := extremes(left.Readings)
	least := left.Readings[lo]
	return PolarClearance{
		Frame:     Frame{Title: "Tip clearance, cell 3", Note: "Gaps drawn 150 times larger than the fan. Values in inches."},
		Series:    []Series{found, left},
		Band:      &Band{Lo: 0.375, Hi: 0.625, LoLabel: "3/8", HiLabel: "5/8", Word: "limits 3/8 to 5/8 in"},
		Nominal:   &Level{Value: 0.5, Label: "nominal 1/2 in"},
		Worst:     &Callout{At: least.At, Text: "least " + least.Label + " in at " + least.Tick},
		Motor:     "motor",
		TipPath:   "path of the blade tip",
		Marks:     MarkWords{Near: "near limit", Outside: "outside", Absent: "not read"},
		FanRadius: 84,
	}
}

func reading(at, value float64) Reading {
	return Reading{
		At: at, Tick: strconv.FormatFloat(math.Round(at*10)/10, 'f', -1, 64) + "°",
		Value: value, Label: strconv.FormatFloat(value, 'f', 2, 64),
	}
}

// clearanceBad has readings outside, near and blocked, a second earlier round
// and a move.
func clearanceBad() PolarClearance {
	p := clearanceOf(12)
	rs := p.Series[1].Readings
	for i := range rs {
		toward := math.Cos((rs[i].At - 300) * math.Pi / 180)
		rs[i] = reading(rs[i].At, 0.5-0.16*toward)
		switch v := rs[i].Value; {
		case v < 0.375 || v > 0.625:
			rs[i].Mark = Outside
		case v < 0.43 || v > 0.57:
			rs[i].Mark = Near
		}
	}
	rs[0] = Reading{At: 0, Tick: "0°", Label: "blocked", Absent: true}
	p.Series = append(p.Series, Series{Name: "predicted", Role: Predicted, Readings: []Reading{}})
	for i := range 12 {
		p.Series[2].Readings = append(p.Series[2].Readings, reading(30*float64(i), 0.5))
	}
	p.Worst = &Callout{At: 300, Text: "least 0.34 in at 300°"}
	p.Move = &Arrow{Dx: -0.08, Dy: 0.139, Label: "move 0.16 in"}
	return p
}

func compact(p PolarClearance, title string) PolarClearance {
	p.Frame = Frame{Compact: true, Title: title}
	return p
}

// tiltOf is a tilt figure: low side at 60°, a quarter of an inch either way.
func tiltOf(n int) PolarTilt {
	s := Series{Name: "as left", Role: Standing}
	old := Series{Name: "as found", Role: Earlier}
	for i := range n {
		at := 360 * float64(i) / float64(n)
		v := 0.25*math.Cos((at-60)*math.Pi/180) + 0.03*math.Cos(2*at*math.Pi/180)
		r := reading(at, v)
		r.Label = fmt.Sprintf("%+.2f", v)
		s.Readings = append(s.Readings, r)
		old.Readings = append(old.Readings, reading(at, 0.5*math.Cos((at-80)*math.Pi/180)))
	}
	return PolarTilt{
		Frame:  Frame{Title: "Fan tilt, cell 3", Note: "Heights drawn 25 times larger than the fan. Inches from the mean, + is lower."},
		Series: []Series{old, s},
		Fit:    &Harmonic{Amplitude: 0.25, At: 60},
		Low:    "low side 0.25 in at 60°", High: "high side at 240°",
		Mean: "mean height", FitWord: "plane that fits best",
		Limit: "highest to lowest 0.53 in, limit 1 in",
		Motor: "motor", Marks: MarkWords{Near: "near limit", Outside: "outside", Absent: "not read"},
		FanRadius: 84,
	}
}

// barsOf is a tip radius chart of n blades against a window that floats.
func barsOf(n int) Bars {
	found := BarSeries{Name: "as found", Role: Earlier}
	left := BarSeries{Name: "as left", Role: Standing}
	b := Bars{
		Frame:      Frame{Title: "Tip radius, cell 3"},
		ColumnWord: "blade",
		Axis:       "gap to the wall at one point, in",
		Band:       &Band{Lo: 0.405, Hi: 0.655, LoLabel: "0.405", HiLabel: "0.655", Word: "window of ± 1/8 in"},
		Nominal:    &Level{Value: 0.53, Label: "0.53 middle"},
		Notes:      []ColumnNote{{Column: 2, Text: "longest"}, {Column: 5, Text: "0.04 in outside at blade 6"}},
		Marks:      MarkWords{Near: "near limit", Outside: "outside", Absent: "not read"},
	}
	for i := range n {
		b.Columns = append(b.Columns, strconv.Itoa(i+1))
		v := 0.53 + 0.1*math.Sin(float64(i)*2.4)
		m := Within
		switch i {
		case 2:
			v, m = 0.41, Near
		case 5:
			v, m = 0.695, Outside
		}
		left.Values = append(left.Values, BarValue{Value: v, Label: fmt.Sprintf("%.2f", v), Mark: m})
		found.Values = append(found.Values, BarValue{Value: v + 0.06*math.Cos(float64(i)), Label: "x"})
	}
	b.Series = []BarSeries{found, left}
	return b
}

// planOf is the reference sketch with n positions and as many blades as given.
func planOf(n, blades int) PlanSketch {
	p := PlanSketch{
		Frame:  Frame{Title: "Where 0° is: the cell from above"},
		Blades: blades,
		Motor:  "motor", DriveShaft: "drive shaft", GearReducer: "gear reducer", Cylinder: "fan cylinder",
		Side90: "the 90° side is the river side", Side270: "the 270° side is the road side",
		Toward: "toward the motor", Away: "away from the motor",
		Turn: "counted clockwise", X: "x", Y: "y",
	}
	for i := range n {
		at := 360 * float64(i) / float64(n)
		p.Positions = append(p.Positions, PlanPosition{At: at, Number: strconv.Itoa(i + 1), Tick: reading(at, 0).Tick})
	}
	return p
}

// driveOf is a drive line that rises toward the motor and bends to the 270° side.
func driveOf() DriveLine {
	return DriveLine{
		Frame: Frame{Note: "Angles drawn 40 times larger than they are."},
		Side: DriveView{Name: "from the river side", Upper: "up",
			Gear:  Bend{Slope: 0.002, Label: "0.024 in/ft, open at the bottom"},
			Motor: Bend{Slope: -0.003, Label: "0.036 in/ft, open at the top", Mark: Outside}},
		Above: DriveView{Name: "from above", Upper: "road side", Lower: "river side",
			Gear:  Bend{Slope: 0.001, Label: "0.012 in/ft, open toward the river side", Mark: Near},
			Motor: Bend{Slope: 0.0005, Label: "0.006 in/ft, open toward the river side"}},
		GearReducer: "gear reducer", DriveShaft: "drive shaft", Motor: "motor",
	}
}

// driveStraight is true on paper, and one coupling was not read.
func driveStraight() DriveLine {
	d := driveOf()
	d.Side.Gear, d.Side.Motor = Bend{Label: "0.000 in/ft"}, Bend{Absent: true, Label: "not read"}
	d.Above.Gear, d.Above.Motor = Bend{Label: "0.000 in/ft"}, Bend{Absent: true, Label: "not read"}
	return d
}

// gallery is every figure that the goldens keep, by file name.
func gallery() map[string]Figure {
	single := clearanceOf(12)
	single.Series = single.Series[1:]
	fractions := clearanceOf(16)
	for i := range fractions.Series[1].Readings {
		fractions.Series[1].Readings[i].Label = "1-13/32"
	}
	smallTilt := tiltOf(8)
	smallTilt.Frame = Frame{Compact: true, Title: "Cell 4"}
	return map[string]Figure{
		"clearance_12":          clearanceOf(12),
		"clearance_8":           clearanceOf(8),
		"clearance_16_wide":     fractions,
		"clearance_24":          clearanceOf(24),
		"clearance_36":          clearanceOf(36),
		"clearance_one_round":   single,
		"clearance_outside":     clearanceBad(),
		"clearance_compact":     compact(clearanceOf(12), "Cell 3"),
		"clearance_compact_bad": compact(clearanceBad(), "Cell 5"),
		"tilt_12":               tiltOf(12),
		"tilt_compact":          smallTilt,
		"tip_radius_8":          barsOf(8),
		"tip_radius_16":         barsOf(16),
		"drive_line":            driveOf(),
		"drive_line_straight":   driveStraight(),
		"plan_12":               planOf(12, 8),
		"plan_36":               planOf(36, 6),
	}
}
