package register

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"asleft/internal/data"
	"asleft/templates"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// fakeJudge takes the first line of a workbook for the tower's tag; its data
// file has a cell for each workbook.
func fakeJudge(files []File) ([]byte, error) {
	tag, rest, _ := strings.Cut(string(files[0].Bytes), "\n")
	switch tag {
	case "foreign":
		return nil, ErrNoForm
	case "faulty":
		return nil, errors.New("Cell 1!D4: nonsense\nCell 1!D5: more of it")
	}
	cells := ""
	for i := range files {
		cells += fmt.Sprintf(`"%d":{"inPackage":true,"state":"ready","entries":{"name":{"value":"%s"}},"blocks":{},"checks":{
			"tilt":{"verdict":"outside","standing":"asleft","rounds":{"asfound":{"verdict":"within","expected":1,"found":1,"head":{},"results":{},"readings":{}},
			"asleft":{"verdict":"outside","margin":{"value":"-0.5","unit":"in","base":-12700000},"expected":1,"found":1,"head":{},"results":{},"readings":{}}}}}},`, i+1, rest)
	}
	return fmt.Appendf(nil, `{"schema":"asleft/1","state":"ready","project":{"plant":{"value":"=P"}},"tower":{"tag":{"value":"%s"}},"cells":{%s}}`,
		tag, strings.TrimSuffix(cells, ",")), nil
}

func folder(files map[string]string) Root {
	m := fstest.MapFS{}
	for name, content := range files {
		m[name] = &fstest.MapFile{Data: []byte(content)}
	}
	return Root{"plant", m}
}

func gather(t *testing.T, r ...Root) *Register {
	t.Helper()
	var last [2]int
	g, err := Gather(context.Background(), r, Options{Judge: fakeJudge, Workers: 3, Progress: func(done, total int) { last = [2]int{done, total} }})
	if err != nil {
		t.Fatal(err)
	}
	if last[0] != last[1] {
		t.Errorf("progress ended with %d of %d", last[0], last[1])
	}
	return g
}

func TestOneBadFileStopsNothing(t *testing.T) {
	g := gather(t, folder(map[string]string{
		"a/one.xlsx": "CT-1\n", "a/bad.xlsx": "faulty", "a/other.XLSX": "foreign", "a/manual.pdf": "%PDF-1.4",
		"a/broken.pdf": "%PDF-1.7 <pdf:Producer>asleft 0.1.0</pdf:Producer>",
		"a/~$one.xlsx": "lock", ".trash/two.xlsx": "CT-9\n", "b/notes.txt": "",
	}))
	var towers, faults []string
	for _, o := range g.Towers {
		towers = append(towers, o.Path+" "+o.Tag)
	}
	for _, f := range g.Faults {
		faults = append(faults, f.Path)
	}
	if diff := cmp.Diff([]string{"plant/a/one.xlsx CT-1"}, towers); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"plant/a/bad.xlsx", "plant/a/broken.pdf"}, faults); diff != "" {
		t.Error(diff)
	}
	if g.Other != 2 || g.Judged != 1 {
		t.Errorf("other %d, judged %d", g.Other, g.Judged)
	}
}

func TestWorkbooksOfOneFolderAndTowerAreOne(t *testing.T) {
	g := gather(t, folder(map[string]string{
		"a/north.xlsx": "CT-1\n", "a/south.xlsx": "CT-1\n", "b/east.xlsx": "CT-1\n", "a/x.xlsx": "\n", "a/y.xlsx": "\n",
	}))
	var got []string
	for _, o := range g.Towers {
		got = append(got, fmt.Sprint(strings.Join(o.Workbooks, "+"), " ", len(o.Cells), " ", o.Same))
	}
	want := []string{"plant/a/north.xlsx+plant/a/south.xlsx 2 [plant/b/east.xlsx]", "plant/a/x.xlsx 1 []", "plant/a/y.xlsx 1 []",
		"plant/b/east.xlsx 1 [plant/a/north.xlsx]"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func print(t *testing.T) Print {
	t.Helper()
	words, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	return Print{Words: words, Link: func(path string) string { return "../" + path }}
}

func TestCSVHoldsNoFormula(t *testing.T) {
	g := gather(t, folder(map[string]string{"one.xlsx": "-CT\n+1"}))
	var b bytes.Buffer
	if err := g.WriteCSV(&b, print(t)); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != 2 || len(rows[0]) != len(rows[1]) {
		t.Fatal(err, rows)
	}
	row := map[string]string{}
	for i, h := range rows[0] {
		row[h] = rows[1][i]
	}
	for head, want := range map[string]string{"Tower": "'-CT", "Name": "'+1", "Plant": "'=P", "Fan tilt": "outside",
		"Fan tilt: margin": "-0.500", "Fan tilt: unit": "in"} {
		if row[head] != want {
			t.Errorf("%s: %q, want %q", head, row[head], want)
		}
	}
}

func TestWorkbookHasLinksFiltersAndFrozenHeads(t *testing.T) {
	g := gather(t, folder(map[string]string{"a b/one.xlsx": "=CT\n", "bad.xlsx": "faulty"}))
	var first, second bytes.Buffer
	for _, b := range []*bytes.Buffer{&first, &second} {
		if err := g.WriteXLSX(b, print(t)); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("not the same bytes twice")
	}
	f, err := excelize.OpenReader(&first)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if diff := cmp.Diff([]string{"Cells", "Checks", "Towers", "Not read"}, f.GetSheetList()); diff != "" {
		t.Error(diff)
	}
	if formula, _ := f.GetCellFormula("Cells", "A2"); formula != "" {
		t.Errorf("formula %q", formula)
	}
	if tag, _ := f.GetCellValue("Cells", "A2"); tag != "=CT" {
		t.Errorf("tag %q", tag)
	}
	if ok, link, _ := f.GetCellHyperLink("Cells", "G2"); !ok || link != "../plant/a%20b/one.xlsx" {
		t.Errorf("link %q", link)
	}
	for _, sheet := range f.GetSheetList() {
		if panes, err := f.GetPanes(sheet); err != nil || !panes.Freeze || panes.YSplit != 1 {
			t.Errorf("%s: panes %+v, %v", sheet, panes, err)
		}
	}
	if rows, _ := f.GetRows("Not read"); len(rows) != 3 {
		t.Errorf("faults: %v", rows)
	}
}

func TestJSONKeepsAmountsExact(t *testing.T) {
	g := gather(t, folder(map[string]string{"one.xlsx": "CT-1\n"}))
	var b bytes.Buffer
	if err := g.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"schema": "asleft-register/1"`, `"base": -12700000`, `"rightFirst": 1`, `"notRead": []`} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %s in\n%s", want, b.String())
		}
	}
}

func TestLaterDataFilesAreRead(t *testing.T) {
	d, err := data.Read([]byte(`{"schema":"asleft/1","state":"ready","later":{"x":1},"cells":{}}`))
	if err != nil || d.State != "ready" {
		t.Error(d, err)
	}
	if _, err := data.Read([]byte(`{"schema":"other/1"}`)); !errors.Is(err, data.ErrSchema) {
		t.Error(err)
	}
}
