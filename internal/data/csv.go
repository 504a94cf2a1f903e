package data

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strconv"
	"strings"
)

// The tables are CSV as of RFC 4180: UTF-8 without a byte order mark, comma,
// CR LF, one header line. They are made from the [Document], so that they can
// say nothing else; integers in base units stand in the data file alone.

// readingColumns have what stays the same over many rows first, which packs
// better.
var readingColumns = []string{"cell", "check", "round", "standing", "file", "sheet", "sheet_cell", "index", "degrees",
	"typed", "typed_unit", "counted", "counted_unit", "verdict", "margin", "reason"}

// Readings is the table of readings, one row each, blanks included.
func (d *Document) Readings() ([]byte, error) { return d.readings(only(readingColumns...)) }

func (d *Document) readings(choose chooser) ([]byte, error) {
	t := newTable(choose, "cell", "check", "round", "standing", "index", "degrees", "typed", "typed_unit",
		"counted", "counted_unit", "counted_base", "verdict", "margin", "margin_base", "reason", "file", "sheet", "sheet_cell")
	for _, c := range d.Cells {
		for _, k := range c.Value.Checks {
			for _, r := range k.Value.Rounds {
				standing := strconv.FormatBool(r.Key == k.Value.Standing)
				for _, p := range r.Value.Readings {
					front := []string{c.Key, k.Key, r.Key, standing, p.Key}
					t.reading(front, p.Value, fileName(d.Files, p.Value.File))
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
func fileName(files []File, i int) string {
	if i < 0 || i >= len(files) {
		return ""
	}
	return files[i].Name
}

// LimitTable is the table of limits, one row a check.
func (d *Document) LimitTable() ([]byte, error) { return d.limitTable(withoutBase) }

func (d *Document) limitTable(choose chooser) ([]byte, error) {
	lengths := []string{"min", "nominal", "max", "tolerance", "angleNominal", "angleTolerance",
		"slope", "quantityMin", "quantityNominal", "quantityMax", "quantityTolerance"}
	texts := []string{"criterion", "minCount", "authority", "document", "clause", "revision", "acceptedBy", "organization", "acceptedOn"}
	head := []string{"check"}
	for _, name := range lengths {
		head = append(head, name, name+"_unit", name+"_base")
	}
	t := newTable(choose, append(head, texts...)...)
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
func (d *Document) Items() ([]byte, error) { return d.items(withoutBase) }

func (d *Document) items(choose chooser) ([]byte, error) {
	t := newTable(choose, "cell", "check", "round", "item", "name", "verdict", "deciding", "deciding_unit", "deciding_base",
		"margin", "margin_base", "findings", "file", "sheet", "sheet_cell")
	for _, c := range d.Cells {
		for _, k := range c.Value.Checks {
			for _, r := range k.Value.Rounds {
				for _, i := range r.Value.Items {
					t.item([]string{c.Key, k.Key, r.Key, i.Key}, i.Value, fileName(d.Files, i.Value.File))
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

// chooser says which columns a table has, in which order, of those that there are.
type chooser func(head []string) []int

// all is every column.
func all(head []string) (chosen []int) {
	for i := range head {
		chosen = append(chosen, i)
	}
	return chosen
}

// only is these columns.
func only(names ...string) chooser {
	return func(head []string) (chosen []int) {
		for _, name := range names {
			chosen = append(chosen, slices.Index(head, name))
		}
		return chosen
	}
}

// withoutBase is every column but those of integers in base units.
func withoutBase(head []string) []int {
	return slices.DeleteFunc(all(head), func(i int) bool { return strings.HasSuffix(head[i], "_base") })
}

// table collects lines of equal length.
type table struct {
	full   pieces
	w      *csv.Writer
	chosen []int
	line   []string
}

func newTable(choose chooser, head ...string) *table {
	t := &table{chosen: choose(head)}
	t.w = csv.NewWriter(&t.full)
	t.w.UseCRLF = true
	t.add(head...)
	return t
}

// add writes the chosen columns of a line; the writer keeps its first error for
// bytes.
func (t *table) add(cells ...string) {
	t.line = t.line[:0]
	for _, i := range t.chosen {
		t.line = append(t.line, cells[i])
	}
	_ = t.w.Write(t.line)
}

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
