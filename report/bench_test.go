package report_test

import (
	"bytes"
	"io"
	"testing"

	"asleft/report"
)

// The demonstration tower, 6 cells: reading and judging, then the whole.

func BenchmarkOpen(b *testing.B) {
	book := load(b, "demo.xlsx")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := report.Open(bytes.NewReader(book), int64(len(book)), "demo.xlsx", report.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWritePDF(b *testing.B) {
	job := open(b, "demo.xlsx", report.Options{})
	b.ReportAllocs()
	for b.Loop() {
		if err := job.WritePDF(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWriteJSON(b *testing.B) {
	job := open(b, "demo.xlsx", report.Options{})
	b.ReportAllocs()
	for b.Loop() {
		if err := job.WriteJSON(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
