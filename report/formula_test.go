package report_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"asleft/report"
)

// formulaStarts are what a spreadsheet takes for the start of a formula.
var formulaStarts = []string{"=1+1", "+1+1", "-x", "@x"}

// ourNumber is a number of ours, which may begin with a minus sign.
var ourNumber = regexp.MustCompile(`^-[0-9]+(\.[0-9]+)?$`)

// freeText are names of cells that take any text. Of a table, the columns.
var freeText = map[string][]int{
	"project_plant": nil, "project_owner": nil, "project_contractor": nil, "project_contract": nil, "project_document": nil,
	"project_revision": nil, "project_notice": nil, "tower_tag": nil, "tower_location": nil, "c01_name": nil, "c01_motor": nil,
	"c01_starter": nil, "c01_remarks": nil, "limits": {7, 8, 9, 10, 11}, "instruments": {1, 2, 10}, "people": {0, 2, 3, 4},
	"roles": {0, 1, 2, 3}, "openitems": {0, 1, 2}, "c01_vibration": {0}, "c01_clearance_asleft_reasons": {0},
}

// typedFormulas is a workbook in which every free text begins as a formula does,
// and how many do.
func typedFormulas(t *testing.T, b []byte) ([]byte, int) {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	n := 0
	write := func(sheet string, column, row int) {
		cell, err := excelize.CoordinatesToCellName(column, row)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.SetCellStr(sheet, cell, formulaStarts[n%len(formulaStarts)]); err != nil {
			t.Fatal(err)
		}
		n++
	}
	for _, name := range f.GetDefinedName() {
		columns, ok := freeText[name.Name]
		if !ok {
			continue
		}
		sheet, area, _ := strings.Cut(strings.ReplaceAll(name.RefersTo, "$", ""), "!")
		sheet = strings.Trim(sheet, "'")
		first, _, _ := strings.Cut(area, ":")
		column, row, err := excelize.CellNameToCoordinates(first)
		if err != nil {
			t.Fatal(err)
		}
		if columns == nil {
			write(sheet, column, row)
		}
		for _, c := range columns {
			write(sheet, column+c, row)
		}
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), n
}

// noFormula sees that no field of a table is one for a spreadsheet, and counts
// those that were kept from being one.
func noFormula(t *testing.T, name string, table []byte) (kept int) {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(table)).ReadAll()
	if err != nil {
		t.Fatal(name, err)
	}
	for _, row := range rows {
		for _, s := range row {
			if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) && !ourNumber.MatchString(s) {
				t.Errorf("%s: %q", name, s)
			}
			for _, start := range formulaStarts {
				if strings.HasPrefix(s, "'"+start) {
					kept++
				}
			}
		}
	}
	return kept
}

func TestNothingTypedBecomesAFormula(t *testing.T) {
	typed, n := typedFormulas(t, load(t, "metric.xlsx"))
	if n <= len(freeText) {
		t.Fatalf("only %d texts", n)
	}
	const book = "=tower.xlsx"
	job, err := report.Open(bytes.NewReader(typed), int64(len(typed)), book, report.Options{})
	if err != nil {
		t.Fatal(err)
	}
	files, err := job.Files()
	if err != nil {
		t.Fatal(err)
	}
	tables, kept := 0, map[string]int{}
	for _, f := range files {
		if strings.HasSuffix(f.Name, ".csv") {
			tables++
			kept[f.Name] = noFormula(t, f.Name, f.Bytes)
		}
	}
	if tables != 4 || kept["entries.csv"]+kept["readings.csv"] < n || kept["limits.csv"] == 0 || kept["items.csv"] == 0 || kept["readings.csv"] == 0 {
		t.Errorf("%d tables, %d texts typed, in them %v", tables, n, kept)
	}
	registered(t, book, typed)
}

// registered does the same with the register of such a workbook.
func registered(t *testing.T, name string, book []byte) {
	t.Helper()
	dir := t.TempDir()
	for _, name := range []string{name, "@faulty.xlsx"} {
		content := book
		if name[0] == '@' {
			content = []byte("no workbook")
		}
		if err := os.WriteFile(filepath.Join(dir, name), content, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	r, err := report.Gather(context.Background(), []report.Folder{{Name: "-folder", Root: root}}, report.Many{Workers: 1})
	if err != nil || r.Counts().Towers != 1 || len(r.Unread()) != 1 {
		t.Fatal(r.Counts(), r.Unread(), err)
	}
	var table, workbook bytes.Buffer
	if err := r.Write(&table, report.Print{Format: report.FormatCSV}); err != nil {
		t.Fatal(err)
	}
	if noFormula(t, "register", table.Bytes()) == 0 {
		t.Error("no such text in the register")
	}
	if err := r.Write(&workbook, report.Print{Format: report.FormatXLSX}); err != nil {
		t.Fatal(err)
	}
	if texts := formulas(t, workbook.Bytes()); len(texts) > 0 {
		t.Errorf("register: %q", texts)
	}
}

// formulas are those in the cells of a workbook.
func formulas(t *testing.T, b []byte) (all []string) {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for y, row := range rows {
			for x := range row {
				cell, _ := excelize.CoordinatesToCellName(x+1, y+1)
				if s, _ := f.GetCellFormula(sheet, cell); s != "" {
					all = append(all, s)
				}
			}
		}
	}
	return all
}

// ourFormula is one that a form holds: each reckons with cells of the form.
var ourFormula = regexp.MustCompile(`^((IF|IFERROR)\(|""$)`)

func TestOrderOfAFormBringsNoFormula(t *testing.T) {
	var b bytes.Buffer
	if err := report.WriteForm(&b, report.FormOptions{Cells: 1, Blades: 4, Positions: 8, Units: "in", First: "15", Paper: "A4",
		Language: "en", DriveType: "direct", Without: report.FormBlocks()[:1]}); err != nil {
		t.Fatal(err)
	}
	all := formulas(t, b.Bytes())
	if len(all) == 0 {
		t.Error("a form has formulas of ours")
	}
	for _, s := range all {
		if !ourFormula.MatchString(s) {
			t.Errorf("formula %q", s)
		}
	}
	for _, s := range formulaStarts {
		for name, o := range map[string]report.FormOptions{"units": {Units: s}, "first": {First: s}, "paper": {Paper: s},
			"language": {Language: s}, "drive": {DriveType: s}, "without": {Without: []string{s}}} {
			if err := report.WriteForm(io.Discard, o); err == nil {
				t.Errorf("%s %q was taken", name, s)
			}
		}
	}
}
