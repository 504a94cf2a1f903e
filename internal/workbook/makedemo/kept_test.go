package main

import (
	"os"
	"path/filepath"
	"testing"

	"asleft/report"
)

// What is to be frozen covers both ends: a tower that is ready although
// something is outside, with a photo, out of two workbooks; and one that is not.
func TestKeptCases(t *testing.T) {
	dir := t.TempDir()
	if err := runKept(dir); err != nil {
		t.Fatal(err)
	}
	for folder, want := range map[string]struct {
		ready              bool
		books, cells, hubs int
	}{"ready": {true, 2, 2, 1}, "open": {false, 1, 1, 0}} {
		books, err := filepath.Glob(filepath.Join(dir, folder, "*.xlsx"))
		if err != nil {
			t.Fatal(err)
		}
		var sources []report.Source
		for _, book := range books {
			f, err := os.Open(book)
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			info, err := f.Stat()
			if err != nil {
				t.Fatal(err)
			}
			sources = append(sources, report.Source{Name: info.Name(), Reader: f, Size: info.Size(), Folder: os.DirFS(filepath.Dir(book))})
		}
		job, err := report.OpenAll(sources, report.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if ready, word := job.Ready(); ready != want.ready || job.AllWithin() {
			t.Errorf("%s: %s, all within: %t", folder, word, job.AllWithin())
		}
		if len(books) != want.books || len(job.Cells()) != want.cells || len(job.Attachments()) != want.hubs {
			t.Errorf("%s: %d workbooks, %d cells, %d attachments", folder, len(books), len(job.Cells()), len(job.Attachments()))
		}
	}
}
