package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"asleft/internal/workbook"
)

// The demos in the repository are what this program makes, they have no
// faults, and they say of themselves that they are invented.
func TestDemosAreRebuilt(t *testing.T) {
	dir := t.TempDir()
	if err := run(dir); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"demo.xlsx", "metric.xlsx"} {
		made, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		kept, err := os.ReadFile(filepath.Join("..", "..", "..", "testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(made, kept) {
			t.Errorf("testdata/%s is out of date: go run ./internal/workbook/makedemo", name)
		}
		record, faults, err := workbook.Read([]workbook.Input{{Name: name, Bytes: made}}, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range faults {
			t.Errorf("%s: %s %s %q %s", name, f.At, f.Kind, f.Read, f.Detail)
		}
		if !strings.Contains(record.Project.Notice.Value, "invented") {
			t.Errorf("%s: notice %q", name, record.Project.Notice.Value)
		}
	}
}
