package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
	"unicode/utf8"
)

// Limits on a workbook read from outside. A form for 99 cells with 4 rounds
// takes about 5 MB, its sheets up to 400 KB each unpacked.
const (
	MaxFileSize = 32 << 20 // as it lies on the disk
	maxParts    = 4000
	maxPart     = 8 << 20  // of a part that is read, unpacked
	maxUnpacked = 80 << 20 // of all parts that are read
	MaxFiles    = 120      // workbooks of one tower
	maxSheets   = 400
	maxNames    = 60000
	maxStrings  = 400000
	maxCells    = 40000 // with contents, on one sheet
	maxGridRow  = 20000
	maxGridCol  = 512
	maxMerges   = 5000
	maxStyles   = 20000
	maxRuns     = 1 << 17 // of a text as the file has it; a spreadsheet's own limit is 32767 letters
	maxText     = 2000    // bytes of a text that is read
	maxComments = 2000
	maxFaults   = 5000
)

// Why a file is refused as a whole.
var (
	ErrNotWorkbook = errors.New("not a workbook (.xlsx)")
	ErrEncrypted   = errors.New("encrypted, or in an old format: save it as .xlsx without a password")
	ErrMacros      = errors.New("holds macros or active parts: save it as .xlsx without them")
	ErrExternal    = errors.New("holds links to other files: break the links and save again")
	ErrTooLarge    = errors.New("larger than a form can be")
	ErrDamaged     = errors.New("damaged")
	ErrNotForm     = errors.New("not made from the field form")
	ErrVersion     = errors.New("made from another version of the field form")
	ErrSeveral     = errors.New("too many workbooks for one tower")
)

// FileError is a workbook that cannot be read at all. Kind is one of the Err
// values of this package.
type FileError struct {
	Name   string // of the file
	Kind   error
	Detail string // what exactly, may be empty
}

func (e *FileError) Error() string {
	if e.Detail == "" {
		return fmt.Sprintf("%s: %s", e.Name, e.Kind)
	}
	return fmt.Sprintf("%s: %s: %s", e.Name, e.Kind, e.Detail)
}

func (e *FileError) Unwrap() error { return e.Kind }

// refusal is a FileError whose file is not yet known.
func refusal(kind error, detail string) error { return &FileError{Kind: kind, Detail: detail} }

// pack is the file as a set of parts. Only what is asked for is unpacked.
type pack struct {
	parts    map[string]*zip.File // by lower-case name
	unpacked int
}

