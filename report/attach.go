package report

import (
	"errors"
	"io/fs"
	"slices"

	"asleft/internal/enclosure"
	"asleft/internal/field"
)

// errUnattached: the package was asked for from a job that left its attachments
// unread.
var errUnattached = errors.New("opened without the attachments: only verdicts, cards and figures can be had")

// attach reads what the workbooks name beside them.
func (j *Job) attach(r *field.Record, sources []Source, o Options) (faults []field.Fault, err error) {
	switch {
	case o.Unattached:
		j.unattached = len(r.Attachments) > 0
		return nil, nil
	case o.packed != nil:
		j.enclosures, err = o.packed.attach(r.Attachments)
		return nil, err
	}
	folders := make([]fs.FS, 0, len(sources))
	for _, s := range sources {
		folders = append(folders, s.Folder)
	}
	j.enclosures, faults = enclosure.Load(r.Attachments, folders)
	return faults, nil
}

// Attachment is a file that a workbook names.
type Attachment struct {
	Source int    // index of the workbook that names it
	Path   string // below the folder of that workbook, with slashes
}

// Attachments are the files that went into the package.
func (j *Job) Attachments() []Attachment {
	var out []Attachment
	for _, a := range j.record.Attachments {
		if path, ok := enclosure.Path(a.File.Value); ok {
			out = append(out, Attachment{a.File.At.File, path})
		}
	}
	return out
}

// attachedTo leaves in a list of attachments what belongs to the tower or to a
// cell; the others stay as rows of which nothing is stored.
func attachedTo(list []field.Attachment, cell int) []field.Attachment {
	list = slices.Clone(list)
	for i := range list {
		if c := list[i].Cell; c.Set && c.Value != cell {
			list[i].Stored = field.Stored{}
		}
	}
	return list
}
