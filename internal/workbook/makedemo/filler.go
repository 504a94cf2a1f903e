package main

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"asleft/internal/workbook"

	"github.com/xuri/excelize/v2"
)

// filler puts values into a form by its defined names. Its first error sticks.
type filler struct {
	file   *excelize.File
	ranges map[string]string
	err    error
}

func openFiller(b []byte) (*filler, error) {
	file, err := excelize.OpenReader(bytes.NewReader(b))
	if err != nil {
		return nil, err
	}
	f := &filler{file: file, ranges: map[string]string{}}
	for _, n := range file.GetDefinedName() {
		f.ranges[n.Name] = n.RefersTo
	}
	return f, nil
}

// Values of cells that are not typed as text.
type (
	day    string  // 2026-03-04
	clock  string  // 14:05
	number float64 // a plain number
)

// set writes values down a named column, from its first cell; nil and "" leave
// a cell blank.
func (f *filler) set(name string, values ...any) {
	sheet, col, row, ok := f.corner(name)
	for i, v := range values {
		if ok {
			f.put(sheet, col, row+i, v)
		}
	}
}

// row writes a row of a named table, counted from 1.
func (f *filler) row(name string, row int, values ...any) {
	sheet, col, first, ok := f.corner(name)
	for i, v := range values {
		if ok {
			f.put(sheet, col+i, first+row-1, v)
		}
	}
}

// across writes a value into the nth cell of a named line, from 0.
func (f *filler) across(name string, n int, v any) {
	if sheet, col, row, ok := f.corner(name); ok {
		f.put(sheet, col+n, row, v)
	}
}

// corner is the first cell of a name.
func (f *filler) corner(name string) (sheet string, col, row int, ok bool) {
	refersTo, known := f.ranges[name]
	if !known {
		f.keep(fmt.Errorf("no name %s", name))
		return "", 0, 0, false
	}
	sheet, cells, _ := strings.Cut(refersTo, "!")
	first, _, _ := strings.Cut(strings.ReplaceAll(cells, "$", ""), ":")
	col, row, err := excelize.CellNameToCoordinates(first)
	f.keep(err)
	return strings.Trim(sheet, "'"), col, row, err == nil
}

func (f *filler) keep(err error) {
	if f.err == nil {
		f.err = err
	}
}

func (f *filler) put(sheet string, col, row int, v any) {
	cell, err := excelize.CoordinatesToCellName(col, row)
	f.keep(err)
	switch v := v.(type) {
	case nil:
	case string:
		if v != "" {
			f.keep(f.file.SetCellStr(sheet, cell, v))
		}
	case int:
		f.keep(f.file.SetCellInt(sheet, cell, int64(v)))
	case number:
		f.keep(f.file.SetCellFloat(sheet, cell, float64(v), -1, 64))
	case day:
		t, err := time.Parse(time.DateOnly, string(v))
		f.keep(err)
		start := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
		f.keep(f.file.SetCellInt(sheet, cell, int64(t.Sub(start).Hours()/24)))
	case clock:
		var h, m int
		_, err := fmt.Sscanf(string(v), "%d:%d", &h, &m)
		f.keep(err)
		f.keep(f.file.SetCellFloat(sheet, cell, float64(h*60+m)/1440, -1, 64))
	default:
		f.keep(fmt.Errorf("cannot write %T", v))
	}
}

// bytes is the filled workbook. Its dates are fixed, so that the demos can be
// rebuilt to the same bytes.
func (f *filler) bytes() ([]byte, error) {
	const made = "2026-04-02T12:00:00Z"
	f.keep(f.file.SetDocProps(&excelize.DocProperties{Created: made, Modified: made,
		Creator: "asleft", LastModifiedBy: "T. Brandvold (invented)", Title: "Field form, filled in (invented plant)"}))
	if f.err != nil {
		return nil, f.err
	}
	var out bytes.Buffer
	if _, err := f.file.WriteTo(&out); err != nil {
		return nil, err
	}
	return workbook.Shorten(out.Bytes())
}
