package workbook

import (
	"bytes"
	"testing"
	"time"

	"asleft/internal/field"
	"asleft/internal/measure"

	"github.com/xuri/excelize/v2"
)

// fillSmall fills enough of the small form to see each kind of box.
func fillSmall(e *sheetEditor) {
	e.set("project_plant", "Larkmoor Works (invented)")
	e.set("project_issuedate", time.Date(2026, 4, 2, 0, 0, 0, 0, time.UTC))
	e.set("project_notice", "line one\nline two")
	e.set("tower_drivetype", "Right-angle gear reducer")
	e.set("tower_fandiameter", "28 ft")
	e.setAt("limits", 6, 3, "contract")
	e.setAt("limits", 2, 5, "12.5")
	e.setAt("limits", 4, 5, "0.5")
	e.set("instruments", "L-1")
	e.setAt("instruments", 4, 0, "0.05°")
	e.setAt("instruments", 6, 0, 2)
	e.setAt("instruments", 4, 1, "1/64 in")
	e.setAt("instruments", 0, 1, "R-1")
	e.set("people", "Tor Brandvold", "Pia Wexcombe")
	e.set("c01_name", "CT-2/1")
	e.set("c01_inpackage", "no")
	e.set("c01_asfound_head", "2026-03-09", "8:15", nil, 1, "Tor Brandvold")
	e.set("c01_clearance_asfound_head", nil, "2:05 pm", nil, nil, nil, "R-1", "yes", 3)
	e.set("c01_clearance_asfound", "9/16", 0.5, "12.7 mm", "1-1/4 in")
	e.set("c01_clearance_asfound_return", "½ in")
	e.set("c01_clearance_asleft", nil, "1/2", "15/32", "0.5")
	e.set("c01_clearance_asleft_reasons", "drive-shaft opening")
	e.set("c01_tilt_sense", "Down")
	e.set("c01_tilt_asfound", "14", "14-1/16", "13.9375", "14")
	e.set("c01_tilt_marks", "0", "1/8", "-1/16", "0")
	e.set("c01_pitch_asleft", "12.4", 12.5, "12° 36'", "12.5°")
	e.set("c01_moves", "gear reducer shimmed")
	e.setAt("c01_moves", 2, 0, "2026-03-09")
	e.setAt("c01_moves", 3, 0, "11:30")
	e.setAt("c01_moves", 7, 0, "Pia Wexcombe")
	e.setAt("c01_moves", 0, 2, "blade.move") // a code, and a blank row before it
}

func TestRoundTrip(t *testing.T) {
	b := edit(t, blankSmall(t), func(e *sheetEditor) {
		fillSmall(e)
		// Mixed with bare numbers, the 12.7 mm of one reading would be a fault.
		e.set("c01_clearance_asfound", "9/16 in", "0.5 in", "12.7 mm", "1-1/4 in")
	})
	r := clean(t, b)
	if got := r.Project.Notice.Value; got != "line one line two" {
		t.Errorf("notice %q", got)
	}
	if r.Project.IssueDate.Value != (field.Day{Year: 2026, Month: 4, Day: 2}) {
		t.Errorf("issue date %v", r.Project.IssueDate)
	}
	if r.Tower.DriveType.Value != "rightangle" || r.Tower.FanDiameter.Value != 28*measure.Foot {
		t.Errorf("tower %+v", r.Tower)
	}
	c := r.Cells[0]
	if !c.InPackage.Set || c.InPackage.Value || c.Name.Value != "CT-2/1" {
		t.Errorf("cell %+v", c.InPackage)
	}
	checkClearance(t, c)
	if got := texts(c.Tilt.Rounds[0], lengthText); got != "14 14-1/16 13.9375 14" {
		t.Errorf("tilt %s", got)
	}
	if m := c.Tilt.Rounds[1].Readings[2].Mark; m.Value != -measure.Inch/16 {
		t.Errorf("mark %+v: marks belong to every round", m)
	}
	pitch := c.Pitch.Rounds[1].Readings
	for i, want := range []measure.Angle{124, 125, 126, 125} {
		if pitch[i].Value.Value != want*measure.Degree/10 {
			t.Errorf("pitch of blade %d: %s", i+1, pitch[i].Value.Value)
		}
	}
	if len(c.Moves) != 2 || c.Moves[0].Event.Value != "gear.shim" || c.Moves[0].Time.Value != 11*60+30 ||
		c.Moves[0].By.Value != "Pia Wexcombe" || c.Moves[1].Event.Value != "blade.move" {
		t.Errorf("moves %+v", c.Moves)
	}
	i := r.Instruments
	if len(i) != 2 || i[0].AngleResolution.Value != measure.Degree/20 || i[0].Resolution.Set ||
		i[0].Coverage.Value != "2" || i[1].Resolution.Value != measure.SixtyFourth {
		t.Errorf("instruments %+v", i)
	}
	checkLimits(t, r)
}

