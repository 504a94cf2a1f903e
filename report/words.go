package report

import (
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// Decimals of computed values, as on the pages: finer than any reading here,
// and coarse enough to be read.
const (
	inchDecimals       = 3
	millimeterDecimals = 2
	angleDecimals      = 2
	slopeDecimals      = 3
	quantityDecimals   = 1
)

// coded are the arguments whose text is a key with words of its own.
var coded = map[string]bool{"check": true, "round": true, "event": true}

// code puts a code of the assessment into words.
func (j *Job) code(c assess.Code) string {
	var pairs []string
	for _, a := range c.Args {
		pairs = append(pairs, a.Name, j.arg(a))
	}
	return j.words.Say(c.Key, pairs...)
}

func (j *Job) arg(a assess.Arg) string {
	switch {
	case a.Amount != nil:
		return j.amount(*a.Amount)
	case a.Number != nil:
		return strconv.Itoa(*a.Number)
	case coded[a.Name]:
		return j.words.Say(a.Name + "." + a.Text)
	case a.Name == "item":
		return j.item(a.Text)
	}
	return a.Text
}

// item names a line that is judged by itself: a key has words, a name was typed.
func (j *Job) item(key string) string {
	for _, below := range []string{"check.", "prestart."} {
		if j.words.Has(below + key) {
			return j.words.Say(below + key)
		}
	}
	return key
}

// amount prints a value with its unit.
func (j *Job) amount(a assess.Amount) string { return j.print(a, 0) }

// print prints a value with that many decimals more than usual.
func (j *Job) print(a assess.Amount, more int) string {
	switch a.Kind {
	case assess.KindAngle:
		return measure.Angle(a.N).Format(angleDecimals+more) + "°"
	case assess.KindRatio:
		return j.slope(measure.Slope{Rise: measure.Length(a.N), Run: measure.Millimeter}, more)
	case assess.KindSlope:
		return j.slope(measure.Slope{Rise: measure.Length(a.N), Run: measure.Meter}, more)
	case assess.KindQuantity:
		text := measure.Slope{Rise: measure.Length(a.N), Run: measure.Millimeter}.Number().Format(quantityDecimals + more)
		return strings.TrimSpace(text + " " + a.Unit.String())
	}
	decimals := inchDecimals
	if j.units == measure.UnitMillimeter {
		decimals = millimeterDecimals
	}
	return measure.Length(a.N).Format(j.units, decimals+more) + " " + j.units.String()
}

// slope prints a slope in in/ft or mm/m.
func (j *Job) slope(s measure.Slope, more int) string {
	run := measure.UnitFoot
	if j.units == measure.UnitMillimeter {
		run = measure.UnitMeter
	}
	return s.Format(j.units, run, slopeDecimals+more) + " " + j.units.String() + "/" + run.String()
}

// maxMore bounds the decimals added to a margin; a nanometer shows at 8 in
// inches.
const maxMore = 6

// margin prints a distance to a limit with its sign. One that is not zero never
// prints as zero: decimals are added until it shows.
func (j *Job) margin(a assess.Amount) string {
	text := j.amount(a)
	for more := 1; a.N != 0 && !strings.ContainsAny(text, "123456789") && more <= maxMore; more++ {
		text = j.print(a, more)
	}
	if a.N > 0 {
		return "+" + text
	}
	return text
}

// limit prints the values of a limit as typed: "1/2 in ± 1/8 in", "≤ 1 in".
func (j *Job) limit(l *field.Limit) string {
	if l == nil {
		return ""
	}
	var parts []string
	nominal, tolerance := typed(l.Nominal), typed(l.Tolerance)
	if l.AngleNominal.Set || l.AngleTol.Set {
		nominal, tolerance = typedAngle(l.AngleNominal), typedAngle(l.AngleTol)
	}
	for _, p := range []struct{ sign, text string }{
		{"≥ ", typed(l.Min)}, {"", nominal}, {"± ", tolerance}, {"≤ ", typed(l.Max)},
	} {
		if p.text != "" {
			parts = append(parts, p.sign+p.text)
		}
	}
	return strings.Join(parts, " ")
}

// typed is a length as typed, with the unit that was meant behind it where none
// was typed.
func typed(l field.Length) string {
	if !l.Set {
		return ""
	}
	if _, _, err := measure.ParseLength(l.Text, measure.UnitNone); err != nil {
		return l.Text + " " + l.Unit.String()
	}
	return l.Text
}

func typedAngle(a field.Angle) string {
	if !a.Set {
		return ""
	}
	if strings.Trim(a.Text, "0123456789.,-") == "" {
		return a.Text + "°"
	}
	return a.Text
}
