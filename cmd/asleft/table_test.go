package main

import (
	"strings"
	"testing"
	"unicode/utf8"
)

var tableColumns = []column{{"No", true, false}, {"Name", false, true}, {"Remark", false, true}}

var tableRows = [][]string{
	{"1", "short", "one two three four five six seven"},
	{"22", "Überlänge", "x"},
}

func TestTableWithoutALimitIsNotWrapped(t *testing.T) {
	want := "" +
		"No  Name       Remark\n" +
		" 1  short      one two three four five six seven\n" +
		"22  Überlänge  x\n"
	if got := table(tableColumns, tableRows, nil, 0); got != want {
		t.Errorf("got\n%s", got)
	}
}

func TestTableIsWrappedToTheTerminal(t *testing.T) {
	want := "" +
		"No  Name       Remark\n" +
		" 1  short      one two three\n" +
		"               four five six\n" +
		"               seven\n" +
		"22  Überlänge  x\n"
	if got := table(tableColumns, tableRows, nil, 28); got != want {
		t.Errorf("got\n%s", got)
	}
}

// A terminal may be narrower than any table; no word may be lost then.
func TestNoWordIsLostAtAnyWidth(t *testing.T) {
	for width := range 60 {
		got := table(tableColumns, tableRows, nil, width)
		for _, r := range tableRows {
			for _, cell := range r {
				for _, word := range strings.Fields(cell) {
					if !strings.Contains(got, word) {
						t.Errorf("width %d: %q is lost", width, word)
					}
				}
			}
		}
		for l := range strings.Lines(got) {
			l = strings.TrimRight(l, "\n")
			if width >= 28 && utf8.RuneCountInString(l) > width {
				t.Errorf("width %d: line %q is longer", width, l)
			}
		}
	}
}

func TestBoldRowsAreSetOffLineByLine(t *testing.T) {
	got := table(tableColumns, tableRows, func(i int) bool { return i == 0 }, 28)
	if n := strings.Count(got, "\x1b[1m"); n != 3 || n != strings.Count(got, "\x1b[0m\n") {
		t.Errorf("got %q", got)
	}
}
