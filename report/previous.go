package report

import (
	"bytes"
	"errors"

	"asleft/internal/archive"
	"asleft/internal/compose"
	"asleft/internal/data"
)

// Reasons why there is nothing to compare with.
var (
	// ErrNoData: the earlier package has its data file in the folder beside it.
	ErrNoData = errors.New("holds no data file")
	// ErrNotPackage: neither a package nor a data file.
	ErrNotPackage = errors.New("is neither a package of this program nor the data file of one")
)

// compareWith takes the package that came before, as PDF, or its data file.
func (j *Job) compareWith(o Options) (err error) {
	if o.packed != nil {
		j.previous, err = o.packed.previous()
		return err
	}
	old := o.Previous
	if len(old) == 0 {
		return nil
	}
	file, manifest := old, []byte(nil)
	if bytes.HasPrefix(old, []byte("%PDF-")) {
		var err error
		if file, manifest, err = takeOut(old); err != nil {
			return &PreviousError{err}
		}
	}
	p, err := compose.NewPrevious(file, manifest)
	if err != nil {
		return &PreviousError{errors.Join(ErrNotPackage, err)}
	}
	j.previous = p
	return nil
}

// PreviousError is about the package that came before.
type PreviousError struct{ Err error }

func (e *PreviousError) Error() string { return e.Err.Error() }

func (e *PreviousError) Unwrap() error { return e.Err }

// takeOut gets data file and manifest out of a package.
func takeOut(pdf []byte) (file, manifest []byte, err error) {
	r, err := archive.Open(pdf)
	if err != nil {
		return nil, nil, errors.Join(ErrNotPackage, err)
	}
	files, err := r.Attachments()
	if err != nil {
		return nil, nil, errors.Join(ErrNotPackage, err)
	}
	for _, f := range files {
		switch f.Name {
		case data.DataName:
			file = f.Bytes
		case data.ManifestName:
			manifest = f.Bytes
		}
	}
	if file == nil {
		return nil, nil, ErrNoData
	}
	return file, manifest, nil
}
