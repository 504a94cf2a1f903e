package data

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// form is how a JSON file of ours is set. All have a newline at the end. Package
// encoding/json would go over nested [Keyed] objects once for each level, which
// took as long as drawing the pages.
type form int

// Forms.
const (
	// lined has one member a line, not set in: that would be a sixth of the
	// compressed file, and whatever shows JSON to people sets it in.
	lined form = iota
	// setIn has a space before a line for each level; it is printed.
	setIn
	// packed is lined, with an object of plain values on one line and no space
	// after a colon: a fortieth of the compressed file.
	packed
)

// write writes a file of ours.
func write(v any, f form) ([]byte, error) {
	w := &writer{layouts: map[reflect.Type][]member{}, form: f}
	if err := w.value(reflect.ValueOf(v)); err != nil {
		return nil, fmt.Errorf("data file: %w", err)
	}
	w.b = append(w.b, '\n')
	return bytes.Join(append(w.full, w.b), nil), nil
}

type writer struct {
	full    [][]byte // pieces that are written, so that a great file is copied once
	b       []byte   // the piece being written
	depth   int
	form    form
	flat    int // more than none in an object that is written on one line
	layouts map[reflect.Type][]member
}

// member is a field of a struct as it stands in the file.
type member struct {
	name  string
	index []int
	omit  bool // where empty
}

// keyed is any [Keyed].
type keyed interface{ keyed() }

func (Keyed[T]) keyed() {}

var keyedType = reflect.TypeFor[keyed]()

func (w *writer) value(v reflect.Value) error {
	switch v.Kind() {
	case reflect.Pointer:
		return w.value(v.Elem())
	case reflect.Struct:
		return w.object(v)
	case reflect.Slice:
		if v.Type().Implements(keyedType) {
			return w.members(v)
		}
		return w.list(v)
	case reflect.String:
		return w.text(v.String())
	case reflect.Int, reflect.Int64:
		w.b = strconv.AppendInt(w.b, v.Int(), 10)
	case reflect.Bool:
		w.b = strconv.AppendBool(w.b, v.Bool())
	default:
		return fmt.Errorf("no form for %s", v.Type())
	}
	return nil
}

func (w *writer) object(v reflect.Value) error {
	if w.form == packed && w.isFlat(v) {
		w.flat++
		defer func() { w.flat-- }()
	}
	w.open('{')
	n := 0
	for _, m := range w.layout(v.Type()) {
		f := v.FieldByIndex(m.index)
		if m.omit && empty(f) {
			continue
		}
		w.next(&n)
		if err := w.name(m.name); err != nil {
			return err
		}
		if err := w.value(f); err != nil {
			return err
		}
	}
	w.close('}', n)
	return nil
}

// isFlat tells whether all members that an object has are plain values.
func (w *writer) isFlat(v reflect.Value) bool {
	for _, m := range w.layout(v.Type()) {
		f := v.FieldByIndex(m.index)
		if m.omit && empty(f) {
			continue
		}
		if f.Kind() == reflect.Pointer {
			f = f.Elem()
		}
		switch f.Kind() {
		case reflect.String, reflect.Int, reflect.Int64, reflect.Bool:
		default:
			return false
		}
	}
	return true
}

// members writes a [Keyed]. A key that stands twice, which would make a path
// mean two things, is an error.
func (w *writer) members(v reflect.Value) error {
	seen := make(map[string]bool, v.Len())
	w.open('{')
	n := 0
	for i := range v.Len() {
		m := v.Index(i)
		key := m.Field(0).String()
		if err := checkKey(key, seen); err != nil {
			return err
		}
		w.next(&n)
		if err := w.name(key); err != nil {
			return err
		}
		if err := w.value(m.Field(1)); err != nil {
			return fmt.Errorf("%s: %w", key, err)
		}
	}
	w.close('}', n)
	return nil
}

func (w *writer) list(v reflect.Value) error {
	if v.IsNil() {
		w.b = append(w.b, "null"...)
		return nil
	}
	w.open('[')
	n := 0
	for i := range v.Len() {
		w.next(&n)
		if err := w.value(v.Index(i)); err != nil {
			return err
		}
	}
	w.close(']', n)
	return nil
}

func (w *writer) name(key string) error {
	if err := w.text(key); err != nil {
		return err
	}
	w.b = append(w.b, ':')
	if w.form != packed {
		w.b = append(w.b, ' ')
	}
	return nil
}

// text writes a string. What needs escaping is left to encoding/json; "<" and
// the like stay as they are.
func (w *writer) text(s string) error {
	if plain(s) {
		w.b = append(append(append(w.b, '"'), s...), '"')
		return nil
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		return err
	}
	w.b = append(w.b, bytes.TrimRight(b.Bytes(), "\n")...)
	return nil
}

// plain tells whether a string stands for itself between quotes.
func plain(s string) bool {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c > '~' || c == '"' || c == '\\' {
			return false
		}
	}
	return true
}

func (w *writer) open(mark byte) {
	w.b = append(w.b, mark)
	w.depth++
}

// next goes to the line of the next member or item, n so far.
func (w *writer) next(n *int) {
	if *n > 0 {
		w.b = append(w.b, ',')
	}
	*n++
	w.line()
}

// close ends an object or array of n members; an empty one stays on its line.
func (w *writer) close(mark byte, n int) {
	w.depth--
	if n > 0 {
		w.line()
	}
	w.b = append(w.b, mark)
}

// piece is how long a piece gets.
const piece = 1 << 20

func (w *writer) line() {
	if w.flat > 0 {
		return
	}
	if len(w.b) >= piece {
		w.full = append(w.full, w.b)
		w.b = make([]byte, 0, piece+piece/16)
	}
	w.b = append(w.b, '\n')
	if w.form != setIn {
		return
	}
	for range w.depth {
		w.b = append(w.b, ' ')
	}
}

// layout lists the members of a struct type by its tags. Those of an embedded
// struct stand in its place.
func (w *writer) layout(t reflect.Type) []member {
	if l, known := w.layouts[t]; known {
		return l
	}
	l := layoutBelow(t, nil)
	w.layouts[t] = l
	return l
}

func layoutBelow(t reflect.Type, index []int) []member {
	var l []member
	for i := range t.NumField() {
		f, at := t.Field(i), append(slices.Clone(index), i)
		if !f.IsExported() {
			continue
		}
		if f.Anonymous {
			l = append(l, layoutBelow(f.Type, at)...)
			continue
		}
		name, rest, _ := strings.Cut(f.Tag.Get("json"), ",")
		l = append(l, member{name, at, rest == "omitempty"})
	}
	return l
}

func empty(v reflect.Value) bool {
	if v.Kind() == reflect.Slice {
		return v.Len() == 0
	}
	return v.IsZero()
}
