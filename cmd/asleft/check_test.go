package main

import (
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
		{"of the tower", []string{""}, nil},
		{"no return", []string{"tilt", "track"}, []int{1, 2}},
		{"no return", []string{"pitch"}, []int{2}},
		{"no return", []string{"tilt"}, nil},
	}
	if diff := cmp.Diff(want, group(notes), cmp.AllowUnexported(noteGroup{})); diff != "" {
		t.Error(diff)
	}
}
