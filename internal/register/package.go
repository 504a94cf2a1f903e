package register

import (
	"bytes"
	"errors"
	"slices"

	"asleft/internal/archive"
	"asleft/internal/data"
	"asleft/internal/sign"
)

// Reasons why a package is not taken into the register.
var (
	ErrNoData   = errors.New("no data file inside it nor in the folder beside it")
	ErrManifest = errors.New("its data file is not the one that its manifest lists")
)

// errOther is a PDF that this program did not make, or that holds no tower: a
// crew card, say.
var errOther = errors.New("no package")

// maker stands in the properties of every PDF of this program, in plain text.
var maker = []byte("<pdf:Producer>asleft ")

// readPackage reads a tower from a PDF, and the SHA-256 of its workbooks. Folder
// reads a file of the folder that an archive-only package has beside it; nil
// where there is none.
func readPackage(file []byte, folder func(name string) []byte) (Tower, []string, error) {
	if !bytes.Contains(file, maker) {
		return Tower{}, nil, errOther
	}
	r, err := archive.Open(file)
	if err != nil {
		return Tower{}, nil, err
	}
	manifest, doc, err := dataOf(r, folder)
	if err != nil {
		return Tower{}, nil, err
	}
	t := towerOf(doc)
	t.InPackage, t.Fingerprint = true, data.Fingerprint(manifest)
	if t.Signatures, err = signatures(r, file); err != nil {
		return Tower{}, nil, err
	}
	var sources []string
	for _, f := range doc.Files {
		sources = append(sources, f.SHA256)
	}
	return t, sources, nil
}

// Data finds the manifest and the data file of a package and sees that the one
// lists the other. Beside reads a file of the folder beside it.
func Data(pdf []byte, beside func(name string) []byte) (manifest []byte, d *data.Document, err error) {
	r, err := archive.Open(pdf)
	if err != nil {
		return nil, nil, err
	}
	return dataOf(r, beside)
}

func dataOf(r *archive.Reader, folder func(name string) []byte) ([]byte, *data.Document, error) {
	files, err := r.Attachments()
	if err != nil {
		return nil, nil, err
	}
	find := func(name string) []byte {
		for i := range files {
			if files[i].Name == name {
				return files[i].Bytes
			}
		}
		return nil
	}
	if len(files) == 0 {
		fields, err := r.Fields()
		if err != nil {
			return nil, nil, err
		}
		if len(fields) == 0 {
			return nil, nil, errOther // nobody signs a crew card
		}
		find = folder
	}
	manifest, b := find(data.ManifestName), find(data.DataName)
	if manifest == nil || b == nil {
		return nil, nil, ErrNoData
	}
	if !bytes.Contains(manifest, []byte(hash(b))) {
		return nil, nil, ErrManifest
	}
	doc, err := data.Read(b)
	return manifest, doc, err
}

// signatures checks the signed fields for themselves: whom to trust is not for
// a register to say.
func signatures(r *archive.Reader, file []byte) (Signatures, error) {
	fields, err := r.Fields()
	if err != nil {
		return Signatures{}, err
	}
	s := Signatures{Fields: len(fields)}
	if !slices.ContainsFunc(fields, func(f archive.SignatureField) bool { return f.Signature != nil }) {
		return s, nil
	}
	report, err := sign.Verify(file, sign.Trusted{})
	if err != nil {
		return Signatures{}, err
	}
	for i := range report.Fields {
		if f := &report.Fields[i]; f.Signed {
			s.Signed = append(s.Signed, Signature{Field: f.Name, By: f.Signatory, Level: string(f.Level), Intact: f.Intact()})
		}
	}
	return s, nil
}
