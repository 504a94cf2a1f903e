package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"asleft/report"

	"github.com/xuri/excelize/v2"
)

// at puts a value into a cell of a named table, counted from 1; nil empties it.
func (f *filler) at(name string, row, col int, v any) {
	sheet, c, r, ok := f.corner(name)
	switch {
	case !ok:
	case v == nil:
		cell, err := excelize.CoordinatesToCellName(c+col-1, r+row-1)
		f.keep(err)
		f.keep(f.file.SetCellValue(sheet, cell, nil))
	default:
		f.put(sheet, c+col-1, r+row-1, v)
	}
}

// told is what is said of a job, as "cell check: text".
func told(list []report.Note) []string {
	out := []string{}
	for _, n := range list {
		out = append(out, strings.ReplaceAll(fmt.Sprintf("%d %s: %s", n.Cell, n.Check, n.Text), "\u00a0", " "))
	}
	return out
}

// rest is the same text of several checks of a cell.
func rest(cell int, text string, checks ...string) []string {
	var out []string
	for _, c := range checks {
		out = append(out, fmt.Sprintf("%d %s: %s", cell, c, text))
	}
	return out
}

// each is the same text of a check in all six cells.
func each(check, text string) []string {
	var out []string
	for n := range 6 {
		out = append(out, fmt.Sprintf("%d %s: %s", n+1, check, text))
	}
	return out
}

// Places of sets in the fastener schedule, and columns of the tables.
const (
	motorSet, clampSet, cylinderSet = 1, 3, 6

	dueColumn                       = 10 // of the instruments
	authorityColumn, acceptedColumn = 7, 11
)

var started = []string{"rotation", "voltunbalance", "ampunbalance", "ampload", "insulation", "oillevel", "oiltemp", "bearingtemp",
	"vibration", "vibrationswitch", "speedratio", "tipspeed", "runtime"}

// TestPlanted: one defect at a time, typed into a workbook in which nothing is
// wrong, is found in its cell and named, and nothing else is.
func TestPlanted(t *testing.T) {
	good, err := goodDemo().workbook()
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		name               string
		plant              func(f *filler)
		reasons, questions []string
	}{
		{"instrument out of date", func(f *filler) { f.at("instruments", 4, dueColumn, day("2026-03-11")) },
			rest(6, "instrument G-1 out of date: used 2026-03-13, due 2026-03-11", "couplinggear", "couplingmotor"), nil},
		{"gear reducer shimmed after the drive shaft was read", func(f *filler) {
			f.row("c03_moves", 1, "gear reducer shimmed", nil, day("2026-03-06"), clock("12:40"))
		}, append(rest(3, "re-check needed: gear reducer shimmed, 2026-03-06", "tilt", "clearance", "clearanceall", "couplinggear",
			"couplingmotor", "shaftends", "gearlevel", "softfootgear", "guardend", "guardaround"),
			"3 fasteners: gear reducer hold-downs: re-check needed: gear reducer shimmed, 2026-03-06"), nil},
		{"clamps torqued after pitch", func(f *filler) {
			f.across("c05_fasteners_date", clampSet, day("2026-03-10"))
			f.across("c05_fasteners_time", clampSet, clock("8:22"))
		}, rest(5, "re-check needed: blade clamps torqued, 2026-03-10", "pitch", "pitchspread"), nil},
		{"pins before the last alignment", func(f *filler) { f.at("c02_pins", 1, 9, clock("8:30")) },
			[]string{"2 pins: dowel pins of the gear reducer: set before the drive shaft was last read, 2026-03-05"}, nil},
		{"first pass equal to final", func(f *filler) { f.across("c04_fasteners_firstpass", motorSet, "170") },
			[]string{"4 fasteners: motor hold-downs: first pass 170 lbf·ft, final 170 lbf·ft: not the step between them that is asked for"}, nil},
		{"clicks fewer than bolts", func(f *filler) { f.across("c06_fasteners_clicks", cylinderSet, 63) },
			[]string{"6 fasteners: fan cylinder bolts: 63 clicks for 64 bolts"}, nil},
		{"stainless with lock washers", func(f *filler) { f.across("c01_fasteners_locking", clampSet, "lock washers") },
			[]string{"1 locking: blade clamps: locked by lock washers, scheduled is nylon-insert lock nuts"}, nil},
		{"closure broken", func(f *filler) { f.at("c03_couplinggear_asfound", 2, 1, "0.381") }, nil,
			[]string{"3 : Worth a second look: Coupling at the gear reducer, As found: top and bottom together differ from the two sides together by −0.005 in. They should be equal."}},
		{"shims logged the other way", func(f *filler) { // they went in, the log has them out
			for i, after := range []string{"0.047", "0.040", "0.064"} {
				f.at("c02_moves", 3+i, 11, after)
			}
		}, nil, []string{"2 : The readings after the moves do not agree with the readings before them and the log."}},
		{"phase unbalance", func(f *filler) {
			for i, v := range []string{"460", "462", "440"} { // mean 454, farthest off 14, which is 3.08 % of it
				f.across("c04_startup_volts"+[]string{"12", "23", "31"}[i], 0, v)
			}
		},
			[]string{"4 voltunbalance: outside: 3.08 %, 2.08 % over the limit of at most 1 %"}, nil},
		{"start-up without pre-start", func(f *filler) {
			for row := 1; row <= 7; row++ {
				for _, col := range []int{1, 2, 3} {
					f.at("c05_prestart", row, col, nil)
				}
			}
		}, append([]string{"5 prestart: missing: not read"},
			rest(5, "run before the pre-start list was complete: does not count", started...)...), nil},
		{"starting value never accepted", func(f *filler) {
			f.at("limits", 16, authorityColumn, "starting value, not from the contract")
			f.at("limits", 16, acceptedColumn, nil)
		}, []string{"0 softfootmotor: starting value, not from the contract, not accepted by anybody"}, nil},
		{"wrong gear ratio", func(f *filler) { f.set("geometry_ratio", "14.2") },
			each("speedratio", "outside"), each("", "Worth a second look: Run 1")},
	} {
		t.Run(x.name, func(t *testing.T) {
			f, err := openFiller(good)
			if err != nil {
				t.Fatal(err)
			}
			x.plant(f)
			book, err := f.bytes()
			if err != nil {
				t.Fatal(err)
			}
			job := open(t, book)
			compare(t, "reasons", told(job.Reasons()), x.reasons)
			compare(t, "questions", told(job.Questions()), x.questions)
			if ready, word := job.Ready(); ready != (len(x.reasons) == 0) {
				t.Error(word)
			}
		})
	}
}

// compare wants the texts in any order; one that ends in the middle stands for
// those that begin so.
func compare(t *testing.T, what string, got, want []string) {
	t.Helper()
	slices.Sort(got)
	want = slices.Sorted(slices.Values(want))
	same := slices.EqualFunc(got, want, strings.HasPrefix)
	if !same {
		t.Errorf("%s:\n%s\nwant:\n%s", what, strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}
