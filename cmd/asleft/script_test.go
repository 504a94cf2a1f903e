package main

import (
	"bytes"
	"errors"
	"flag"
	"image"
	"image/jpeg"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"
)

// update rewrites the golden parts of the scripts and the blocks of the README
// that show output: go test ./cmd/asleft -update
var update = flag.Bool("update", false, "write golden output anew")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"asleft": main})
}

// TestScript runs each script in a folder of its own. $BOOKS is the folder of
// the demonstration workbooks.
func TestScript(t *testing.T) {
	books, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("BOOKS", books)
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"type":   typeInto,
			"row":    typeRow,
			"photo":  makePhoto,
			"link":   hardLink,
			"exits":  exits,
			"same":   sameBytes,
			"keys":   makeKeys,
			"begins": begins,
		},
	})
}

// typeInto types values into cells found by defined name, as a script would:
// type BOOK NAME VALUE... fills the cells of the name from the first one on. A
// value that is a number becomes a number, "-" leaves its cell alone, and one
// that begins with "text:" stays text.
func typeInto(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 {
		ts.Fatalf("usage: type BOOK NAME VALUE...")
	}
	book, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer book.Close()
	sheet, column, row := place(ts, book, args[1])
	for i, value := range args[2:] {
		if value == "-" {
			continue
		}
		cell, err := excelize.CoordinatesToCellName(column, row+i)
		ts.Check(err)
		ts.Check(book.SetCellValue(sheet, cell, typedValue(value)))
	}
	ts.Check(book.Save())
}

// typeRow is row BOOK NAME N VALUE...: like type, along the nth row of the name.
func typeRow(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 4 {
		ts.Fatalf("usage: row BOOK NAME N VALUE...")
	}
	n, err := strconv.Atoi(args[2])
	ts.Check(err)
	book, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer book.Close()
	sheet, column, row := place(ts, book, args[1])
	for i, value := range args[3:] {
		if value == "-" {
			continue
		}
		cell, err := excelize.CoordinatesToCellName(column+i, row+n-1)
		ts.Check(err)
		ts.Check(book.SetCellValue(sheet, cell, typedValue(value)))
	}
	ts.Check(book.Save())
}

// makePhoto is photo FILE WIDTH HEIGHT: a JPEG, or, by the name's ending, a PNG.
func makePhoto(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: photo FILE WIDTH HEIGHT")
	}
	w, err := strconv.Atoi(args[1])
	ts.Check(err)
	h, err := strconv.Atoi(args[2])
	ts.Check(err)
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = uint8(i/97) | 0x80
	}
	var out bytes.Buffer
	if strings.HasSuffix(args[0], ".png") {
		err = png.Encode(&out, img)
	} else {
		err = jpeg.Encode(&out, img, nil)
	}
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), out.Bytes(), 0o666))
}

func typedValue(value string) any {
	if text, ok := strings.CutPrefix(value, "text:"); ok {
		return text
	}
	if n, err := strconv.ParseFloat(value, 64); err == nil {
		return n
	}
	return value
}

// place is the first cell of a defined name.
func place(ts *testscript.TestScript, book *excelize.File, name string) (sheet string, column, row int) {
	for _, n := range book.GetDefinedName() {
		if n.Name != name {
			continue
		}
		sheet, area, _ := strings.Cut(strings.ReplaceAll(n.RefersTo, "$", ""), "!")
		first, _, _ := strings.Cut(area, ":")
		column, row, err := excelize.CellNameToCoordinates(first)
		ts.Check(err)
		return strings.Trim(sheet, "'"), column, row
	}
	ts.Fatalf("no name %s", name)
	return "", 0, 0
}

// exits is exits STATUS COMMAND...: like exec, with the exit status that is
// expected.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS COMMAND...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var exit *exec.ExitError
	err = ts.Exec(args[1], args[2:]...)
	switch {
	case errors.As(err, &exit):
		got = exit.ExitCode()
	case err != nil:
		ts.Fatalf("%v", err)
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// sameBytes is same FILE FILE: like cmp, for files that nobody wants to see
// printed.
func sameBytes(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 2 {
		ts.Fatalf("usage: same FILE FILE")
	}
	if same := ts.ReadFile(args[0]) == ts.ReadFile(args[1]); same == neg {
		ts.Fatalf("same bytes: %v", same)
	}
}

// hardLink is link OLD NEW.
func hardLink(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: link OLD NEW")
	}
	ts.Check(os.Link(ts.MkAbs(args[0]), ts.MkAbs(args[1])))
}
