package main

import (
	"fmt"
	"os"
	"path/filepath"

	"asleft/report"
)

// reportFolders writes the packages of all towers in some folders: each beside
// its workbook, or in the same place below another folder.
func (p *program) reportFolders(paths []string, out string, workers int, o report.Options) error {
	folders, closeAll, err := openFolders(paths)
	if err != nil {
		return err
	}
	defer closeAll()
	to := batchTarget{out}
	batch := report.Batch{Options: o, Old: to.old, Write: to.write}
	ctx, stop := interruptible()
	defer stop()
	many, end := p.many(workers, "cli.many.writing")
	r, err := batch.Run(ctx, folders, many)
	end()
	fmt.Fprintln(p.out, p.words.Say("cli.batch.done", "written", fmt.Sprint(r.Written), "unchanged", fmt.Sprint(r.Unchanged),
		"other", fmt.Sprint(r.Other), "bad", fmt.Sprint(len(r.Failed))))
	p.unread(r.Failed)
	switch {
	case err != nil:
		return stopped(err)
	case len(r.Failed) > 0:
		return errNo
	}
	return nil
}

// batchTarget is the folder that packages go to; empty for beside the workbooks.
type batchTarget struct{ dir string }

func (b batchTarget) path(t report.Tower) string {
	if b.dir == "" {
		return filepath.FromSlash(t.Path()) + ".pdf"
	}
	return filepath.Join(b.dir, filepath.FromSlash(t.Stem)) + ".pdf"
}

// old reads the package that is there, or a file of the folder beside it.
func (b batchTarget) old(t report.Tower, name string) []byte {
	path := b.path(t)
	if name != "" {
		path = filepath.Join(folderBeside(path), name)
	}
	content, err := os.ReadFile(path)
	if err != nil {
		return nil
	}
	return content
}

func (b batchTarget) write(t report.Tower, j *report.Job, pdf []byte) error {
	path := b.path(t)
	if b.dir != "" {
		if err := makeFolder(filepath.Dir(path)); err != nil {
			return err
		}
	}
	return writeWith(path, t.Infos, j, pdf)
}
