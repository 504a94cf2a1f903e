package workbook

import (
	"bytes"
	"regexp"
	"slices"
	"testing"

	"asleft/internal/field"
)

// TestDriveFaults puts one thing that cannot be read on the drive sheet, the
// geometry, the schedule or the limits, and asks for exactly one fault at
// exactly its cell.
func TestDriveFaults(t *testing.T) {
	put := func(name string, v any) func(*sheetEditor) { return func(e *sheetEditor) { e.set(name, v) } }
	cell := func(name string, col, row int, v any) func(*sheetEditor) {
		return func(e *sheetEditor) { e.setAt(name, col, row, v) }
	}
	at := func(kind string, name, detail string) expectedFault {
		return expectedFault{kind: field.FaultKind(kind), name: name, detail: detail}
	}
	move := func(event string, values map[int]any) func(*sheetEditor) {
		return func(e *sheetEditor) {
			e.set("c01_moves", event)
			for col, v := range values {
				e.setAt("c01_moves", col, 0, v)
			}
		}
	}
	moveAt := func(kind string, col int, detail string) expectedFault {
		return expectedFault{field.FaultKind(kind), "c01_moves", col, 0, detail}
	}
	for _, c := range []struct {
		what   string
		change func(*sheetEditor)
		want   expectedFault
	}{
		{"a slope that is a length", put("c01_gearlevel_asleft", "0.009 in"), at("unit", "c01_gearlevel_asleft", "")},
		{"a slope that is nonsense", put("c01_gearlevel_asleft", "level"), at("notnumber", "c01_gearlevel_asleft", "")},
		{"a steep slope", put("c01_gearlevel_asleft", "4°"), at("toolarge", "c01_gearlevel_asleft", "")},
		{"a date in a slope", put("c01_gearlevel_asleft", "46281"), at("serial", "c01_gearlevel_asleft", "9/16")},
		{"sides without a standing spot", cell("c01_couplinggear_asleft", 0, 1, "0.372"), at("nostanding", "c01_couplinggear_stood", "")},
		{"a blocked side without one", cell("c01_couplinggear_asfound_reasons", 0, 3, "beam"), at("nostanding", "c01_couplinggear_stood", "")},
		{"a standing spot that is none", put("c01_couplinggear_stood", "on the deck"), at("choice", "c01_couplinggear_stood", "behind the motor")},
		{"a frequency in another unit", put("c01_startup_hertz", "60 psi"), at("unit", "c01_startup_hertz", "psi")},
		{"no torque", put("c01_startup_hertz", "fast"), at("notnumber", "c01_startup_hertz", "")},
		{"no number", put("geometry_ratio", "13.6:1"), at("notnumber", "geometry_ratio", "")},
		{"inches a second of no detector", func(e *sheetEditor) {
			e.set("c01_vibration", "Motor")
			e.setAt("c01_vibration", 4, 0, "0.12 in/s")
		}, expectedFault{TwoKinds, "c01_vibration", 4, 0, "rms"}},
		{"a set point of no detector", put("c01_startup_setpoint", "0.35 in/s"), at("twokinds", "c01_startup_setpoint", "peak")},
		{"another detector than the unit's", func(e *sheetEditor) {
			e.set("c01_vibration", "Motor")
			e.setAt("c01_vibration", 2, 0, "peak")
			e.setAt("c01_vibration", 4, 0, "0.12 in/s rms")
		}, expectedFault{WrongUnit, "c01_vibration", 4, 0, ""}},
		{"a set that is not named", put("c01_fasteners_set", "other fasteners"), at("required", "c01_fasteners_set", "")},
		{"a set that is none", put("c01_fasteners_final", "60"), at("required", "c01_fasteners_set", "")},
		{"a scheduled set that is none", cell("schedule", 2, 0, 8), at("required", "schedule", "")},
		{"a set scheduled twice", func(e *sheetEditor) { e.set("schedule", "guard bolts", "hub bolts", "guard bolts") },
			expectedFault{TwiceSet, "schedule", 0, 2, ""}},
		{"a foot without a number", cell("feet", 1, 0, "12"), at("required", "feet", "")},
		{"foot 0", put("feet", 0), at("nosuchindex", "feet", "")},
		{"a foot twice", func(e *sheetEditor) { e.set("feet", 1, 1) }, expectedFault{TwiceFoot, "feet", 0, 1, ""}},
		{"a stack twice", func(e *sheetEditor) { e.set("c01_stacks", 2, 2) }, expectedFault{TwiceFoot, "c01_stacks", 0, 1, ""}},
		{"a stack of no foot", func(e *sheetEditor) { e.set("feet", 1, 2, 3); e.set("c01_stacks", 4) }, at("nosuchindex", "c01_stacks", "3")},
		{"stuck, and not which way", put("c01_stuck", "gear"), at("required", "c01_stuck", "")},
		{"stuck at no foot", func(e *sheetEditor) {
			e.set("feet", 1, 2, 3)
			e.set("geometry_shimmed", "gear")
			e.set("c01_stuck", "gear")
			e.setAt("c01_stuck", 1, 0, "shims")
			e.setAt("c01_stuck", 4, 0, 4)
		}, expectedFault{NoSuchIndex, "c01_stuck", 4, 0, "3"}},
		{"stuck at an end and a foot", func(e *sheetEditor) {
			e.set("c01_stuck", "motor")
			e.setAt("c01_stuck", 1, 0, "away")
			e.setAt("c01_stuck", 3, 0, "front")
			e.setAt("c01_stuck", 4, 0, 1)
		}, expectedFault{NotThisMove, "c01_stuck", 4, 0, "front"}},
		{"a shim of no thickness", put("stock", "thin"), at("notnumber", "stock", "")},
		{"an instrument without a name", cell("instrumentsout", 2, 0, "2026-03-20"), at("required", "instrumentsout", "")},
		{"amounts of no move", cell("c01_moves", 9, 0, "0.062"), at("nomove", "c01_moves", "")},
		{"a date without a move", func(e *sheetEditor) {
			e.set("c01_moves", "gear.slide")
			e.setAt("c01_moves", 2, 1, "2026-03-09")
		}, expectedFault{NoMove, "c01_moves", 0, 1, ""}},
		{"a stack of no foot moved", move("gear.shim", map[int]any{10: "0.062"}), at("required", "c01_moves", "")},
		{"feet that are no numbers", move("gear.shim", map[int]any{8: "front"}), moveAt("notnumbers", 8, "front")},
		{"a foot twice in one line", move("gear.shim", map[int]any{8: "1, 1"}), moveAt("twicenumber", 8, "1")},
		{"a stack under a blade", move("blade.move", map[int]any{8: "1", 9: "0.1"}), moveAt("notthismove", 9, "")},
		{"a slide of the hub", move("hub.open", map[int]any{11: "1/8"}), moveAt("notthismove", 11, "")},
		{"feet of a torque pass", move("holddown.torque", map[int]any{8: "1, 2"}), moveAt("notthismove", 8, "")},
		{"a blade that there is not", move("blade.move", map[int]any{8: "5"}), at("nosuchindex", "c01_moves", "4")},
		{"a foot that there is not", func(e *sheetEditor) {
			e.set("geometry_shimmed", "gear")
			e.set("feet", 1, 2, 3)
			move("gear.shim", map[int]any{8: "4"})(e)
		}, at("nosuchindex", "c01_moves", "3")},
		{"a foot twice in one move", func(e *sheetEditor) {
			move("gear.shim", map[int]any{8: "1"})(e)
			e.setAt("c01_moves", 8, 1, "2, 1")
		}, expectedFault{TwiceFoot, "c01_moves", 8, 1, ""}},
		{"slid twice in one move", func(e *sheetEditor) {
			move("gear.slide", map[int]any{11: "1/8"})(e)
			e.setAt("c01_moves", 11, 1, "1/8")
		}, expectedFault{NotThisMove, "c01_moves", 11, 1, ""}},
		{"a coupling's limit that is a torque", cell("limits", 3, 7, "10 lbf·ft"), expectedFault{WrongUnit, "limits", 3, 7, ""}},
		{"a criterion where there is none", cell("limits", 0, 9, "total angle"), expectedFault{Closed, "limits", 0, 9, ""}},
		{"a resolution that is none", cell("instruments", 4, 0, "fine"), expectedFault{NotNumber, "instruments", 4, 0, ""}},
		{"another run's head", cell("c01_startup_columns", 1, 0, "Run x"), expectedFault{WrongLabel, "c01_startup_columns", 1, 0, ""}},
		{"a run twice", cell("c01_startup_columns", 1, 0, "Run 1"), expectedFault{TwiceLabel, "c01_startup_columns", 1, 0, ""}},
		{"another line's label", cell("c01_startup_volts12", -1, 0, "Volts"), expectedFault{WrongLabel, "c01_startup_volts12", -1, 0, "1-2"}},
		{"a value in a column without a head", func(e *sheetEditor) {
			e.must(e.InsertCols("Cell 1 work", "C", 1))
			e.setAt("c01_fasteners_final", 1, 0, "60")
		}, expectedFault{NoLabel, "c01_fasteners_final", 1, 0, ""}},
		{"a line of the list missing", cell("c01_prestart_rows", 0, 1, ""), expectedFault{MissingLabel, "c01_prestart_rows", 0, 0, "tools counted out"}},
		{"a clock position missing", cell("c01_couplinggear_clock", 0, 1, ""), expectedFault{MissingLabel, "c01_couplinggear_clock", 0, 0, "Right hand"}},
	} {
		t.Run(c.what, func(t *testing.T) { oneFault(t, c.change, c.want) })
	}
}

// Lines over columns that were bent are told by name.
func TestBentColumns(t *testing.T) {
	b := patch(t, blankSmall(t), "xl/workbook.xml", func(xml []byte) []byte {
		for _, r := range []struct{ old, new string }{
			{`(<definedName [^>]*name="c01_startup_hertz"[^>]*>)[^<]*`, `$1'Cell 1 drive'!$$C$$5:$$D$$5`},
			{`(<definedName [^>]*name="c01_fasteners_columns"[^>]*>)[^<]*`, `$1'Cell 1 work'!$$C$$5:$$D$$6`},
		} {
			xml = regexp.MustCompile(r.old).ReplaceAll(xml, []byte(r.new))
		}
		return bytes.ReplaceAll(xml, []byte(`name="c01_pins"`), []byte(`name="c01_pin"`))
	})
	_, faults := mustRead(t, b)
	var got []string
	for _, f := range faults {
		got = append(got, string(f.Kind)+" "+f.Expected)
	}
	// The list of dowel pins still stands on its sheet; its name is what is missing.
	slices.Sort(got)
	if !slices.Equal(got, []string{"noname name", "shape onerow", "shape samecolumns"}) {
		t.Errorf("faults %q", got)
	}
}
