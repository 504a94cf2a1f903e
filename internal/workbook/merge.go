package workbook

import (
	"reflect"
	"slices"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// merger unites the records of several workbooks of one tower. What only one of
// them says is taken; what two say differently is a clash, told with both
// places.
type merger struct {
	files  []field.File
	faults []field.Fault
}

// merge adds b to a. Both are whole records, each read by itself.
func (m *merger) merge(a, b *field.Record) {
	a.Files = append(a.Files, b.Files...)
	m.files = a.Files
	b.Files = nil
	m.value(reflect.ValueOf(a).Elem(), reflect.ValueOf(b).Elem())
	slices.SortStableFunc(a.Cells, func(x, y field.Cell) int { return x.Number - y.Number })
	for i := range a.Roles {
		a.Roles[i].Key = itoa(i + 1)
	}
}

// value merges two values of one type.
func (m *merger) value(a, b reflect.Value) {
	switch {
	case isEntry(a):
		m.entry(a, b)
	case a.Type() == reflect.TypeFor[field.Ref]():
		if a.IsZero() {
			a.Set(b)
		}
	case a.Kind() == reflect.Struct:
		for i := range a.NumField() {
			m.value(a.Field(i), b.Field(i))
		}
	case a.Kind() == reflect.Array:
		for i := range a.Len() {
			m.value(a.Index(i), b.Index(i))
		}
	case a.Kind() == reflect.Slice:
		m.slice(a, b)
	case a.IsZero(): // a key, which is the same in both, or in one of them not there
		a.Set(b)
	}
}

// isEntry tells whether a value is a typed box.
func isEntry(v reflect.Value) bool {
	if v.Kind() != reflect.Struct {
		return false
	}
	set := v.FieldByName("Set")
	return set.IsValid() && set.Kind() == reflect.Bool && v.FieldByName("At").IsValid()
}

// entry merges two boxes.
func (m *merger) entry(a, b reflect.Value) {
	switch {
	case !b.FieldByName("Set").Bool():
	case !a.FieldByName("Set").Bool():
		a.Set(b)
	case !sameValue(a.FieldByName("Value").Interface(), b.FieldByName("Value").Interface()):
		m.clash(b.FieldByName("At").Interface().(field.Ref), b.FieldByName("Text").String(),
			a.FieldByName("At").Interface().(field.Ref), a.FieldByName("Text").String())
	}
}

// sameValue compares what was meant, not how it was typed.
func sameValue(a, b any) bool {
	switch x := a.(type) {
	case measure.Number:
		return x.Equal(b.(measure.Number))
	case measure.Quantity:
		return x.Equal(b.(measure.Quantity))
	case measure.Slope:
		return x.Cmp(b.(measure.Slope)) == 0
	}
	return reflect.DeepEqual(a, b)
}

// clash records what two workbooks say differently.
func (m *merger) clash(at field.Ref, read string, other field.Ref, said string) {
	m.faults = append(m.faults, field.Fault{Kind: Clash, At: at, Read: shown(read), Expected: "agree",
		Detail: "“" + shown(said) + "” (" + m.fileName(other.File) + ", " + other.String() + ")"})
}

func (m *merger) fileName(n int) string {
	if n < 0 || n >= len(m.files) {
		return ""
	}
	return m.files[n].Name
}

// moveKey is what one move is known by: two crews log different moves of one
// cell.
func moveKey(m *field.Move) string {
	return m.Event.Value + " " + m.Date.Value.String() + " " + m.Time.Text + " " + m.Sequence.Text + " " + m.Instrument.Value
}

func rowsOf[T any](v reflect.Value) []T { return v.Interface().([]T) }

// unite merges elements of one key and takes over the others. Of several with
// one key in a list, the first meets the first, and so on.
func unite[T any](m *merger, a *[]T, b []T, key func(*T) string) {
	type place struct {
		key string
		nth int
	}
	at, seen := map[place]int{}, map[string]int{}
	for i := range *a {
		k := key(&(*a)[i])
		at[place{k, seen[k]}] = i
		seen[k]++
	}
	seen = map[string]int{}
	for i := range b {
		k := key(&b[i])
		j, both := at[place{k, seen[k]}]
		seen[k]++
		if !both {
			*a = append(*a, b[i])
			continue
		}
		m.value(reflect.ValueOf(&(*a)[j]).Elem(), reflect.ValueOf(&b[i]).Elem())
	}
}
