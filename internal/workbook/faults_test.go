package workbook

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"asleft/internal/field"

	"github.com/xuri/excelize/v2"
)

// expectedFault is a fault and the named cell it is to be found at.
type expectedFault struct {
	kind     field.FaultKind
	name     string // defined name of the cell; blank: nowhere
	col, row int    // counted from its first cell
	detail   string // a part of it
}

// reading is the first cell of a column of lengths.
const reading = "c01_clearance_asleft"

// TestFaults puts one thing that cannot be read into a clean form and asks for
// exactly one fault, at exactly its cell.
func TestFaults(t *testing.T) {
	date := func(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }
	put := func(name string, v any) func(*sheetEditor) { return func(e *sheetEditor) { e.set(name, v) } }
	dated := func(v any) func(*sheetEditor) {
		return func(e *sheetEditor) {
			e.set(reading, v)
			e.format(reading, "d-mmm")
		}
	}
	at := func(kind field.FaultKind, name, detail string) expectedFault {
		return expectedFault{kind, name, 0, 0, detail}
	}
	for _, c := range []struct {
		what   string
		change func(*sheetEditor)
		want   expectedFault
	}{
		{"a date where 9/16 was typed", dated(date(2026, 9, 16)), at(DateRead, reading, "2026-09-16 / 9/16")},
		{"a date where 9/32 was typed", dated(date(1932, 9, 1)), at(DateRead, reading, "9/32")},
		{"a date where 1-1/4 was typed", dated(date(2004, 1, 1)), at(DateRead, reading, "1-1/4")},
		{"a date typed day first", dated(date(2026, 4, 1)), at(DateRead, reading, "1/4")},
		{"a date without its format", put(reading, 46281), at(Serial, reading, "9/16")},
		{"a date's number as text", put(reading, "46281"), at(Serial, reading, "2026-09-16")},
		{"a date as text", put(reading, "9/16/26"), at(TextDate, reading, "")},
		{"a formula without a value", func(e *sheetEditor) {
			sheet, cell := e.cell(reading, 0, 0)
			e.must(e.SetCellFormula(sheet, cell, "1/2"))
		}, at(NoResult, reading, "")},
		{"percent", func(e *sheetEditor) { e.set(reading, 0.5); e.format(reading, "0%") }, at(Percent, reading, "")},
		{"true", put(reading, true), at(TrueFalse, reading, "")},
		{"a control character", put(reading, "1/2\u0085"), at(Control, reading, "U+0085")},
		{"a bidirectional override", put("project_owner", "Lark\u202emoor"), at(Control, "project_owner", "U+202E")},
		{"a zero-width space", put("c01_name", "CT\u200b2"), at(Control, "c01_name", "U+200B")},
		{"a long text", put("c01_remarks", strings.Repeat("x", maxText+1)), at(TooLong, "c01_remarks", "")},
		{"words", put(reading, "about half"), at(Vague, reading, "about")},
		{"nonsense", put(reading, "x"), at(NotNumber, reading, "")},
		{"strong", put(reading, "9/16 strong"), at(Vague, reading, "strong")},
		{"an ambiguous comma", put(reading, "1,250"), at(AmbiguousComma, reading, "")},
		{"an improper fraction", put(reading, "1-17/16"), at(Improper, reading, "")},
		{"a unit that is none", put(reading, "5 lb"), at(WrongUnit, reading, "")},
		{"two units", put(reading, "5 mm in"), at(TwoUnits, reading, "")},
		{"division by zero", put(reading, "1/0"), at(DivideByZero, reading, "")},
		{"an inexact length", put(reading, "1/3"), at(NotExact, reading, "")},
		{"an exponent", put(reading, "1e300"), at(WrongUnit, reading, "e300")},
		{"a number beyond any tower", put(reading, 1e12), at(TooLarge, reading, "")},
		{"other units beside bare numbers", func(e *sheetEditor) { e.set(reading, "1/2", "12.7 mm") }, at(MixedUnits, reading, "12.7 mm")},
		{"an angle that is none", put("c01_pitch_asleft", "steep"), at(NotNumber, "c01_pitch_asleft", "")},
		{"a choice that is none", put("tower_drivetype", "steam"), at(UnknownChoice, "tower_drivetype", "belt")},
		{"a tick that is none", put("c01_inpackage", "x"), at(UnknownChoice, "c01_inpackage", "yes, no")},
		{"no count", put("tower_segments", "a few"), at(NotCount, "tower_segments", "")},
		{"half a count", put("tower_segments", 2.5), at(NotCount, "tower_segments", "")},
		{"a negative count", put("tower_segments", -3), at(NotCount, "tower_segments", "")},
		{"a date that can be two", put("project_issuedate", "03/04/26"), at(AmbiguousDate, "project_issuedate", "")},
		{"no date", put("project_issuedate", "soon"), at(NotDate, "project_issuedate", "")},
		{"a day that is none", put("project_issuedate", "2026-02-30"), at(NotDate, "project_issuedate", "")},
		{"an odd date", put("project_issuedate", "1826-02-03"), at(OddDate, "project_issuedate", "1826")},
		{"a date and time", put("project_issuedate", 46114.25), at(DateAndTime, "project_issuedate", "2026-04-02")},
		{"a number for a date", func(e *sheetEditor) {
			e.set("project_issuedate", 46114)
			e.format("project_issuedate", "0")
		}, at(NotDate, "project_issuedate", "")},
		{"no time", func(e *sheetEditor) { e.setAt("c01_asfound_head", 0, 1, "25:10") }, expectedFault{NotClock, "c01_asfound_head", 0, 1, ""}},
		{"a time with seconds", func(e *sheetEditor) { e.setAt("c01_asfound_head", 0, 1, 0.5001) }, expectedFault{NotClock, "c01_asfound_head", 0, 1, ""}},
		{"a date in a text", func(e *sheetEditor) {
			e.set("project_revision", date(2026, 3, 1))
			e.format("project_revision", "yyyy-mm-dd")
		}, at(DateRead, "project_revision", "2026-03-01")},
		{"a serial number of 20 digits", put("c01_motor", 1.2345678901234567e19), at(Rounded, "c01_motor", "15")},
		{"a reading and a reason", func(e *sheetEditor) {
			e.set(reading, "1/2")
			e.set(reading+"_reasons", "blocked")
		}, at(ReadAndNot, reading+"_reasons", "")},
		{"no blades", put("tower_blades", nil), at(Required, "tower_blades", "")},
		{"positions at one place", func(e *sheetEditor) { e.set("positions", "90") }, expectedFault{SameDegrees, "positions", 0, 1, "1, 2"}},
		{"a waiver for no cell", func(e *sheetEditor) { e.set("waivers", 7) }, at(NoSuchCell, "waivers", "")},
		{"an attachment of no cell", func(e *sheetEditor) {
			e.set("attachments", "photo")
			e.setAt("attachments", 1, 0, 7)
			e.setAt("attachments", 2, 0, "hub.jpg")
			e.setAt("attachments", 3, 0, "the hub")
		}, expectedFault{NoSuchCell, "attachments", 1, 0, ""}},
		{"a picture without a caption", func(e *sheetEditor) {
			e.set("attachments", "photo")
			e.setAt("attachments", 2, 0, "hub.jpg")
		}, at(Required, "attachments", "")},
		{"an attachment that is not said to be one", func(e *sheetEditor) {
			e.setAt("attachments", 2, 0, "hub.jpg")
			e.setAt("attachments", 3, 0, "the hub")
		}, at(Required, "attachments", "")},
		{"a caption without a file", func(e *sheetEditor) {
			e.set("attachments", "manual")
			e.setAt("attachments", 3, 0, "of the gear reducer")
		}, at(Required, "attachments", "")},
		{"a blade that there is not", put("c01_tilt_blade", 5), at(NoSuchIndex, "c01_tilt_blade", "4")},
		{"a position that there is not", put("c01_pitch_position", 0), at(NoSuchIndex, "c01_pitch_position", "4")},
		{"a limit in the wrong column", put("limits", "1/2"), at(Closed, "limits", "")},
		{"a row under a table", func(e *sheetEditor) { e.setAt("c01_moves", 0, 18, "blade moved in or out") }, expectedFault{Beyond, "c01_moves", 0, 18, ""}},
		{"another label", put("c01_clearance_heads", "Datum"), at(WrongLabel, "c01_clearance_heads", "")},
		{"another round over the readings", func(e *sheetEditor) { e.setAt(reading, 0, -1, "As found") }, expectedFault{WrongLabel, reading, 0, -1, "As left"}},
		{"another line's label", func(e *sheetEditor) { e.setAt("project_plant", -1, 0, "Owner") }, expectedFault{WrongLabel, "project_plant", -1, 0, "Plant"}},
		{"a label twice", func(e *sheetEditor) { e.setAt("c01_clearance_positions", 0, 1, "Position 1") }, expectedFault{TwiceLabel, "c01_clearance_positions", 0, 1, ""}},
		{"another column's head", func(e *sheetEditor) { e.setAt("people", 1, -1, "Nick") }, expectedFault{WrongLabel, "people", 1, -1, ""}},
		{"a value in a column without a head", func(e *sheetEditor) {
			e.must(e.InsertCols("People", "C", 1))
			e.setAt("people", 2, 3, "?")
		}, expectedFault{NoLabel, "people", 2, 3, ""}},
		{"a merge over two boxes", func(e *sheetEditor) {
			sheet, from := e.cell(reading, 0, 0)
			_, to := e.cell(reading, 0, 1)
			e.must(e.MergeCell(sheet, from, to))
		}, at(Merged, reading, "")},
	} {
		t.Run(c.what, func(t *testing.T) { oneFault(t, c.change, c.want) })
	}
}

