package workbook

import (
	"reflect"
	"strings"
	"testing"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// two reads the small form filled in two ways, by two crews.
func two(t *testing.T, first, second func(*sheetEditor)) (field.Record, []field.Fault) {
	t.Helper()
	record, faults, err := Read([]Input{{"fan.xlsx", edit(t, blankSmall(t), first)}, {"drive.xlsx", edit(t, blankSmall(t), second)}}, english(t))
	if err != nil {
		t.Fatal(err)
	}
	return record, faults
}

// One crew reads the fan, another one the drive line of the same cell.
func TestUnitesBlocks(t *testing.T) {
	r, faults := two(t, func(e *sheetEditor) {
		e.set("project_plant", "Larkmoor Works (invented)")
		e.set("people", "Tor Brandvold", "Pia Wexcombe")
		e.setAt("limits", 3, 0, "3/4 in")
		e.setAt("limits", 6, 0, "contract")
		e.setAt("limits", 10, 0, "Ines Halloway")
		e.set("c01_asfound_head", "2026-03-09", nil, nil, nil, "Tor Brandvold")
		e.set("c01_tilt_asfound", "14", "14-1/16", "14", "14")
		e.set("c01_moves", "blade.pitch")
		e.setAt("c01_moves", 2, 0, "2026-03-09")
		e.set("schedule", "gear.holddown")
		e.setAt("schedule", 8, 0, "400")
	}, func(e *sheetEditor) {
		e.set("project_owner", "Larkmoor Works (invented)")
		e.set("people", "Pia Wexcombe", "Odell Garrick")
		e.set("c01_asfound_head", "2026-03-10", nil, nil, nil, "Pia Wexcombe")
		e.set("c01_gearlevel_asfound", "0.009", "-0.003")
		e.set("c01_moves", "gear.shim")
		e.setAt("c01_moves", 2, 0, "2026-03-10")
		e.setAt("c01_fasteners_set", 0, 0, "gear.holddown")
		e.setAt("c01_fasteners_final", 0, 0, "400")
		e.set("c02_tilt_asleft", "14", "14", "14", "14")
		e.set("instruments", "W-1")
		e.set("instrumentsout", "W-1")
		e.setAt("instrumentsout", 2, 0, "2026-03-20")
	})
	for _, f := range faults {
		t.Errorf("%s %s %q %s", f.Kind, f.At, f.Read, f.Detail)
	}
	if len(r.Files) != 2 || r.Files[1].Name != "drive.xlsx" || r.Project.Plant.Value == "" || r.Project.Owner.Value == "" || len(r.People) != 3 {
		t.Errorf("files %d, project %+v, people %d", len(r.Files), r.Project.Owner, len(r.People))
	}
	c := r.Cells[0]
	if len(r.Cells) != 2 || len(c.Tilt.Rounds) != 2 {
		t.Fatalf("cells %d, rounds %d", len(r.Cells), len(c.Tilt.Rounds))
	}
	tilt, level := c.Tilt.Rounds[0], c.Drive.GearLevel.Rounds[0]
	if !tilt.Readings[3].Value.Set || tilt.Head.ReadBy.Value != "Tor Brandvold" || tilt.At.File != 0 {
		t.Errorf("tilt %+v", tilt)
	}
	// Each block keeps the head that its own crew gave.
	if !level.Readings[1].Value.Set || level.Head.ReadBy.Value != "Pia Wexcombe" || level.Readings[0].Value.At.File != 1 {
		t.Errorf("level %+v", level)
	}
	if len(c.Moves) != 3 || c.Moves[2].Event.Value != "instrument.out" || len(r.Cells[1].Moves) != 1 {
		t.Errorf("moves %+v", c.Moves)
	}
	if len(c.Fasteners) != 1 || !c.Fasteners[0].Required.Set || !c.Fasteners[0].Final.Set {
		t.Errorf("fasteners %+v", c.Fasteners)
	}
	if !r.Cells[1].Tilt.Rounds[1].Readings[0].Value.Set {
		t.Error("cell 2 lost")
	}
	if l := r.Limits[0]; l.Check != "tilt" || l.Max.Value != measure.Inch*3/4 || l.Authority.Value != "contract" {
		t.Errorf("a limit lost against an untouched starting value: %+v", l)
	}
}

// What two workbooks say differently is told with both places.
func TestClashes(t *testing.T) {
	for _, c := range []struct {
		what          string
		first, second func(*sheetEditor)
		name          string
		col, row      int
		detail        string
	}{
		{"readings", func(e *sheetEditor) { e.set("c01_tilt_asleft", "14", "14") },
			func(e *sheetEditor) { e.set("c01_tilt_asleft", "14.0", "14-1/8") }, "c01_tilt_asleft", 0, 1, "“14” (fan.xlsx, Cell 1!"},
		{"plants", func(e *sheetEditor) { e.set("project_plant", "A") }, func(e *sheetEditor) { e.set("project_plant", "B") }, "project_plant", 0, 0, "Project!B"},
		{"limits", func(e *sheetEditor) { e.setAt("limits", 3, 1, "1 in") }, func(e *sheetEditor) { e.setAt("limits", 3, 1, "25 mm") }, "limits", 3, 1, "1 in"},
		{"units", func(*sheetEditor) {}, func(e *sheetEditor) { e.set("project_units", "mm") }, "project_units", 0, 0, "in"},
		{"slopes", func(e *sheetEditor) { e.set("c01_gearlevel_asleft", "0.009") },
			func(e *sheetEditor) { e.set("c01_gearlevel_asleft", "0.0091 in/ft") }, "c01_gearlevel_asleft", 0, 0, "0.009"},
		{"torques", func(e *sheetEditor) { e.set("c01_fasteners_set", "hub.bolts"); e.set("c01_fasteners_final", "60") },
			func(e *sheetEditor) { e.set("c01_fasteners_set", "hub.bolts"); e.set("c01_fasteners_final", "61") }, "c01_fasteners_final", 0, 0, "60"},
		{"runs", func(e *sheetEditor) { e.set("c01_startup_water", "on") }, func(e *sheetEditor) { e.set("c01_startup_water", "off") }, "c01_startup_water", 0, 0, "on"},
		{"lines of the list", func(e *sheetEditor) { e.set("c01_prestart", "yes") }, func(e *sheetEditor) { e.set("c01_prestart", "no") }, "c01_prestart", 0, 0, "yes"},
		{"geometry", func(e *sheetEditor) { e.set("geometry_ratio", "13.6") }, func(e *sheetEditor) { e.set("geometry_ratio", "9") }, "geometry_ratio", 0, 0, "13.6"},
		{"motor stacks", func(e *sheetEditor) { e.setAt("c01_motorstacks", 1, 2, "0.06") },
			func(e *sheetEditor) { e.setAt("c01_motorstacks", 1, 2, "0.07") }, "c01_motorstacks", 1, 2, "0.06"},
		{"what is stuck", func(e *sheetEditor) {
			e.set("c01_stuck", "gear")
			e.setAt("c01_stuck", 1, 0, "toward")
			e.setAt("c01_stuck", 5, 0, "a pipe")
		},
			func(e *sheetEditor) {
				e.set("c01_stuck", "gear")
				e.setAt("c01_stuck", 1, 0, "toward")
				e.setAt("c01_stuck", 5, 0, "a beam")
			}, "c01_stuck", 5, 0, "a pipe"},
		{"stacks", func(e *sheetEditor) { e.set("c01_stacks", 1); e.setAt("c01_stacks", 2, 0, "0.06") },
			func(e *sheetEditor) { e.set("c01_stacks", 1); e.setAt("c01_stacks", 2, 0, "0.07") }, "c01_stacks", 2, 0, "0.06"},
	} {
		t.Run(c.what, func(t *testing.T) {
			place := field.Ref{File: 1}
			_, faults := two(t, c.first, func(e *sheetEditor) {
				c.second(e)
				place.Sheet, place.Cell = e.cell(c.name, c.col, c.row)
			})
			if len(faults) != 1 || faults[0].Kind != Clash || faults[0].At != place || !strings.Contains(faults[0].Detail, c.detail) {
				t.Errorf("want a clash at %s, got %+v", place, faults)
			}
			// The same in both is none, whatever it is.
			if _, faults := two(t, c.first, c.first); len(faults) > 0 {
				t.Errorf("the same twice: %+v", faults)
			}
		})
	}
}

// The same value in another unit is the same.
func TestSameInOtherUnitsIsNoClash(t *testing.T) {
	_, faults := two(t, func(e *sheetEditor) { e.setAt("limits", 3, 1, "1/2 in") }, func(e *sheetEditor) { e.setAt("limits", 3, 1, "12.7 mm") })
	if len(faults) > 0 {
		t.Errorf("%+v", faults)
	}
}

// Places that two crews number differently cannot be united.
func TestOtherPositionsClash(t *testing.T) {
	turned := small
	turned.First = 90 * measure.Degree
	more := small
	more.Positions = 6
	for _, o := range []FormOptions{turned, more} {
		_, faults, err := Read([]Input{{"a.xlsx", blankSmall(t)}, {"b.xlsx", blank(t, o)}}, english(t))
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, f := range faults {
			found = found || f.Kind == Clash
		}
		if !found {
			t.Errorf("%+v: %+v", o, faults)
		}
	}
}

// A form for one cell of many joins the others; a row may name a cell of
// another workbook.
func TestOneWorkbookACell(t *testing.T) {
	one, three := small, small
	one.Cells, three.Cells, three.FirstCell = 1, 1, 3
	a := edit(t, blank(t, one), func(e *sheetEditor) { e.set("openitems", "1"); e.setAt("openitems", 3, 0, 3) })
	b := edit(t, blank(t, three), func(e *sheetEditor) { e.set("c03_name", "CT-2/3") })
	r, faults, err := Read([]Input{{"b.xlsx", b}, {"a.xlsx", a}}, english(t))
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	if len(r.Cells) != 2 || r.Cells[0].Number != 1 || r.Cells[1].Name.Value != "CT-2/3" {
		t.Errorf("cells %+v", r.Cells)
	}
	if _, faults := mustRead(t, a); len(faults) != 1 || faults[0].Kind != NoSuchCell {
		t.Errorf("alone: %+v", faults)
	}
}

// Every list of the record is united by what its rows are known by.
func TestEveryListIsUnited(t *testing.T) {
	seen := map[reflect.Type]bool{}
	var walk func(reflect.Type)
	walk = func(x reflect.Type) {
		if seen[x] || x.PkgPath() != "asleft/internal/field" && x.Kind() == reflect.Struct {
			return
		}
		seen[x] = true
		switch x.Kind() {
		case reflect.Slice:
			a, b := reflect.New(x), reflect.New(x)
			b.Elem().Set(reflect.MakeSlice(x, 1, 1))
			(&merger{}).slice(a.Elem(), b.Elem())
			if a.Elem().Len() == 0 {
				t.Errorf("%s is not united", x)
			}
			walk(x.Elem())
		case reflect.Array:
			walk(x.Elem())
		case reflect.Struct:
			for i := range x.NumField() {
				if f := x.Field(i); f.Name != "Files" {
					walk(f.Type)
				}
			}
		}
	}
	walk(reflect.TypeFor[field.Record]())
	if len(seen) < 40 {
		t.Errorf("only %d types", len(seen))
	}
}
