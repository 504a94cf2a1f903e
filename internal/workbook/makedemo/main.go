// Command makedemo writes the demo workbooks of the repository, testdata's
// demo.xlsx and metric.xlsx. From the top of the repository:
//
//	go run ./internal/workbook/makedemo
//
// It orders blank forms and fills them by their defined names, as a script of
// somebody else would. The plants, people and readings are invented; the
// readings follow from a small model of each fan (model.go), so that they agree
// with one another except where a story wants a defect.
//
// With -kept it writes the folders that are frozen with a release (DEVELOPERS.md):
//
//	go run ./internal/workbook/makedemo -kept DIR
package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"asleft/internal/workbook"
)

func main() {
	kept := flag.Bool("kept", false, "write the folders that are frozen with a release")
	flag.Parse()
	dir, write := "testdata", run
	if flag.NArg() > 0 {
		dir = flag.Arg(0)
	}
	if *kept {
		write = runKept
	}
	if err := write(dir); err != nil {
		fmt.Fprintln(os.Stderr, "makedemo:", err)
		os.Exit(1)
	}
}

// run writes both workbooks into a directory.
func run(dir string) error { return write(dir, []plant{demo(), metric()}) }

func write(dir string, plants []plant) error {
	for _, p := range plants {
		b, err := p.workbook()
		if err != nil {
			return fmt.Errorf("%s: %w", p.file, err)
		}
		if err := os.WriteFile(filepath.Join(dir, p.file), b, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// workbook orders the form and fills it.
func (p plant) workbook() ([]byte, error) {
	var blank bytes.Buffer
	if err := workbook.WriteForm(&blank, p.form); err != nil {
		return nil, err
	}
	f, err := openFiller(blank.Bytes())
	if err != nil {
		return nil, err
	}
	p.fill(f)
	return f.bytes()
}
