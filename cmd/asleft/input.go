package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"asleft/report"
)

// source is an opened workbook and what is needed not to overwrite it.
type source struct {
	path string
	info fs.FileInfo
	job  *report.Job
}

// open reads and judges a workbook. Errors name the path as it was given.
func open(path string, o report.Options) (*source, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, plainCause(err))
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: %w", path, plainCause(err))
	case info.IsDir():
		return nil, fmt.Errorf("%s: %w", path, errIsFolder)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s: %w", path, errNotRegular)
	}
	job, err := report.Open(f, info.Size(), filepath.Base(path), o)
	var faults *report.FaultError
	var option *report.OptionError
	switch {
	case err == nil:
		return &source{path, info, job}, nil
	case errors.As(err, &faults), errors.As(err, &option):
		return nil, err
	}
	return nil, inFile(path, err)
}

// inputs are the files that no output may replace.
func inputs(s *source) []fs.FileInfo { return []fs.FileInfo{s.info} }

// inFile names the file that an error is about.
func inFile(path string, err error) error { return fmt.Errorf("%s: %w", path, err) }

// hintFor is the key of advice on an error, empty where there is none.
func hintFor(err error) string {
	for _, h := range []struct {
		is  error
		key string
	}{
		{errIsInput, "cli.hint.isInput"},
		{errIsFolder, "cli.hint.isFolder"},
		{errSigned, "cli.hint.signed"},
		{fs.ErrNotExist, "cli.hint.notExist"},
		{fs.ErrPermission, "cli.hint.permission"},
	} {
		if errors.Is(err, h.is) {
			return h.key
		}
	}
	return ""
}