// oneFault applies a change to the small form and asks for one fault.
func oneFault(t *testing.T, change func(*sheetEditor), want expectedFault) {
	t.Helper()
	place := field.Ref{}
	b := edit(t, blankSmall(t), func(e *sheetEditor) {
		change(e)
		if want.name != "" {
			place.Sheet, place.Cell = e.cell(want.name, want.col, want.row)
		}
	})
	_, faults := mustRead(t, b)
	var found []field.Fault
	for _, f := range faults {
		if f.Kind == want.kind {
			found = append(found, f)
		}
	}
	if len(found) != 1 || found[0].At != place || !strings.Contains(found[0].Detail, want.detail) {
		t.Errorf("want %s at %s with %q, got %+v", want.kind, place, want.detail, faults)
	}
	// A label that is gone is missed, too; nothing else follows from one fault.
	if len(faults) > 1 && want.kind != WrongLabel && want.kind != TwiceLabel && want.kind != Required {
		t.Errorf("more faults: %+v", faults)
	}
	w := english(t)
	for _, f := range faults {
		text := w.Say("fault."+string(f.Kind), "read", f.Read, "expected", w.Say("expected."+f.Expected), "detail", f.Detail)
		if strings.Contains(text, "[") || strings.Contains(text, "{") || strings.Contains(text, "[expected.") {
			t.Errorf("%s: %s", f.Kind, text)
		}
	}
}

