package main

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"asleft/report"
)

// report writes the package.
func (p *program) report(args []string) error {
	f := p.flags("report")
	out := f.StringP("output", "o", "", "")
	var o report.Options
	f.StringVar(&o.Paper, "paper", "", "")
	f.StringVar(&o.Units, "units", "", "")
	f.StringVar(&o.Language, "lang", "", "")
	profile := f.String("profile", "", "")
	workers := f.Int("workers", 0, "")
	previous := f.String("previous", "", "")
	each := f.Bool("each", false, "")
	files, done, err := p.parse(f, args)
	if err != nil || done {
		return err
	}
	switch {
	case len(files) == 0:
		return useError("noFile", "command", "report")
	case *out == "" && !anyFolder(files):
		return useError("noOutput", "command", "report")
	case *profile != "" && *profile != archiveOnly:
		return useError("profile", "profile", *profile)
	}
	o.ArchiveOnly = *profile == archiveOnly
	if anyFolder(files) {
		if *each || *previous != "" {
			return useError("folderAlone")
		}
		return p.reportFolders(files, *out, *workers, o)
	}
	s, err := openAfter(files, *previous, o)
	switch {
	case err != nil:
		return err
	case *each:
		return writeEach(s, *out)
	}
	return writePackages(s, []target{{*out, s.job}})
}

// archiveOnly is the profile for archives that take no files inside a PDF.
const archiveOnly = "archive-only"

// beside writes the package of a workbook that was dropped on the program.
func (p *program) beside(path string) error {
	out := strings.TrimSuffix(path, filepath.Ext(path)) + ".pdf"
	s, err := open([]string{path}, report.Options{})
	if err != nil {
		return err
	}
	return writePackages(s, []target{{out, s.job}})
}

// target is a package to be written.
type target struct {
	path string
	job  *report.Job
}

// writePackages writes packages of one job. Nothing is written before all of
// them have been made and may be.
func writePackages(s *source, list []target) error {
	made := make([][]byte, len(list))
	for i, t := range list {
		var pdf bytes.Buffer
		if err := t.job.WritePDF(&pdf); err != nil {
			return inFile(s.name(), err)
		}
		if _, _, err := checkOutput(t.path, s.infos); err != nil {
			return err
		}
		made[i] = pdf.Bytes()
	}
	for i, t := range list {
		if err := writeWith(t.path, s.infos, t.job, made[i]); err != nil {
			return err
		}
	}
	return nil
}

// writeWith writes a package, and first its files into a folder beside it where
// it takes none inside.
func writeWith(out string, inputs []fs.FileInfo, j *report.Job, pdf []byte) error {
	if j.FilesBeside() {
		files, err := j.Files()
		if err != nil {
			return err
		}
		if err := writeFolder(folderBeside(out), inputs, files); err != nil {
			return err
		}
	}
	return writeOutput(out, inputs, pdf)
}

// folderBeside is the folder for the files of a package: "tower-files" for
// "tower.pdf".
func folderBeside(out string) string {
	return strings.TrimSuffix(out, filepath.Ext(out)) + "-files"
}

// writeFolder writes files into a folder, which it makes where it is missing.
// A folder that holds anything else is refused: what lies in it must be what
// the manifest lists.
func writeFolder(dir string, inputs []fs.FileInfo, files []report.File) error {
	if err := makeFolder(dir); err != nil {
		return err
	}
	if err := refuseStrangers(dir, files); err != nil {
		return err
	}
	for _, f := range files {
		if err := writeOutput(filepath.Join(dir, f.Name), inputs, f.Bytes); err != nil {
			return err
		}
	}
	return nil
}

func makeFolder(dir string) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return inFile(dir, plainCause(err))
	}
	return nil
}

func refuseStrangers(dir string, files []report.File) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return inFile(dir, plainCause(err))
	}
	ours := map[string]bool{}
	for _, f := range files {
		ours[f.Name] = true
	}
	for _, e := range entries {
		if !ours[e.Name()] {
			return useError("stranger", "folder", dir, "file", e.Name())
		}
	}
	return nil
}
