package workbook

import "asleft/internal/field"

// attachmentsBlock names what lies beside the workbook and goes into the
// package: pictures, certificates, manuals. The files are not read here.
func attachmentsBlock() block {
	type a = field.Attachment
	b := table("attachments", 24, func(r *field.Record) *[]a { return &r.Attachments },
		func(x *a) *field.Ref { return &x.At },
		entry("kind", func(x *a) any { return &x.Kind }).of(attachmentKind()).wide(14),
		entry("cell", func(x *a) any { return &x.Cell }).wide(8),
		entry("file", func(x *a) any { return &x.File }).wide(46),
		entry("caption", func(x *a) any { return &x.Caption }).wide(62),
	)
	b.optional = true
	return b
}

func attachmentKind() *list {
	return &list{key: "attachment", codes: []string{field.Photo, field.Certificate, field.Manual}}
}

// attachmentsWhole reports rows that do not say what lies where. Every one needs
// a caption: it is all that a person who cannot see a picture gets of it, and
// all that tells one certificate from another.
func (r *reader) attachmentsWhole() {
	for i := range r.record.Attachments {
		a := &r.record.Attachments[i]
		for _, x := range []struct {
			set      bool
			expected string
		}{{a.Kind.Set, "attachmentkind"}, {a.File.Set, "filename"}, {a.Caption.Set, "caption"}} {
			if !x.set {
				r.faultHere(Required, a.At, "", x.expected, "")
			}
		}
	}
}
