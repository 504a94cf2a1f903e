package report

import (
	"fmt"
	"io"

	"asleft/internal/archive"
	"asleft/internal/compose"
	"asleft/internal/data"
)

// Schema is the JSON Schema of the data file.
func Schema() []byte { return data.Schema() }

// WriteJSON writes the data file, the same bytes as inside the package.
func (j *Job) WriteJSON(w io.Writer) error {
	if j.unattached {
		return errUnattached
	}
	b, err := compose.Data(j.input())
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

// WritePDF writes the package. Where the workbook holds what cannot be printed
// nothing is written, and the error, which has [ErrRefused] in its chain, says
// all of it.
func (j *Job) WritePDF(w io.Writer) error {
	if j.unattached {
		return errUnattached
	}
	b, err := compose.Write(j.input())
	if err != nil {
		return fmt.Errorf("%w: %w", ErrRefused, err)
	}
	_, err = w.Write(b)
	return err
}

// Files are the workbooks as received, the data file, the tables and the
// manifest: what lies inside the package, or with the archive-only profile is
// to lie beside it.
func (j *Job) Files() ([]File, error) {
	if j.unattached {
		return nil, errUnattached
	}
	parts, err := compose.Files(j.input())
	if err != nil {
		return nil, err
	}
	var files []File
	for _, p := range parts {
		files = append(files, File(p))
	}
	return files, nil
}

// FilesBeside tells whether the files are to lie in a folder beside the package,
// and not inside it.
func (j *Job) FilesBeside() bool { return j.profile == archive.PDFA2A }

// input is the job as the pages are composed from it.
func (j *Job) input() compose.Input {
	return compose.Input{
		Record:     j.record,
		Assessment: j.assessment,
		Moves:      j.moves,
		Rules:      j.rules,
		Words:      j.words,
		Beside:     beside(j.words),
		Program:    program,
		Sources:    j.sources,
		Enclosures: j.enclosures,
		Previous:   j.previous,
		Options:    compose.Options{Paper: j.paper, Units: j.units, Profile: j.profile, Cell: j.cell},
	}
}
