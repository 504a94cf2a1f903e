package workbook

import (
	"bytes"
	"io"
	"regexp"
	"strings"
	"testing"

	"asleft/internal/field"

	"github.com/xuri/excelize/v2"
)

// bend makes a defined name refer to another range.
func bend(t *testing.T, form []byte, name, refersTo string) []byte {
	t.Helper()
	old := regexp.MustCompile(`(<definedName [^>]*name="` + name + `"[^>]*>)[^<]*`)
	return patch(t, form, "xl/workbook.xml", func(xml []byte) []byte {
		return old.ReplaceAll(xml, []byte("${1}"+strings.ReplaceAll(refersTo, "$", "$$")))
	})
}

// Readings and labels must cover the same rows of the same sheet: cells that
// were deleted or moved alone, instead of whole rows, are a fault and never
// readings of the neighbors.
func TestRangesMustLieBesideTheirLabels(t *testing.T) {
	form := blankSmall(t)
	var values area
	edit(t, form, func(e *sheetEditor) {
		sheet, first := e.cell("c01_track_asleft", 0, 0)
		_, last := e.cell("c01_track_asleft", 0, small.Blades-1)
		values, _ = parseArea(quoteSheet(sheet) + "!" + first + ":" + last)
	})
	move := func(from, to int, sheet string) string {
		a := values
		a.from.row, a.to.row = a.from.row+from, a.to.row+to
		if sheet != "" {
			a.sheet = sheet
		}
		return a.absolute()
	}
	again := values
	again.sheet, again.from = "Cell 2", pos{values.from.col, values.to.row + 1}
	again.to = again.from
	for _, c := range []struct{ what, name, refersTo string }{
		{"a row lower", "c01_track_asleft", move(1, 1, "")},
		{"a row less at the top", "c01_track_asleft", move(1, 0, "")},
		{"a row less at the end", "c01_track_asleft", move(0, -1, "")},
		{"on another sheet", "c01_track_asleft", move(0, 0, "Cell 2")},
		{"the first place again, on another sheet", "c01_track_asleft_return", again.absolute()},
	} {
		_, faults := mustRead(t, bend(t, form, c.name, c.refersTo))
		if len(faults) != 1 || faults[0].Kind != BadShape {
			t.Errorf("%s: %+v", c.what, faults)
		}
	}
}

// A value in an inserted row without a label is nobody's reading.
func TestValueBesideNoLabel(t *testing.T) {
	place := field.Ref{}
	b := edit(t, blankSmall(t), func(e *sheetEditor) {
		sheet, cell := e.cell(reading, 0, 2)
		at, _ := parsePos(cell)
		e.must(e.InsertRows(sheet, at.row, 1))
		e.must(e.SetCellStr(sheet, cell, "1/2"))
		place = field.Ref{Sheet: sheet, Cell: cell}
	})
	_, faults := mustRead(t, b)
	if len(faults) != 1 || faults[0].Kind != NoLabel || faults[0].At != place {
		t.Errorf("want a value beside no label at %s, got %+v", place, faults)
	}
}

// A copied sheet has many names and is told once.
func TestCopiedSheetIsToldOnce(t *testing.T) {
	b := edit(t, blankSmall(t), func(e *sheetEditor) {
		_, err := e.NewSheet("Copy")
		e.must(err)
		for _, name := range []string{"c01_tilt_asleft", "c01_track_asleft"} {
			e.must(e.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: "Copy!$A$1:$A$4", Scope: "Copy"}))
		}
	})
	if _, faults := mustRead(t, b); len(faults) != 1 {
		t.Errorf("%+v", faults)
	}
}

// Protection leaves people free to add rows, columns, formats and links, and
// has no password. In the file an attribute of 0 means allowed.
func TestProtectionLeavesPeopleFree(t *testing.T) {
	names, parts := partsOf(t, blankSmall(t))
	sheets := 0
	for _, name := range names {
		at := bytes.Index(parts[name], []byte("<sheetProtection"))
		if at < 0 {
			continue
		}
		sheets++
		tag := string(parts[name][at : at+bytes.IndexByte(parts[name][at:], '>')])
		for _, free := range []string{"formatCells", "formatColumns", "formatRows", "insertRows", "insertColumns", "insertHyperlinks"} {
			if !strings.Contains(tag, free+`="0"`) && !strings.Contains(tag, free+`="false"`) {
				t.Errorf("%s: %s is not allowed: %s", name, free, tag)
			}
		}
		for _, closed := range []string{"password", "hashValue", `objects="1"`, `objects="true"`, `sheet="0"`} {
			if strings.Contains(tag, closed) {
				t.Errorf("%s: %s", name, tag)
			}
		}
	}
	if sheets < 10 {
		t.Errorf("%d sheets are protected", sheets)
	}
}

func TestCellOf(t *testing.T) {
	for name, want := range map[string]int{
		"c01_tilt": 1, "c99_name": 99, "c100_name": 100, "c999_tilt_asleft": 999,
		"c1_tilt": 0, "c001_tilt": 0, "c00_tilt": 0, "c1000_tilt": 0, "c-1_tilt": 0, "c+1_tilt": 0, "cells": 0, "01_tilt": 0, "c12": 0, "": 0,
	} {
		if got, ok := cellOf(name); ok != (want > 0) || ok && got != want {
			t.Errorf("%q: %d, %v", name, got, ok)
		}
	}
}

// Cells may have numbers of three digits: plants count them through.
func TestGreatCellNumbers(t *testing.T) {
	o := small
	o.FirstCell, o.Cells = 100, 1
	b := edit(t, blank(t, o), func(e *sheetEditor) { e.set("c100_clearance_asleft", "9/16") })
	cells := clean(t, b).Cells
	if len(cells) != 1 || cells[0].Number != 100 || cells[0].Clearance.Rounds[1].Readings[0].Value.Text != "9/16" {
		t.Errorf("%+v", cells)
	}
	o.FirstCell = MaxCell + 1
	if err := WriteForm(io.Discard, o); err == nil {
		t.Error("a cell beyond the last number was ordered")
	}
}
