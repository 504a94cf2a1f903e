package screen_test

import (
	"os"
	"path/filepath"
	"testing"

	"asleft/internal/field"
	"asleft/internal/screen"
	"asleft/internal/workbook"
	"asleft/templates"
)

// load reads one of the demonstration workbooks.
func load(t testing.TB, name string) *field.Record {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	words, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	r, faults, err := workbook.Read([]workbook.Input{{Name: name, Bytes: b}}, words)
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return &r
}

func TestDemonstrationsRaiseNothing(t *testing.T) {
	for _, name := range []string{"demo.xlsx", "metric.xlsx"} {
		for _, q := range screen.Questions(load(t, name)) {
			t.Errorf("%s: %s %v n=%d odds=%d %v", name, q.Code, q.Cells, q.N, q.Odds, q.At)
		}
	}
}
