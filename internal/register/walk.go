package register

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"path"
	"strings"
)

// Root is a folder that is walked. Its name stands before the paths in it.
type Root struct {
	Name string
	FS   fs.FS
}

// maxFile is the size of the largest file that is looked into.
const maxFile = 256 << 20

// ErrTooLarge is a file that is larger than anything this program writes.
var ErrTooLarge = errors.New("larger than a workbook or a package can be")

// filesFolder ends the name of the folder beside an archive-only package.
const filesFolder = "-files"

// place is a file: its folder and the path in it.
type place struct {
	root *Root
	path string
}

func (p place) String() string { return path.Join(p.root.Name, p.path) }

func (p place) base() string { return path.Base(p.path) }

// stem is the path without the ending of the file's name.
func (p place) stem() string { return strings.TrimSuffix(p.path, path.Ext(p.path)) }

// read reads the whole file.
func (p place) read() ([]byte, error) {
	f, err := p.root.FS.Open(p.path)
	if err != nil {
		return nil, plain(err)
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, maxFile+1))
	switch {
	case err != nil:
		return nil, plain(err)
	case len(b) > maxFile:
		return nil, ErrTooLarge
	}
	return b, nil
}

// besides reads files of the folder beside an archive-only package.
func (p place) besides() func(name string) []byte {
	return func(name string) []byte {
		b, err := place{p.root, path.Join(p.stem()+filesFolder, name)}.read()
		if err != nil {
			return nil
		}
		return b
	}
}

// plain takes the path off an error: the path is told in front of it.
func plain(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

func hash(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// found is what there is to read.
type found struct{ packages, workbooks []place }

// walk lists PDFs and workbooks in the order of their paths. Hidden files and
// folders are left out, the lock files that spreadsheets leave behind, and the
// folders that belong to archive-only packages. A folder that cannot be listed
// is a fault.
func walk(roots []Root) (found, []Fault) {
	var all found
	var faults []Fault
	for i := range roots {
		r := &roots[i]
		_ = fs.WalkDir(r.FS, ".", func(name string, d fs.DirEntry, err error) error {
			at := place{r, name}
			switch {
			case err != nil:
				faults = append(faults, Fault{at.String(), plain(err).Error()})
				return nil
			case name != "." && hidden(d.Name()):
				return skip(d)
			case d.IsDir() && strings.HasSuffix(name, filesFolder) && isFile(r.FS, strings.TrimSuffix(name, filesFolder)+".pdf"):
				return fs.SkipDir
			case !d.Type().IsRegular():
				return nil
			}
			switch strings.ToLower(path.Ext(name)) {
			case ".pdf":
				all.packages = append(all.packages, at)
			case ".xlsx":
				all.workbooks = append(all.workbooks, at)
			}
			return nil
		})
	}
	return all, faults
}

func hidden(name string) bool { return strings.HasPrefix(name, ".") || strings.HasPrefix(name, "~$") }

func skip(d fs.DirEntry) error {
	if d.IsDir() {
		return fs.SkipDir
	}
	return nil
}

func isFile(f fs.FS, name string) bool {
	info, err := fs.Stat(f, name)
	return err == nil && info.Mode().IsRegular()
}
