package workbook

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"asleft/internal/field"
)

// leaf is an entry of a record that is set, as text.
type leaf struct{ typed, value string }

// leaves are all entries of a record, by the cell that each came from. Several
// entries may come from one cell. Positions have no entry and are under "".
func leaves(r field.Record) map[string][]leaf {
	out := map[string][]leaf{}
	for _, p := range r.Tower.Positions {
		out[""] = append(out[""], leaf{fmt.Sprint(p.Number), fmt.Sprint(p.Degrees)})
	}
	r.Files = nil
	collect(reflect.ValueOf(r), "", out)
	for at := range out {
		slices.SortFunc(out[at], func(a, b leaf) int { return strings.Compare(a.typed+a.value, b.typed+b.value) })
		out[at] = slices.Compact(out[at])
	}
	return out
}

// collect walks a record; unit is that of the length around an entry.
func collect(v reflect.Value, unit string, out map[string][]leaf) {
	switch v.Kind() {
	case reflect.Slice:
		for i := range v.Len() {
			collect(v.Index(i), "", out)
		}
	case reflect.Struct:
		if at := v.FieldByName("At"); at.IsValid() && v.FieldByName("Set").IsValid() && v.Type().Field(0).Name == "Value" {
			if v.FieldByName("Set").Bool() {
				where := at.Interface().(field.Ref).String()
				out[where] = append(out[where], leaf{v.FieldByName("Text").String(), fmt.Sprint(v.FieldByName("Value").Interface()) + unit})
			}
			return
		}
		if u := v.FieldByName("Unit"); u.IsValid() {
			unit = " " + fmt.Sprint(u.Interface())
		}
		for i := range v.NumField() {
			collect(v.Field(i), unit, out)
		}
	}
}

// differing are the cells from which two records took different things.
func differing(a, b map[string][]leaf) []string {
	var out []string
	for at, l := range a {
		if !slices.Equal(l, b[at]) {
			out = append(out, at)
		}
	}
	for at := range b {
		if _, both := a[at]; !both {
			out = append(out, at)
		}
	}
	slices.Sort(out)
	return out
}
