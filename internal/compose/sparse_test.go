package compose

import (
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// TestSparseRecords: what was left blank is said to be blank; nothing panics,
// nothing is left out, nothing is invented.
func TestSparseRecords(t *testing.T) {
	change := map[string]func(*field.Record){
		"nothing at all": func(r *field.Record) { *r = field.Record{} },
		"no cells":       func(r *field.Record) { r.Cells = nil },
		"blank cell":     func(r *field.Record) { r.Cells[0] = field.Cell{Number: 1} },
		"no cell in the package": func(r *field.Record) {
			for i := range r.Cells {
				r.Cells[i].InPackage = field.Flag{Set: true}
			}
		},
		"no project":     func(r *field.Record) { r.Project = field.Project{} },
		"no tower":       func(r *field.Record) { r.Tower = field.Tower{} },
		"no limits":      func(r *field.Record) { r.Limits = nil },
		"no registers":   func(r *field.Record) { r.Instruments, r.People, r.Roles = nil, nil, nil },
		"no positions":   func(r *field.Record) { r.Tower.Positions = nil },
		"no sense":       func(r *field.Record) { r.Cells[0].Tilt.Sense = field.Text{} },
		"no radius":      func(r *field.Record) { r.Cells[0].Tilt.Radius = field.Length{} },
		"one round only": func(r *field.Record) { r.Cells[0].Clearance.Rounds = r.Cells[0].Clearance.Rounds[:1] },
		"as found accepted": func(r *field.Record) {
			c := &r.Cells[0].Clearance
			c.Rounds = c.Rounds[:1]
			c.Rounds[0].Accepted = field.Flag{Value: true, Set: true}
		},
		"every reading blank": func(r *field.Record) {
			for i := range r.Cells[0].Clearance.Rounds {
				for j := range r.Cells[0].Clearance.Rounds[i].Readings {
					r.Cells[0].Clearance.Rounds[i].Readings[j].Value = field.Length{}
				}
			}
		},
		"every reading blocked": func(r *field.Record) {
			for i := range r.Cells[0].TipRadius.Rounds {
				for j := range r.Cells[0].TipRadius.Rounds[i].Readings {
					x := &r.Cells[0].TipRadius.Rounds[i].Readings[j]
					x.Value, x.Reason = field.Length{}, field.Text{Value: "door shut", Set: true}
				}
			}
		},
		"mixed units": func(r *field.Record) {
			m := &maker{sheet: "Cell 1"}
			r.Cells[0].Track.Rounds[0].Readings[2].Value = m.length("203,2 mm")
		},
	}
	for name, f := range change {
		t.Run(name, func(t *testing.T) {
			for _, p := range []plan{demoPlan, wholePlan} {
				in := inputOf(t, p)
				f(&in.Record)
				in.Sources = in.Sources[:len(in.Record.Files)]
				in.Assessment = assess.Assess(in.Record, in.Rules)
				placed(t, in)
			}
		})
	}
}

// TestMixedUnitsKeepTheirUnit: where readings of a check were meant in different
// units, each is printed with its own.
func TestMixedUnitsKeepTheirUnit(t *testing.T) {
	in := inputOf(t, demoPlan)
	m := &maker{sheet: "Cell 1"}
	in.Record.Cells[0].Track.Rounds[0].Readings[2].Value = m.length("203,2 mm")
	in.Assessment = assess.Assess(in.Record, testRules)
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		"cells.1.checks.track.rounds.asfound.readings.3.read": "203,2\u00a0mm",
		"cells.2.checks.track.rounds.asfound.readings.2.read": "8",
	}
	for _, r := range runsIn(b) {
		if w, ok := want[r.ID]; ok && r.Text != w {
			t.Errorf("%s: printed %q, expected %q", r.ID, r.Text, w)
		}
	}
	if got := bareNumber("203,2 mm", m.length("1 mm").Unit); got != "203,2" {
		t.Errorf("bare number %q", got)
	}
}

// TestBareNumber takes off a unit that stands in the column's head, and nothing
// else.
func TestBareNumber(t *testing.T) {
	m := &maker{}
	in, mm := m.length("1 in").Unit, m.length("1 mm").Unit
	for _, c := range []struct {
		typed string
		mm    bool
		want  string
	}{
		{"1/2", false, "1/2"}, {"1/2 in", false, "1/2"}, {`1-1/4"`, false, "1-1/4"}, {"0.50", false, "0.50"},
		{"½ in", false, "½"}, {"1½", false, "1½"}, {"12,7 mm", true, "12,7"}, {"12.7mm", true, "12.7"},
		{"12.7 mm", false, "12.7 mm"}, {"3 ft 2 in", false, "3 ft 2 in"}, {"-0.04", false, "-0.04"}, {"", false, ""},
	} {
		unit := in
		if c.mm {
			unit = mm
		}
		if got := bareNumber(c.typed, unit); got != c.want {
			t.Errorf("%q: %q, expected %q", c.typed, got, c.want)
		}
	}
}

// TestTypedWithUnit: a unit is added where none was typed, and never twice.
func TestTypedWithUnit(t *testing.T) {
	m := &maker{}
	for typed, want := range map[string]string{
		"1/2": "1/2\u00a0in", "1/2 in": "1/2\u00a0in", `1"`: "1\u00a0in", "3 ft 2 in": "3 ft 2 in", `3' 2"`: `3' 2"`,
	} {
		if got := typedWithUnit(typed, m.length("1 in").Unit); got != want {
			t.Errorf("%q: %q, expected %q", typed, got, want)
		}
	}
}

// TestMarginNeverPrintsAsZero unless it is: one nanometer outside is outside.
func TestMarginNeverPrintsAsZero(t *testing.T) {
	in, _ := (&Input{}).units()
	for n, want := range map[int64]string{0: "0.000", -1: "−0.00000004", 1: "+0.00000004", 12700: "+0.001", -25400: "−0.001", 3175000: "+0.125"} {
		if got := margin(assess.Amount{Kind: assess.KindLength, N: n}, in); got != want {
			t.Errorf("%d nm: %q, expected %q", n, got, want)
		}
	}
}
