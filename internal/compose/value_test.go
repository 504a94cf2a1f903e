package compose

import (
	"math"
	"strings"
	"testing"

	"asleft/internal/archive"
	"asleft/internal/data"
	"asleft/internal/measure"
)

// TestEveryPrintedValueIsInTheData follows the path of every printed value into
// the data file and compares what stands there with what is printed.
func TestEveryPrintedValueIsInTheData(t *testing.T) {
	for name, p := range map[string]plan{"ordinary": demoPlan, "good": goodPlan, "many": bigPlan, "whole job": wholePlan} {
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
		ids, texts := archive.Several(r.ID, r.Text)
		for i, id := range ids {
			if seen[id] {
				t.Errorf("%s is printed twice", id)
			}
			seen[id] = true
			v, ok := values.Find(id)
			if !ok {
				t.Errorf("%s is not in the data file", id)
				continue
			}
			if strings.HasSuffix(id, ".read") {
				readings++
			}
			if !agrees(texts[i], v) {
				t.Errorf("%s is printed as %q, the data file has %+v", id, texts[i], v)
			}
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
	case "in", "mm", "ft", "m", "cm", "mil":
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
	return agreesExactly(text, v)
}

// agreesExactly compares slopes, areas, and quantities: the number with the unit
// that is printed behind it, in the unit of the data file, to half the last digit
// printed. What holds no number, such as a verdict, is compared elsewhere.
func agreesExactly(text string, v data.Value) bool {
	text = strings.TrimPrefix(strings.ReplaceAll(text, "\u00a0", " "), "+")
	if v.Base == "" || v.Unit == "" {
		return v.Base == "" || strings.Contains(text, v.Text)
	}
	var value, step float64
	switch v.Unit {
	case "m/m":
		s, err := measure.ParseSlope(text, measure.UnitInch, measure.UnitFoot)
		one, errOne := measure.ParseSlope(lastDigit(text), measure.UnitInch, measure.UnitFoot)
		if err != nil || errOne != nil {
			return false
		}
		value, step = s.Float()*1e9, math.Abs(one.Float()*1e9)
	case "mm2":
		number, unit, _ := strings.Cut(text, " ")
		n, err := measure.ParseNumber(number)
		one, errOne := measure.ParseNumber(lastDigit(number))
		if err != nil || errOne != nil {
			return false
		}
		scale := map[string]float64{"mm²": 1e12, "in²": 25.4 * 25.4 * 1e12}[unit]
		value, step = n.Float()*scale, one.Float()*scale
	default:
		return agreesQuantity(text, v)
	}
	return math.Abs(value-float64(baseOf(v))) <= step/2+1
}

func agreesQuantity(text string, v data.Value) bool {
	if v.Unit == "1" {
		v.Unit = ""
	}
	for kind := measure.KindNone; kind <= measure.Time; kind++ {
		unit, err := measure.ParseQuantityUnit(v.Unit, kind)
		if v.Unit != "" && err != nil || v.Unit == "" && kind != measure.KindNone {
			continue
		}
		if kind == measure.KindNone {
			n, err := measure.ParseNumber(text)
			one, _ := measure.ParseNumber(lastDigit(text))
			return err == nil && math.Abs(n.Float()*1e6-float64(baseOf(v))) <= one.Float()*1e6/2+1
		}
		q, err := measure.ParseQuantity(text, kind, unit)
		if err != nil {
			return false
		}
		n, err := q.In(unit)
		one, errOne := measure.ParseNumber(lastDigit(strings.TrimRight(text, " %°ΩMGabcdefghijklmnopqrstuvwxyzVAFC·/NH-")))
		return err == nil && errOne == nil && math.Abs(n.Float()*1e6-float64(baseOf(v))) <= one.Float()*1e6/2+1
	}
	return false
}

// lastDigit is the text with every digit 0 but the last before its unit, which is
// 1: what one step of the last digit is. Fractions are exact; their step is that
// of the whole.
func lastDigit(text string) string {
	end := strings.LastIndexAny(text, "0123456789")
	for i, r := range text {
		if strings.ContainsRune(" °%", r) && strings.ContainsAny(text[:i], "0123456789") {
			end = strings.LastIndexAny(text[:i], "0123456789")
			break
		}
	}
	var out strings.Builder
	for i, r := range text {
		switch {
		case i == end:
			out.WriteRune('1')
		case i < end && r >= '0' && r <= '9':
			out.WriteRune('0')
		case i < end && (r == '−' || r == '-'):
		default:
			out.WriteRune(r)
		}
	}
	return out.String()
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
		for _, list := range driveLengths(&c.Drive) {
			for _, s := range list {
				for _, r := range s.Readings {
					n += one(r.Value.Set)
				}
			}
		}
		for _, list := range driveSlopes(&c.Drive) {
			for _, s := range list {
				for _, r := range s.Readings {
					n += one(r.Value.Set)
				}
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
