package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"asleft/report"
)

// Files of a frozen case beside the workbooks and what they name.
const (
	dataFile    = "data.json"
	packageFile = "package.pdf" // signed where it is ready: its first revision is then the unsigned one
	auditFile   = "audit.json"
)

var errDisagrees = errors.New("the audit of the package finds something")

// freeze freezes one case.
func freeze(from, to string) error {
	if err := os.CopyFS(to, os.DirFS(from)); err != nil {
		return err
	}
	j, err := open(from)
	if err != nil {
		return err
	}
	if err := write(to, dataFile, j.WriteJSON); err != nil {
		return err
	}
	var pdf bytes.Buffer
	if err := j.WritePDF(&pdf); err != nil {
		return err
	}
	file := pdf.Bytes()
	if ready, _ := j.Ready(); ready {
		if file, err = sign(file); err != nil {
			return err
		}
	}
	if err := os.WriteFile(filepath.Join(to, packageFile), file, 0o644); err != nil {
		return err
	}
	found, err := report.Audit(bytes.NewReader(file), int64(len(file)), report.AuditOptions{})
	if err != nil {
		return err
	}
	if !found.Agrees() {
		return errDisagrees
	}
	return write(to, auditFile, found.WriteJSON)
}

// open reads all workbooks of a folder as those of one tower.
func open(folder string) (*report.Job, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	names, err := filepath.Glob(filepath.Join(folder, "*.xlsx"))
	if err != nil {
		return nil, err
	}
	var sources []report.Source
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		sources = append(sources, report.Source{Name: filepath.Base(name), Reader: bytes.NewReader(b), Size: int64(len(b)), Folder: root.FS()})
	}
	j, err := report.OpenAll(sources, report.Options{})
	if err != nil {
		return nil, fmt.Errorf("%d workbooks: %w", len(sources), err)
	}
	return j, nil
}

func write(folder, name string, content func(io.Writer) error) error {
	var b bytes.Buffer
	if err := content(&b); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, name), b.Bytes(), 0o644)
}
