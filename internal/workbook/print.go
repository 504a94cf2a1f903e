package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// Paper codes of the file format.
const (
	paperLetter = 1
	paperA4     = 9
)

// page makes the sheet a good paper form: its scale, breaks, the title on each
// page, and a header and footer with room for what paper needs.
func (w *writer) page(s *sheetPlan) {
	size, orientation := paperLetter, "portrait"
	if w.o.Paper == "A4" {
		size = paperA4
	}
	if s.wide {
		orientation = "landscape"
	}
	scale := uint(s.scale)
	w.must(w.file.SetPageLayout(s.title, &excelize.PageLayoutOptions{Size: &size, Orientation: &orientation, AdjustTo: &scale}))
	w.must(w.file.SetPageMargins(s.title, margins()))
	w.must(w.file.SetHeaderFooter(s.title, &excelize.HeaderFooterOptions{
		OddHeader: "&L&9" + w.o.Words.Say("form.page.header") + "&C&9&A&R&9" + w.o.Words.Say("form.page.number"),
		OddFooter: "&L&9" + w.o.Words.Say("form.page.footer") + "&R&9" + w.o.Words.Say("form.page.version", "version", Version),
	}))
	for _, row := range s.breaks {
		w.must(w.file.InsertPageBreak(s.title, pos{1, row}.String()))
	}
	whole := area{s.title, pos{1, 1}, pos{len(s.widths), s.rows}}
	if s.printed.sheet != "" {
		whole = s.printed
	}
	w.must(w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: whole.absolute(), Scope: s.title}))
	titles := fmt.Sprintf("%s!$1:$%d", quoteSheet(s.title), s.frozen)
	w.must(w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: titles, Scope: s.title}))
	w.view(s)
}

// margins in inches, as pages.go counts them in points.
func margins() *excelize.PageLayoutMarginsOptions {
	side, top, bottom, edge := marginSide/72, marginTop/72, marginBottom/72, 0.25
	centered := true
	return &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &top, Bottom: &bottom,
		Header: &edge, Footer: &edge, Horizontally: &centered}
}

// view keeps the title in sight and hides the grid: the boxes are the form.
func (w *writer) view(s *sheetPlan) {
	grid := false
	w.must(w.file.SetSheetView(s.title, 0, &excelize.ViewOptions{ShowGridLines: &grid}))
	w.must(w.file.SetPanes(s.title, &excelize.Panes{Freeze: true, YSplit: s.frozen,
		TopLeftCell: pos{1, s.frozen + 1}.String(), ActivePane: "bottomLeft"}))
}

// protect keeps labels from being overtyped by mistake. There is no password:
// it is a guard rail, not a lock. Adding rows and columns, notes, formats and
// links stays allowed.
func (w *writer) protect(s *sheetPlan) {
	w.must(w.file.ProtectSheet(s.title, &excelize.SheetProtectionOptions{
		EditObjects: true, EditScenarios: true, FormatCells: true, FormatColumns: true, FormatRows: true,
		InsertColumns: true, InsertRows: true, InsertHyperlinks: true, DeleteRows: true, Sort: true, AutoFilter: true,
		SelectLockedCells: true, SelectUnlockedCells: true,
	}))
}
