package data

import (
	"reflect"
	"strconv"
	"strings"
)

// Entries is the table of what was typed and is no reading: each cell of the
// workbook once, under its first path in the data file. The head of a block counts
// for all of its checks. [Document.Readings] has the readings, with their cells, so
// that each cell stands in one of the two. File, sheet and path are blank where they
// are those of the line above, and a value where it is what was typed.
func (d *Document) Entries() ([]byte, error) {
	t := entryTable{table: newTable(all, "file", "sheet", "path", "entry", "sheet_cell", "typed", "value", "unit"),
		files: d.Files, told: map[place]bool{}}
	eachEntry(nil, reflect.ValueOf(d).Elem(), t.entry)
	return t.bytes()
}

// place is a cell of a workbook.
type place struct {
	file int
	at   string
}

type entryTable struct {
	*table
	files []File
	told  map[place]bool
	above [3]string // file, sheet and path of the line before
}

// entry adds a line for what was typed; what has no place was not.
func (t *entryTable) entry(keys []string, e *Entry) {
	here := place{e.File, e.At}
	if e.At == "" || t.told[here] {
		return
	}
	t.told[here] = true
	if isReading(keys) {
		return
	}
	sheet, cell := splitAt(e.At)
	last := len(keys) - 1
	group := [3]string{SafeText(fileName(t.files, e.File)), SafeText(sheet), join(keys[:last]...)}
	typed, value := SafeText(e.typed()), e.safeValue()
	if value == typed {
		value = ""
	}
	line := group
	for i := range line {
		if line[i] == t.above[i] {
			line[i] = ""
		}
	}
	t.above = group
	t.add(line[0], line[1], line[2], keys[last], cell, typed, value, e.Unit)
}

// isReading tells whether a path is that of a reading as typed.
func isReading(keys []string) bool {
	n := len(keys)
	return n > 2 && keys[n-3] == "readings" && keys[n-1] == "read"
}

// eachEntry visits the entries below a value in the order of the file, with the
// keys of the path to each.
func eachEntry(keys []string, v reflect.Value, visit func([]string, *Entry)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			eachEntry(keys, v.Elem(), visit)
		}
	case reflect.Struct:
		switch v.Type() {
		case entryType:
			e := v.Interface().(Entry)
			visit(keys, &e)
			return
		case readingType: // its address stands once for all of it
			x := v.Interface().(Reading)
			if x.Read != nil {
				placed := *x.Read
				placed.At, placed.File, x.Read = x.At, x.File, &placed
			}
			v = reflect.ValueOf(x)
		}
		for i := range v.NumField() {
			f := v.Field(i)
			switch f.Kind() {
			case reflect.Pointer, reflect.Struct, reflect.Slice:
				eachEntry(named(keys, v.Type().Field(i)), f, visit)
			}
		}
	case reflect.Slice:
		isKeyed := v.Type().Implements(keyedType)
		for i := range v.Len() {
			if isKeyed {
				eachEntry(below(keys, v.Index(i).Field(0).String()), v.Index(i).Field(1), visit)
				continue
			}
			eachEntry(below(keys, strconv.Itoa(i)), v.Index(i), visit)
		}
	}
}

var (
	entryType   = reflect.TypeFor[Entry]()
	readingType = reflect.TypeFor[Reading]()
)

// named is the keys and that of a field; an embedded one has none.
func named(keys []string, f reflect.StructField) []string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	if name == "" {
		return keys
	}
	return below(keys, name)
}

// typed is the text as it stands in the workbook.
func (e *Entry) typed() string {
	if e.Typed != "" {
		return e.Typed
	}
	return e.Value
}

// safeValue is the value as it can stand in a table: a number of ours is no
// formula.
func (e *Entry) safeValue() string {
	if e.Base != nil {
		return e.Value
	}
	return SafeText(e.Value)
}

func (e *Entry) base() string {
	if e.Base == nil {
		return ""
	}
	return strconv.FormatInt(*e.Base, 10)
}