func checkClearance(t *testing.T, c field.Cell) {
	t.Helper()
	found, left := c.Clearance.Rounds[0], c.Clearance.Rounds[1]
	for i, want := range []measure.Length{measure.Inch * 9 / 16, measure.Inch / 2, 12700 * measure.Micrometer, measure.Inch * 5 / 4} {
		if got := found.Readings[i].Value; got.Value != want {
			t.Errorf("clearance %d: %s %q", i+1, got.Value, got.Text)
		}
	}
	if found.Readings[2].Value.Unit != measure.UnitMillimeter || found.Return.Value != measure.Inch/2 || found.Blade.Value != 3 {
		t.Errorf("clearance %+v", found)
	}
	// The block's own start stands; date and reader come from the cell's head.
	h := found.Head
	if h.Start.Value != 14*60+5 || h.Date.Value.String() != "2026-03-09" || h.ReadBy.Value != "Tor Brandvold" ||
		h.Sequence.Value != 1 || !h.HoldDownsFinal.Value {
		t.Errorf("head %+v", h)
	}
	first := left.Readings[0]
	if first.Value.Set || first.Reason.Value != "drive-shaft opening" {
		t.Errorf("blocked position %+v", first)
	}
	if got := texts(left.Series, lengthText); got != "- 1/2 15/32 0.5" {
		t.Errorf("as left %s", got)
	}
}

func checkLimits(t *testing.T, r field.Record) {
	t.Helper()
	by := map[string]field.Limit{}
	for _, l := range r.Limits {
		by[l.Check] = l
	}
	if l := by["tilt"]; l.Max.Value != measure.Inch || l.Authority.Value != "start" {
		t.Errorf("tilt %+v", l)
	}
	if l := by["clearance"]; l.Authority.Value != "contract" || l.Nominal.Value != measure.Inch/2 || l.Tolerance.Value != measure.Inch/8 {
		t.Errorf("clearance %+v", l)
	}
	if l := by["pitch"]; l.AngleNominal.Value != 125*measure.Degree/10 || l.AngleTol.Value != measure.Degree/2 {
		t.Errorf("pitch %+v", l)
	}
	if _, ok := by["track"]; ok {
		t.Error("a limit that nobody gave")
	}
}

