package main

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"asleft/report"
)

func TestNotesAreGroupedByTextAndCells(t *testing.T) {
	notes := []report.Note{
		{Text: "of the tower"},
		{Cell: 1, Check: "tilt", Text: "no return"},
		{Cell: 1, Check: "track", Text: "no return"},
		{Cell: 2, Check: "tilt", Text: "no return"},
		{Cell: 2, Check: "track", Text: "no return"},
		{Cell: 2, Check: "pitch", Text: "no return"},
		{Cell: 2, Check: "tilt", Text: "no return"},
		{Check: "tilt", Text: "no return"},
	}
	want := []noteGroup{
		{text: "of the tower", checks: []string{""}},
		{text: "no return", checks: []string{"tilt", "track"}, cells: []int{1, 2}},
		{text: "no return", checks: []string{"pitch"}, cells: []int{2}},
		{text: "no return", checks: []string{"tilt"}},
	}
	if diff := cmp.Diff(want, group(notes), cmp.AllowUnexported(noteGroup{})); diff != "" {
		t.Error(diff)
	}
}

func TestNotesAreGroupedByItem(t *testing.T) {
	about := func(cell int, item string) report.Note {
		return report.Note{Cell: cell, Check: "fasteners", Item: item, Text: item + ": no stripe", Pattern: "{item}: no stripe"}
	}
	notes := []report.Note{about(1, "hub bolts"), about(1, "guard bolts"), about(2, "hub bolts"), about(2, "guard bolts"), about(2, "clamps")}
	var got []string
	for _, g := range group(notes) {
		got = append(got, fmt.Sprint(g.text, g.cells))
	}
	want := []string{"hub bolts, guard bolts: no stripe[1 2]", "clamps: no stripe[2]"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}