// What a spreadsheet writes and the editing library cannot.
func TestRawCells(t *testing.T) {
	form := edit(t, blankSmall(t), func(e *sheetEditor) { e.set(reading, 77777) })
	sheet := partWith(t, form, "<v>77777</v>")
	was := regexp.MustCompile(`<c r="([A-Z]+\d+)" s="(\d+)"><v>77777</v></c>`)
	for _, c := range []struct {
		what, cell string
		kind       field.FaultKind // blank: none
		text       string
	}{
		{"an error", `t="e"><v>#DIV/0!</v></c>`, ErrorValue, "#DIV/0!"},
		{"an error of a formula", `t="e"><f>1/0</f><v>#REF!</v></c>`, ErrorValue, "#REF!"},
		{"a formula with its value", `><f>9/16</f><v>0.5625</v></c>`, "", "0.5625"},
		{"a formula with a text", `t="str"><f>"1/2"</f><v>1/2</v></c>`, "", "1/2"},
		{"a formula without a value", `><f>9/16</f></c>`, NoResult, ""},
		{"a formula that gives nothing", `t="str"><f>""</f><v></v></c>`, "", ""},
		{"an inline text", `t="inlineStr"><is><t xml:space="preserve"> 9/16 </t></is></c>`, "", "9/16"},
		{"a text in runs", `t="inlineStr"><is><r><t>9</t></r><r><rPr/><t>/16</t></r><rPh><t>x</t></rPh></is></c>`, "", "9/16"},
		{"a number with its type", `t="n"><v>0.5</v></c>`, "", "0.5"},
		{"binary noise", `><v>0.30000000000000004</v></c>`, "", "0.3"},
		{"a number out of range", `><v>1E400</v></c>`, TooLarge, "1E400"},
		{"no number", `><v>NaN</v></c>`, NotNumber, "NaN"},
		{"a date by its type", `t="d"><v>2026-09-16T00:00:00</v></c>`, DateRead, "2026-09-16T00:00:00"},
		{"an escaped control character", `t="inlineStr"><is><t>1/2_x0007_</t></is></c>`, Control, `1/2\a`},
		{"an entity", `t="inlineStr"><is><t>&#49;/2</t></is></c>`, "", "1/2"},
		{"blank", `></c>`, "", ""},
	} {
		t.Run(c.what, func(t *testing.T) {
			b := patch(t, form, sheet, func(xml []byte) []byte {
				return was.ReplaceAll(xml, []byte(`<c r="$1" s="$2" `+c.cell))
			})
			record, faults := mustRead(t, b)
			if c.kind == "" {
				if got := record.Cells[0].Clearance.Rounds[1].Readings[0].Value.Text; len(faults) > 0 || got != c.text {
					t.Errorf("read %q, faults %+v", got, faults)
				}
				return
			}
			if len(faults) != 1 || faults[0].Kind != c.kind || faults[0].Read != c.text {
				t.Errorf("faults %+v", faults)
			}
		})
	}
}