// People insert rows and columns and rename and move sheets; the readings are
// the same, their places are not.
func TestMovedBlocksReadTheSame(t *testing.T) {
	filled := edit(t, blankSmall(t), func(e *sheetEditor) {
		fillSmall(e)
		e.set("c01_clearance_asfound", "9/16", "1/2", "15/32", "1-1/4")
	})
	before := clean(t, filled)
	moved := edit(t, filled, func(e *sheetEditor) {
		sheet, first := e.cell("c01_clearance_asfound", 0, 0)
		at, _ := parsePos(first)
		e.must(e.InsertRows(sheet, at.row+2, 2)) // inside the readings
		e.must(e.InsertRows(sheet, at.row, 1))   // between head and readings
		e.must(e.InsertRows(sheet, 2, 3))
		e.must(e.InsertCols(sheet, "D", 1))
		e.must(e.InsertCols("Limits", "E", 1))
		e.must(e.InsertRows("Limits", 7, 1))
		e.must(e.InsertRows("Project", 10, 2))
		e.must(e.MoveSheet("Limits", "Guide"))
		_, err := e.NewSheet("Scratch")
		e.must(err)
	})
	// The editing library forgets the names when it renames a sheet.
	moved = patch(t, moved, "xl/workbook.xml", func(xml []byte) []byte {
		return bytes.ReplaceAll(xml, []byte("Cell 1"), []byte("Kühlturm 1"))
	})
	after := clean(t, moved)
	c, d := before.Cells[0].Clearance.Rounds[0], after.Cells[0].Clearance.Rounds[0]
	if texts(c.Series, lengthText) != texts(d.Series, lengthText) {
		t.Errorf("%s, moved %s", texts(c.Series, lengthText), texts(d.Series, lengthText))
	}
	if c.Readings[3].Value.At == d.Readings[3].Value.At || d.Readings[3].Value.At.Sheet != "Kühlturm 1" {
		t.Errorf("moved reading at %s", d.Readings[3].Value.At)
	}
	if len(before.Limits) != len(after.Limits) || after.Project.Plant.Value != before.Project.Plant.Value {
		t.Error("limits or project differ")
	}
	if x := after.Files[0].Extra; len(x) != 1 || x[0] != "Scratch" {
		t.Errorf("extra sheets %q", x)
	}
}

// An old Macintosh workbook counts days from 1904.
func TestDatesFrom1904(t *testing.T) {
	yes := true
	b := edit(t, blankSmall(t), func(e *sheetEditor) {
		e.must(e.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes}))
		e.set("project_issuedate", 46114-1462) // 2026-04-02
	})
	if got := clean(t, b).Project.IssueDate.Value.String(); got != "2026-04-02" {
		t.Errorf("read %s", got)
	}
}

// What else is in the workbook is listed, because it goes into the package.
func TestHiddenSheetsCommentsAndAuthors(t *testing.T) {
	b := edit(t, blankSmall(t), func(e *sheetEditor) {
		_, err := e.NewSheet("Prices")
		e.must(err)
		e.must(e.SetSheetVisible("Prices", false))
		e.must(e.AddComment("Cell 1", excelize.Comment{Cell: "C5", Author: "P. Wexcombe", Text: "read twice"}))
		e.must(e.SetDocProps(&excelize.DocProperties{Creator: "O. Garrick", LastModifiedBy: "T. Brandvold"}))
	})
	f := clean(t, b).Files[0]
	if len(f.Hidden) != 1 || f.Hidden[0] != "Prices" || len(f.Extra) != 1 {
		t.Errorf("hidden %q, extra %q", f.Hidden, f.Extra)
	}
	if len(f.Comments) != 1 || f.Comments[0].At.String() != "Cell 1!C5" || f.Comments[0].Author != "P. Wexcombe" {
		t.Errorf("comments %+v", f.Comments)
	}
	if len(f.Authors) != 3 {
		t.Errorf("authors %q", f.Authors)
	}
	if f.Form != Version || f.Size != len(b) || len(f.SHA256) != 64 {
		t.Errorf("file %+v", f)
	}
}

func BenchmarkRead12Cells(b *testing.B) {
	form := edit(b, blank(b, FormOptions{Cells: 12}), fillSmall12)
	words := english(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Read([]Input{{"x.xlsx", form}}, words); err != nil {
			b.Fatal(err)
		}
	}
}

// fillSmall12 fills the readings of all cells of a form for twelve.
func fillSmall12(e *sheetEditor) {
	for n := 1; n <= 12; n++ {
		for _, block := range []string{"tilt", "clearance"} {
			for _, round := range roundKeys(3) {
				for i := range 12 {
					e.setAt(cellPrefix(n)+block+"_"+round, 0, i, "9/16")
				}
			}
		}
	}
}
