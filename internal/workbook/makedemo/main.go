// Command makedemo writes the demo workbooks of the repository, testdata's
// demo.xlsx and metric.xlsx. From the top of the repository:
//
//	go run ./internal/workbook/makedemo
//
// It orders blank forms and fills them by their defined names, as a script of
// somebody else would. The plants, people and readings are invented; the
// readings follow from a small model of each fan (model.go), so that they agree
// with one another except where a story wants a defect.
package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"asleft/internal/workbook"
)

func main() {
	dir := "testdata"
	if len(os.Args) > 1 {
		dir = os.Args[1]
	}
	if err := run(dir); err != nil {
		fmt.Fprintln(os.Stderr, "makedemo:", err)
		os.Exit(1)
	}
}

// run writes both workbooks into a directory.
func run(dir string) error {
	for _, p := range []plant{demo(), metric()} {
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
