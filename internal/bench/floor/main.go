// Command floor is what the libraries underneath cost by themselves: the
// spreadsheet library reads every cell of the workbooks, and the page writer
// draws as many pages with about as many operators as a package has. It judges
// nothing, places nothing, tags nothing and uses one thread. The benchmarks
// compare the program with it.
//
//	floor [-pages N -o FILE] WORKBOOK…
package main

import (
	"flag"
	"fmt"
	"os"
	"runtime"

	"asleft/fonts"

	"github.com/go-pdf/fpdf"
	"github.com/xuri/excelize/v2"
)

// What a page of a package holds on average. A test of the benchmarks compares
// these with the pages of the demonstration tower.
const (
	texts      = 178
	letters    = 12 // of a text
	faces      = 31 // changes of the face or size
	rectangles = 33
	paths      = 27 // stroked, each with pen, color and dashes of its own
	lines      = 2  // straight ones in a path
	curves     = 5  // in a path
)

func main() {
	runtime.GOMAXPROCS(1)
	pages := flag.Int("pages", 0, "pages to draw")
	out := flag.String("o", "", "file to write")
	flag.Parse()
	if err := run(flag.Args(), *pages, *out); err != nil {
		fmt.Fprintln(os.Stderr, "floor:", err)
		os.Exit(1)
	}
}

func run(books []string, pages int, out string) error {
	cells := 0
	for _, b := range books {
		n, err := read(b)
		if err != nil {
			return err
		}
		cells += n
	}
	fmt.Println(cells, "cells")
	if pages == 0 {
		return nil
	}
	return draw(pages).OutputFileAndClose(out)
}

// read reads every cell of a workbook.
func read(path string) (int, error) {
	f, err := excelize.OpenFile(path)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	cells := 0
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			return 0, err
		}
		for _, r := range rows {
			cells += len(r)
		}
	}
	return cells, nil
}

// draw draws pages.
func draw(pages int) *fpdf.Fpdf {
	pdf := fpdf.New("P", "pt", "Letter", "")
	pdf.SetAutoPageBreak(false, 0)
	for i, b := range [][]byte{fonts.Sans, fonts.SansSemiBold, fonts.SansCondensed, fonts.SansCondensedSemiBold, fonts.Mono} {
		pdf.AddUTF8FontFromBytes(face(i), "", b)
	}
	for n := range pages {
		pdf.AddPage()
		page(pdf, n)
	}
	return pdf
}

func face(i int) string { return string(rune('a' + i%5)) }

// page draws one page, no two alike: the content must not deflate better than
// that of a package.
func page(pdf *fpdf.Fpdf, n int) {
	next := uint32(n)*2654435761 + 1
	number := func(most int) int {
		next = next*1664525 + 1013904223
		return int(next>>8) % most
	}
	place := func() (x, y float64) { return float64(number(60000)) / 100, float64(number(78000)) / 100 }
	const words = "Fan tilt, tip clearance within 0.5625 in at position 12; outside by 3/16 in, margin left 1/32 in. "
	for i := range texts {
		if i%(texts/faces) == 0 {
			pdf.SetFont(face(i), "", 7+float64(number(20))/4)
		}
		at := number(len(words) - letters)
		x, y := place()
		pdf.Text(x, y, words[at:at+letters])
	}
	for range rectangles {
		pdf.SetFillColor(number(256), number(256), number(256))
		x, y := place()
		pdf.Rect(x, y, float64(number(10000))/100, 12, "F")
	}
	for range paths {
		pdf.SetDrawColor(number(256), number(256), number(256))
		pdf.SetLineWidth(float64(number(300)) / 100)
		pdf.SetDashPattern([]float64{float64(number(9)), 2}, 0)
		pdf.MoveTo(place())
		for range lines {
			pdf.LineTo(place())
		}
		for range curves {
			x, y := place()
			pdf.CurveBezierCubicTo(x, y, x+5, y+3, x+9, y+1)
		}
		pdf.DrawPath("D")
	}
}
