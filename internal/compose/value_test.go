package compose

import (
	"strings"
	"testing"

	"asleft/internal/data"
	"asleft/internal/measure"
)

// TestEveryPrintedValueIsInTheData follows the path of every printed value into
// the data file and compares what stands there with what is printed.
func TestEveryPrintedValueIsInTheData(t *testing.T) {
	for name, p := range map[string]plan{"ordinary": demoPlan, "good": goodPlan, "many": bigPlan} {
		for _, unit := range []measure.Unit{measure.UnitInch, measure.UnitMillimeter} {
			t.Run(name+" "+unit.String(), func(t *testing.T) {
				in := inputOf(t, p)
				in.Options.Units = unit
				checkValues(t, in)
			})
		}
	}
}

func checkValues(t *testing.T, in Input) {
	t.Helper()
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	file, err := Data(in)
	if err != nil {
		t.Fatal(err)
	}
	values, err := data.Flatten(file)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	readings := 0
	for _, r := range runsIn(b) {
		if r.ID == "" {
			continue
		}
		if seen[r.ID] {
			t.Errorf("%s is printed twice", r.ID)
		}
		seen[r.ID] = true
		v, ok := values.Find(r.ID)
		if !ok {
			t.Errorf("%s is not in the data file", r.ID)
			continue
		}
		if strings.HasSuffix(r.ID, ".read") {
			readings++
		}
		if !agrees(r.Text, v) {
			t.Errorf("%s is printed as %q, the data file has %+v", r.ID, r.Text, v)
		}
	}
	if want := readingsOf(in); readings != want {
		t.Errorf("%d readings printed, %d in the record", readings, want)
	}
}

// agrees tells whether a printed text is the value, rounded to what is printed.
// Verdicts are words of the language and are compared elsewhere.
func agrees(text string, v data.Value) bool {
	switch v.Unit {
	case "in", "mm":
		unit, _ := measure.ParseUnit(v.Unit)
		l, _, err := measure.ParseLength(strings.TrimPrefix(text, "+"), unit)
		step := measure.Inch / 1000
		if unit == measure.UnitMillimeter || strings.Contains(text, "mm") {
			step = measure.Millimeter / 100
		}
		return err == nil && 2*(l-baseOf(v)).Abs() <= step
	case "deg":
		a, err := measure.ParseAngle(strings.TrimPrefix(text, "+"))
		off := (a - measure.Angle(baseOf(v))).Abs()
		// Directions are printed to the degree, angles to the hundredth.
		return err == nil && (2*off <= measure.Degree/100 || !strings.Contains(text, ".") && 2*off <= measure.Degree)
	}
	return true
}

func baseOf(v data.Value) measure.Length {
	var n int64
	neg := false
	for _, r := range v.Base {
		if r == '-' {
			neg = true
			continue
		}
		n = 10*n + int64(r-'0')
	}
	if neg {
		n = -n
	}
	return measure.Length(n)
}

// readingsOf counts the readings of a record, straight from its blocks.
func readingsOf(in Input) int {
	n := 0
	for _, c := range in.Record.Cells {
		for _, s := range c.Tilt.Rounds {
			for _, r := range s.Readings {
				n += one(r.Value.Set)
			}
		}
		for _, s := range c.Track.Rounds {
			for _, r := range s.Readings {
				n += one(r.Value.Set)
			}
		}
		for _, s := range c.TipRadius.Rounds {
			for _, r := range s.Readings {
				n += one(r.Value.Set)
			}
		}
		for _, s := range c.Clearance.Rounds {
			for _, r := range s.Readings {
				n += one(r.Value.Set)
			}
		}
		for _, s := range c.Pitch.Rounds {
			for _, r := range s.Readings {
				n += one(r.Value.Set)
			}
		}
	}
	return n
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}
