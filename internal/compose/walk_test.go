package compose

import (
	"reflect"
	"strings"

	"asleft/internal/page"
)

// printed is a text of a book with the way to it.
type printed struct{ where, text string }

// notPrinted are fields that hold names for machines.
var notPrinted = map[string]bool{
	"ID": true, "Link": true, "Anchor": true, "Key": true, "Name": true, "Files": true, "Paper": true,
	"Creator": true, "Lang": true, "Keywords": true, "Author": true, "Issued": true,
}

// printedIn lists every text that a book puts on paper or says to a reader,
// those inside figures as well.
func printedIn(b page.Book) []printed {
	var out []printed
	walk(reflect.ValueOf(b), "book", &out)
	return out
}

func walk(v reflect.Value, where string, out *[]printed) {
	switch v.Kind() {
	case reflect.String:
		if v.String() != "" {
			*out = append(*out, printed{where, v.String()})
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			walk(v.Elem(), where, out)
		}
	case reflect.Array:
		for i := range v.Len() {
			walk(v.Index(i), where, out)
		}
	case reflect.Slice:
		if !v.CanInterface() {
			return // inside a number
		}
		if runs, ok := v.Interface().([]page.Run); ok { // one text, whatever it is cut into
			var s strings.Builder
			for _, r := range runs {
				s.WriteString(r.Text)
			}
			walk(reflect.ValueOf(s.String()), where, out)
			return
		}
		for i := range v.Len() {
			walk(v.Index(i), where, out)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if !notPrinted[f.Name] || strings.HasPrefix(v.Type().PkgPath(), "asleft/internal/plot") && f.Name == "Name" {
				walk(v.Field(i), where+"."+f.Name, out)
			}
		}
	}
}

// runsIn lists all runs of a book.
func runsIn(b page.Book) []page.Run {
	var out []page.Run
	collect(reflect.ValueOf(b), &out)
	return out
}

func collect(v reflect.Value, out *[]page.Run) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			collect(v.Elem(), out)
		}
	case reflect.Slice:
		for i := range v.Len() {
			collect(v.Index(i), out)
		}
	case reflect.Struct:
		if r, ok := v.Interface().(page.Run); ok {
			*out = append(*out, r)
			return
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				collect(v.Field(i), out)
			}
		}
	}
}

// tablesIn lists all tables of a book by section.
func tablesIn(b page.Book) map[string][]page.Table {
	out := map[string][]page.Table{}
	for _, s := range b.Sections {
		var list []page.Table
		for _, blk := range s.Blocks {
			tablesOf(blk, &list)
		}
		out[s.Key] = list
	}
	return out
}

func tablesOf(b page.Block, out *[]page.Table) {
	switch b := b.(type) {
	case page.Table:
		*out = append(*out, b)
	case page.Panel:
		for _, x := range b.Blocks {
			tablesOf(x, out)
		}
	case page.Columns:
		for _, col := range b.Blocks {
			for _, x := range col {
				tablesOf(x, out)
			}
		}
	}
}

// bookOf is a book of one section.
func bookOf(s page.Section) page.Book { return page.Book{Sections: []page.Section{s}} }
