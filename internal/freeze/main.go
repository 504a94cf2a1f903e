// Command freeze makes, with the program as it stands, what a release promises to
// read for ever: from a folder of cases (workbooks of one tower each, with what
// they name) a folder of the same cases with their data file, package, signed
// package and audit. From the top of the repository:
//
//	go run ./internal/freeze FROM report/testdata/kept/NAME
//
// It never writes into a folder that is there, since what is frozen stays as it is,
// and freezes nothing of a version that is still being worked on.
// DEVELOPERS.md tells when it is run.
package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"asleft/report"
)

func main() {
	if err := run(os.Args[1:], report.Version); err != nil {
		fmt.Fprintln(os.Stderr, "freeze:", err)
		os.Exit(1)
	}
}

var (
	errUse         = errors.New("usage: go run ./internal/freeze FROM report/testdata/kept/NAME")
	errThere       = errors.New("is there already, and what is frozen stays as it is")
	errDevelopment = errors.New("is the version of work in progress: set that of the release first")
	errEmpty       = errors.New("holds no folder of a case")
)

func run(args []string, version string) error {
	switch {
	case len(args) != 2:
		return errUse
	case strings.HasSuffix(version, "-dev"):
		return fmt.Errorf("%s: %w", version, errDevelopment)
	}
	from, to := args[0], filepath.Clean(args[1])
	if _, err := os.Lstat(to); !errors.Is(err, fs.ErrNotExist) {
		return errors.Join(fmt.Errorf("%s: %w", to, errThere), err)
	}
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	aside, err := os.MkdirTemp(filepath.Dir(to), ".freeze")
	if err != nil {
		return err
	}
	defer os.RemoveAll(aside)
	whole := filepath.Join(aside, "whole")
	if err := freezeAll(from, whole); err != nil {
		return err
	}
	return os.Rename(whole, to)
}

// freezeAll freezes every case.
func freezeAll(from, to string) error {
	entries, err := os.ReadDir(from)
	if err != nil {
		return err
	}
	n := 0
	for _, e := range entries {
		if !e.IsDir() {
			continue
		}
		n++
		if err := freeze(filepath.Join(from, e.Name()), filepath.Join(to, e.Name())); err != nil {
			return fmt.Errorf("%s: %w", e.Name(), err)
		}
	}
	if n == 0 {
		return fmt.Errorf("%s: %w", from, errEmpty)
	}
	return nil
}
