package workbook

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"sort"
	"strings"

	"asleft/internal/measure"

	"github.com/xuri/excelize/v2"
)

// WriteForm writes a blank form. The same options give the same bytes.
func WriteForm(w io.Writer, o FormOptions) error {
	o, err := o.complete()
	if err != nil {
		return fmt.Errorf("form: %w", err)
	}
	p, err := newPlan(o)
	if err != nil {
		return fmt.Errorf("form: %w", err)
	}
	file := excelize.NewFile()
	defer file.Close()
	out := &writer{file: file, o: o, plan: p, styles: styles{file, map[styleKey]int{}}}
	if err := out.write(); err != nil {
		return fmt.Errorf("form: %w", err)
	}
	// The library adds types of pictures in the order of a map.
	types := file.ContentTypes.Defaults
	sort.Slice(types, func(i, j int) bool { return types[i].Extension < types[j].Extension })
	var b bytes.Buffer
	if _, err := file.WriteTo(&b); err != nil {
		return fmt.Errorf("form: %w", err)
	}
	short, err := Shorten(b.Bytes())
	if err != nil {
		return fmt.Errorf("form: %w", err)
	}
	_, err = w.Write(short)
	return err
}

// writer puts a plan into a file. Its first error sticks.
type writer struct {
	file   *excelize.File
	o      FormOptions
	plan   *plan
	styles styles
	rules  []entryRule // of the sheet being written
	// outside is the look of a number outside its limit, once it is made.
	outside *int
	err     error
}

// must keeps the first error.
func (w *writer) must(err error) {
	if w.err == nil && err != nil {
		w.err = err
	}
}

// epoch stands for both dates of the file: a form has no date of its own, and
// the clock would make two equal orders differ.
const epoch = "2026-01-01T00:00:00Z"

func (w *writer) write() error {
	w.must(w.file.SetDefaultFont(typeface)) // it also sets what a column's width means
	w.must(w.file.SetDocProps(&excelize.DocProperties{Created: epoch, Modified: epoch,
		Title: w.o.Words.Say("form.title"), Creator: "asleft", LastModifiedBy: "asleft",
		Language: w.o.Words.Tag()}))
	for i, s := range w.plan.sheets {
		if i == 0 {
			w.must(w.file.SetSheetName("Sheet1", s.title))
		} else if _, err := w.file.NewSheet(s.title); err != nil {
			w.must(err)
		}
	}
	for _, s := range w.plan.sheets {
		w.sheet(s)
	}
	w.names() // last: the library goes through all names for every formula
	// Formula cells hold no values until a spreadsheet computes them.
	full := true
	w.must(w.file.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &full}))
	w.file.SetActiveSheet(0)
	return w.err
}

// names are put beside the first one outright: the library looks through all of
// them for every new one. Names of one box in all cells follow each other, which
// takes half the room packed, and the first of them says what it holds.
func (w *writer) names() {
	names := slices.Clone(w.plan.names)
	slices.SortStableFunc(names, func(a, b Name) int { return strings.Compare(boxName(a.Name), boxName(b.Name)) })
	for i, n := range names {
		a, _ := parseArea("'" + n.Sheet + "'!" + n.Cells)
		if i == 0 || w.file.WorkBook.DefinedNames == nil {
			w.must(w.file.SetDefinedName(&excelize.DefinedName{Name: n.Name, RefersTo: a.absolute(), Comment: n.Holds}))
			continue
		}
		all := &w.file.WorkBook.DefinedNames.DefinedName
		next := (*all)[len(*all)-1]
		next.Name, next.Data, next.Comment = n.Name, a.absolute(), n.Holds
		if cell, ok := cellOf(n.Name); ok && cell != w.o.FirstCell {
			next.Comment = ""
		}
		*all = append(*all, next)
	}
}

// boxName is a name without the number of its cell.
func boxName(name string) string {
	if _, box, ok := strings.Cut(name, "_"); ok && len(name) > 1 && name[0] == 'c' && name[1] >= '0' && name[1] <= '9' {
		return box
	}
	return name
}

