package enclosure

import (
	"bytes"
	"errors"
	"fmt"
	"image"

	"asleft/internal/field"
)

// Reasons why the files of a package cannot be taken back.
var (
	ErrRows    = errors.New("other rows of attachments than the workbook has")
	ErrMissing = errors.New("not in the package")
	ErrChanged = errors.New("is not what its hash says")
)

// Restore fills in the rows of a workbook from the files of a finished package:
// stored says for each row what went in, file gives the bytes by name. A picture
// is taken as it was stored, so the originals are not needed; their hashes are
// what stored says. A row that went into no package of this selection of cells
// has no name.
func Restore(rows []field.Attachment, stored []field.Stored, file func(name string) ([]byte, bool)) ([]File, error) {
	if len(rows) != len(stored) {
		return nil, ErrRows
	}
	var out []File
	var all error
	seen := map[string]bool{}
	for i := range rows {
		s := stored[i]
		if s.Name == "" {
			continue
		}
		if !seen[s.Name] {
			f, err := restored(&rows[i], &s, file)
			if err != nil {
				all = errors.Join(all, fmt.Errorf("%s: %w", s.Name, err))
				continue
			}
			seen[s.Name] = true
			out = append(out, f)
		}
		rows[i].Stored = s
	}
	return out, all
}

func restored(a *field.Attachment, s *field.Stored, file func(string) ([]byte, bool)) (File, error) {
	b, ok := file(s.Name)
	if !ok {
		return File{}, ErrMissing
	}
	f := File{Name: s.Name, MIME: pdfMIME, Bytes: b}
	if hash(b) != s.SHA256 || len(b) != s.Size {
		return f, ErrChanged
	}
	if a.Kind.Value != field.Photo {
		if s.Original != s.SHA256 {
			return f, ErrChanged
		}
		return f, nil
	}
	f.MIME, f.Original = jpegMIME, s.Original
	config, format, err := image.DecodeConfig(bytes.NewReader(b))
	if err != nil || format != "jpeg" || config.Width != s.Width || config.Height != s.Height {
		return f, ErrChanged
	}
	return f, nil
}
