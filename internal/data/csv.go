package data

import (
	"bytes"
	"encoding/csv"
	"reflect"
	"strconv"
	"strings"
)

// The tables are CSV as of RFC 4180: UTF-8 without a byte order mark, comma,
// CR LF, one header line. They are made from the [Document], so that they can
// say nothing else.

// Readings is the table of readings, one row each, blanks included.
func (d *Document) Readings() ([]byte, error) {
	t := newTable("cell", "check", "round", "standing", "index", "degrees", "typed", "typed_unit",
		"counted", "counted_unit", "counted_base", "verdict", "margin", "margin_base", "reason", "file", "sheet", "sheet_cell")
	for _, c := range d.Cells {
		for _, k := range c.Value.Checks {
			for _, r := range k.Value.Rounds {
				standing := strconv.FormatBool(r.Key == k.Value.Standing)
				for _, p := range r.Value.Readings {
					front := []string{c.Key, k.Key, r.Key, standing, p.Key}
					t.reading(front, p.Value, d.fileName(p.Value.File))
				}
			}
		}
	}
	return t.bytes()
}

func (t *table) reading(front []string, r Reading, file string) {
	typed, typedUnit := "", ""
	if r.Read != nil {
		typed, typedUnit = r.Read.typed(), r.Read.Unit
	}
	counted, margin := amountCells(r.Counted), amountCells(r.Margin)
	sheet, cell := splitAt(r.At)
	line := append(front, r.Degrees, SafeText(typed), typedUnit)
	line = append(line, counted[:]...)
	line = append(line, r.Verdict, margin[0], margin[2], SafeText(r.Reason), SafeText(file), SafeText(sheet), cell)
	t.add(line...)
}

// fileName is the name of a workbook by its index, empty for one that is not
// listed.
func (d *Document) fileName(i int) string {
	if i < 0 || i >= len(d.Files) {
		return ""
	}
	return d.Files[i].Name
}

// LimitTable is the table of limits, one row a check.
func (d *Document) LimitTable() ([]byte, error) {
	lengths := []string{"min", "nominal", "max", "tolerance", "angleNominal", "angleTolerance",
		"slope", "quantityMin", "quantityNominal", "quantityMax", "quantityTolerance"}
	texts := []string{"criterion", "minCount", "authority", "document", "clause", "revision", "acceptedBy", "organization", "acceptedOn"}
	head := []string{"check"}
	for _, name := range lengths {
		head = append(head, name, name+"_unit", name+"_base")
	}
	t := newTable(append(head, texts...)...)
	for _, l := range d.Limits {
		line := []string{l.Key}
		for _, name := range lengths {
			e, _ := l.Value.Get(name)
			line = append(line, e.Value, e.Unit, e.base())
		}
		for _, name := range texts {
			e, _ := l.Value.Get(name)
			line = append(line, SafeText(e.Value))
		}
		t.add(line...)
	}
	return t.bytes()
}

// Items is the table of what is judged line by line: sets of fasteners, pins,
// lines of the pre-start list, points of vibration. Findings are codes, joined by
// spaces.
func (d *Document) Items() ([]byte, error) {
	t := newTable("cell", "check", "round", "item", "name", "verdict", "deciding", "deciding_unit", "deciding_base",
		"margin", "margin_base", "findings", "file", "sheet", "sheet_cell")
	for _, c := range d.Cells {
		for _, k := range c.Value.Checks {
			for _, r := range k.Value.Rounds {
				for _, i := range r.Value.Items {
					t.item([]string{c.Key, k.Key, r.Key, i.Key}, i.Value, d.fileName(i.Value.File))
				}
			}
		}
	}
	return t.bytes()
}

func (t *table) item(front []string, i Item, file string) {
	deciding, margin := amountCells(i.Deciding), amountCells(i.Margin)
	sheet, cell := splitAt(i.At)
	line := append(front, SafeText(i.Name), i.Verdict)
	line = append(line, deciding[:]...)
	var findings []string
	for _, f := range i.Findings {
		findings = append(findings, f.Code)
	}
	t.add(append(line, margin[0], margin[2], strings.Join(findings, " "), SafeText(file), SafeText(sheet), cell)...)
}

// Entries is the table of everything that was typed: each under its path in the
// data file, with its place in the workbook. The head of a block counts for all of
// its checks; a cell of a workbook has one line, under the first path.
func (d *Document) Entries() ([]byte, error) {
	t := newTable("path", "value", "unit", "base", "exact", "typed", "file", "sheet", "sheet_cell")
	type place struct {
		file      int
		at, value string
	}
	told := map[place]bool{}
	eachEntry(nil, reflect.ValueOf(d).Elem(), func(keys []string, e *Entry) {
		if here := (place{e.File, e.At, e.Value}); e.At != "" {
			if told[here] {
				return
			}
			told[here] = true
		}
		sheet, cell := splitAt(e.At)
		value := e.Value
		if e.Base == nil {
			value = SafeText(value) // a number of ours is no formula
		}
		t.add(join(keys...), value, e.Unit, e.base(), e.Exact, SafeText(e.typed()), SafeText(d.fileName(e.File)), SafeText(sheet), cell)
	})
	return t.bytes()
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

func (e *Entry) base() string {
	if e.Base == nil {
		return ""
	}
	return strconv.FormatInt(*e.Base, 10)
}

// amountCells are value, unit and base, all blank where there is no amount.
func amountCells(a *Amount) [3]string {
	if a == nil {
		return [3]string{}
	}
	return [3]string{a.Value, a.Unit, strconv.FormatInt(a.Base, 10)}
}

// splitAt takes an address apart at its last "!": a sheet's name may hold one,
// a cell's cannot.
func splitAt(at string) (sheet, cell string) {
	i := strings.LastIndexByte(at, '!')
	if i < 0 {
		return "", at
	}
	return at[:i], at[i+1:]
}

// formulaStarts begin what a spreadsheet takes for a formula.
const formulaStarts = "=+-@\t\r"

// SafeText puts an apostrophe before typed text that a spreadsheet would run or
// reckon when the table is opened in one. Numbers of ours are never touched:
// they hold digits, a point and a minus sign only.
func SafeText(text string) string {
	if text != "" && strings.ContainsRune(formulaStarts, rune(text[0])) {
		return "'" + text
	}
	return text
}

// table collects lines of equal length.
type table struct {
	full pieces
	w    *csv.Writer
}

func newTable(head ...string) *table {
	t := &table{}
	t.w = csv.NewWriter(&t.full)
	t.w.UseCRLF = true
	t.add(head...)
	return t
}

// add writes a line; the writer keeps its first error for bytes.
func (t *table) add(cells ...string) { _ = t.w.Write(cells) }

func (t *table) bytes() ([]byte, error) {
	t.w.Flush()
	return bytes.Join(t.full, nil), t.w.Error()
}

// pieces are parts of a file, which is copied once when all are written.
type pieces [][]byte

func (p *pieces) Write(b []byte) (int, error) {
	n := len(*p)
	if n == 0 || len((*p)[n-1])+len(b) > cap((*p)[n-1]) {
		size := 4 << 10
		if n > 0 {
			size = min(2*cap((*p)[n-1]), piece)
		}
		*p = append(*p, make([]byte, 0, max(size, len(b))))
		n++
	}
	(*p)[n-1] = append((*p)[n-1], b...)
	return len(b), nil
}
