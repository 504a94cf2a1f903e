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

// source is the opened workbooks of a tower and what is needed not to overwrite
// them.
type source struct {
	paths []string
	infos []fs.FileInfo // files that no output may replace
	job   *report.Job
}

// name is what stands for the workbooks in a message.
func (s *source) name() string { return strings.Join(s.paths, ", ") }

// open reads and judges workbooks as one tower. Errors name the path as it was
// given.
func open(paths []string, o report.Options) (*source, error) {
	s := &source{paths: paths}
	var sources []report.Source
	for _, path := range paths {
		f, err := s.openFile(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		root, err := os.OpenRoot(filepath.Dir(path)) // what the workbook names lies there, and nowhere else
		if err != nil {
			return nil, inFile(filepath.Dir(path), plainCause(err))
		}
		defer root.Close()
		sources = append(sources, report.Source{Name: filepath.Base(path), Reader: f,
			Size: s.infos[len(s.infos)-1].Size(), Folder: root.FS()})
	}
	spareMemory(sources)
	var faults *report.FaultError
	var option *report.OptionError
	var err error
	var previous *report.PreviousError
	s.job, err = report.OpenAll(sources, o)
	switch {
	case err == nil && o.Unattached:
		return s, nil
	case err == nil:
		return s, s.protect(sources)
	case errors.As(err, &previous):
		return nil, previous
	case errors.As(err, &faults), errors.As(err, &option), len(paths) > 1:
		return nil, err
	}
	return nil, inFile(paths[0], err)
}

// protect adds what the workbooks name to the files that no output may replace.
func (s *source) protect(sources []report.Source) error {
	for _, a := range s.job.Attachments() {
		info, err := fs.Stat(sources[a.Source].Folder, a.Path)
		if err != nil {
			return inFile(a.Path, plainCause(err))
		}
		s.infos = append(s.infos, info)
	}
	return nil
}

// openFile opens one workbook, which must be a file and no other than before.
func (s *source) openFile(path string) (*os.File, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, inFile(path, plainCause(err))
	}
	info, err := f.Stat()
	switch {
	case err != nil:
		err = inFile(path, plainCause(err))
	case info.IsDir():
		err = inFile(path, errIsFolder)
	case !info.Mode().IsRegular():
		err = inFile(path, errNotRegular)
	}
	for _, other := range s.infos {
		if err == nil && os.SameFile(info, other) {
			err = useError("sameFile", "file", path)
		}
	}
	if err != nil {
		_ = f.Close()
		return nil, err
	}
	s.infos = append(s.infos, info)
	return f, nil
}

// inFile names the file that an error is about.
func inFile(path string, err error) error { return fmt.Errorf("%s: %w", path, err) }

// hintFor is the key of advice on an error, empty where there is none.
func hintFor(err error) string {
	for _, h := range []struct {
		is  error
		key string
	}{
		{errIsInput, "cli.hint.isInput"},
		{report.ErrNoData, "cli.hint.noData"},
		{report.ErrNotPackage, "cli.hint.notPackage"},
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
