package compose

import (
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// TestFirstPassSaysWhatIsAskedFor: the set's own figure comes before the limits
// sheet, and a limit with one side says which.
func TestFirstPassSaysWhatIsAskedFor(t *testing.T) {
	m := &maker{sheet: "Limits"}
	g := reasonGroup{cells: []int{1}, checks: []string{assess.FastenerTorque}}
	g.first.Key, g.first.Check, g.first.Cell = "reason.firstpass", assess.FastenerTorque, 1
	for _, c := range []struct {
		own, least, most string
		want             string
	}{
		{"", "", "", "first pass below the final"},
		{"8", "5", "10", "first pass below the final by at least 8 lbf·ft"},
		{"", "5", "10", "first pass below the final by 5 lbf·ft to 10 lbf·ft"},
		{"", "5", "", "first pass below the final by at least 5 lbf·ft"},
		{"", "", "10", "first pass below the final by at most 10 lbf·ft"},
	} {
		in := inputOf(t, wholeGoodPlan)
		set := &in.Record.Cells[0].Fasteners[1]
		set.FirstUnder = torqueOrNone(m, c.own)
		g.first.Args = []assess.Arg{{Name: "item", Text: in.Assessment.Cells[0].Check(assess.FastenerTorque).StandingRound().Items[1].Key}}
		var limits []field.Limit
		for _, l := range in.Record.Limits {
			if l.Check != assess.FastenerTorque {
				limits = append(limits, l)
			}
		}
		l := field.Limit{Check: assess.FastenerTorque}
		l.Quantities.Min, l.Quantities.Max = torqueOrNone(m, c.least), torqueOrNone(m, c.most)
		in.Record.Limits = append(limits, l)
		b := newBook(&in, made{})
		if got := strings.ReplaceAll(b.askedBelow(g), "\u00a0", " "); got != c.want {
			t.Errorf("%v: %q", c, got)
		}
	}
}

func torqueOrNone(m *maker, s string) field.Quantity {
	if s == "" {
		return field.Quantity{}
	}
	return m.torque(s)
}

// TestEngineerIsNamed: the role always, the person where the sign-off sheet has
// one for it.
func TestEngineerIsNamed(t *testing.T) {
	m := &maker{sheet: "Sign-off"}
	for _, c := range []struct{ title, name, want string }{
		{"Contractor's engineer", "O. Garrick", "Take it to the contractor's engineer, O. Garrick."},
		{"contractor's engineer", "", "Take it to the contractor's engineer."},
		{"Witness", "P. Quill", "Take it to the contractor's engineer."},
	} {
		in := inputOf(t, goodPlan)
		in.Record.Roles = []field.Role{{Key: "1", Title: m.text(c.title)}}
		if c.name != "" {
			in.Record.Roles[0].Name = m.text(c.name)
		}
		if got := newBook(&in, made{}).toEngineer(); got != c.want {
			t.Errorf("%v: %q", c, got)
		}
	}
}

// TestAngleIsPrintedAsItIsSet: a tenth of a degree, and no tenth that it is not.
func TestAngleIsPrintedAsItIsSet(t *testing.T) {
	for v, want := range map[measure.Angle]string{
		measure.Degree * 25 / 2:     "12.5°",
		measure.Degree * 12:         "12.0°",
		measure.Degree * 1245 / 100: "12.45°",
	} {
		if got := angleText(v); got != want {
			t.Errorf("%s: got %s", want, got)
		}
	}
}
