// Command bench measures the finished program against the floor: what the
// libraries underneath cost by themselves (package floor beside it). It stamps
// towers out of the demonstration workbook, builds both programs, and runs them
// in turn, so that a busy machine is busy for both. From the top of the
// repository:
//
//	go run ./internal/bench [-count N]
//
// Standard output has a line for each run in the format of go test -bench, for
// benchstat; standard error has the table of ratios, as DEVELOPERS.md shows it.
// What single stages cost is in the benchmarks of this package's tests.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

// towers are the sizes that are measured, by number of cells.
var towers = []int{1, 12, 100, 500}

func main() {
	count := flag.Int("count", 3, "runs of each program on each tower")
	most := flag.Int("most", 500, "cells of the largest tower")
	flag.Parse()
	if err := run(*count, *most); err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}

func run(count, most int) error {
	dir, err := os.MkdirTemp("", "bench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	b := &bench{dir: dir, count: count, results: map[string]result{}}
	for _, program := range []string{"./cmd/asleft", "./internal/bench/floor"} {
		if err := build(program, b.program(filepath.Base(program))); err != nil {
			return err
		}
	}
	form, err := os.ReadFile(filepath.Join("testdata", "demo.xlsx"))
	if err != nil {
		return err
	}
	for _, n := range towers {
		if n > most {
			break
		}
		books, err := tower(form, n)
		if err != nil {
			return err
		}
		if err := b.tower(n, books); err != nil {
			return err
		}
	}
	if err := b.batch(); err != nil {
		return err
	}
	b.table(os.Stderr)
	return nil
}
