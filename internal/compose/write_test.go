package compose

import (
	"bytes"
	"strings"
	"testing"

	"asleft/internal/archive"
)

// maxPerCell is what a cell may add to a finished file, without photos.
const (
	maxPerCell      = 120_000 // with readings of the fan only
	maxPerWholeCell = 200_000 // with drive line, bolts and start-up
)

func TestFinishedPackage(t *testing.T) {
	for p, most := range map[*plan]int{&demoPlan: maxPerCell, &wholePlan: maxPerWholeCell} {
		finished(t, *p, most)
	}
}

func finished(t *testing.T, p plan, perCell int) {
	t.Helper()
	in := inputOf(t, p)
	first, err := Write(in)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Write(in)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first, again) {
		t.Error("two runs gave different bytes")
	}
	if most := perCell * len(in.Record.Cells); len(first) > most {
		t.Errorf("%d bytes, at most %d", len(first), most)
	}
}

// TestArchiveOnlyHasNoFilesInside: the files lie beside the document, which says
// so and prints the manifest.
func TestArchiveOnlyHasNoFilesInside(t *testing.T) {
	in := inputOf(t, goodPlan)
	in.Options.Profile = archive.PDFA2A
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Files) != 0 {
		t.Errorf("%d files attached", len(b.Files))
	}
	files, err := Files(in)
	if err != nil {
		t.Fatal(err)
	}
	manifest := files[len(files)-1]
	var lines []string
	for _, tb := range tablesIn(b)["archive"] {
		if len(tb.Columns) == 2 && len(tb.Head) > 0 {
			for _, row := range tb.Rows {
				lines = append(lines, row.Cells[1].Runs[0].Text)
			}
		}
	}
	if got := strings.Join(lines, "\n") + "\n"; got != string(manifest.Bytes) {
		t.Errorf("printed manifest differs from %s:\n%s", manifest.Name, got)
	}
	if _, err := Write(in); err != nil {
		t.Error(err)
	}
}

// TestFingerprintOnEveryPage: it stands in the foot of every section.
func TestFingerprintOnEveryPage(t *testing.T) {
	in := inputOf(t, demoPlan)
	m, err := makeFiles(&in)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range b.Sections {
		if !strings.Contains(s.Head.FootLeft, m.fingerprint) {
			t.Errorf("section %s: foot %q without fingerprint %s", s.Key, s.Head.FootLeft, m.fingerprint)
		}
	}
	in.Sources[0] = []byte("another workbook")
	other, err := makeFiles(&in)
	if err != nil {
		t.Fatal(err)
	}
	if other.fingerprint == m.fingerprint {
		t.Error("another workbook has the same fingerprint")
	}
}

func BenchmarkPackage(b *testing.B) {
	for name, p := range map[string]plan{"6cells": demoPlan, "24cells": bigPlan, "6whole": wholePlan, "24whole": wholeBigPlan} {
		in := inputOf(b, p)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Package(in); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkWrite(b *testing.B) {
	for name, p := range map[string]plan{"6cells": demoPlan, "24cells": bigPlan, "6whole": wholePlan, "24whole": wholeBigPlan} {
		in := inputOf(b, p)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				out, err := Write(in)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(out))/float64(len(in.Record.Cells)), "bytes/cell")
			}
		})
	}
}
