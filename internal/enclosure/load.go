package enclosure

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strconv"
	"strings"

	"asleft/internal/field"
)

// File is a file as it goes into the package.
type File struct {
	Name     string // plain ASCII
	MIME     string
	Bytes    []byte
	Original string // SHA-256 of the original where that is another file, hex
}

// MIME types of stored files.
const (
	jpegMIME = "image/jpeg"
	pdfMIME  = "application/pdf"
)

// Load reads the files that the rows name, each in the folder of the workbook
// that the row stands in, and fills in the rows. A folder may be nil where
// nothing is named. Of faults all are told; with any, nothing else counts. Rows
// without a file or a kind are left alone.
func Load(rows []field.Attachment, folders []fs.FS) ([]File, []field.Fault) {
	l := loader{folders: folders, seen: map[source]field.Stored{}}
	for i := range rows {
		l.row(i, &rows[i])
	}
	return l.files, l.faults
}

// Hash is the SHA-256, in hex digits, of the file that a row of which this was typed
// would take from a folder; empty where it would take none.
func Hash(folder fs.FS, typed string) string {
	name, ok := clean(typed)
	if !ok {
		return ""
	}
	l := loader{folders: []fs.FS{folder}}
	b, ok := l.read(&field.Attachment{}, name)
	if !ok {
		return ""
	}
	return hash(b)
}

// source is a file of one kind in one folder; named twice, it is stored once.
type source struct {
	folder     int
	kind, name string
}

type loader struct {
	folders []fs.FS
	seen    map[source]field.Stored
	files   []File
	faults  []field.Fault
	total   int
}

func (l *loader) row(i int, a *field.Attachment) {
	if !a.File.Set || !a.Kind.Set {
		return // told by the reader of the workbook
	}
	name, ok := clean(a.File.Value)
	if !ok {
		l.fault(BadPath, a, "")
		return
	}
	from := source{a.File.At.File, papers(a.Kind.Value), name}
	if stored, again := l.seen[from]; again {
		a.Stored = stored
		return
	}
	original, ok := l.read(a, name)
	if !ok {
		return
	}
	f := File{Name: storedName(a, i, name)}
	stored := field.Stored{Name: f.Name, Original: hash(original), OriginalSize: len(original)}
	if a.Kind.Value == field.Photo {
		f.MIME, f.Original = jpegMIME, stored.Original
		if f.Bytes, stored.Width, stored.Height, ok = l.picture(a, original); !ok {
			return
		}
	} else {
		f.MIME, f.Bytes = pdfMIME, original
		if !l.paper(a, original) {
			return
		}
	}
	stored.SHA256, stored.Size = hash(f.Bytes), len(f.Bytes)
	if l.total += len(f.Bytes); l.total > MaxAll {
		l.fault(TooMany, a, megabytes(MaxAll))
		return
	}
	a.Stored, l.seen[from] = stored, stored
	l.files = append(l.files, f)
}

// papers is the same for certificates and manuals, which are stored alike.
func papers(kind string) string {
	if kind == field.Photo {
		return kind
	}
	return field.Certificate
}

func (l *loader) fault(kind field.FaultKind, a *field.Attachment, detail string) {
	at := a.File.At
	if at.Cell == "" {
		at = a.At
	}
	l.faults = append(l.faults, field.Fault{Kind: kind, At: at, Read: a.File.Value, Expected: "filename", Detail: detail})
}

// read takes the bytes of a file, having looked at what it is: opening a device
// might wait for ever.
func (l *loader) read(a *field.Attachment, name string) ([]byte, bool) {
	n := a.File.At.File
	if n < 0 || n >= len(l.folders) || l.folders[n] == nil {
		l.fault(NoFolder, a, "")
		return nil, false
	}
	folder := l.folders[n]
	info, err := fs.Stat(folder, name)
	if err != nil {
		l.refuse(a, folder, name, err)
		return nil, false
	}
	switch {
	case !info.Mode().IsRegular():
		l.fault(NoPlain, a, "")
		return nil, false
	case info.Size() > MaxFile:
		l.fault(FileBig, a, megabytes(MaxFile))
		return nil, false
	}
	f, err := folder.Open(name)
	if err != nil {
		l.refuse(a, folder, name, err)
		return nil, false
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, MaxFile+1))
	switch {
	case err != nil:
		l.fault(NoAccess, a, "")
	case len(b) > MaxFile:
		l.fault(FileBig, a, megabytes(MaxFile))
	default:
		return b, true
	}
	return nil, false
}

// refuse says why a file cannot be had.
func (l *loader) refuse(a *field.Attachment, folder fs.FS, name string, err error) {
	other, found := otherCase(folder, name)
	switch {
	case linked(folder, name):
		l.fault(LeadsOut, a, "")
	case errors.Is(err, fs.ErrNotExist) && found:
		l.fault(OtherCase, a, other)
	case errors.Is(err, fs.ErrNotExist):
		l.fault(NoFile, a, "")
	default:
		l.fault(NoAccess, a, "")
	}
}

// storedName is the name inside the package: what it is, its row, and what it
// was called.
func storedName(a *field.Attachment, i int, name string) string {
	base := path.Base(name)
	base = strings.TrimSuffix(base, path.Ext(base))
	ending := ".pdf"
	if a.Kind.Value == field.Photo {
		ending = ".jpg"
	}
	return fmt.Sprintf("%s-%02d-%s%s", a.Kind.Value, i+1, ascii(base), ending)
}

// maxName is how much of the name of a file is kept.
const maxName = 40

func ascii(name string) string {
	name = strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', strings.ContainsRune("._-", r):
			return r
		}
		return '_'
	}, name)
	return name[:min(len(name), maxName)]
}

func hash(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

func megabytes(n int) string { return strconv.Itoa(n>>20) + " MB" }
