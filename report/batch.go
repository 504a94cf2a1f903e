package report

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"path"
	"slices"

	"asleft/internal/archive"
	"asleft/internal/compose"
	"asleft/internal/data"
	"asleft/internal/enclosure"
	"asleft/internal/measure"
	"asleft/internal/page"
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
	Infos  []fs.FileInfo // of the workbooks
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
	done := 0
	tell := func() {
		if m.Progress != nil {
			m.Progress(done, len(found.Groups))
		}
	}
	tell()
	err = register.Each(ctx, m.Workers, found.Groups, b.one, func(g register.Group, o outcome) {
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

func (b *Batch) one(g register.Group) outcome {
	t := towerOf(g)
	var files []register.File
	var folders []fs.FS
	for _, w := range g {
		f, err := w.Read()
		if err != nil {
			return outcome{err: err}
		}
		folder, err := fs.Sub(w.FS, w.Dir())
		if err != nil {
			return outcome{err: err}
		}
		files, folders = append(files, f), append(folders, folder)
	}
	old := func(name string) []byte { return b.Old(t, name) }
	if b.unchanged(files, folders, old) {
		return outcome{}
	}
	j, err := OpenAll(sources(files, folders), b.Options)
	if err != nil {
		return outcome{err: told(err)}
	}
	var pdf bytes.Buffer
	if err := j.WritePDF(&pdf); err != nil {
		return outcome{err: err}
	}
	return outcome{written: true, err: b.Write(t, j, pdf.Bytes())}
}

// unchanged tells whether the package that is there was made from these very
// workbooks and what they name, by this program and rule set, with what was asked for. Making it
// again would then give the same bytes.
func (b *Batch) unchanged(files []register.File, folders []fs.FS, old func(name string) []byte) bool {
	pdf := old("")
	if pdf == nil {
		return false
	}
	_, d, err := register.Data(pdf, old)
	rules, rerr := ruleSet()
	if err != nil || rerr != nil || d.Program != program || d.Rules.SHA256 != rules.Hash || !b.asked(d) || !sameAttachments(d, folders) {
		return false
	}
	var was, now []string
	for _, f := range d.Files {
		was = append(was, f.Name+" "+f.SHA256)
	}
	for _, f := range files {
		sum := sha256.Sum256(f.Bytes)
		now = append(now, f.Name+" "+hex.EncodeToString(sum[:]))
	}
	return slices.Equal(was, now)
}

// sameAttachments tells whether the files that the workbooks name are those that
// went into a package.
func sameAttachments(d *data.Document, folders []fs.FS) bool {
	for _, a := range d.Attachments {
		typed, _ := a.Entries.Get("file")
		name, ok := enclosure.Path(typed.Value)
		if !ok || a.Stored == nil || typed.File >= len(folders) {
			return false
		}
		content, err := fs.ReadFile(folders[typed.File], name)
		sum := sha256.Sum256(content)
		if err != nil || hex.EncodeToString(sum[:]) != a.Stored.Original {
			return false
		}
	}
	return true
}

// asked tells whether a package was made with the options asked for. What is not
// asked for follows the workbook, which is the same.
func (b *Batch) asked(d *data.Document) bool {
	profile := compose.ProfileName(archive.PDFA3A)
	if b.Options.ArchiveOnly {
		profile = compose.ProfileName(archive.PDFA2A)
	}
	said := func(key string) string { e, _ := d.Project.Get(key); return e.Value }
	return d.Options.Profile == profile &&
		d.Options.Language == first(b.Options.Language, said("language"), english) &&
		d.Options.Paper == first(b.Options.Paper, said("paper"), page.Letter.Name) &&
		d.Options.Units == first(b.Options.Units, said("units"), measure.UnitInch.String())
}
