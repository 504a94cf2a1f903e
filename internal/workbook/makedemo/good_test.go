package main

import (
	"bytes"
	"testing"

	"asleft/report"
)

// open reads and judges a workbook as a user would.
func open(t *testing.T, book []byte) *report.Job {
	t.Helper()
	job, err := report.Open(bytes.NewReader(book), int64(len(book)), "good.xlsx", report.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// TestGoodPlant: six cells done well and in the advised order raise nothing.
func TestGoodPlant(t *testing.T) {
	book, err := goodDemo().workbook()
	if err != nil {
		t.Fatal(err)
	}
	job := open(t, book)
	if ready, word := job.Ready(); !ready || !job.AllWithin() {
		t.Errorf("%s, all within: %v", word, job.AllWithin())
	}
	for _, n := range append(job.Reasons(), job.Questions()...) {
		t.Errorf("%+v", n)
	}
	for _, c := range job.Cells() {
		if !c.Ready || c.Milestone != "started" {
			t.Errorf("cell %d: ready %v, milestone %q", c.Number, c.Ready, c.Milestone)
		}
	}
}
