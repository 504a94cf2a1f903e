package data

import (
	"slices"
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"

	"github.com/google/go-cmp/cmp"
)

// differences of the small record and one that change makes of it, a line each.
func differences(t *testing.T, change func(*Input)) string {
	t.Helper()
	old, in := smallDocument(t, small()), small()
	change(&in)
	list, err := Compare(old, smallDocument(t, in))
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for i := range list {
		d := &list[i]
		line := string(d.Kind) + " " + d.Path()
		if d.Name != "" {
			line += " [" + d.Name + "]"
		}
		lines = append(lines, line+": "+d.Old.String()+" -> "+d.New.String())
	}
	return strings.Join(lines, "\n")
}

// judgedClearance is the clearance of the only cell.
func judgedClearance(in *Input) *assess.Check {
	checks := in.Assessment.Cells[0].Checks
	return &checks[slices.IndexFunc(checks, func(c assess.Check) bool { return c.Key == assess.Clearance })]
}

func smallDocument(t *testing.T, in Input) *Document {
	t.Helper()
	d, err := document(in)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestCompareNamesWhatChanged(t *testing.T) {
	instrument := func(id string) field.Instrument { return field.Instrument{ID: text(id, "B3")} }
	for _, c := range []struct {
		name   string
		change func(*Input)
		want   string
	}{
		{"nothing", func(*Input) {}, ""},
		{"reading", func(in *Input) {
			in.Record.Cells[0].Clearance.Rounds[0].Readings[0].Value = length("1/2", measure.UnitInch, "D11")
		}, "reading cells.3.checks.clearance.rounds.asleft.readings.1.read: 0.46875 in (15/32) -> 0.5 in (1/2)"},
		{"reading gone", func(in *Input) {
			in.Record.Cells[0].Clearance.Rounds[0].Return = field.Length{}
		}, "reading cells.3.checks.clearance.rounds.asleft.return: 0.46875 in (15/32) -> "},
		{"moved to another cell", func(in *Input) {
			in.Record.Cells[0].Clearance.Rounds[0].Readings[0].Value.At = ref("Cell 3", "Z99")
		}, ""},
		{"limit", func(in *Input) {
			in.Record.Limits[0].Tolerance = length("1/4 in", measure.UnitInch, "D4")
		}, "limit limits.clearance.tolerance: 0.125 in (1/8 in) -> 0.25 in (1/4 in)"},
		{"verdict", func(in *Input) {
			judgedClearance(in).Verdict = "within"
		}, "verdict cells.3.checks.clearance.verdict: recheck -> within"},
		{"result", func(in *Input) {
			judgedClearance(in).Rounds[0].Results[0].Index = 2
		}, "computed cells.3.checks.clearance.rounds.asleft.results.least: -0.5 in #4 -> -0.5 in #2"},
		{"typed", func(in *Input) {
			in.Record.Tower.Tag = text("CT-2", "C5")
		}, "typed tower.tag: CT-1 -> CT-2"},
		{"program", func(in *Input) { in.Program = "0.2.0" }, "maker program: 0.1.0 -> 0.2.0"},
		{"row put in front", func(in *Input) {
			in.Record.Instruments = append([]field.Instrument{instrument("A-9")}, in.Record.Instruments...)
		}, "typed instruments.0.id [A-9]:  -> A-9"},
		{"row taken out", func(in *Input) { in.Record.Roles = nil },
			"typed roles.0.key [1]: 1 -> \ntyped roles.0.title [1]: Contractor -> "},
		{"two of one name", func(in *Input) {
			in.Record.Instruments = append(in.Record.Instruments, instrument("W-1"))
		}, "typed instruments.1.id [W-1]:  -> W-1"},
		{"code", func(in *Input) {
			n := 2
			judgedClearance(in).Rounds[0].Notes[0].Args[0].Number = &n
		}, "computed cells.3.checks.clearance.rounds.asleft.notes.0.code:  -> note.blocked\n" +
			"computed cells.3.checks.clearance.rounds.asleft.notes.0.args.n.number:  -> 2\n" +
			"computed cells.3.checks.clearance.rounds.asleft.notes.0.code: note.blocked -> \n" +
			"computed cells.3.checks.clearance.rounds.asleft.notes.0.args.n.number: 0 -> "},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, differences(t, c.change)); diff != "" {
				t.Errorf("want -, got +\n%s", diff)
			}
		})
	}
}

func TestCompareReadsOtherVersions(t *testing.T) {
	old := `{"schema":"asleft/1","limits":{"tilt":{"max":{"value":"1","unit":"in","base":25400000}}},"cells":{}}`
	now := `{"schema":"asleft/1","limits":{"tilt":{"max":{"value":"2","unit":"in","base":50800000}}},"cells":{"3":{"later":[1,{"x":true}]}}}`
	list, err := CompareFiles([]byte(old), []byte(now))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, d := range list {
		got = append(got, d.Path()+" "+d.Old.String()+" "+d.New.String())
	}
	want := []string{"limits.tilt.max 1 in 2 in", "cells.3.later.0  1", "cells.3.later.1.x  true"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestCompareRefuses(t *testing.T) {
	for name, file := range map[string]string{
		"no JSON": "%PDF", "list": "[1]", "value": "3", "two values": "{}{}", "key twice": `{"a":1,"a":2}`,
		"cut": `{"a":`, "deep": strings.Repeat(`{"a":`, 1000) + "1" + strings.Repeat("}", 1000),
	} {
		if _, err := CompareFiles([]byte(file), []byte("{}")); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}

func FuzzCompare(f *testing.F) {
	f.Add([]byte(`{"cells":{"1":{"checks":{"tilt":{"verdict":"within"}}}}}`), []byte(`{"moves":[{"sequence":{"value":"1"}}]}`))
	f.Add([]byte(`{"cells":{"":null,"1":[]}}`), []byte(`{"cells":{"1":{"value":"x"}},"limits":3}`))
	f.Fuzz(func(t *testing.T, a, b []byte) {
		there, err := CompareFiles(a, b)
		if err != nil {
			return
		}
		back, err := CompareFiles(b, a)
		if err != nil || len(there) != len(back) {
			t.Errorf("%d differences there, %d back (%v)", len(there), len(back), err)
		}
		if same, err := CompareFiles(a, a); err != nil || len(same) != 0 {
			t.Errorf("%d differences from itself (%v)", len(same), err)
		}
	})
}
