package report

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"

	"asleft/internal/register"
	"asleft/internal/workbook"
)

// Batch makes the packages of all towers in folders.
type Batch struct {
	Options Options
	// Old reads what stands where the package of a tower is to go, or a file of
	// the folder beside that; nil where there is nothing.
	Old func(t Tower, name string) []byte
	// Write puts a package, and with the archive-only profile its files, where
	// they go.
	Write func(t Tower, j *Job, pdf []byte) error
}

// Tower is the workbooks of one tower in a folder.
type Tower struct {
	Folder string        // its name
	Stem   string        // path in the folder for what is made of it, without an ending
	Infos  []fs.FileInfo // of the workbooks, and of what they name
}

// Path is that of the tower with its folder, for messages.
func (t *Tower) Path() string { return path.Join(t.Folder, t.Stem) }

// Result is what became of a batch.
type Result struct {
	Written, Unchanged int
	Other              int // workbooks that are no form
	Failed             []Unread
}

// Run makes the packages that are not there yet, or that other workbooks,
// options or another version of the program made. One that fails stops nothing.
// The only error is that of the context, and what was done till then stands.
func (b *Batch) Run(ctx context.Context, folders []Folder, m Many) (*Result, error) {
	found, err := register.Find(ctx, roots(folders), m.Workers, identify)
	r := &Result{Other: found.Other, Failed: unread(found.Faults)}
	if err != nil {
		return r, err
	}
	open := map[string]*os.Root{}
	for _, f := range folders {
		open[f.Name] = f.Root
	}
	one := func(g register.Group) outcome { return b.one(open[g[0].Root], g) }
	done := 0
	tell := func() {
		if m.Progress != nil {
			m.Progress(done, len(found.Groups))
		}
	}
	tell()
	err = register.Each(ctx, m.Workers, found.Groups, one, func(g register.Group, o outcome) {
		done++
		switch {
		case errors.Is(o.err, register.ErrNoForm):
			r.Other++
		case o.err != nil:
			r.Failed = append(r.Failed, Unread{bookPath(g), o.err.Error()})
		case o.written:
			r.Written++
		default:
			r.Unchanged++
		}
		tell()
	})
	return r, err
}

// identify reads what a workbook says it is about.
func identify(f register.File) (register.Identity, error) {
	words, err := language("")
	if err != nil {
		return register.Identity{}, err
	}
	record, faults, err := workbook.Read([]workbook.Input{{Name: f.Name, Bytes: f.Bytes}}, words)
	switch {
	case err != nil:
		return register.Identity{}, told(nameless(err, 1))
	case len(faults) > 0:
		j := &Job{words: words}
		return register.Identity{}, told(j.faultError(record.Files, faults))
	}
	p := &record.Project
	return register.Identity{Plant: p.Plant.Value, Tag: record.Tower.Tag.Value,
		Document: p.Document.Value, Revision: p.Revision.Value}, nil
}

func towerOf(g register.Group) Tower {
	t := Tower{Folder: g[0].Root, Stem: g.Stem()}
	for _, w := range g {
		t.Infos = append(t.Infos, w.Info)
	}
	return t
}

// bookPath names the workbook of a group, or the first of several.
func bookPath(g register.Group) string { return path.Join(g[0].Root, g[0].Path) }

// outcome is what became of one tower.
type outcome struct {
	written bool
	err     error
}

// one makes the package of the workbooks of a tower, which lie in one folder. What
// they name is read from there, not from the rest of what is gone through.
func (b *Batch) one(root *os.Root, g register.Group) outcome {
	t := towerOf(g)
	folder, err := root.OpenRoot(filepath.FromSlash(g[0].Dir()))
	if err != nil {
		return outcome{err: err}
	}
	defer folder.Close()
	var files []register.File
	for _, w := range g {
		f, err := w.Read()
		if err != nil {
			return outcome{err: err}
		}
		files = append(files, f)
	}
	old := func(name string) []byte { return b.Old(t, name) }
	if b.unchanged(files, folder.FS(), old) {
		return outcome{}
	}
	j, err := OpenAll(sources(files, folder.FS()), b.Options)
	if err != nil {
		return outcome{err: told(err)}
	}
	for _, a := range j.Attachments() {
		info, err := fs.Stat(folder.FS(), a.Path)
		if err != nil {
			return outcome{err: err}
		}
		t.Infos = append(t.Infos, info)
	}
	var pdf bytes.Buffer
	if err := j.WritePDF(&pdf); err != nil {
		return outcome{err: err}
	}
	return outcome{written: true, err: b.Write(t, j, pdf.Bytes())}
}
