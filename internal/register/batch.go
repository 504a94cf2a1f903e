package register

import (
	"context"
	"errors"
	"io/fs"
	"path"
	"strings"
)

// Workbook is a workbook that was found, with what it says it is about.
type Workbook struct {
	Root     string // name of the folder that was walked
	Path     string // in it
	Info     fs.FileInfo
	FS       fs.FS
	Identity Identity
}

// Dir is the folder of the workbook in what was walked.
func (w *Workbook) Dir() string { return path.Dir(w.Path) }

// Read reads the workbook.
func (w *Workbook) Read() (File, error) {
	b, err := place{&Root{w.Root, w.FS}, w.Path}.read()
	return File{path.Base(w.Path), b}, err
}

// Group is the workbooks of one tower.
type Group []Workbook

// Stem is the path for what is made of the group, without an ending: that of its
// workbook, or the names of all with plus signs between.
func (g Group) Stem() string {
	var names []string
	for _, w := range g {
		base := path.Base(w.Path)
		names = append(names, strings.TrimSuffix(base, path.Ext(base)))
	}
	return path.Join(g[0].Dir(), strings.Join(names, "+"))
}

// Batch is the workbooks found in folders.
type Batch struct {
	Groups []Group
	Faults []Fault // workbooks that are not told apart, since they cannot be read
	Other  int     // workbooks that are no form
}

// Find lists the workbooks of all towers in the folders. Identify reads what a
// workbook says it is about; it is asked only where a folder holds several, and
// answers as a [Judge] does.
func Find(ctx context.Context, roots []Root, count int, identify func(File) (Identity, error)) (*Batch, error) {
	all, faults := walk(roots)
	b := &Batch{Faults: faults}
	type folder struct {
		root *Root
		dir  string
	}
	several := map[folder]int{}
	for _, at := range all.workbooks {
		several[folder{at.root, path.Dir(at.path)}]++
	}
	type answer struct {
		book Workbook
		err  error
	}
	look := func(at place) answer {
		w := Workbook{Root: at.root.Name, Path: at.path, FS: at.root.FS}
		var err error
		if w.Info, err = fs.Stat(at.root.FS, at.path); err != nil {
			return answer{w, plain(err)}
		}
		if several[folder{at.root, path.Dir(at.path)}] == 1 {
			return answer{w, nil}
		}
		file, err := w.Read()
		if err == nil {
			w.Identity, err = identify(file)
		}
		return answer{w, err}
	}
	type kept struct {
		at   place
		book Workbook
	}
	var books []kept
	each(ctx, workers(count), all.workbooks, look, func(at place, a answer) {
		switch {
		case errors.Is(a.err, ErrNoForm):
			b.Other++
		case a.err != nil:
			b.Faults = append(b.Faults, Fault{at.String(), a.err.Error()})
		default:
			books = append(books, kept{at, a.book})
		}
	})
	for _, group := range grouped(books, func(k kept) (place, Identity) { return k.at, k.book.Identity }) {
		var g Group
		for _, k := range group {
			g = append(g, k.book)
		}
		b.Groups = append(b.Groups, g)
	}
	return b, ctx.Err()
}

// Each makes something of every group with some goroutines, and hands on what
// came out in the order of the groups.
func Each[R any](ctx context.Context, count int, groups []Group, work func(Group) R, take func(Group, R)) error {
	each(ctx, workers(count), groups, work, take)
	return ctx.Err()
}
