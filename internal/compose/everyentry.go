package compose

import (
	"reflect"

	"asleft/internal/field"
)

// typedCell is a cell of a workbook that something was typed in.
type typedCell struct {
	name string // of the field
	text string
	at   field.Ref
}

// typedCells are all of the tower's own sheets, or of a cell of the tower, each
// once, in the order of the record.
func typedCells(list ...any) []typedCell {
	var out []typedCell
	seen := map[field.Ref]bool{}
	for _, x := range list {
		eachCell("", reflect.ValueOf(x), func(c typedCell) {
			if !seen[c.at] {
				seen[c.at] = true
				out = append(out, c)
			}
		})
	}
	return out
}

// eachCell visits the entries below a value of the record.
func eachCell(name string, v reflect.Value, visit func(typedCell)) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			eachCell(name, v.Elem(), visit)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			eachCell(name, v.Index(i), visit)
		}
	case reflect.Struct:
		set, text := v.FieldByName("Set"), v.FieldByName("Text")
		if set.IsValid() && text.IsValid() {
			if at, ok := v.FieldByName("At").Interface().(field.Ref); ok && set.Bool() && at.Sheet != "" {
				visit(typedCell{name, text.String(), at})
			}
			return
		}
		for i := range v.NumField() {
			switch v.Field(i).Kind() {
			case reflect.Pointer, reflect.Interface, reflect.Slice, reflect.Array, reflect.Struct:
				if f := v.Type().Field(i); f.IsExported() {
					eachCell(f.Name, v.Field(i), visit)
				}
			}
		}
	}
}
