package compose

import (
	"reflect"
	"strings"
	"testing"
	"unicode"

	"asleft/internal/field"
)

// TestEveryEntryIsInTheAppendix: whatever was typed of readings, fasteners, pins,
// the list before the start and the start-up stands in the appendix with its cell.
func TestEveryEntryIsInTheAppendix(t *testing.T) {
	in := inputOf(t, wholePlan)
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	told := map[string]int{}
	for _, s := range b.Sections {
		if s.Key == "appendix" {
			for _, x := range printedIn(bookOf(s)) {
				for _, w := range strings.FieldsFunc(x.text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
					told[w]++
				}
			}
		}
	}
	// Addresses are the same on several sheets: each must stand as often as it is
	// used.
	seen, used := map[field.Ref]bool{}, map[string]int{}
	for _, c := range in.Record.Cells {
		for _, part := range []any{c.Fasteners, c.Pins, c.PreStart, c.StartUps, readingsIn(c)} {
			entriesIn(reflect.ValueOf(part), func(at field.Ref) {
				if !seen[at] {
					seen[at] = true
					used[at.Cell]++
				}
			})
		}
	}
	if len(seen) < 500 {
		t.Errorf("only %d entries looked at", len(seen))
	}
	for cell, n := range used {
		if told[cell] < n {
			t.Errorf("%d entries stand in a cell %s, the appendix names %d", n, cell, told[cell])
		}
	}
}

// readingsIn are the readings of a cell, without the heads of their rounds.
func readingsIn(c field.Cell) []any {
	var out []any
	for _, s := range c.Tilt.Rounds {
		out = append(out, s.Readings, s.Return, c.Tilt.Blade)
	}
	for _, list := range driveLengths(&c.Drive) {
		for _, s := range list {
			out = append(out, s.Readings, s.Return)
		}
	}
	for _, list := range driveSlopes(&c.Drive) {
		for _, s := range list {
			out = append(out, s.Readings, s.Return)
		}
	}
	for _, s := range c.Clearance.Rounds {
		out = append(out, s.Readings, s.Return, s.Blade)
	}
	for _, s := range c.Pitch.Rounds {
		out = append(out, s.Readings, s.Return)
	}
	return out
}

// entriesIn visits every cell of the workbook that was filled in.
func entriesIn(v reflect.Value, visit func(at field.Ref)) {
	switch v.Kind() {
	case reflect.Interface:
		entriesIn(v.Elem(), visit)
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			entriesIn(v.Index(i), visit)
		}
	case reflect.Struct:
		at, isEntry := v.FieldByName("At"), v.FieldByName("Text").IsValid() && v.FieldByName("Set").IsValid()
		if isEntry {
			if v.FieldByName("Set").Bool() {
				visit(at.Interface().(field.Ref))
			}
			return
		}
		for i := range v.NumField() {
			// A reason is typed in the cell of the reading, which has it, too.
			if f := v.Type().Field(i); f.IsExported() && f.Name != "Reason" {
				entriesIn(v.Field(i), visit)
			}
		}
	}
}
