package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// maxTries bounds the search for a free temporary name. Names are only taken
// where runs were killed half way or go on at the same time.
const maxTries = 1000

// signatureMark stands in every signed PDF in plain text: the byte range of a
// signature is filled in after the file is written, so it cannot be packed.
var signatureMark = []byte("/ByteRange")

// Reasons for not writing an output.
var (
	errIsFolder   = errors.New("is a folder")
	errNotRegular = errors.New("is no regular file")
	errIsInput    = errors.New("is the workbook itself")
	errSigned     = errors.New("carries a signature and is never overwritten")
	errNoName     = errors.New("no free temporary name beside it")
)

// writeOutput writes a file whole or not at all: into a temporary file in the
// same folder, flushed to the disk, then renamed over the old one, which stays
// as it is until that moment. It refuses to replace one of the inputs, however
// named, anything that is no regular file, and a signed PDF.
func writeOutput(path string, inputs []fs.FileInfo, content []byte) error {
	target, mode, err := checkOutput(path, inputs)
	if err != nil {
		return err
	}
	tmp, err := createBeside(target)
	if err != nil {
		return fmt.Errorf("%s: %w", path, plainCause(err))
	}
	if err := fill(tmp, mode, content); err != nil {
		_ = os.Remove(tmp.Name())
		return fmt.Errorf("%s: %w", path, plainCause(err))
	}
	if err := os.Rename(tmp.Name(), target); err != nil {
		_ = os.Remove(tmp.Name())
		return fmt.Errorf("%s: %w", path, plainCause(err))
	}
	flushFolder(filepath.Dir(target))
	return nil
}

// checkOutput says whether the path may be written, and where it really leads:
// a link is followed, so that it stays a link. The mode is the old file's, or 0
// where there is none.
func checkOutput(path string, inputs []fs.FileInfo) (target string, mode fs.FileMode, err error) {
	target, err = filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		if _, lerr := os.Lstat(path); lerr == nil {
			return "", 0, fmt.Errorf("%s: link to nothing", path)
		}
		return path, 0, nil
	}
	if err != nil {
		return "", 0, fmt.Errorf("%s: %w", path, plainCause(err))
	}
	info, err := os.Stat(target)
	switch {
	case err != nil:
		return "", 0, fmt.Errorf("%s: %w", path, plainCause(err))
	case info.IsDir():
		return "", 0, fmt.Errorf("%s: %w", path, errIsFolder)
	case !info.Mode().IsRegular():
		return "", 0, fmt.Errorf("%s: %w", path, errNotRegular)
	}
	for _, in := range inputs {
		if os.SameFile(in, info) {
			return "", 0, fmt.Errorf("%s: %w", path, errIsInput)
		}
	}
	if err := refuseSigned(target); err != nil {
		return "", 0, fmt.Errorf("%s: %w", path, err)
	}
	return target, info.Mode().Perm(), nil
}

// refuseSigned looks for a signature in an existing PDF.
func refuseSigned(path string) error {
	old, err := os.ReadFile(path)
	if err != nil {
		return plainCause(err)
	}
	if bytes.HasPrefix(old, []byte("%PDF-")) && bytes.Contains(old, signatureMark) {
		return errSigned
	}
	return nil
}

// createBeside makes a new hidden file in the folder of the target. It is
// opened with the permissions of any new file, less what the user masks, which
// os.CreateTemp would not do.
func createBeside(target string) (*os.File, error) {
	dir, base := filepath.Split(target)
	for n := range maxTries {
		name := filepath.Join(dir, fmt.Sprintf(".%s.%d.tmp", base, n))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
	return nil, errNoName
}

// fill writes, flushes and closes the temporary file.
func fill(tmp *os.File, mode fs.FileMode, content []byte) error {
	_, err := tmp.Write(content)
	if err == nil && mode != 0 {
		err = tmp.Chmod(mode)
	}
	if err == nil {
		err = tmp.Sync()
	}
	return errors.Join(err, tmp.Close())
}

// flushFolder makes the new name last through a power cut where the system can
// do that; the file itself is already whole, so a failure changes nothing.
func flushFolder(dir string) {
	d, err := os.Open(dir)
	if err != nil {
		return
	}
	_ = d.Sync()
	_ = d.Close()
}

// plainCause takes the operation and the temporary name off an error of the
// file system: the message names the path that the user gave.
func plainCause(err error) error {
	var pathErr *fs.PathError
	if errors.As(err, &pathErr) {
		return pathErr.Err
	}
	var linkErr *os.LinkError
	if errors.As(err, &linkErr) {
		return linkErr.Err
	}
	return err
}