// Names that were lost or bent are told by name; all faults come in one run, in
// the order of the sheets.
func TestBrokenNames(t *testing.T) {
	form := edit(t, blankSmall(t), func(e *sheetEditor) {
		e.set("project_units", "feet")
		e.set("c02_tilt_asleft", "x")
		e.set("c01_tilt_asleft", "x", "y")
	})
	b := patch(t, form, "xl/workbook.xml", func(xml []byte) []byte {
		for _, r := range []struct{ old, new string }{
			{`(<definedName [^>]*name="c01_track_asleft"[^>]*>)[^<]*`, `$1#REF!`},
			{`(<definedName [^>]*name="c01_pitch_asleft"[^>]*>)[^<]*`, `$1'Cell 1'!$$E$$5:$$F$$8`},
			{`(<definedName [^>]*name="c01_tipradius_asleft_return"[^>]*>)[^<]*`, `$1'Cell 1'!$$E$$5:$$E$$6`},
			{`(<definedName [^>]*name="c01_clearance_asleft"[^>]*>)[^<]*`, `$1'Cell 2'!$$E$$133:$$E$$136`},
			{`<definedName [^>]*name="limits"[^>]*>[^<]*</definedName>`, ``},
		} {
			xml = regexp.MustCompile(r.old).ReplaceAll(xml, []byte(r.new))
		}
		return xml
	})
	_, faults := mustRead(t, b)
	var got []string
	for _, f := range faults {
		got = append(got, strings.TrimSpace(string(f.Kind)+" "+f.At.String()+" "+strings.Fields(f.Detail + " .")[0]))
	}
	want := []string{"badname  c01_track_asleft", "noname  limits", "choice Project!B18 in,", "shape Cell 1!E5 c01_pitch_asleft",
		"shape Cell 1!E5 c01_tipradius_asleft_return", "notnumber Cell 1!E72 x", "notnumber Cell 1!E73 y",
		"notnumber Cell 2!E72 x", "shape Cell 2!E133 c01_clearance_asleft"}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// A sheet copied in a spreadsheet takes copies of its names along; what is
// typed there is not read, and that is said.
func TestCopiedSheet(t *testing.T) {
	b := edit(t, blankSmall(t), func(e *sheetEditor) {
		i, err := e.NewSheet("Cell 1 (2)")
		e.must(err)
		from, err := e.GetSheetIndex("Cell 1")
		e.must(err)
		e.must(e.CopySheet(from, i))
		e.must(e.SetDefinedName(&excelize.DefinedName{Name: "c01_tilt_asleft", RefersTo: "'Cell 1 (2)'!$E$71:$E$74", Scope: "Cell 1 (2)"}))
	})
	_, faults := mustRead(t, b)
	if len(faults) != 1 || faults[0].Kind != CopiedSheet || faults[0].At.Sheet != "Cell 1 (2)" {
		t.Errorf("faults %+v", faults)
	}
}

// A blade more than the form was made for needs its number and its rows.
func TestAddedBlade(t *testing.T) {
	add := func(n int) []byte {
		return edit(t, blankSmall(t), func(e *sheetEditor) {
			e.set("tower_blades", n)
			for _, block := range []string{"pitch", "track", "tipradius"} {
				sheet, last := e.cell("c01_"+block+"_blades", 0, 3)
				at, _ := parsePos(last)
				e.must(e.InsertRows(sheet, at.row, 1)) // inside the range, so the names grow
				e.setAt("c01_"+block+"_blades", 0, 3, "5")
			}
		})
	}
	_, faults := mustRead(t, add(5))
	for _, f := range faults {
		if f.Kind != CountDiffers || f.At.Sheet != "Cell 2" {
			t.Errorf("%+v", f)
		}
	}
	if len(faults) != 3 {
		t.Errorf("%d faults; the three blocks of cell 2 have a blade less", len(faults))
	}
	_, faults = mustRead(t, add(4))
	if len(faults) != 3 || faults[0].Kind != CountDiffers || faults[0].Read != "5" || faults[0].Detail != "4" {
		t.Errorf("%+v", faults)
	}
}
