package report

import (
	"asleft/internal/compose"
	"asleft/internal/data"
	"asleft/internal/enclosure"
	"asleft/internal/field"
)

// packed is what a finished package holds besides its workbooks: what its data
// file says of attachments and of the one cell it is of, and the files as they
// were stored. From it the package can be made again without the originals.
type packed struct {
	stated *data.Document // nil where the data file cannot be read
	files  map[string][]byte
}

func takePacked(parts []data.Part) *packed {
	p := &packed{files: map[string][]byte{}}
	for _, x := range parts {
		p.files[x.Name] = x.Bytes
	}
	if d, err := data.Decode(p.files[data.DataName]); err == nil {
		p.stated = d
	}
	return p
}

// attach fills in the rows of a record from the stored files.
func (p *packed) attach(rows []field.Attachment) ([]enclosure.File, error) {
	if p.stated == nil {
		return nil, nil
	}
	return enclosure.Restore(rows, p.stated.Stored(), func(name string) ([]byte, bool) {
		b, ok := p.files[name]
		return b, ok
	})
}

// cell is the one cell that the package is of.
func (p *packed) cell() int {
	if p == nil || p.stated == nil {
		return 0
	}
	return p.stated.Options.Cell
}

// previous is the package that came before, as it was attached.
func (p *packed) previous() (*compose.Previous, error) {
	file, ok := p.files[data.PreviousDataName]
	if !ok {
		return nil, nil
	}
	old, err := compose.NewPrevious(file, p.files[data.PreviousManifestName])
	if err != nil {
		return nil, &PreviousError{err}
	}
	return old, nil
}
