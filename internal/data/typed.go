package data

import (
	"reflect"

	"asleft/internal/field"
)

// Typed is an entry of a workbook and where the data file has it.
type Typed struct {
	Keys []string // of the path
	Text string   // as typed
	At   field.Ref
}

// EachTyped visits everything that was typed, in the order of the data file.
// What stands under several paths is visited as often.
func (s *Set) EachTyped(visit func(Typed)) {
	eachEntry(nil, reflect.ValueOf(s.doc).Elem(), func(keys []string, e *Entry) {
		if sheet, cell := splitAt(e.At); sheet != "" {
			visit(Typed{keys, e.typed(), field.Ref{File: e.File, Sheet: sheet, Cell: cell}})
		}
	})
}

// below is the keys and one more, in a slice of its own.
func below(keys []string, key string) []string {
	return append(keys[:len(keys):len(keys)], key)
}
