package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"

	"asleft/report"
)

// register writes the register of everything in some folders.
func (p *program) register(args []string) error {
	f := p.flags("register")
	out := f.StringP("output", "o", "", "")
	units := f.String("units", "", "")
	lang := f.String("lang", "", "")
	workers := f.Int("workers", 0, "")
	paths, done, err := p.parse(f, args)
	if err != nil || done {
		return err
	}
	format := strings.ToLower(strings.TrimPrefix(filepath.Ext(*out), "."))
	switch {
	case len(paths) == 0:
		return useError("noFolders", "command", "register")
	case *out == "":
		return useError("noOutput", "command", "register")
	case format != report.FormatXLSX && format != report.FormatCSV && format != report.FormatJSON:
		return useError("registerFormat", "file", *out)
	}
	folders, closeAll, err := openFolders(paths)
	if err != nil {
		return err
	}
	defer closeAll()
	ctx, stop := interruptible()
	defer stop()
	many, end := p.many(*workers, "cli.many.reading")
	r, err := report.Gather(ctx, folders, many)
	end()
	if err != nil {
		return stopped(err)
	}
	var content bytes.Buffer
	if err := r.Write(&content, report.Print{Format: format, Units: *units, Language: *lang, Link: linkFrom(*out)}); err != nil {
		return err
	}
	if err := writeOutput(*out, nil, content.Bytes()); err != nil {
		return err
	}
	c, bad := r.Counts(), r.Unread()
	fmt.Fprintln(p.out, p.words.Say("cli.register.done", "towers", fmt.Sprint(c.Towers), "cells", fmt.Sprint(c.Cells),
		"packages", fmt.Sprint(c.Towers-c.Judged), "workbooks", fmt.Sprint(c.Judged), "other", fmt.Sprint(c.Other),
		"bad", fmt.Sprint(len(bad))))
	p.unread(bad)
	if len(bad) > 0 {
		return errNo
	}
	return nil
}

// linkFrom makes links relative to where a file lies, so that both can be moved
// together; where no such way exists, as between drives, the path stays whole.
func linkFrom(out string) func(string) string {
	dir, err := filepath.Abs(filepath.Dir(out))
	return func(path string) string {
		to, aerr := filepath.Abs(filepath.FromSlash(path))
		if err != nil || aerr != nil {
			return path
		}
		rel, rerr := filepath.Rel(dir, to)
		if rerr != nil {
			return filepath.ToSlash(to)
		}
		return filepath.ToSlash(rel)
	}
}