func openPack(b []byte) (*pack, error) {
	switch {
	case len(b) > MaxFileSize:
		return nil, refusal(ErrTooLarge, fmt.Sprintf("%d bytes", len(b)))
	case bytes.HasPrefix(b, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")):
		return nil, refusal(ErrEncrypted, "")
	case !bytes.HasPrefix(b, []byte("PK")):
		return nil, refusal(ErrNotWorkbook, "")
	}
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return nil, refusal(ErrDamaged, err.Error())
	}
	if len(z.File) > maxParts {
		return nil, refusal(ErrTooLarge, fmt.Sprintf("%d parts", len(z.File)))
	}
	p := &pack{parts: make(map[string]*zip.File, len(z.File))}
	for _, f := range z.File {
		name := strings.ToLower(strings.ReplaceAll(f.Name, `\`, "/"))
		if p.parts[name] != nil { // which of them a program takes is chance
			return nil, refusal(ErrDamaged, shown(name)+" stands twice")
		}
		p.parts[name] = f
	}
	return p, p.refuseActive()
}

// activeParts are what a field form never holds, by a piece of the part's
// name.
var activeParts = []struct {
	piece string
	kind  error
}{
	{"vbaproject", ErrMacros}, {"xl/macrosheets/", ErrMacros}, {"xl/activex/", ErrMacros},
	{"xl/embeddings/", ErrMacros}, {"customui", ErrMacros}, {"xl/dialogsheets/", ErrMacros},
	{"xl/externallinks/", ErrExternal}, {"xl/connections.xml", ErrExternal}, {"xl/querytables/", ErrExternal},
}

// refuseActive refuses macros and links by the names of the parts, and by the
// relations and types that point to them.
func (p *pack) refuseActive() error {
	for name := range p.parts {
		for _, a := range activeParts {
			if strings.Contains(name, a.piece) {
				return refusal(a.kind, shown(name))
			}
		}
	}
	types, err := p.read("[Content_Types].xml")
	if err != nil {
		return refusal(ErrNotWorkbook, "")
	}
	if bytes.Contains(bytes.ToLower(types), []byte("macroenabled")) {
		return refusal(ErrMacros, "")
	}
	return nil
}

// has tells whether there is a part.
func (p *pack) has(name string) bool { return p.parts[strings.ToLower(name)] != nil }

// read unpacks a part. Its stated size is checked before, its real size while
// unpacking: archives lie.
func (p *pack) read(name string) ([]byte, error) {
	f := p.parts[strings.ToLower(name)]
	if f == nil {
		return nil, refusal(ErrDamaged, shown(name)+" is missing")
	}
	if f.UncompressedSize64 > maxPart || p.unpacked+int(f.UncompressedSize64) > maxUnpacked {
		return nil, refusal(ErrTooLarge, shown(name))
	}
	r, err := f.Open()
	if err != nil {
		return nil, refusal(ErrDamaged, shown(name))
	}
	defer r.Close()
	var buf bytes.Buffer
	buf.Grow(int(f.UncompressedSize64) + bytes.MinRead)
	n, err := io.Copy(&buf, io.LimitReader(r, maxPart+1))
	p.unpacked += int(n)
	switch {
	case n > maxPart:
		return nil, refusal(ErrTooLarge, shown(name))
	case err != nil:
		return nil, refusal(ErrDamaged, shown(name))
	case !utf8.Valid(buf.Bytes()):
		return nil, refusal(ErrDamaged, shown(name)+" is not UTF-8")
	case !knownEntities(buf.Bytes()):
		return nil, refusal(ErrDamaged, shown(name)+" has entities of its own")
	}
	return bytes.TrimPrefix(buf.Bytes(), []byte("\xef\xbb\xbf")), nil
}

// relation points from one part to another.
type relation struct{ id, kind, target string }

// relations reads those of a part, targets resolved to names of parts. A link
// to another file is refused; a hyperlink is not one: a spreadsheet makes it of
// every mail address.
func (p *pack) relations(part string) ([]relation, error) {
	name := "_rels/.rels" // of the file as a whole
	if part != "" {
		name = path.Join(path.Dir(part), "_rels", path.Base(part)+".rels")
	}
	if !p.has(name) {
		return nil, nil
	}
	b, err := p.read(name)
	if err != nil {
		return nil, err
	}
	var all []relation
	err = eachTag(b, func(t token) error {
		if !t.is("Relationship") {
			return nil
		}
		r := relation{t.attr("Id"), path.Base(t.attr("Type")), t.attr("Target")}
		if strings.EqualFold(t.attr("TargetMode"), "External") {
			if r.kind != "hyperlink" {
				return refusal(ErrExternal, shown(r.kind))
			}
			return nil
		}
		if strings.HasPrefix(r.target, "/") {
			r.target = r.target[1:]
		} else {
			r.target = path.Join(path.Dir(part), r.target)
		}
		all = append(all, r)
		return nil
	})
	return all, err
}

// eachTag calls f with every start tag of a part.
func eachTag(b []byte, f func(token) error) error {
	s := scanner{b: b}
	for {
		t, err := s.next()
		if err != nil {
			return refusal(ErrDamaged, err.Error())
		}
		switch t.kind {
		case endOfPart:
			return nil
		case startTag:
			if err := f(t); err != nil {
				return err
			}
		}
	}
}
