package workbook

import (
	"bytes"
	"strings"
	"sync"
	"testing"

	"asleft/internal/field"
	"asleft/templates"

	"github.com/xuri/excelize/v2"
)

// small is the form most tests use.
var small = FormOptions{Cells: 2, Blades: 4, Positions: 4, Rounds: 2}

// blank writes a form.
func blank(t testing.TB, o FormOptions) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := WriteForm(&out, o); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// smallForm is written once: most tests begin with it.
var smallForm = sync.OnceValue(func() []byte {
	var out bytes.Buffer
	if WriteForm(&out, small) != nil {
		return nil
	}
	return out.Bytes()
})

func blankSmall(t testing.TB) []byte {
	t.Helper()
	if smallForm() == nil {
		t.Fatal("the small form cannot be written")
	}
	return smallForm()
}

// sheetEditor edits a form as people and scripts do, by defined names. Being
// another program's library, it also checks that the form is one.
type sheetEditor struct {
	*excelize.File
	t testing.TB
}

func edit(t testing.TB, form []byte, change func(*sheetEditor)) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(form))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	e := &sheetEditor{f, t}
	change(e)
	var out bytes.Buffer
	if _, err := f.WriteTo(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// cell is the place of a cell of a named range, counted from 0.
func (e *sheetEditor) cell(name string, col, row int) (sheet, cell string) {
	e.t.Helper()
	for _, n := range e.GetDefinedName() {
		if n.Name == name && n.Scope == "Workbook" {
			a, ok := parseArea(n.RefersTo)
			if !ok {
				e.t.Fatalf("%s refers to %s", name, n.RefersTo)
			}
			return a.sheet, pos{a.from.col + col, a.from.row + row}.String()
		}
	}
	e.t.Fatalf("no name %s", name)
	return "", ""
}

// set writes values down a named column.
func (e *sheetEditor) set(name string, values ...any) {
	e.t.Helper()
	for i, v := range values {
		e.setAt(name, 0, i, v)
	}
}

func (e *sheetEditor) setAt(name string, col, row int, v any) {
	e.t.Helper()
	sheet, cell := e.cell(name, col, row)
	if err := e.SetCellValue(sheet, cell, v); err != nil {
		e.t.Fatal(err)
	}
}

// format gives a cell a number format.
func (e *sheetEditor) format(name string, code string) {
	e.t.Helper()
	id, err := e.NewStyle(&excelize.Style{CustomNumFmt: &code})
	if err != nil {
		e.t.Fatal(err)
	}
	sheet, cell := e.cell(name, 0, 0)
	e.must(e.SetCellStyle(sheet, cell, cell, id))
}

func (e *sheetEditor) must(err error) {
	e.t.Helper()
	if err != nil {
		e.t.Fatal(err)
	}
}

// english are the words the tests read faults in.
func english(t testing.TB) *templates.Words {
	t.Helper()
	w, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func mustRead(t testing.TB, b []byte) (field.Record, []field.Fault) {
	t.Helper()
	record, faults, err := Read([]Input{{"form.xlsx", b}}, english(t))
	if err != nil {
		t.Fatal(err)
	}
	return record, faults
}

// clean reads a form that has no faults.
func clean(t testing.TB, b []byte) field.Record {
	t.Helper()
	record, faults := mustRead(t, b)
	for _, f := range faults {
		t.Errorf("fault %s at %s: read %q, detail %q", f.Kind, f.At, f.Read, f.Detail)
	}
	return record
}

// texts are the readings of a series as typed, blank ones as "-".
func texts[V any](s field.Series[V], text func(V) (string, bool)) string {
	var out []string
	for _, r := range s.Readings {
		v, set := text(r.Value)
		if !set {
			v = "-"
		}
		out = append(out, v)
	}
	return strings.Join(out, " ")
}

func lengthText(v field.Length) (string, bool) { return v.Text, v.Set }

// openEditor opens a form with the other program's library.
func openEditor(form []byte) (*excelize.File, error) {
	return excelize.OpenReader(bytes.NewReader(form))
}

// rawValues asks for what the file holds, not for what is shown.
var rawValues = excelize.Options{RawCellValue: true}
