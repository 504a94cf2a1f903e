package workbook

import (
	"reflect"
	"slices"
	"strings"

	"asleft/internal/field"
)

// slice merges lists, each by what its elements are known by.
func (m *merger) slice(a, b reflect.Value) {
	switch x := a.Addr().Interface().(type) {
	case *[]field.Cell:
		unite(m, x, rowsOf[field.Cell](b), func(c *field.Cell) string { return itoa(c.Number) })
	case *[]field.Limit:
		m.limits(x, rowsOf[field.Limit](b))
	case *[]field.Instrument:
		unite(m, x, rowsOf[field.Instrument](b), func(i *field.Instrument) string { return i.ID.Value })
	case *[]field.Person:
		unite(m, x, rowsOf[field.Person](b), func(p *field.Person) string { return p.Name.Value })
	case *[]field.Role:
		unite(m, x, rowsOf[field.Role](b), func(r *field.Role) string { return r.Title.Value })
	case *[]field.Waiver:
		unite(m, x, rowsOf[field.Waiver](b), func(w *field.Waiver) string { return w.Cell.Text + " " + w.Check.Value })
	case *[]field.Deviation:
		unite(m, x, rowsOf[field.Deviation](b), func(d *field.Deviation) string { return d.Number.Value })
	case *[]field.OpenItem:
		unite(m, x, rowsOf[field.OpenItem](b), func(o *field.OpenItem) string { return o.Number.Value + " " + o.Item.Value })
	case *[]field.Attachment:
		unite(m, x, rowsOf[field.Attachment](b), func(a *field.Attachment) string {
			return a.Kind.Value + " " + a.Cell.Text + " " + a.File.Value
		})
	case *[]field.Position:
		m.positions(x, rowsOf[field.Position](b))
	case *[]field.Foot:
		unite(m, x, rowsOf[field.Foot](b), func(f *field.Foot) string { return itoa(f.Number) })
	case *[]field.StockShim:
		unite(m, x, rowsOf[field.StockShim](b), func(s *field.StockShim) string { return s.Thickness.Value.String() })
	case *[]field.Head:
		heads(x, rowsOf[field.Head](b))
	default:
		m.cellSlice(a, b)
	}
}

// cellSlice merges the lists of a cell.
func (m *merger) cellSlice(a, b reflect.Value) {
	switch x := a.Addr().Interface().(type) {
	case *[]field.Series[field.Length]:
		rounds(m, x, rowsOf[field.Series[field.Length]](b), func(s *field.Series[field.Length]) string { return s.Round })
	case *[]field.Series[field.Angle]:
		rounds(m, x, rowsOf[field.Series[field.Angle]](b), func(s *field.Series[field.Angle]) string { return s.Round })
	case *[]field.Series[field.Slope]:
		rounds(m, x, rowsOf[field.Series[field.Slope]](b), func(s *field.Series[field.Slope]) string { return s.Round })
	case *[]field.ClearanceRound:
		rounds(m, x, rowsOf[field.ClearanceRound](b), func(s *field.ClearanceRound) string { return s.Round })
	case *[]field.Reading[field.Length]:
		unite(m, x, rowsOf[field.Reading[field.Length]](b), func(r *field.Reading[field.Length]) string { return itoa(r.Index) })
	case *[]field.Reading[field.Angle]:
		unite(m, x, rowsOf[field.Reading[field.Angle]](b), func(r *field.Reading[field.Angle]) string { return itoa(r.Index) })
	case *[]field.Reading[field.Slope]:
		unite(m, x, rowsOf[field.Reading[field.Slope]](b), func(r *field.Reading[field.Slope]) string { return itoa(r.Index) })
	case *[]field.Stack:
		unite(m, x, rowsOf[field.Stack](b), func(s *field.Stack) string { return itoa(s.Foot) })
	case *[]field.MotorStack:
		unite(m, x, rowsOf[field.MotorStack](b), func(s *field.MotorStack) string { return s.Place })
	case *[]field.Stuck:
		unite(m, x, rowsOf[field.Stuck](b), func(s *field.Stuck) string {
			return strings.Join([]string{s.What.Value, s.Way.Value, s.Feet.Value, s.Foot.Text}, " ")
		})
	case *[]field.Fasteners:
		unite(m, x, rowsOf[field.Fasteners](b), func(f *field.Fasteners) string { return f.Set.Value + " " + f.Name.Value })
	case *[]field.Pins:
		unite(m, x, rowsOf[field.Pins](b), func(p *field.Pins) string { return p.Where.Value })
	case *[]field.Item:
		unite(m, x, rowsOf[field.Item](b), func(i *field.Item) string { return i.Key })
	case *[]field.StartUp:
		unite(m, x, rowsOf[field.StartUp](b), func(*field.StartUp) string { return "" })
	case *[]field.Vibration:
		unite(m, x, rowsOf[field.Vibration](b), func(v *field.Vibration) string { return v.Point.Value + " " + v.Axis.Value })
	case *[]field.Move:
		unite(m, x, rowsOf[field.Move](b), moveKey)
	case *[]field.FootMove:
		unite(m, x, rowsOf[field.FootMove](b), func(f *field.FootMove) string { return itoa(f.Foot) })
	case *[]int:
		if len(*x) == 0 {
			*x = rowsOf[int](b)
		}
	}
}

