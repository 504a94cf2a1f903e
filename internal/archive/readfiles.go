package archive

import (
	"crypto/md5"
	"fmt"
	"time"
)

// Info returns the entries of the document information as text.
func (r *Reader) Info() (map[string]string, error) {
	d, err := r.dict(r.trailer["Info"], "document information")
	out := map[string]string{}
	for k, v := range d {
		out[string(k)] = text(v)
	}
	return out, err
}

// Metadata returns the XMP packet.
func (r *Reader) Metadata() ([]byte, error) {
	c, err := r.Catalog()
	if err != nil {
		return nil, err
	}
	_, b, err := r.stream(c["Metadata"], "metadata")
	return b, err
}

// maxFiles bounds the attached files of a document.
const maxFiles = 10_000

// Attachments returns the attached files in the order of their names. Size and
// checksum of each are compared with its bytes; a difference is an error, as is
// a file that is listed by name but not associated, or the other way round.
func (r *Reader) Attachments() ([]File, error) {
	files, faults := r.FoundFiles()
	if len(faults) > 0 {
		return files, faults[0].Err
	}
	return files, nil
}

// FileFault is what is wrong with an attached file; Name is empty where it is
// not one file.
type FileFault struct {
	Name string
	Err  error
}

// FoundFiles is [Reader.Attachments] for a file in doubt: all files that can be
// read, and everything that is wrong with any.
func (r *Reader) FoundFiles() (files []File, faults []FileFault) {
	fault := func(name string, err error) {
		if err != nil && len(faults) < maxFiles {
			faults = append(faults, FileFault{name, err})
		}
	}
	open, names, err := r.fileTrees()
	fault("", err)
	err = r.eachName(names["EmbeddedFiles"], func(name string, o Object) error {
		ref, _ := o.(Ref)
		if !open[ref] || len(files) == maxFiles {
			return foreign("file %q is not associated with the document", name)
		}
		delete(open, ref)
		f, err := r.file(o)
		if err == nil && Text(String(name)) != f.Name {
			err = foreign("file %q is listed as %q", f.Name, name)
		}
		files = append(files, f)
		fault(f.Name, err)
		return nil
	})
	fault("", err)
	if err == nil && len(open) > 0 {
		fault("", foreign("%d associated files are not listed by name", len(open)))
	}
	return files, faults
}

// fileTrees are the files associated with the document, and its names.
func (r *Reader) fileTrees() (open map[Ref]bool, names Dict, err error) {
	c, err := r.Catalog()
	if err != nil {
		return nil, nil, err
	}
	associated, err := r.array(c["AF"], "associated files")
	if err != nil {
		return nil, nil, err
	}
	open = map[Ref]bool{}
	for _, o := range associated {
		ref, _ := o.(Ref)
		open[ref] = true
	}
	names, err = r.dict(c["Names"], "names")
	return open, names, err
}

// file reads one file specification with its file.
func (r *Reader) file(o Object) (File, error) {
	d, err := r.dict(o, "file specification")
	if err != nil {
		return File{}, err
	}
	relation, _ := d["AFRelationship"].(Name)
	f := File{Name: text(d["UF"]), Description: text(d["Desc"]), Relationship: Relationship(relation)}
	ef, err := r.dict(d["EF"], "embedded file")
	if err != nil {
		return f, err
	}
	if text(d["F"]) != f.Name || ef["F"] != ef["UF"] {
		return f, foreign("file %q has two names or contents", f.Name)
	}
	s, b, err := r.stream(ef["F"], "embedded file")
	if err != nil {
		return f, err
	}
	mime, _ := s.Dict["Subtype"].(Name)
	f.MIME, f.Bytes = string(mime), b
	params, err := r.dict(s.Dict["Params"], "file parameters")
	if err != nil {
		return f, err
	}
	f.Modified, err = parseDate(text(params["ModDate"]))
	sum := md5.Sum(b)
	if err != nil || intOr(params["Size"], -1) != int64(len(b)) || params["CheckSum"] != String(sum[:]) {
		return f, malformed(0, "file %q does not agree with its size, date or checksum", f.Name)
	}
	return f, nil
}

// parseDate reads a date in the form that pdfDate writes.
func parseDate(s string) (time.Time, error) {
	const layout = "D:20060102150405-07'00'"
	t, err := time.Parse(layout, s)
	if err != nil {
		return t, fmt.Errorf("date %q", s)
	}
	return t, nil
}
