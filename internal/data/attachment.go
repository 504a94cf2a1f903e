package data

import (
	"strconv"

	"asleft/internal/field"
)

func attachments(list []field.Attachment) []Attachment {
	var out []Attachment
	for _, a := range list {
		var r row
		row := r.text("kind", a.Kind).count("cell", a.Cell).text("file", a.File).text("caption", a.Caption).done()
		x := Attachment{Entries: row}
		if a.Stored.Name != "" {
			stored := Stored(a.Stored)
			x.Stored = &stored
		}
		out = append(out, x)
	}
	return out
}

// Stored is what a data file says of what was stored of each attachment, in the
// order of the rows; nothing of those that are not in the package.
func (d *Document) Stored() []field.Stored {
	out := make([]field.Stored, len(d.Attachments))
	for i, a := range d.Attachments {
		if a.Stored != nil {
			out[i] = field.Stored(*a.Stored)
		}
	}
	return out
}

// AttachmentID is the path of a member of what is stored of an attachment, by
// the index of its row, e.g. "original".
func AttachmentID(index int, member string) string {
	return join("attachments", strconv.Itoa(index), "stored", member)
}
