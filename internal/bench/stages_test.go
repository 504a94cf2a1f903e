package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"testing"

	"asleft/internal/archive"
	"asleft/internal/assess"
	"asleft/internal/compose"
	"asleft/internal/correct"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
	"asleft/internal/workbook"
	"asleft/report"
	"asleft/templates"
)

// sizes are the towers that everything is measured on, by number of cells.
var sizes = towers

// stages is a tower on its way through the program: what each stage starts
// from.
type stages struct {
	files      []workbook.Input
	words      *templates.Words
	rules      assess.Rules
	record     field.Record
	assessment assess.Assessment
	moves      []correct.Moves
}

// form is the demonstration that towers are stamped from.
func form(tb testing.TB) []byte {
	tb.Helper()
	b, err := os.ReadFile("../../testdata/demo.xlsx")
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

// inputs are the workbooks of a tower.
func inputs(tb testing.TB, cells int) []workbook.Input {
	tb.Helper()
	books, err := tower(form(tb), cells)
	if err != nil {
		tb.Fatal(err)
	}
	var files []workbook.Input
	for i, b := range books {
		files = append(files, workbook.Input{Name: fmt.Sprintf("tower-%d.xlsx", i+1), Bytes: b})
	}
	return files
}

// through takes a tower up to its moves.
func through(tb testing.TB, cells int) *stages {
	tb.Helper()
	s := &stages{files: inputs(tb, cells)}
	var err error
	if s.words, err = templates.Language("en"); err != nil {
		tb.Fatal(err)
	}
	t, err := templates.RuleSet()
	if err != nil {
		tb.Fatal(err)
	}
	s.rules = assess.Rules{Version: t.Version, Hash: t.Hash}
	for _, e := range t.Events {
		s.rules.Events = append(s.rules.Events, assess.Event(e))
	}
	s.read(tb)
	s.assess()
	s.correct()
	return s
}

func (s *stages) read(tb testing.TB) {
	var faults []field.Fault
	var err error
	if s.record, faults, err = workbook.Read(s.files, s.words); err != nil || len(faults) > 0 {
		tb.Fatal(err, faults)
	}
}

func (s *stages) assess() { s.assessment = assess.Assess(s.record, s.rules) }

func (s *stages) correct() { s.moves = correct.Correct(s.record, s.assessment, s.rules) }

// input is what pages are composed from.
func (s *stages) input() compose.Input {
	in := compose.Input{Record: s.record, Assessment: s.assessment, Moves: s.moves, Rules: s.rules,
		Words: s.words, Program: "asleft"}
	for _, f := range s.files {
		in.Sources = append(in.Sources, f.Bytes)
	}
	return in
}

// data is what the data file is made from.
func (s *stages) data() data.Input {
	return data.Input{Program: "asleft", Language: s.words.Tag(), Paper: page.Letter.Name, Profile: "PDF/A-3a",
		Units: measure.UnitInch, Rules: s.rules, Record: &s.record, Assessment: &s.assessment, Moves: s.moves}
}

// perSize runs a benchmark on every size of tower.
func perSize(b *testing.B, run func(b *testing.B, cells int)) {
	for _, n := range sizes {
		if testing.Short() && n > 12 {
			continue
		}
		b.Run(fmt.Sprintf("cells=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			run(b, n)
		})
	}
}

func BenchmarkRead(b *testing.B) {
	perSize(b, func(b *testing.B, cells int) {
		s := through(b, cells)
		for b.Loop() {
			s.read(b)
		}
	})
}

func BenchmarkAssess(b *testing.B) {
	perSize(b, func(b *testing.B, cells int) {
		s := through(b, cells)
		for b.Loop() {
			s.assess()
		}
	})
}

func BenchmarkCorrect(b *testing.B) {
	perSize(b, func(b *testing.B, cells int) {
		s := through(b, cells)
		for b.Loop() {
			s.correct()
		}
	})
}

func BenchmarkData(b *testing.B) {
	perSize(b, func(b *testing.B, cells int) {
		in := through(b, cells).data()
		for b.Loop() {
			if _, err := data.Make(in, nil); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkCompose is the content of all pages, with the files inside.
func BenchmarkCompose(b *testing.B) {
	perSize(b, func(b *testing.B, cells int) {
		in := through(b, cells).input()
		for b.Loop() {
			book(b, in)
		}
	})
}

func BenchmarkPlace(b *testing.B) {
	perSize(b, func(b *testing.B, cells int) {
		content := book(b, through(b, cells).input())
		for b.Loop() {
			place(b, content)
		}
	})
}

func BenchmarkEmit(b *testing.B) {
	perSize(b, func(b *testing.B, cells int) {
		placed := place(b, book(b, through(b, cells).input()))
		for b.Loop() {
			if _, _, err := page.Emit(placed); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkFinish(b *testing.B) {
	perSize(b, func(b *testing.B, cells int) {
		raw, doc, err := page.Emit(place(b, book(b, through(b, cells).input())))
		if err != nil {
			b.Fatal(err)
		}
		for b.Loop() {
			if _, err := archive.Finish(raw, doc); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(len(doc.Pages)), "pages")
	})
}

// BenchmarkWhole goes from the workbooks' bytes to those of the package.
func BenchmarkWhole(b *testing.B) {
	perSize(b, func(b *testing.B, cells int) {
		files := inputs(b, cells)
		for b.Loop() {
			whole(b, files)
		}
	})
}

func whole(tb testing.TB, files []workbook.Input) {
	var sources []report.Source
	for _, f := range files {
		sources = append(sources, report.Source{Name: f.Name, Reader: bytes.NewReader(f.Bytes), Size: int64(len(f.Bytes))})
	}
	job, err := report.OpenAll(sources, report.Options{})
	if err != nil {
		tb.Fatal(err)
	}
	if err := job.WritePDF(io.Discard); err != nil {
		tb.Fatal(err)
	}
}

func book(tb testing.TB, in compose.Input) page.Book {
	content, err := compose.Package(in)
	if err != nil {
		tb.Fatal(err)
	}
	return content
}

func place(tb testing.TB, content page.Book) *page.Placed {
	m, err := page.NewMetrics()
	if err != nil {
		tb.Fatal(err)
	}
	p, err := page.Place(content, m)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}