// area is where a defined name of the new form lies.
func (w *writer) area(name string) area {
	for _, n := range w.plan.names {
		if n.Name == name {
			a, _ := parseArea("'" + n.Sheet + "'!" + n.Cells)
			return a
		}
	}
	return area{}
}

func (w *writer) sheet(s *sheetPlan) {
	for i, width := range s.widths {
		name := columnName(i + 1)
		w.must(w.file.SetColWidth(s.title, name, name, width))
	}
	for r := 1; r <= s.rows; r++ {
		height, ok := s.heights[r]
		if !ok {
			height = rowHeight
		}
		w.must(w.file.SetRowHeight(s.title, r, height))
	}
	w.texts(s)
	w.inputs(s)
	for _, m := range s.merges {
		w.must(w.file.MergeCell(s.title, m.from.String(), m.to.String()))
	}
	w.sums(s)
	w.bounds(s)
	w.marks(s)
	if s.guide != nil {
		w.drawing(s)
	}
	w.page(s)
	w.protect(s)
}

func (w *writer) texts(s *sheetPlan) {
	w.bands(s)
	for _, t := range s.texts {
		w.must(w.file.SetCellStr(s.title, t.at.String(), t.text))
		w.style(s, area{s.title, t.at, t.at}, t.look, formatText)
	}
	// The head of two merged columns is boxed on both.
	for _, m := range s.merges {
		for _, t := range s.texts {
			if t.at == m.from && (t.look == lookHead || t.look == lookLabel) {
				w.style(s, m, t.look, formatText)
			}
		}
	}
}

// bands are the rows of the blocks' titles. A row has its look as a whole: a
// look for each of its cells is heavy in the file. The guide has another part
// beside what is printed.
func (w *writer) bands(s *sheetPlan) {
	for _, t := range s.texts {
		if t.look == lookBlock && s.printed.sheet == "" {
			id, err := w.styles.id(lookBlock, formatText)
			w.must(err)
			w.must(w.file.SetRowStyle(s.title, t.at.row, t.at.row, id))
		}
	}
}

func (w *writer) style(s *sheetPlan, a area, l look, format string) {
	id, err := w.styles.id(l, format)
	w.must(err)
	w.must(w.file.SetCellStyle(s.title, a.from.String(), a.to.String(), id))
}

// inputs draws the boxes and fills what a new form already holds.
func (w *writer) inputs(s *sheetPlan) {
	for _, in := range s.inputs {
		a := in.area
		a.to.col += max(in.span, 1) - 1
		switch {
		case in.closed:
			w.style(s, a, lookClosed, formatText)
			continue
		case in.free:
			w.style(s, a, lookFree, formatText)
			continue
		}
		w.style(s, a, inputLook(in), numberFormat(in.slot.kind, w.o.Units))
		w.initial(s, in)
		w.dropDown(s, in)
		w.entryRules(s, in)
	}
	w.addRules(s)
	if len(s.inputs) > 0 {
		all := area{s.title, pos{1, 1}, pos{len(s.widths), s.rows}}
		w.must(w.file.AddIgnoredErrors(s.title, all.cells(), excelize.IgnoredErrorsNumberStoredAsText))
	}
}

// inputLook centers what is read down a column and sets words to the left.
func inputLook(in input) look {
	switch {
	case in.line:
		return lookInput
	case in.narrow:
		return lookCentered
	}
	switch in.slot.kind {
	case kindLength, kindAngle, kindResolution, kindCount, kindDate, kindClock,
		kindNumber, kindSlope, kindQuantity, kindRise, kindNumbers:
		return lookCentered
	}
	return lookInput
}

func (w *writer) initial(s *sheetPlan, in input) {
	for i, v := range in.initial {
		if v == "" {
			continue
		}
		at := pos{in.area.from.col, in.area.from.row + i}.String()
		if in.slot.kind == kindCount {
			n, _, err := measure.ParseLength(v, measure.UnitMillimeter)
			w.must(err)
			w.must(w.file.SetCellInt(s.title, at, int64(n/measure.Millimeter)))
			continue
		}
		w.must(w.file.SetCellStr(s.title, at, v))
	}
}