// rounds merges the rounds of a block. A round that only one crew read keeps its
// own head: the other crew's default head says nothing of it.
func rounds[T any](m *merger, a *[]T, b []T, key func(*T) string) {
	for i := range b {
		j := slices.IndexFunc(*a, func(x T) bool { return key(&x) == key(&b[i]) })
		switch {
		case j < 0:
			*a = append(*a, b[i])
		case !anyReading(reflect.ValueOf(b[i])):
		case !anyReading(reflect.ValueOf((*a)[j])):
			(*a)[j] = b[i]
		default:
			m.value(reflect.ValueOf(&(*a)[j]).Elem(), reflect.ValueOf(&b[i]).Elem())
		}
	}
	order := func(x *T) int { return slices.Index(allRounds, key(x)) }
	slices.SortStableFunc(*a, func(x, y T) int { return order(&x) - order(&y) })
}

// anyReading tells whether anything but the head of a round was filled in.
func anyReading(series reflect.Value) bool {
	for _, name := range []string{"Accepted", "Return", "Blade"} {
		if f := series.FieldByName(name); f.IsValid() && f.FieldByName("Set").Bool() {
			return true
		}
	}
	readings := series.FieldByName("Readings")
	for i := range readings.Len() {
		r := readings.Index(i)
		if r.FieldByName("Value").FieldByName("Set").Bool() || r.FieldByName("Reason").FieldByName("Set").Bool() {
			return true
		}
	}
	return false
}

// heads keeps a cell's default heads of the first workbook that filled them:
// every block has taken what it needs from its own.
func heads(a *[]field.Head, b []field.Head) {
	if len(b) > len(*a) {
		*a, b = b, *a
	}
	for i := range b {
		if reflect.ValueOf((*a)[i]).IsZero() {
			(*a)[i] = b[i]
		}
	}
}

// limits merges rows; a starting value that nobody has touched is no row where
// the other workbook has one.
func (m *merger) limits(a *[]field.Limit, b []field.Limit) {
	untouched := func(l *field.Limit) bool { return l.Authority.Value == "start" && !l.AcceptedBy.Set }
	var rest []field.Limit
	for i := range b {
		j := slices.IndexFunc(*a, func(l field.Limit) bool { return l.Check == b[i].Check })
		switch {
		case j < 0 || untouched(&b[i]) == untouched(&(*a)[j]):
			rest = append(rest, b[i])
		case untouched(&(*a)[j]):
			(*a)[j] = b[i]
		}
	}
	unite(m, a, rest, func(l *field.Limit) string { return l.Check })
	slices.SortStableFunc(*a, func(x, y field.Limit) int {
		return slices.Index(checkKeys(), x.Check) - slices.Index(checkKeys(), y.Check)
	})
}

// positions are compared as places: a reading belongs to a number, so both
// crews must number the same places alike.
func (m *merger) positions(a *[]field.Position, b []field.Position) {
	if len(*a) == 0 {
		*a = b
	}
	if len(b) > 0 && len(b) != len(*a) {
		m.clash(b[0].At, itoa(len(b)), (*a)[0].At, itoa(len(*a)))
		return
	}
	for i, y := range b {
		if x := (*a)[i]; x.Degrees != y.Degrees {
			m.clash(y.At, degreeText(y.Degrees), x.At, degreeText(x.Degrees))
			return
		}
	}
}
