package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"
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
	errReserved   = errors.New("is a name that Windows keeps for itself")
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
	// Somebody may have signed it, or put something else there, meanwhile.
	if _, _, err := checkOutput(path, inputs); err != nil {
		_ = os.Remove(tmp.Name())
		return err
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
	if runtime.GOOS == "windows" && reservedName(filepath.Base(path)) {
		return "", 0, fmt.Errorf("%s: %w", path, errReserved)
	}
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
	removeLeft(dir, base)
	for n := range maxTries {
		name := filepath.Join(dir, temporaryName(base, n))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
	return nil, errNoName
}

// longestBase is how much of an output's name stands in the temporary one: file
// systems take 255 bytes.
const longestBase = 200

// temporaryName is the nth name under which an output is written: hidden, and
// said to be temporary.
func temporaryName(base string, n int) string {
	if len(base) > longestBase {
		base = strings.ToValidUTF8(base[:longestBase], "")
	}
	return fmt.Sprintf(".%s.%d.tmp", base, n)
}

// staleAfter is far longer than any run takes to write a file.
const staleAfter = time.Hour

// removeLeft removes temporary files of the same output that runs left which
// were killed long ago.
func removeLeft(dir, base string) {
	for n := range maxTries {
		name := filepath.Join(dir, temporaryName(base, n))
		info, err := os.Lstat(name)
		if err != nil {
			return // names are given out in order
		}
		if info.Mode().IsRegular() && time.Since(info.ModTime()) > staleAfter {
			_ = os.Remove(name)
		}
	}
}

// reservedName tells names that are devices on Windows, whatever follows the
// first dot, and those that it changes: with a dot or blank at the end, or with
// a character that paths cannot hold.
func reservedName(base string) bool {
	stem, _, _ := strings.Cut(base, ".")
	switch stem = strings.ToUpper(strings.TrimRight(stem, " ")); stem {
	case "CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$":
		return true
	}
	if rest, port := strings.CutPrefix(stem, "COM"); port || strings.HasPrefix(stem, "LPT") {
		if !port {
			rest = strings.TrimPrefix(stem, "LPT")
		}
		if len([]rune(rest)) == 1 && strings.ContainsAny(rest, "0123456789¹²³") {
			return true
		}
	}
	return strings.HasSuffix(base, ".") || strings.HasSuffix(base, " ") || strings.ContainsAny(base, `<>:"|?*`)
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
