package data

import (
	"strconv"

	"asleft/internal/field"
)

// row collects entries in order; a blank cell of the workbook is left out.
type row struct{ r Row }

func (r *row) add(key string, set bool, e Entry) *row {
	if set {
		r.r = append(r.r, Member[Entry]{key, e})
	}
	return r
}

func (r *row) text(key string, t field.Text) *row {
	return r.add(key, t.Set, entry(t.Value, t.Text, t.At))
}

func (r *row) count(key string, c field.Count) *row {
	return r.add(key, c.Set, entry(strconv.Itoa(c.Value), c.Text, c.At))
}

func (r *row) flag(key string, f field.Flag) *row {
	word := "no"
	if f.Value {
		word = "yes"
	}
	return r.add(key, f.Set, entry(word, f.Text, f.At))
}

func (r *row) date(key string, d field.Date) *row {
	return r.add(key, d.Set, entry(d.Value.String(), d.Text, d.At))
}

func (r *row) clock(key string, c field.Clock) *row {
	return r.add(key, c.Set, entry(c.Value.String(), c.Text, c.At))
}

func (r *row) length(key string, l field.Length) *row {
	return r.add(key, l.Set, lengthEntry(l))
}

func (r *row) angle(key string, a field.Angle) *row {
	return r.add(key, a.Set, angleEntry(a))
}

func (r *row) slope(key string, s field.Slope) *row {
	return r.add(key, s.Set, slopeEntry(s))
}

func (r *row) quantity(key string, q field.Quantity) *row {
	return r.add(key, q.Set, quantityEntry(q))
}

func (r *row) number(key string, n field.Number) *row {
	return r.add(key, n.Set, numberEntry(n))
}

// done returns the row, empty rather than nil.
func (r *row) done() Row {
	if r.r == nil {
		return Row{}
	}
	return r.r
}

// rows makes a row of each element.
func rows[T any](list []T, one func(T) Row) []Row {
	out := make([]Row, 0, len(list))
	for _, x := range list {
		out = append(out, one(x))
	}
	return out
}

// keyedRows makes a row of each element, under the key of the same index.
func keyedRows[T any](list []T, keys []string, one func(*T) Row) Keyed[Row] {
	var out Keyed[Row]
	for i := range list {
		out = append(out, Member[Row]{keys[i], one(&list[i])})
	}
	return out
}
