package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"asleft/report"
	"asleft/templates"
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

func TestHeadStandsAcrossTheColumns(t *testing.T) {
	want := "" +
		"No  Name       Remark\n" +
		"A head that is longer than its columns\n" +
		" 1  short      one two three\n" +
		"               four five six\n" +
		"               seven\n"
	rows := [][]string{{"A head that is longer than its columns"}, tableRows[0], {""}}
	if got := table([]column{tableColumns[0], {"Name     ", false, true}, tableColumns[2]}, rows[:2], nil, 28); got != want {
		t.Errorf("got\n%s", got)
	}
}

func TestShortTableLeavesOutWhatIsWithin(t *testing.T) {
	words, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	rows := []report.Row{
		{Cell: 1, Group: "fan", GroupName: "Fan", Name: "Tilt", Word: "within", Within: true},
		{Cell: 1, Group: "fan", GroupName: "Fan", Name: "Track", Word: "outside"},
		{Cell: 1, Group: "fasteners", GroupName: "Fasteners", Name: "Torque", Word: "missing",
			Items: []report.Item{{Name: "hub", Word: "missing"}, {Name: "guard", Word: "within", Within: true}}},
		{Cell: 2, Group: "fan", GroupName: "Fan", Name: "Tilt", Word: "within", Within: true},
	}
	for short, want := range map[bool][]string{
		true: {"", "Cell 1 (A): NOT READY, started up", " Fan", "  Track", " Fasteners", "  Torque", "    hub",
			"", "Cell 2: not in this package", " no check is open"},
		false: {"", "Cell 1 (A): NOT READY, started up", " Fan", "  Tilt", "  Track", " Fasteners", "  Torque", "    hub",
			"", "Cell 2: not in this package", " Fan", "  Tilt"},
	} {
		c := &checkTable{p: &program{words: words}, short: short}
		c.cell(report.Cell{Number: 1, Name: "A", Package: true, Word: "NOT READY", Milestone: "started"}, rows)
		c.cell(report.Cell{Number: 2}, rows)
		var got []string
		for _, l := range c.lines {
			got = append(got, l[0])
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("short %v (-want +got):\n%s", short, diff)
		}
	}
}

func TestWrappedTextStaysSetIn(t *testing.T) {
	for text, want := range map[string][]string{
		"  one two three":  {"  one two", "  three"},
		"  incompressible": {"  incompressible"},
		"":                 {""},
		"    ":             {"    "},
	} {
		if diff := cmp.Diff(want, wrap(text, 10)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	}
}
