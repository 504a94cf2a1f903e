package workbook

import (
	"testing"

	"asleft/internal/field"
)

// Days: Excel's own examples (serial 1 is 1900-01-01; 60 is the 29 February
// 1900 that never was; 36526 is 2000-01-01; ECMA-376 part 1, 18.17.4.1 and the
// 1904 system's 0 is 1904-01-01).
func TestDayOf(t *testing.T) {
	for _, c := range []struct {
		serial   float64
		from1904 bool
		want     string
	}{
		{1, false, "1900-01-01"}, {59, false, "1900-02-28"}, {60, false, "1900-02-29"}, {61, false, "1900-03-01"},
		{36526, false, "2000-01-01"}, {46281, false, "2026-09-16"}, {46281.75, false, "2026-09-16"},
		{0, true, "1904-01-01"}, {35064, true, "2000-01-01"},
	} {
		if d, ok := dayOf(c.serial, c.from1904); !ok || d.String() != c.want {
			t.Errorf("%v (1904: %v): %s, want %s", c.serial, c.from1904, d, c.want)
		}
	}
	for _, bad := range []float64{-1, 1e9, nan()} {
		if d, ok := dayOf(bad, false); ok {
			t.Errorf("%v was read as %s", bad, d)
		}
	}
}

func nan() float64 { var zero float64; return zero / zero }

func TestLikelyFractions(t *testing.T) {
	for _, c := range []struct {
		day  field.Day
		want string
	}{
		{field.Day{Year: 2026, Month: 9, Day: 16}, "9/16"},
		{field.Day{Year: 2026, Month: 1, Day: 2}, "1/2"},
		{field.Day{Year: 2026, Month: 4, Day: 1}, "1/4"}, // typed where the day comes first
		{field.Day{Year: 1932, Month: 9, Day: 1}, "9/32"},
		{field.Day{Year: 1964, Month: 11, Day: 1}, "11/64"},
		{field.Day{Year: 2004, Month: 1, Day: 1}, "1-1/4"},
		{field.Day{Year: 2008, Month: 3, Day: 5}, "3-5/8"},
		{field.Day{Year: 2026, Month: 7, Day: 13}, ""},
	} {
		if got := likelyFractions(c.day); got != c.want {
			t.Errorf("%s: %q, want %q", c.day, got, c.want)
		}
	}
}

// Number formats: identifiers of ECMA-376 part 1, 18.8.30; codes as
// spreadsheets offer them.
func TestNumberStyles(t *testing.T) {
	date, clock, both := numberStyle{date: true}, numberStyle{clock: true}, numberStyle{date: true, clock: true}
	for id, want := range map[int]numberStyle{0: {}, 1: {}, 9: {percent: true}, 10: {percent: true}, 11: {},
		12: {denominator: 9}, 13: {denominator: 99}, 14: date, 16: date, 17: date, 18: clock, 21: clock, 22: both,
		30: date, 45: clock, 47: clock, 49: {}, 57: date} {
		if got := styleOf(id, ""); got != want {
			t.Errorf("format %d: %+v, want %+v", id, got, want)
		}
	}
	for code, want := range map[string]numberStyle{
		"General": {}, "@": {}, "0.0##": {}, `0.0" mm"`: {}, `0\ \d`: {}, "[Red]0.00": {}, "# ?/?": {denominator: 9},
		"# ??/??": {denominator: 99}, "# ???/???": {denominator: 999}, "# ?/16": {denominator: 16}, "#\\ ?/64": {denominator: 64},
		"yyyy-mm-dd": date, "d-mmm": date, "mmm/yy": date, "[$-409]mmmm d, yyyy;@": date, "hh:mm": clock, "[h]:mm": clock,
		"mm:ss": clock, "m/d/yy h:mm AM/PM": both, "0%": {percent: true}, `"d"0`: {}, "[": {}, `"`: {}, "/": {}, "?/": {},
	} {
		if got := styleOf(164, code); got != want {
			t.Errorf("format %q: %+v, want %+v", code, got, want)
		}
	}
}

// Choices and ticks take their word or their code, whatever the capitals.
func TestChoices(t *testing.T) {
	for _, c := range []struct {
		typed any
		want  bool
	}{{"yes", true}, {"YES", true}, {"y", true}, {true, true}, {"✓", true}, {"No", false}, {"n", false}, {false, false}, {"FALSE", false}} {
		r := clean(t, edit(t, blankSmall(t), func(e *sheetEditor) { e.set("c01_inpackage", c.typed) }))
		if f := r.Cells[0].InPackage; !f.Set || f.Value != c.want {
			t.Errorf("%v: %+v", c.typed, f)
		}
	}
	for _, typed := range []string{"right-angle gear reducer", "Right-Angle  Gear Reducer", "rightangle"} {
		r := clean(t, edit(t, blankSmall(t), func(e *sheetEditor) { e.set("tower_drivetype", typed) }))
		if got := r.Tower.DriveType.Value; got != "rightangle" {
			t.Errorf("%q: %q", typed, got)
		}
	}
}

func TestDatesAndTimesTypedAsText(t *testing.T) {
	for typed, want := range map[string]string{"2026-03-04": "2026-03-04", "4 March 2026": "2026-03-04",
		"Mar 4, 2026": "2026-03-04", "4-Mar-2026": "2026-03-04"} {
		r, faults := mustRead(t, edit(t, blankSmall(t), func(e *sheetEditor) { e.set("project_issuedate", typed) }))
		if got := r.Project.IssueDate.Value.String(); got != want {
			t.Errorf("%q: %s, faults %+v", typed, got, faults)
		}
	}
	for typed, want := range map[string]field.Minute{"8:05": 485, "08:05": 485, "2:05 PM": 845, "12:00 am": 0, "12:30 pm": 750, "23:59": 1439} {
		if got, ok := textMinute(normal(typed)); !ok || got != want {
			t.Errorf("%q: %v %v", typed, got, ok)
		}
	}
	for _, bad := range []string{"", "8", "8:5", "24:00", "8:60", "13:00 pm", "0:10 am", "8:05:10", "-8:05", "8.05"} {
		if got, ok := textMinute(bad); ok {
			t.Errorf("%q was read as %s", bad, got)
		}
	}
}

// A five-digit number is never a length; four and six digits are not dates.
func TestSerialLike(t *testing.T) {
	for text, want := range map[string]bool{"46281": true, "11933": true, "99999": true, "4628": false, "462810": false,
		"01234": false, "46281.5": false, "4628x": false} {
		if serialLike(text) != want {
			t.Errorf("%s: %v", text, !want)
		}
	}
}
